"""Remedies in the report, on the screen and in result files; and those of a built-in case."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import parse_case, read_case
from kinematics.planning.remedies.found import GuideLoad
from kinematics.planning.remedies.pasted import pasted
from scenes.advise_command import NOTHING_FLAGGED, advise
from scenes.command_arguments import BAD_INPUT
from scenes.command_line import main
from scenes.remedy_chart import remedy_chart
from scenes.remedy_words import NO_ADVICE, remedy_lines, remedy_section
from scenes.sheet import Line
from tests.remedied_mouth import sought
from tests.shipped_cases import coarse, run_case, shipped_in_full


def of_kind(found, kind):
    """Return the remedy of one kind."""
    return next(item for item in found.remedies if item.kind == kind)


def guided(found):
    """Return the same with guides that take something across their axes."""
    loads = (GuideLoad(13, 1.25, 1.5), GuideLoad(23, None, 0.8))
    remedies = tuple(
        replace(item, effect=replace(item.effect, loads=loads)) if item.kind == "lower" else item
        for item in found.remedies
    )
    return replace(found, remedies=remedies)


def test_the_section_tells_every_kind():
    """What is done and by how much, by a full run, volumes, structure; or why none was found."""
    _, found = sought()
    section = remedy_section([guided(found)])
    (part,) = section.parts
    assert part.title == f"{found.tooth}: what would clear it"
    assert part.lead.startswith("Flagged: ")
    assert len(part.table.rows) == 5
    assert {len(row) for row in part.table.rows} == {len(part.table.head)}
    lower = part.table.rows[0]
    assert lower[0] == f"{found.tooth} lowered by {of_kind(found, 'lower').amount:g} mm"
    assert "stops in MI that are lost" in lower[1] or "every stop in MI stays" in lower[1]
    assert "while 13 guides it takes at most 1.50 N across its axis" in lower[1]
    assert "(before: nothing)" in lower[1]
    assert lower[4].endswith("if it is cut and not moved")
    assert part.smallest.startswith("Smallest by volume of those that clear it and keep every stop")
    assert NO_ADVICE in section.cautions
    assert any("not of this tooth" in line for line in section.cautions)
    assert section.enamel
    assert remedy_section([]) is None


def test_without_natural_teeth_nothing_is_said_of_enamel():
    """A replacement tooth has none."""
    _, found = sought()
    remedies = tuple(replace(item, natural_cut=()) for item in found.remedies)
    section = remedy_section([replace(found, remedies=remedies)])
    assert section.enamel == ()
    assert not any("enamel" in line for line in section.cautions)
    assert section.parts[0].table.rows[0][4] == "no"


def test_none_found_is_told_with_its_reason():
    """Up to which amount was sought, and what is still in the way."""
    _, found = sought(most_mm=0.05, most_tilt_deg=0.5, most_added_mm=0.05)
    (part,) = remedy_section([found]).parts
    assert part.table.rows[0][:2] == (
        "lower it",
        f"none found up to 0.05 mm\n{of_kind(found, 'lower').reason}",
    )
    assert part.smallest.startswith("No single change within the limits")
    assert part.entries == ""
    assert remedy_chart(found) is None
    lines = list(remedy_lines([replace(found, note="it is clear as it is", remedies=())]))
    assert any("Nothing was sought: it is clear as it is." in line for line in lines)


def test_the_screen_tells_the_same():
    """A line a kind, entries to paste, and that the clinician decides."""
    _, found = sought()
    told = "\n".join(remedy_lines([found]))
    for remedy in found.remedies:
        if remedy.is_found:
            assert all(line in told for line in pasted(remedy).split("\n"))
    assert "clinician decides" in told


def test_the_drawing_holds_a_plot_for_every_change_that_clears():
    """Before and after within the frame; what is wanted is dotted."""
    _, found = sought()
    sheet = remedy_chart(found)
    curves = [item for item in sheet.items if isinstance(item, Line) and item.within is not None]
    shown = [item for item in found.remedies if item.is_found]
    assert len(curves) == 3 * len(shown)
    for item in sheet.items:
        if isinstance(item, Line) and item.within is None:
            ends = item.points[np.isfinite(item.points).all(axis=1)]
            assert (ends >= 0.0).all()
            assert (ends <= [sheet.width_mm, sheet.height_mm]).all()


def test_remedies_of_a_built_in_case_hold_in_runs_of_their_own():
    """Pasted into the case file, each rids it of the interference; less of it does not."""
    case = coarse("nonworking_interference")
    (found,) = shipped_in_full("nonworking_interference").remedies
    assert found.tooth == 17
    steep = of_kind(found, "steepen")
    assert steep.is_found and steep.keeps_stops
    assert [load.tooth for load in steep.effect.loads] == [23]
    assert steep.effect.loads[0].after > steep.effect.loads[0].before
    assert 0.0 < steep.thickest_mm < steep.amount
    assert steep.added_mm3 > 0.0
    for kind in ("lower", "steepen"):
        remedy = of_kind(found, kind)
        change = parse_case(pasted(remedy), "pasted").change
        told = run_case(replace(case, change=change)).findings
        assert not any(item.kind == "nonworking interference" for item in told)
    half = tuple(replace(one, by_mm=0.5 * one.by_mm) for one in steep.changes)
    told = run_case(replace(case, change=half)).findings
    assert any(item.kind == "nonworking interference" for item in told)


@pytest.mark.parametrize(
    ("arguments", "told"),
    [
        (["nothing_there"], "neither a file nor a built-in case"),
        (["nonworking_interference", "18"], "the upper arch has"),
    ],
)
def test_what_cannot_be_searched_is_told(arguments, told, capsys):
    """Which case or tooth, and what there is."""
    assert main(["advise", *arguments]) == BAD_INPUT
    assert told in capsys.readouterr().err


def test_a_word_in_place_of_a_tooth_is_refused(capsys):
    """The parser names it."""
    with pytest.raises(SystemExit):
        main(["advise", "nonworking_interference", "canine"])
    assert "must be a whole number from 11 to 85" in capsys.readouterr().err


def test_a_case_without_flagged_teeth_says_so(tmp_path):
    """Nothing is searched for."""
    file = tmp_path / "case.toml"
    in_cr = "[maximal_intercuspation]\nadvance_right_mm = 0.0\nadvance_left_mm = 0.0\n"
    file.write_text(f"{in_cr}[dentition]\ntriangles_per_arch = 15000\n", "utf-8")
    assert advise(read_case(file), (), lambda _: None, 1) == NOTHING_FLAGGED
