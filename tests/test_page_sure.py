"""How sure findings are, asked for on the page: messages, a real study, what it says."""

import json
import multiprocessing
import threading
from dataclasses import replace

import pytest

from kinematics.checks import InputError
from kinematics.engine.hands import HandLost
from kinematics.planning.findings import Finding
from kinematics.uncertainty.settings import SettingSpread, UncertaintySettings
from scenes import page_sure
from scenes.page_frames import header_of
from scenes.page_lane import Failed, Stale
from scenes.page_messages import LeaveSureRequest, NotUnderstood, SureRequest, read_message
from scenes.page_results import finding_id
from scenes.page_sure import NOTHING_UNCERTAIN, studied, sure_answer
from tests.made_uncertainty import made_uncertainty
from tests.running_page import STATE, running_page
from tests.shipped_cases import coarse

ONE_FACTOR = UncertaintySettings(
    unrecorded="exact",
    spread=(SettingSpread(setting="guidance.right.condylar_inclination_deg", standard_error=8.0),),
)


@pytest.fixture
def server():
    """Give a server on loopback, with nothing to complain about at the end."""
    with running_page() as running:
        yield running
    assert running.complaints == []


def finished(study):
    """Return what a study yields, as headers, and what it returns."""
    told = []
    while True:
        try:
            told.append(header_of(next(study)))
        except StopIteration as end:
            return told, end.value


def test_what_the_page_may_ask():
    """A state to be studied, and to leave it off; nothing else with it."""
    asked = read_message(json.dumps({**STATE, "kind": "how_sure", "number": 3}))
    assert isinstance(asked, SureRequest)
    left = read_message(json.dumps({"kind": "leave_sure", "number": 4}))
    assert isinstance(left, LeaveSureRequest)
    for wrong in ({"kind": "leave_sure"}, {"kind": "leave_sure", "number": 4, "case": "given"}):
        with pytest.raises(NotUnderstood):
            read_message(json.dumps(wrong))


def test_a_study_goes_on_beside_the_states_of_a_page(server):
    """States are answered meanwhile; it ends when it is left off, or another is asked for."""
    with server.page() as page:
        page.show(1, "how_sure", movement="slow")
        assert page.hear()["share"] == 0.5
        page.show(2)
        assert {m["kind"] for m in page.hear_until("rest")} == {"pose", "rest"}
        page.channel.send('{"kind": "leave_sure", "number": 3}')
        page.show(4, "how_sure")
        heard = page.hear_until("sure")
        assert [m["number"] for m in heard if m["kind"] == "sure"] == [4]
    assert server.made[0].stopped == 1


def test_a_study_ends_with_its_page(server):
    """Nobody waits for it any more."""
    with server.page() as page:
        page.show(1, "how_sure", movement="slow")
        page.hear()
    with server.page() as page:
        page.show(1)
        page.hear_until("rest")
    assert server.made[0].is_closed


def test_a_real_study_tells_how_far_it_is_and_ends_with_shares(monkeypatch):
    """Of the case as the page has it, in processes of its own, which end."""
    monkeypatch.setattr(page_sure, "SAMPLES", 16)
    monkeypatch.setattr(page_sure, "_GIVES_WAY", 0)  # or it would wait for all other tests
    case = replace(coarse("natural_dentition"), uncertainty=ONE_FACTOR)
    told, found = finished(studied(7, case, 1, threading.Event()))
    assert {(item["kind"], item["number"]) for item in told} == {("progress", 7)}
    shares = [item["share"] for item in told]
    assert shares == sorted(shares)
    assert told[0]["words"] == "0 of 25 runs"
    assert (found.samples, found.runs, len(found.factors)) == (16, 24, 1)
    assert found.quantities
    assert multiprocessing.active_children() == []


def test_a_study_stops_soon_and_leaves_no_process(monkeypatch):
    """While processes still get ready."""
    monkeypatch.setattr(page_sure, "SAMPLES", 16)
    stop = threading.Event()
    case = replace(coarse("lower_distal_extension"), uncertainty=ONE_FACTOR)
    study = studied(7, case, 2, stop)
    next(study)
    stop.set()
    with pytest.raises(Stale):
        finished(study)
    assert multiprocessing.active_children() == []


def test_what_cannot_be_studied_is_told(monkeypatch):
    """Nothing uncertain, settings that make no case, a process that ended."""
    nothing = UncertaintySettings(unrecorded="exact")
    exact = replace(coarse("natural_dentition"), uncertainty=nothing)
    with pytest.raises(InputError, match="no setting of this case is uncertain"):
        finished(studied(1, exact, 2, threading.Event()))
    assert NOTHING_UNCERTAIN.endswith("exact")

    def ended(*_):
        raise HandLost("a process ended")

    monkeypatch.setattr(page_sure, "studied_at_once", ended)
    with pytest.raises(Failed, match="a process ended"):
        finished(studied(1, exact, 2, threading.Event()))


def test_shares_stand_under_the_names_of_findings(example):
    """In the words of the report; what was not studied is not there."""
    told = header_of(sure_answer(5, example.findings, made_uncertainty()))
    assert (told["kind"], told["number"]) == ("sure", 5)
    ids = [finding_id(place, item) for place, item in enumerate(example.findings)]
    assert list(told["findings"]) == ids[:2]
    first = told["findings"][ids[0]]
    assert first["text"] == "holds in 71 % of 512 samples (67 to 75), serious in 40 %"
    assert first["settled"] == "not settled by these records"
    assert (first["share"], first["low"], first["high"]) == (71.1, 67.0, 75.2)
    assert first["decides"].startswith("condylar inclination, right and left (total index 0.71")
    (other,) = told["others"]
    assert other["title"] == "nonworking interference · 17/47 and 18/48 · Left lateral excursion"
    assert "not of patients" in " ".join(told["about"])
    assert "512 samples" in told["lead"]


def test_findings_that_are_alike_have_names_of_their_own():
    """By their places."""
    same = Finding("a", "note", "b", tooth_upper=16)
    assert finding_id(0, same) == "a None 16 None 0"
    assert finding_id(0, same) != finding_id(1, same)
