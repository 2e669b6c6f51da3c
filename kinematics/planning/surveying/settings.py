"""What a user sets about the survey of a cast: its tilt, or that one is to be found."""

from collections.abc import Callable, Iterator
from typing import Annotated, Final, Literal

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import Contradiction, refuse
from kinematics.tooth_codes import is_upper, unknown_code

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)
KEY: Final = "survey"

TiltKind = Literal["given", "found"]
Tilt = Annotated[float, Field(ge=-30.0, le=30.0)]


@dataclass(frozen=True, config=_STRICT)
class ArchSurvey:
    """How one cast is tilted on the surveyor: its path of insertion.

    Tilts are from the occlusal plane of the arch (the plane nearest to the edges and cusps of its
    teeth), the cast standing on its base with the teeth up, as seen from the side and from the
    front. 0 and 0: the path is square to the occlusal plane.

    Attributes
    ----------
    tilt : "given" or "found"
        As the next two say, or searched for: see `found_tilt_limit_deg`.
    forward_deg : float, -30 to 30
        By how much the front of the cast is lowered (anterior tilt); negative: raised.
    left_deg : float, -30 to 30
        By how much the patient's left side of the cast is lowered; negative: the right side.
    clasps : list of tooth numbers
        Natural teeth that bear a clasp. Left out: the teeth with a rest on a marginal ridge, or
        with any rest where there is none such.
    """

    tilt: TiltKind = "given"
    forward_deg: Tilt = 0.0
    left_deg: Tilt = 0.0
    clasps: tuple[int, ...] = ()

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "ArchSurvey":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        if self.tilt == "found" and (self.forward_deg or self.left_deg):
            yield (
                ("tilt", "forward_deg", "left_deg"),
                "tilt = 'found', but forward_deg or left_deg is set: leave these out, or set tilt ="
                " 'given'",
            )
        for number, code in enumerate(self.clasps):
            yield from unknown_code(code, "clasps", name=f"clasps[{number}]")
        for code in sorted({code for code in self.clasps if self.clasps.count(code) > 1}):
            yield ("clasps",), f"clasps: {code} is named twice; name it once"


@dataclass(frozen=True, config=_STRICT)
class SurveySettings:
    """Survey of one cast or of both: path of insertion, undercuts, guide planes.

    Attributes
    ----------
    upper, lower : ArchSurvey, optional
        A cast that is left out is not surveyed.
    undercut_mm : float, 0.1 to 1
        Depth of undercut that the clasps need: 0.25 for cast cobalt-chromium, 0.50 for wrought
        wire (common practice).
    guide_plane_deg : float, 0.5 to 10
        A proximal surface that leans by no more than this from the path guides (chosen for this
        program).
    guide_plane_height_mm : float, 0.5 to 6
        Wanted height of a guide plane along the path (common practice: 2 to 4 mm).
    found_tilt_limit_deg : float, 1 to 20
        A tilt is looked for up to so far from the occlusal plane in any direction (default chosen
        for this program).
    """

    upper: ArchSurvey | None = None
    lower: ArchSurvey | None = None
    undercut_mm: Annotated[float, Field(ge=0.1, le=1.0)] = 0.25
    guide_plane_deg: Annotated[float, Field(ge=0.5, le=10.0)] = 3.0
    guide_plane_height_mm: Annotated[float, Field(ge=0.5, le=6.0)] = 3.0
    found_tilt_limit_deg: Annotated[float, Field(ge=1.0, le=20.0)] = 10.0

    @property
    def arches(self) -> tuple[tuple[bool, ArchSurvey], ...]:
        """Whether it is the upper, and how it is surveyed, of every cast that is."""
        both = ((True, self.upper), (False, self.lower))
        return tuple((upper, arch) for upper, arch in both if arch is not None)

    @property
    def named_teeth(self) -> tuple[tuple[str, int], ...]:
        """Which list names a tooth, and its ISO 3950 number."""
        return tuple(
            (f"{KEY}.{'upper' if upper else 'lower'}.clasps", code)
            for upper, arch in self.arches
            for code in arch.clasps
        )

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "SurveySettings":
        refuse(self._contradictions())
        return self

    def _contradictions(self) -> Iterator[Contradiction]:
        for upper, arch in self.arches:
            side, other = ("upper", "lower") if upper else ("lower", "upper")
            for code in arch.clasps:
                if is_upper(code) != upper:
                    yield (
                        (f"{side}.clasps",),
                        f"{side}.clasps: {code} is a tooth of the {other}; name it in"
                        f" {other}.clasps",
                    )


def survey_contradictions(
    survey: SurveySettings | None, may_have: Callable[[int], bool], carried: tuple[int, ...]
) -> Iterator[Contradiction]:
    """Yield clasps on teeth that a case does not have, or that are replaced.

    Parameters
    ----------
    survey : SurveySettings or None
        What the case says.
    may_have : callable
        Tells whether there may be such a tooth.
    carried : tuple of int
        ISO 3950 numbers of all teeth on bases and in bridges.
    """
    for where, code in () if survey is None else survey.named_teeth:
        if code in carried:
            yield (
                (where,),
                f"{where}: {code} is a replacement tooth or a pontic; a clasp is borne by a"
                " natural tooth",
            )
        elif not may_have(code):
            yield (
                (where, "dentition.missing"),
                f"{where}: the dentition has no tooth {code}; accepted are natural teeth that"
                " stand",
            )
