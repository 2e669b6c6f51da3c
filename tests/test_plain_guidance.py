"""What carries the jaw, in plain words: which teeth by groups, and whether others touch."""

import pytest

from kinematics.planning.articulation import Verdict
from kinematics.planning.guidance_stretches import Stretch
from scenes.plain_guidance import plain_guidance
from tests.shipped_cases import shipped


def verdict(excursion, kind, guiding=(), beside=()):
    """Return a verdict of one stretch."""
    part = Stretch(0.6, 3.0, kind, (*guiding, *beside), guiding)
    return Verdict(excursion, kind, True, (), "", (part,))


@pytest.mark.parametrize(
    ("given", "words"),
    [
        (
            verdict("right lateral", "canine", ((13, 43),)),
            "Sliding to the right, the upper right canine 13 carries the jaw;"
            " no other teeth touch.",
        ),
        (
            verdict("left lateral", "partial group", ((23, 33), (25, 35), (25, 36)), ((17, 47),)),
            "Sliding to the left, the upper left canine 23 and the upper left back tooth 25 carry"
            " the jaw; 17/47 touch as well.",
        ),
        (
            verdict("protrusion", "anterior", ((11, 41), (11, 42), (21, 31))),
            "Sliding forward, the upper front teeth 11 and 21 carry the jaw; no other teeth touch.",
        ),
        (
            verdict("lateroprotrusion 45", "table only"),
            "Sliding forward and to the left, the guide table carries the jaw; no tooth touches.",
        ),
        (
            verdict("protrusion", "not judged"),
            "Sliding forward is too short a way to tell what carries the jaw.",
        ),
    ],
)
def test_each_excursion_in_one_sentence(given, words):
    """The teeth that carry by groups, each once; nonworking contacts are never left unsaid."""
    assert plain_guidance(given) == words


def test_what_carries_changes_but_each_tooth_is_told_once():
    """A group that becomes a partial group still names all of it."""
    parts = tuple(
        Stretch(at, at + 1.0, kind, pairs, pairs)
        for at, kind, pairs in (
            (0.6, "canine with posterior teeth (group)", ((13, 43), (14, 44), (16, 46))),
            (1.7, "partial group", ((13, 43), (16, 46))),
        )
    )
    told = plain_guidance(Verdict("right lateral", "partial group", True, (), "", parts))
    assert "the upper right canine 13 and the upper right back teeth 14 and 16 carry" in told


@pytest.mark.parametrize("name", ["natural_dentition", "steep_guidance", "complete_dentures"])
def test_cases_with_nothing_wrong_are_told_whole(name):
    """Every upper tooth that guides or touches beyond MI is named in the words of its excursion."""
    result = shipped(name)
    assert {finding.severity for finding in result.findings} == {"note"}
    for item in result.verdicts:
        words = plain_guidance(item)
        for part in item.stretches:
            assert all(str(upper) in words for upper, _ in part.touching)
