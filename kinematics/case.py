"""Everything known about one patient or lesson: what a case file can say."""

from typing import Annotated, Final

from pydantic import ConfigDict, Field
from pydantic.dataclasses import dataclass

from kinematics.contact.sweep import SweepSettings
from kinematics.guidance.settings import GuidanceSettings
from kinematics.planning.judging import DentureBase, JudgingSettings

_STRICT: Final = ConfigDict(extra="forbid", allow_inf_nan=False)


@dataclass(frozen=True, config=_STRICT)
class MaximalIntercuspation:
    """Where the condyles stand in maximal intercuspation (MI), from centric relation (CR).

    Attributes
    ----------
    advance_right_mm, advance_left_mm : float, 0 to 5
        Arc length each condyle has travelled along its path. A slide of about 1 mm at the teeth
        is common (0.95 +/- 0.47 mm, Southeast Eur Med J 2021, article 168).
    shift_mm : float, -3 to 3
        Immediate side shift used; positive to the patient's left.
    """

    advance_right_mm: Annotated[float, Field(ge=0.0, le=5.0)] = 0.3
    advance_left_mm: Annotated[float, Field(ge=0.0, le=5.0)] = 0.3
    shift_mm: Annotated[float, Field(ge=-3.0, le=3.0)] = 0.0


#: Direction of a lateroprotrusion; the pure movements have commands of their own.
Azimuth = Annotated[float, Field(gt=-90.0, lt=90.0)]


@dataclass(frozen=True, config=_STRICT)
class Case:
    """One case; every part has defaults, so that a case file says only what differs.

    Attributes
    ----------
    title : str
        Heads the report.
    note : str
        What a reader must know, such as that the case is invented.
    guidance : GuidanceSettings
        Condylar paths, side shift, incisal guide, and the plane their angles refer to.
    maximal_intercuspation : MaximalIntercuspation
        MI relative to CR.
    sweep : SweepSettings
        How finely and how far excursions are followed.
    judging : JudgingSettings
        Scheme aimed at, tolerances and limits.
    denture_bases : tuple of DentureBase
        Bases with their replacement teeth and abutments.
    lateroprotrusion_azimuths_deg : tuple of float
        Directions between straight forward (0), right (-90) and left (90).
    """

    title: Annotated[str, Field(min_length=1, max_length=200)] = "Untitled case"
    note: Annotated[str, Field(max_length=2000)] = ""
    guidance: GuidanceSettings = GuidanceSettings()
    maximal_intercuspation: MaximalIntercuspation = MaximalIntercuspation()
    sweep: SweepSettings = SweepSettings()
    judging: JudgingSettings = JudgingSettings()
    denture_bases: tuple[DentureBase, ...] = ()
    lateroprotrusion_azimuths_deg: tuple[Azimuth, ...] = (-45.0, 45.0)
