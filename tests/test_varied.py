"""A case over a grid of its settings: against direct runs of the same settings."""

import json
import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_changes import changed_case
from kinematics.case_excursions import followed_excursions
from kinematics.case_judged import judged, occlusion_of
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import left_lateral, protrusion, retrusion, right_lateral
from kinematics.mounting import mounted_casts
from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.guidance_words import guidance_in_short
from kinematics.planning.slide import centric_slide
from kinematics.studies.point import FINDINGS, REFUSED
from kinematics.varying.grid import PARTS
from kinematics.varying.told import differing, told
from tests.made_variations import variation

NAME = "upper_distal_extension"
BOTH = "guidance.condylar_inclination_deg"
SHIFT = "guidance.progressive_shift_deg"
LINE = (f"{BOTH}=25..45:3",)
PLANE = (f"{BOTH}=25..45:2", f"{SHIFT}=4..16:2")

#: What runs of a study do not tell as whole runs do, beside findings about set-ups.
_ELSEWHERE = ("casts that cannot be put together with certainty", "contacts near MI")


def direct(case, changes):
    """Build a changed case anew and judge the excursions of a study."""
    case, workers = changed_case(case, changes), Workers()
    casts = mounted_casts(case)
    paths = (protrusion(), right_lateral(), left_lateral(), retrusion())
    sweeps = followed_excursions(case, casts, paths, workers)
    slide = centric_slide(sweeps[-1], case.judging.stop_tolerance_mm)
    found = judged(case, casts, sweeps, workers, slide)
    at_once = extent_findings(occlusion_of(case, casts, workers), found.extents)
    kept = [item for item in found.findings if item not in at_once and item.kind not in _ELSEWHERE]
    return replace(found, findings=tuple(kept))


def pairs_of(found):
    """Return (kind, excursion, severity, pairs) of all findings."""
    return sorted(
        (
            finding.kind,
            finding.excursion or "",
            finding.severity,
            [[finding.tooth_upper or 0, finding.tooth_lower or 0], *map(list, finding.together)],
        )
        for finding in found.findings
    )


def told_pairs(row):
    """Return the same of a row of a study."""
    found = []
    for text in row[FINDINGS]:
        kind, excursion, severity, pairs, *_ = json.loads(text)
        if kind in _ELSEWHERE:
            continue
        numbers = [[code or 0 for code in pair] for pair in pairs]
        found.append((kind, excursion or "", severity, numbers))
    return sorted(found)


@pytest.mark.parametrize("seed", range(4))
def test_a_grid_point_equals_a_direct_run(seed):
    """Teeth built anew for the changed settings say what the grid says of them."""
    case, found = variation(NAME, PLANE)
    rng = np.random.default_rng(seed)
    places = sorted(found.runs)
    place = places[int(rng.integers(len(places)))]
    alone = direct(case, found.grid.changes(place))
    assert told_pairs(found.runs[place]) == pairs_of(alone)
    for verdict in alone.verdicts:
        told_of = found.runs[place][f"what guides: {verdict.excursion}"]
        assert told_of == guidance_in_short(verdict.kind, verdict.stretches)
        # As the report of the case says it, which names contacts and travel too.
        if ", " in told_of:
            assert re.match(told_of.replace(" a nonworking", " the nonworking"), verdict.text, re.I)


def test_the_case_as_set_is_run_too():
    """The last run of the first job has no changes; on a line it stands in its place."""
    case, found = variation(NAME, LINE)
    assert found.runs[found.grid.case_point] is found.as_set
    assert found.as_set["what guides: left lateral"].startswith("canine, interrupted by")
    assert told_pairs(found.as_set) == pairs_of(direct(case, {}))
    assert found.grid.as_set == (35.0,)


def test_a_crossing_is_where_a_dense_line_of_direct_runs_flips():
    """Of all sixteen parts of the step, the finding flips in that one."""
    case, found = variation(NAME, LINE)
    found_or_not = [
        (f.first, c)
        for f in found.flips
        if f.severity and all(f.first.pair)
        for c in f.crossings
        if "" in (c.before, c.after)
    ]
    # Where it begins or ends once in a step; that it gets graver there does not matter.
    steps = [(one, c.low[0] // PARTS) for one, c in found_or_not]
    what, crossing = next(
        (one, c) for one, c in found_or_not if steps.count((one, c.low[0] // PARTS)) == 1
    )
    assert crossing.high[0] - crossing.low[0] == 1
    step = crossing.low[0] // PARTS
    dense = []
    for part in range(PARTS * step, PARTS * (step + 1) + 1, 3):
        told_of = pairs_of(direct(case, found.grid.changes((part,))))
        holds = any(
            item[:2] == (what.name, what.excursion) and [*what.pair] in item[3] for item in told_of
        )
        dense.append((part, holds))
    for part, holds in dense:
        said = crossing.before if part <= crossing.low[0] else crossing.after
        assert bool(said) == holds
    assert len({holds for _, holds in dense}) == 2


def test_every_flip_lies_between_runs_one_part_apart():
    """Wherever two neighbouring runs on a line differ, they are a sixteenth of a step apart."""
    _, found = variation(NAME, PLANE)
    crossed = {c for flip in found.flips for c in flip.crossings}
    assert crossed and all(sum(c.high) - sum(c.low) == 1 for c in crossed)
    for c in crossed:
        names = differing(found.told[c.low], found.told[c.high])
        assert names
    flat = [feature for flip in found.flips for feature in flip.features]
    assert len(flat) == len(set(flat))


def test_lines_of_a_finding_part_the_points_where_it_holds():
    """Grid points on either side of its lines say otherwise."""
    _, found = variation(NAME, PLANE)
    flip = next(flip for flip in found.flips if flip.severity and "" in flip.said)
    said = tuple(text for text in flip.said if text)
    holds = found.says(flip.first, *said)
    assert holds.any() and not holds.all()
    lines = found.lines(flip, *said)
    assert lines and all(np.isfinite(line).all() for line in lines)
    across = {(c.axis, c.low[1] // PARTS) for c in flip.crossings if c.axis == 0}
    parted = {j for j in range(holds.shape[1]) if 0 < holds[:, j].sum() < holds.shape[0]}
    assert parted <= {row for _, row in across}


def test_settings_that_make_no_case_are_told_and_left_out():
    """A combination that contradicts itself is no fault of the grid."""
    given = (("guidance.right.path", "curved"), ("guidance.left.path", "curved"))
    over = ("guidance.eminence_radius_mm=8..40:2", f"{BOTH}=20..70:2")
    _, found = variation("natural_dentition", over, given)
    refused = [place for place in found.grid.points if found.told[place] is None]
    assert refused == [(0, 0), (0, PARTS)]
    assert [*found.refused] == [found.runs[place][REFUSED] for place in refused]
    assert all("curved path" in text for text in found.refused)
    assert np.isnan(found.numbers("gap of first molars: protrusion at 3 mm, right, mm")).sum() == 2
    assert told(found.as_set, found.columns)
