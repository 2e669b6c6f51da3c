"""Why a grid does not go the way of a published rule, in words."""

import pytest

from kinematics.planning.guidance_kinds import ANTERIOR, INCISORS_ONLY
from kinematics.studies.quantities import GUIDES, MOLAR_GAPS
from kinematics.varying.determinants import determinants_on
from kinematics.varying.grid import Axis, Grid
from kinematics.varying.told import Feature
from kinematics.varying.variation import Variation
from scenes.determinant_words import determinant_words

GAP = f"{MOLAR_GAPS}: protrusion at 3 mm, right, mm"
GUIDE = f"{GUIDES}: protrusion at 3 mm"
SETTING = "guidance.condylar_inclination_deg"
POSTERIOR = "anterior with posterior"


def verdict(gaps, guides):
    """Return what is said beside the rule that gaps grow with the condylar inclination."""
    grid = Grid((Axis(SETTING, (SETTING,), 20.0, 20.0 + 10.0 * (len(gaps) - 1), len(gaps), None),))
    rows = [{GAP: gap, GUIDE: guide} for gap, guide in zip(gaps, guides, strict=True)]
    runs = dict(zip(grid.points, rows, strict=True))
    told = {place: {Feature("text", GUIDE): row[GUIDE]} for place, row in runs.items()}
    found = Variation(grid, {GAP: "float", GUIDE: "text"}, runs, told, {}, ())
    (item,) = determinants_on(found)
    (row,) = determinant_words(found, item).table.rows
    return row[-1]


@pytest.mark.parametrize(
    ("gaps", "guides", "words"),
    [
        ([1, 2, 3, 4], [ANTERIOR] * 4, "agrees"),
        ([2, 2, 2, 2], [ANTERIOR] * 4, "no change here"),
        ([4, 3, 2, 1], [ANTERIOR] * 4, "does not agree: falls from 20° to 50°"),
        ([1, 2, 1, 2], [ANTERIOR] * 4, "does not agree: falls from 30° to 40°"),
        (
            [1, 2, 1, 2],
            [ANTERIOR, ANTERIOR, INCISORS_ONLY, INCISORS_ONLY],
            "does not agree: falls from 30° to 40°, where other front teeth take over",
        ),
        (
            [2, 1, 2, 1],
            [ANTERIOR] * 4,
            "does not agree: falls from 20° to 30° and from 40° to 50°",
        ),
        (
            [1, 2, 3, 1],
            [ANTERIOR, ANTERIOR, ANTERIOR, POSTERIOR],
            "agrees; told from 20° to 40° alone, where front teeth guide by themselves",
        ),
    ],
)
def test_a_verdict_says_where_and_why(gaps, guides, words):
    """Over which values it goes the other way, and whether the guide changes there."""
    assert verdict([float(gap) for gap in gaps], guides) == words
