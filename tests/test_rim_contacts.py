"""Contacts on rims of scans: which open edge is which, what is said of it, and nothing without."""

import json

import numpy as np
import pytest

from kinematics.geometry.meshes import mesh_of
from kinematics.planning.rim_contacts import RIM_KIND, rim_at
from kinematics.result_files import findings_document
from kinematics.result_texts import json_text
from kinematics.scans.rims import Rims, rims_of
from scenes.finding_cards import finding_card
from scenes.report_tables import stops_table
from tests.scanned_case import case_of, faces_beside, scans_in_mi
from tests.scanner_like import Scanned
from tests.shipped_cases import run_case

TRIANGLES = 16_000


def grid(side, hole=()):
    """Return vertices and triangles of a flat square of unit cells, without those of some cells."""
    places = np.array([(x, y, 0.0) for y in range(side + 1) for x in range(side + 1)])
    faces = []
    for y in range(side):
        for x in range(side):
            if (x, y) not in hole:
                at = y * (side + 1) + x
                faces += [[at, at + 1, at + side + 2], [at, at + side + 2, at + side + 1]]
    return places, np.array(faces)


def test_rims_of_labels_and_of_the_scan_are_told_apart():
    """Where gum goes on it is a label that ends; at the border and at a hole it is the scan."""
    places, faces = grid(6, hole=[(4, 3)])
    crown = places[faces].mean(axis=1)[:, 0] > 2.0
    rims = rims_of(faces, crown)
    own = places[np.unique(faces[crown])][rims.ends]
    at_label = (own[:, :, 0] == 2.0).all(axis=1)
    assert at_label.sum() == 6
    assert (rims.at_gum == at_label).all()
    assert (~rims.at_gum).sum() == 4 + 4 + 6 + 4  # above, below, beside, and around the hole


def test_a_crown_cut_at_a_hole_has_no_label_there():
    """Where a hole lies along the end of a label, what lies beyond was not scanned."""
    places, faces = grid(4, hole=[(1, 1), (1, 2)])
    rims = rims_of(faces, places[faces].mean(axis=1)[:, 0] > 2.0)
    own = places[np.unique(faces[places[faces].mean(axis=1)[:, 0] > 2.0])][rims.ends]
    inner = (own[:, :, 0] == 2.0).all(axis=1)
    assert sorted(own[inner & rims.at_gum][:, :, 1].min(axis=1)) == [0.0, 3.0]
    assert sorted(own[inner & ~rims.at_gum][:, :, 1].min(axis=1)) == [1.0, 2.0]


@pytest.mark.parametrize("seed", range(3))
def test_what_lies_on_a_rim_is_what_dense_points_along_it_say(seed):
    """200 places a seed; an end of the scan wins over the end of a label."""
    rng = np.random.default_rng(seed)
    places, faces = grid(5)
    mesh = mesh_of(places + rng.normal(0.0, 0.1, places.shape), faces)
    ends = rims_of(faces, np.ones(len(faces), dtype=bool)).ends
    rims = Rims(ends, rng.random(len(ends)) < 0.5)
    wanted = rng.uniform(-0.5, 5.5, (200, 3)) * (1.0, 1.0, 0.05)
    reach = rng.uniform(0.05, 0.5, 200)
    share = np.linspace(0.0, 1.0, 400)[:, None]
    kind = np.zeros(200, dtype=int)
    for number, told in ((True, 1), (False, 2)):
        for one, other in mesh.vertices[ends[rims.at_gum == number]]:
            dense = one + share * (other - one)
            off = np.linalg.norm(wanted[:, None] - dense[None], axis=2).min(axis=1)
            kind[off <= reach] = np.maximum(kind[off <= reach], told)
    found = rim_at(wanted, reach, mesh, rims)
    assert (found != kind).sum() <= 1  # but for what lies just at its reach
    assert {0, 1, 2} == set(found.tolist())


@pytest.fixture(scope="module")
def clean(tmp_path_factory):
    """Return the case of scans without holes, and what a run says of it."""
    case = case_of(tmp_path_factory.mktemp("clean") / "case", *scans_in_mi(TRIANGLES), 0)
    return case, run_case(case, planning=True)


def told(checkup):
    """Return the findings that speak of rims."""
    return [item for item in checkup.findings if item.surface or item.kind == RIM_KIND]


def test_clean_scans_have_no_contact_on_a_rim(clean):
    """Nothing is said where nothing is: no finding, no word, and no column in the table."""
    case, found = clean
    assert told(found) == []
    assert not any(stop.surface for stop in found.stops)
    assert all(share.at_scan_end == share.at_gum == 0 for share in found.doubts.on_rims)
    assert sum(share.poses for share in found.doubts.on_rims) > 200
    assert "on a rim" not in json_text({"f": findings_document(case, found, [])["findings"]})


def test_a_hole_beside_the_contact_in_mi_is_told(clean, tmp_path):
    """The closure, the stop and its count say so; the finding comes first of its severity."""
    upper, lower = scans_in_mi(TRIANGLES)
    gone = faces_beside(upper, clean[1].sweeps[0].closures.point[0], 1.0)
    holed = Scanned(upper.vertices, upper.faces[~gone], upper.labels)
    case = case_of(tmp_path / "case", holed, lower, allowance_um=0)
    found = run_case(case, planning=True)
    (ends,) = [item for item in found.findings if item.kind == RIM_KIND]
    assert ends.severity == "attention"
    assert "In MI the contact that ends the closure" in ends.text
    assert "a rim of the upper scan: what lies beyond was not scanned" in ends.text
    order = [item.severity for item in found.findings]
    assert order == sorted(order, key=["serious", "attention", "note"].index)
    assert found.findings[order.index("attention")] == ends
    stops = [stop for stop in found.stops if stop.surface]
    assert {(stop.tooth_upper, stop.tooth_lower) for stop in stops} == {
        (ends.tooth_upper, ends.tooth_lower)
    }
    (count,) = [item for item in found.findings if item.kind == "centric stops"]
    assert count.surface.startswith(f"{len(stops)} of these stops")
    assert max(share.at_scan_end for share in found.doubts.on_rims) > 0
    assert finding_card(count, {}, {}).details[0] == ("surface", count.surface)
    assert stops_table(found.stops).head[-1] == "surface there"
    assert stops_table(clean[1].stops).head[-1] != "surface there"
    document = json.loads(json_text(findings_document(case, found, [])))
    assert document["contacts_on_rims"][0]["at_scan_end"] > 0


def test_a_label_that_ends_at_a_contact_is_told(clean, tmp_path):
    """Where the crown beyond counts as gum, it is said that this surface takes no part."""
    upper, lower = scans_in_mi(TRIANGLES)
    gone = faces_beside(upper, clean[1].sweeps[0].closures.point[0], 1.0)
    labels = upper.labels.copy()
    labels[upper.faces[gone]] = 0
    cut = Scanned(upper.vertices, upper.faces, labels)
    found = run_case(case_of(tmp_path / "case", cut, lower, allowance_um=0), planning=True)
    said = [item.text + item.surface for item in told(found)]
    assert any("ends at the gum: the surface beyond takes no part" in text for text in said)
