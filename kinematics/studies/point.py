"""One run of a study: settings changed on the casts of a case, excursions judged, a row told."""

import json
from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Final

import numpy as np

from kinematics.case import Case
from kinematics.case_changes import changed_case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import Judged, RestsOnMi, judged, occlusion_of, rests_on_mi
from kinematics.case_mi import MI_KEY, MaximalIntercuspation
from kinematics.casts.casts import carried
from kinematics.checks import InputError, NotConverged
from kinematics.contact.contacts import pair_gaps
from kinematics.contact.mounted import MountedCasts
from kinematics.contact.pair import prepare as prepared_pair
from kinematics.contact.sweep_gaps import Brisk
from kinematics.contact.workers import Workers
from kinematics.conventions import Floats
from kinematics.engine.plan import ColumnKind, Row
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.excursions import Excursion, retrusion
from kinematics.live import MAIN, brisk
from kinematics.mounting import Teeth, remounted, same_teeth, teeth_for
from kinematics.planning.findings import Finding
from kinematics.planning.judging import JudgingSettings
from kinematics.planning.slide import CentricSlide, centric_slide
from kinematics.scans.hinge_pose import hinge_from_scan
from kinematics.studies.quantities import (
    SLIDE,
    Values,
    measured,
    quantities,
    tolerance_of_readings_mm,
)
from kinematics.uncertainty.hinge_axis import AXIS, into_true_frame

#: Tables of settings with which the teeth of a case stay where they are in MI.
_MOVES_NO_TOOTH: Final = ("guidance.", "maximal_intercuspation.", "scans.mounting.", "judging.")

#: So many ways to stand in MI are kept: runs that differ in one setting follow each other.
_STANDS: Final = 8
#: By how much poses between the readings may miss their travel, as a part of a step: a little more
#: than half, so that those seen at the first look, step by step, will do.
SLACK_STEPS: Final = 0.6
#: By how much those at readings may, mm: far less than any setting is known to, and most of them
#: are found at the second look.
READING_SLACK_MM: Final = 3e-4

#: Columns that every row has beside its quantities.
REFUSED: Final = "refused"
FINDINGS: Final = "findings"
#: What stands in the columns of a run that was refused.
_BLANK: Final[Mapping[ColumnKind, float | str | tuple[str, ...]]] = {
    "int": 0,
    "float": np.nan,
    "text": "",
    "texts": (),
}


@dataclass(frozen=True)
class Varied:
    """A case, and what is changed in every run.

    Attributes
    ----------
    case : Case
        As set.
    changes : tuple of mapping
        Of every run: new values by the paths of their settings, or by the names of
        `kinematics.uncertainty.hinge_axis`.
    """

    case: Case
    changes: tuple[Mapping[str, float | str], ...]


@dataclass(frozen=True)
class Prepared:
    """What all runs of one case share.

    Attributes
    ----------
    subject : Varied
        The case and its changes.
    teeth : Teeth
        Of the case as set.
    resting : RestsOnMi
        What these casts in MI say by themselves.
    gaps_in_mi_mm : ndarray, shape (uppers, lowers)
        Between their teeth, up to the gap limit of the case.
    workers : Workers
        What a run is done by, with the memory that runs share.
    mounted : deque of MountedCasts
        As they stood in the last runs, for those that stand as one of these.
    sufficed_mm : dict
        How far excursions had to be looked along in the last run; see `FirstLook`.
    """

    subject: Varied
    teeth: Teeth
    resting: RestsOnMi
    gaps_in_mi_mm: Floats
    workers: Workers
    mounted: deque[MountedCasts]
    sufficed_mm: dict[Excursion, float] = field(default_factory=dict)


def prepare(subject: Varied) -> Prepared:
    """Build what all runs of a case share.

    Raises
    ------
    InputError, NotConverged
        Settings of the case that cannot be used together.
    """
    workers = Workers(in_place=True, keeps_poses=True)
    case = subject.case
    teeth = teeth_for(case, lambda _: None)
    casts = remounted(teeth, case, (), workers)
    mounted = deque([casts], _STANDS)
    resting = rests_on_mi(occlusion_of(case, casts, workers))
    return Prepared(subject, teeth, resting, _gaps_in_mi(case, casts, workers), workers, mounted)


def _gaps_in_mi(case: Case, casts: MountedCasts, workers: Workers) -> Floats:
    """Return the gaps (uppers, lowers) of all teeth in MI, which every run starts with, mm."""
    teeth, limit_mm = (casts.upper.codes, casts.lower.codes), case.sweep.gap_limit_mm
    return np.asarray(pair_gaps(casts.pair, casts.mi_pose[None], limit_mm, *teeth, workers)[0])


def columns(case: Case) -> dict[str, ColumnKind]:
    """Return what every row of a study of a case has."""
    kinds: dict[str, ColumnKind] = {REFUSED: "text", FINDINGS: "texts"}
    return kinds | {quantity.name: quantity.kind for quantity in quantities(case)}


def run_sample(prepared: Prepared, number: int) -> Row:
    """Run one sample; see `columns`.

    Settings that make no case are no error: their row says why, and nothing else.
    """
    case, changes = prepared.subject.case, prepared.subject.changes[number]
    try:
        told = outcome(prepared, changes)
    except (InputError, NotConverged) as error:
        row: Values = {name: _BLANK[kind] for name, kind in columns(case).items()}
        return row | {REFUSED: str(error)}
    row = {REFUSED: ""}
    row[FINDINGS] = tuple(finding_text(finding) for finding in told.judged.findings)
    row[SLIDE] = told.slide.length_mm
    return row | measured(told.case, told.casts, told.judged, prepared.workers)


@dataclass(frozen=True)
class Outcome:
    """One run: the case as changed, its casts, what they do, and the way from CR to MI."""

    case: Case
    casts: MountedCasts
    judged: Judged
    slide: CentricSlide


def outcome(prepared: Prepared, changes: Mapping[str, float | str]) -> Outcome:
    """Change settings, mount the casts by them, and judge the main excursions and the slide.

    These are protrusion, both lateral excursions, and the way from MI back to CR. The teeth stand
    in MI as they do in the case as set, whatever is changed of guidance, hinge axis and the way
    from CR to MI; where other settings change, they are built anew.

    Parameters
    ----------
    prepared : Prepared
        The case.
    changes : mapping
        See `Varied`.

    Raises
    ------
    InputError, NotConverged
        Changes that make no case.
    """
    case, teeth, resting = prepared.subject.case, prepared.teeth, prepared.resting
    of_settings = {path: value for path, value in changes.items() if path not in AXIS}
    start = with_mi_set(case) if any(path.startswith(MI_KEY) for path in of_settings) else case
    now = changed_case(start, of_settings) if of_settings else case
    known: RestsOnMi | None = resting
    as_far = now.sweep.gap_limit_mm == case.sweep.gap_limit_mm
    gaps = prepared.gaps_in_mi_mm if as_far else None
    if not all(path.startswith(_MOVES_NO_TOOTH) for path in of_settings) and not same_teeth(
        case, now
    ):
        teeth, known, gaps = teeth_for(now, lambda _: None), None, None
    off = into_true_frame(changes) @ _remounting(case, now)
    if not np.array_equal(off, np.eye(4)):
        teeth = _carried_teeth(teeth, off)
    workers = prepared.workers
    casts = remounted(teeth, now, prepared.mounted, workers)
    if all(casts.pair is not one.pair for one in prepared.mounted):
        prepared.mounted.append(casts)
    if known is None:
        known = rests_on_mi(occlusion_of(now, casts, workers))
    left_out = replace(
        _left_out(now.judging, brisk(now)), start_gaps_mm=gaps, sufficed_mm=prepared.sufficed_mm
    )
    sweeps = followed_excursions(now, casts, (*MAIN, retrusion()), workers, left_out)
    slide = centric_slide(sweeps[-1], now.judging.stop_tolerance_mm)
    # How far the jaw rocks stands in words of findings alone, which no row has.
    said = judged(now, casts, sweeps, workers, slide, known=known, tells_rocking=False)
    return Outcome(now, casts, said, slide)


def _left_out(judging: JudgingSettings, page: Brisk) -> Brisk:
    """Return what excursions of a run leave out beside what those of a page do.

    Of readings only those at one tolerance are told, so few gaps are needed beyond it.
    """
    needed_mm = max(
        judging.tolerance_mm, judging.record_scatter_mm, tolerance_of_readings_mm(judging)
    )
    return replace(
        page,
        crossover=False,
        measured_mm=needed_mm,
        slack_steps=SLACK_STEPS,
        reading_slack_mm=READING_SLACK_MM,
    )


def with_mi_set(case: Case) -> Case:
    """Return a case that says itself where MI lies from CR, so that this can be changed.

    Where records of CR say it, they are left out for what follows from the first of them.
    """
    if case.scans is None or not case.mi_is_recorded:
        return case
    at = case.mi
    return replace(
        case,
        scans=replace(case.scans, centric_records=()),
        maximal_intercuspation=MaximalIntercuspation(
            max(0.0, at.advance_right_mm), max(0.0, at.advance_left_mm), at.shift_mm
        ),
    )


def _remounting(case: Case, now: Case) -> Floats:
    """Return the motion (4, 4) of scanned casts from one mounting to another."""
    if case.scans is None or now.scans is None or case.scans.mounting == now.scans.mounting:
        return np.eye(4)
    plane = case.guidance.reference_plane
    before = hinge_from_scan(case.scans.mounting, plane)
    return np.asarray(hinge_from_scan(now.scans.mounting, plane) @ inverse(before))


def _carried_teeth(teeth: Teeth, motion: Floats) -> Teeth:
    """Return teeth in MI that a motion (4, 4) has brought elsewhere in the hinge frame."""
    upper = carried(replace(teeth.upper, body=None), motion)
    # The lower keeps its own coordinates in MI: there its hinge frame moves instead.
    within = inverse(teeth.pose) @ motion @ teeth.pose
    lower = carried(replace(teeth.lower, body=None), within)
    return replace(
        teeth,
        upper=upper,
        lower=lower,
        pair=prepared_pair(upper, lower),
        incisal_point=move_points(within, teeth.incisal_point[None])[0],
    )


def finding_text(finding: Finding) -> str:
    """Return what a row keeps of a finding: a JSON list.

    Kind, excursion, severity, tooth pairs, first and last travel, mm.
    """
    pairs = [(finding.tooth_upper, finding.tooth_lower), *finding.together]
    ends = [
        None if end is None else round(end, 6)
        for end in (finding.travel_from_mm, finding.travel_to_mm)
    ]
    return json.dumps([finding.kind, finding.excursion, finding.severity, pairs, *ends])
