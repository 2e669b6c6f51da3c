"""Which kind of guidance a set of touching pairs is."""

import tomllib
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.contact.mounted import GUIDED_BY_NOTHING, GUIDED_BY_TABLE, GUIDED_BY_TEETH
from kinematics.conventions import LEFT, RIGHT
from kinematics.guidance.excursions import Excursion
from kinematics.planning.guidance_kinds import (
    FEWEST_OF_A_GROUP,
    LATERAL_KINDS,
    PROTRUSIVE_KINDS,
    kind_of,
    lateral_kind,
    protrusive_kind,
    role,
    working_side,
)
from kinematics.tooth_codes import mirror
from tests.made_sweeps import LOWERS, PROTRUSION, RIGHT_LATERAL, UPPERS

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text("utf-8")
)
LEFT_LATERAL = Excursion("left lateral", 90.0, "MI")
LATERAL = {
    "canine": ((13, 43),),
    "canine with incisors": ((13, 43), (12, 42)),
    "canine with posterior teeth (group)": ((13, 43), (14, 44), (15, 45)),
    "partial group": ((13, 43), (14, 44)),
    "single posterior tooth": ((16, 46),),
    "incisors only": ((11, 41), (21, 31)),
    "nonworking only": ((27, 37),),
    "table only": (),
    "none": (),
}


@pytest.mark.parametrize("kind", LATERAL_KINDS)
def test_every_lateral_kind_on_both_sides(kind):
    """Each kind is read from its own pairs, and from their mirror image on the other side."""
    guide = {"table only": GUIDED_BY_TABLE, "none": GUIDED_BY_NOTHING}.get(kind, GUIDED_BY_TEETH)
    touching = LATERAL[kind]
    mirrored = tuple((mirror(upper), mirror(lower)) for upper, lower in touching)
    assert lateral_kind(touching, RIGHT, guide) == kind
    assert lateral_kind(mirrored, LEFT, guide) == kind


@pytest.mark.parametrize(
    ("touching", "kind"),
    [
        (((13, 44),), "canine"),
        (((12, 43),), "incisors only"),
        (((13, 43), (27, 37)), "canine"),
        (((16, 46), (17, 47)), "partial group"),
        (((16, 46), (15, 46)), "single posterior tooth"),
        (((16, 46), (16, 47)), "single posterior tooth"),
        (((16, 46), (12, 42)), "partial group"),
        (((13, 43), (15, 46), (16, 46)), "partial group"),
        (((23, 33),), "nonworking only"),
        (((21, 31), (26, 36)), "incisors only"),
    ],
)
def test_lateral_kinds_where_it_is_close(touching, kind):
    """A tooth that touches two opponents is one tooth; the upper tooth says what guides."""
    assert lateral_kind(touching, RIGHT, GUIDED_BY_TEETH) == kind


def test_a_group_needs_as_many_back_teeth_as_the_term_says():
    """Canine with one back tooth is a partial group, with two a group."""
    assert PUBLISHED["group_function"]["fewest_pairs"] == FEWEST_OF_A_GROUP
    pairs = ((13, 43), (14, 44), (15, 45), (16, 46))
    for count in range(1, 4):
        is_group = lateral_kind(pairs[: count + 1], RIGHT, GUIDED_BY_TEETH).endswith("(group)")
        assert is_group == (count >= FEWEST_OF_A_GROUP)


@pytest.mark.parametrize(
    ("touching", "kind"),
    [
        (((11, 41), (21, 31)), "anterior"),
        (((13, 43), (23, 33)), "anterior"),
        (((11, 41), (12, 42)), "one-sided anterior"),
        (((11, 41), (17, 47)), "anterior with posterior"),
        (((17, 47),), "posterior only"),
        ((), "none"),
    ],
)
def test_every_protrusive_kind(touching, kind):
    """Front teeth on both sides, on one, with back teeth, back teeth alone, nothing."""
    assert protrusive_kind(touching, GUIDED_BY_TEETH) == kind
    assert kind in PROTRUSIVE_KINDS


def test_the_table_alone_carries_a_protrusion():
    """No tooth touches: the table, where it guides."""
    assert protrusive_kind((), GUIDED_BY_TABLE) == "table only"
    assert "table only" in PROTRUSIVE_KINDS


@given(st.sets(st.tuples(st.sampled_from(UPPERS), st.sampled_from(LOWERS)), max_size=8))
def test_every_set_of_contacts_has_a_kind_and_its_mirror_the_same(pairs):
    """No combination falls outside the lists, and sides do not matter."""
    touching = tuple(sorted(pairs))
    mirrored = tuple((mirror(upper), mirror(lower)) for upper, lower in touching)
    for one, other in ((RIGHT_LATERAL, LEFT_LATERAL), (PROTRUSION, PROTRUSION)):
        kind = kind_of(touching, one, GUIDED_BY_TEETH)
        assert kind in (LATERAL_KINDS if one is RIGHT_LATERAL else PROTRUSIVE_KINDS)
        assert kind_of(mirrored, other, GUIDED_BY_TEETH) == kind


def test_the_working_side_is_the_one_the_jaw_moves_to():
    """The sign of the azimuth names it; straight movements have none."""
    assert [working_side(Excursion("x", a, "MI")) for a in (-90, -45, 0, 45, 90)] == [
        RIGHT, RIGHT, 0, LEFT, LEFT,
    ]  # fmt: skip
    assert role((16, 46), RIGHT) == "posterior"
    assert role((26, 36), RIGHT) == "nonworking"
    assert role((26, 36), 0) == "posterior"
