"""Teeth formed by a functionally generated path touch along it, and nothing stands in the way."""

from dataclasses import replace

import numpy as np
import pytest
from pydantic import ValidationError

from kinematics.contact.closure import close
from kinematics.contact.pair import LeaveOut
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import along, left_lateral, protrusion, right_lateral
from kinematics.guidance.guide_table import prepare_table
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import opened, place
from kinematics.guidance.settings import IncisalTable
from kinematics.mounting import mounted_casts
from kinematics.teeth.generated_path import formed
from kinematics.teeth.generated_path_settings import GeneratedPath
from scenes.builtin_cases import builtin_case

#: The finest that the tests afford; coarser triangles reach from a stop into what is cut.
TRIANGLES = 40_000
#: Condylar advances that the forming itself did not look at, mm.
ADVANCES = np.array([0.0, 0.33, 0.67, 1.23, 1.71, 2.26])


def _coarse(name):
    case = builtin_case(name)
    return replace(case, dentition=replace(case.dentition, triangles_per_arch=TRIANGLES))


def _before_and_after(name):
    case = _coarse(name)
    return (
        mounted_casts(replace(case, generated_path=None)),
        mounted_casts(case),
        case.generated_path,
    )


@pytest.fixture(scope="module")
def group():
    """Canines, premolars and first molars formed for group function."""
    return _before_and_after("group_function")


@pytest.fixture(scope="module")
def balanced():
    """All upper teeth formed for bilateral balance."""
    return _before_and_after("complete_dentures")


def _on_table(casts, given, excursion):
    """Return poses (n, 4, 4) of the lower on the table of a generated path."""
    guidance = replace(casts.guidance, table=prepare_table(given.table))
    start = replace(casts.mi, opening_rad=0.0)
    positions = place(guidance, *along(guidance, excursion, start, ADVANCES))
    tip, in_mi = casts.incisal_point, casts.incisal_point_in_mi
    return opened(positions, table_opening(guidance, positions, tip, in_mi))


def _gap_mm(casts, poses, codes):
    """Return the arc gap (n,) of the nearest of some upper teeth, mm; negative: overlap."""
    others = frozenset(casts.upper.codes) - frozenset(codes)
    met = close(casts.pair, poses, LeaveOut(upper=others))
    return -met.opening_rad * met.radius_mm


@pytest.mark.parametrize(
    ("excursion", "shared"),
    [(left_lateral(), (23, 25, 26)), (right_lateral(), (13, 15, 16))],
)
def test_teeth_of_a_group_touch_together_along_the_path(group, excursion, shared):
    """Canine, second premolar and first molar stay within a 40 micrometre foil from 0.3 mm on."""
    _, casts, given = group
    for code in shared:
        gap = _gap_mm(casts, _on_table(casts, given, excursion), [code])
        assert (gap[1:-1] < 0.04).all(), (code, gap)


@pytest.mark.parametrize("case", ["group", "balanced"])
def test_nothing_stands_in_the_way_of_the_path(case, request):
    """No pose on the path, between the poses looked at too, overlaps by 10 micrometres."""
    _, casts, given = request.getfixturevalue(case)
    movements = [left_lateral(), right_lateral()]
    movements += [protrusion()] if "protrusion" in given.contacts else []
    for excursion in movements:
        gap = _gap_mm(casts, _on_table(casts, given, excursion), casts.upper.codes)
        assert gap.min() > -0.01


def test_the_nonworking_side_of_a_group_is_clear(group):
    """Back teeth of the nonworking side stay away by most of the clearance from 1 mm on."""
    _, casts, given = group
    right = [code for code in casts.upper.codes if 14 <= code <= 17]
    gap = _gap_mm(casts, _on_table(casts, given, left_lateral()), right)
    assert (gap[3:] > 0.08).all()


def test_in_balance_both_sides_and_the_front_touch(balanced):
    """Working and nonworking molars, and front and back teeth in protrusion, within 0.1 mm.

    0.1 mm is what mucosa takes up (tolerance of balance, common practice).
    """
    _, casts, given = balanced
    lateral = _on_table(casts, given, left_lateral())
    forward = _on_table(casts, given, protrusion())
    for poses, codes in (
        (lateral, (26, 27)),
        (lateral, (16, 17)),
        (forward, (16, 17)),
        (forward, (26, 27)),
        (forward[1:], (11, 12, 21, 22)),
    ):
        assert (_gap_mm(casts, poses, codes) < 0.1).all(), codes


@pytest.mark.parametrize("case", ["group", "balanced"])
def test_forming_keeps_the_lower_teeth_and_the_bite(case, request):
    """The lower arch keeps its bits, MI its opening, and additions their limit."""
    before, after, given = request.getfixturevalue(case)
    np.testing.assert_array_equal(before.lower.mesh.vertices, after.lower.mesh.vertices)
    assert after.mi.opening_rad == pytest.approx(before.mi.opening_rad, abs=0.001 / 40.0)
    code = np.zeros(len(before.upper.mesh.vertices), dtype=int)
    code[before.upper.mesh.faces.ravel()] = np.repeat(before.upper.tooth_of_face, 3)
    moved = after.upper.mesh.vertices - before.upper.mesh.vertices
    added = -moved[:, 2]
    assert added.max() <= given.build_up_mm
    assert added[~np.isin(code, given.teeth)].max(initial=0.0) <= 0.0
    assert added.max() > 0.1
    assert added.min() < -0.1


def test_the_same_bits_for_any_number_of_threads():
    """One thread and three form the same teeth."""
    case = _coarse("group_function")
    casts = mounted_casts(replace(case, generated_path=None))
    once, again = (formed(casts, case.generated_path, Workers(n)) for n in (1, 3))
    np.testing.assert_array_equal(once.upper.mesh.vertices, again.upper.mesh.vertices)


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ({"teeth": (36,)}, "36: teeth formed by the path may be any of 11, 12"),
        ({"teeth": (13, 13)}, "13 stands 2 times in teeth"),
        ({"teeth": ()}, "teeth names none"),
        ({"teeth": (13,), "reach_mm": 9.0}, "less than or equal to 5"),
    ],
)
def test_what_cannot_be_formed_is_refused(given, said):
    """Lower, repeated or no teeth, and limits out of range."""
    with pytest.raises(ValidationError, match=said):
        GeneratedPath(table=IncisalTable(), **given)


def test_a_tooth_that_is_not_there_cannot_be_formed():
    """The case says which tooth is missing."""
    case = builtin_case("group_function")
    with pytest.raises(ValidationError, match=r"generated_path: the dentition has no tooth 14"):
        replace(case, dentition=replace(case.dentition, missing=(14,)))


def test_spared_teeth_stay_as_they_are():
    """To the last bit, whatever stands in the way; the others are formed."""
    before, after, _ = _before_and_after("centric_slide")
    faces, code = before.upper.mesh.faces, before.upper.tooth_of_face
    moved = np.abs(after.upper.mesh.vertices - before.upper.mesh.vertices).max(axis=1)
    assert moved[faces[code == 24]].max() == 0.0
    assert moved[faces[code == 26]].max() > 0.05


@pytest.mark.parametrize(
    ("given", "message"),
    [
        ({"teeth": (13, 14), "spared": (14,)}, "14 is both in teeth and in spared"),
        ({"teeth": (13,), "spared": (34,)}, "34: teeth left as they are may be any of 11, 12"),
        ({"teeth": (13,), "spared": (15, 15)}, "15 stands 2 times in spared"),
    ],
)
def test_teeth_cannot_be_formed_and_spared(given, message):
    """Each tooth is one or the other, and an upper one."""
    with pytest.raises(ValidationError, match=message):
        GeneratedPath(**given)
