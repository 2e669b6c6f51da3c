"""Splints and bridges: what holds a tooth without a stop, and what is refused."""

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import ValidationError

from kinematics.case import Case
from kinematics.planning.joined_teeth import Bridge, Splint, holder_of
from kinematics.planning.judging import DentureBase
from kinematics.teeth.dentition_settings import DentitionSettings
from tests.shipped_cases import run_case

#: Worn so far that the left second molars meet nothing.
WORN = {"27 ML": 0.8, "27 DL": 0.8, "37 MB": 0.8, "37 DB": 0.8}
UPPER = (11, 12, 13, 14, 15, 16, 17, 21, 22, 23, 24, 25, 26, 27)


def checked(**joined):
    """Run a case with worn left second molars and something joined."""
    dentition = DentitionSettings(triangles_per_arch=12_000, wear_cusps_mm=WORN)
    return run_case(Case(dentition=dentition, **joined))


def unstopped(result):
    """Return what is said of teeth without a stop that are not within the tolerance."""
    found = [f for f in result.findings if f.kind == "no centric stop"]
    return [f for f in found if "within the contact tolerance" not in f.text]


def test_without_a_splint_both_teeth_are_free():
    """As they stand alone."""
    (found,) = unstopped(checked())
    assert found.severity == "attention"
    assert "27 and 37 are free to over-erupt unless held" in found.text


def test_a_splint_holds_its_tooth_and_leaves_the_other_free():
    """The tooth that is joined to one with a stop is named with it; the other stays free."""
    (found,) = unstopped(checked(splints=(Splint("upper molars", (26, 27)),)))
    assert found.severity == "attention"
    assert "the splint 'upper molars' holds 27 with 26, which has a stop" in found.text
    assert "37 is free to over-erupt" in found.text


def test_teeth_that_are_all_held_are_a_note():
    """Nothing is left to look at where both are joined to teeth with stops."""
    both = (Splint("upper molars", (25, 26, 27)), Splint("lower molars", (36, 37)))
    (found,) = unstopped(checked(splints=both))
    assert found.severity == "note"
    assert "holds 27 with 25 and 26, which have stops" in found.text
    assert "free to over-erupt" not in found.text


def test_a_pontic_is_set_up_and_judged_as_a_tooth():
    """It has stops against what opposes it; no rule of denture bases speaks of it."""
    bridge = Bridge("upper right bridge", pontics=(16,), abutments=(15, 17))
    result = checked(bridges=(bridge,))
    assert {stop.tooth_lower for stop in result.stops if stop.tooth_upper == 16} == {46}
    assert not result.replacement
    assert not [f for f in result.findings if f.kind.startswith("replacement")]


def test_a_bridge_holds_an_abutment_without_a_stop():
    """By its other teeth."""
    bridge = Bridge("left bridge", pontics=(26,), abutments=(25, 27))
    (found,) = unstopped(checked(bridges=(bridge,)))
    assert "the bridge 'left bridge' holds 27 with" in found.text


@given(
    st.lists(st.lists(st.sampled_from(UPPER), min_size=2, max_size=5, unique=True), max_size=4),
    st.frozensets(st.sampled_from(UPPER)),
    st.sampled_from(UPPER),
)
def test_a_tooth_is_held_exactly_where_a_joined_tooth_has_a_stop(units, with_stop, code):
    """By enumeration; the teeth named are those of the unit that have one."""
    joined = tuple(Splint(f"{n}", tuple(teeth)) for n, teeth in enumerate(units))
    held = holder_of(code, joined, with_stop - {code})
    holding = [set(teeth) & (with_stop - {code}) for teeth in units if code in teeth]
    assert (held is not None) == any(holding)
    if held is not None:
        unit, others = held
        assert code in unit.joined and set(others) == set(unit.joined) & (with_stop - {code})


@pytest.mark.parametrize(
    ("joined", "message"),
    [
        ({"splints": [("s", (16, 46))]}, "stand in both arches; name teeth of one"),
        ({"splints": [("s", (16, 16))]}, "a tooth is named twice"),
        ({"splints": [("s", (16, 19))]}, "tooth of splint 's'"),
        ({"splints": [("s", (17, 18))]}, "the dentition has no tooth 18"),
        ({"splints": [("s", (16, 17)), ("s", (26, 27))]}, "stands 2 times"),
        ({"bridges": [("b", (16,), (15, 18))]}, "the dentition has no tooth 18"),
        ({"bridges": [("b", (16,), (15,)), ("c", (16,), (17,))]}, "16 is a pontic twice"),
        ({"bridges": [("b", (16,), (15,)), ("c", (17,), (16,))]}, "both abutment and pontic"),
        ({"bridges": [("b", (46,), (45,))]}, "46 is a pontic and cannot be in"),
        ({"splints": [("s", (36, 37))]}, "36 stands on a denture base"),
    ],
)
def test_what_cannot_be_joined_is_refused(joined, message):
    """With the tooth and what is accepted."""
    with pytest.raises(ValidationError, match=message):
        Case(
            dentition=DentitionSettings(over_erupted_mm={46: 0.5}),
            denture_bases=(DentureBase("base", (36,), (35,)),),
            splints=tuple(Splint(*splint) for splint in joined.get("splints", ())),
            bridges=tuple(Bridge(*bridge) for bridge in joined.get("bridges", ())),
        )


def test_replacements_may_name_pontics_too():
    """Bases and bridges together are what the dentition sets up."""
    bridge = Bridge("b", (16,), (15, 17))
    case = Case(bridges=(bridge,))
    assert case.dentition_with_replacements().replacements == (16,)
    with pytest.raises(ValidationError, match="denture bases and bridges carry"):
        replace(case, dentition=DentitionSettings(replacements=(17,)))
