"""Changes of single teeth on the page: what is offered and told, undone, written, refused."""

import json
import threading
from dataclasses import fields

import numpy as np
import pytest

from kinematics import checkup
from kinematics.case_changes import changed_case
from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.trial.settings import AMOUNTS, Change
from scenes.builtin_cases import builtin_case
from scenes.case_words import setting_changes
from scenes.page_desk import Desk
from scenes.page_frames import arrays_of, header_of
from scenes.page_messages import CaseFileRequest, read_message
from scenes.page_trial import BEFORE, trial_of, trial_offered
from tests.test_page_desk import COARSE, answered, show

CASE = "upper_distal_extension"
LOWERED = {"kind": "lower", "tooth": 46, "by_mm": 1.2}


@pytest.fixture(scope="module")
def told():
    """Return what is told of a case, of its 46 lowered, and when that is undone again."""
    desk = Desk(1, None)
    trials = (None, [LOWERED], None)
    found = [answered(desk, show(n, trial=trial)) for n, trial in enumerate(trials, 1)]
    yield (desk, *found)
    desk.close()


def test_every_kind_is_offered_with_limits_that_the_case_file_has():
    """The least and the most of every amount make a change; more does not."""
    kinds = {one["kind"]: one for one in trial_offered()["kinds"]}
    assert set(kinds) == set(AMOUNTS)
    for kind, one in kinds.items():
        assert tuple(amount["name"] for amount in one["amounts"]) == AMOUNTS[kind]
        first = {amount["name"]: amount["start"] for amount in one["amounts"]}
        for amount in one["amounts"]:
            for value in (amount["least"], amount["most"]):
                Change(kind, 13, **{**first, amount["name"]: value})
            with pytest.raises(ValueError, match="less than or equal"):
                Change(kind, 13, **{**first, amount["name"]: amount["most"] + amount["step"]})
    names = {name for names in AMOUNTS.values() for name in names}
    assert names | {"kind", "tooth"} == {field.name for field in fields(Change)}


def test_changes_of_a_case_come_back_from_what_the_page_keeps():
    """What the page is told of the changes of a case makes the very same case again."""
    case = builtin_case("lowered_46")
    assert len(case.change) > 1
    kept = json.loads(json.dumps(trial_of(case)))
    assert changed_case(case, {}, kept) == case
    assert changed_case(case, {}, []).change == ()
    assert changed_case(case, {}).change == case.change


def test_lowering_a_tooth_keeps_the_others(told):
    """The picture of the upper stays the same; 46 is marked and is told as it was as well."""
    _, first, lowered, _ = told
    assert list(lowered) == ["progress", "teeth", "pose", "excursions", "rest"]
    header = header_of(lowered["teeth"])
    assert header["changed"] == [46] and header["notes"] == []
    was, now = arrays_of(first["teeth"]), arrays_of(lowered["teeth"])
    for part in header["parts"]:
        same = np.array_equal(was.get(part["vertices"], ()), now[part["vertices"]])
        assert same == (part["role"] not in ("lower tooth", BEFORE))
    [before] = [part for part in header["parts"] if part["role"] == BEFORE]
    teeth = next(part for part in header["parts"] if part["role"] == "lower tooth")
    moved = now[teeth["vertices"]][now[teeth["tooth"]] == 46]
    # Both hold the same vertices, the jaw closed in MI as before: all lie 1.2 mm apart.
    way = np.sort(now[before["vertices"]], axis=0).mean(axis=0) - moved.mean(axis=0)
    assert np.linalg.norm(way) == pytest.approx(1.2, abs=1e-3)
    assert way[2] > 1.1


def test_findings_of_a_changed_tooth_are_those_of_a_whole_run(told):
    """What the page tells is what the command finds in a case with that change."""
    _, first, lowered, _ = told
    case = changed_case(builtin_case(CASE), COARSE, [LOWERED])
    engine = checkup.run(case, progress=lambda _: None, planning=False)
    told_now = header_of(lowered["rest"])
    assert [row["text"] for row in told_now["findings"]] == [f.text for f in engine.findings]
    assert header_of(first["rest"])["counts"]["serious"] > told_now["counts"]["serious"] == 0


def test_undoing_a_change_gives_every_bit_again(told):
    """All messages are the same but for their numbers."""
    _, first, _, undone = told
    for kind in ("teeth", "pose", "excursions", "rest"):
        was, now = ({**header_of(one[kind]), "number": 0} for one in (first, undone))
        assert was == now
        arrays = arrays_of(undone[kind])
        for name, values in arrays_of(first[kind]).items():
            assert values.tobytes() == arrays[name].tobytes()


@pytest.mark.parametrize(
    ("trial", "keys", "words"),
    [
        ([{**LOWERED, "by_mm": 9}], ("change[0]",), "by_mm = 9: must be"),
        ([{**LOWERED, "by_mm": "1"}], ("change[0]",), "must be a number"),
        ([{**LOWERED, "tooth": 46.5}], ("change[0]",), "must be a whole number"),
        ([LOWERED, {"kind": "drill", "tooth": 46}], ("change[1]",), "'raise', 'lower'"),
        ([LOWERED, {"kind": "lower"}], ("change[1]",), "tooth: missing"),
        ([{"kind": "remove", "tooth": 46}, LOWERED], ("change[1]",), "no tooth 46"),
        ([{"kind": "remove", "tooth": 16}], ("change[0]",), "is named by denture base"),
        ([{**LOWERED, "colour": 1}], ("change[0]",), "unknown key"),
    ],
)
def test_a_change_that_cannot_be_made_is_told_with_its_place(told, trial, keys, words):
    """The fault names the change it is about, and what stood goes on."""
    desk = told[0]
    with pytest.raises(InputError, match=words.replace("[", r"\[")) as caught:
        answered(desk, show(9, trial=trial))
    assert caught.value.keys == keys
    assert "pose" in answered(desk, show(10))


def test_a_change_that_the_surfaces_refuse_is_told_with_its_place(told):
    """What shows only when the tooth is made is told in the same way."""
    desk = told[0]
    level = [{"kind": "flatten", "tooth": 41, "by_mm": 4.0}] * 4
    with pytest.raises(InputError, match=r"change\[\d\]: tooth 41") as caught:
        answered(desk, show(11, trial=[LOWERED, *level]))
    [key] = caught.value.keys
    assert str(caught.value).startswith(f"{key}: ")
    assert "pose" in answered(desk, show(12))


def test_the_case_file_holds_the_changes_and_tells_them(told, tmp_path):
    """It reads back as the case that the page has shown."""
    desk = told[0]
    request = {**show(13, trial=[LOWERED]).model_dump(exclude={"lesson"}), "kind": "case_file"}
    request = read_message(json.dumps(request))
    assert isinstance(request, CaseFileRequest)
    assert list(desk.report(request, tmp_path, threading.Event())) == []
    text = next(tmp_path.iterdir()).read_text("utf-8")
    assert "# trial set-up: 46 lowered by 1.2 mm (before:" in text
    assert parse_case(text, "case.toml").change == (Change("lower", 46, by_mm=1.2),)


def test_taking_back_changes_of_a_case_file_is_told():
    """Every tooth of a trial set-up is told, also where nothing is left of it."""
    case = builtin_case("lowered_46")
    told = setting_changes(changed_case(case, {}, []), case)
    assert [item.name for item in told] == ["46", "15", "16"]
    assert "before: lowered by 1.2 mm" in told[0].text
    assert setting_changes(case, case) == ()
