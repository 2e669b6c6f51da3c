"""Scans of teeth whose truth is known: the built-in ones, written as a case of scan files."""

import json
from dataclasses import dataclass, replace
from functools import cache

from kinematics.case_file import read_case
from kinematics.casts.casts import carried
from kinematics.geometry.poses import inverse
from kinematics.mounting import mounted_casts
from scenes.builtin_cases import builtin_case
from tests.scanner_like import moved, scanned, smoothed, write_obj, write_ply

TRIANGLES = 30_000


@dataclass(frozen=True)
class Scanner:
    """How bad a scanner is: see `scanned`; `rounds` of smoothing after that."""

    noise_um: float = 4.0
    waves_um: float = 4.0
    holes: int = 0
    rounds: int = 0
    seed: int = 1


@cache
def teeth_in_mi(triangles, name="upper_distal_extension"):
    """Return a built-in case, and its casts in MI."""
    case = builtin_case(name)
    case = replace(case, dentition=replace(case.dentition, triangles_per_arch=triangles))
    casts = mounted_casts(case)
    return case, casts.upper, carried(casts.lower, casts.mi_pose)


def true_teeth():
    """Return a built-in case, and its casts in MI, as most tests scan them."""
    return teeth_in_mi(TRIANGLES)


def write_case(folder, truth, place, scanner=None):
    """Write scans of the casts in some place, and a case mounted by the transform back."""
    _, upper, lower = truth
    by = scanner or Scanner()
    folder.mkdir()
    arches = (("upper.obj", write_obj, upper, -1.0), ("lower.ply", write_ply, lower, 1.0))
    for offset, (name, write, arch, towards) in enumerate(arches):
        scan = scanned(arch, towards, by.seed + offset, by.noise_um, by.waves_um, by.holes)
        write(folder / name, moved(smoothed(scan, by.rounds), place))
    back = json.dumps(inverse(place).tolist())
    (folder / "case.toml").write_text(
        'title = "Scans of invented teeth"\n[scans]\nupper = "upper.obj"\nlower = "lower.ply"\n'
        f'upper_labels = "upper.json"\n[scans.mounting]\nhinge_from_scan = {back}\n'
        "[judging]\nstop_tolerance_mm = 0.02\n"
        '[[denture_bases]]\nname = "upper right base"\nteeth = [15, 16, 17]\nabutments = [14, 13]\n'
    )
    return read_case(folder / "case.toml")


def guiding(checkup):
    """Return which pairs of teeth carry load in each main excursion beyond 0.5 mm, by travel."""
    found = {}
    for sweep in checkup.sweeps[:3]:
        judged = (sweep.travel_mm > 0.5) & ~sweep.crossover
        pairs = zip(
            sweep.closures.tooth_upper[judged], sweep.closures.tooth_lower[judged], strict=True
        )
        found[sweep.excursion.name] = [(int(a), int(b)) for a, b in pairs]
    return found
