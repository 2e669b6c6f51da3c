"""Scans of records that are refused: of whom, of what, how little; with what to do instead."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.geometry.meshes import Mesh, joined, mesh_of, moved_mesh
from kinematics.geometry.poses import pose_of
from kinematics.records.record_scans import BittenCasts, scanned_record
from kinematics.scans import scan_search
from kinematics.scans.registration_target import target_of
from kinematics.scans.scan_search import CastTarget, find_on, sought_scan
from tests.made_record_scans import View, any_move, of_somebody_else, own_casts, record_mesh
from tests.scanner_like import any_place


@pytest.fixture
def fewer_turns(monkeypatch):
    """Try fewer places and turns: those that are refused are sought longest."""
    for name, count in (("_TURNS", 60), ("_MIDDLES", 4), ("_COARSE", 6), ("_TRIED", 4)):
        monkeypatch.setattr(scan_search, name, count)


def refusal(mesh, shows="both arches", casts=None):
    """Return what is said of a record."""
    with pytest.raises(InputError) as refused:
        scanned_record(casts or own_casts(), mesh, shows, "record 1", lambda _step: None)
    return str(refused.value)


def mirrored(mesh):
    """Return a mirrored mesh, wound inside out as by a program that mirrors places alone."""
    return Mesh(mesh.vertices * np.array([1.0, -1.0, 1.0]), mesh.faces)


@pytest.mark.usefixtures("fewer_turns")
@pytest.mark.parametrize(
    ("mesh", "words"),
    [
        (
            lambda: record_mesh(any_move(1), 1, place=any_place(1), changed=of_somebody_else),
            "lies on neither cast: of the upper one",
        ),
        (
            lambda: record_mesh(any_move(2), 2, changed=mirrored),
            "is mirrored: turned inside out it lies on the upper cast",
        ),
        (
            lambda: record_mesh(any_move(3), 3, View(arches=("lower",)), place=any_place(3)),
            'shows the lower arch alone.* scan_shows = "lower arch"',
        ),
        (
            lambda: record_mesh(any_move(4), 4, View(arches=("upper",))),
            "lies on the upper cast, but nothing of it on the lower one",
        ),
        (
            lambda: record_mesh(
                any_move(5), 5, changed=lambda m: mesh_of(1.05 * m.vertices, m.faces)
            ),
            "lies on neither cast",
        ),
    ],
)
def test_scans_of_something_else_are_refused(mesh, words):
    """Another patient's, mirrored, one arch alone, of another size."""
    told = refusal(mesh())
    assert told.startswith("record 1: ")
    assert re.search(words, told), told


def test_the_bite_is_no_record():
    """The casts in maximal intercuspation, scanned again."""
    told = refusal(record_mesh(np.eye(4), 6))
    assert (
        "shows the casts in maximal intercuspation: no lower tooth stands farther than 0.0" in told
    )


def test_a_lower_arch_that_is_not_near_its_bite_is_refused():
    """Its coordinates are others than those of the upper scan."""
    mesh = record_mesh(any_move(7), 7, View(arches=("lower",)), place=any_place(7))
    assert "does not lie on the lower cast within" in refusal(mesh, "lower arch")


def test_a_few_front_teeth_do_not_hold_a_record():
    """One incisor of each arch: with the standard errors found and accepted."""
    view = View("teeth", least_x=82.0, least_y=0.5)
    told = refusal(record_mesh(any_move(8), 8, view))
    assert "too little of the teeth lies on the casts to hold it: standard errors of" in told
    assert "accepted are 0.3 degrees and 0.1 mm" in told


def test_a_scan_that_fits_in_two_places_is_ambiguous():
    """Two bumps alike, 6 mm apart, and a scan of one of them."""
    x, y = np.meshgrid(np.arange(-3.0, 3.01, 0.25), np.arange(-3.0, 3.01, 0.25), indexing="ij")
    height = 4.0 * np.exp(-0.2 * (x**2 + 2.0 * y**2)) + np.exp(-((x - 1.2) ** 2 + (y - 1.0) ** 2))
    places = np.stack([x, y, height], axis=-1).reshape(-1, 3)
    number = np.arange(x.size).reshape(x.shape)
    corners = [number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]]
    one, two, three, four = (corner.ravel() for corner in corners)
    faces = np.concatenate([np.stack([one, two, three], 1), np.stack([one, three, four], 1)])
    bump = mesh_of(places, faces)
    aside = pose_of(np.eye(3), np.array([0.0, 6.0, 0.0]))
    both = target_of(joined([bump, moved_mesh(bump, aside)]))
    cast = CastTarget(both, both)
    found = find_on(cast, sought_scan(bump), np.eye(4)[None])
    assert found.lies_on
    assert found.as_good_mm == pytest.approx(6.0, abs=0.1)
    casts = replace(own_casts(), upper=cast, lower=cast, bite=np.eye(4))
    assert isinstance(casts, BittenCasts)
    told = refusal(bump, "lower arch", casts)
    assert re.search(r"lies on the lower cast in two places equally well, \d+\.\d mm apart", told)
