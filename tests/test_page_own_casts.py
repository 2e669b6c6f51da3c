"""Own casts on the page in a browser: files chosen, points clicked, typed, undone, used, saved."""

import csv
import shutil
import zipfile

import pytest
from playwright.sync_api import expect

from kinematics.scans.point_files import HEADER
from tests.access_rules import keeps_the_rules
from tests.open_page import START, opened
from tests.own_casts import make_own_casts
from tests.recorded_desk import recorded_page

#: Drawing takes time, and nobody looks at the first case here.
UNDRAWN = {**START, "display": {"upper": "away", "lower": "away", "numbers": False}}
AXES = ("x", "y", "z")


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans as somebody brings them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


@pytest.fixture(scope="module")
def server():
    """Return a server whose settings are real and whose pictures are recorded."""
    with recorded_page() as running:
        yield running


def brought(page, casts, labels=True):
    """Choose the files and read them; return the box of the view."""
    page.rested()
    page.find("#own-casts").click()
    expect(page.find("#casts-dialog")).to_be_visible()
    page.find("#file-upper").set_input_files(str(casts.folder / "upper.obj"))
    page.find("#file-lower").set_input_files(str(casts.folder / "lower.ply"))
    if labels:
        page.find("#file-upper_labels").set_input_files(str(casts.folder / "upper.json"))
        expect(page.find("#file-upper_labels-said")).to_contain_text("Sent")
    page.find("#casts-read").click()
    expect(page.find("#picking")).to_be_visible()
    expect(page.find("#picking-title")).to_be_focused()
    page.until(lambda: page.find("html").get_attribute("data-pick-frames"), "the casts drawn")
    return page.find("#pick-view").bounding_box()


def fields(page, point):
    """Return the coordinates that the fields of a point show."""
    return [page.find(f"#pick-{point}-{axis}").input_value() for axis in AXES]


def click(page, box, across, down):
    """Click on the view, and wait until what was picked lies on the whole surface."""
    asked = sum(one["kind"] == "snap" for one in page.sent)
    page.tab.mouse.click(box["x"] + across * box["width"], box["y"] + down * box["height"])
    page.until(lambda: sum(one["kind"] == "snapped" for one in page.heard) > asked, "a point")


def test_from_files_to_a_case_by_hand(browser, server, casts, tmp_path):
    """Three points clicked, undone and redone, used; the ZIP file holds them."""
    with opened(browser, server, UNDRAWN) as page:
        box = brought(page, casts)
        keeps_the_rules(page)
        proposed = fields(page, "molar_right")
        for across, down in ((0.5, 0.82), (0.14, 0.21), (0.86, 0.21)):
            click(page, box, across, down)
        picked = fields(page, "molar_right")
        assert "" not in picked
        assert picked != proposed
        page.find("#undo").click()
        page.find("#undo").click()
        page.until(lambda: fields(page, "molar_right") == proposed, "the proposed point again")
        page.tab.keyboard.press("Control+Shift+z")
        page.until(lambda: fields(page, "molar_right") == picked, "the picked point again")
        page.find("#redo").click()
        expect(page.find("#pick-missing")).to_have_text("Everything for a run is there.")
        with page.tab.expect_download() as waiting:
            page.find("#save-case").click()
        waiting.value.save_as(tmp_path / "case.zip")
        with zipfile.ZipFile(tmp_path / "case.zip") as archive:
            rows = list(csv.reader(archive.read("case/points.csv").decode().splitlines()))
        assert rows[0] == list(HEADER)
        [right] = [row for row in rows if row[0] == "molar_right"]
        assert [f"{float(mm):.2f}".replace("-", "−") for mm in right[2:]] == picked
        page.find("#use-points").click()
        expect(page.find("#picking")).to_be_hidden()
        show = page.has_asked(
            "the case of the casts", lambda show: show["case"].startswith("own_1_")
        )
        assert (show["start"], show["travel_mm"]) == ("MI", 0.0)  # it was at 2 mm before
        expect(page.find("#case-chooser")).to_have_value(show["case"])
        page.rested()


def test_points_typed_and_a_way_changed_by_keyboard(browser, server, casts):
    """Typed coordinates are points; a located hinge axis takes the place of what was proposed."""
    with opened(browser, server, UNDRAWN) as page:
        brought(page, casts)
        for point, place in (
            ("axis_right", (0, -50, 0)), ("axis_left", (0, 50, 0)), ("reference_point", (90, 0, 0)),
        ):  # fmt: skip
            for axis, mm in zip(AXES, place, strict=True):
                field = page.find(f"#pick-{point}-{axis}")
                field.focus()
                page.tab.keyboard.type(str(mm))
                field.press("Tab")
        assert fields(page, "axis_right") == ["0.00", "−50.00", "0.00"]
        assert fields(page, "incisal_point") == ["", "", ""]
        field = page.find("#pick-axis_left-x")
        field.fill("ten")
        field.press("Enter")
        expect(field).to_have_attribute("aria-invalid", "true")
        expect(page.find(".pick-row .wrong").filter(has_text="ten")).to_be_visible()
        page.find("[aria-label='Remove: Hinge axis, left']").click()
        expect(page.find("#pick-missing")).to_contain_text("Hinge axis, left")
        page.find("#picking-close").click()
        expect(page.find("#main")).to_be_visible()
        expect(page.find("#own-casts")).to_be_focused()


def test_seeds_and_seats_without_labels(browser, server, casts):
    """Seeds go from tooth to tooth, seats are several; that teeth must be told is said."""
    with opened(browser, server, UNDRAWN, viewport={"width": 1024, "height": 700}) as page:
        box = brought(page, casts, labels=False)
        expect(page.find("#pick-missing")).to_contain_text("The teeth must be told first")
        page.find("#pick-rest_seat").check()
        page.tab.mouse.click(box["x"] + 0.22 * box["width"], box["y"] + 0.35 * box["height"])
        expect(page.find("#pick-fault")).to_contain_text("16 is a tooth of the upper cast")
        page.find("#pick-rest_seat-tooth").select_option("46")
        click(page, box, 0.22, 0.35)
        click(page, box, 0.79, 0.37)
        page.until(lambda: len(page.texts(".pick-others li")) > 0, "a seat in the list")
        page.find("#pick-tooth_seed").check()
        page.find("#pick-tooth_seed-tooth").select_option("36")
        for axis, mm in zip(AXES, casts.points["seed_36"], strict=True):
            page.find(f"#pick-tooth_seed-{axis}").fill(str(mm))
            page.find(f"#pick-tooth_seed-{axis}").press("Enter")
        assert any(text.startswith("Tooth seed 36") for text in page.texts(".pick-others li"))
        page.find("[aria-label='Remove: Tooth seed 36']").click()
        assert not any(text.startswith("Tooth seed") for text in page.texts(".pick-others li"))
        page.find("#use-points").click()
        expect(page.find("#pick-fault")).to_contain_text("The teeth of the casts are not told yet")


def test_wrong_files_are_told_beside_their_field(browser, server, casts, tmp_path):
    """By ending before anything is sent, by the reader's words after."""
    broken = tmp_path / "mine.stl"
    broken.write_bytes(b"solid x\nnothing")
    with opened(browser, server, UNDRAWN) as page:
        page.rested()
        page.find("#own-casts").click()
        expect(page.find("#casts-dialog")).to_be_visible()
        keeps_the_rules(page)
        page.find("#file-upper").set_input_files(str(casts.folder / "upper.json"))
        expect(page.find("#file-upper-said")).to_contain_text("must end with .stl")
        expect(page.find("#casts-read")).to_be_disabled()
        page.find("#file-upper").set_input_files(str(broken))
        page.find("#file-lower").set_input_files(str(casts.folder / "lower.ply"))
        page.find("#casts-read").click()
        expect(page.find("#file-upper-said")).to_contain_text("mine.stl")
        expect(page.find("#file-upper")).to_have_attribute("aria-invalid", "true")
        page.find("#casts-close").click()
        expect(page.find("#own-casts")).to_be_focused()


def test_another_scan_takes_back_what_belonged_to_the_one_before(browser, server, casts, tmp_path):
    """Labels, bite and points go with their scan, and every file can be taken back by hand."""
    # the browser tells of no change where the same file is chosen again
    other = shutil.copy(casts.folder / "upper.obj", tmp_path / "other.obj")
    bite = tmp_path / "bite.txt"
    bite.write_text("1 0 0 0\n0 1 0 0\n0 0 1 0\n0 0 0 1\n")
    with opened(browser, server, UNDRAWN) as page:
        page.rested()
        page.find("#own-casts").click()
        expect(page.find("#casts-dialog")).to_be_visible()
        page.find("#file-bite").set_input_files(str(bite))
        expect(page.find("#file-bite-said")).to_contain_text("Sent")
        page.find("#casts-close").click()
        brought(page, casts)
        page.find("#picking-close").click()
        page.find("#own-casts").click()
        page.find("#file-upper").set_input_files(str(other))
        for slot in ("upper_labels", "bite"):
            expect(page.find(f"#file-{slot}-said")).to_contain_text("belonged to the upper scan")
            expect(page.find(f"#file-{slot}")).to_have_value("")
            expect(page.find(f"#file-{slot}-remove")).to_be_hidden()
        expect(page.find("#file-lower-said")).to_contain_text("Sent")
        expect(page.find("#file-upper-said")).to_contain_text("Sent")
        [place] = [h for h in page.heard if h["kind"] == "place"]
        held = server.desks.places.find(place["key"])
        page.until(lambda: set(held.files) == {"upper", "lower"}, "two files alone")
        keeps_the_rules(page)
        page.find("[aria-label='Remove: Lower scan']").click()
        expect(page.find("#file-lower")).to_be_focused()
        expect(page.find("#casts-read")).to_be_disabled()
        page.until(lambda: set(held.files) == {"upper"}, "the upper scan alone")
