"""Casts that a page brings: who may, what is taken, what is answered, and when it is gone."""

import io
import json
import zipfile
from contextlib import suppress

import numpy as np
import pytest

from kinematics.case_file import read_case
from kinematics.geometry.poses import inverse
from kinematics.scans.picked_points import points_of
from scenes import page_casts_upload
from scenes.case_places import DEFAULT_CASE
from scenes.page_casts import LARGEST_BYTES, SLOTS
from tests.bringing_page import MEAN_VALUES, Bringer, picked
from tests.own_casts import make_own_casts
from tests.recorded_desk import recorded_page
from tests.scanner_like import any_place

A_POINT = {"point": "axis_left", "tooth": None, "place": [0, 0, 0]}


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans as somebody brings them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


@pytest.fixture
def bringer(server):
    """Return a page with a place for its casts."""
    with server.page() as page:
        yield Bringer(server, page)


def test_only_a_page_of_this_server_brings_files(server, bringer):
    """Without secret or origin, from elsewhere, to another place or slot: refused, nothing kept."""
    token, address = server.guard.token, bringer.place["address"]
    for path, headers, status in (
        (f"{address}/upper?token=wrong", None, 403),
        (f"{address}/upper?token={token}", {}, 403),
        (f"{address}/upper?token={token}", {"Origin": "http://evil.example"}, 403),
        (f"{address}/upper?token={token}", {"Origin": "null"}, 403),
        (f"/casts/elsewhere/upper?token={token}", None, 404),
        (f"{address}/other?token={token}", None, 404),
        (f"{address}/..%2F..%2Fx?token={token}", None, 404),
        (f"/page.js?token={token}", None, 405),
        (f"/?token={token}", None, 405),
    ):
        assert bringer.bring("upper", b"x", "a.stl", path, headers)[0] == status, path
    assert server.fetch(f"{address}/upper?token={token}")[0] in (404, 405)
    assert server.desks.places.find(bringer.place["key"]).folder is None
    assert server.complaints == []


def test_what_is_no_such_file_is_not_taken(bringer, monkeypatch):
    """By its ending, and by its size, announced or not."""
    for slot, name in (
        ("upper", "a.exe"),
        ("upper", "a"),
        ("upper_labels", "a.stl"),
        ("points", ""),
    ):
        status, words = bringer.bring(slot, b"x", name)
        assert (status, "must end with" in words) == (415, True)
    monkeypatch.setitem(LARGEST_BYTES, "points", 1000)
    assert bringer.bring("points", b"x" * 1001, "a.csv")[0] == 413
    chunks = iter([b"x" * 600, b"x" * 600])
    assert bringer.bring("points", chunks, "a.csv")[0] == 413
    assert bringer.bring("points", b"x" * 1000, "a.csv")[0] == 200


@pytest.mark.parametrize(
    "name", ["../../evil.csv", "..%2F..%2Fevil.csv", "C:%5Cx%5Cevil.csv", "%00.csv", "a%0Ab.csv"]
)
def test_names_of_files_lead_nowhere(server, bringer, name):
    """They are names, in a folder of the page's own."""
    status, _ = bringer.bring("points", b"x", name)
    place = server.desks.places.find(bringer.place["key"])
    if status == 200:
        assert place.files["points"].resolve().is_relative_to(place.folder.resolve())
        assert all(letter.isprintable() for letter in place.files["points"].name)


def test_a_file_that_breaks_off_is_not_kept(server, bringer, monkeypatch):
    """Hung up on in the middle, or waited for in vain."""
    monkeypatch.setattr(page_casts_upload, "PATIENCE_S", 0.2)
    head = (
        f"POST {bringer.place['address']}/upper?token={server.guard.token}&name=a.stl HTTP/1.1\r\n"
        f"Host: {server.own_name}\r\nOrigin: http://{server.own_name}\r\n"
        "Content-Length: 9999\r\n\r\n"
    )
    with suppress(ConnectionError):
        server.bare(head.encode() + b"x" * 100)
    place = server.desks.places.find(bringer.place["key"])
    assert server.wait_until(lambda: place.writing == 0)
    assert place.files == {}
    assert [path for path in place.folder.rglob("*") if path.is_file()] == []
    assert server.complaints == []


def test_casts_are_read_snapped_used_and_saved(casts, bringer, tmp_path):
    """From files to a case, and to a ZIP file that holds the same case."""
    bringer.bring_all(casts)
    told = bringer.read()
    assert told["kind"] == "casts"
    assert {part["arch"] for part in told["parts"]} == {"upper", "lower"}
    assert [one["point"] for one in told["proposed"]] == list(MEAN_VALUES)
    at = casts.points["molar_left"]
    lifted = [at[0] + 0.9, at[1], at[2]]
    [snapped] = bringer.ask("snap", places=[["lower", lifted]])[-1]["places"]
    assert 0.0 < snapped["moved_mm"] <= 0.91
    assert snapped["far"] == (snapped["moved_mm"] > 0.5)
    seeds = [{"point": "tooth_seed", "tooth": 36, "place": list(casts.points["seed_36"])}]
    points = [*picked(casts), *seeds]
    made = bringer.ask("use_points", points=points)[-1]
    assert (made["kind"], made["case"]["title"]) == ("own_case", "Case from scans")
    bringer.page.show(5, case=made["case"]["name"])
    [case] = [one for one in bringer.page.hear_until("rest") if one["kind"] == "case"]
    assert case["title"] == "Case from scans"
    ready = bringer.ask("casts_file", what="case", points=points)[-1]
    _, _, content = bringer.running.fetch(ready["address"])
    zipfile.ZipFile(io.BytesIO(content)).extractall(tmp_path)
    assert {path.name for path in (tmp_path / "case").iterdir()} == {
        "case.toml", "upper.obj", "lower.ply", "upper_labels.json", "points.csv",
    }  # fmt: skip
    kept = points_of(read_case(tmp_path / "case" / "case.toml").scans)
    assert [(p.point, p.tooth, list(p.place)) for p in kept] == [
        (one["point"], one["tooth"], one["place"]) for one in points
    ]
    ready = bringer.ask("casts_file", what="points", points=points)[-1]
    assert bringer.running.fetch(ready["address"])[2] == (tmp_path / "case/points.csv").read_bytes()


def test_without_labels_the_page_is_told_so(casts, bringer):
    """Points can be picked and saved; a run wants the teeth told first."""
    bringer.bring_all(casts, labels=False)
    told = bringer.read()
    assert "nothing says which triangle belongs to which tooth" in told["no_labels"]
    assert (told["oriented"], told["proposed"]) == (False, [])
    refused = bringer.ask("use_points", points=picked(casts))[-1]
    assert "The teeth of the casts are not told yet" in refused["text"]
    assert bringer.ask("casts_file", what="case", points=[])[-1]["kind"] == "file"


def test_scans_that_lie_apart_need_a_bite_record(bringer, tmp_path):
    """Without one they are refused, beside its field; with it they are drawn and used as one."""
    away = any_place(7)
    apart = make_own_casts(tmp_path / "apart", lower_moved=away)
    bringer.bring_all(apart)
    told = bringer.read()
    assert (told["kind"], told["keys"]) == ("fault", ["bite"])
    assert "the casts do not bite" in told["text"]
    record = "\n".join(" ".join(map(repr, row)) for row in inverse(away).tolist())
    assert bringer.bring("bite", record.encode(), "bite.txt")[0] == 200
    assert bringer.read()["kind"] == "casts"
    at = list(apart.points["molar_left"])
    [snapped] = bringer.ask("snap", places=[["lower", at]])[-1]["places"]
    assert snapped["moved_mm"] < 0.05
    name = bringer.ask("use_points", points=picked(apart))[-1]["case"]["name"]
    made = bringer.running.desks.places.find(bringer.place["key"]).cases[name]
    np.testing.assert_allclose(made.scans.scan_from_lower, inverse(away), atol=1e-12)
    bringer.page.show(5, case=name)
    assert bringer.page.hear_until("rest")[-1]["number"] == 5
    drawn = bringer.ask("read_casts", of=name, units="mm")[-1]  # to pick the points again
    assert drawn["kind"] == "casts"


@pytest.mark.parametrize(
    ("slot", "content", "name", "says"),
    [
        ("upper", b"solid x\nno", "mine.stl", "mine.stl"),
        ("lower", b"\0" * 900, "yours.ply", "yours.ply"),
        (
            "upper_labels",
            b"{}",
            "labels.json",
            'labels.json: wanted an object with the key "labels"',
        ),
        ("bite", b"1 0 0 0\n", "bite.txt", "bite.txt: has 1 lines of numbers"),
        ("points", b"x,y\n", "own.csv", "own.csv: line 1 is 'x,y': wanted the header"),
    ],
)
def test_a_wrong_file_is_told_by_its_own_name(casts, bringer, slot, content, name, says):
    """With the words of the reader, and which field it is about."""
    bringer.bring_all(casts)
    assert bringer.bring(slot, content, name)[0] == 200
    told = bringer.read()
    assert (told["kind"], told["keys"]) == ("fault", [slot])
    assert says in told["text"]
    assert "cuspway-page" not in told["text"]
    bringer.ask("place", key=None)  # all the same, the page goes on


def test_what_cannot_be_done_yet_is_told(casts, bringer):
    """Before files, before reading, with points of two ways, with too few."""
    assert bringer.read()["keys"] == ["upper"]
    assert "no casts were read yet" in bringer.ask("use_points", points=[])[-1]["text"]
    bringer.bring_all(casts)
    bringer.read()
    axis = [{"point": "axis_right", "tooth": None, "place": [0.0, 0.0, 0.0]}]
    both = bringer.ask("use_points", points=[*picked(casts), *axis])[-1]
    assert "belong to different ways of mounting" in both["text"]
    some = bringer.ask("use_points", points=picked(casts, MEAN_VALUES[:2]))[-1]
    assert "missing: molar_left" in some["text"]
    far = [{"point": "rest_seat", "tooth": 16, "place": [0.0, 0.0, 0.0]}]
    assert "rest_seat of 16: lies" in bringer.ask("use_points", points=far)[-1]["text"]
    assert bringer.ask("stop_casts")[-1]["kind"] == "stopped"


def test_a_lost_page_finds_its_place_again_and_a_gone_one_leaves_nothing(casts, server):
    """By its key, for a while; nobody else's key is of use for anything else."""
    with server.page() as page:
        first = Bringer(server, page)
        first.bring_all(casts)
        first.read()
        name = first.ask("use_points", points=picked(casts))[-1]["case"]["name"]
        place = server.desks.places.find(first.place["key"])
    with server.page() as page:
        again = Bringer(server, page, first.place["key"])
        assert again.place["key"] == first.place["key"]
        assert set(again.place["files"]) == {"upper", "lower", "upper_labels"}
        page.show(5, case=name)
        assert page.hear_until("rest")[-1]["number"] == 5
        server.desks.places.kept_s = 0.05
    assert server.wait_until(lambda: not place.folder.exists())
    with server.page() as page:
        other = Bringer(server, page, first.place["key"])
        assert other.place["key"] != first.place["key"]
        page.show(6, case=name)
        assert "no longer there" in page.hear()["text"]
    server.desks.places.kept_s = 60.0


@pytest.mark.parametrize(
    "message",
    [
        {"kind": "place"},
        {"kind": "place", "key": "../x"},
        {"kind": "place", "key": "a" * 61},
        {"kind": "read_casts", "of": "../given", "units": "mm"},
        {"kind": "read_casts", "of": "files", "units": "miles"},
        {"kind": "forget_file", "slot": "/etc"},
        {"kind": "snap", "places": []},
        {"kind": "snap", "places": [["middle", [0, 0, 0]]]},
        {"kind": "snap", "places": [["upper", [0, 0]]]},
        {"kind": "snap", "places": [["upper", [0, 0, 1e9]]]},
        {"kind": "snap", "places": [["upper", [0, 0, None]]]},
        {"kind": "use_points", "points": [{"point": "apex", "tooth": None, "place": [0, 0, 0]}]},
        {
            "kind": "use_points",
            "points": [{"point": "tooth_seed", "tooth": 99, "place": [0, 0, 0]}],
        },
        {
            "kind": "use_points",
            "points": 201 * [{"point": "axis_left", "tooth": None, "place": 3 * [0]}],
        },
        {"kind": "use_points"},
        {"kind": "casts_file", "what": "everything", "points": []},
        {"kind": "stop_casts", "more": 1},
    ],
)
def test_messages_about_casts_are_checked(server, message):
    """Whatever does not fit is refused in one line, and the page goes on."""
    with server.page() as page:
        page.channel.send(json.dumps({"number": 3, **message}))
        told = page.hear()
        assert (told["kind"], told["number"]) == ("fault", 3)
        assert "message not understood" in told["text"]
        page.show(4, case=DEFAULT_CASE)
        assert page.hear_until("pose")[-1]["number"] == 4


def test_every_slot_is_described(bringer):
    """The page is told endings and sizes, and every point with its words."""
    assert set(bringer.place["slots"]) == set(SLOTS)
    assert all(one["title"] and one["where"] for one in bringer.place["points"])
