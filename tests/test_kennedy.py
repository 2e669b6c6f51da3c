"""Kennedy class and modifications: textbook arches, every pattern, and a slow twin."""

import itertools
import re

import numpy as np
import pytest

from kinematics.planning.kennedy import PLACES, Kennedy, kennedy, spaces

SEVENS = [place for place in PLACES if abs(place) < 8]

#: What is missing and replaced, places that bear rests, and the class; places are those of one
#: arch, negative on the right. As the classes are taught.
TEXTBOOK = {
    "both ends free": ((-7, -6, 6, 7), (-5, 5), "Kennedy class I"),
    "both ends free, a lateral incisor lost": (
        (-7, -6, -2, 6, 7), (-5, 5), "Kennedy class I, modification 1",
    ),
    "right end free": ((-7, -6, -5), (-4, 6), "Kennedy class II"),
    "left end free, a space on the right": (
        (-5, -6, 5, 6, 7), (-4, -7, 4), "Kennedy class II, modification 1",
    ),
    "left end free, two more spaces": (
        (-6, 1, 5, 6, 7), (-7, 4), "Kennedy class II, modification 2",
    ),
    "tooth-bounded": ((-6, -5), (-7, -4), "Kennedy class III"),
    "tooth-bounded on both sides": (
        (-6, -5, 5, 6), (-7, -4, 4, 7), "Kennedy class III, modification 1",
    ),
    "one central incisor, which does not cross the midline": ((1,), (-1, 2), "Kennedy class III"),
    "four incisors": ((-2, -1, 1, 2), (-3, 3), "Kennedy class IV"),
    "all front teeth and a premolar": ((-3, -2, -1, 1, 2, 3, 4), (-4, 5), "Kennedy class IV"),
    "incisors and a back space: no class IV, which has no modification": (
        (-1, 1, 5), (-2, 2, 4, 6), "Kennedy class III, modification 1",
    ),
    "incisors and a free end": ((-1, 1, 6, 7), (-2, 2, 5), "Kennedy class II, modification 1"),
    "only 13 is left": (
        tuple(place for place in SEVENS if place != -3), (-3,), "Kennedy class I",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", TEXTBOOK)
def test_textbook_arches(name):
    """Arches as textbooks draw them have the class that is printed below them."""
    lost, used, told = TEXTBOOK[name]
    found = kennedy(set(SEVENS) - set(lost), set(lost), set(used))
    assert found is not None
    assert found.text == told


def _twin(standing, replaced, used):
    """Return the class by reading the arch as a word of teeth (T) and spaces (o)."""
    word, middle = "", 0
    for place in range(-8, 9):
        if place == 0:
            middle = len(word)
            continue
        there = place in standing
        third, second = abs(place) == 8, abs(place) == 7
        if third and there and place not in used and place not in replaced:
            continue  # a third molar that nothing uses
        if (third or second) and not there and place not in replaced:
            continue  # lost, and not to be replaced
        word += "T" if there else "o"
    if "T" not in word or "o" not in word:
        return None
    right, left = word[0] == "o", word[-1] == "o"
    count = len(re.findall("o+", word))
    if right and left:
        return Kennedy("I", count - 2)
    if right or left:
        return Kennedy("II", count - 1)
    if count == 1 and word[middle - 1 : middle + 1] == "oo":
        return Kennedy("IV", 0)
    return Kennedy("III", count - 1)


def test_every_pattern_of_fourteen_teeth():
    """All 16384 arches without third molars, everything lost replaced, or nothing."""
    seen = set()
    for pattern in itertools.product((True, False), repeat=14):
        standing = {place for place, there in zip(SEVENS, pattern, strict=True) if there}
        for replaced in (set(SEVENS) - standing, set()):
            found = kennedy(standing, replaced, standing)
            assert found == _twin(standing, replaced, standing), (standing, replaced)
            seen.add(found and found.kind)
    assert seen == {None, "I", "II", "III", "IV"}


def test_third_molars_and_what_is_not_replaced():
    """Seeded arches with third molars, unused teeth, and spaces of which only some are replaced."""
    dice = np.random.default_rng(29)
    for _ in range(3000):
        standing = {place for place in PLACES if dice.random() < 0.55}
        replaced = {place for place in set(PLACES) - standing if dice.random() < 0.6}
        used = {place for place in standing if dice.random() < 0.5}
        assert kennedy(standing, replaced, used) == _twin(standing, replaced, used)


def test_a_third_molar_counts_only_where_it_is_used():
    """Behind a lost first and second molar 18 bounds the space if it bears a rest, else not."""
    standing = set(SEVENS) - {-7, -6} | {-8}
    bounded = kennedy(standing, {-7, -6}, {-8, -5})
    free = kennedy(standing, {-7, -6}, {-5})
    assert bounded is not None and bounded.kind == "III"
    assert free is not None and free.kind == "II"


def test_a_second_molar_that_is_not_replaced_does_not_count():
    """An arch that only lost its second molars has no space."""
    assert kennedy(set(SEVENS) - {-7, 7}, set(), set()) is None
    one_replaced = kennedy(set(SEVENS) - {-7, 7}, {7}, {6})
    assert one_replaced == Kennedy("II", 0)


def test_spaces_are_told_from_right_to_left():
    """Every space is named by its places."""
    lost = {-6, -5, 1, 6, 7}
    assert spaces(set(SEVENS) - lost, lost, set()) == ((-6, -5), (1,), (6, 7))
