"""What the page is told of loads is what the engine finds, in words with their units."""

import threading
import time
from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kinematics.planning.base_loads import ExcursionLoads, excursion_loads
from kinematics.planning.load_readings import largest_load
from scenes.page_desk import Desk
from scenes.page_frames import arrays_of, header_of
from scenes.page_lane import Stale
from scenes.page_loads import loads_answer
from scenes.page_messages import first_show
from tests.loaded_cases import ready
from tests.recorded_desk import COARSE

CASE = "upper_distal_extension"


@cache
def weighed():
    """Return a case with its right and left lateral excursions, and what they load."""
    here = ready(CASE)
    sweeps = here.sweeps[1:]
    loads = [excursion_loads(here.occlusion, here.case.load, here.frames, s) for s in sweeps]
    return here.case, sweeps, loads


def told_of(case, sweeps, loads):
    """Return header and arrays of the message."""
    message = loads_answer(7, case, sweeps, loads)
    return header_of(message), arrays_of(message)


def test_the_largest_loads_are_those_of_the_engine():
    """Per excursion and framework: across with its range, where, and every figure with a unit."""
    case, sweeps, loads = weighed()
    told, _ = told_of(case, sweeps, loads)
    assert told["whole"] and told["number"] == 7
    assert [e["movement"] for e in told["excursions"]] == ["right lateral", "left lateral"]
    for row, one in zip(told["excursions"], loads, strict=True):
        (frame,) = row["frames"]
        base = largest_load(one, 0).as_is
        assert frame["largest"]["across_n"] == base.figures["across_n"] > 1.0
        assert frame["largest"]["at_mm"] == base.travel_mm
        least, greatest = base.least["across_n"], base.greatest["across_n"]
        words = frame["largest"]["words"]
        value, _, rest = words.partition(" N (")
        assert float(value) == pytest.approx(base.figures["across_n"], abs=0.5)
        ends = [float(text) for text in rest.rstrip(")").split(" to ")]
        assert ends == pytest.approx([least, greatest], abs=0.5)
        assert float(value) < 10.0 or "." not in value
        details = dict(frame["largest"]["details"])
        assert len(details) == 6 and "turning about the fulcrum line" in details
        assert all(any(u in text for u in (" N", " mm", " µm")) for text in details.values())


def test_abutments_are_told_with_and_without_guidance():
    """What each gets from the framework, and with its opponents as set up and guidance off."""
    case, sweeps, loads = weighed()
    told, _ = told_of(case, sweeps, loads)
    for row, one in zip(told["excursions"], loads, strict=True):
        largest = largest_load(one, 0)
        teeth, by_frame, both, shares = row["frames"][0]["largest"]["tables"]
        assert shares["rows"][-1][1] == "100 N"
        assert [r[0] for r in teeth["rows"]] == [str(t.tooth) for t in largest.as_is.teeth]
        for cells, abutment in zip(by_frame["rows"], largest.as_is.abutments, strict=True):
            assert cells[0] == str(abutment.tooth)
            along = cells[1].replace("−", "-").split()[0]
            assert float(along) == pytest.approx(abutment.along_n, abs=0.5)
            assert float(cells[2].split()[0]) == pytest.approx(abutment.across_n, abs=0.5)
        off = dict(largest.taken_off)
        assert off
        for cells, (code, force) in zip(both["rows"], largest.with_guidance, strict=True):
            assert cells[0] == str(code)
            assert float(cells[1].split()[0]) == pytest.approx(force, abs=0.5)
            assert float(cells[2].split()[0]) == pytest.approx(off[code], abs=0.5)


def test_forces_of_every_pose_are_sent():
    """Along and across add up to the force on each tooth, pose by pose."""
    case, sweeps, loads = weighed()
    told, arrays = told_of(case, sweeps, loads)
    for row, one in zip(told["excursions"], loads, strict=True):
        frame, held = row["frames"][0], one.as_is.frames[0]
        np.testing.assert_allclose(row["travel_mm"], one.as_is.travel_mm, atol=1e-4)
        assert frame["teeth"] == list(held.teeth) and frame["abutments"] == list(held.abutments)
        for name, force in (("teeth", held.teeth_n), ("abutments", held.abutments_n)):
            total = arrays[frame[f"{name}_along_n"]] + arrays[frame[f"{name}_across_n"]]
            np.testing.assert_allclose(total, force[0], atol=1e-4)
        np.testing.assert_allclose(arrays[frame["place_mm"]], held.places, atol=1e-4)


def test_part_of_the_excursions_is_told_as_such():
    """A message about the first excursion says that more is to come."""
    case, sweeps, loads = weighed()
    told, _ = told_of(case, sweeps, loads[:1])
    assert not told["whole"] and len(told["excursions"]) == 1


def escaping(loads, rows, words):
    """Return loads of which nothing balances some poses."""
    escape = tuple(words if i in rows else "" for i in range(len(loads.as_is.escape)))
    frames = tuple(
        replace(frame, balanced=frame.balanced & (np.array(escape) == ""))
        for frame in loads.as_is.frames
    )
    return ExcursionLoads(replace(loads.as_is, escape=escape, frames=frames), loads.taken_off)


@pytest.mark.parametrize("seed", range(50))
def test_planted_escapes_are_told_with_where_and_what(seed):
    """Runs of poses that nothing balances are told by travel, with what gives way."""
    case, sweeps, loads = weighed()
    rng = np.random.default_rng(seed)
    n = len(loads[0].as_is.travel_mm)
    first = int(rng.integers(2, n - 6))
    last = first + int(rng.integers(0, 4))
    lost = escaping(loads[0], range(first, last + 1), "'the base'")
    (row,) = told_of(case, sweeps, [lost])[0]["excursions"]
    start, end = (f"{lost.as_is.travel_mm[i]:.1f}" for i in (first, last))
    where = f"at {start} mm" if start == end else f"{start} to {end} mm"
    way = "nothing balances the closing force; 'the base' gives way"
    assert row["gives_way"] == [f"{where}: {way}"]
    assert [i for i, words in enumerate(row["escape"]) if words] == list(range(first, last + 1))
    largest = row["frames"][0]["largest"]
    assert largest["at_mm"] not in lost.as_is.travel_mm[first : last + 1]


def test_where_nothing_is_balanced_no_load_is_told():
    """No figure stands for what is not known."""
    case, sweeps, loads = weighed()
    lost = escaping(loads[0], range(len(loads[0].as_is.escape)), "the jaw")
    (row,) = told_of(case, sweeps, [lost])[0]["excursions"]
    assert row["frames"][0]["largest"] is None and row["frames"][0]["none"] == "not known"


def show(number, case=CASE, **rest):
    """Return a state of the page on coarse teeth."""
    told = {"number": number, "changes": {**COARSE, **rest.pop("changes", {})}, **rest}
    return first_show(case).model_copy(update=told)


def until(answers, kind):
    """Take answers up to the first of a kind, and return its header."""
    return next(h for h in map(header_of, answers) if h["kind"] == kind)


def test_loads_come_last_and_never_hold_up_a_newer_state():
    """The jaw is shown elsewhere while loads are computed; they go on, and come to the newest.

    Soon after a setting is moved the next pose comes, and loads of the old ones never.
    """
    desk = Desk(1, None)
    stop = threading.Event()
    answers = desk.answers(show(1), stop)
    first = until(answers, "loads")
    assert len(first["excursions"]) == 1 and not first["whole"]
    stop.set()
    with pytest.raises(Stale):
        next(answers)
    answers.close()
    answers = desk.answers(show(2, travel_mm=1.0), stop := threading.Event())
    told = [header_of(next(answers)) for _ in range(3)]
    assert [h["kind"] for h in told] == ["pose", "loads", "loads"]
    assert [len(h["excursions"]) for h in told[1:]] == [2, 3]
    stop.set()
    with pytest.raises(Stale):
        next(answers)
    begun = time.monotonic()
    answers = desk.answers(show(3, changes={"load.closing_force_n": 200.0}), threading.Event())
    assert header_of(next(answers))["kind"] == "pose"
    assert time.monotonic() - begun < 5.0
    told = [header_of(m) for m in answers if header_of(m)["kind"] == "loads"]
    assert [len(h["excursions"]) for h in told] == [1, 2, 3, 4, 5]
    assert [h["whole"] for h in told] == [False, False, False, False, True]
    assert {h["number"] for h in told} == {3} and "200 N" in told[0]["about"][0]
    again = desk.answers(show(4, changes={"load.closing_force_n": 200.0}), threading.Event())
    assert [header_of(m)["kind"] for m in again] == ["pose"]
    desk.close()


def test_natural_teeth_are_not_weighed():
    """Without denture bases there is no message about loads, nor a promise of one."""
    desk = Desk(1, None)
    told = [header_of(m) for m in desk.answers(show(1, "natural_dentition"), threading.Event())]
    assert "loads" not in {h["kind"] for h in told}
    assert told[-1]["kind"] == "rest" and told[-1]["loads_follow"] is False
    desk.close()
