"""What a load is reckoned with: closing force, give of teeth, mucosa and joints, and why."""

from typing import Annotated, Final

from pydantic import ConfigDict, Field, model_validator
from pydantic.dataclasses import dataclass

from kinematics.checks import refuse

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)
_Tilt = Annotated[float, Field(ge=-30.0, le=45.0)]
_Ratio = Annotated[float, Field(ge=1.0, le=50.0)]


@dataclass(frozen=True, config=_STRICT)
class LoadSettings:
    """Closing force, and how far what carries it gives way.

    Attributes
    ----------
    closing_force_n : float, 10 to 1200
        Resultant of the closing muscles, N. Forces are told for 100 N of it; how teeth and mucosa
        share them depends on how large it is, since teeth give way in two phases.
    force_tilt_deg : float, -30 to 45
        How far it leans forward from square to the reference plane, seen from the side.
    force_tilt_range_deg : (float, float), -30 to 45, ascending
        Least and greatest tilt between which figures are given as a range.
    force_forward_mm : float, 10 to 110, optional
        How far ahead of the hinge axis it passes at the level of the lower molars, in CR; between
        the first and second lower molars if not given.
    force_side_mm : float, -40 to 40
        How far to the patient's left of the midline it passes.
    mucosa_ratio : float, 1 to 50
        How many times as far as a molar the mucosa under one of its width gives way.
    mucosa_ratio_range : (float, float), 1 to 50, ascending
        Least and greatest ratio between which figures are given as a range.
    two_phase : bool
        Whether teeth give way easily at first and less under more load.
    """

    closing_force_n: Annotated[float, Field(ge=10.0, le=1200.0)] = 100.0
    force_tilt_deg: _Tilt = 7.5
    force_tilt_range_deg: tuple[_Tilt, _Tilt] = (0.0, 20.0)
    force_forward_mm: Annotated[float, Field(ge=10.0, le=110.0)] | None = None
    force_side_mm: Annotated[float, Field(ge=-40.0, le=40.0)] = 0.0
    mucosa_ratio: _Ratio = 10.0
    mucosa_ratio_range: tuple[_Ratio, _Ratio] = (4.0, 20.0)
    two_phase: bool = True

    @model_validator(mode="after")
    def _agrees_with_itself(self) -> "LoadSettings":
        refuse(
            ((name,), f"{name} = [{least:g}, {most:g}]: wanted the smaller number first")
            for name, (least, most) in (
                ("force_tilt_range_deg", self.force_tilt_range_deg),
                ("mucosa_ratio_range", self.mucosa_ratio_range),
            )
            if least > most
        )
        return self

    @property
    def ranges(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Ranges of tilt, degrees, and mucosa ratio, each at least as far as what is set."""
        tilt, ratio = self.force_tilt_deg, self.mucosa_ratio
        (flat, steep), (firm, soft) = self.force_tilt_range_deg, self.mucosa_ratio_range
        return (min(flat, tilt), max(steep, tilt)), (min(firm, ratio), max(soft, ratio))


#: Where the default of each setting comes from.
LOAD_SOURCES: Final[dict[str, str]] = {
    "closing_force_n": (
        "about 50 to 150 N with removable dentures (textbook figures, from memory; that it is far"
        " below that of natural teeth: Helkimo et al. 1977)"
    ),
    "force_tilt_deg": (
        "5 to 10 degrees forward of the normal of the occlusal plane for the closing muscles as a"
        " group (textbook models, from memory)"
    ),
    "force_tilt_range_deg": "about 0 to 20 degrees (textbook models, from memory)",
    "force_forward_mm": "between the first and second molars (textbook models, from memory)",
    "force_side_mm": "chosen for this program: both sides close alike",
    "mucosa_ratio": (
        "mucosa of a ridge gives way 4 to 20 times as far as a tooth (textbooks, from memory);"
        " 10 chosen for this program"
    ),
    "mucosa_ratio_range": "4 to 20 (textbooks, from memory)",
    "two_phase": (
        "easy up to 3 to 4 N, stiffer up to 20 N (Picton, Arch Oral Biol 1963;8:109-118)"
    ),
}
