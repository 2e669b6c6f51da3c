"""What every finding about one tooth has: its arch, its place in MI, its rule."""

import numpy as np
import pytest

from kinematics.planning.findings import Figure
from kinematics.planning.tooth_findings import (
    FindingRule,
    rule_for,
    tooth_finding,
    upper_and_lower,
)
from tests import small_mouth

RULES = (
    FindingRule("one thing", "note", "always", "chosen here"),
    FindingRule("another", "serious", "never", "a book"),
)


@pytest.mark.parametrize(
    ("teeth", "wanted"),
    [((16,), (16, None)), ((46,), (None, 46)), ((16, 46), (16, 46)), ((46, 16), (16, 46))],
)
def test_the_upper_stands_first(teeth, wanted):
    """Whichever of both is spoken of."""
    assert upper_and_lower(*teeth) == wanted


def test_a_finding_lies_at_its_tooth_and_has_its_rule():
    """In the hinge frame, the jaw in MI; with an opponent it says which of both it is about."""
    subject = small_mouth.occlusion(small_mouth.mouth())
    casts = subject.casts
    rule = rule_for(RULES, "another")
    upper = tooth_finding(subject, rule, "it is so", tooth=16)
    assert (upper.kind, upper.severity, upper.threshold_source) == ("another", "serious", "a book")
    assert (upper.text, upper.tooth_upper, upper.tooth_lower) == ("It is so.", 16, None)
    np.testing.assert_allclose(upper.place, casts.upper.tooth(16).centre)
    assert upper.about is None
    lower = tooth_finding(subject, rule, "it is so", tooth=46, opponent=16, place=(1.0, 2.0, 3.0))
    assert (lower.tooth_upper, lower.tooth_lower, lower.about) == (16, 46, 46)
    assert lower.place == (1.0, 2.0, 3.0)
    moved = tooth_finding(subject, rule, "it is so", tooth=46).place
    wanted = casts.mi_pose[:3, :3] @ casts.lower.tooth(46).centre + casts.mi_pose[:3, 3]
    np.testing.assert_allclose(moved, wanted)
    nobody = tooth_finding(subject, rule, "it is so", threshold=Figure("least", 1.0, "mm"))
    assert (nobody.tooth_upper, nobody.tooth_lower, nobody.place) == (None, None, None)
