"""Wax-up less the original: what was added to every tooth, and what was taken away."""

from dataclasses import dataclass, field
from typing import Final

import numpy as np
from scipy.spatial import cKDTree

from kinematics.casts.casts import NO_TOOTH, Arch
from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals, in_order, part_of
from kinematics.geometry.signed_distances import SignedDistances, signed_distances

Point = tuple[float, float, float]

#: What differs by less is no change, mm: scans of one cast differ by some hundredths of a
#: millimetre (chosen for this program).
LEAST_CHANGE_MM: Final = 0.05
#: So near lie surfaces that are the same, mm, and so much of a wax-up must be the same (both
#: chosen for this program).
SAME_WITHIN_MM: Final = 0.2
LEAST_SAME: Final = 0.5


@dataclass(frozen=True)
class WaxedTooth:
    """What a wax-up changes on one tooth, or beside the teeth.

    Attributes
    ----------
    tooth : int
        ISO 3950 number; 0: gums and ridge.
    added_mm3, removed_mm3 : float
        Volume between both surfaces: the mean of what either way of measuring gives.
    most_added_mm, most_removed_mm : float
        Greatest distance of the wax-up outside, and inside, the original.
    added_mm2, removed_mm2 : float
        Surface of the wax-up that lies so.
    most_added_at : tuple of float or None
        Where, in the coordinates given, mm; None where nothing was added.
    """

    tooth: int
    added_mm3: float
    removed_mm3: float
    most_added_mm: float
    most_removed_mm: float
    added_mm2: float
    removed_mm2: float
    most_added_at: Point | None

    @property
    def changed(self) -> bool:
        """Whether there is any change."""
        return self.added_mm2 > 0.0 or self.removed_mm2 > 0.0


@dataclass(frozen=True)
class WaxMap:
    """How far a wax-up lies outside the original on one tooth, vertex by vertex.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    mesh : Mesh
        Its surface in the wax-up, in the coordinates given.
    over_mm : ndarray, shape (n,)
        Distance of every vertex from the original, negative inside; NaN where there is no original.
    """

    tooth: int
    mesh: Mesh
    over_mm: Floats


@dataclass(frozen=True)
class WaxUp:
    """A wax-up against the original of one arch.

    Attributes
    ----------
    is_upper : bool
        Which arch.
    name : str
        What was compared: the name of a file, or words.
    teeth : tuple of WaxedTooth
        All that changed, ascending.
    relief : WaxedTooth or None
        Wax on gums and ridge, away from the teeth; None where there is none.
    same_share : float
        Share of the wax-up that is the original within `SAME_WITHIN_MM`, by surface.
    by_changes : bool
        Whether teeth were changed by the case, rather than waxed up and scanned.
    maps : tuple of WaxMap
        Of the teeth that changed, ascending; one of which nothing is left has none.
    """

    is_upper: bool
    name: str
    teeth: tuple[WaxedTooth, ...]
    relief: WaxedTooth | None
    same_share: float
    by_changes: bool = False
    maps: tuple[WaxMap, ...] = field(default=(), compare=False)

    @property
    def side(self) -> str:
        """Which arch, in a word."""
        return "upper" if self.is_upper else "lower"


def wax_up(
    original: Mesh, codes: Ints, waxed: Mesh, *, is_upper: bool, name: str, where: str
) -> WaxUp:
    """Compare a wax-up with the original, both in the same coordinates and facing outward.

    Parameters
    ----------
    original, waxed : Mesh
        Both surfaces, mm.
    codes : ndarray, shape (m,)
        Tooth number of every triangle of the original, 0 for none; a triangle of the wax-up has
        that of the nearest one.
    is_upper, name
        See `WaxUp`.
    where : str
        What to call the wax-up in a message.

    Raises
    ------
    InputError
        Less than half of the wax-up is the original: both do not lie in the same coordinates.
    """
    original, _, face_of = in_order(original)
    codes, waxed = codes[face_of], in_order(waxed)[0]
    share = _same_at_most(waxed, original)  # far apart, exact distances would take long
    if share >= LEAST_SAME:
        of_wax = signed_distances(original, waxed.vertices)
        share = _same_share(waxed, of_wax)
    if share < LEAST_SAME:
        raise InputError(
            f"{where}: {name} does not lie on the original: {100.0 * share:.0f} % of its surface is"
            f" within {SAME_WITHIN_MM:g} mm of it, at least {100.0 * LEAST_SAME:.0f} % must be."
            " Scan the wax-up in the coordinates of the original, or align both first"
        )
    middle = signed_distances(original, waxed.corners.mean(axis=1))
    wax_codes = codes[middle.face]
    of_original = signed_distances(waxed, original.vertices)
    rows, maps = [], []
    for code in np.union1d(codes, wax_codes).tolist():
        wax = waxed, of_wax, wax_codes == code
        row = _tooth(code, wax, (original, of_original, codes == code))
        rows.append(row)
        maps += _map(code, *wax) if row.changed else []
    changed = [row for row in rows if row.changed]
    return WaxUp(
        is_upper,
        name,
        tuple(row for row in changed if row.tooth != NO_TOOTH),
        next((row for row in changed if row.tooth == NO_TOOTH), None),
        share,
        maps=tuple(maps),
    )


def changed_crowns(before: Arch, after: Arch, *, is_upper: bool) -> WaxUp:
    """Compare an arch with itself after changes of its teeth, crown by crown.

    A tooth that only one of both has is left out: it came or went as a whole.

    Parameters
    ----------
    before, after : Arch
        In the same coordinates.
    is_upper : bool
        Which arch.
    """
    areas, _ = face_areas_normals(after.mesh)
    changed, maps, same_mm2 = [], [], 0.0
    for code in sorted({*before.codes} & {*after.codes}):
        own = after.tooth_of_face == code
        old, _ = part_of(before.mesh, before.tooth_of_face == code)
        new, _ = part_of(after.mesh, own)
        if np.array_equal(old.corners, new.corners):
            same_mm2 += float(areas[own].sum())
            continue
        old, new = in_order(old)[0], in_order(new)[0]
        every, all_old = np.ones(len(new.faces), dtype=bool), np.ones(len(old.faces), dtype=bool)
        of_new, of_old = signed_distances(old, new.vertices), signed_distances(new, old.vertices)
        row = _tooth(code, (new, of_new, every), (old, of_old, all_old))
        if row.changed:
            changed.append(row)
            maps += _map(code, new, of_new, every)
    share = same_mm2 / float(areas.sum())
    return WaxUp(is_upper, "changes of the case", tuple(changed), None, share, True, tuple(maps))


def _map(code: int, mesh: Mesh, found: SignedDistances, chosen: Bools) -> list[WaxMap]:
    if code == NO_TOOTH or not chosen.any():
        return []
    part, used = part_of(mesh, chosen)
    return [WaxMap(code, part, np.where(found.beyond, np.nan, found.distance_mm)[used])]


def _same_at_most(waxed: Mesh, original: Mesh) -> float:
    """Return which share of the wax-up may lie on the original, by distances of vertices alone."""
    sides = original.corners - np.roll(original.corners, 1, axis=1)
    longest = float(np.sqrt((sides**2).sum(axis=2)).max())
    apart, _ = cKDTree(original.vertices).query(waxed.vertices)
    near = np.asarray(apart) <= SAME_WITHIN_MM + longest
    areas, _ = face_areas_normals(waxed)
    return float((areas * near[waxed.faces].mean(axis=1)).sum() / areas.sum())


def _same_share(waxed: Mesh, of_wax: SignedDistances) -> float:
    areas, _ = face_areas_normals(waxed)
    same = (np.abs(of_wax.distance_mm) <= SAME_WITHIN_MM) & ~of_wax.beyond
    return float((areas * same[waxed.faces].mean(axis=1)).sum() / areas.sum())


def _tooth(
    code: int,
    wax: tuple[Mesh, SignedDistances, Bools],
    original: tuple[Mesh, SignedDistances, Bools],
) -> WaxedTooth:
    """Return what changed on one tooth.

    A wall measured from the wax counts the wax beside it too much, from the original too little,
    by as much: the mean of both is right to second order of the thickness.
    """
    out, area_out = _between(*wax, 1.0)
    out_too, _ = _between(*original, -1.0)
    inward, area_in = _between(*wax, -1.0)
    inward_too, _ = _between(*original, 1.0)
    mesh, found, chosen = wax
    used = np.unique(mesh.faces[chosen])
    counted = used[~found.beyond[used]]
    distances = found.distance_mm[counted]
    most = float(distances.max(initial=0.0))
    at = mesh.vertices[counted[int(np.argmax(distances))]] if area_out > 0.0 else None
    return WaxedTooth(
        tooth=code,
        added_mm3=0.5 * (out + out_too),
        removed_mm3=0.5 * (inward + inward_too),
        most_added_mm=most if area_out > 0.0 else 0.0,
        most_removed_mm=float((-distances).max(initial=0.0)) if area_in > 0.0 else 0.0,
        added_mm2=area_out,
        removed_mm2=area_in,
        most_added_at=None if at is None else (float(at[0]), float(at[1]), float(at[2])),
    )


def _between(mesh: Mesh, found: SignedDistances, chosen: Bools, sign: float) -> tuple[float, float]:
    """Return the volume over some triangles to the other surface on one side, and their area."""
    distance = np.where(found.beyond, 0.0, sign * found.distance_mm)
    over: Floats = np.where(distance >= LEAST_CHANGE_MM, distance, 0.0)
    corners = over[mesh.faces[chosen]]
    areas, _ = face_areas_normals(mesh)
    own = areas[chosen]
    volume = float((own * corners.mean(axis=1)).sum())
    return volume, float((own * (corners > 0.0).mean(axis=1)).sum())
