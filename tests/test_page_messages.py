"""What the page may say, and messages to it as bytes."""

import json

import numpy as np
import pytest

from scenes.page_frames import frame, header_of
from scenes.page_messages import (
    CaseFileRequest,
    NotUnderstood,
    ReportRequest,
    Show,
    first_show,
    read_message,
)

GOOD = {
    "kind": "show",
    "number": 12,
    "case": "upper_distal_extension",
    "changes": {
        "guidance.right.condylar_inclination_deg": 40,
        "guidance.left.fischer_deg": -2.5,
        "guidance.incisal_table": True,
        "guidance.left.bennett_angle_deg": None,
        "dentition.wear_cusps_mm.46 MB": 0.3,
        "denture_bases[0].scheme": "contacts only in MI",
    },
    "trial": [{"kind": "lower", "tooth": 46, "by_mm": 1.2}, {"kind": "remove", "tooth": 36}],
    "movement": "right lateral",
    "start": "CR",
    "travel_mm": 2,
    "opening_mm": 0.0,
    "map": "none",
}


@pytest.mark.parametrize(
    ("kind", "model"), [("show", Show), ("report", ReportRequest), ("case_file", CaseFileRequest)]
)
def test_a_message_arrives_as_it_was_sent(kind, model):
    """Every value with its type: whole numbers stay whole, true stays true."""
    given = {**GOOD, "kind": kind}
    if model is Show:
        given["lesson"] = {"name": "02_equal_guides", "round": 1}
    message = read_message(json.dumps(given))
    assert type(message) is model
    assert json.dumps(message.model_dump(), sort_keys=True) == json.dumps(
        {**given, "travel_mm": 2.0}, sort_keys=True
    )


@pytest.mark.parametrize(
    "changes",
    [
        {"kind": "picture_words"},
        {"kind": None},
        {"number": -1},
        {"number": 1.5},
        {"number": True},
        {"number": 2**53},
        {"case": "../cases/x"},
        {"case": ""},
        {"case": "a" * 61},
        {"movement": "right\nlateral"},
        {"movement": "x" * 61},
        {"start": "mi"},
        {"travel_mm": "2"},
        {"travel_mm": -0.1},
        {"travel_mm": float("nan")},
        {"opening_mm": float("inf")},
        {"opening_mm": 41},
        {"map": ""},
        {"changes": []},
        {"changes": {"a": [1]}},
        {"changes": {"a": {"b": 1}}},
        {"changes": {"a": float("nan")}},
        {"changes": {"a": float("-inf")}},
        {"changes": {"a": 10**400}},
        {"changes": {"a": 1e300}},
        {"changes": {"a": "x" * 201}},
        {"changes": {"a": "\x00"}},
        {"changes": {"a" * 81: 1}},
        {"changes": {"": 1}},
        {"changes": {"a/../b": 1}},
        {"changes": {"__proto__\n": 1}},
        {"changes": {f"a{n}": n for n in range(201)}},
        {"trial": {}},
        {"trial": [1]},
        {"trial": [{"by_mm": [1]}]},
        {"trial": [{"by_mm": float("nan")}]},
        {"trial": [{"by_mm": 1e300}]},
        {"trial": [{"kind": "x" * 201}]},
        {"trial": [{"By mm": 1}]},
        {"trial": [{f"a{chr(97 + n)}": 1 for n in range(11)}]},
        {"trial": [{"kind": "remove", "tooth": 36}] * 101},
        {"display": {"upper": "ghosted"}},
    ],
)
def test_anything_else_is_not_understood(changes):
    """In one line of limited length, with the number of the message where it has one."""
    with pytest.raises(NotUnderstood) as caught:
        read_message(json.dumps({**GOOD, **changes}))
    assert caught.value.number == (None if "number" in changes else 12)
    assert len(str(caught.value).splitlines()) == 1
    assert len(str(caught.value)) < 300


@pytest.mark.parametrize("key", [key for key in GOOD if key not in ("changes", "trial")])
def test_nothing_may_be_left_out(key):
    """Everything is said every time."""
    with pytest.raises(NotUnderstood):
        read_message(json.dumps({name: value for name, value in GOOD.items() if name != key}))


@pytest.mark.parametrize(
    "text",
    [
        *("", "{", "null", "[]", "3", '"show"', "\x00", '{"kind":"show"}', "{}{}", "[" * 60_000),
        '{"kind":' * 8000,
        json.dumps(GOOD).replace("12", "1" + "0" * 5000),
        json.dumps(GOOD).replace("12", "1e5"),
        json.dumps(GOOD).replace("right lateral", "\\ud800"),
        json.dumps(GOOD).replace("-2.5", "-Infinity"),
        json.dumps(GOOD).replace("-2.5", "1e999"),
    ],
)
def test_no_text_does_any_harm(text):
    """What is no message is refused as such."""
    with pytest.raises(NotUnderstood):
        read_message(text)


def test_a_page_begins_with_a_state_it_could_have_asked_for():
    """What is sent first comes through when it is sent back."""
    first = first_show("natural_dentition")
    assert read_message(first.model_dump_json()) == first


def test_a_frame_can_be_looked_at_where_it_lies():
    """Header and arrays start at multiples of eight bytes; text of any length, empty arrays."""
    arrays = {
        "vertices": np.linspace(0, 1, 15, dtype=np.float32).reshape(5, 3)[:, ::-1],
        "gaps": np.arange(7, dtype=np.uint16),
        "nothing": np.zeros((0, 16), dtype=np.float32),
        "teeth": np.arange(3, dtype=np.uint8),
        "faces": np.arange(6, dtype=np.uint32).reshape(2, 3),
    }
    for length in range(9):
        header = {"kind": "pose", "number": 3, "words": "ä" * length}
        message = frame(header, arrays)
        told = header_of(message)
        start = 4 + int.from_bytes(message[:4], "little")
        assert start % 8 == 0
        assert {key: told[key] for key in header} == header
        for name, array in arrays.items():
            place = told["buffers"][name]
            assert place["offset"] % 8 == 0
            found = np.frombuffer(
                message, place["type"], int(np.prod(place["shape"])), start + place["offset"]
            )
            np.testing.assert_array_equal(found.reshape(place["shape"]), array)


def test_a_frame_without_arrays_is_its_header():
    """Nothing follows."""
    message = frame({"kind": "fault", "number": None})
    assert header_of(message) == {"kind": "fault", "number": None}
    assert len(message) == 4 + int.from_bytes(message[:4], "little")


@pytest.mark.parametrize(
    ("header", "arrays"),
    [({"a": float("nan")}, {}), ({"a": 1}, {"b": np.zeros(3)}), ({}, {"b": np.array([True])})],
)
def test_what_a_page_cannot_read_is_not_sent(header, arrays):
    """Numbers that JSON has no word for, and arrays of other types."""
    with pytest.raises(ValueError):
        frame(header, arrays)
