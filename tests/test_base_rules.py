"""What the scheme of a base forbids its teeth, and how grave a breach is."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.planning.base_rules import (
    BACK_TEETH_CLEAR,
    BACK_TEETH_SHARE,
    BASE_RULES,
    GRAVE_TURNING_MM,
    SEVERITY_RULE,
    rule_of,
    scheme_in,
    severity_of,
)
from kinematics.planning.contact_runs import judged
from kinematics.planning.replacement import replacement_contacts
from tests.replaced_mouth import AHEAD, LEFT, RIGHT, STEEP, base, only, with_course, with_holding
from tests.small_mouth import mouth, occlusion, swept


@pytest.mark.parametrize(
    ("scheme", "excursion", "falls", "standing"),
    [
        ("contacts only in MI", RIGHT, STEEP, "against its scheme"),
        ("shared on the working side", RIGHT, STEEP, "against its scheme"),
        ("balanced", RIGHT, STEEP, "against its scheme"),
        ("shared on the working side", RIGHT, {}, "allowed by its scheme"),
        ("balanced", RIGHT, {}, "allowed by its scheme"),
        ("contacts only in MI", RIGHT, {}, "against its scheme"),
        ("shared on the working side", LEFT, {}, "against its scheme"),
        ("balanced", LEFT, {}, "allowed by its scheme"),
        ("shared on the working side", AHEAD, {}, "against its scheme"),
        ("balanced", AHEAD, {}, "allowed by its scheme"),
    ],
)
def test_the_scheme_of_the_base_decides(scheme, excursion, falls, standing):
    """The same touch is right in one scheme and wrong in another; holding open is never right."""
    casts = mouth(falls)
    sweep = swept(casts, excursion)
    if not falls:
        sweep = with_course(casts, sweep, 0.01)
    contacts = replacement_contacts(occlusion(casts, bases=(base(scheme),)), (sweep,))
    got = only(contacts, excursion=excursion.name)
    assert got.standing == standing
    assert got.scheme == scheme
    if standing == "allowed by its scheme":
        assert got.severity == "note"


def test_the_existing_guidance_is_read_without_the_replacement_teeth():
    """Natural back teeth that share make sharing right; if they are clear, contact is wrong."""
    as_existing = base("as the existing guidance")
    for falls, wanted in (({}, BACK_TEETH_CLEAR), ({15: (2.0, 2.0)}, BACK_TEETH_SHARE)):
        casts = mouth({**STEEP, **falls})
        sweep = swept(casts, RIGHT, travel_mm=2.0)
        subject = occlusion(casts, bases=(as_existing,))
        within = judged(sweep, subject.settings)
        assert scheme_in(subject, sweep, as_existing, within) == wanted
        assert scheme_in(subject, sweep, base(), within) == "contacts only in MI"
    assert scheme_in(subject, sweep, as_existing, np.zeros(len(within), bool)) == BACK_TEETH_CLEAR


def test_every_scheme_and_place_has_a_row():
    """Five ways to judge a base, three places each, once."""
    schemes = {rule.scheme for rule in BASE_RULES}
    assert schemes == {
        "contacts only in MI",
        "shared on the working side",
        "balanced",
        BACK_TEETH_CLEAR,
        BACK_TEETH_SHARE,
    }
    keys = [(rule.scheme, rule.place) for rule in BASE_RULES]
    assert len(set(keys)) == len(keys) == 15
    assert all(rule_of(*key) in BASE_RULES for key in keys)


@pytest.mark.parametrize(
    ("row", "touches", "against", "guides", "carries", "turning"),
    [
        (0, True, True, True, False, 0.0),
        (1, True, True, False, True, GRAVE_TURNING_MM),
        (2, True, True, False, True, GRAVE_TURNING_MM - 1e-9),
        (2, True, True, False, False, 99.0),
        (3, False, True, False, False, 99.0),
        (4, True, False, True, True, 99.0),
        (4, False, False, False, False, 0.0),
    ],
)
def test_severity_follows_the_printed_rule(row, touches, against, guides, carries, turning):
    """Each row of the rule, at its limits."""
    got = severity_of(touches, against, guides, carries, turning)
    assert got is SEVERITY_RULE[row]
    assert [(r.severity, r.decides) for r in SEVERITY_RULE] == [
        ("serious", "guides"),
        ("serious", "carries"),
        ("attention", "touches"),
        ("attention", "comes near"),
        ("note", "allowed"),
    ]


@pytest.mark.parametrize(
    ("held_mm", "until_mm", "slope_deg", "severity"),
    [
        (0.022, 0.8, 0.0, "attention"),  # 22 micrometres over three poses: it grazes
        (0.022, 1.05, 0.0, "attention"),  # over 0.4 mm
        (0.022, 1.15, 0.0, "serious"),  # over 0.5 mm it guides
        (0.0999, 0.8, 0.0, "attention"),
        (0.101, 0.8, 0.0, "serious"),  # more than teeth and mucosa give way
        (0.005, 3.0, 20.0, "attention"),  # carries the jaw, but the turning is small
        (0.005, 3.0, 40.0, "serious"),  # 5 mm of turning and more
        (0.005, 1.05, 40.0, "attention"),  # the same in passing
        (0.0, 3.0, 40.0, "attention"),  # shares with the canine
    ],
)
def test_what_guides_is_serious_and_what_grazes_is_not(held_mm, until_mm, slope_deg, severity):
    """How far, for how long, and how slanting: against the scheme all are at least attention."""
    casts = mouth()
    sweep = swept(casts, RIGHT)
    held = np.where((sweep.travel_mm > 0.55) & (sweep.travel_mm < until_mm), held_mm, 0.0)
    sweep = with_holding(casts, sweep, 0.01, held)
    slope = np.radians(slope_deg)
    normals = np.tile([np.sin(slope), 0.0, np.cos(slope)], (len(held), 1))
    sweep = replace(sweep, patches=replace(sweep.patches, normal=normals))
    got = only(replacement_contacts(occlusion(casts, bases=(base(),)), (sweep,)))
    turning = np.tan(slope) * got.lever_mm
    assert (turning >= GRAVE_TURNING_MM) == (slope_deg == 40.0)
    assert got.severity == severity


def test_turning_limit_is_what_the_rule_says():
    """A slope of 20 degrees 14 mm behind the abutment makes 5 mm."""
    assert np.tan(np.radians(20.0)) * 14.0 == pytest.approx(GRAVE_TURNING_MM, abs=0.1)
