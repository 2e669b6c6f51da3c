"""Wax-ups given as second scans of a case: planted wax, files, refusals."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_surveyed import surveyed_case
from kinematics.checks import InputError
from kinematics.planning.wax_up import wax_up
from kinematics.scans.wax_up_scans import waxed_scans
from tests.scanned_case import case_of, scans_in_mi
from tests.scanner_like import Scanned, write_ply

TRIANGLES = 10_000
THICK_MM = 0.4


@pytest.fixture(scope="module")
def scanned(tmp_path_factory):
    """Return a case of two scans with 4 micrometres of noise, and the scans."""
    upper, lower = scans_in_mi(TRIANGLES)
    folder = tmp_path_factory.mktemp("waxed") / "case"
    return folder, case_of(folder, upper, lower), lower


def with_wax(scanned, name, change):
    """Write the lower scan with changed vertices, and return the case that names it."""
    folder, case, lower = scanned
    vertices = change(lower.vertices.copy(), lower.labels)
    write_ply(folder / name, Scanned(vertices, lower.faces, lower.labels))
    scans = replace(case.scans, wax_up_lower=str(folder / name))
    return replace(case, scans=scans)


def test_wax_on_one_tooth_and_on_the_gum_is_told_of_each(scanned):
    """46 is raised along z, a patch of gum too; no other tooth changes, whatever the noise."""

    def waxed(vertices, labels):
        vertices[labels == 46, 2] += THICK_MM
        gum = np.flatnonzero(labels == 0)
        middle = vertices[gum][np.argmax(vertices[gum, 1])]
        near = gum[np.linalg.norm(vertices[gum] - middle, axis=1) < 3.0]
        vertices[near, 1] += THICK_MM
        return vertices

    case = with_wax(scanned, "wax.ply", waxed)
    told = surveyed_case(case, None, (), lambda _: None)
    assert told["surveys"] == () and told["findings"] == ()
    (found,) = told["wax_ups"]
    assert not found.is_upper and found.name == "wax.ply"
    assert {tooth.tooth for tooth in found.teeth if tooth.added_mm3 > 1.0} == {46}
    (tooth,) = (tooth for tooth in found.teeth if tooth.tooth == 46)
    assert tooth.most_added_mm == pytest.approx(THICK_MM, abs=0.03)
    # A cap of even height over the outline of a lower first molar, some 10 by 10 mm.
    assert 15.0 < tooth.added_mm3 < 50.0
    assert found.relief.most_added_mm == pytest.approx(THICK_MM, abs=0.1)
    assert found.same_share > 0.8


def test_a_scan_of_another_arch_is_refused_by_its_key(scanned):
    """The upper scan does not lie on the lower one."""
    folder, case, _ = scanned
    case = replace(case, scans=replace(case.scans, wax_up_lower=str(folder / "upper.ply")))
    (scan,) = waxed_scans(case.scans, case.guidance.reference_plane, lambda _: None)
    with pytest.raises(InputError, match=r"^scans\.wax_up_lower: upper\.ply does not lie on"):
        wax_up(
            scan.original,
            scan.codes,
            scan.waxed,
            is_upper=False,
            name=scan.name,
            where="scans.wax_up_lower",
        )


def test_a_file_that_is_not_there_is_told_by_its_name(scanned):
    """As for any scan."""
    _, case, _ = scanned
    case = replace(case, scans=replace(case.scans, wax_up_upper="none.ply"))
    with pytest.raises(InputError, match=r"none\.ply"):
        list(waxed_scans(case.scans, case.guidance.reference_plane, lambda _: None))


def test_files_are_renamed_with_the_others(scanned):
    """Archives and results name wax-ups as they name scans; without any there is nothing to do."""
    _, case, _ = scanned
    named = replace(case, scans=replace(case.scans, wax_up_upper="folder/wax.stl"))
    assert named.with_files(lambda name: name.split("/")[-1]).scans.wax_up_upper == "wax.stl"
    assert list(waxed_scans(case.scans, case.guidance.reference_plane, lambda _: None)) == []
