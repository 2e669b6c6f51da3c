"""Tooth numbers of ISO 3950:2016: which exist, where they stand, who faces whom."""

import pytest

from kinematics.checks import InputError
from kinematics.tooth_codes import (
    DECIDUOUS,
    PERMANENT,
    check_code,
    is_posterior,
    is_right,
    is_upper,
    mirror,
    opponent,
    place,
    unknown_code,
)

ALL = PERMANENT + DECIDUOUS

#: ISO 3950: areas of the mouth (whole, arches, quadrants, sextants) share the two digits.
AREAS = (0, 1, 2, 3, 4, 5, 6, 7, 8, 10, 20, 30, 40)


def test_iso_3950_lists_32_permanent_and_20_deciduous_teeth():
    """Quadrants 1 to 4 with places 1 to 8, quadrants 5 to 8 with places 1 to 5, nothing else."""
    accepted = []
    for code in range(-5, 200):
        try:
            accepted.append(check_code(code))
        except InputError:
            continue
    expected = [*range(11, 19), *range(21, 29), *range(31, 39), *range(41, 49)]
    expected += [*range(51, 56), *range(61, 66), *range(71, 76), *range(81, 86)]
    assert accepted == expected
    assert (len(PERMANENT), len(DECIDUOUS)) == (32, 20)


@pytest.mark.parametrize("code", [*AREAS, 19, 91, 56, 86, 99, -11])
def test_what_is_no_tooth_is_refused_with_the_accepted_ranges(code):
    """Area codes and numbers of no tooth are named in the message, with what is accepted."""
    with pytest.raises(InputError, match=rf"^tooth = {code}: not a tooth number.*11-18.*81-85$"):
        check_code(code)


def test_mirror_changes_the_side_and_nothing_else():
    """1x and 2x, 4x and 3x, 5x and 6x, 8x and 7x change places."""
    quadrants = {1: 2, 2: 1, 3: 4, 4: 3, 5: 6, 6: 5, 7: 8, 8: 7}
    for code in ALL:
        assert mirror(code) == 10 * quadrants[code // 10] + code % 10
        assert mirror(mirror(code)) == code
        assert is_right(mirror(code)) != is_right(code)
        assert is_upper(mirror(code)) == is_upper(code)


def test_opponents_stand_on_the_same_side_in_the_other_arch():
    """16 faces 46, and the opponent of the opponent is the tooth itself."""
    assert opponent(16) == 46
    for code in ALL:
        assert opponent(opponent(code)) == code
        assert opponent(code) in ALL
        assert is_upper(opponent(code)) != is_upper(code)
        assert is_right(opponent(code)) == is_right(code)
        assert place(opponent(code)) == place(code)


def test_back_teeth_begin_at_the_first_premolar():
    """14 and the deciduous molar 54 are back teeth, 13 and 53 are not."""
    assert [code for code in range(11, 19) if is_posterior(code)] == [14, 15, 16, 17, 18]
    assert [code for code in range(51, 56) if is_posterior(code)] == [54, 55]


@pytest.mark.parametrize("ask", [is_upper, is_right, place, is_posterior, mirror, opponent])
def test_no_question_is_answered_about_what_is_no_tooth(ask):
    """Every function refuses an area code."""
    with pytest.raises(InputError, match="not a tooth number"):
        ask(10)


@pytest.mark.parametrize("code", [0, 19, 49, 56, 90, -11])
def test_what_is_no_tooth_is_told_with_its_keys(code):
    """As a contradiction of settings: keys, the name in the message, what is accepted."""
    ((keys, message),) = unknown_code(code, "marked", "unmarked", name="clasps[2]")
    assert keys == ("marked", "unmarked")
    assert message.startswith(f"clasps[2] = {code}: not a tooth number of ISO 3950; accepted are")
    assert list(unknown_code(16, "tooth")) == []
