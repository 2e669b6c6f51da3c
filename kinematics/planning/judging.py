"""What contacts are judged by: schemes, tolerances and limits, each with where it comes from."""

import math
from collections.abc import Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.planning.denture_parts import Rest, Ridge
from kinematics.planning.findings import Figure
from kinematics.planning.joined_teeth import unlike_teeth
from kinematics.tooth_codes import is_upper

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)

Scheme = Literal["canine", "group", "balanced"]
BaseScheme = Literal[
    "contacts only in MI",
    "shared on the working side",
    "balanced",
    "as the existing guidance",
]

ReadingPosition = Annotated[float, Field(ge=0.0, le=10.0)]
ReadingTolerance = Annotated[float, Field(gt=0.0, le=500.0)]


@dataclass(frozen=True, config=_STRICT)
class JudgingSettings:
    """How contacts of the natural teeth, and contacts in general, are judged.

    Attributes
    ----------
    scheme : "canine", "group" or "balanced"
        Articulation aimed at for the natural teeth. Denture bases have their own.
    tolerance_mm : float, 0.001 to 0.2
        Shortest distance up to which two surfaces count as touching.
    readings_mm : tuple of float, 0 to 10, ascending
        Travel from the start of an excursion at which contacts are read.
    reading_tolerances_um : tuple of float, 0 to 500, ascending
        Tolerances (foil thicknesses) at which each position is read, micrometres.
    near_mi_mm : float, 0 to 2
        Contacts and approaches within this travel from the start are notes only.
    approach_margin_mm : float, 0 to 0.8
        A replacement tooth that comes nearer than this against its scheme is flagged.
    record_scatter_mm : float, 0 to 2
        Scatter of the records the mounting rests on: 0 for built-in teeth, 0.3 for recorded
        mountings unless known better. What is decided by less is "not determined"; a bite in
        which casts were scanned rests on no record, and is judged by the tolerances alone.
    friction_coefficient : float, 0 to 1
        Friction between teeth when a lateral load is read; 0 leaves it out.
    balanced_tolerance_mm : float, 0.001 to 1
        Tolerance of balanced articulation, for the mucosa under the bases.
    stop_tolerance_mm : float, 0.0001 to 0.2
        Largest arc gap of a centric stop; on scans set it to the contact tolerance.
    ascending_ridge_deg : float, 0 to 60
        Steepest slope of the ridge, against the occlusal plane, on which a replacement tooth is
        set.
    """

    scheme: Scheme = "canine"
    tolerance_mm: Annotated[float, Field(ge=0.001, le=0.2)] = 0.02
    readings_mm: tuple[ReadingPosition, ...] = (0.0, 0.5, 1.0, 2.0, 3.0)
    reading_tolerances_um: tuple[ReadingTolerance, ...] = (8.0, 20.0, 40.0, 100.0)
    near_mi_mm: Annotated[float, Field(ge=0.0, le=2.0)] = 0.5
    approach_margin_mm: Annotated[float, Field(ge=0.0, le=0.8)] = 0.2
    record_scatter_mm: Annotated[float, Field(ge=0.0, le=2.0)] = 0.0
    friction_coefficient: Annotated[float, Field(ge=0.0, le=1.0)] = 0.0
    balanced_tolerance_mm: Annotated[float, Field(ge=0.001, le=1.0)] = 0.1
    stop_tolerance_mm: Annotated[float, Field(ge=0.0001, le=0.2)] = 0.002
    ascending_ridge_deg: Annotated[float, Field(ge=0.0, le=60.0)] = 20.0

    @property
    def reading_tolerances_mm(self) -> tuple[float, ...]:
        """The tolerances of readings, mm."""
        return tuple(1e-3 * tolerance_um for tolerance_um in self.reading_tolerances_um)

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "JudgingSettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for name in ("readings_mm", "reading_tolerances_um"):
            values = getattr(self, name)
            if not values or list(values) != sorted(set(values)):
                shown = ", ".join(f"{value:g}" for value in values)
                yield (name,), f"{name} = [{shown}]: wanted numbers, each greater than the last"
        last = max(self.readings_mm, default=math.inf)
        if last <= self.near_mi_mm:
            yield (
                ("readings_mm", "near_mi_mm"),
                f"readings_mm ends at {last:g}, within near_mi_mm = {self.near_mi_mm:g}: nothing"
                " would be judged",
            )


@dataclass(frozen=True, config=_STRICT)
class DentureBase:
    """One base with its replacement teeth.

    Attributes
    ----------
    name : str
        What to call it.
    teeth : tuple of int
        ISO 3950 numbers of its replacement teeth, all in one arch.
    abutments : tuple of int
        Teeth of the same arch that hold it; none for a complete denture.
    scheme : str
        "contacts only in MI", "shared on the working side", "balanced" or "as the existing
        guidance".
    connector : str
        What joins it rigidly to other bases of its arch, as "palatal strap": bases with the same
        connector are one framework. Left out: a framework of its own.
    rests : list of Rest
        What lies on teeth of its arch, also of the other side; such teeth are abutments too. Left
        out where there are abutments: the usual ones are assumed.
    guide_planes : list of int
        Abutments with a guide plane that faces the base.
    ridge : Ridge
        What lies below it.
    """

    name: Annotated[str, Field(min_length=1, max_length=80)]
    teeth: Annotated[tuple[int, ...], Field(min_length=1)]
    abutments: tuple[int, ...] = ()
    scheme: BaseScheme = "contacts only in MI"
    connector: Annotated[str, Field(max_length=80)] = ""
    rests: Annotated[tuple[Rest, ...], Field(max_length=32)] = ()
    guide_planes: tuple[int, ...] = ()
    ridge: Ridge = Ridge()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "DentureBase":
        named = f"base '{self.name}'"
        refuse([*unlike_teeth(named, (*self.teeth, *self.abutments))])
        refuse(self._unlike_supports(named))
        return self

    @property
    def held_by(self) -> tuple[int, ...]:
        """ISO 3950 numbers of abutments, then of teeth that only bear rests."""
        return tuple(dict.fromkeys((*self.abutments, *(rest.tooth for rest in self.rests))))

    def _unlike_supports(self, named: str) -> Iterator[Contradiction]:
        """Yield what rests and guide planes contradict."""
        for number, rest in enumerate(self.rests):
            where = f"{named}: rests[{number}]"
            if rest.tooth in self.teeth:
                yield (
                    (),
                    f"{where}: {rest.tooth} is a replacement tooth of this base; a rest lies on a "
                    "natural tooth",
                )
            elif is_upper(rest.tooth) != is_upper(self.teeth[0]):
                arch = "upper" if is_upper(self.teeth[0]) else "lower"
                yield (
                    (),
                    f"{where}: {rest.tooth} stands in the other arch; name {arch} teeth",
                )
            if rest in self.rests[:number]:
                yield (), f"{where}: {rest.tooth} {rest.place} stands twice; name it once"
        for number, code in enumerate(self.guide_planes):
            where = f"{named}: guide_planes[{number}]"
            if code not in self.abutments:
                known = ", ".join(map(str, self.abutments)) or "none"
                yield (
                    (),
                    f"{where} = {code} is no abutment of this base; its abutments are: {known}",
                )
            if code in self.guide_planes[:number]:
                yield (), f"{where} = {code} stands twice; name it once"


#: Where the default of each setting comes from.
DEFAULT_SOURCES: Final[dict[str, str]] = {
    "scheme": "common practice",
    "tolerance_mm": (
        "common practice: 20 micrometre foil; four of eleven foils tested were at most 21"
        " micrometres thick (Brizuela-Velasco et al., Int J Prosthodont 2015;28:360)"
    ),
    "readings_mm": (
        "Ogawa et al., J Oral Rehabil 2001;28:976-981 (0.5, 1, 2 and 3 mm); 0 is the start"
    ),
    "reading_tolerances_um": (
        "foil thicknesses in use: Brizuela-Velasco et al., Int J Prosthodont 2015;28:360"
    ),
    "near_mi_mm": "common practice: freedom close to maximal intercuspation of about 0.5 mm",
    "approach_margin_mm": "chosen for this program; of the order of the scatter of a record",
    "record_scatter_mm": (
        "0 for built-in teeth; 0.3 mm for recorded mountings: centric records differ by 0.33 to"
        " 0.44 mm between materials (Utz et al., J Oral Rehabil 2002;29:458-466)"
    ),
    "friction_coefficient": "chosen for this program: left out unless asked for",
    "balanced_tolerance_mm": "common practice: what the mucosa under a base gives way at once",
    "stop_tolerance_mm": "chosen for this program: evenness of the stops of built-in teeth",
    "ascending_ridge_deg": (
        "common practice, from memory: no tooth is set where the ridge rises to the retromolar pad"
        " or on the slope of the tuberosity; the angle is chosen for this program"
    ),
}

#: What a setting is called where it is a threshold.
_THRESHOLD_NAMES: Final[dict[str, str]] = {
    "tolerance_mm": "contact tolerance",
    "near_mi_mm": "near-MI length",
    "approach_margin_mm": "approach margin",
    "balanced_tolerance_mm": "balanced tolerance",
    "stop_tolerance_mm": "largest arc gap of a stop",
}

_DEFAULTS: Final = JudgingSettings()


def source_of(settings: JudgingSettings, field: str) -> str:
    """Return where the value of a setting comes from: its source, or "set for this case"."""
    if getattr(settings, field) == getattr(_DEFAULTS, field):
        return DEFAULT_SOURCES[field]
    return "set for this case"


def threshold_of(settings: JudgingSettings, field: str) -> Figure:
    """Return the value of a setting, mm, as a threshold with its name."""
    return Figure(_THRESHOLD_NAMES[field], getattr(settings, field), "mm")


#: What to print beside every statement about excursive contacts.
REPRODUCIBILITY: Final = (
    "With individual settings, 82 % of the teeth that touch in protrusion and 90 % of those that"
    " touch in lateral excursions were found again on mounted casts, and contacts that were not"
    " there appeared in 20 to 27 % of people (Tamaki et al., J Prosthet Dent 1997;78:373-378)."
)

#: How well contacts are found again, and how far mountings go wrong, as published.
PUBLISHED_LIMITS: Final[tuple[str, ...]] = (
    REPRODUCIBILITY,
    "Their exact place on the tooth was found again less often: for 66 % in protrusion and for 81 %"
    " in lateral excursions (same paper).",
    "Centric records differ by 0.33 to 0.44 mm between materials (Utz et al., J Oral Rehabil"
    " 2002;29:458-466).",
    "With an arbitrary hinge axis and a record 2 mm open, the error at the second molar was below"
    " 0.3 mm in 87 % of 57 people, 0.3 to 0.5 mm in 12 % and above 0.5 mm in 1 %; it rises with the"
    " thickness of the record (Morneburg & Proeschel, Int J Prosthodont 2002;15:358-364).",
    "An arbitrary axis instead of the true one moved edge-to-edge contacts by 0.2 mm in protrusion"
    " and 0.1 mm in lateral excursions (Jaarda, Clayton & Myers, J Prosthet Dent 1978;39:696).",
    "One degree of error in the condylar guide inclination moves a second molar by about 0.04 mm"
    " after 3 mm of protrusion (geometry, for an inclination near 30 degrees and the teeth guiding"
    " in front).",
)

#: Scatter of a recorded mounting where nothing better is known, mm; source: `DEFAULT_SOURCES`.
USUAL_SCATTER_MM: Final = 0.3
