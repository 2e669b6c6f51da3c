"""What a user sets about the built-in dentition: sizes, overlaps, wear, lost and moved teeth."""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Mapping
from typing import Annotated, Final

from pydantic import ConfigDict, Field, field_validator, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.teeth.crown_table import WHOLE_TOOTH, crown_table
from kinematics.teeth.mi_scheme_names import NATURAL, MIScheme
from kinematics.tooth_codes import PERMANENT, is_posterior, is_upper, place

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

#: Teeth that are always made, and those that are made on demand.
MADE: Final = tuple(code for code in PERMANENT if place(code) <= 7)
THIRD_MOLARS: Final = tuple(code for code in PERMANENT if place(code) == 8)
#: Upper teeth that can stand in crossbite: beside the first premolar the canine bars the way.
CROSSED: Final = tuple(code for code in MADE if is_upper(code) and place(code) >= 5)


def _kind(code: int) -> str:
    return f"{'U' if is_upper(code) else 'L'}{place(code)}"


#: All cusps, as "46 MB".
CUSPS: Final = tuple(
    f"{code} {name}"
    for code in PERMANENT
    if is_posterior(code)
    for name in crown_table().posterior[_kind(code)].cusp_names
)
_OF_DENTITION: Final = "teeth of the built-in dentition"

Wear = Annotated[float, Field(ge=0.0, le=0.8)]
Eruption = Annotated[float, Field(gt=0.0, le=4.0)]


def _checked(codes: Iterable[int], accepted: tuple[int, ...], what: str) -> None:
    for code in codes:
        if code not in accepted:
            known = ", ".join(map(str, accepted))
            raise ValueError(f"{code}: {what} may be any of {known} (ISO 3950)")


@dataclass(frozen=True, config=_STRICT)
class DentitionSettings:
    """The built-in dentition: 28 to 32 invented teeth in published sizes, settled into MI.

    Attributes
    ----------
    triangles_per_arch : int, 10000 to 400000
        About so many triangles in each arch of fourteen teeth; third molars come on top. More take
        longer, and can change verdicts: gaps differ by some hundredths of a millimetre between
        resolutions, and with them which pair touches next and what lies close to a limit. Compare
        results of one resolution only.
    cusp_inclination_change_deg : float, -8 to 8
        How much steeper (+) or flatter (-) all slopes of premolar and molar cusps are than in the
        table; steeper cusps stand over deeper fossae. At 0 the slopes that face the middle of a
        tooth have 34 to 44 degrees, the mesial and distal ones 22 to 36, to the plane across the
        axis of the crown.
    mi_scheme : {"natural", "cusp-ridge", "cusp-fossa"}
        Where supporting cusps rest in MI: few contacts as most people have them; lower buccal cusps
        on the marginal ridges of two neighbours (one tooth to two teeth); or every cusp in a fossa
        of its own opponent (one tooth to one tooth). See `mi_schemes`.
    overbite_mm : float, 1 to 4
        Height between the edges of the upper and lower central incisors in MI. Class I mean 2.4
        +/- 2.1 (Appl Sci 2025;15(18):10231).
    open_bite_mm : float, 0 to 5
        Anterior open bite: upper incisors are raised after all teeth have settled until their edges
        stand so far above the lower ones, canines by half as much. 0: none, `overbite_mm` holds.
    front_gap_um : float, 0 to 300
        Arc gap at which upper front teeth are left from the lower ones in MI, micrometres. Light
        contact, 10 to 30 under light closing, is common practice; complete dentures are given more.
    overjet_mm : float, 2.2 to 4.2
        Distance forward between the labial ends of these edges. Class I mean 2.7 +/- 2.4 (same).
    wear_canine_mm : float, 0 to 0.8
        Loss of the lingual, guiding surface of both upper canines after the set-up.
    wear_mm : mapping of tooth number to float, 0 to 0.8
        What a tooth loses after the set-up, as { 13 = 0.4, 46 = 0.2 }: an upper front tooth its
        lingual, guiding surface (for a canine this replaces `wear_canine_mm`), a lower front tooth
        height at its edge or tip, a premolar or molar height of every supporting cusp. Attrition
        takes 0.01 to 0.04 mm a year (Pintado et al., J Prosthet Dent 1997;77:313, 0.011 a year in
        young adults; textbooks more).
    wear_cusps_mm : mapping of cusp to float, 0 to 0.8
        Loss of height of single cusps, named as stops are, as { "46 MB" = 0.3 }; it replaces what
        `wear_mm` says of that cusp, and may name cusps that support nothing.
    arch_width_scale : float, 0.97 to 1.03
        Factor on the widths of both arches at canines and molars, sizes of teeth kept.
    size_scale : float, 0.85 to 1.15
        Factor on everything but overbite, overjet, wear and over-eruption: teeth and arches.
    crossbite : tuple of int
        Upper teeth, 15 to 17 and 25 to 27, that stand in crossbite with the lower
        tooth of their number: moved to the palate, the lower one to the cheek.
    third_molars : tuple of int
        Which of 18, 28, 38 and 48 are there, behind the second molars and settled against what
        stands opposite; the other teeth stand and are shaped as without them.
    missing : tuple of int
        Teeth that are lost, as a chart lists them: a third molar may be named whether or not
        `third_molars` makes it, and so may a tooth that a denture base or a bridge replaces, which
        is set up all the same.
    over_erupted_mm : mapping of tooth number to float, over 0 to 4
        How far a tooth has moved along its own axis, mm, after all others had settled, as
        { 46 = 1.2 }.
    replacements : tuple of int
        Replacement teeth: set up against what opposes them (moved rigidly, their cusps settled)
        after teeth have over-erupted.
    incisal_point_ahead_mm, incisal_point_below_mm : float
        Place of the lower incisal point from the hinge frame's origin in MI, 60 to 110 and 10 to
        60. A triangle of condyles and incisal point with sides of about 100 mm and an angle of
        about 20 degrees to the occlusal plane is common (Int J Comput Dent 2015, PMID 26734666).
    """

    triangles_per_arch: Annotated[int, Field(ge=10_000, le=400_000)] = 40_000
    cusp_inclination_change_deg: Annotated[float, Field(ge=-8.0, le=8.0)] = 0.0
    mi_scheme: MIScheme = NATURAL
    overbite_mm: Annotated[float, Field(ge=1.0, le=4.0)] = 2.1
    open_bite_mm: Annotated[float, Field(ge=0.0, le=5.0)] = 0.0
    front_gap_um: Annotated[float, Field(ge=0.0, le=300.0)] = 15.0
    overjet_mm: Annotated[float, Field(ge=2.2, le=4.2)] = 3.25
    wear_canine_mm: Wear = 0.0
    wear_mm: Mapping[int, Wear] = Field(default_factory=dict)
    wear_cusps_mm: Mapping[str, Wear] = Field(default_factory=dict)
    arch_width_scale: Annotated[float, Field(ge=0.97, le=1.03)] = 1.0
    size_scale: Annotated[float, Field(ge=0.85, le=1.15)] = 1.0
    crossbite: tuple[int, ...] = ()
    third_molars: tuple[int, ...] = ()
    missing: tuple[int, ...] = ()
    over_erupted_mm: Mapping[int, Eruption] = Field(default_factory=dict)
    replacements: tuple[int, ...] = ()
    incisal_point_ahead_mm: Annotated[float, Field(ge=60.0, le=110.0)] = 84.0
    incisal_point_below_mm: Annotated[float, Field(ge=10.0, le=60.0)] = 33.0

    @field_validator("crossbite")
    @classmethod
    def _can_stand_in_crossbite(cls, value: tuple[int, ...]) -> tuple[int, ...]:
        _checked(value, CROSSED, "teeth in crossbite")
        return value

    @field_validator("third_molars")
    @classmethod
    def _are_third_molars(cls, value: tuple[int, ...]) -> tuple[int, ...]:
        _checked(value, THIRD_MOLARS, "third molars")
        return value

    @field_validator("wear_mm", "missing", "over_erupted_mm", "replacements")
    @classmethod
    def _teeth_exist(
        cls, value: tuple[int, ...] | Mapping[int, float]
    ) -> tuple[int, ...] | Mapping[int, float]:
        _checked([code for code in value if code not in THIRD_MOLARS], MADE, _OF_DENTITION)
        return value

    @field_validator("wear_cusps_mm")
    @classmethod
    def _worn_cusps_exist(cls, value: Mapping[str, float]) -> Mapping[str, float]:
        for cusp in value:
            if cusp not in CUSPS:
                tooth = cusp.split(" ")[0]
                known = [name for name in CUSPS if name.split(" ")[0] == tooth]
                accepted = ", ".join(known) or 'a tooth from 4 to 8 and its cusp, as "46 MB"'
                raise ValueError(f"{cusp}: no such cusp; accepted are {accepted}")
        return value

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "DentitionSettings":
        refuse([*self._contradictions(), *self._absent_third_molars()])
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for name in ("crossbite", "third_molars", "missing", "replacements"):
            for code, count in Counter(getattr(self, name)).items():
                if count > 1:
                    yield (name,), f"{code} stands {count} times in {name}; name it once"
        for code in self.over_erupted_mm:
            if code in self.missing:
                yield (
                    ("missing", "over_erupted_mm"),
                    f"{code} is missing: it cannot have over-erupted; leave it out of one of them",
                )
        for code in self.replacements:
            if code in self.over_erupted_mm:
                yield (
                    ("over_erupted_mm", "replacements"),
                    f"{code} is a replacement tooth: it cannot have over-erupted",
                )

    def _absent_third_molars(self) -> Iterator[Contradiction]:
        worn = {int(cusp.split(" ")[0]): None for cusp in self.wear_cusps_mm}
        named = {
            "wear_mm": self.wear_mm,
            "wear_cusps_mm": worn,
            "over_erupted_mm": self.over_erupted_mm,
            "replacements": self.replacements,
        }
        for name, codes in named.items():
            for code in codes:
                if code not in self.made:
                    yield (
                        (name, "third_molars"),
                        f"{name} names the third molar {code}, which is not there; add it to "
                        "third_molars or leave it out",
                    )

    @property
    def made(self) -> tuple[int, ...]:
        """Teeth that are made, those in `missing` among them, ISO 3950."""
        return tuple(code for code in PERMANENT if code in MADE or code in self.third_molars)

    def standing(self, carried: Collection[int]) -> tuple[int, ...]:
        """Return the teeth that are there, some of them carried by denture bases or bridges."""
        lost = set(self.missing) - set(carried)
        return tuple(code for code in self.made if code not in lost)

    def emptied_arches(self, carried: Collection[int]) -> Iterator[str]:
        """Yield what to say of an arch without any tooth; `carried` as for `standing`."""
        for arch, upper in (("upper", True), ("lower", False)):
            if not any(is_upper(code) == upper for code in self.standing(carried)):
                yield (
                    f"dentition: missing leaves no tooth in the {arch} arch, so nothing can meet; "
                    "keep one at least, or name a denture base that replaces some"
                )

    def worn(self) -> dict[int, dict[str, float]]:
        """Return what worn teeth have lost, mm: by cusp, under `WHOLE_TOOTH` on front teeth."""
        worn: dict[int, dict[str, float]] = {}
        by_tooth = {13: self.wear_canine_mm, 23: self.wear_canine_mm, **self.wear_mm}
        for code, wear in by_tooth.items():
            form = crown_table().posterior.get(_kind(code))
            names = (WHOLE_TOOTH,) if form is None else form.supporting
            worn[code] = dict.fromkeys(names, wear)
        for cusp, wear in self.wear_cusps_mm.items():
            tooth, name = cusp.split(" ")
            worn.setdefault(int(tooth), {})[name] = wear
        lost = {
            code: {name: wear for name, wear in loss.items() if wear > 0.0}
            for code, loss in worn.items()
        }
        return {code: loss for code, loss in lost.items() if loss}
