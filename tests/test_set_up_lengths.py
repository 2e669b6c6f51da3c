"""The section of the report about lengths of set-ups, the table in files, and their loads."""

import csv
import io
import math
import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.extent_files import SET_UP_COLUMNS, extent_entries, set_up_rows
from kinematics.guidance.excursions import right_lateral
from kinematics.load.settings import LoadSettings
from kinematics.planning.base_loads import excursion_loads
from kinematics.planning.extent import LoadAcross
from kinematics.planning.extent_loads import with_loads
from kinematics.planning.extents import Surroundings, extents
from kinematics.planning.framework import frameworks
from kinematics.planning.joined_teeth import Splint
from kinematics.planning.load_readings import base_load, largest_pose
from kinematics.planning.set_up_loads import set_up_load
from kinematics.result_files import plain
from kinematics.table_cells import table_text
from scenes.set_up_lengths import set_up_lengths
from tests.made_set_ups import altered, base, built, occlusion
from tests.small_mouth import swept

SPLINTED = (Splint("lower molars", (46, 47)),)


@pytest.fixture(scope="module")
def loaded():
    """Return two bases of one framework, and what their set-ups carry to the right."""
    bases = (
        replace(base(16, 17, name="right"), connector="strap"),
        replace(base(26, 27, name="left"), connector="strap"),
    )
    subject = occlusion(built(), *bases)
    sweeps = (swept(subject.casts, right_lateral()),)
    bodies = frameworks(subject)
    found = with_loads(subject, LoadSettings(), bodies, sweeps, extents(subject))
    return subject, sweeps, bodies, found


def test_each_set_up_is_weighed_with_the_other_bases_whole(loaded):
    """What the framework carries with these teeth of one base and all of the other."""
    subject, sweeps, bodies, (right, left) = loaded
    for extent, others in ((right, (26, 27)), (left, (16, 17))):
        for item in extent.set_ups:
            teeth = (*others, *item.teeth)
            load = set_up_load(subject, LoadSettings(), bodies, sweeps, 0, teeth).largest
            assert item.load is not None
            assert item.load.across_n == (0.0 if load is None else load.figures["across_n"])
            if load is not None:
                least, greatest = item.load.across_range_n
                assert (least, greatest) == (load.least["across_n"], load.greatest["across_n"])
                assert least <= item.load.across_n <= greatest
                assert least < greatest
    assert right.full.load == left.full.load
    assert right.full.load is not None and right.full.load.across_n > 0.0


def test_the_largest_of_the_whole_set_up_is_that_of_its_loads(loaded):
    """Looked for every 0.5 mm and then near it, it is the largest of all poses, range and all."""
    subject, sweeps, bodies, (right, _) = loaded
    (whole,) = (excursion_loads(subject, LoadSettings(), bodies, sweep).as_is for sweep in sweeps)
    frame = whole.frames[0]
    every = base_load(whole, frame, largest_pose(whole, frame))
    told = right.full.load
    assert told.travel_mm == every.travel_mm
    assert told.across_n == pytest.approx(every.figures["across_n"], rel=1e-6)
    assert told.across_range_n == pytest.approx(
        (every.least["across_n"], every.greatest["across_n"]), rel=1e-6
    )


def test_what_stops_do_not_tell_is_not_weighed():
    """A base against replacement teeth: no load in its rows."""
    subject = occlusion(built(), base(16, 17, name="up"), base(46, 47, name="low"))
    bodies = frameworks(subject)
    for extent in with_loads(subject, LoadSettings(), bodies, (), extents(subject)):
        assert all(item.load is None for item in extent.set_ups)


def rows_of(found):
    """Return the rows of the table as a spreadsheet reads them."""
    text = table_text(SET_UP_COLUMNS, set_up_rows(found))
    return list(csv.DictReader(io.StringIO(text)))


def test_the_table_in_files():
    """One row a set-up, the shortest that is enough and that of the case marked."""
    found = extents(occlusion(built((48,)), base(15, 16, 17), joined=SPLINTED))
    rows = rows_of(found)
    assert [row["teeth"] for row in rows] == ["", "15", "15 16", "15 16 17"]
    assert [row["is_the_shortest_that_is_enough"] for row in rows] == ["no", "no", "yes", "no"]
    assert [row["is_that_of_the_case"] for row in rows] == ["no", "no", "no", "yes"]
    assert rows[2]["left_without_stop"] == "48" and rows[2]["held_without_stop"] == "47"
    assert rows[2]["largest_across_n_per_100_n"] == ""
    weighed = replace(found[0].full, load=LoadAcross(3.0, None, "right lateral", 1.5))
    (row,) = rows_of([replace(found[0], set_ups=(weighed,))])
    assert (row["largest_across_n_per_100_n"], row["largest_in"]) == ("3.000000", "right lateral")
    assert row["about_fulcrum_nmm_per_100_n"] == row["least_of_range_n"] == ""
    ranged = replace(weighed.load, across_range_n=(2.0, 4.0), about_fulcrum_range_nmm=(5.0, 7.0))
    (row,) = rows_of([replace(found[0], set_ups=(replace(weighed, load=ranged),))])
    assert (row["least_of_range_n"], row["greatest_of_range_n"]) == ("2.000000", "4.000000")
    assert (row["least_of_range_nmm"], row["greatest_of_range_nmm"]) == ("5.000000", "7.000000")


def test_entries_of_findings_json_are_plain():
    """No infinity: a jaw that closes on nothing has null."""
    gone = [code for code in built().lower.codes if code not in (46, 47)]
    gone += [code for code in built().upper.codes if code not in (13, 16, 17)]
    found = extents(occlusion(altered(removed=gone), base(16, 17, abutments=(13,))))
    assert math.isinf(found[0].set_ups[0].closes_mm)
    (entry,) = plain(extent_entries(found))
    assert entry["set_ups"][0]["closes_mm"] is None
    assert entry["shortest_that_is_enough"] == [16, 17]
    assert entry["set_ups"][0]["bare"][0] == {"tooth": 47, "gap_mm": None, "held_by": ""}


def test_a_case_without_bases_has_no_section():
    """Nothing is asked, nothing is said."""
    assert set_up_lengths(()) is None


def test_the_section_in_words():
    """Where each base ends, which set-up is enough, why the others are not."""
    found = extents(occlusion(built(), base(15, 16, 17), joined=SPLINTED))
    (told,) = set_up_lengths(found).bases
    assert told.title == "Base 'base': 15, 16 and 17"
    assert told.lead.endswith("The shortest set-up that is enough: 15 and 16.")
    assert [row[0] for row in told.opposing.rows] == ["47", "46", "45"]
    assert [row[4] for row in told.set_ups.rows] == [
        "no: 47, 46 and 45 would have no stop and nothing to hold them",
        "no: 47 and 46 would have no stop and nothing to hold them",
        "yes, the shortest",
        "yes (as set up)",
    ]
    assert told.set_ups.rows[2][2] == "47 by splint 'lower molars'"
    assert len(told.set_ups.head) == 5 and told.ridge == ""


def test_loads_stand_beside_their_set_ups(loaded):
    """Two columns more, with units, place and travel; none where no tooth stays."""
    *_, found = loaded
    told = set_up_lengths(found).bases[0]
    assert len(told.set_ups.head) == 7
    assert re.fullmatch(
        r"[\d.]+ N \([\d.]+ to [\d.]+ N\), in right lateral excursion, [\d.]+ mm",
        told.set_ups.rows[-1][5],
    )
    alone = replace(found[0].full, load=LoadAcross(0.0, None, "", 0.0))
    told = set_up_lengths([replace(found[0], set_ups=(alone, found[0].full))]).bases[0]
    assert told.set_ups.rows[0][5:] == ("none", "none")


def test_no_teeth_at_all_and_how_far_mi_closes():
    """None is an answer of its own; a jaw that closes further says by how much."""
    (told,) = set_up_lengths(extents(occlusion(altered(removed=(46, 47)), base(16, 17)))).bases
    assert told.lead.endswith("The shortest set-up that is enough: no teeth at all.")
    assert told.opposing.rows == ()
    low = dict.fromkeys((44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37), 0.6)
    (told,) = set_up_lengths(extents(occlusion(altered(low), base(15, 16, 17)))).bases
    assert told.set_ups.rows[0][3].endswith(" mm")
    assert "MI would close further, by" in told.set_ups.rows[0][4]


def test_a_ridge_is_told_by_its_slopes():
    """Rising, falling, level, in degrees; and that nothing keeps off the slope."""
    subject = occlusion(built(), base(36, 37), ascending_ridge_deg=0.0)
    heel = built().lower.tooth(37).centre
    rising = np.array([[x, 0.0, -9.0 - 0.2 * x] for x in (20.0, 0.0, -20.0)]) + heel
    found = extents(subject, Surroundings(crests={"base": (rising,)}))
    (told,) = set_up_lengths(found).bases
    assert "36 rising by" in told.ridge and "°" in told.ridge
    assert "(worked out below the teeth, not given)" in told.ridge
    given = Surroundings(crests={"base": (rising,)}, given=frozenset({"base"}))
    assert "(as the case gives it)" in set_up_lengths(extents(subject, given)).bases[0].ridge
    assert "No set-up that keeps off the ascending ridge does all that is asked" in told.lead
    assert told.lead.endswith("the nearest to it: no teeth.")
