"""Back teeth in crossbite: where they stand, which cusps support, what the report says of it."""

import tomllib
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from pydantic import ValidationError

from kinematics.teeth.dentition import build
from kinematics.teeth.dentition_settings import DentitionSettings
from scenes.builtin_cases import builtin_case
from scenes.case_words import case_words
from scenes.report import html_report
from tests.built_dentition import STOP_UM, first_gaps_um, gap_mm
from tests.shipped_cases import kind_in, shipped, shipped_in_full, with_teeth

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text(encoding="utf-8")
)["reverse_articulation"]
NAME = "posterior_crossbite"


def vertices(arch, code):
    """Return the vertices of a tooth (n, 3), mm."""
    return arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])]


def outside_mm(dentition, upper, lower):
    """Return how much farther out the lower buccal cusps stand than the upper ones, mm."""
    above, below = dentition.upper.tooth(upper).edge, dentition.lower.tooth(lower).edge
    return float(np.abs(below[:, 1]).mean() - np.abs(above[:, 1]).mean())


@pytest.mark.parametrize(
    "crossed",
    [(25, 26, 27), (15, 16, 17, 25, 26, 27), (16, 17), (26,), (17, 27), (15,)],
)
@pytest.mark.parametrize("changes", [{}, {"overbite_mm": 3.0}, {"size_scale": 0.92}])
def test_supporting_cusps_swap_where_teeth_stand_in_crossbite(crossed, changes):
    """By geometry and by the names of the cusps that rest; all other pairs stay as they were."""
    dentition = build(DentitionSettings(triangles_per_arch=12_000, crossbite=crossed, **changes))
    for upper in (14, 15, 16, 17, 24, 25, 26, 27):
        lower = upper + 30 if upper < 20 else upper + 10
        far = outside_mm(dentition, upper, lower)
        assert far > 1.5 if upper in crossed else far < -1.5, (upper, far)
        above, below = dentition.upper.tooth(upper), dentition.lower.tooth(lower)
        swapped = set(above.supporting) <= set(PUBLISHED["upper_supporting"])
        assert swapped == (upper in crossed)
        assert (set(below.supporting) <= set(PUBLISHED["lower_supporting"])) == swapped
        stops = [s for s in dentition.stops if (s.upper_tooth, s.lower_tooth) == (upper, lower)]
        assert stops, upper
        for stop in stops:
            tooth = above if int(stop.cusp[:2]) == upper else below
            assert stop.cusp[3:] in tooth.supporting
    pairs = sorted({(stop.upper_tooth, stop.lower_tooth) for stop in dentition.stops})
    gaps = first_gaps_um(dentition, pairs)
    assert max(gaps.values()) <= STOP_UM and min(gaps.values()) >= -0.5


def test_the_other_side_and_the_front_stay():
    """The right side to the last bit, what stands in front to micrometres; neighbours touch."""
    plain = build(DentitionSettings(triangles_per_arch=12_000))
    left = build(DentitionSettings(triangles_per_arch=12_000, crossbite=(25, 26, 27)))
    for arch in ("upper", "lower"):
        before, after = getattr(plain, arch), getattr(left, arch)
        for code in before.codes:
            moved_mm = np.abs(vertices(before, code) - vertices(after, code)).max()
            if code // 10 in (1, 4):
                assert moved_mm == 0.0, code
            elif code % 10 < 5:
                assert moved_mm < 0.005, code
            else:
                assert moved_mm > 2.0, code
        for code, neighbour in pairwise(after.codes):
            gap = min(gap_mm(after, code, neighbour), gap_mm(after, neighbour, code))
            # Teeth that rise to meet their opponents leave their neighbours a little.
            assert -0.1 <= gap <= 0.2, (code, neighbour, gap)


def test_the_case_names_the_teeth_in_crossbite():
    """A note with the least overlap; the right side is not named, and canine guidance stays."""
    result = shipped(NAME)
    (found,) = (finding for finding in result.findings if finding.kind == "crossbite")
    assert found.severity == "note"
    assert (
        "25, 26 and 27 stand in crossbite (reverse articulation) with 35, 36 and 37" in found.text
    )
    assert found.figures[0].value > 1.5
    assert kind_in(result, "left lateral") == kind_in(result, "right lateral") == "canine"


def test_the_first_page_says_so():
    """Among what touches on biting, before the findings."""
    page = html_report(shipped_in_full(NAME), case_words(builtin_case(NAME)))
    first = page[: page.index('id="findings"')]
    assert "stand in crossbite (reverse articulation)" in first


def test_lower_edges_that_are_past_do_not_end_an_excursion():
    """Edge-to-edge is judged by the canine, not by back teeth that stand outside already."""
    for sweep in shipped(NAME).sweeps:
        assert sweep.edge_to_edge_mm is None or sweep.edge_to_edge_mm > 1.0


def test_teeth_back_in_place_are_not_named():
    """Without the crossbite the note goes, and with only one tooth it names that one."""
    assert not [f for f in with_teeth(NAME, crossbite=()).findings if f.kind == "crossbite"]
    (found,) = (f for f in with_teeth(NAME, crossbite=(26,)).findings if f.kind == "crossbite")
    assert found.text.startswith("In MI 26 stands in crossbite (reverse articulation) with 36")


@pytest.mark.parametrize("code", [14, 13, 36, 99])
def test_teeth_that_cannot_stand_in_crossbite_are_refused(code):
    """Lower teeth, front teeth and first premolars, by number."""
    with pytest.raises(ValidationError, match=f"{code}: teeth in crossbite may be any of 15, 16"):
        DentitionSettings(crossbite=(code,))
