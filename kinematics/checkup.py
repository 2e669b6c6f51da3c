"""From a case to its findings: the whole run."""

from dataclasses import dataclass

from kinematics.casts.casts import Arch
from kinematics.contact.border import BorderTrack
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.articulation import Verdict
from kinematics.planning.findings import Finding
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.slide import CentricSlide
from kinematics.planning.stops import Stop


@dataclass(frozen=True)
class Checkup:
    """Everything that was computed for one case.

    Attributes
    ----------
    upper, lower : Arch
        Casts; the lower in lower coordinates.
    mi : GuidanceCoordinates
        Maximal intercuspation.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.
    incisal_point : ndarray, shape (3,)
        Lower incisal point in lower coordinates, mm.
    sweeps : tuple of Sweep
        Judged excursions from MI: protrusion, right lateral, left lateral, lateroprotrusions,
        retrusion; then, where MI and CR differ, the same from CR.
    borders : tuple of BorderTrack
        Protrusion, right and left lateral from CR without teeth.
    verdicts : tuple of Verdict
        What guides each excursion.
    stops : tuple of Stop
        Centric stops in MI.
    slide : CentricSlide
        From first contact in CR to MI.
    replacement : tuple of ReplacementContact
        Replacement teeth that touch or come near in an excursion.
    findings : tuple of Finding
        Gravest first.
    """

    upper: Arch
    lower: Arch
    mi: GuidanceCoordinates
    mi_pose: Floats
    incisal_point: Floats
    sweeps: tuple[Sweep, ...]
    borders: tuple[BorderTrack, ...]
    verdicts: tuple[Verdict, ...]
    stops: tuple[Stop, ...]
    slide: CentricSlide
    replacement: tuple[ReplacementContact, ...]
    findings: tuple[Finding, ...]
