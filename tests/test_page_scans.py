"""The page in a browser with scans: two states of one case side by side, and reading stopped."""

import shutil
import threading
from dataclasses import replace

import pytest
from playwright.sync_api import expect

from kinematics.case import Case
from kinematics.scans.scanned_casts import read_cast
from kinematics.scans.settings import SIDES, ScanFiles, ScanMounting, ScanSettings
from scenes import page_casts_answers
from scenes.case_marks import marked
from scenes.new_case import told_casts
from scenes.page_desk import Desk
from scenes.page_lane import Stale
from scenes.page_messages import GIVEN_CASE, first_show
from scenes.page_server import served_files
from scenes.scan_words import PICTURE_WORDS
from tests.open_page import START, opened
from tests.own_casts import make_own_casts
from tests.recorded_desk import recorded_page
from tests.running_page import running_page
from tests.scanned_case import case_of, scans_in_mi

#: Drawing takes time, and nobody looks at the casts here.
UNDRAWN = {"upper": "away", "lower": "away", "numbers": False}


@pytest.fixture(scope="module")
def scanned_server(tmp_path_factory):
    """Return a server with the real engine that is given a case of scans."""
    case = case_of(tmp_path_factory.mktemp("scans") / "case", *scans_in_mi(16_000))
    first = first_show(marked(GIVEN_CASE, case), travel_mm=0.0)
    with running_page(lambda: Desk(1, case), files=served_files(), first=first) as running:
        running.first_case = first.case
        yield running


def test_two_states_of_scans_side_by_side(browser, scanned_server):
    """B lets in less at the bite, for which its scans are read anew; both are answered in full."""
    brief = {"sweep.step_mm": 0.5, "sweep.travel_mm": 3.5}
    own = {
        "case": scanned_server.first_case,
        "changes": brief,
        "travel_mm": 0.0,
        "display": UNDRAWN,
    }
    with opened(browser, scanned_server, {**START, **own}) as page:
        page.rested()
        expect(page.find("#scans-told")).to_contain_text(PICTURE_WORDS)
        page.find("#compare").click()
        page.rested()
        # A group that is folded holds its fields all the same.
        field = page.find("#set-scans-allowance_um")
        field.evaluate("one => { one.closest('details').open = true; }")
        field.fill("0")
        field.press("Enter")
        row = page.find("#differences tbody tr")
        expect(row).to_contain_text("50\u202fµm")
        expect(row).to_contain_text("0\u202fµm")
        page.rested()
        cells = page.texts("#compare-pose tbody td") + page.texts("#compare-guides tbody td")
        assert len(cells) > 8 and all(cells)
        assert len({h["number"] for h in page.heard if h["kind"] == "teeth"}) >= 2
        assert [h for h in page.heard if h["kind"] == "fault"] == []
        page.find("#compare").click()
        expect(page.find("#results-of-two")).to_be_hidden()
        page.rested()


@pytest.fixture(scope="module")
def casts(tmp_path_factory):
    """Return scans as somebody brings them."""
    return make_own_casts(tmp_path_factory.mktemp("own"))


def test_stop_ends_the_reading_of_scans_soon(browser, casts, monkeypatch):
    """The page says so at once, the server leaves off, and the same files can be read again."""
    held, go_on = threading.Event(), threading.Event()
    ended = []

    def held_up(files, side, progress):
        held.set()
        try:
            while not go_on.wait(0.01):
                progress("still reading")
        except Stale:
            ended.append(side)
            raise
        return read_cast(files, side, progress)

    monkeypatch.setattr(page_casts_answers, "read_cast", held_up)
    with recorded_page() as server, opened(browser, server, {**START, "display": UNDRAWN}) as page:
        page.rested()
        page.find("#own-casts").click()
        expect(page.find("#casts-dialog")).to_be_visible()
        page.find("#file-upper").set_input_files(str(casts.folder / "upper.obj"))
        page.find("#file-lower").set_input_files(str(casts.folder / "lower.ply"))
        page.find("#casts-read").click()
        page.until(held.is_set, "the reading")
        page.find("#casts-stop").click()
        expect(page.find("#casts-dialog")).to_contain_text("Stopped.")
        page.until(lambda: ended, "the end of the reading")
        assert not go_on.is_set()  # it left off between steps and was not waited for
        page.until(lambda: any(h["kind"] == "stopped" for h in page.heard), "the server's word")
        assert not any(h["kind"] == "casts" for h in page.heard)
        go_on.set()
        page.find("#casts-read").click()
        expect(page.find("#picking")).to_be_visible()


def test_telling_teeth_can_be_left_off_between_its_steps(casts):
    """Of each cast, before the casts are set against each other, and before landmarks."""
    files = ScanFiles(
        upper=str(casts.folder / "upper.obj"),
        lower=str(casts.folder / "lower.ply"),
        upper_labels=str(casts.folder / "upper.json"),
    )
    read = {side: read_cast(files, side, lambda _: None) for side in SIDES}
    steps = []
    told_casts(files, read, steps.append)
    assert len(steps) == len(set(steps)) == 4
    for wanted in steps:

        def leave_off(step, wanted=wanted):
            if step == wanted:
                raise Stale

        with pytest.raises(Stale):
            told_casts(files, read, leave_off)


def test_a_state_of_other_casts_is_not_put_on_these(browser, scanned_server):
    """Nor on a built-in case: its settings are those of another patient."""
    brief = {"sweep.step_mm": 0.5, "sweep.travel_mm": 3.5}
    own = {"case": scanned_server.first_case, "changes": brief, "travel_mm": 0.0}
    with opened(browser, scanned_server, {**START, **own, "display": UNDRAWN}) as page:
        page.rested()
        asked = len(page.shows)
        page.open({**START, **own, "case": f"{GIVEN_CASE}_0123456789ab"})
        expect(page.find("#notice-link")).to_contain_text("own casts that this page was not given")
        assert len(page.shows) == asked


@pytest.mark.parametrize("name", [GIVEN_CASE, "own_1"])
def test_casts_are_told_from_each_other_by_what_their_files_hold(tmp_path, name):
    """Not by where they lie or what is set; files that are not there are no fault here."""
    built_in = Case()
    assert marked(name, built_in) == name
    marks = set()
    for number in range(50):
        (tmp_path / "upper.stl").write_bytes(b"upper")
        (tmp_path / "lower.stl").write_bytes(f"lower {number}".encode())
        files = {side: str(tmp_path / f"{side}.stl") for side in ("upper", "lower")}
        axis = ScanMounting(axis_right=(0, -50, 0), axis_left=(0, 50, 0), reference_point=(9, 0, 0))
        case = Case(scans=ScanSettings(**files, mounting=axis))
        marks.add(marked(name, case))
        elsewhere = tmp_path / "elsewhere"
        shutil.copytree(tmp_path, elsewhere, ignore=shutil.ignore_patterns("elsewhere"))
        moved = case.scans.renamed({s: str(elsewhere / f"{s}.stl") for s in ("upper", "lower")})
        assert marked(name, replace(case, title="Other", scans=moved)) == marked(name, case)
        shutil.rmtree(elsewhere)
    assert len(marks) == 50
    (tmp_path / "lower.stl").unlink()
    assert marked(name, case).startswith(f"{name}_")
