"""What excursions of a case say: the casts as judged, findings, marks, frameworks."""

from collections.abc import Mapping
from dataclasses import dataclass

from kinematics.case import Case
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.sweep import Sweep
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import RETRUSION
from kinematics.planning.all_findings import all_findings
from kinematics.planning.articulation import Verdict, verdict
from kinematics.planning.centric_findings import centric_finding
from kinematics.planning.extent import Extent
from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.extents import extents, surroundings_of
from kinematics.planning.findings import Finding
from kinematics.planning.framework import Framework, frameworks
from kinematics.planning.observed_findings import marks_finding
from kinematics.planning.observed_marks import ComparedMarks, all_compared
from kinematics.planning.occlusion import Occlusion
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.recorded_settings import recorded_findings
from kinematics.planning.replacement import ReplacementContact, replacement_contacts
from kinematics.planning.slide import CentricSlide
from kinematics.planning.stops import Stop, centric_stops
from kinematics.planning.tracked_settings import tracked_findings
from kinematics.planning.tripod_findings import tripod_finding
from kinematics.records.found_settings import FromRecords
from kinematics.scans.centric_records import CentricRecords
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.tracks.found_tracks import FromTracks
from kinematics.trial.heights import still_over_erupted


@dataclass(frozen=True)
class Judged:
    """What some excursions of a case say.

    Attributes
    ----------
    sweeps : tuple of Sweep
        The excursions; the first starts in MI.
    verdicts : tuple of Verdict
        What guides each of them but a retrusion.
    stops : tuple of Stop
        Centric stops in MI.
    replacement : tuple of ReplacementContact
        Replacement teeth that touch or come near in one of them.
    findings : tuple of Finding
        Gravest first.
    marks : tuple of ComparedMarks
        Marks found in the mouth, of MI, of these excursions and, with a slide, of CR.
    frameworks : tuple of Framework
        What holds the denture bases.
    extents : tuple of Extent
        How far back the teeth of every base must go.
    """

    sweeps: tuple[Sweep, ...]
    verdicts: tuple[Verdict, ...]
    stops: tuple[Stop, ...]
    replacement: tuple[ReplacementContact, ...]
    findings: tuple[Finding, ...]
    marks: tuple[ComparedMarks, ...]
    frameworks: tuple[Framework, ...]
    extents: tuple[Extent, ...]


@dataclass(frozen=True)
class RestsOnMi:
    """What casts in MI say by themselves, however the jaw moves from there.

    Attributes
    ----------
    frameworks, extents : tuple of Framework, tuple of Extent
        As of `Judged`.
    holders : mapping of int to str
        Teeth that a rest or an implant keeps in their place, and which.
    """

    frameworks: tuple[Framework, ...]
    extents: tuple[Extent, ...]
    holders: Mapping[int, str]


def rests_on_mi(occlusion: Occlusion) -> RestsOnMi:
    """Return what casts in MI say by themselves."""
    bodies = frameworks(occlusion)
    around = surroundings_of(occlusion, bodies)
    return RestsOnMi(bodies, extents(occlusion, around), around.holders)


def occlusion_of(
    case: Case, casts: MountedCasts, workers: Workers, tells_rocking: bool = True
) -> Occlusion:
    """Return the casts of a case with what is known about their teeth.

    Parameters
    ----------
    case : Case
        By what they are judged.
    casts : MountedCasts
        Its teeth, mounted.
    workers : Workers
        Threads.
    tells_rocking : bool
        See `Occlusion`.
    """
    given_in = None
    if case.scans is not None:
        given_in = hinge_from_scan(case.scans.mounting, case.guidance.reference_plane)
    return Occlusion(
        casts,
        case.judging,
        case.denture_bases,
        still_over_erupted(case.dentition.over_erupted_mm, case.change),
        (*case.splints, *case.bridges),
        workers,
        case.bite_as_scanned,
        case.tooth_conditions,
        given_in,
        {} if case.scans is None else case.scans.rest_seats,
        tells_rocking,
    )


def judged(
    case: Case,
    casts: MountedCasts,
    sweeps: tuple[Sweep, ...],
    workers: Workers,
    slide: CentricSlide | None = None,
    raised: RaisedBite | None = None,
    centric: CentricRecords | None = None,
    recorded: FromRecords | None = None,
    tracked: FromTracks | None = None,
    known: RestsOnMi | None = None,
    tells_rocking: bool = True,
) -> Judged:
    """Say what sweeps mean.

    Parameters
    ----------
    case : Case
        By what they are judged.
    casts : MountedCasts
        The casts that were moved.
    sweeps : tuple of Sweep
        Excursions, the first from MI.
    workers : Workers
        Threads.
    slide : CentricSlide, optional
        From first contact in CR to MI; nothing is said about it if not given.
    raised : RaisedBite, optional
        The bite as the incisal pin raises it.
    centric : CentricRecords, optional
        What records of CR say; nothing is said about them if not given.
    recorded : FromRecords, optional
        What interocclusal records say of guidance; the same.
    tracked : FromTracks, optional
        What measured tracks say; the same.
    known : RestsOnMi, optional
        What the casts in MI say by themselves, where that is known already; then there are no
        findings about it.
    tells_rocking : bool
        See `Occlusion`.
    """
    occlusion = occlusion_of(case, casts, workers, tells_rocking)
    stops = centric_stops(sweeps[0].patches, case.judging)
    contacts = replacement_contacts(occlusion, sweeps)
    verdicts = tuple(
        verdict(item, case.judging) for item in sweeps if item.excursion.name != RETRUSION
    )
    marks = all_compared(case.observed_marks, sweeps, case.judging, slide)
    replaced, by_hand = occlusion.replacement_teeth | occlusion.pontics, case.bite_as_scanned
    said = (
        None if centric is None else centric_finding(centric, case.judging),
        tripod_finding(stops, replaced, occlusion.mi_scatter_mm, rests_on_hand=by_hand),
        *(() if recorded is None else recorded_findings(recorded)),
        *(() if tracked is None else tracked_findings(tracked)),
        *map(marks_finding, marks),
    )
    records = tuple(finding for finding in said if finding is not None)
    resting = known or rests_on_mi(occlusion)
    set_ups = () if known else extent_findings(occlusion, resting.extents)
    findings = all_findings(
        occlusion, sweeps, stops, slide, contacts, raised, records, set_ups, resting.holders
    )
    return Judged(
        sweeps, verdicts, stops, contacts, findings, marks, resting.frameworks, resting.extents
    )
