"""A raised bite against closed forms of the small mouth, and through whole runs."""

import json
import math
from functools import cache
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.checkup import run
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.planning.raised_bite import opening_at_height, raised_bite
from kinematics.planning.raised_bite_findings import raised_bite_finding
from kinematics.result_files import write_results
from kinematics.tooth_codes import opponent
from tests.published_jaw import PUBLISHED
from tests.small_mouth import HALF, LEVEL, UPPERS, middle, mouth

INCISAL = np.array([84.0, 0.0, LEVEL])
LEVEL_TEETH = (47, 46, 45, 35, 36, 37)


@cache
def small_mouth():
    """Return the small mouth: MI in CR, every lower tip on the plane above it at opening 0."""
    return mouth()


@cache
def sliding_mouth():
    """Return a mouth whose planes rise forward, with MI half a millimetre ahead of CR."""
    rising = dict.fromkeys(UPPERS, (-0.9, 0.0))
    return mouth(falls=rising, mi=GuidanceCoordinates(0.5, 0.5, 0.0, 0.0))


def turned(point, angle):
    """Return a point turned about the hinge axis, opening."""
    x, y, z = point
    return np.array(
        [
            x * math.cos(angle) + z * math.sin(angle),
            y,
            z * math.cos(angle) - x * math.sin(angle),
        ]
    )


def angle_for(drop_mm):
    """Return the opening that lowers the incisal point by so much, found by search."""
    return brentq(lambda t: INCISAL[2] - turned(INCISAL, t)[2] - drop_mm, 0.0, 0.5, xtol=1e-14)


@pytest.mark.parametrize("pin_mm", [0.5, 3.0, 8.0])
def test_closed_forms(pin_mm):
    """Drop, room and arc gap of tips under level planes, worked out with a searched angle."""
    raised, angle = raised_bite(small_mouth(), pin_mm), angle_for(pin_mm)
    assert raised.pin_holds
    assert raised.raised_mm == pytest.approx(pin_mm, abs=1e-9)
    assert math.radians(raised.opening_deg) == pytest.approx(angle, abs=1e-10)
    assert raised.back_mm == pytest.approx(84.0 - turned(INCISAL, angle)[0], abs=1e-9)
    assert raised.back_mm > 0.0
    for tooth in raised.teeth:
        tip = middle(opponent(tooth.tooth_lower))
        moved = turned(tip, angle)
        fallen, past_edge = LEVEL - moved[2], max(tip[0] - moved[0] - HALF, 0.0)
        assert tooth.opening_mm == pytest.approx(fallen, abs=1e-9)
        assert tooth.nearest_upper % 10 == tooth.tooth_lower % 10
        if tooth.tooth_lower in LEVEL_TEETH:
            assert tooth.room_mm == pytest.approx(math.hypot(fallen, past_edge), abs=1e-9)
            radius = math.hypot(tip[0], tip[2])
            assert tooth.arc_gap_mm == pytest.approx(angle * radius, abs=1e-8)


@given(st.floats(0.01, 8.0))
def test_the_way_of_a_tooth_is_proportional_to_its_distance_from_the_axis(pin_mm):
    """Chords are one multiple, 2 sin(t/2), of the distance; drops grow with the way ahead."""
    raised = raised_bite(small_mouth(), pin_mm)
    share = 2.0 * math.sin(math.radians(raised.turned_deg) / 2.0)
    for tooth in raised.teeth:
        chord = math.dist(tooth.place, tooth.place_in_mi)
        radius = math.hypot(tooth.place[0], tooth.place[2])
        assert chord == pytest.approx(share * radius, rel=1e-6)
    ahead = sorted(raised.teeth, key=lambda tooth: (tooth.place_in_mi[0], tooth.tooth_lower))
    drops = [tooth.opening_mm for tooth in ahead]
    assert all(second > first - 1e-9 for first, second in pairwise(drops))
    assert max(drops) <= pin_mm + 1e-9


@given(st.floats(10.0, 110.0), st.floats(-60.0, 10.0), st.floats(-0.1, 0.2))
def test_opening_at_a_height_undoes_a_turn(ahead, up, angle):
    """The opening found for the height of a turned point is the angle it was turned by."""
    point = np.array([ahead, 0.0, up])
    seen = math.atan2(-up, ahead) + angle
    if abs(seen) < 1.4:  # short of straight below or above the axis, where the point turns back
        height = turned(point, angle)[2]
        assert opening_at_height(point, height) == pytest.approx(angle, abs=1e-9)


def test_published_hinge_opening():
    """Lowered as by a published hinge opening, the incisal point has made its published chord."""
    row = PUBLISHED["retruded_opening"]
    for radius, angle_deg in row["rows"]:
        closed = np.array([radius * math.cos(0.4), 0.0, -radius * math.sin(0.4)])
        lowest = turned(closed, math.radians(angle_deg))
        found = opening_at_height(closed, lowest[2])
        assert 2.0 * radius * math.sin(found / 2.0) == pytest.approx(row["chord_mm"], abs=0.02)


def test_overlap_of_the_incisors():
    """Overbite shrinks by the drop of the lower edges, overjet grows by their way back."""
    raised = raised_bite(small_mouth(), 3.0)
    front = next(tooth for tooth in raised.teeth if tooth.tooth_lower == 41)
    fallen = raised.front_in_mi.overbite_mm - raised.front.overbite_mm
    assert fallen == pytest.approx(front.opening_mm, abs=1e-9)
    back = raised.front.overjet_mm - raised.front_in_mi.overjet_mm
    assert back == pytest.approx(front.place_in_mi[0] - front.place[0], abs=1e-9)
    assert back > 0.5
    without = raised_bite(mouth(uppers=(17, 16, 15, 13, 23, 25, 26, 27)), 3.0)
    assert without.front is None
    assert without.front_in_mi is None


def test_teeth_that_touch_before_the_pin_hold_the_jaw():
    """A slide that closes more than the pin opens leaves the jaw on its first contact in CR."""
    raised = raised_bite(sliding_mouth(), 0.05)
    assert not raised.pin_holds
    assert raised.raised_mm > 0.05
    assert raised.first_arc_gap_mm == 0.0
    assert min(tooth.arc_gap_mm for tooth in raised.teeth) == pytest.approx(0.0, abs=1e-9)
    finding = raised_bite_finding(raised)
    assert finding.severity == "serious"
    assert "the pin does not reach" in finding.text
    high = raised_bite(sliding_mouth(), 3.0)
    assert high.pin_holds
    assert high.raised_mm == pytest.approx(3.0, abs=1e-9)
    assert raised_bite_finding(high).severity == "attention"


def test_heights_out_of_reach_are_refused():
    """A point 5 mm from the axis cannot stand 8 mm below it; the message says so."""
    with pytest.raises(InputError, match=r"turns 5\.0 mm from the hinge axis and cannot"):
        opening_at_height(np.array([4.0, 0.0, -3.0]), -8.0)


@pytest.mark.parametrize(
    ("value", "told"),
    [("9.0", "0 to 8 mm"), ("-1.0", "0 to 8 mm"), ('"3"', "a number"), ("nan", "finite")],
)
def test_a_case_says_what_fits(value, told):
    """The key is strict: a number of millimetres from 0 to 8."""
    with pytest.raises(InputError, match=f"pin_opening_mm.*{told}"):
        parse_case(f"pin_opening_mm = {value}", "case")


_COARSE = """
    dentition.triangles_per_arch = 10000
    sweep.step_mm = 0.3
    sweep.travel_mm = 1.5
    judging.readings_mm = [0.0, 1.0]
    lateroprotrusion_azimuths_deg = []
"""


@pytest.fixture(scope="module")
def runs(tmp_path_factory):
    """Return, by pin opening, findings.json as text and as a document, and the tables."""
    found = {}
    for name, extra in (
        ("left out", ""),
        ("none", "pin_opening_mm = 0.0\n"),
        ("raised", "pin_opening_mm = 3.0\n"),
    ):
        case = parse_case(extra + _COARSE, name)
        folder = tmp_path_factory.mktemp(name.replace(" ", "_"))
        write_results(folder, case, run(case, lambda step: None))
        found[name] = {path.name: path.read_bytes() for path in folder.iterdir()}
    return found


def test_a_pin_that_raises_nothing_changes_nothing(runs):
    """With 0 every file has the bytes it has where the key is left out, and no raised bite."""
    assert runs["none"] == runs["left out"]
    assert "raised_bite" not in json.loads(runs["none"]["findings.json"])


def test_a_raised_bite_is_told_beside_the_present_one(runs):
    """Tables and other findings stay those of the present bite; one finding leads the others."""
    before = json.loads(runs["none"]["findings.json"])
    after = json.loads(runs["raised"]["findings.json"])
    for name in ("contacts.csv", "tracks.csv", "gaps.csv", "borders.csv"):
        assert runs["raised"][name] == runs["none"][name]
    raised = after.pop("raised_bite")
    assert raised["raised_mm"] == pytest.approx(3.0, abs=1e-9)
    added = [item for item in after["findings"] if item["kind"] == "raised bite"]
    assert [item for item in after["findings"] if item not in added] == before["findings"]
    assert len(added) == 1
    assert "MI is void, a centric relation record is required" in added[0]["text"]
    level = [f for f in after["findings"] if f["severity"] == added[0]["severity"]]
    assert level[0] == added[0]
    shares = {tooth["tooth_lower"]: tooth["opening_mm"] / 3.0 for tooth in raised["teeth"]}
    assert 0.3 < shares[47] < shares[46] < shares[45] < shares[43] < shares[41] <= 1.0
    assert all(0.0 < tooth["room_mm"] < tooth["arc_gap_mm"] for tooth in raised["teeth"])
    assert raised["front"]["overjet_mm"] > raised["front_in_mi"]["overjet_mm"]
