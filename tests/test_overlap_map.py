"""Where scanned casts stand in each other: depths of every tooth, and the picture of them."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.casts.casts import carried
from kinematics.contact.workers import Workers
from kinematics.geometry.poses import pose_of
from kinematics.scans.bite_overlaps import (
    LEAST_OVERLAP_MM,
    BiteOverlaps,
    CastOverlap,
    cast_overlap,
)
from kinematics.scans.let_in import let_in
from scenes import colours
from scenes.arch_scenes import LOWER, UPPER
from scenes.gap_colours import rgb, shades
from scenes.overlap_scenes import (
    _LIMITS_MM,
    overlap_legend,
    overlap_limit_mm,
    overlap_numbers,
    overlap_scene,
)
from scenes.phrases import length
from scenes.sheet import Line, Words
from tests.scanned_case import arches_in_mi

DEEP_MM = 0.07


@pytest.fixture(scope="module")
def overlapping():
    """Return both arches pushed into each other, their overlaps, and the record of seating."""
    upper, lower = arches_in_mi(16_000)
    raised = carried(lower, pose_of(np.eye(3), np.array([0.0, 0.0, DEEP_MM])))
    _, _, record, overlaps = let_in(upper, raised, np.eye(4), 0.05, Workers())
    both = BiteOverlaps(
        cast_overlap(upper, overlaps.upper_mm), cast_overlap(raised, overlaps.lower_mm)
    )
    return upper, raised, both, record


def test_depths_are_those_of_the_record(overlapping):
    """Tooth by tooth the deepest vertex has the depth that seating tells; all others are 0."""
    upper, lower, both, record = overlapping
    told = {tooth.code: tooth.as_scanned_mm for tooth in record.by_tooth}
    found = {
        place.code: place.depth_mm for side in (both.upper, both.lower) for place in side.deepest
    }
    assert found == {code: depth for code, depth in told.items() if depth >= LEAST_OVERLAP_MM}
    assert both.deepest_mm == record.as_scanned_mm > 0.04
    for arch, own in ((upper, both.upper), (lower, both.lower)):
        every = own.of_all(len(arch.mesh.vertices))
        assert np.count_nonzero(every) == len(own.vertices) < 0.2 * len(every)
        order = [place.depth_mm for place in own.deepest]
        assert order == sorted(order, reverse=True)
        for place in own.deepest:
            assert every[place.vertex] == place.depth_mm
            faces = arch.mesh.faces[arch.tooth_of_face == place.code]
            assert place.vertex in faces


def test_the_deepest_is_darkest_and_marked_with_its_value(overlapping):
    """What does not overlap keeps the colour of its tooth; values stand at rings."""
    upper, lower, both, _ = overlapping
    limit_mm = overlap_limit_mm(both)
    for arch, side, own in ((upper, UPPER, both.upper), (lower, LOWER, both.lower)):
        scene = overlap_scene(arch, side, own, limit_mm)
        (teeth,) = (part for part in scene.parts if part.role == f"{side} tooth")
        depth = own.of_all(len(arch.mesh.vertices))[teeth.vertex_of]
        assert np.allclose(teeth.paint[depth == 0.0], rgb(colours.SURFACE[teeth.role]))
        bright = teeth.paint.mean(axis=1)
        assert bright.argmin() == depth.argmax()
        order = np.argsort(depth)
        assert (np.diff(bright[order]) <= 1e-9).all()  # deeper is never lighter, also in print
        sheet = overlap_numbers(scene, arch, own, 1.2)
        words = [item.text for item in sheet.items if isinstance(item, Words)]
        (rings,) = (
            i for i in sheet.items if isinstance(i, Line) and i.colour == colours.INK and i.mark
        )
        assert 1 <= len(rings.points) <= 5
        for place, ring in zip(own.deepest, rings.points, strict=False):
            assert length(place.depth_mm) in words
            at = scene.view.project(arch.mesh.vertices[place.vertex][None])[0]
            middle = 0.5 * np.array([scene.view.width_mm, scene.view.height_mm])
            assert ring == pytest.approx(1.2 * (at + middle))
        for code in arch.codes:
            assert str(code) in words


@pytest.mark.parametrize("limit_mm", _LIMITS_MM)
def test_the_scale_is_told_exactly_and_with_its_unit(limit_mm):
    """Three numbers in micrometres, whole ones; light at none, dark at the limit."""
    sheet = overlap_legend(limit_mm)
    told = [item.text for item in sheet.items if isinstance(item, Words)]
    numbers = [float(found[1]) for text in told if (found := re.fullmatch(r"(\d+) µm", text))]
    assert numbers == pytest.approx([0.0, 500.0 * limit_mm, 1000.0 * limit_mm], abs=1e-9)
    ends = shades(np.array([1.0, 0.0]), "lower tooth").mean(axis=1)
    assert ends[0] > 0.85 and ends[1] < 0.4


def test_limits_hold_what_there_is():
    """The first that is no less than the deepest; what is deeper than all ends at the last."""
    for deepest_mm, wanted in ((0.013, 0.02), (0.05, 0.06), (0.1, 0.1), (0.3, 0.4), (0.9, 0.6)):
        one = cast_overlap_of(deepest_mm)
        assert overlap_limit_mm(BiteOverlaps(one, replace(one, deepest=()))) == wanted


def cast_overlap_of(depth_mm):
    """Return an overlap of one vertex."""
    arch = arches_in_mi(16_000)[0]
    depths = np.zeros(len(arch.mesh.vertices))
    depths[arch.mesh.faces[0, 0]] = depth_mm
    return cast_overlap(arch, depths)


def test_no_overlap_is_none():
    """Nothing is kept, and nothing is deepest."""
    arch = arches_in_mi(16_000)[0]
    none = cast_overlap(arch, np.full(len(arch.mesh.vertices), 0.5 * LEAST_OVERLAP_MM))
    assert isinstance(none, CastOverlap)
    assert len(none.vertices) == len(none.deepest) == 0
    assert BiteOverlaps(none, none).deepest_mm == 0.0
