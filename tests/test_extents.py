"""How far back replacement teeth must go: planted teeth without stops, twins, nothing needed."""

import itertools
import math

import numpy as np
import pytest

from kinematics.guidance.excursions import protrusion
from kinematics.guidance.mandible import place_at
from kinematics.planning.extent_closure import closed_in_mi
from kinematics.planning.extents import Surroundings, extents
from kinematics.planning.framework import frameworks
from kinematics.planning.joined_teeth import Bridge, Splint
from kinematics.planning.judging import DentureBase
from kinematics.planning.replaced_units import replaced_units
from kinematics.planning.stops import centric_stops
from kinematics.tooth_codes import mirror, opponent
from tests import small_mouth
from tests.made_set_ups import altered, base, built, occlusion

#: What becomes of an opposing tooth.
WAYS = ("none", "none", "removed", "lowered", "splinted", "bridged", "rest")


def only(subject, surroundings=None):
    """Return what is found of the one base of a case."""
    (found,) = extents(subject, surroundings)
    return found


def test_without_a_base_nothing_is_said():
    """There is no set-up to shorten."""
    assert extents(occlusion(built())) == ()


def test_mi_of_the_whole_set_up_is_mi():
    """Nothing left out: the opening of the casts, and the stops that a sweep has."""
    casts = built()
    found = closed_in_mi(occlusion(casts))
    assert found.opening_rad == casts.mi.opening_rad
    sweep = small_mouth.swept(casts, protrusion(), travel_mm=1.0)
    assert found.stops == centric_stops(sweep.patches, occlusion(casts).settings)


def test_every_natural_pair_needs_its_replacement():
    """Cusp in fossa, all natural opposite: every tooth left out leaves its opponent."""
    found = only(occlusion(built(), base(15, 16, 17)))
    assert found.end == "distal extension" and found.is_told_by_stops
    assert [item.teeth for item in found.set_ups] == [(), (15,), (15, 16), (15, 16, 17)]
    assert [item.left for item in found.set_ups] == [(47, 46, 45), (47, 46), (47,), ()]
    assert found.shortest is found.full
    assert all(item.keeps_support for item in found.set_ups)


@pytest.mark.parametrize("seed", range(60))
def test_planted_teeth_without_need_of_a_stop(seed):
    """Opposing teeth removed, splinted, bridged, resting, or out of contact: each told as it is."""
    rng = np.random.default_rng(seed)
    ways = {code: str(rng.choice(WAYS)) for code in (45, 46, 47)}
    gone = [code for code, way in ways.items() if way == "removed"]
    low = {code: float(rng.uniform(0.15, 1.5)) for code, way in ways.items() if way == "lowered"}
    # Joined to 44, which meets the natural 14.
    splinted = [code for code, way in ways.items() if way == "splinted"]
    bridged = [code for code, way in ways.items() if way == "bridged"]
    joined = tuple(Splint(f"splint {code}", (44, code)) for code in splinted)
    joined += tuple(Bridge(f"bridge {code}", (code,), (44,)) for code in bridged)
    holders = {code: "a rest of 'lower'" for code, way in ways.items() if way == "rest"}
    subject = occlusion(altered(low, gone), base(15, 16, 17), joined=joined)
    found = only(subject, Surroundings(holders))
    free = {code for code, way in ways.items() if way in ("none", "lowered")}
    assert {t.tooth for t in found.opposing} == set(ways) - set(gone)
    for tooth in found.opposing:
        assert bool(tooth.held_by) == (ways[tooth.tooth] in ("splinted", "bridged", "rest"))
        assert (tooth.stops == 0) == (ways[tooth.tooth] == "lowered")
        assert tooth.stops_with_base == tooth.stops and tooth.stops_without_base == 0
    for item in found.set_ups:
        met = {opponent(code) for code in item.teeth if ways[opponent(code)] != "lowered"}
        assert set(item.left) == free - met, item
    wanted = [code for code in (15, 16, 17) if ways[opponent(code)] == "none"]
    count = wanted[-1] - 14 if wanted else 0
    assert found.shortest is not None
    assert found.shortest.teeth == (15, 16, 17)[:count]


def test_none_may_be_the_answer():
    """47 in a splint with 46, that one out of contact with nothing to lose: no tooth is needed."""
    casts = altered(removed=(46, 47))
    found = only(occlusion(casts, base(16, 17)))
    assert found.opposing == ()
    assert found.shortest is not None and found.shortest.teeth == ()
    joined = (Splint("lower right", (45, 46, 47)),)
    found = only(occlusion(built(), base(16, 17), joined=joined))
    assert found.shortest is not None and found.shortest.teeth == ()
    assert [(tooth.tooth, tooth.held_by) for tooth in found.shortest.held] == [
        (47, "splint 'lower right'"), (46, "splint 'lower right'"),
    ]  # fmt: skip


def test_a_splint_holds_only_while_one_of_its_teeth_meets():
    """46 and 47 joined: the stop on 46 is what holds 47, so 16 is needed and 17 is not."""
    joined = (Splint("lower molars", (46, 47)),)
    found = only(occlusion(built(), base(15, 16, 17), joined=joined))
    assert [item.left for item in found.set_ups] == [(47, 46, 45), (47, 46), (), ()]
    assert found.shortest is not None and found.shortest.teeth == (15, 16)


def test_a_third_molar_behind_is_told_and_asked_of_nobody():
    """48 meets no tooth of the base, whatever its length."""
    found = only(occlusion(built((48,)), base(15, 16, 17)))
    assert [t.tooth for t in found.opposing if t.is_behind] == [48]
    assert found.full.left == (48,)
    assert found.shortest is found.full
    assert found.leaves_more(found.set_ups[2]) == (47,)


def test_a_third_molar_behind_bounds_the_base():
    """18 is natural: the base is tooth-bounded, and teeth are left out from either end."""
    found = only(occlusion(built((18, 48)), base(16, 17, abutments=(15, 18))))
    assert found.end == "tooth-bounded"
    assert [item.teeth for item in found.set_ups] == [(), (16,), (17,), (16, 17)]
    assert not any(tooth.is_behind for tooth in found.opposing)


def test_a_third_molar_that_holds_nothing_bounds_no_base():
    """18 stands there, yet bears nothing: as for the Kennedy class, the base ends free."""
    subject = occlusion(built((18, 48)), base(16, 17))
    found = only(subject)
    (framework,) = frameworks(subject)
    assert framework.kennedy.kind == "II" and framework.extension_sides == ("base",)
    assert found.end == "distal extension"
    assert [item.teeth for item in found.set_ups] == [(), (16,), (16, 17)]
    assert not any(tooth.is_behind for tooth in found.opposing)  # 18 faces 48


def test_an_arch_with_third_molars_alone_has_a_complete_denture():
    """They hold nothing: framework, length and schools tell of one and the same denture."""
    casts = built((18, 28))
    whole = DentureBase("whole", tuple(code for code in casts.upper.codes if code % 10 < 8))
    subject = occlusion(casts, whole)
    assert only(subject).end == "complete denture"
    (unit,) = replaced_units(subject)
    assert unit.kind == "complete denture"
    assert frameworks(subject)[0].fulcrum is None


@pytest.mark.parametrize("teeth", [(15, 16, 17), (45, 46, 47), (16, 17), (46,), (14, 15)])
def test_right_and_left_are_mirror_images(teeth):
    """Built-in arches are: the same base of the other side tells the same."""
    low = {opponent(teeth[0]): 0.5}
    other = tuple(map(mirror, teeth))
    here = only(occlusion(altered(low), base(*teeth)))
    there = only(occlusion(altered({mirror(code): mm for code, mm in low.items()}), base(*other)))
    assert (here.end, len(here.set_ups)) == (there.end, len(there.set_ups))
    for one, two in zip(here.set_ups, there.set_ups, strict=True):
        assert tuple(map(mirror, one.teeth)) == two.teeth
        assert {mirror(code) for code in one.left} == set(two.left)
        assert one.closes_mm == pytest.approx(two.closes_mm, abs=1e-9)
        assert one.stops == two.stops
    assert (here.shortest is None) == (there.shortest is None)


def test_behind_a_bounded_base_its_neighbour_answers():
    """48 stands behind 47, which the natural 17 faces: the base between is not asked about it."""
    found = only(occlusion(built((48,)), base(15, 16, abutments=(14, 17))))
    assert [tooth.tooth for tooth in found.opposing] == [46, 45]


def test_a_replaced_third_molar_is_needed_where_one_stands_opposite():
    """Third molars in both arches: 18 on the base is what 48 meets."""
    found = only(occlusion(built((18, 48)), base(16, 17, 18)))
    assert found.end == "distal extension"
    assert found.set_ups[-2].left == (48,)
    found = only(occlusion(built((18,)), base(16, 17, 18)))
    assert found.shortest is not None and found.shortest.teeth == (16, 17)


def test_a_base_that_holds_the_bite():
    """Natural teeth out of contact by 0.6 mm: without the base MI closes, and that is said."""
    low = dict.fromkeys((44, 43, 42, 41, 31, 32, 33, 34, 35, 36, 37), 0.6)
    found = only(occlusion(altered(low), base(15, 16, 17)))
    none, *others, full = found.set_ups
    assert full.closes_mm == 0.0 and full.keeps_support
    assert 0.3 < none.closes_mm < 2.0 and not none.keeps_height
    assert all(item.keeps_height for item in others)
    assert found.shortest is full


def test_nothing_meets_without_the_base():
    """Nothing but the base opposite 46 and 47: the jaw has nothing to close on without it."""
    gone = [code for code in built().lower.codes if code not in (46, 47)]
    gone += [code for code in built().upper.codes if code not in (13, 16, 17)]
    found = only(occlusion(altered(removed=gone), base(16, 17, abutments=(13,))))
    none = found.set_ups[0]
    assert math.isinf(none.closes_mm) and not none.keeps_height
    assert (none.left, none.stops) == ((47, 46), 0)


def test_a_side_without_back_stops_is_not_enough():
    """All right back teeth opposite are held by rests: one stop on that side is asked for still."""
    rests = dict.fromkeys((44, 45, 46, 47), "a rest")
    found = only(occlusion(built(), base(14, 15, 16, 17)), Surroundings(rests))
    assert found.set_ups[0].bare_sides == ("right",) and not found.set_ups[0].keeps_support
    assert found.set_ups[0].left == ()
    assert found.shortest is not None and found.shortest.teeth == (14,)


def test_front_teeth_stay():
    """A base of front teeth alone is not judged; of one with back teeth they are in every row."""
    found = only(occlusion(built(), DentureBase("front", (12, 11, 21), (13, 22))))
    assert (found.end, len(found.set_ups), found.is_told_by_stops) == ("front teeth only", 1, False)
    found = only(occlusion(built(), DentureBase("side", (13, 14), (12, 15))))
    assert [item.teeth for item in found.set_ups] == [(13,), (13, 14)]


def test_replacement_teeth_opposite_do_not_erupt():
    """Then stops do not tell the length; nor do they for a complete denture."""
    bases = base(16, 17, name="up"), base(46, 47, name="low")
    for found in extents(occlusion(built(), *bases)):
        assert found.faces_replacements and not found.is_told_by_stops
    whole = DentureBase("whole", built().upper.codes)
    found = only(occlusion(built(), whole))
    assert found.end == "complete denture" and not found.is_told_by_stops
    sides = [(sum(c < 20 for c in i.teeth), sum(c > 20 for c in i.teeth)) for i in found.set_ups]
    assert sides == [(n, n) for n in range(3, 8)]


def twin(clearances, teeth, joined, holders):
    """Return, for every subset of a base of tips below planes, whether it is enough by hand.

    Openings at which each tip meets its plane, alone, in closed form; the jaw stops at the
    greatest of those that stay, and the others stand as far away as they differ.
    """
    casts = small_mouth.mouth(clearances=clearances)
    pose = place_at(casts.guidance, casts.mi).pose_at_zero
    single = small_mouth.openings(casts, {}, clearances, pose)[0]
    turn = dict(zip(small_mouth.UPPERS, single, strict=True))
    radius = {c: float(np.linalg.norm(small_mouth.middle(c)[[0, 2]])) for c in turn}

    def state(kept):
        stay = [code for code in turn if code not in teeth or code in kept]
        stop = max(turn[code] for code in stay)
        gap = {code: (stop - turn[code]) * radius[code] for code in stay}
        met = {code for code in stay if gap[code] <= 0.002}
        met |= {opponent(code) for code in met}
        near = {opponent(code) for code in stay if gap[code] <= 0.02}
        sides = {code // 10 % 2 for code in stay if gap[code] <= 0.002 and code % 10 > 3}
        return stop, met, near, sides

    whole, had, _, both = state(set(teeth))
    asked = {opponent(code) for code in teeth} | {code for code in had if code > 30}
    asked |= {code for code in had if code < 30 and code not in teeth}

    def free(kept):
        _, met, near, _ = state(kept)
        lost = asked - met - near - {code for code in asked if code < 30 and opponent(code) in near}
        united = {c for u in joined for c in u.teeth if met & set(u.teeth)}
        return lost - united - set(holders)

    def enough(kept):
        stop, _, _, sides = state(kept)
        closes = (whole - stop) * float(np.hypot(84.0, 33.0))
        return closes <= 0.02 and sides == both and free(kept) <= free(set(teeth))

    return casts, enough


@pytest.mark.parametrize("seed", range(80))
def test_the_shortest_against_all_subsets(seed):
    """Of all subsets that are enough, worked out by hand, the shortest that starts at the front."""
    rng = np.random.default_rng(1000 + seed)
    teeth = (15, 16, 17)[int(rng.integers(0, 3)) :]
    lowers = [opponent(code) for code in small_mouth.UPPERS]
    drawn = rng.choice([0.0, 0.0, 0.0, 0.06, 0.4], size=len(lowers))
    clearances = dict(zip(lowers, map(float, drawn), strict=True))
    joined = (Splint("s", (45, 46, 47)[int(rng.integers(0, 2)) :]),) if rng.random() < 0.4 else ()
    holders = {int(rng.choice([45, 46, 47])): "a rest"} if rng.random() < 0.4 else {}
    casts, enough = twin(clearances, teeth, joined, holders)
    found = only(occlusion(casts, base(*teeth, abutments=(13,)), joined=joined),
                 Surroundings(holders))  # fmt: skip
    subsets = [
        set(some)
        for count in range(len(teeth) + 1)
        for some in itertools.combinations(teeth, count)
    ]
    fitting = [some for some in subsets if enough(some)]
    leading = [some for some in fitting if some == set(teeth[: len(some)])]
    assert found.shortest is not None
    assert set(found.shortest.teeth) == min(leading, key=len)
    for item in found.set_ups:
        assert found.is_enough(item) == (set(item.teeth) in fitting), item
