"""Whether natural stops hold two casts in one place, against trying every triangle."""

import math
from itertools import combinations

import numpy as np
import pytest

from kinematics.case_file import parse_case
from kinematics.planning.stops import Stop
from kinematics.planning.tripod import LEAST_WIDTH_MM, tripod, widest_tripod_mm
from kinematics.planning.tripod_findings import NO_TRIPOD, tripod_finding
from tests.shipped_cases import run_case, shipped

#: Upper teeth of each side behind the canines, and front teeth.
BACK = {"right": (14, 15, 16, 17), "left": (24, 25, 26, 27)}
FRONT = (11, 12, 13, 21, 22, 23)
COARSE = "dentition.triangles_per_arch = 15000\nsweep.step_mm = 0.5\nsweep.travel_mm = 3.5\n"


def opposing(code):
    """Return the lower tooth of the same number."""
    return code + 30 if code < 20 else code + 10


def stop(code, x, y, lower=None):
    """Return a stop of an upper tooth on its opponent, at a place seen from above."""
    place = (float(x), float(y), -33.0)
    return Stop(code, lower or opposing(code), place, 0.0, 0.1, (0.0, 0.0, 1.0))


def planted(seed):
    """Return stops as by chance: few or many, on one side or both, some in a line."""
    rng = np.random.default_rng(seed)
    counts = rng.integers(0, 5, 3)
    stops = []
    for side, sign, count in (("right", -1.0, counts[0]), ("left", 1.0, counts[1])):
        for _ in range(count):
            code = int(rng.choice(BACK[side]))
            stops.append(stop(code, rng.uniform(40, 70), sign * rng.uniform(18, 28)))
    for _ in range(counts[2]):
        stops.append(stop(int(rng.choice(FRONT)), rng.uniform(76, 86), rng.uniform(-15, 15)))
    if seed % 3 == 0:  # all near one line across the arch
        slope = rng.uniform(-0.3, 0.3)
        stops = [
            stop(s.tooth_upper, 55 + slope * s.point[1] + rng.uniform(-4, 4), s.point[1])
            for s in stops
        ]
    return stops


def by_trying_all(stops):
    """Return whether any three of the stops are a tripod, and the width of the best, slowly."""
    best = 0.0
    for three in combinations(stops, 3):
        sides = {s.tooth_upper // 10 for s in three if s.tooth_upper % 10 > 3}
        if not {1, 2} <= sides:
            continue
        points = [np.array(s.point[:2]) for s in three]
        heights = []
        for k in range(3):
            corner, start, end = points[k], points[k - 1], points[k - 2]
            along = (end - start) / np.linalg.norm(end - start)
            foot = start + along * ((corner - start) @ along)
            heights.append(math.dist(corner, foot))
        best = max(best, min(heights))
    return best >= LEAST_WIDTH_MM, best


@pytest.mark.parametrize("seed", range(90))
def test_planted_stops_are_judged_as_by_trying_every_triangle(seed):
    """The same verdict and the same width, whatever the pattern and the order of the stops."""
    stops = planted(seed)
    holds, width = by_trying_all(stops)
    found = tripod(stops)
    assert found.width_mm == pytest.approx(width, abs=1e-9)
    assert found.holds == holds
    assert tripod(stops[::-1]).width_mm == found.width_mm
    assert found.right + found.left + found.front == len(stops)
    said = tripod_finding(tuple(stops), (), 0.0, rests_on_hand=False)
    assert (said is None) == holds


def test_planted_patterns_hold_and_do_not():
    """Neither verdict is rare among the patterns above, nor is any reason."""
    verdicts = [by_trying_all(planted(seed))[0] for seed in range(90)]
    assert 20 < sum(verdicts) < 70
    said = [
        tripod_finding(tuple(planted(seed)), (), 0.0, rests_on_hand=False) for seed in range(90)
    ]
    told = " ".join(item.text for item in said if item)
    for reason in ("none on either side", "none on the right", "none on the left", "in a line"):
        assert reason in told


@pytest.mark.parametrize("seed", range(60))
def test_mirrored_stops_give_the_same_bits(seed):
    """Sides change places, the width keeps every digit."""
    rng = np.random.default_rng(seed)
    right, left, front = (rng.uniform(-30, 30, (rng.integers(1, 6), 2)) for _ in range(3))
    mirrored = [points * [1.0, -1.0] for points in (left, right, front)]
    assert widest_tripod_mm(right, left, front) == widest_tripod_mm(*mirrored)


def test_only_natural_teeth_and_back_teeth_on_both_sides_count():
    """Stops of replacement teeth are left out; those that meet a canine are front ones."""
    wide = [stop(14, 70, -20), stop(24, 70, 20), stop(16, 50, -25)]
    assert tripod(wide).holds
    assert not tripod(wide, replaced={24}).holds
    assert not tripod(wide, replaced={34}).holds
    canine = [*wide[::2], stop(23, 76, 17)]
    assert (tripod(canine).left, tripod(canine).front) == (0, 1)
    assert not tripod([*wide[::2], stop(24, 70, 20, lower=33)]).holds
    assert not tripod([]).holds


def test_three_stops_in_one_place_are_no_tripod():
    """Nor are two; and nothing is divided by nothing."""
    assert widest_tripod_mm([[50, 0]], [[50, 0]], [[50, 0]]) == 0.0
    assert widest_tripod_mm([[50, -20]], [[50, 20]], []) == 0.0
    said = tripod_finding((stop(14, 50, -20), stop(24, 50, 20)), (), 0.0, False)
    assert "there are only two;" in said.text


@pytest.mark.parametrize(("by_hand", "severity"), [(True, "attention"), (False, "note")])
def test_it_is_graver_where_no_bite_record_stands_behind_mi(by_hand, severity):
    """Then the text sends the reader to the mouth; else it only says what a record needs."""
    said = tripod_finding((), (), 0.0, rests_on_hand=by_hand)
    assert said.severity == severity
    assert ("compare it with the mouth" in said.text) == by_hand
    assert "cannot be articulated by hand with certainty" in said.text
    assert said.threshold.value == LEAST_WIDTH_MM
    assert said.margin.value == LEAST_WIDTH_MM


def test_a_free_end_on_both_sides_has_no_tripod():
    """With all back teeth behind 14 and 24 replaced, and 34 and 44 lost, none is left behind."""
    lost = parse_case(
        COARSE + "dentition.missing = [34, 35, 36, 37, 44, 45, 46, 47]\n", "free ends"
    )
    (found,) = (item for item in run_case(lost).findings if item.kind == NO_TRIPOD)
    assert "behind the canines there is none on either side" in found.text
    assert found.severity == "note"
    replaced = parse_case(
        COARSE + '[[denture_bases]]\nname = "both"\nteeth = [14, 15, 16, 17, 24, 25, 26, 27]\n',
        "replaced",
    )
    (found,) = (item for item in run_case(replaced).findings if item.kind == NO_TRIPOD)
    assert "none on either side" in found.text


def test_full_natural_arches_have_one():
    """Nothing is said of them."""
    assert NO_TRIPOD not in {item.kind for item in shipped("natural_dentition").findings}
