"""The occlusal plane of the built-in teeth, its findings, files and words."""

import json
import tomllib
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial import Delaunay

from kinematics.plane_files import PLANE_COLUMNS, plane_entries, plane_rows
from kinematics.planning.plane.arch_curves import spee_curves
from kinematics.planning.plane.arch_plane import arch_plane
from kinematics.planning.plane.curved_surface import CurvedSurface
from kinematics.planning.plane.cut_volume import volume_above_mm3
from kinematics.planning.plane.occlusal_planes import (
    CURVE_BANDS,
    RADIUS,
    SPEE_DEPTH,
    WHY_RADII_DIFFER,
)
from kinematics.planning.plane.plane_findings import ABOVE, BELOW, plane_findings
from kinematics.planning.plane.settings import PlaneSettings
from kinematics.planning.plane.standing_points import StandingTooth
from kinematics.result_files import plain
from scenes.plane_chart import plane_chart
from scenes.plane_words import plane_words
from scenes.sheet import Words
from tests import built_dentition, small_mouth
from tests.made_planes import BACK, made_arch, with_teeth_moved

SETTINGS = PlaneSettings()
PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "teeth.toml").read_text("utf-8"))
LEVEL = CurvedSurface(np.zeros(3), np.array([0.0, 0.0, 1.0]), 0.0, 0.0)
#: How far teeth of unchanged built-in arches stand off the curve of the others: the noise floor, at
#: the usual resolution; with few triangles the lower first premolars stand 0.12 mm short of it.
NOISE_MM = 0.1


def arch_of(code):
    """Return the built-in arch of a tooth as it stands in MI."""
    made = built_dentition.plain()
    return made.upper if code < 30 else made.lower


def planes_with(moves):
    """Return the planes of both built-in arches with teeth moved along their axes."""
    return tuple(
        arch_plane(
            with_teeth_moved(arch, {c: by for c, by in moves.items() if c in arch.codes}),
            (),
            SETTINGS,
        )
        for arch in (arch_of(11), arch_of(31))
    )


def told_of(planes, code):
    """Return what is told of one tooth."""
    return next(tooth for plane in planes for tooth in plane.teeth if tooth.tooth == code)


@pytest.fixture(scope="module")
def unchanged():
    """Return the planes of the built-in arches."""
    return planes_with({})


def test_nothing_stands_out_of_unchanged_arches(unchanged):
    """The noise floor: every back tooth within 0.1 mm of the curve of the others; no finding."""
    for plane in unchanged:
        assert (plane.out_of_sphere, plane.natural) == ((), True)
        heights = [abs(t.along_axis_mm) for t in plane.teeth if t.over_eruption]
        assert len(heights) == 8
        assert max(heights) <= NOISE_MM
    assert plane_findings(small_mouth.occlusion(small_mouth.mouth()), unchanged, SETTINGS) == ()


def test_radii_of_the_built_in_arches_beside_the_published_ones(unchanged):
    """The lower lies within the published 100 to 112 mm, the upper does not; a line says why."""
    upper, lower = (plane.radius_mm for plane in unchanged)
    band = CURVE_BANDS[RADIUS]
    assert [band.low, band.high] == PUBLISHED["cusp_sphere_means"]["radius_mm"]
    assert band.low <= lower <= band.high
    least, most = PUBLISHED["cusp_sphere"]["radius_mm"]
    assert least <= upper < band.low < most
    depths = [curve.depth_mm for curve in unchanged[1].spee]
    shallow, deep = PUBLISHED["curve_of_spee_measured"]["depth_mm"]
    assert all(shallow <= depth <= deep for depth in depths)
    spee = CURVE_BANDS[SPEE_DEPTH]
    assert [spee.low, spee.high] == [shallow, deep]
    words = plane_words(unchanged, SETTINGS, True)
    assert WHY_RADII_DIFFER in words.sources
    assert WHY_RADII_DIFFER not in plane_words(unchanged, SETTINGS, False).sources


def test_what_is_not_judged_for_a_crossbite_says_so():
    """Teeth, curves and pairs: told why, with the teeth; a tooth too far off is told as that."""
    plane = arch_plane(arch_of(16), (), SETTINGS, crossed=(15, 16, 17))
    (words,) = plane_words((plane,), SETTINGS, True).arches
    assert words.lead.startswith("17, 16 and 15 stand in crossbite: beside the row")
    classes = {row[0]: row[2] for row in words.teeth.rows}
    assert {code for code, told in classes.items() if told == "not judged: in crossbite"} <= {
        "15", "16", "17",
    }  # fmt: skip
    told = {row[0]: row[1] for row in words.readings.rows}
    assert told["depth of the curve of Spee, right"] == (
        "not judged: 17, 16 and 15 stand in crossbite"
    )
    assert told["radius of the curve of Wilson, 16 and 26"] == "not judged: 16 stands in crossbite"
    assert "deepest at" in told["depth of the curve of Spee, left"]
    rows = [dict(zip(PLANE_COLUMNS, row, strict=True)) for row in plane_rows((plane,))]
    assert {row["tooth"] for row in rows if row["in_crossbite"] == "yes"} == {"15", "16", "17"}
    far = arch_plane(with_teeth_moved(arch_of(16), {16: 2.0}), (), SETTINGS)
    told = {r[0]: r[1] for r in plane_words((far,), SETTINGS, True).arches[0].readings.rows}
    why = "not judged: 16 stands too far off the occlusal curve"
    assert told["radius of the curve of Wilson, 16 and 26"] == why


@pytest.mark.parametrize("code", BACK)
def test_2_mm_of_over_eruption_read_1_9_to_2_1_mm(code):
    """Any back tooth of the built-in arches moved 2.0 mm along its axis, and not named anywhere."""
    arch = with_teeth_moved(arch_of(code), {code: 2.0})
    plane = arch_plane(arch, (), SETTINGS)
    assert 1.9 <= told_of((plane,), code).along_axis_mm <= 2.1
    assert plane.out_of_sphere == (code,)


def test_findings_name_what_stands_out_and_short():
    """One tooth out by 1.9 mm and one short by 1 mm: two findings, the farther one first."""
    planes = planes_with({16: 1.9, 36: -1.0})
    occlusion = small_mouth.occlusion(small_mouth.mouth())
    above, below = plane_findings(occlusion, planes, SETTINGS)
    assert (above.kind, above.tooth_upper, above.severity) == (ABOVE, 16, "attention")
    assert "16 stands 1.9" in above.text
    assert "slight, but near the limit of 2.00 mm" in above.text
    assert "would have to come off" in above.text
    assert (below.kind, below.tooth_lower) == (BELOW, 36)
    assert "short of the occlusal curve" in below.text
    assert "built up" in below.text
    for finding in (above, below):
        assert "chosen for this program" in finding.threshold_source
        assert "Kiliaridis" in finding.threshold_source
    wide = PlaneSettings(limit_mm=1.5)
    assert [item.kind for item in plane_findings(occlusion, planes, wide)] == [ABOVE]


def test_files_and_words_tell_the_same():
    """Every tip has its row and its entry; the report says what would come off, with a caution."""
    planes = planes_with({46: 1.2})
    rows = list(plane_rows(planes))
    assert {len(row) for row in rows} == {len(PLANE_COLUMNS)}
    tips = sum(len(tooth.tips) for plane in planes for tooth in plane.teeth)
    entries = json.loads(json.dumps(plain(plane_entries(planes)), allow_nan=False))
    assert len(rows) == tips == sum(len(t["tips"]) for e in entries for t in e["teeth"])
    lower = entries[1]
    assert lower["sphere"]["left_out"] == [46]
    tooth = next(item for item in lower["teeth"] if item["tooth"] == 46)
    assert 1.1 < tooth["height_along_axis_mm"] < 1.3
    assert tooth["above_limit_mm3"] > 1.0
    words = plane_words(planes, SETTINGS, True)
    assert words.cuts
    assert "not of this tooth" in words.enamel
    row = next(row for row in words.arches[1].teeth.rows if row[0] == "46")
    assert (row[2], "take off" in row[4], row[5].endswith("mm³")) == ("slight", True, True)
    texts = [item.text for item in plane_chart(planes[1], 0.5).items if isinstance(item, Words)]
    assert any(text.startswith("+1.2") and text.endswith(" mm") for text in texts)


def test_volumes_are_those_of_cones_and_of_brute_force():
    """A cone has a third of its base times its height; a bumpy top agrees with many columns."""
    turns = 2.0 * np.pi * np.arange(720) / 720
    rim = np.stack([2.0 * np.cos(turns), 2.0 * np.sin(turns), np.full(720, -1.0)], axis=1)
    top = np.broadcast_to([0.0, 0.0, 3.0], rim.shape)
    cone = np.stack([rim, np.roll(rim, -1, axis=0), top], axis=1)
    # Above 1 mm stands half of its height of 4 mm.
    assert volume_above_mm3(cone, LEVEL, 1.0, 1.0) == pytest.approx(np.pi * 1.0 * 2.0 / 3, rel=1e-4)
    upside_down = cone[:, ::-1] * [1.0, 1.0, -1.0]
    below = volume_above_mm3(upside_down, LEVEL, 1.0, -1.0)
    assert below == pytest.approx(np.pi * 2.0 / 3, rel=1e-4)
    rng = np.random.default_rng(5)
    flat = rng.uniform(-3.0, 3.0, (150, 2))
    shape = Delaunay(flat).simplices
    bumps = np.column_stack([flat, 0.6 * rng.standard_normal(150)])
    corners = bumps[shape]
    wound = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])[:, 2] < 0.0
    corners[wound] = corners[wound][:, ::-1]
    columns = 0.0
    shares = (np.stack(np.meshgrid(np.arange(60), np.arange(60)), -1).reshape(-1, 2) + 0.33) / 60
    shares = shares[shares.sum(axis=1) < 1.0]
    for a, b, c in corners:
        z = a[2] + shares @ np.array([b[2] - a[2], c[2] - a[2]])
        area = 0.5 * abs(np.linalg.det([b[:2] - a[:2], c[:2] - a[:2]]))
        columns += area * np.maximum(z - 0.2, 0.0).mean()
    found = volume_above_mm3(corners, LEVEL, 0.2, 1.0)
    assert found == pytest.approx(columns, rel=0.02)
    shuffled = corners[rng.permutation(len(corners))]
    assert volume_above_mm3(shuffled, LEVEL, 0.2, 1.0) == found


@pytest.mark.parametrize("which", range(3))
def test_curve_of_spee_of_the_classic_sphere(which):
    """Cusps on 101.6 mm over a chord lie as far below it as published, and give the radius back."""
    sphere = PUBLISHED["sphere"]
    chord, radius = sphere["chord_mm"][which], sphere["radius_mm"]
    teeth = []
    for number, code in enumerate((43, 44, 45, 46, 47)):
        back = 0.25 * number * chord
        height = radius - np.sqrt(radius**2 - (back - 0.5 * chord) ** 2)
        tip = np.array([80.0 - back, -20.0, height])
        axis = np.array([0.0, 0.0, 1.0])
        teeth.append(StandingTooth(code, True, False, axis, {"B": tip}, ("B",), ("B",)))
    (curve,) = spee_curves(teeth, np.array([0.0, 0.0, 1.0]))
    assert curve.depth_mm == pytest.approx(sphere["sagitta_mm"][which], abs=0.001)
    assert curve.radius_mm == pytest.approx(radius, abs=1e-6)
    assert (curve.side, curve.deepest, curve.chord_mm) == ("right", (45, "B"), pytest.approx(chord))


def test_curve_of_wilson_of_the_classic_sphere():
    """Molar cusps on a sphere, seen from the front, lie near a circle of its size."""
    plane = arch_plane(made_arch(), (), SETTINGS)
    assert [pair.teeth for pair in plane.wilson] == [(46, 36), (47, 37)]
    assert [pair.radius_mm for pair in plane.wilson] == pytest.approx([101.6, 101.6], rel=0.03)
