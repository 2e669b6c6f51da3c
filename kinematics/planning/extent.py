"""How far back replacement teeth must go: what each length of a set-up leaves without a stop."""

from dataclasses import dataclass, field
from typing import Final, Literal

from kinematics.conventions import TOLD_IF_SET
from kinematics.planning.slide import LEVEL_MM
from kinematics.tooth_codes import place

#: What holds an implant, as a sentence says it.
ITS_IMPLANT: Final = "its implant"

BaseEnd = Literal["distal extension", "tooth-bounded", "front teeth only", "complete denture"]


@dataclass(frozen=True)
class OpposingTooth:
    """One tooth of the other arch that a base meets or faces, or that stands behind those.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    stops, stops_with_base, stops_without_base : int
        Its centric stops as the teeth are set up; those of them with teeth of this base; and all it
        has when the jaw closes without these.
    held_by : str
        What else keeps it in its place when the teeth of this base are left out; empty for nothing.
    is_behind : bool
        Whether it stands behind everything that the base faces.
    """

    tooth: int
    stops: int
    stops_with_base: int
    stops_without_base: int
    held_by: str
    is_behind: bool


@dataclass(frozen=True)
class BareTooth:
    """A tooth without a centric stop.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    gap_mm : float
        Shortest distance from the nearest tooth of the other arch in MI; inf beyond 3 mm.
    held_by : str
        What keeps it in its place all the same; empty for nothing.
    """

    tooth: int
    gap_mm: float
    held_by: str


@dataclass(frozen=True)
class LoadAcross:
    """The largest load that a set-up brings upon its framework, for 100 N of closing force.

    Attributes
    ----------
    across_n : float
        Across its replacement teeth, all together; 0 where they carry nothing beyond the near-MI
        length.
    about_fulcrum_nmm : float or None
        Turning about the fulcrum line in the same pose, N mm; None without such a line or a load.
    excursion : str
        Where it is largest; empty where there is none.
    travel_mm : float
        Travel there.
    across_range_n, about_fulcrum_range_nmm : (float, float) or None
        Least and greatest of both there over force tilt and mucosa ratio (of turning its size, a
        negative one the other way); None where there is nothing to tell a range of.
    always_balanced : bool
        Whether supports balance the closing force over that whole range.
    """

    across_n: float
    about_fulcrum_nmm: float | None
    excursion: str
    travel_mm: float
    across_range_n: tuple[float, float] | None = None
    about_fulcrum_range_nmm: tuple[float, float] | None = None
    always_balanced: bool = True


@dataclass(frozen=True)
class SetUp:
    """Some teeth of a base, the jaw closed in MI on what is left.

    Attributes
    ----------
    teeth, dropped : tuple of int
        Teeth of the base that stay, and those left out.
    closes_mm : float
        How far the lower incisal point goes on closing, along its arc, beyond where all teeth of
        the base stop it; inf where nothing else would meet.
    stops : int
        Centric stops of all teeth.
    bare : tuple of BareTooth
        Opposing teeth without a stop.
    bare_sides : tuple of str
        Sides, "right" or "left", on which no back tooth has a stop any more.
    on_ridge : tuple of int
        Teeth of this set-up that stand on the ascending ridge.
    load : LoadAcross or None
        What it brings upon the base; None where that was not worked out.
    """

    teeth: tuple[int, ...]
    dropped: tuple[int, ...]
    closes_mm: float
    stops: int
    bare: tuple[BareTooth, ...]
    bare_sides: tuple[str, ...] = ()
    on_ridge: tuple[int, ...] = ()
    load: LoadAcross | None = field(default=None, metadata=TOLD_IF_SET)

    @property
    def left(self) -> tuple[int, ...]:
        """Teeth without a stop that nothing holds."""
        return tuple(tooth.tooth for tooth in self.bare if not tooth.held_by)

    @property
    def held(self) -> tuple[BareTooth, ...]:
        """Teeth without a stop that something else holds."""
        return tuple(tooth for tooth in self.bare if tooth.held_by)

    @property
    def keeps_height(self) -> bool:
        """Whether the jaw closes no further, within 0.02 mm."""
        return self.closes_mm <= LEVEL_MM

    @property
    def keeps_support(self) -> bool:
        """Whether it keeps the height, and back stops on each side that has some."""
        return self.keeps_height and not self.bare_sides


@dataclass(frozen=True)
class RidgeSlope:
    """How the crest of the ridge runs below one replacement tooth.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    rise_deg : float
        How steeply the crest comes nearer to the occlusal plane towards the back; negative where it
        leaves it.
    ascends : bool
        Whether no tooth belongs there.
    """

    tooth: int
    rise_deg: float
    ascends: bool


@dataclass(frozen=True)
class FurtherTooth:
    """A tooth behind a set-up that would stand opposite to what it leaves: told by place alone.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    holds : tuple of int
        Teeth that the set-up leaves and that it would stand opposite to.
    width_mm : float
        Width that it was given.
    facing_mm : float
        By how much of it, along the arch, it would face the one of them that it faces least.
    rise_deg : float or None
        Slope of the ridge below it, as of `RidgeSlope`; None where no crest is known so far back.
    """

    tooth: int
    holds: tuple[int, ...]
    width_mm: float
    facing_mm: float
    rise_deg: float | None


@dataclass(frozen=True)
class Extent:
    """How far back the teeth of one base must go.

    Attributes
    ----------
    base : str
        Name of the denture base.
    end : str
        "distal extension" where on one side no tooth stands behind it, "tooth-bounded", "front
        teeth only", or "complete denture" where its arch has no natural tooth.
    opposing : tuple of OpposingTooth
        From the patient's right to left.
    set_ups : tuple of SetUp
        Those compared, shortest first, of equals the one nearest to the front; the last is the one
        of the case.
    slopes : tuple of RidgeSlope
        The ridge below its back teeth, where its crest is known.
    crest_given : bool
        Whether the case gives the crest; else it was worked out.
    faces_replacements : bool
        Whether all teeth opposite are replacement teeth, which do not erupt.
    further : tuple of FurtherTooth
        Teeth behind it that would hold what it leaves, at most one a side.
    """

    base: str
    end: BaseEnd
    opposing: tuple[OpposingTooth, ...]
    set_ups: tuple[SetUp, ...]
    slopes: tuple[RidgeSlope, ...]
    crest_given: bool
    faces_replacements: bool
    further: tuple[FurtherTooth, ...] = field(default=(), metadata=TOLD_IF_SET)

    @property
    def full(self) -> SetUp:
        """The set-up of the case, all teeth of the base."""
        return self.set_ups[-1]

    @property
    def is_told_by_stops(self) -> bool:
        """Whether stops tell how far back the teeth must go: natural teeth here and opposite."""
        aside = self.end in ("front teeth only", "complete denture")
        return not aside and not self.faces_replacements

    @property
    def unmet(self) -> tuple[int, ...]:
        """Teeth that it faces and leaves all the same: with them no length of it is enough."""
        behind = {tooth.tooth for tooth in self.opposing if tooth.is_behind}
        return tuple(code for code in self.full.left if code not in behind)

    @property
    def shortest(self) -> SetUp | None:
        """The shortest set-up that leaves no tooth and keeps the support; none on ascending ridge.

        What even the teeth of the case leave cannot be asked of fewer. None where it would take a
        tooth on the ascending ridge.
        """
        return next((item for item in self.set_ups if self.is_enough(item)), None)

    @property
    def best_off_ridge(self) -> SetUp:
        """What comes nearest to it without a tooth on the ascending ridge."""
        allowed = [item for item in self.set_ups if not item.on_ridge] or [self.set_ups[0]]
        return min(allowed, key=lambda item: (not item.keeps_support, len(item.left)))

    def leaves_more(self, item: SetUp) -> tuple[int, ...]:
        """Return the teeth that a set-up leaves and all teeth of the base do not."""
        return tuple(code for code in item.left if code not in self.full.left)

    def is_enough(self, item: SetUp) -> bool:
        """Tell whether a set-up does all that is asked of one."""
        return item.keeps_support and not self.leaves_more(item) and not item.on_ridge


def nearest_to_front(teeth: tuple[int, ...]) -> tuple[int, tuple[int, ...]]:
    """Return what orders set-ups: how many teeth, then how far from the midline they stand."""
    return len(teeth), tuple(sorted(place(code) for code in teeth))
