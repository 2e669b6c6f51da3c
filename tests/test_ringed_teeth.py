"""Rings stand where the teeth are in the picture of their arch."""

import numpy as np
import pytest

from scenes.arch_scenes import occlusal_view
from scenes.ringed_teeth import ringed_arch


@pytest.mark.parametrize("side", ["upper", "lower"])
def test_a_ring_holds_its_crown_and_no_other_middle(example, side):
    """All vertices of the tooth lie within the ring's box, no other tooth's middle does."""
    arch = getattr(example, side)
    view = occlusal_view(arch, side)
    for code in arch.codes:
        picture = ringed_arch(arch, side, (code,))
        (ring,) = picture.rings
        assert (picture.width_mm, picture.height_mm) == (view.width_mm, view.height_mm)
        for tooth in arch.teeth:
            right, up = view.project(tooth.centre[None])[0]
            x, y = 0.5 * view.width_mm + right, 0.5 * view.height_mm - up
            inside = abs(x - ring.x_mm) <= ring.wide_mm and abs(y - ring.y_mm) <= ring.high_mm
            assert inside == (tooth.code == code)
        assert ring.x_mm - ring.wide_mm > 0.0 and ring.x_mm + ring.wide_mm < view.width_mm
        assert ring.y_mm - ring.high_mm > 0.0 and ring.y_mm + ring.high_mm < view.height_mm


def test_the_patients_right_is_on_the_left_in_both_arches(example):
    """Upper front teeth at the top, lower ones at the bottom."""
    upper = {ring.code: ring for ring in ringed_arch(example.upper, "upper", (16, 26, 11)).rings}
    lower = {ring.code: ring for ring in ringed_arch(example.lower, "lower", (46, 36, 41)).rings}
    assert upper[16].x_mm < upper[11].x_mm < upper[26].x_mm
    assert lower[46].x_mm < lower[41].x_mm < lower[36].x_mm
    assert upper[11].y_mm < upper[16].y_mm and lower[41].y_mm > lower[46].y_mm


def test_teeth_of_the_other_arch_are_left_out(example):
    """An arch with none of the teeth has no picture; numbers are taken in the order of the arch."""
    assert ringed_arch(example.upper, "upper", (46, 36)) is None
    rings = ringed_arch(example.upper, "upper", (26, 46, 16)).rings
    assert [ring.code for ring in rings] == [16, 26]
    assert np.isfinite([rings[0].x_mm, rings[0].wide_mm]).all()
