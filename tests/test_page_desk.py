"""What the page is told is what the engine finds."""

import threading
import time
from collections import Counter
from itertools import takewhile

import numpy as np
import pytest

from kinematics import checkup
from kinematics.case_changes import changed_case
from kinematics.checks import InputError
from kinematics.contact.gap_maps import distance_map
from kinematics.contact.workers import Workers
from kinematics.mounting import mounted_casts
from scenes.builtin_cases import builtin_case
from scenes.page_desk import Desk
from scenes.page_frames import arrays_of, header_of
from scenes.page_lane import Stale
from scenes.page_messages import GIVEN_CASE, CaseFileRequest, first_show
from scenes.scene_bytes import FARTHER

COARSE = {"dentition.triangles_per_arch": 15_000}
MOVED = {"guidance.left.condylar_inclination_deg": 25.0, "judging.scheme": "group"}


def show(number=1, changes=(), case="upper_distal_extension", **rest):
    """Return a state of the page, on coarse teeth."""
    told = {"number": number, "case": case, "changes": {**COARSE, **dict(changes)}, **rest}
    return first_show(case).model_copy(update=told)


def answered(desk, wanted):
    """Return all answers to a state by their kind, but for loads: they come last and take long."""
    before = takewhile(
        lambda m: header_of(m)["kind"] != "loads", desk.answers(wanted, threading.Event())
    )
    return {header_of(m)["kind"]: m for m in before}


@pytest.fixture(scope="module")
def desk():
    """Return a desk that has shown the built-in case."""
    made = Desk(1, None)
    made.first = answered(made, show())
    yield made
    made.close()


@pytest.fixture(scope="module")
def engine():
    """Return what a whole run finds with moved settings."""
    case = changed_case(builtin_case(), {**COARSE, **MOVED})
    return checkup.run(case, progress=lambda _: None, planning=False)


@pytest.fixture(scope="module")
def moved(desk, engine):
    """Return what the page is told of the same settings, moved while it was open."""
    assert desk.first
    return answered(desk, show(2, MOVED, map="excursion"))


def test_a_new_case_is_told_from_case_to_rest(desk):
    """Each kind of answer comes once, the quick ones first."""
    assert list(desk.first) == ["case", "progress", "teeth", "pose", "excursions", "rest"]


def test_moved_guidance_keeps_the_teeth(moved):
    """Nothing is sent again that has not changed."""
    assert list(moved) == ["pose", "excursions", "rest", "reach"]


def test_findings_are_those_of_a_whole_run(moved, engine):
    """Every finding, in its order, with its text and figures."""
    told = header_of(moved["rest"])
    assert [row["text"] for row in told["findings"]] == [item.text for item in engine.findings]
    assert told["counts"] == {
        "note": 0, "attention": 0, "serious": 0,
        **Counter(item.severity for item in engine.findings),
    }  # fmt: skip


def test_excursions_are_those_of_a_whole_run(moved, engine):
    """Travel, what guides, contacts and where the jaw goes."""
    told, arrays = header_of(moved["rest"]), arrays_of(moved["rest"])
    verdicts = {verdict.excursion: verdict for verdict in engine.verdicts}
    assert len(told["movements"]) == len(engine.sweeps)
    for row, sweep in zip(told["movements"], engine.sweeps, strict=True):
        np.testing.assert_allclose(row["travel_mm"], sweep.travel_mm, atol=1e-4)
        np.testing.assert_array_equal(row["contacts"]["upper"], sweep.patches.tooth_upper)
        np.testing.assert_array_equal(row["contacts"]["pose"], sweep.patches.pose)
        np.testing.assert_allclose(arrays[row["incisal_mm"]], sweep.incisal_point, atol=1e-5)
        if row["start"] == "MI" and row["judged"]:
            assert verdicts[sweep.excursion.name].text == row["text"]


def test_the_quick_answer_agrees_with_the_whole_one(moved):
    """What is told of the main excursions first stays when the rest comes."""
    quick, whole = header_of(moved["excursions"]), header_of(moved["rest"])
    names = [(row["movement"], row["start"]) for row in quick["movements"]]
    assert names == [("protrusion", "MI"), ("right lateral", "MI"), ("left lateral", "MI")]
    later = {(row["movement"], row["start"]): row for row in whole["movements"]}
    for row in quick["movements"]:
        same = later[row["movement"], row["start"]]
        for key in ("kind", "text", "readings"):
            assert row[key] == same[key]
        for key in ("travel_mm", "edge_to_edge_mm"):
            np.testing.assert_allclose(row[key], same[key], atol=0.0052)
        assert set(row["contacts"]["upper"]) == set(same["contacts"]["upper"])
        assert abs(len(row["contacts"]["upper"]) - len(same["contacts"]["upper"])) <= 2
    of_main = {item["text"] for item in whole["findings"] if item["movement"] in dict(names)}
    assert {item["text"] for item in quick["findings"]} & of_main


def test_a_pose_is_that_of_the_sweep(desk, engine):
    """Contacts, first contact, runner-up and gaps at a travel are those the sweep has there."""
    sweep = next(s for s in engine.sweeps if s.excursion.name == "left lateral")
    at = int(np.argmin(abs(sweep.travel_mm - 1.7)))
    told = answered(desk, show(3, MOVED, movement="left lateral", travel_mm=1.7))["pose"]
    header, arrays = header_of(told), arrays_of(told)
    rows = sweep.patches.pose == at
    assert len(header["contacts"]) == rows.sum()
    areas = sorted(contact["area_mm2"] for contact in header["contacts"])
    np.testing.assert_allclose(areas, sorted(sweep.patches.area_mm2[rows]), atol=1e-6)
    assert header["first"]["upper"] == sweep.closures.tooth_upper[at]
    np.testing.assert_allclose(header["next"]["gap_mm"], sweep.runner_up_gap_mm[at], atol=1e-6)
    np.testing.assert_allclose(header["incisal_mm"], sweep.incisal_point[at], atol=1e-6)
    case = changed_case(builtin_case(), {**COARSE, **MOVED})
    casts = mounted_casts(case)
    near = distance_map(casts.pair, sweep.poses[at], header["map_limit_mm"], Workers())
    sent = np.count_nonzero(arrays["gap_upper"] != FARTHER)
    assert sent == np.count_nonzero(np.isfinite(near.upper_mm))


def test_an_opened_jaw_touches_nothing(desk):
    """Opened by 10 mm the lower incisal point stands so far from where it closes."""
    closed = header_of(answered(desk, show(4))["pose"])
    opened = header_of(answered(desk, show(5, opening_mm=10.0))["pose"])
    assert opened["contacts"] == [] and opened["first"] is None
    way = np.subtract(opened["incisal_mm"], closed["incisal_mm"])
    np.testing.assert_allclose(np.linalg.norm(way), 10.0, atol=1e-9)
    assert way[2] < -9.0


def test_the_pin_raises_the_bite(desk):
    """With a pin opening there is one more place to stand: in CR, so much lower than MI."""
    in_mi = header_of(answered(desk, show(13, travel_mm=0.0))["pose"])
    state = {"movement": "raised bite", "start": "CR", "travel_mm": 0.0}
    told = answered(desk, show(14, {"pin_opening_mm": 3.0}, **state))
    assert header_of(told["case"])["movements"][-1]["movement"] == "raised bite"
    raised = header_of(told["pose"])
    assert raised["guide"] == "pin" and raised["contacts"] == [] and raised["first"] is None
    np.testing.assert_allclose(in_mi["incisal_mm"][2] - raised["incisal_mm"][2], 3.0, atol=1e-9)
    assert raised["next"]["gap_mm"] > 0.5
    with pytest.raises(InputError, match="no 'raised bite'"):
        answered(desk, show(15, **state))


def test_what_does_not_go_together_is_refused_and_the_next_state_is_shown(desk):
    """A fault names its setting; the desk goes on with what stood."""
    with pytest.raises(InputError, match="condylar_inclination_deg"):
        answered(desk, show(6, {"guidance.right.condylar_inclination_deg": 99.0}))
    with pytest.raises(InputError, match="no 'sideways'"):
        answered(desk, show(7, movement="sideways"))
    assert "pose" in answered(desk, show(8))


def test_a_state_that_is_no_longer_wanted_is_dropped_soon(desk):
    """Stopped between two answers, the desk raises at the next one."""
    stop = threading.Event()
    answers = desk.answers(show(9, {"guidance.right.fischer_deg": 5.0}), stop)
    assert header_of(next(answers))["kind"] == "pose"
    stop.set()
    with pytest.raises(Stale):
        for _ in answers:
            time.sleep(0.0)


def test_moving_the_jaw_does_not_begin_the_excursions_anew(desk):
    """What was being followed goes on under the next state, and is told there."""
    changes = {"guidance.right.fischer_deg": -5.0}
    first = desk.answers(show(10, changes), threading.Event())
    assert header_of(next(first))["kind"] == "pose"
    first.close()
    told = answered(desk, show(11, changes, travel_mm=1.0))
    assert list(told) == ["pose", "excursions", "rest"]
    assert list(answered(desk, show(12, changes, travel_mm=1.5))) == ["pose"]


def test_the_case_of_a_file_is_shown_under_its_own_name(tmp_path):
    """With a case given there is one more to choose; without, it is refused."""
    given = changed_case(builtin_case("natural_dentition"), COARSE)
    own = Desk(1, given)
    names = [row["name"] for row in header_of(own.welcome(first_show(GIVEN_CASE)))["cases"]]
    assert names[0] == GIVEN_CASE
    request = CaseFileRequest(
        **{**show(1, case=GIVEN_CASE).model_dump(exclude={"lesson"}), "kind": "case_file"}
    )
    assert list(own.report(request, tmp_path, threading.Event())) == []
    assert "15000" in next(tmp_path.iterdir()).read_text("utf-8")
    with pytest.raises(InputError, match="no case file"):
        answered(Desk(1, None), show(case=GIVEN_CASE))
