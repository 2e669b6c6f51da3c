"""Mounted scans that do not stand as in a mouth are named; labelled ones find their own frame."""

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.poses import move_points
from kinematics.scans.head_frame import head_from_scan
from kinematics.scans.standing import check_standing
from tests.scanner_like import any_place

CODES = {
    "upper": [*range(11, 18), *range(21, 28)],
    "lower": [*range(31, 38), *range(41, 48)],
}


def standing(side):
    """Return middles of teeth on a parabola, upper ones above lower ones."""
    found = {}
    for code in CODES[side]:
        aside = (code % 10 - 0.5) * 4.0 * (-1.0 if code // 10 in (1, 4) else 1.0)
        height = -29.0 if side == "upper" else -37.0
        found[code] = np.array([85.0 - 0.05 * aside**2, aside, height])
    return found


def through(arch, matrix):
    """Return middles moved by any 3x3 matrix about the middle of the arches."""
    middle = np.array([60.0, 0.0, -33.0])
    return {code: middle + matrix @ (place - middle) for code, place in arch.items()}


def test_casts_as_in_a_mouth_are_accepted():
    """Tilted by up to 30 degrees, as casts may be mounted, they are accepted too."""
    check_standing(standing("upper"), standing("lower"))


@pytest.mark.parametrize(
    ("signs", "says"),
    [
        ((1, -1, -1), "both casts are upside-down: their right and left are exchanged too"),
        ((-1, 1, -1), "both casts are upside-down and face backwards"),
        ((-1, -1, 1), "both casts face backwards"),
        ((1, -1, 1), "both casts are mirror images"),
        ((1, 1, -1), "the upper cast lies below the lower one"),
        ((-1, 1, 1), "front and back are exchanged"),
        ((-1, -1, -1), "the scans are mirror images, and upside-down"),
    ],
)
def test_each_way_of_standing_wrong_has_its_own_words(signs, says):
    """Half turns, mirror images and exchanged casts are told apart."""
    matrix = np.diag(signs).astype(float)
    with pytest.raises(InputError) as caught:
        check_standing(through(standing("upper"), matrix), through(standing("lower"), matrix))
    assert says in str(caught.value)


@pytest.mark.parametrize(("signs", "says"), [((1, -1, 1), "right and left"), ((-1, 1, 1), "front")])
@pytest.mark.parametrize("side", ["upper", "lower"])
def test_one_cast_against_the_other_is_named(signs, says, side):
    """Where only one is wrong, the message says which."""
    arches = {name: standing(name) for name in CODES}
    arches[side] = through(arches[side], np.diag(signs).astype(float))
    with pytest.raises(InputError) as caught:
        check_standing(arches["upper"], arches["lower"])
    assert says in str(caught.value)
    assert f"the {side} teeth stand the wrong way round" in str(caught.value)


def test_labelled_scans_find_their_own_frame_wherever_they_lie():
    """Fifty places of the scans: in the frame found they stand as in a mouth, all alike."""
    still = None
    for seed in range(50):
        moved = [
            {code: move_points(any_place(seed), place[None])[0] for code, place in arch.items()}
            for arch in (standing("upper"), standing("lower"))
        ]
        head = head_from_scan(*moved)
        seen = [
            {code: move_points(head, place[None])[0] for code, place in arch.items()}
            for arch in moved
        ]
        check_standing(*seen)
        places = np.array([*seen[0].values(), *seen[1].values()])
        still = places if still is None else still
        assert np.abs(places - still).max() < 1e-9


def test_casts_without_front_teeth_cannot_tell_how_they_lie():
    """The message says to mount by transform or hinge axis."""
    back = {code: place for code, place in standing("upper").items() if code % 10 > 3}
    with pytest.raises(InputError, match=r"give scans\.mounting by transform or hinge axis"):
        head_from_scan(back, {})
