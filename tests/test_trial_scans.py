"""Trial set-ups of scanned casts: open, noisy crowns changed as built-in ones are."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.casts.crown_directions import crown_of
from kinematics.checks import InputError
from kinematics.geometry.poses import move_points
from kinematics.mounting import changed, remounted, teeth_for
from kinematics.trial.settings import Change
from tests.made_trials import arch_of, made, others_alone, triangles
from tests.scanned_case import case_of, scans_in_mi
from tests.shipped_cases import run_case

#: Edges of about 0.5 mm.
COARSE = 20_000


@pytest.fixture(scope="module")
def scans(tmp_path_factory):
    """Return a case of noisy scans, and its teeth."""
    case = case_of(tmp_path_factory.mktemp("trial") / "case", *scans_in_mi(COARSE, 8.0), 60)
    return case, teeth_for(case, lambda _: None)


def after(scans, *changes):
    """Return the teeth after changes."""
    case, teeth = scans
    return changed(teeth, replace(case, change=made(changes)))


def rims_of(teeth, code):
    """Return how many open edges a crown has."""
    arch = arch_of(teeth, code)
    corners = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]]
    places, number = np.unique(corners.reshape(-1, 3), axis=0, return_inverse=True)
    faces = number.reshape(-1, 3)
    edges = np.sort(np.concatenate([faces[:, [0, 1]], faces[:, [1, 2]], faces[:, [2, 0]]]), axis=1)
    counts = np.unique(edges, axis=0, return_counts=True)[1]
    assert counts.max() <= 2 and len(places)
    return int((counts == 1).sum())


@pytest.mark.parametrize("code", [16, 24, 31, 46])
def test_scanned_teeth_move_and_are_cut(scans, code):
    """Moved as asked; cut to a plane with no other open edge than before, and none turned over."""
    _, teeth = scans
    crown = crown_of(arch_of(teeth, code), code)
    lower = after(scans, ("lower", code, {"by_mm": 0.7}))
    moved = triangles(lower, code) - triangles(teeth, code)
    assert np.abs(moved + 0.7 * crown.up).max() < 1e-12
    assert others_alone(teeth, lower, [code])
    for by in np.random.default_rng(code).uniform(0.1, 1.0, 8):
        cut = after(scans, ("flatten", code, {"by_mm": float(by)}))
        heights = triangles(cut, code) @ crown.up
        top = (triangles(teeth, code) @ crown.up).max() - by
        assert heights.max() <= top + 1e-9
        assert rims_of(cut, code) == rims_of(teeth, code)
        corners = triangles(cut, code)[(heights > top - 1e-9).all(axis=1)]
        normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
        assert len(corners) and (normals @ crown.up > 0.0).all()


def test_what_was_scanned_follows_the_numbers_of_the_arch(scans):
    """Unchanged teeth stay as scanned to the bit, changed ones stand free, overlapping none."""
    _, teeth = scans
    now = after(
        scans,
        ("flatten", 46, {"by_mm": 0.5}),
        ("remove", 36, {}),
        ("tilt", 16, {"mesial_deg": 5.0}),
    )
    sides = (("upper", np.eye(4), (16,)), ("lower", teeth.pose, (46, 36)))
    for side, pose, codes in sides:
        arch, surface = getattr(now, side), getattr(now.surfaces, side)
        old_arch, old = getattr(teeth, side), getattr(teeth.surfaces, side)
        assert len(surface.mesh.vertices) == len(arch.mesh.vertices) == len(surface.overlap_mm)
        assert np.array_equal(surface.mesh.faces, arch.mesh.faces)
        own = ~np.isin(arch.tooth_of_face, codes)
        was = ~np.isin(old_arch.tooth_of_face, codes)
        assert np.array_equal(surface.mesh.corners[own], old.mesh.corners[was])
        assert np.array_equal(
            surface.overlap_mm[arch.mesh.faces[own]], old.overlap_mm[old_arch.mesh.faces[was]]
        )
        theirs = np.unique(arch.mesh.faces[~own])
        standing = move_points(pose, arch.mesh.vertices)
        assert np.array_equal(surface.mesh.vertices[theirs], standing[theirs])
        assert not surface.overlap_mm[theirs].any()
        edges = np.sort(arch.mesh.faces[:, [[0, 1], [1, 2], [2, 0]]].reshape(-1, 2), axis=1)
        every, counts = np.unique(edges, axis=0, return_counts=True)
        open_ones = {tuple(edge) for edge in every[counts == 1].tolist()}
        assert {tuple(sorted(edge)) for edge in surface.rims.ends.tolist()} <= open_ones


def test_a_whole_run_of_changed_scans(scans):
    """Doubts about scanned surfaces are told of what is left of them; the change is undone."""
    case, teeth = scans
    run = run_case(replace(case, change=(Change("lower", 46, by_mm=0.5), Change("crown", 26))))
    assert run.doubts is not None and run.stops
    assert not any(stop.tooth_lower == 46 for stop in run.stops)
    assert any(stop.tooth_upper == 26 for stop in run.stops)
    assert changed(after(scans, ("remove", 46, {})), case) is teeth
    assert np.isfinite(remounted(teeth, case).mi.opening_rad)


def test_a_tooth_that_the_scan_lacks_is_told(scans):
    """What scans hold is known when they are read; the entry and the teeth there are, are named."""
    with pytest.raises(InputError, match=r"change\[0\]: there is no tooth 18 to change; its arch"):
        after(scans, ("raise", 18, {"by_mm": 0.5}))
    with pytest.raises(InputError, match=r"change\[0\]: tooth 46 stands already"):
        after(scans, ("add", 46, {}))
