"""The report tells every finding and note once, and the sections that it belongs to name it."""

import re
from dataclasses import replace

import pytest

from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.findings import Figure, Finding
from scenes.report import html_report
from scenes.told_findings import notes_of, told_groups
from tests.test_report import WORDS, Page

BITE = (
    Finding("deflective contact", "attention", "16 on 46 meet first.", tooth_upper=16),
    Finding("centric stops", "note", "In MI there are 9 stops."),
)
LIMIT = {
    "threshold": Figure("near-MI length", 0.5, "mm"),
    "threshold_source": "common practice",
}
NEAR = tuple(
    Finding("contacts near MI", "note", f"In {name} some stay.", name, 0.0, 0.3, **LIMIT)
    for name in ("protrusion", "left lateral")
)


@pytest.fixture(scope="module")
def told(example):
    """Return the example with findings about the bite and about its start, and its page."""
    result = replace(
        example, sweeps=(), findings=(*example.findings[:2], *BITE, *NEAR, example.findings[2])
    )
    return result, html_report(result, WORDS)


def section(html, start, end):
    """Return the visible text between two headings."""
    return Page(html[html.index(f'<h2 id="{start}"') : html.index(f'<h2 id="{end}"')]).text


def test_graver_findings_are_told_in_one_place_and_named_in_another(told):
    """The first contact in CR under MI and CR, contacts of replacement teeth under their load."""
    _, html = told
    findings = section(html, "findings", "centric")
    centric = section(html, "centric", "readings")
    replacement = section(html, "replacement", "tracks")
    for text in ("16 on 46 meet first.", "Replacement tooth 16 touches 46"):
        assert text in findings
        assert text not in centric + replacement
    assert "3. One tooth meets first and pushes the jaw aside" in centric
    assert "1. Replacement teeth touch while the jaw slides" in replacement
    named = re.findall(r'href="#(finding-\d+)"', html)
    assert named == ["finding-3", "finding-1"]
    assert all(f'id="{name}"' in html for name in named)


def test_notes_about_the_bite_stand_where_the_bite_is_told(told):
    """All others under the findings; each once in the whole page."""
    _, html = told
    assert "In MI there are 9 stops." in section(html, "centric", "readings")
    for finding in NEAR:
        assert finding.text in section(html, "findings", "centric")
    text = Page(html).text
    assert all(text.count(finding.text) == 1 for finding in (BITE[1], *NEAR))


def test_what_all_notes_of_a_kind_share_is_told_once(told):
    """Their limit after the last of them; a note alone keeps its own."""
    result, html = told
    findings = section(html, "findings", "centric")
    assert findings.count("near-MI length") == 1
    assert "All 2: compared with near-MI length 0.50 mm (common practice)." in findings
    alone = replace(result, findings=NEAR[:1])
    (notes,) = notes_of(alone, finding_groups(alone.findings))
    assert (notes.shared, len(notes.cards[0].details)) == ((), 1)


def test_every_finding_is_a_card_a_row_or_a_note(told):
    """None is left out, none told twice."""
    result, _ = told
    groups = finding_groups(result.findings)
    graver = list(told_groups(result, groups, (16,)))
    texts = [item.card.text for group in graver for item in group.findings]
    texts += [card.text for notes in notes_of(result, groups) for card in notes.cards]
    assert sorted(texts) == sorted(finding.text for finding in result.findings)
    assert [(group.of_the_bite, group.of_replacement_teeth) for group in graver] == [
        (False, True),
        (False, False),
        (True, False),
    ]
