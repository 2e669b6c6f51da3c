"""A remount: casts scanned again after a tooth has come to stand higher, compared with before."""

import json
from concurrent.futures import Executor, Future
from dataclasses import dataclass, replace
from pathlib import Path
from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import opening_rotation
from kinematics.result_texts import OF_A_COMPARISON
from scenes import compare_command
from scenes.compare_command import PAGE_FILE, compare
from scenes.given_case import find_case
from tests.printed_page import A4_MM, arch_heights_px, boxes_mm, printed, read_offline
from tests.scanned_case import arches_in_mi, case_of
from tests.scanner_like import moved, scanned
from tests.shipped_cases import run_case

TRIANGLES = 12_000
#: By how much 16 stands higher in the second scans, and by how much the bite was open in them.
RAISED_MM = 0.3
OPEN_RAD = np.radians(0.3)


class AtOnce(Executor):
    """Draws where it is asked to."""

    def submit(self, fn, /, *args, **kwargs):
        """Return what was drawn."""
        future = Future()
        future.set_result(fn(*args, **kwargs))
        return future


@dataclass(frozen=True)
class Remount:
    """The folder of a comparison, its summary, and how far the pin must rise."""

    folder: Path
    summary: str
    pin_mm: float


def with_16_higher(arch):
    """Return the upper arch with 16 nearer to the lower."""
    vertices = arch.mesh.vertices.copy()
    own = np.unique(arch.mesh.faces[arch.tooth_of_face == 16])
    vertices[own, 2] -= RAISED_MM
    return replace(arch, mesh=mesh_of(vertices, arch.mesh.faces))


@pytest.fixture(scope="module")
def remount(tmp_path_factory):
    """Compare two scan sets of the same teeth, each with noise of its own, as the command does."""
    folder = tmp_path_factory.mktemp("remount")
    upper, lower = arches_in_mi(TRIANGLES)
    first = [scanned(upper, -1.0, 1, 4.0, 4.0), scanned(lower, 1.0, 2, 4.0, 4.0)]
    again = [scanned(with_16_higher(upper), -1.0, 3, 4.0, 4.0), scanned(lower, 1.0, 4, 4.0, 4.0)]
    again[1] = moved(again[1], opening_rotation(np.array([OPEN_RAD]))[0])
    names = [str(folder / name) for name in ("before", "after")]
    for name, scans in zip(names, (first, again), strict=True):
        case_of(folder / name, *scans, 60)
    with pytest.MonkeyPatch.context() as patch:
        run = SimpleNamespace(run=lambda case, step, threads: run_case(case))
        patch.setattr(compare_command, "checkup", run)
        done = compare(*map(find_case, names), folder / "out", lambda _: None, 1, AtOnce())
    # The jaw turns about the hinge until what touches on 46 is lower by as much as 16 is.
    touches_mm = upper.tooth(16).cusp_tips["ML"][0]
    incisal_mm = lower.tooth(41).edge[:, 0].max()
    return Remount(folder / "out", done.summary, RAISED_MM * incisal_mm / touches_mm)


def test_the_pin_rises_by_what_was_planted(remount):
    """Within a tenth of a millimetre, by arms of the lever; all stops but that on 16 are gone."""
    told = json.loads((remount.folder / OF_A_COMPARISON.file).read_text("utf-8"))
    assert told["bite"]["pin_mm"] == pytest.approx(remount.pin_mm, abs=0.1)
    assert remount.pin_mm > 0.35
    kept = told["stops"]["kept"]
    assert len(told["stops"]["gone"]) > 10 and not told["stops"]["new"]
    assert {(one["before"]["tooth_upper"], one["before"]["tooth_lower"]) for one in kept} <= {
        (16, 46)
    }
    assert told["counts"]["new"] > 5
    assert "The bite in maximal intercuspation is raised by 0.4" in remount.summary
    assert "Not the same teeth" not in remount.summary
    assert "16 and 46" in remount.summary


def test_the_page_is_read_offline_on_wide_and_narrow_screens(browser, remount):
    """No request, no complaint, nothing wider than the screen, both arches twice."""
    path = remount.folder / PAGE_FILE
    for width in (1200, 390):
        with read_offline(browser, path, width) as tab:
            heights = arch_heights_px(tab)
            assert len(heights) == 4 and min(heights) > 100.0
            images = "[...document.querySelectorAll('.arch image')]"
            assert tab.evaluate(f"{images}.every(e => e.href.baseVal.length > 99)")


def test_the_page_prints(browser, remount):
    """Nothing is cut at the side; cards and pictures fit on a page; the caution is there."""
    tab = printed(browser, remount.folder / PAGE_FILE)
    for left, top, right, bottom in boxes_mm(tab, "figure, article, table, header"):
        assert left >= -0.1 and right <= A4_MM[0] + 0.3
        assert bottom - top <= A4_MM[1]
    assert len(boxes_mm(tab, ".caution")) >= 1
    pdf = tab.pdf(format="A4")
    assert pdf.startswith(b"%PDF") and 2 <= pdf.count(b"/Type /Page\n") <= 8
    tab.close()
