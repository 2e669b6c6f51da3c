"""How sure findings are, in words and drawn: on the screen, in tables, in the chart."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.uncertainty.found import NeededRecord, Share
from kinematics.uncertainty.shares import share_of
from scenes import colours
from scenes.needed_words import needed_lines
from scenes.share_words import amount, interval, percent, setting_words, shown_at, shown_share
from scenes.sheet import Line
from scenes.summary import summary
from scenes.uncertainty_chart import influence_chart, influence_charts
from scenes.uncertainty_words import (
    MOST_DRAWN,
    MOST_IN_SHORT,
    sure_in_short,
    uncertainty_section,
    what_decides,
)
from tests.made_uncertainty import (
    factors,
    finding_shares,
    influences,
    made_uncertainty,
    needed,
    share,
)


@pytest.mark.parametrize(
    ("count", "of", "words"),
    [
        (0, 512, "0 %"), (1, 512, "under 1 %"), (6, 512, "1 %"), (364, 512, "71 %"),
        (511, 512, "over 99 %"), (512, 512, "100 %"), (0, 0, "0 %"),
    ],
)  # fmt: skip
def test_none_and_all_are_told_of_none_and_all_alone(count, of, words):
    """One sample of 512 is neither none nor, left out, all."""
    assert percent(Share(count, of, 0.0, 1.0)) == words


def test_beside_a_finding_stand_share_interval_and_whether_it_is_settled():
    """Serious is told where it is not so in all samples in which it holds."""
    shown = shown_share(finding_shares()[0])
    assert shown.text == "holds in 71 % of 512 samples (67 to 75), serious in 40 %"
    assert shown.settled == "not settled by these records"
    assert shown.short == "71 % (67 to 75), not settled"
    assert (shown.low, shown.high) == pytest.approx((66.97, 75.22), abs=0.01)
    always = replace(finding_shares()[0], serious=share(364))
    assert "serious" not in shown_share(always).text
    assert shown_share(finding_shares()[1]).settled == "settled: it holds"
    assert shown_share(finding_shares()[3]).short.endswith("settled not to hold")


def test_few_samples_are_told_where_they_settle_what_their_interval_leaves_open():
    """All of 16 are 81 % or more; all of 256 are 98.5 % or more."""
    few, many = (replace(finding_shares()[1], holds=share_of(np.ones(n, bool))) for n in (16, 256))
    shown = shown_share(few)
    assert shown.settled == "settled: it holds, as far as so few samples tell"
    assert shown.short == "100 % (81 to 100), settled by few samples"
    assert shown_share(many).short == "100 % (99 to 100), settled"


def test_findings_that_were_not_studied_have_nothing_beside_them(example):
    """And none has, without a study."""
    shown = shown_at(example.findings, made_uncertainty())
    assert [shown(item) is None for item in example.findings] == [False, False, True]
    assert not any(map(shown_at(example.findings, None), example.findings))


def test_settings_in_words_with_their_units():
    """Sides behind, the hinge axis as what it is to the mounting."""
    assert setting_words("guidance.left.bennett_angle_deg") == "Bennett angle, left"
    assert setting_words("hinge_axis.up_mm") == "hinge axis farther up"
    told = setting_words("maximal_intercuspation.advance_right_mm")
    assert told == "advance of MI from CR, right"
    assert amount(-7.84, "deg") == "−7.8°"
    assert amount(0.0124, "1/mm") == "0.012 per mm"
    assert amount(2.4, "mm") == "2.40 mm"


def test_the_table_says_what_was_uncertain_and_from_where():
    """One row a setting, its factor once, and how the errors of each hang together."""
    rows = uncertainty_section(made_uncertainty()).settings.rows
    assert [row[0] for row in rows] == [
        "Condylar inclination, right and left", "", "Place of the hinge axis", "", "",
        "Curvature of the eminence, right",
    ]  # fmt: skip
    assert rows[1][2:4] == ("37.5°", "±7.8°")
    assert [row[5] for row in rows] == ["0.60", "0.60", "", "", "", ""]
    assert rows[2][2] == "as mounted"
    alone = made_uncertainty(factors=factors()[1:], findings=())
    assert "errors correlated" not in uncertainty_section(alone).settings.head


def test_a_record_that_would_settle_it_is_told_with_both_errors():
    """What both sides share is told once; what nothing settles is told together."""
    lines = list(needed_lines(finding_shares()[0], factors()))
    assert lines == [
        "Condylar inclination, right and left, known to ±2.1° instead of ±7.8°, would settle it.",
        "Place of the hinge axis, known to ±0.40 mm, ±0.52 mm and ±0.5° instead of ±2.40 mm,"
        " ±3.10 mm and ±3.0°, would settle it.",
        "No record of curvature of the eminence, right alone can be told to settle it, not even an"
        " exact one.",
    ]
    none = tuple(NeededRecord(factor.name, None) for factor in factors())
    assert list(needed_lines(replace(finding_shares()[0], needed=none), factors())) == [
        "No record of any factor alone can be told to settle it, not even an exact one."
    ]
    many = replace(factors()[0], settings=factors()[0].settings * 2, name="all of it")
    errors = NeededRecord("all of it", 3.7, (2.1, 2.0, 1.9, 1.8))
    mixed = replace(many, settings=tuple(
        replace(one, standard_error=5.0 + k) for k, one in enumerate(many.settings)
    ))  # fmt: skip
    item = replace(finding_shares()[0], needed=(errors,))
    assert list(needed_lines(item, (mixed,))) == [
        "All of it, known 3.7 times better, would settle it."
    ]


def test_what_does_not_hold_as_set_has_a_list_of_its_own(example):
    """From 5 % of samples on; fewer are counted."""
    section = uncertainty_section(made_uncertainty(), example.findings)
    assert [row.kind for row in section.findings] == [
        "replacement tooth touches", "nonworking interference",
    ]  # fmt: skip
    (other,) = section.others
    assert (other.severity, other.teeth) == ("does not hold", "17/47 and 18/48")
    assert section.rare.startswith("1 more holds in fewer than 5 % of samples")
    assert uncertainty_section(None) is None


def test_only_what_is_not_settled_is_drawn_and_the_rest_told():
    """No more than a few; of others the factors of most influence are named."""
    section = uncertainty_section(made_uncertainty())
    assert [item.share.holds.count for item in section.drawn] == [364, 82]
    assert section.told == ()
    open_one = finding_shares()[0]
    note = replace(open_one, as_set="note")
    apart = [replace(open_one, pairs=((16, 41 + k),)) for k in range(MOST_DRAWN + 1)]
    many = made_uncertainty(findings=(*apart, note))
    section = uncertainty_section(many)
    assert (len(section.drawn), len(section.told)) == (MOST_DRAWN, 2)
    assert len(list(influence_charts(many))) == MOST_DRAWN
    assert all("total index 0.71" in item.decides for item in section.told)


def test_quantities_have_their_units_and_what_decides_them():
    """A gap without a value as set says so."""
    gap, angle, load = uncertainty_section(made_uncertainty()).quantities.rows
    assert gap[:5] == (
        "gap of first molars: protrusion at 3 mm, right", "none", "0.81 mm",
        "0.42 mm to 1.35 mm", "498",
    )  # fmt: skip
    assert angle[1:4] == ("2.3°", "2.3°", "1.1° to 3.6°")
    assert load[5] == "place of the hinge axis (total index 0.70, 0.63 to 0.77)"


def test_what_may_have_no_influence_is_not_said_to_decide():
    """An interval that begins at 0; where all do, the samples are too few."""
    first, second, third = influences(0.71, 0.22, 0.04)
    told = what_decides([replace(first, total_low=0.0), second, third])
    assert told == "place of the hinge axis (total index 0.22, 0.15 to 0.29)"
    assert what_decides([third]) == "so few samples do not tell"
    assert what_decides([first, replace(first, total=0.5), second]).count(first.factor) == 1
    assert what_decides([]) == ""


def test_the_chart_ranks_factors_and_tells_indices_apart_by_shape():
    """Filled round marks and open diamonds, each within its whisker, all within the frame."""
    sheet = influence_chart(influences(0.71, 0.22, 0.04))
    lines = [item for item in sheet.items if isinstance(item, Line)]
    round_marks, diamonds, whiskers = (
        [line for line in lines if line.mark == mark] for mark in ("o", "D", "|")
    )
    assert (len(round_marks), len(diamonds)) == (4, 4)  # three factors and the key
    assert {line.mark_fill for line in diamonds} == {colours.PAPER}
    assert colours.PAPER not in {line.mark_fill for line in round_marks}
    heights = [line.points[0, 1] for line in diamonds[:3]]
    assert heights == sorted(heights, reverse=True)
    for mark, whisker in zip(
        sorted([*round_marks, *diamonds], key=lambda line: (-line.points[0, 1], line.mark)),
        sorted(whiskers, key=lambda line: (-line.points[0, 1], line.points[0, 0])),
        strict=True,
    ):
        ends = whisker.points[:, 0]
        if len(ends) == 2 and mark.points[0, 1] > 3.0:
            assert ends[0] <= mark.points[0, 0] <= ends[1]
    for line in lines:
        known = line.points[np.isfinite(line.points).all(axis=1)]
        assert (known >= 0.0).all()
        assert (known <= [sheet.width_mm, sheet.height_mm]).all()


def test_long_names_of_factors_stand_in_two_lines():
    """They fit beside their row, whatever hangs together."""
    long = replace(influences(0.7, 0.2, 0.1)[0], factor="place of MI ahead of CR; " * 9)
    names = [item for item in influence_chart([long]).items if hasattr(item, "text")]
    lines = [name.text.split("\n") for name in names if "place of MI" in name.text]
    assert [len(both) for both in lines] == [2]
    assert all(len(line) <= 46 for both in lines for line in both)


def test_estimates_beyond_the_scale_stay_on_it():
    """Sobol indices are estimated, and may come out below 0 or above 1."""
    wild = replace(influences(0.7, 0.2, 0.1)[0], first=-0.1, first_low=-0.4, total=1.2,
                   total_high=1.4)  # fmt: skip
    sheet = influence_chart([wild])
    grid = next(item for item in sheet.items if isinstance(item, Line))
    left, right = np.nanmin(grid.points[:, 0]), np.nanmax(grid.points[:, 0])
    for item in sheet.items:
        if isinstance(item, Line) and item.mark and item.points[0, 1] > 3.0:
            assert left <= item.points[0, 0] <= right


def test_the_screen_tells_the_gravest(example):
    """With what shares are of; without a study nothing is said."""
    told = summary(Case(), replace(example, uncertainty=made_uncertainty()))
    assert "Of 512 samples of uncertain settings, not of patients" in told
    joined = " ".join(told.split())
    assert "replacement tooth touches · 16/46 · Left lateral excursion: 71 % (67 to 75)" in joined
    assert "How sure" not in summary(Case(), example)
    many = made_uncertainty(findings=finding_shares()[:1] * 8)
    assert "and 2 more in the report" in summary(Case(), replace(example, uncertainty=many))


def test_needed_records_of_made_studies_name_their_factors():
    """The invented study holds together."""
    assert {record.factor for record in needed()} == {factor.name for factor in factors()}
    assert interval(share(364)) == "(67 to 75)"


def test_what_is_uncertain_alone_is_not_said_to_settle_nothing():
    """With one factor an exact record leaves nothing open, whatever the samples can tell."""
    one = factors()[0]
    item = replace(finding_shares()[0], needed=(NeededRecord(one.name, None),))
    (line,) = needed_lines(item, (one,))
    assert "is all that is uncertain" in line and "not even" not in line


def test_the_screen_lists_as_many_findings_that_are_not_settled_as_it_counts():
    """Those that do not hold as set and notes among them; of more than fit it says how many."""
    studied = made_uncertainty()
    head, *lines = sure_in_short(studied)
    assert "2 findings not settled" in head
    assert sum("not settled" in line for line in lines) == 2
    assert any(line.startswith("not as set") for line in lines)
    many = replace(studied, findings=studied.findings * 4)
    head, *lines, last = sure_in_short(many)
    assert "8 findings not settled" in head and len(lines) == MOST_IN_SHORT
    listed = sum("not settled" in line for line in lines)
    assert last.endswith(f"in the report, {8 - listed} of them not settled")
