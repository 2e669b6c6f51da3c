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
    _LIMITS_UM,
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


@pytest.mark.parametrize("limit_um", _LIMITS_UM)
def test_the_scale_is_told_exactly_and_with_its_unit(limit_um):
    """Three numbers in micrometres, not rounded; light at none, dark at the limit."""
    sheet = overlap_legend(1e-3 * limit_um)
    told = [item.text for item in sheet.items if isinstance(item, Words)]
    ends = [found for text in told if (found := re.fullmatch(r"([\d.]+) µm( or more)?", text))]
    assert [float(found[1]) for found in ends] == [0.0, 0.5 * limit_um, limit_um]
    assert [bool(found[2]) for found in ends] == [False, False, limit_um == _LIMITS_UM[-1]]
    light, dark = shades(np.array([1.0, 0.0]), "lower tooth").mean(axis=1)
    assert light > 0.85 and dark < 0.4


@pytest.mark.parametrize("deepest_um", [2.5, 9.0, 10.0, 10.1, 21.0, 24.0, 36.0, 51.0, 250.0, 999.0])
def test_the_deepest_place_uses_half_of_the_colours_at_least(deepest_um):
    """However little the casts overlap, and never more than all of them."""
    one = cast_overlap_of(1e-3 * deepest_um)
    limit_mm = overlap_limit_mm(BiteOverlaps(replace(one, deepest=()), one))
    assert 0.5 <= 1e-3 * deepest_um / limit_mm <= 1.0 + 1e-12


def test_what_is_deeper_than_all_scales_ends_at_the_last():
    """Which says so."""
    one = cast_overlap_of(1.9)
    assert overlap_limit_mm(BiteOverlaps(one, replace(one, deepest=()))) == 1.0


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
