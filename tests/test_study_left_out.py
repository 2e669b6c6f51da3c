"""What a run of a study leaves out changes nothing that it tells."""

from collections import deque
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import judged
from kinematics.contact import course, sweep, travel
from kinematics.contact.places import closed_places
from kinematics.contact.sweep_gaps import Brisk
from kinematics.contact.travel import places_at_travels
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import retrusion
from kinematics.live import MAIN
from kinematics.planning.contact_runs import judged as judged_poses
from kinematics.planning.slide import centric_slide
from kinematics.studies.point import (
    READING_SLACK_MM,
    SLACK_STEPS,
    Varied,
    finding_text,
    outcome,
    prepare,
    run_sample,
)
from kinematics.studies.quantities import measured
from tests.shipped_cases import coarse
from tests.test_live import balanced, same

CASES = {
    "upper_distal_extension": lambda case: case,
    "class_three_base": balanced,
    "nonworking_interference": lambda case: case,
    "replaced_canine": lambda case: case,
    "anterior_open_bite": lambda case: replace(
        case, judging=replace(case.judging, record_scatter_mm=0.15)
    ),
}
SEEDS = range(10)


@pytest.fixture(scope="module", params=CASES)
def prepared(request):
    """Return what all runs of a case share."""
    return prepare(Varied(CASES[request.param](coarse(request.param)), ({},)))


def changes(seed):
    """Return seeded condylar settings."""
    rng = np.random.default_rng(seed)
    return {
        f"guidance.{side}.{name}": float(rng.uniform(*ends))
        for side in ("right", "left")
        for name, ends in (
            ("condylar_inclination_deg", (20.0, 55.0)),
            ("progressive_shift_deg", (3.0, 20.0)),
        )
    }


def nothing_left_out(told, prepared):
    """Return what is told of the same casts by excursions with all gaps and all poses."""
    case, casts = told.case, told.casts
    every = Brisk(
        case.sweep.gap_limit_mm, slack_steps=SLACK_STEPS, reading_slack_mm=READING_SLACK_MM
    )
    workers = Workers()
    sweeps = followed_excursions(case, casts, (*MAIN, retrusion()), workers, every)
    slide = centric_slide(sweeps[-1], case.judging.stop_tolerance_mm)
    both = [
        judged(
            case, casts, sweeps, workers, slide, known=prepared.resting, tells_rocking=tells_rocking
        )
        for tells_rocking in (True, False)
    ]
    texts = [[finding_text(finding) for finding in one.findings] for one in both]
    assert texts[0] == texts[1]
    return both[1]


@pytest.mark.parametrize("seed", SEEDS)
def test_runs_tell_what_they_would_with_nothing_left_out(prepared, seed):
    """Every finding with its figures, every contact of replacement teeth, every quantity."""
    told = outcome(prepared, changes(seed))
    whole = nothing_left_out(told, prepared)
    for name in ("findings", "stops", "replacement"):
        same(getattr(told.judged, name), getattr(whole, name), name)
    rows = [
        measured(told.case, told.casts, found, prepared.workers) for found in (told.judged, whole)
    ]
    assert repr(rows[0]) == repr(rows[1])


def test_poses_that_are_judged_are_the_same_and_some_others_are_left_out(prepared):
    """Bits of travel, poses and closures; and gaps of some teeth are not measured."""
    told = outcome(prepared, changes(0))
    whole = nothing_left_out(told, prepared)
    left_out = 0
    for brief, full in zip(told.judged.sweeps[:3], whole.sweeps[:3], strict=True):
        mine, all_of_them = (judged_poses(one, told.case.judging) for one in (brief, full))
        for name in ("travel_mm", "poses", "opening_rad", "runner_up_gap_mm"):
            same(getattr(brief, name)[mine], getattr(full, name)[all_of_them], name)
        assert brief.edge_to_edge_mm == full.edge_to_edge_mm
        assert set(brief.travel_mm) <= set(full.travel_mm)
        assert np.isfinite(full.pair_gap_mm).sum() > np.isfinite(brief.pair_gap_mm).sum()
        left_out += len(full.travel_mm) - len(brief.travel_mm)
    ends = any(one.edge_to_edge_mm is not None for one in whole.sweeps[:3])
    assert (left_out > 20) == ends


def test_where_the_first_look_ends_too_early_excursions_are_followed_again(monkeypatch):
    """Then nothing is left out that is judged."""
    start = prepare(Varied(coarse("upper_distal_extension"), ({},)))
    usual, asked = outcome(start, {}).judged, []

    def counted(*args, **more):
        asked.append(args)
        return places_at_travels(*args, **more)

    monkeypatch.setattr(sweep, "places_at_travels", counted)
    monkeypatch.setattr(sweep, "Ends", lambda *args: course.Ends(*args[:-1], look_mm=-0.5))
    early = outcome(start, {}).judged
    assert len(asked) == 2
    same(early.findings, usual.findings)
    assert all(
        len(again.travel_mm) > len(once.travel_mm)
        for again, once in zip(early.sweeps[:3], usual.sweeps[:3], strict=True)
    )


@pytest.mark.parametrize("seed", range(5))
def test_how_far_is_looked_along_at_first_changes_nothing(prepared, seed):
    """Bits of every pose, whether the first look ends far too early or far beyond."""
    rng = np.random.default_rng(seed)
    looked_mm = {one: float(rng.uniform(0.0, 10.0)) for one in (*MAIN, retrusion())}
    knowing = replace(prepared, sufficed_mm=dict(looked_mm))
    unknowing = replace(prepared, sufficed_mm={})
    told, wanted = (outcome(one, changes(seed)).judged for one in (knowing, unknowing))
    same(told.findings, wanted.findings)
    for one, other in zip(told.sweeps, wanted.sweeps, strict=True):
        for name in ("travel_mm", "poses", "pair_gap_mm", "runner_up_gap_mm", "edge_to_edge_mm"):
            same(getattr(one, name), getattr(other, name), name)
    step_mm = prepared.subject.case.sweep.step_mm
    for excursion, enough_mm in unknowing.sufficed_mm.items():
        noted_mm = knowing.sufficed_mm[excursion]
        assert noted_mm == max(enough_mm, looked_mm[excursion] - step_mm)


def test_what_was_enough_is_looked_along_at_once_in_the_next_run(prepared, monkeypatch):
    """Fewer rounds, or fewer poses, if the same excursions come again."""
    rounds = []

    def counted(casts, excursions, progress_mm, workers):
        rounds.append(sum(map(len, progress_mm)))
        return closed_places(casts, excursions, progress_mm, workers)

    monkeypatch.setattr(travel, "closed_places", counted)
    knowing = replace(prepared, sufficed_mm={})
    outcome(knowing, {})
    first, known = list(rounds), bool(knowing.sufficed_mm)
    rounds.clear()
    outcome(knowing, {})
    if known:
        assert len(rounds) <= len(first)
        assert (len(rounds), sum(rounds)) != (len(first), sum(first))
        assert sum(rounds) < sum(first) + 6 * len(MAIN)
    else:
        assert rounds == first


def one_after_the_other(seed):
    """Return settings of which each run changes one or two of those before, as samples do."""
    start, end = changes(seed), changes(seed + 1000)
    runs = [start, end]
    runs += [start | {name: end[name]} for name in start]
    return tuple(runs)


@pytest.mark.parametrize("seed", range(5))
@pytest.mark.parametrize("name", ["upper_distal_extension", "nonworking_interference"])
def test_what_is_kept_of_runs_before_changes_nothing(name, seed):
    """Each run tells the same bits as one that comes first; and much has been kept."""
    case, runs = coarse(name), one_after_the_other(seed)
    together, looked_at = prepare(Varied(case, runs)), []
    kept = together.workers._kept
    usual = kept.rows

    def counted(about, question, asked, find):
        def find_and_count(some):
            looked_at.append((len(some), len(asked[0])))
            return find(some)

        looked_at.append((0, len(asked[0])))
        return usual(about, question, asked, find_and_count)

    kept.rows = counted
    in_order = [run_sample(together, number) for number in range(len(runs))]
    for number in np.random.default_rng(seed).permutation(len(runs)):
        alone = replace(together, workers=Workers(), mounted=deque(), sufficed_mm={})
        assert repr(run_sample(alone, int(number))) == repr(in_order[number])
    asked = sum(of for some, of in looked_at if some == 0)
    assert sum(some for some, _ in looked_at) < 0.9 * asked
    assert len(together.mounted) < 1 + len(runs)
