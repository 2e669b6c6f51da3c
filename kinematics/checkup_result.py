"""Everything that a whole run of a case computes."""

from dataclasses import dataclass, field

from kinematics.borders.movements import BorderMovements
from kinematics.borders.tracks import BorderTrack
from kinematics.case_adjusted import Adjusted
from kinematics.casts.casts import Arch
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Floats
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.articulation import Verdict
from kinematics.planning.base_loads import ExcursionLoads
from kinematics.planning.extent import Extent
from kinematics.planning.findings import Finding
from kinematics.planning.framework import Framework
from kinematics.planning.observed_marks import ComparedMarks
from kinematics.planning.plane.arch_heights import ArchPlane
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.remedies.found import ToothRemedies
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.scan_doubts import ScanDoubts
from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.sequence.steps import OrderOfWork
from kinematics.planning.slide import CentricSlide
from kinematics.planning.stops import Stop
from kinematics.planning.surveying.survey import Survey
from kinematics.planning.wax_up import WaxUp
from kinematics.records.condylar_paths import SidePaths
from kinematics.records.found_settings import FromRecords
from kinematics.scans.centric_records import CentricRecords
from kinematics.scans.scanned_casts import ScansRecord
from kinematics.tracks.driven_casts import DrivenTrack
from kinematics.tracks.found_tracks import FromTracks
from kinematics.uncertainty.found import Uncertainty


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
    raised : RaisedBite or None
        The bite as the incisal pin raises it; None where it does not.
    scans : ScansRecord or None
        Where the casts came from; None for built-in teeth.
    centric : CentricRecords or None
        What records of CR say; None where there are none.
    marks : tuple of ComparedMarks
        Marks found in the mouth against those that the casts let expect.
    doubts : ScanDoubts or None
        How far what is found rests on what was scanned; None for built-in teeth.
    recorded, recorded_paths : FromRecords or None, tuple of SidePaths
        What interocclusal records say of guidance, and where they put both condyles; if any.
    tracked : FromTracks or None
        What measured tracks say of hinge axis and guidance; None where there are none.
    driven : tuple of DrivenTrack
        The casts moved along these tracks.
    frameworks, carrying : tuple of Framework
        What holds the denture bases; what loads are told of, in the order of `SweepLoads.frames`.
    loads : tuple of ExcursionLoads
        Who carries what in the excursions from MI; none without bases, bridges and splints.
    extents : tuple of Extent
        How far back the teeth of every base must go.
    advice : tuple of SchemeAdvice
        What schools want of replaced teeth, and what they do, base by base.
    set_up_notes : tuple of str
        What of a trial set-up could not be done as asked.
    planes : tuple of ArchPlane
        Occlusal plane and sphere of both arches, and how their teeth stand to them.
    rooms : Rooms
        Room for rests and planned crowns; none without loads.
    surveys, wax_ups : tuple of Survey, tuple of WaxUp
        Casts as surveyed along the path of insertion; wax-ups against their casts.
    adjusted : tuple of Adjusted
        What adjusting teeth would take and bring about, in the order of cutting.
    remedies : tuple of ToothRemedies
        For every tooth that the case names the smallest change of each kind that clears it.
    outlines : BorderMovements or None
        How far the jaw goes at most, seen from three sides; None without a whole run.
    sequence : OrderOfWork or None
        In which order what was found would be done; None without a whole run.
    uncertainty : Uncertainty or None
        How often findings hold where settings are uncertain; None where that was not asked for.
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
    raised: RaisedBite | None = None
    scans: ScansRecord | None = None
    centric: CentricRecords | None = None
    marks: tuple[ComparedMarks, ...] = ()
    doubts: ScanDoubts | None = None
    recorded: FromRecords | None = None
    recorded_paths: tuple[SidePaths, ...] = ()
    tracked: FromTracks | None = None
    driven: tuple[DrivenTrack, ...] = ()
    frameworks: tuple[Framework, ...] = ()
    loads: tuple[ExcursionLoads, ...] = ()
    carrying: tuple[Framework, ...] = ()
    extents: tuple[Extent, ...] = ()
    advice: tuple[SchemeAdvice, ...] = ()
    set_up_notes: tuple[str, ...] = ()
    planes: tuple[ArchPlane, ...] = ()
    rooms: Rooms = field(default_factory=Rooms)
    surveys: tuple[Survey, ...] = ()
    wax_ups: tuple[WaxUp, ...] = ()
    adjusted: tuple[Adjusted, ...] = ()
    outlines: BorderMovements | None = None
    remedies: tuple[ToothRemedies, ...] = ()
    sequence: OrderOfWork | None = None
    uncertainty: Uncertainty | None = None
