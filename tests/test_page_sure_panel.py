"""Asking on the page how sure findings are, in a browser: progress, stop, shares, cancelled."""

import threading

import pytest
from playwright.sync_api import expect

from kinematics.planning.findings import Finding
from kinematics.uncertainty.found import FindingShare
from scenes.case_places import DEFAULT_CASE
from scenes.page_messages import first_show, progress
from scenes.page_server import served_files
from scenes.page_sure import sure_answer
from tests.access_rules import keeps_the_rules
from tests.made_uncertainty import finding_shares, influences, made_uncertainty, share
from tests.open_page import opened
from tests.recorded_desk import RecordedDesk, coarser_recording, recording
from tests.running_page import running_page

#: Of two findings: in how many samples they hold, and are graver; whether that is settled.
SAID = (
    (share(46, 64), share(9, 64), "not settled"),
    (share(61, 64), share(0, 64), "holds"),
)


class SureDesk(RecordedDesk):
    """Tells invented shares of the recorded findings, as soon as it may go on."""

    may_go_on = threading.Event()
    left_off = threading.Semaphore(0)

    def how_sure(self, request, stop):
        """Yield half the progress, wait, then what is said of the first two findings."""
        yield progress(request.number, "32 of 257 runs, about 40 s left", 0.125)
        while not self.may_go_on.wait(0.02):
            if stop.is_set():
                self.left_off.release()
                return
        findings = recorded_findings()
        told = tuple(
            FindingShare(
                item.kind, item.excursion, ((item.tooth_upper, item.tooth_lower),), item.severity,
                *said, influences(0.7, 0.2, 0.1),
            )
            for item, said in zip(findings, SAID, strict=False)
        )  # fmt: skip
        study = made_uncertainty(samples=64, findings=(*told, finding_shares()[2]))
        yield sure_answer(request.number, findings, study)


def recorded_findings():
    """Return the findings of the recording, as far as their names need them."""
    found = []
    for row in recording()["rest"][0]["findings"]:
        excursion = row["movement"]
        if row["start"] == "CR":
            excursion = f"{excursion} from CR"
        found.append(
            Finding(
                row["kind"], row["severity"], row["text"], excursion,
                tooth_upper=row["upper"], tooth_lower=row["lower"],
            )
        )  # fmt: skip
    return found


@pytest.fixture(scope="module")
def server():
    """Return a server whose desks tell invented shares."""
    coarser_recording()
    first = first_show(DEFAULT_CASE)
    with running_page(SureDesk, files=served_files(), first=first) as running:
        yield running


@pytest.fixture
def page(browser, server):
    """Give the page at rest, with studies that wait."""
    SureDesk.may_go_on.clear()
    with opened(browser, server, viewport={"width": 1300, "height": 900}) as tab:
        tab.rested()
        yield tab


def ask(page):
    """Ask by keyboard, and wait for the first progress."""
    page.find("#how-sure").press("Enter")
    expect(page.find("#sure-words")).to_contain_text("32 of 257 runs")


def test_shares_come_beside_findings(page):
    """With progress meanwhile, in the words of the report, and what decides them when picked."""
    ask(page)
    expect(page.find("#how-sure")).to_be_hidden()
    assert page.find("#sure-progress").evaluate("bar => bar.value") == 0.125
    page.find("#travel-slider").first.press("ArrowUp")
    page.rested()
    expect(page.find("#stop-sure")).to_be_visible()
    SureDesk.may_go_on.set()
    expect(page.find("#findings .share-line")).to_have_count(2)
    assert page.texts("#findings .share-line")[0].startswith("holds in 72 % (")
    assert page.texts("#findings .share-line")[0].endswith("not settled")
    assert page.texts("#findings .share-line")[1].endswith("settled by few samples")
    cut_off = page.tab.evaluate(
        """() => [...document.querySelectorAll("#findings *, #sure-others *")]
          .filter((e) => e.getBoundingClientRect().right > document.documentElement.clientWidth)
          .map((e) => e.textContent)"""
    )
    assert cut_off == []
    assert "Of 64 samples" in page.text("#sure-about")
    assert "17/47 and 18/48" in page.text("#sure-others")
    whole, part = (
        page.find("#findings .share").first.locator(one).bounding_box()["width"]
        for one in (".whole", ".part")
    )
    assert part / whole == pytest.approx(46 / 64, abs=0.05)
    page.find("#findings .finding:has(.share-line)").first.click()
    details = page.text("#findings .finding-more")
    assert "holds in 72 % of 64 samples" in details
    assert "condylar inclination, right and left (total index 0.70" in details
    keeps_the_rules(page)


def test_a_study_can_be_stopped(page):
    """The button comes back, and the server leaves off."""
    ask(page)
    page.find("#stop-sure").press("Enter")
    assert SureDesk.left_off.acquire(timeout=30.0)
    expect(page.find("#sure-words")).to_contain_text("Stopped")
    expect(page.find("#how-sure")).to_be_focused()
    assert page.sent[-1]["kind"] == "leave_sure"


def test_a_changed_setting_ends_a_study_and_its_shares(page):
    """What was said of other settings is no longer shown; the jaw alone changes nothing of it."""
    ask(page)
    inclination = page.find("#set-guidance-right-condylar_inclination_deg")
    inclination.press("ArrowUp")
    assert SureDesk.left_off.acquire(timeout=30.0)
    page.rested()
    SureDesk.may_go_on.set()
    page.find("#how-sure").press("Enter")
    expect(page.find("#findings .share-line")).to_have_count(2)
    page.find("#set-guidance-right-condylar_inclination_deg").press("ArrowUp")
    expect(page.find("#findings .share-line")).to_have_count(0)
    expect(page.find("#how-sure")).to_be_visible()
