"""One more tooth behind a set-up: what it would hold, told by place alone."""

import numpy as np
import pytest

from kinematics.extent_files import SET_UP_COLUMNS, set_up_rows
from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.extent_further import LEAST_FACING_MM, further_teeth
from kinematics.planning.extents import Surroundings, extents
from kinematics.planning.judging import DentureBase
from kinematics.result_files import plain
from kinematics.teeth.crown_table import crown_table
from kinematics.tooth_codes import is_upper, mirror, opponent
from scenes.set_up_lengths import set_up_lengths
from tests.made_set_ups import altered, base, built, occlusion

#: A short base, the tooth behind it that is gone, and what that leaves.
SHORT = {17: (15, 16), 27: (25, 26), 37: (35, 36), 47: (45, 46)}


def found_of(gone, *teeth, low=None, crests=None, holders=None, **settings):
    """Return what is found of a base with teeth behind it gone."""
    subject = occlusion(altered(low or {}, removed=gone), base(*teeth), **settings)
    around = Surroundings(holders or {}, {"base": crests} if crests else {})
    (found,) = extents(subject, around)
    return subject, found


@pytest.mark.parametrize("gone", SHORT)
def test_the_next_tooth_stands_opposite_to_what_is_left(gone):
    """In both arches, on both sides: the second molar faces its own opponent."""
    low = {opponent(gone): 0.6}  # so that it meets no neighbour of its opponent either
    _, found = found_of((gone,), *SHORT[gone], low=low)
    (further,) = found.further
    assert (further.tooth, further.holds) == (gone, (opponent(gone),))
    assert further.rise_deg is None
    arch = "U" if is_upper(gone) else "L"
    assert further.width_mm == pytest.approx(crown_table().widths(arch)[6], abs=0.6)
    assert LEAST_FACING_MM <= further.facing_mm <= further.width_mm


def test_its_width_is_that_of_the_table_where_the_other_side_has_none():
    """Without 27 the 17 is as wide as crowns of the table."""
    _, found = found_of((17, 27), 15, 16, low={47: 0.6})
    (further,) = found.further
    assert further.width_mm == crown_table().widths("U")[6]


@pytest.mark.parametrize(
    ("gone", "teeth", "low", "holders"),
    [
        ((17, 47), (15, 16), {}, {}),  # nothing stands opposite
        ((17,), (15, 16), {47: 0.6}, {47: "a rest"}),  # held in another way
        ((), (15, 16), {}, {}),  # a natural 17 stands there
        ((), (15, 16, 17), {47: 0.8}, {}),  # faced already, and stands clear of it
        ((16, 17), (15,), {46: 0.8, 47: 0.8}, None),  # holds 46 alone
    ],
)
def test_nothing_is_proposed_that_would_hold_nothing(gone, teeth, low, holders):
    """No opponent, held already, bounded, faced already; one tooth reaches one tooth on."""
    _, found = found_of(gone, *teeth, low=low, holders=holders)
    if holders is None:
        (further,) = found.further
        assert further.tooth == 16 and 46 in further.holds
    else:
        assert found.further == ()


def test_third_molars_are_not_replaced():
    """48 is left behind a base that ends with 17."""
    subject = occlusion(built((48,)), base(15, 16, 17))
    (found,) = extents(subject)
    assert found.full.left == (48,) and found.further == ()


@pytest.mark.parametrize("seed", range(50))
def test_a_planted_slope_decides(seed):
    """A straight crest of a known rise towards the back, upper and lower, both sides."""
    rng = np.random.default_rng(seed)
    gone = int(rng.choice(list(SHORT)))
    last = SHORT[gone][-1]
    subject = occlusion(altered({opponent(gone): 0.6}, removed=(gone,)), base(*SHORT[gone]))
    arch = subject.casts.upper if is_upper(gone) else subject.casts.lower
    heel, ahead = arch.tooth(last).centre, arch.tooth(last - 1).centre
    back = (heel - ahead) * [1.0, 1.0, 0.0]
    back /= np.linalg.norm(back)
    rise = float(rng.choice([-40.0, -30.0, -10.0, 0.0, 10.0, 30.0, 40.0]))
    up = -1.0 if is_upper(gone) else 1.0
    along = np.array([-10.0, 40.0])[:, None]
    towards = up * np.tan(np.radians(rise)) * np.array([0.0, 0.0, 1.0])
    crest = heel - 8.0 * up * np.array([0.0, 0.0, 1.0]) + along * (back + towards)
    found = further_teeth(subject, subject.bases[0], (), (opponent(gone),), (crest,))
    limit = subject.settings.ascending_ridge_deg
    steep = abs(rise) > limit + 8.0 if is_upper(gone) else rise > limit + 8.0
    gentle = abs(rise) < limit - 8.0 if is_upper(gone) else rise < limit - 8.0
    assert steep or gentle
    assert bool(found) == gentle
    if found:
        assert found[0].rise_deg == pytest.approx(rise, abs=8.0)


def test_where_the_crest_ends_before_it_the_ridge_is_not_known():
    """A crest below the last tooth says nothing of the place behind it."""
    subject = occlusion(altered({47: 0.6}, removed=(17,)), base(15, 16))
    heel = subject.casts.upper.tooth(16).centre
    short = heel + np.array([[10.0, 0.0, 9.0], [0.0, 0.0, 9.0]])
    (found,) = further_teeth(subject, subject.bases[0], (), (47,), (short,))
    assert found.rise_deg is None


def test_it_is_told_everywhere():
    """As a note, in the section, in findings.json and in the table."""
    subject, found = found_of((17,), 15, 16, low={47: 0.6})
    (note,) = [
        item
        for item in extent_findings(subject, [found])
        if item.kind == "one more tooth would stand opposite"
    ]
    assert (note.severity, note.tooth_lower) == ("note", 47)
    assert note.text.startswith(
        "One more tooth on base 'base', 17, would stand opposite 47, which has no stop and nothing"
    )
    assert "told by place alone" in note.text
    (told,) = set_up_lengths([found]).bases
    assert told.further == (note.text,)
    assert plain(found)["further"][0]["holds"] == [47]
    rows = [dict(zip(SET_UP_COLUMNS, row, strict=True)) for row in set_up_rows([found])]
    assert [row["one_more_tooth"] for row in rows] == ["", "", "17"]
    assert rows[-1]["it_would_stand_opposite"] == "47"


def test_both_sides_of_one_base_are_asked():
    """A base across the palate that ends with 16 and 26."""
    casts = altered({37: 0.6, 47: 0.6}, removed=(17, 27))
    whole = DentureBase("base", (16, 26), (15, 25))
    (found,) = extents(occlusion(casts, whole))
    assert {further.tooth for further in found.further} == {17, 27}
    assert found.further[1].holds == (mirror(found.further[0].holds[0]),)
