"""Whether the ridge rises below a replacement tooth: planted crests, and what is proposed then."""

import math

import numpy as np
import pytest

from kinematics.planning.extent_findings import extent_findings
from kinematics.planning.extent_ridge import occlusal_normal, rise_deg, slopes_below
from kinematics.planning.extents import Surroundings, extents
from kinematics.planning.joined_teeth import Splint
from tests.made_set_ups import altered, base, built, occlusion

UP = np.array([0.0, 0.0, 1.0])


def crest_below(codes, rise_from, slope_deg, deep_mm=9.0, behind_mm=8.0, step_mm=0.7):
    """Return a crest that is level below teeth and, from behind one of them on, slopes.

    From mesial to distal; `slope_deg` is positive towards the occlusal plane.
    """
    upper = codes[0] < 30
    arch = built().upper if upper else built().lower
    middles = [arch.tooth(code).centre for code in codes]
    start = middles[codes.index(rise_from)][0] + 4.0
    ahead = np.arange(middles[0][0] + 6.0, middles[-1][0] - behind_mm, -step_mm)
    aside = np.full_like(ahead, np.mean([m[1] for m in middles]))
    sign = 1.0 if upper else -1.0
    height = np.mean([m[2] for m in middles]) + sign * deep_mm
    rise = np.maximum(start - ahead, 0.0) * math.tan(math.radians(slope_deg))
    return np.stack([ahead, aside, height - sign * rise], axis=1)


@pytest.mark.parametrize("seed", range(60))
def test_planted_slopes_are_found(seed):
    """A straight crest of any slope, direction and spacing, read in any order of its points."""
    rng = np.random.default_rng(seed)
    slope, turn = float(rng.uniform(-50.0, 50.0)), float(rng.uniform(-0.5, 0.5))
    upper = bool(rng.integers(0, 2))
    run = np.sort(rng.uniform(0.0, 40.0, size=int(rng.integers(3, 40))))
    run = np.concatenate([[0.0], run, [40.0]])
    height = run * math.tan(math.radians(slope)) * (-1.0 if upper else 1.0)
    crest = np.stack([60.0 - run * math.cos(turn), run * math.sin(turn), height], axis=1)
    below = crest[0] + np.array([-20.0, rng.uniform(-3.0, 3.0), -9.0 if upper else 9.0])
    for points in (crest, crest[::-1]):
        assert rise_deg(points, below, UP, upper) == pytest.approx(slope, abs=1e-6)


def test_the_plane_of_the_teeth_counts_not_the_reference_plane():
    """Arch and crest leaned together by any angle: the slope between them stays."""
    teeth, crest = built().lower.teeth, crest_below((46, 47), 47, 25.0)
    for lean_deg in (-12.0, 0.0, 9.0):
        turn = math.radians(lean_deg)
        lean = np.array(
            [[math.cos(turn), 0, math.sin(turn)], [0, 1, 0], [-math.sin(turn), 0, math.cos(turn)]]
        )
        normal = lean @ occlusal_normal(teeth)
        below = lean @ built().lower.tooth(47).centre
        found = rise_deg(crest @ lean.T, below, normal, upper=False)
        level = rise_deg(crest, built().lower.tooth(47).centre, occlusal_normal(teeth), upper=False)
        assert found == pytest.approx(level, abs=1e-6)


def test_too_few_teeth_tell_no_plane():
    """Straight up, then."""
    assert occlusal_normal(built().lower.teeth[:2]).tolist() == [0.0, 0.0, 1.0]


@pytest.mark.parametrize(("slope", "lower", "upper"), [(25.0, True, True), (-25.0, False, True)])
def test_which_slopes_are_too_steep(slope, lower, upper):
    """A lower ridge that rises to the pad; an upper one on either slope of the tuberosity."""
    for codes, wanted in (((46, 47), lower), ((16, 17), upper)):
        arch = built().upper if codes[0] < 30 else built().lower
        teeth = [arch.tooth(code) for code in codes]
        crest = crest_below(codes, codes[-1], slope)
        found = slopes_below(teeth, [crest], occlusal_normal(arch.teeth), 20.0)
        assert [item.ascends for item in found] == [False, wanted]


def test_a_steep_ridge_forbids_the_last_tooth():
    """37 would be needed and stands on the slope: no set-up is enough, and 27 must be held."""
    crest = crest_below((36, 37), 37, 30.0)
    subject = occlusion(built(), base(36, 37))
    (found,) = extents(subject, Surroundings(crests={"base": (crest,)}))
    assert [(item.tooth, item.ascends) for item in found.slopes] == [(36, False), (37, True)]
    assert found.shortest is None
    assert found.best_off_ridge.teeth == (36,)
    (told,) = extent_findings(subject, (found,))
    assert (told.kind, told.severity) == ("replacement tooth on the ascending ridge", "attention")
    assert told.tooth_lower == 37
    assert "rises by" in told.text and "27 would have no stop and nothing to hold it" in told.text


def test_a_tooth_on_the_slope_that_nobody_needs():
    """27 held by a splint: 36 alone is enough, and 37 is told both ways."""
    crest = crest_below((36, 37), 37, 30.0)
    subject = occlusion(built(), base(36, 37), joined=(Splint("upper left", (26, 27)),))
    (found,) = extents(subject, Surroundings(crests={"base": (crest,)}))
    assert found.shortest is not None and found.shortest.teeth == (36,)
    kinds = [item.kind for item in extent_findings(subject, (found,))]
    assert kinds == ["replacement tooth on the ascending ridge", "set-up longer than needed"]


def test_the_limit_can_be_set():
    """At 40 degrees the same slope forbids nothing."""
    crest = crest_below((36, 37), 37, 30.0)
    subject = occlusion(built(), base(36, 37), ascending_ridge_deg=40.0)
    (found,) = extents(subject, Surroundings(crests={"base": (crest,)}))
    assert found.shortest is found.full


def test_a_tooth_bounded_space_has_no_ascending_ridge():
    """38 stands behind: the crest there runs up to its gum, and is not asked about."""
    crest = crest_below((36, 37), 37, 30.0)
    subject = occlusion(built((38,)), base(36, 37, abutments=(35, 38)))
    (found,) = extents(subject, Surroundings(crests={"base": (crest,)}))
    assert found.slopes == () and found.shortest is found.full


def test_a_base_that_needs_no_tooth_on_a_slope():
    """Nothing stands opposite: none is the answer, on whatever ridge."""
    crest = crest_below((36, 37), 36, 30.0)
    subject = occlusion(altered(removed=(26, 27)), base(36, 37))
    (found,) = extents(subject, Surroundings(crests={"base": (crest,)}))
    assert found.shortest is not None and found.shortest.teeth == ()
    assert {tooth.tooth for tooth in found.slopes if tooth.ascends} == {36, 37}
