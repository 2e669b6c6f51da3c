"""Heights: what teeth hold open, from what would touch next or by leaving them out."""

import numpy as np
import pytest

from kinematics.contact.mounted import GUIDED_BY_TEETH, guided_closure
from kinematics.contact.workers import Workers
from kinematics.guidance.settings import GuidanceSettings, IncisalTable
from kinematics.planning.heights import heights_mm
from kinematics.planning.occlusion import without
from tests.replaced_mouth import AHEAD, LEFT, RIGHT
from tests.small_mouth import mouth, occlusion, swept

#: Two back teeth lead to the right, and the one then the other touches next.
FALLS = {16: (0.9, 1.6), 17: (0.85, 1.5)}
TEETH = [{13}, {16}, {17}, {16, 17}, {46}, {47, 43}, {11, 21}]


def by_leaving_out(casts, sweep, teeth):
    """Return the heights from a closure without some teeth in every pose."""
    others = guided_closure(casts, sweep.positions, Workers(), without(frozenset(teeth)))
    closures, codes = sweep.closures, list(teeth)
    theirs = np.isin(closures.tooth_upper, codes) | np.isin(closures.tooth_lower, codes)
    further = (closures.opening_rad - others.opening_rad) * closures.radius_mm
    return np.where(theirs & (sweep.guide == GUIDED_BY_TEETH), further, 0.0)


@pytest.mark.parametrize("table", [None, IncisalTable(sagittal_deg=20.0, wing_right_deg=10.0)])
@pytest.mark.parametrize("excursion", [RIGHT, LEFT, AHEAD])
def test_what_touches_next_tells_what_leaving_teeth_out_does(excursion, table):
    """The same bits as from a closure without the teeth, also where they would touch again."""
    casts = mouth(FALLS, guidance=GuidanceSettings(incisal_table=table))
    sweep, held, again = swept(casts, excursion), 0, 0
    for teeth in TEETH:
        got = heights_mm(occlusion(casts), sweep, frozenset(teeth))
        np.testing.assert_array_equal(got, by_leaving_out(casts, sweep, teeth))
        second = sweep.runner_up
        theirs = np.isin(second.tooth_upper, list(teeth)) | np.isin(second.tooth_lower, list(teeth))
        held, again = held + (got > 0.0).sum(), again + ((got > 0.0) & theirs).sum()
    if excursion == RIGHT and table is None:
        assert 10 < again < held - 10
