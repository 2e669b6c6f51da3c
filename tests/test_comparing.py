"""Two runs side by side: a case with itself, planted differences, matching by hand."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.comparing.comparison import compared
from kinematics.comparing.matched_findings import SAME_WITHIN, matched_findings
from kinematics.comparison_files import comparison_document, finding_rows, stop_rows
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.stops import Stop
from kinematics.trial.settings import Change
from scenes.case_places import case_names
from scenes.comparison_words import (
    bite_sentence,
    comparison_summary,
    counts_sentence,
    finding_sections,
    is_same,
    stops_sentence,
    stops_table,
    teeth_sentence,
)
from tests.shipped_cases import coarse, run_case, shipped

KINDS = ("nonworking interference", "no centric stop", "working interference", "slide")


def test_a_case_compared_with_itself_is_empty():
    """Two runs of one case, made one after the other: nothing differs, and it is said."""
    assert_alone_is_empty("natural_dentition")


@pytest.mark.wide
@pytest.mark.parametrize("name", case_names())
def test_every_built_in_case_compared_with_itself_is_empty(name):
    """The same of all of them."""
    assert_alone_is_empty(name)


def assert_alone_is_empty(name):
    """Assert that nothing differs between two runs of a case."""
    case = coarse(name)
    found = compared(shipped(name), run_case(case))
    assert is_same(found)
    assert not any(found.of_state(state) for state in ("gone", "new", "changed"))
    assert not found.stops.gone and not found.stops.new and not found.teeth_gone
    assert found.bite.pin_mm == 0.0 and found.bite.opening_deg == 0.0
    assert not any(item.changed for item in found.verdicts)
    assert "Nothing differs" in comparison_summary((case.title,) * 2, found, ())
    assert {row[0] for row in finding_rows(found)} <= {"unchanged"}
    assert {row[0] for row in stop_rows(found)} <= {"kept"}


def a_finding(rng):
    """Return a finding of a kind, an excursion and a pair of teeth by chance."""
    return Finding(
        kind=str(rng.choice(KINDS)),
        severity=str(rng.choice(["note", "attention", "serious"])),
        text="Something is found.",
        excursion=str(rng.choice(["protrusion", "left lateral"])),
        tooth_upper=int(rng.choice([14, 15, 16, 17, 24, 25, 26, 27])),
        tooth_lower=int(rng.choice([34, 35, 36, 37, 44, 45, 46, 47])),
        figures=(Figure("depth", float(rng.uniform(0.1, 2.0)), "mm"),),
    )


def test_planted_differences_are_found():
    """Fifty lists with findings taken out, added, made graver and measured otherwise."""
    for seed in range(50):
        rng = np.random.default_rng(seed)
        base = {}
        while len(base) < 14:
            one = a_finding(rng)
            base[one.kind, one.excursion, one.tooth_upper, one.tooth_lower] = one
        every = list(base.values())
        gone, new, graver, deeper, less = every[:2], every[2:4], every[4], every[5], every[6]
        before = [one for one in every if one not in new]
        after = [one for one in every if one not in gone]
        other = "note" if graver.severity == "serious" else "serious"
        figure = deeper.figures[0]
        swaps = {
            id(graver): replace(graver, severity=other),
            id(deeper): replace(
                deeper, figures=(replace(figure, value=figure.value + 2 * SAME_WITHIN["mm"]),)
            ),
            id(less): replace(
                less,
                figures=(replace(less.figures[0], value=less.figures[0].value + 0.004),),
            ),
        }
        after = [swaps.get(id(one), one) for one in after]
        rng.shuffle(before)
        rng.shuffle(after)
        found = matched_findings(before, after)
        states = {state: [m for m in found if m.state == state] for state in
                  ("gone", "new", "changed", "unchanged")}  # fmt: skip
        assert {id(m.before) for m in states["gone"]} == {id(one) for one in gone}
        assert {id(m.after) for m in states["new"]} == {id(one) for one in new}
        assert {id(m.before) for m in states["changed"]} == {id(graver), id(deeper)}
        assert len(states["unchanged"]) == len(every) - 6
        assert all(m.before is None or m.after is None or
                   m.before.tooth_upper == m.after.tooth_upper for m in found)  # fmt: skip


def test_findings_that_share_teeth_are_one():
    """A pair more or less makes no other finding; another excursion or kind does."""
    one = Finding("kind", "note", "t", "protrusion", tooth_upper=16, tooth_lower=46)
    more = replace(one, together=((17, 47),))
    (found,) = matched_findings([one], [more])
    assert found.state == "changed" and found.before is one and found.after is more
    for other in (replace(one, excursion="retrusion"), replace(one, kind="other")):
        assert [m.state for m in matched_findings([one], [other])] == ["gone", "new"]
    # Equal ones are matched one to one.
    assert [m.state for m in matched_findings([one, one], [one])] == ["gone", "unchanged"]


def test_where_a_figure_is_read_makes_no_other_figure():
    """The travel in the name of a figure may differ: the figure is compared all the same."""
    before = Finding("k", "note", "t", figures=(Figure("distance at 2.1 mm", 0.09, "mm"),))
    after = Finding("k", "note", "t", figures=(Figure("distance at 2.3 mm", 0.03, "mm"),))
    (found,) = matched_findings([before], [after])
    (figure,) = found.figures
    assert (figure.name, figure.before, figure.after) == ("distance", 0.09, 0.03)


def test_stops_are_matched_within_a_pair():
    """Fifty sets of stops, moved a little, some taken away, some added."""
    base = shipped("natural_dentition")
    for seed in range(50):
        rng = np.random.default_rng(seed)
        stops = tuple(
            Stop(
                tooth_upper=int(code),
                tooth_lower=int(code) + 30,
                point=tuple(rng.uniform(-50, 50, 3)),
                arc_gap_mm=0.0,
                area_mm2=1.0,
                normal=(0.0, 0.0, 1.0),
            )
            for code in rng.choice([14, 15, 16, 17], 8)
        )
        near = [replace(s, point=tuple(np.array(s.point) + rng.uniform(-0.2, 0.2, 3)))
                for s in stops[2:]]  # fmt: skip
        far = replace(stops[0], point=tuple(np.add(stops[0].point, [0.0, 1.5, 0.0])))
        after = [*near, far]
        rng.shuffle(after)
        found = compared(replace(base, stops=stops), replace(base, stops=tuple(after))).stops
        assert {id(s) for s in found.gone} == {id(s) for s in stops[:2]}
        assert [id(s) for s in found.new] == [id(far)]
        assert len(found.kept) == 6
        assert sum(int(row[1] != "–") for row in stops_table(found).rows) >= 1


def test_the_pin_change_is_the_drop_of_the_incisal_point():
    """Fifty openings about the condyles: height and angle as the turn about the axis gives them."""
    run = shipped("natural_dentition")
    x, y, z = run.incisal_point
    for seed in range(50):
        turn = np.random.default_rng(seed).uniform(-0.05, 0.05)
        c, s = np.cos(turn), np.sin(turn)
        open_pose = run.mi_pose @ np.array(
            [[c, 0, s, 0], [0, 1, 0, 0], [-s, 0, c, 0], [0, 0, 0, 1.0]]
        )
        bite = compared(run, replace(run, mi_pose=open_pose)).bite
        wanted = run.mi_pose[:3, :3] @ (np.array([c * x + s * z, y, -s * x + c * z]) - [x, y, z])
        assert bite.pin_mm == pytest.approx(-wanted[2], abs=1e-12)
        assert bite.ahead_mm == pytest.approx(wanted[0], abs=1e-12)
        assert bite.opening_deg == pytest.approx(np.degrees(turn), abs=1e-9)
        assert (bite.pin_mm > 0.0) == (turn > 0.0)
        assert ("raised" if turn > 0.0 else "lowered") in bite_sentence(bite)


def test_lowering_the_over_erupted_tooth_before_and_after():
    """What is serious is gone, stops on 46 are gone, and it is told in words and files."""
    name = "upper_distal_extension"
    case = replace(coarse(name), change=(Change("lower", 46, by_mm=1.2),))
    after = run_case(case)
    found = compared(shipped(name), after)
    assert not any(finding.severity == "serious" for finding in after.findings)
    assert any("over-erupted 46" in finding.text for finding in shipped(name).findings)
    assert not any("over-erupted" in finding.text.split("; ")[0] for finding in after.findings)
    gone = [item for item in found.of_state("gone") if item.told.severity == "serious"]
    assert gone and all(item.before and not item.after for item in gone)
    assert {stop.tooth_lower for stop in found.stops.gone} == {46} and not found.stops.new
    first = finding_sections(found, case.denture_bases)[0]
    assert first.state == "gone" and first.told[0].severity == "serious"
    assert [group.number for group in first.told] == list(range(1, len(first.told) + 1))
    summary = comparison_summary(("a", "b"), found, case.denture_bases)
    assert "gone     serious: Replacement teeth touch" in summary
    assert stops_sentence(found.stops) in summary and counts_sentence(found) in summary
    document = comparison_document(("a", "b"), found, ["comparison.json"])
    assert document["counts"]["gone"] == len(found.of_state("gone"))
    assert len(document["stops"]["gone"]) == len(found.stops.gone)


def test_other_teeth_are_told_plainly():
    """Of two runs without the same teeth it is said which."""
    run = shipped("natural_dentition")
    fewer = replace(run.lower, teeth=run.lower.teeth[1:])
    found = compared(run, replace(run, lower=fewer))
    assert found.teeth_gone == (run.lower.codes[0],) and not found.teeth_new
    assert teeth_sentence(found).startswith(f"Not the same teeth: tooth {run.lower.codes[0]} only")
    assert not is_same(found)
