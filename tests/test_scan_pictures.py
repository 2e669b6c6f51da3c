"""Pictures of scanned casts show what was scanned: every triangle once, numbers on their teeth."""

from dataclasses import replace

import numpy as np
import pytest
from scipy.spatial.distance import pdist

from kinematics.mounting import mounted_casts
from kinematics.scans.scanned_casts import read_cast
from scenes.arch_scenes import occlusal_scene
from scenes.builtin_cases import builtin_case
from scenes.moving_casts import moving_casts
from scenes.page_frames import header_of
from scenes.page_welcome import case_answer
from scenes.scan_words import PICTURE_WORDS
from tests.scanned_case import case_of, scans_in_mi

TRIANGLES = 16_000
SIDES = ("upper", "lower")


def frayed(scan, seed):
    """Return a scan whose margins fray: some labels near the gum are missing, as labels are."""
    rng = np.random.default_rng(seed)
    labels = scan.labels.copy()
    for code in np.unique(labels[labels > 0]):
        own = np.flatnonzero(labels == code)
        up = 1.0 if code > 30 else -1.0
        height = up * scan.vertices[own, 2]
        neck = own[height < np.quantile(height, 0.2)]
        labels[rng.choice(neck, len(neck) // 2, replace=False)] = 0
    return replace(scan, labels=labels)


@pytest.fixture(scope="module")
def scanned(tmp_path_factory):
    """Return a case of scans with frayed margins that do not yield, and its casts."""
    upper, lower = (frayed(scan, seed) for seed, scan in enumerate(scans_in_mi(TRIANGLES)))
    case = case_of(tmp_path_factory.mktemp("scans") / "case", upper, lower, allowance_um=0)
    return case, mounted_casts(case)


def sizes_of(vertices, faces):
    """Return areas and girths of triangles, each by size: which they are, wherever they stand."""
    sides = vertices[faces] - vertices[np.roll(faces, 1, axis=1)]
    areas = 0.5 * np.linalg.norm(np.cross(sides[:, 0], sides[:, 1]), axis=1)
    return np.sort(areas), np.sort(np.linalg.norm(sides, axis=2).sum(axis=1))


@pytest.mark.parametrize("side", SIDES)
def test_every_triangle_of_a_cleaned_scan_is_drawn_once(scanned, side):
    """On the page and in the report, however many of its corners are a tooth's."""
    case, casts = scanned
    cast = read_cast(case.scans, side, lambda _: None)
    labels = cast.scan.vertex_scalars["tooth"][cast.scan.faces]
    assert np.count_nonzero(labels.min(axis=1) != labels.max(axis=1)) > 500
    mesh = cast.cleaned.mesh
    wanted = sizes_of(mesh.vertices, mesh.faces)
    for scene in (moving_casts(casts, ()), occlusal_scene(getattr(casts, side), side, ())):
        parts = [part for part in scene.parts if part.cast == side]
        assert {part.role for part in parts} == {f"{side} tooth", "gum"}
        drawn = zip(*(sizes_of(part.vertices, part.faces) for part in parts), strict=True)
        for found, size in zip(drawn, wanted, strict=True):
            np.testing.assert_allclose(np.sort(np.concatenate(found)), size, rtol=0.0, atol=1e-9)


def test_what_may_look_wrong_in_pictures_of_scans_is_said(scanned):
    """Beside the picture on the page, which says nothing of it for built-in teeth."""
    case, _ = scanned
    for of, said in ((case, True), (builtin_case(), False)):
        header = header_of(case_answer(1, "given", of, of))
        assert (PICTURE_WORDS in header["scans"]) == said


@pytest.mark.parametrize("side", SIDES)
def test_numbers_of_scanned_teeth_stand_on_their_crowns(scanned, side):
    """Each nearest to its own crown, just off its surface, none on another; near the neck."""
    _, casts = scanned
    scene = moving_casts(casts, ())
    [teeth] = [part for part in scene.parts if part.role == f"{side} tooth"]
    codes = getattr(casts, side).codes
    labels = [label for label in scene.labels if int(label.text) in codes]
    assert [int(label.text) for label in labels] == list(codes)
    apart = pdist(np.array([label.point for label in labels]))
    assert apart.min() > 3.0
    for label in labels:
        assert label.on_crown
        distances = np.linalg.norm(teeth.vertices - label.point, axis=1)
        assert teeth.tooth[np.argmin(distances)] == int(label.text)
        assert 0.1 < distances.min() < 2.0
        own = teeth.vertices[teeth.tooth == int(label.text), 2]
        share = (label.point[2] - own.min()) / (own.max() - own.min())
        assert 0.5 < (share if side == "upper" else 1.0 - share) < 0.9
