"""What the page shows in a browser is what the engine finds, and the jaw moves as it is told."""

import math
import re
from collections import Counter

import pytest
from playwright.sync_api import expect

from kinematics import checkup
from kinematics.case_changes import changed_case
from kinematics.case_excursions import excursions_of
from kinematics.contact.workers import Workers
from kinematics.live import pose_at_travel
from kinematics.mounting import mounted_casts
from scenes.builtin_cases import builtin_case
from scenes.report_tables import mostly
from tests.open_page import START, kept_page, plain
from tests.recorded_desk import engine_page

STEEP = {**START["changes"], "guidance.right.condylar_inclination_deg": 45.0}
LEFT = {**START, "movement": "left lateral"}
STATES = {
    "as delivered": START,
    "left lateral": LEFT,
    "right condyle steeper": {**LEFT, "changes": STEEP},
}


@pytest.fixture(scope="module")
def server():
    """Return a server with the real engine."""
    with engine_page() as running:
        yield running


@pytest.fixture(scope="module")
def kept(browser, server):
    """Return a page on which one test after the other puts its state."""
    with kept_page(browser, server) as one:
        yield one


def excursion_of(case, state):
    """Return the excursion of a state."""
    wanted = state["movement"], state["start"]
    return next(e for e in excursions_of(case) if (e.name, e.start) == wanted)


class Engine:
    """What whole runs and single poses of cases find, each computed once."""

    def __init__(self):
        self.results, self.casts = {}, {}

    def case(self, state):
        """Return the case of a state."""
        return changed_case(builtin_case(state["case"]), state["changes"])

    def result(self, state):
        """Return the whole run of a state's case."""
        key = str(state["changes"])
        if key not in self.results:
            self.results[key] = checkup.run(
                self.case(state), progress=lambda _: None, planning=False
            )
        return self.results[key]

    def pose(self, state):
        """Return the pose of a state."""
        case, key = self.case(state), str(state["changes"])
        if key not in self.casts:
            self.casts[key] = mounted_casts(case)
        return pose_at_travel(
            self.casts[key], excursion_of(case, state), state["travel_mm"],
            case.judging.tolerance_mm, Workers(1),
        )  # fmt: skip


@pytest.fixture(scope="module")
def engine():
    """Return the engine without any page."""
    return Engine()


@pytest.mark.parametrize("name", STATES)
def test_numbers_on_the_page_are_those_of_the_engine(kept, engine, name):
    """Contacts, what holds the jaw, what guides, findings, replacement teeth and facts."""
    state = STATES[name]
    with kept.at(state) as page:
        page.rested()
        check_contacts(page, engine.pose(state), state)
        result = engine.result(state)
        check_guides(page, result)
        check_findings(page, result)
        check_replacement(page, result)
        check_facts(page, result)


def check_contacts(page, at, state):
    """Compare the table of contacts, and what holds the jaw."""
    rows = [row.split("\t") for row in page.find("#contacts tbody tr").all_inner_texts()]
    patches = at.patches
    working = "1458" if state["movement"] == "right lateral" else "2367"
    expected = [
        [
            str(patches.tooth_upper[i]),
            str(patches.tooth_lower[i]),
            "working" if str(patches.tooth_upper[i])[0] in working else "nonworking",
            f"{1000.0 * patches.least_gap_mm[i] + 0.0:.0f}",
            f"{patches.area_mm2[i]:.2f}",
        ]
        for i in range(len(patches.pose))
    ]
    told = [[cell.strip() for cell in row] for row in rows]
    assert sorted(row[:3] for row in told) == sorted(row[:3] for row in expected)
    assert len(told) > 0
    for one, other in zip(sorted(told), sorted(expected), strict=True):
        assert float(one[3]) == pytest.approx(float(other[3]), abs=1.0)  # rounded halves
        assert float(one[4]) == pytest.approx(float(other[4]), abs=0.0101)
    facts = facts_of(page, "#pose-now")
    first = f"{at.closures.tooth_upper[0]} on {at.closures.tooth_lower[0]}"
    assert facts["first contact"] == first
    runner_up = at.runner_up
    after_mm = at.runner_up_gap_mm
    after = f"{1000.0 * after_mm:.0f} µm" if after_mm < 0.0995 else f"{after_mm:.2f} mm"
    teeth = f"{runner_up.tooth_upper[0]} on {runner_up.tooth_lower[0]}"
    assert facts["next to touch"] == f"{teeth}, after {after} of closing"
    opening_deg = math.degrees(at.opening_rad)
    assert float(facts["opening at closure"].rstrip("°")) == pytest.approx(opening_deg, abs=0.0051)


def facts_of(page, selector):
    """Return names and texts of a list of facts."""
    names, texts = page.texts(f"{selector} dt"), page.texts(f"{selector} dd")
    return dict(zip(names, texts, strict=True))


def check_guides(page, result):
    """Compare the kind of guidance of every judged excursion, in order."""
    expected = [mostly(verdict) for verdict in result.verdicts]
    assert page.texts("#guides .guide-words") == expected
    assert len(expected) >= 5


def check_findings(page, result):
    """Compare counts by severity, and the words of each finding."""
    counts = Counter(finding.severity for finding in result.findings)
    told = [words.split()[-2:] for words in page.texts("#findings-counts .count")]
    notes = "note" if counts["note"] == 1 else "notes"
    assert told == [
        [str(counts["serious"]), "serious"],
        [str(counts["attention"]), "attention"],
        [str(counts["note"]), notes],
    ]
    if counts["note"]:
        page.find("#findings-more").click()
    words = [re.sub(r" (◆ replacement tooth|not determined by these records)", "", w)
             for w in page.texts("#findings .finding-words")]  # fmt: skip
    order = ("serious", "attention", "note")
    expected = sorted(result.findings, key=lambda finding: order.index(finding.severity))
    assert len(words) == len(expected)
    for said, finding in zip(words, expected, strict=True):
        severity, _, lead = said.partition(": ")
        assert severity == finding.severity
        assert plain(finding.text).startswith(lead.rstrip("."))
        assert len(lead) > 10
    if counts["note"]:
        page.find("#findings-more").click()  # folded again


def check_replacement(page, result):
    """Compare which replacement teeth touch outside MI, what, and from where to where."""
    rows = page.texts("#replacement > li")
    assert [re.search(r"\d\d", row)[0] for row in rows] == ["15", "16", "17"]
    for row, code in zip(rows, (15, 16, 17), strict=True):
        own = [
            c for c in result.replacement
            if c.tooth == code and c.touches and c.standing != "near MI only"
        ]  # fmt: skip
        assert (f"{code} touches" in row) == bool(own)
        assert (f"{code} free" in row) == (not own)
        for c in own:
            where = f"touches {c.opponent} from {c.travel_from_mm:.1f} to {c.travel_to_mm:.1f} mm"
            assert where in row


def check_facts(page, result):
    """Compare stops, Bennett angles and where edge-to-edge is reached."""
    facts = facts_of(page, "#facts")
    assert facts["centric stops in MI"] == str(len(result.stops))
    angles = [float(text.rstrip("°")) for name, text in facts.items() if "Bennett" in name]
    known = [border.bennett_deg for border in result.borders if border.bennett_deg is not None]
    assert angles == pytest.approx(known, abs=0.051)
    assert len(angles) == 2
    edges = [text for name, text in facts.items() if name.startswith("edge-to-edge")]
    expected = [
        sweep.edge_to_edge_mm for sweep in result.sweeps
        if sweep.excursion.start == "MI" and sweep.edge_to_edge_mm is not None
    ]  # fmt: skip
    told = [float(text.removesuffix(" mm")) for text in edges]
    assert told == pytest.approx(expected, abs=0.0051)


def test_a_tooth_that_is_pointed_at_is_named_with_its_gap(kept):
    """Over the upper right canine, from the front: its name, its surface, and a gap in mm."""
    with kept.at({**START, "travel_mm": 0.0}) as page:
        page.rested()
        view = page.find("#view-a")
        box = view.bounding_box()
        names = set()
        for share in (0.25, 0.35, 0.42, 0.47, 0.53, 0.58, 0.65, 0.75):
            for height in (0.40, 0.45, 0.5, 0.55):
                page.tab.mouse.move(
                    box["x"] + share * box["width"], box["y"] + height * box["height"]
                )
                hover = page.find("#hover-a")
                if hover.is_visible():
                    words = plain(hover.inner_text())
                    assert re.search(r"^(upper|lower) (right|left) [a-z ]+", words), words
                    assert re.search(r": gap (farther than 1 mm|\d\.\d\d mm)$", words), words
                    names.add(words.split(",")[0].split(":")[0])
        assert any("central incisor" in name for name in names)
        assert any("right" in name for name in names) and any("left" in name for name in names)
        page.tab.mouse.move(5, 5)
        expect(page.find("#hover-a")).to_be_hidden()
