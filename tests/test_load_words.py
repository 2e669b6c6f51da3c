"""Loads in words: which way things turn, ranges, units, and columns that fit what carries."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.base_loads import excursion_loads
from kinematics.planning.load_readings import base_load, largest_load
from scenes.load_figures import sinking, turning, turns_explained, turns_of
from scenes.load_words import framework_loads
from tests.loaded_cases import loads_of, planted, ready, some_poses
from tests.test_base_loads import canine_contact
from tests.test_load_picture import framework, invented

TITLES = {
    "protrusion": "Protrusion",
    "right lateral": "Right lateral excursion",
    "left lateral": "Left lateral excursion",
}


def section(name, number):
    """Return what is said of all frameworks of a case in one of its excursions, and its loads."""
    here = ready(name)
    loads = (excursion_loads(here.occlusion, here.case.load, here.frames, here.sweeps[number]),)
    return framework_loads(loads, TITLES), loads


def test_columns_fit_what_carries():
    """Nothing turns or sinks that roots hold; every column of a bridge and splint is filled."""
    parts, _ = section("bridge", 0)
    assert [part.kind for part in parts] == ["bridge", "splint"]
    for part in parts:
        words = " ".join(part.largest.head)
        assert "turning" not in words and "sinks" not in words and part.turns == ""
        assert "root with most across its axis" in words
        for row in part.largest.rows:
            assert "–" not in row or set(row[1:]) == {"–"}
    assert "guidance taken off" not in " ".join(parts[1].abutments.head)
    assert {row[1] for row in parts[1].abutments.rows} == {"31", "32", "41"}


def test_every_figure_of_a_base_has_its_unit_range_and_way():
    """Across, along and sinking with ranges; below each turning which way it goes."""
    (part,), loads = section("upper_distal_extension", 2)
    (row,) = part.largest.rows
    assert len(part.largest.head) == len(row) == 9
    for cell in row[3:]:
        assert " (" in cell and " to " in cell
    assert row[5].splitlines()[1] == "presses the base on the ridge"
    assert row[6].splitlines()[1] == "palatal flange sinks"
    assert "seen from above" in row[7].splitlines()[1]
    assert row[8].startswith(sinking(largest_load(loads[0], 0).as_is))
    assert "fulcrum" in part.turns
    for cells in part.abutments.rows:
        assert all(cell.endswith(")") or " (" not in cell for cell in cells)
        assert " (" in cells[4] and " (" in cells[5]
    assert part.in_short.startswith("Upper right base: ")
    assert "in left lateral excursion at " in part.in_short and " N (" in part.in_short


@pytest.mark.parametrize("seed", range(60))
def test_a_push_turns_the_base_the_way_that_is_told(seed):
    """A single push on an upper right tooth: back of the line presses, sideways tips and turns."""
    rng = np.random.default_rng(seed)
    here = ready("upper_distal_extension")
    poses = some_poses(here, 1, [1.0])
    tooth, towards = int(rng.choice([16, 17])), float(rng.choice([-1.0, 1.0]))
    centre = np.asarray(here.occlusion.tooth(tooth).centre)
    normal = np.array([0.0, 0.5 * towards, 1.0])
    contacts = [
        (tooth, 46, centre, normal / np.linalg.norm(normal)),
        canine_contact(here, poses.poses[0], -1),
    ]
    loads = loads_of(here, 1, planted(poses, contacts))
    if not loads.balanced[0]:
        return
    told = base_load(loads, loads.frames[0], 0)
    ways = {name: turning(told, name)[1] for name in turns_of(told)}
    # To the patient's left is towards the palate on the right side, about an abutment in front.
    assert ways["about_fulcrum_nmm"] == "presses the base on the ridge"
    flange = "palatal" if towards > 0.0 else "buccal"
    assert ways["about_crest_nmm"] == f"{flange} flange sinks"
    side = "right" if towards > 0.0 else "left"
    assert ways["about_vertical_nmm"] == f"to the {side}, seen from above"


def test_a_denture_around_the_arch_tips_forward_or_back():
    """Its crest runs across: no flange of one side sinks."""
    load = replace(invented(1, framework()), rounds_arch=True)
    for value, words in ((50.0, "front sinks, back lifts"), (-50.0, "back sinks, front lifts")):
        figures = {**load.figures, "about_crest_nmm": value}
        assert turning(replace(load, figures=figures), "about_crest_nmm")[1] == words
    flat = replace(load, figures={**load.figures, "about_crest_nmm": 0.2})
    assert turning(flat, "about_crest_nmm")[1] == ""
    assert "fulcrum" not in turns_explained([replace(load, has_fulcrum=False)])


def test_small_sinking_is_told_in_micrometres():
    """Below a tenth of a millimetre, each end of the range by itself."""
    load = invented(1, framework())
    for ends, words in (
        ((0.048, 0.031, 0.12), "48 µm (31 µm to 0.12 mm)"),
        ((0.25, 0.2, 0.3), "0.25 mm (0.20 mm to 0.30 mm)"),
    ):
        tables = [{**load.figures, "sinking_mm": value} for value in ends]
        told = replace(load, figures=tables[0], least=tables[1], greatest=tables[2])
        assert sinking(told) == words


def test_what_is_unlikely_stands_with_its_excursion_and_what_to_do():
    """One line each, and one at the end; none without."""
    (calm,), loads = section("upper_distal_extension", 0)
    assert calm.warnings == ()
    here = loads[0].as_is
    forces = 30.0 * here.contacts.force_n
    strong = replace(loads[0], as_is=replace(here, contacts=replace(here.contacts, force_n=forces)))
    (told,) = framework_loads((strong,), TITLES)
    assert len(told.warnings) > 1
    assert all(line.startswith("Protrusion at ") for line in told.warnings[:-1])
    assert "more than the whole closing force of 100 N" in told.warnings[0]
    assert "load.force_forward_mm" in told.warnings[-1]


def test_what_nothing_balances_is_not_told_as_no_load():
    """Where no pose is balanced what is carried is not known, and that is said."""
    _, loads = section("upper_distal_extension", 0)
    one = loads[0].as_is
    lost = replace(one.frames[0], balanced=np.zeros_like(one.frames[0].balanced))
    (told,) = framework_loads((replace(loads[0], as_is=replace(one, frames=(lost,))),), TITLES)
    assert "not known" in told.lead and "not known" in told.in_short
    assert told.shares.rows == () and told.abutments.rows == ()
