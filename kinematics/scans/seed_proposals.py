"""Seeds of teeth that the shape of a cast without labels offers, for a person to confirm."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

import numpy as np
from scipy.spatial import cKDTree

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh
from kinematics.scans.crest_line import STEP_MM, ArchLie, CrestLine, arch_lie, crest_line
from kinematics.scans.crown_sizes import crown_size
from kinematics.scans.folded_surface import FoldedSurface, folded_surface
from kinematics.scans.labels import FEWEST_TEETH
from kinematics.scans.tooth_chain import ToothPlace, tooth_chain
from kinematics.tooth_codes import is_right, place

#: What is always to be said with proposals.
NUMBERS_ARE_A_GUESS: Final = (
    "The numbers are a guess: teeth are counted from the middle of the arch, and a tooth that is"
    " missing, or one too many, shifts all numbers behind it. Look at every tooth and its number"
    " before you take them."
)
#: How far from the middle of its crown a seed may be put to lie high, mm. Chosen for this program.
_AROUND_MM: Final = 1.0
#: Boundaries across which this much of the usual surface leads are doubtful, and crowns so much
#: wider or narrower than usual, beside the others of their arch.
_UNCLEAR: Final = 0.75
_MOST_OFF: Final = 0.2


@dataclass(frozen=True)
class ProposedSeed:
    """A place where a crown seems to be.

    Attributes
    ----------
    tooth : int
        Its ISO 3950 number, as a guess.
    point : ndarray, shape (3,)
        On the crown, in the coordinates of the cast, mm.
    width_mm : float
        Of the crown, along the arch.
    doubts : tuple of str
        What speaks against it; empty if nothing does.
    """

    tooth: int
    point: Floats
    width_mm: float
    doubts: tuple[str, ...]


@dataclass(frozen=True)
class SeedProposals:
    """What a person is to confirm; nothing takes it unasked.

    Attributes
    ----------
    seeds : tuple of ProposedSeed
        From the patient's right to left.
    gaps : tuple of (int, float)
        Teeth that seem to be missing between others, and how wide each gap is, mm.
    """

    seeds: tuple[ProposedSeed, ...]
    gaps: tuple[tuple[int, float], ...]

    def told(self) -> Iterator[str]:
        """Yield in words what was found and how sure it is; `NUMBERS_ARE_A_GUESS` goes with it."""
        yield f"{len(self.seeds)} teeth seem to stand here."
        for tooth, width_mm in self.gaps:
            yield f"{tooth}: seems to be missing; the crest is low there for {width_mm:.1f} mm"
        for seed in self.seeds:
            if seed.doubts:
                yield f"{seed.tooth}: doubtful: {'; '.join(seed.doubts)}"


def proposed_seeds(mesh: Mesh, upper: bool) -> SeedProposals:
    """Propose a seed for every crown that is seen.

    Parameters
    ----------
    mesh : Mesh
        One cleaned cast, mm, in any place.
    upper : bool
        Whether it is the upper one.

    Raises
    ------
    InputError
        No arch, or too few crowns are seen.
    """
    lie = arch_lie(mesh, upper)
    _, _, points = _seen(mesh, lie, upper)
    tops = np.array(list(points.values()))
    across = np.linalg.svd(tops - tops.mean(axis=0), full_matrices=False)[2][2]
    lie = arch_lie(mesh, upper, across * np.sign(across @ lie.up))
    crest, row, points = _seen(mesh, lie, upper)
    teeth = [one for one in row if one.taken]
    inside = row[row.index(teeth[0]) : row.index(teeth[-1]) + 1]
    empty = [one for one in inside if not one.taken]
    shared = {one.begins for one in teeth} & {one.ends for one in teeth}
    unclear = {station for station in shared if crest.across[station] > _UNCLEAR}
    share = float(np.median([_width_mm(one) / _usual_mm(one) for one in teeth]))
    seeds = tuple(
        ProposedSeed(
            one.code,
            points[one.code],
            _width_mm(one),
            tuple(_doubts(one, share, unclear, empty)),
        )
        for one in teeth
    )
    return SeedProposals(seeds, tuple((one.code, _width_mm(one)) for one in empty))


def _seen(
    mesh: Mesh, lie: ArchLie, upper: bool
) -> tuple[CrestLine, tuple[ToothPlace, ...], dict[int, Floats]]:
    """Return the crest, the places along it, and a point on every crown."""
    surface = folded_surface(mesh, lie.up)
    crest = crest_line(surface, lie)
    row = tooth_chain(crest, upper)
    points = _points(surface, lie, crest, row)
    if len(points) < FEWEST_TEETH:
        raise InputError(
            f"the cast: {len(points)} crowns are seen in its shape, too few to propose seeds of"
            f" teeth, for which at least {FEWEST_TEETH} are needed; pick them by hand"
        )
    return crest, row, points


def _points(
    surface: FoldedSurface, lie: ArchLie, crest: CrestLine, row: tuple[ToothPlace, ...]
) -> dict[int, Floats]:
    """Return the highest point about the middle of every crown."""
    flat, heights = surface.vertices @ lie.flat_axes, surface.vertices @ lie.up
    tree = cKDTree(flat)
    found = {}
    for one in (one for one in row if one.taken):
        middle = crest.points[(one.begins + one.ends) // 2]
        around = [int(tree.query(middle)[1]), *tree.query_ball_point(middle, _AROUND_MM)]
        near = np.unique(np.array(around, dtype=np.int64))
        found[one.code] = surface.vertices[near[np.argmax(heights[near])]]
    return found


def _width_mm(one: ToothPlace) -> float:
    return STEP_MM * (one.ends - one.begins)


def _usual_mm(one: ToothPlace) -> float:
    return crown_size(one.code).mesiodistal_mm


def _doubts(
    one: ToothPlace, share: float, unclear: set[int], empty: list[ToothPlace]
) -> Iterator[str]:
    """Yield what speaks against a tooth."""
    if not unclear.isdisjoint((one.begins, one.ends)):
        yield "no clear embrasure beside it"
    off = _width_mm(one) / (share * _usual_mm(one)) - 1.0
    if abs(off) > _MOST_OFF:
        yield (
            f"{_width_mm(one):.1f} mm wide; beside the others of this arch about"
            f" {share * _usual_mm(one):.1f} mm would be usual"
        )
    before = [
        other.code
        for other in empty
        if is_right(other.code) == is_right(one.code) and place(other.code) < place(one.code)
    ]
    if before:
        missing = ", ".join(map(str, sorted(before)))
        yield f"its number, with so many gaps nearer to the midline: {missing}"
