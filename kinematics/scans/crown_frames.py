"""Crowns cut out of an arch, each with its own directions: mesial, outward, and its long axis.

Works on open crowns, as a scan has them, and on closed ones: what faces the root is left out. All
directions come from the surface itself; the frame it is given in only says which way is up.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.slices import places_at, slice_of
from kinematics.tooth_codes import is_posterior, is_right, is_upper, place

#: A triangle whose outward normal has more than this against the axis closes the crown at the neck:
#: walls lean in by less. Chosen for this program.
FACES_ROOT: Final = 0.7
#: How much the direction of the whole arch weighs in the axis of a tooth: little beside the normal
#: of a rim, which counts as the share of the crown's surface that its opening would have (0.15 to
#: 0.5). Chosen for this program; it decides only where labels left next to nothing of the walls.
ARCH_WEIGHT: Final = 0.02
#: Rounds in which an axis and what faces away from it settle; three are enough.
_ROUNDS: Final = 6
#: Fewer triangles than this are no crown; a coarse scan has some hundreds. Chosen for this program.
FEWEST_TRIANGLES: Final = 50
#: Sizes between which a crown, or what is labelled of it, lies across all three directions, and
#: the least distance of two teeth, mm. Chosen for this program, wide enough for every tooth.
CROWN_MM: Final = (3.0, 30.0)
NEAREST_MM: Final = 1.0
#: Least sizes of whole crowns, along the arch and across, mm: well below the smallest in textbooks'
#: crown tables (common practice), so that only parts of crowns fall below. Chosen for this program.
SMALLEST_MM: Final = {"front tooth": (3.0, 2.0), "premolar": (4.5, 5.0), "molar": (6.0, 6.5)}
#: No tooth leans farther than this from the mean direction of its arch, degrees. Chosen for this
#: program: incisors that lean far forward make 35, molars tipped into a gap as much.
LARGEST_LEAN_DEG: Final = 45.0
#: Of a front tooth, the least height that both sides must reach, mm. Chosen for this program: less
#: than worn incisors show.
SHORTEST_MM: Final = 1.5
#: Sections across a front tooth, from its edge, in shares of its height: above, the edge itself
#: would be cut; below, the gum line.
_SECTIONS: Final = np.linspace(0.15, 0.75, 9)
#: Where slices through the middle of a front tooth lie, in shares of its width.
_MIDDLE_PLACES: Final = np.linspace(-0.1, 0.1, 5)


@dataclass(frozen=True)
class Crown:
    """One crown without what faces its root.

    Attributes
    ----------
    code : int
        ISO 3950 number.
    points : ndarray, shape (n, 3)
        Vertices, mm, each place once, and
    faces : ndarray, shape (m, 3)
        triangles.
    axes : ndarray, shape (3, 3)
        Columns: unit vectors at right angles, towards the midline along the arch (mesial), towards
        cheek or lip (outward), and from the cervix to the edge or table (up).
    seen : ndarray, shape (n, 3)
        The vertices along these three, mm.
    """

    code: int
    points: Floats
    faces: Ints
    axes: Floats
    seen: Floats

    def placed(self, seen: Floats) -> Floats:
        """Return points (..., 3), given along the crown's directions, in the frame of the arch."""
        return np.asarray(seen @ self.axes.T)


@dataclass(frozen=True)
class _Surface:
    """Triangles of one tooth: points (n, 3), faces (m, 3), area vectors (m, 3) and areas (m,)."""

    code: int
    points: Floats
    faces: Ints
    vectors: Floats
    areas: Floats

    def away_from_root(self, up: Floats) -> Bools:
        """Tell which triangles do not close the crown at the neck."""
        return np.asarray(self.vectors @ up > -FACES_ROOT * self.areas)

    def middle(self, up: Floats) -> Floats:
        """Return the middle of the surface (3,) without what faces the root."""
        weight = np.where(self.away_from_root(up), self.areas, 0.0)
        return np.asarray(weight @ self.points[self.faces].mean(axis=1) / weight.sum())


def arch_order(codes: Ints) -> list[int]:
    """Return tooth numbers from the patient's right to left, each once."""
    return sorted(
        {int(code) for code in codes},
        key=lambda code: -place(code) if is_right(code) else place(code),
    )


def crowns_of(mesh: Mesh, tooth_of_face: Ints, name: str) -> tuple[Floats, tuple[Crown, ...]]:
    """Cut the crowns out of an arch and find their directions.

    Parameters
    ----------
    mesh : Mesh
        Arch in a frame with z superior, tilted by not much more than 25 degrees, mm.
    tooth_of_face : ndarray, shape (m,)
        Permanent teeth of one arch, at least two of them; 0 where a triangle belongs to none.
    name : str
        What to call the arch in messages.

    Returns
    -------
    up : ndarray, shape (3,)
        Occlusal direction of the whole arch, unit vector.
    crowns : tuple of Crown
        From the patient's right to left.

    Raises
    ------
    InputError
        A tooth has too few triangles, is not as large as a whole one, is inside out, leans too far
        or stands where another does; the arch is upside down or its sides are exchanged. The
        message names the tooth.
    """
    codes = arch_order(tooth_of_face[tooth_of_face > 0])
    surfaces = [_surface(mesh, tooth_of_face, code, name) for code in codes]
    up = _arch_direction(surfaces, name)
    middles = np.array([surface.middle(up) for surface in surfaces])
    _check_sides(codes, middles, name)
    crowns = []
    for at, surface in enumerate(surfaces):
        along = middles[min(at + 1, len(codes) - 1)] - middles[max(at - 1, 0)]
        if np.linalg.norm(along - (along @ up) * up) < NEAREST_MM:
            raise InputError(
                f"{name}, tooth {surface.code}: its neighbours stand in the same place; check "
                "which triangles bear which number"
            )
        mesial = along if is_right(surface.code) else -along
        crowns.append(_crown(surface, up, mesial, name))
        _check_width(crowns[-1], name)
    return up, tuple(crowns)


def _surface(mesh: Mesh, tooth_of_face: Ints, code: int, name: str) -> _Surface:
    """Return the triangles of one tooth, corners at the same place joined."""
    faces = mesh.faces[tooth_of_face == code]
    if len(faces) < FEWEST_TRIANGLES:
        raise InputError(
            f"{name}, tooth {code}: has {len(faces)} triangles; a crown has at least "
            f"{FEWEST_TRIANGLES}; label it fully, or label it 0"
        )
    size = float(np.linalg.norm(np.ptp(mesh.vertices[faces].reshape(-1, 3), axis=0)))
    if not CROWN_MM[0] <= size <= CROWN_MM[1]:
        raise InputError(
            f"{name}, tooth {code}: is {size:.3g} mm across; a crown has {CROWN_MM[0]:g} to "
            f"{CROWN_MM[1]:g} mm: give coordinates in millimetres, and check which triangles bear "
            "its number"
        )
    points, number = np.unique(mesh.vertices[faces].reshape(-1, 3), axis=0, return_inverse=True)
    corners = points[number.reshape(-1, 3)]
    vectors = 0.5 * np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    areas = np.linalg.norm(vectors, axis=1)
    kept = areas > 0.0
    if np.einsum("ij,ij", corners.mean(axis=1) - points.mean(axis=0), vectors) <= 0.0:
        raise InputError(
            f"{name}, tooth {code}: its triangles are seen from inside; corners must run "
            "counter-clockwise seen from outside: turn the winding of the file"
        )
    return _Surface(code, points, number.reshape(-1, 3)[kept], vectors[kept], areas[kept])


def _arch_direction(surfaces: list[_Surface], name: str) -> Floats:
    """Return the mean direction (3,) in which crowns are open to the other arch."""
    upper = is_upper(surfaces[0].code)
    start = np.array([0.0, 0.0, -1.0 if upper else 1.0])
    up = start
    for _ in range(_ROUNDS):
        total = sum((s.vectors[s.away_from_root(up)].sum(axis=0) for s in surfaces), np.zeros(3))
        up = total / np.linalg.norm(total)
    if up @ start <= 0.0:
        raise InputError(
            f"{name}: the crowns of the {'upper' if upper else 'lower'} arch face "
            f"{'up' if upper else 'down'}; they must face {'down' if upper else 'up'} "
            "(z superior): turn the scan over, or exchange the two files"
        )
    return np.asarray(up)


def _check_sides(codes: list[int], middles: Floats, name: str) -> None:
    """Demand that teeth numbered as right ones stand to the right of the left ones."""
    right = np.array([is_right(code) for code in codes])
    if right.all() or not right.any():
        return
    if middles[right, 1].mean() >= middles[~right, 1].mean():
        raise InputError(
            f"{name}: teeth with numbers of the patient's right stand on the left (y is "
            "positive to the patient's left); the scan is mirrored or turned about, or its numbers "
            "are exchanged"
        )


def _check_width(crown: Crown, name: str) -> None:
    """Demand that a crown is whole: half a molar would have its cusps named wrongly."""
    number = place(crown.code)
    group = "front tooth" if number <= 3 else "premolar" if number <= 5 else "molar"
    width, depth = np.ptp(crown.seen[:, :2], axis=0)
    least = SMALLEST_MM[group]
    if width < least[0] or depth < least[1]:
        raise InputError(
            f"{name}, tooth {crown.code}: is {width:.1f} mm wide along the arch and {depth:.1f} mm "
            f"across; a {group} has at least {least[0]:g} and {least[1]:g}: label the whole crown, "
            "or label it 0"
        )


def _crown(surface: _Surface, arch_up: Floats, mesial: Floats, name: str) -> Crown:
    """Return a crown along its own directions."""
    up, tooth = arch_up, f"{name}, tooth {surface.code}"
    for _ in range(_ROUNDS):
        axes = _axes(surface.code, mesial, up)
        kept = surface.away_from_root(up)
        opening = surface.vectors[kept].sum(axis=0) / surface.areas[kept].sum()
        along = (opening + ARCH_WEIGHT * arch_up) @ axes
        if not is_posterior(surface.code):
            # The sheets of a front tooth nearly cancel, so that a gum line higher on one side
            # would tip the axis: middles between the sheets are steadier.
            slope = _outward_slope(surface.points @ axes, surface.faces[kept], tooth)
            along[1] = along[2] * slope
        up = axes @ along
        up = up / np.linalg.norm(up)
    lean = float(np.degrees(np.arccos(np.clip(up @ arch_up, -1.0, 1.0))))
    if lean > LARGEST_LEAN_DEG:
        raise InputError(
            f"{tooth}: leans {lean:.0f} degrees from the other teeth; a whole "
            f"crown at most {LARGEST_LEAN_DEG:g}: check which triangles bear its number"
        )
    faces = surface.faces[surface.away_from_root(up)]
    used, number = np.unique(faces, return_inverse=True)
    axes = _axes(surface.code, mesial, up)
    points = surface.points[used]
    return Crown(surface.code, points, number.reshape(-1, 3), axes, points @ axes)


def _axes(code: int, mesial: Floats, up: Floats) -> Floats:
    """Return mesial, outward and up as columns, at right angles."""
    level = mesial - (mesial @ up) * up
    level = level / np.linalg.norm(level)
    turns_right = is_upper(code) == is_right(code)
    outward = np.cross(up, level) if turns_right else np.cross(level, up)
    return np.stack([level, outward, up], axis=1)


def _outward_slope(seen: Floats, faces: Ints, name: str) -> float:
    """Return how far the middle between both sheets of a front tooth goes outward per mm of up."""
    profile = front_profile(seen, faces, name)
    level = profile.top_mm - _SECTIONS * profile.height_mm
    outward = np.array([profile.middle_at(float(at)) for at in level])
    away = level - level.mean()
    return float(away @ outward / (away @ away))


@dataclass(frozen=True)
class FrontProfile:
    """Slices through the middle of a front tooth, from the labial to the lingual side.

    Attributes
    ----------
    slices : tuple of ndarray, each of shape (n, 2, 2)
        See `slice_of`.
    top_mm, height_mm : float
        Height of the edge, and how far down from it both the labial and the lingual side reach.
    """

    slices: tuple[Floats, ...]
    top_mm: float
    height_mm: float

    def middle_at(self, level: float) -> float:
        """Return the middle between both sides at a height, mm outward.

        Where the surface has a hole there, that of all slices as a whole.
        """
        across = [places_at(ends, level) for ends in self.slices]
        crossed = [middle_of(places) for places in across if len(places)]
        return float(np.mean(crossed or [middle_of(ends[..., 0]) for ends in self.slices]))


def front_profile(seen: Floats, faces: Ints, name: str) -> FrontProfile:
    """Return the profile of a front tooth.

    Parameters
    ----------
    seen : ndarray, shape (n, 3)
        Vertices along mesial, outward and up, mm.
    faces : ndarray, shape (m, 3)
        Triangles.
    name : str
        What to call the tooth in messages.

    Raises
    ------
    InputError
        Nothing of the tooth lies in its middle, or only one of its two sides is there.
    """
    middle, width = middle_of(seen[:, 0]), float(np.ptp(seen[:, 0]))
    places = middle + width * _MIDDLE_PLACES
    slices = tuple(slice_of(seen, faces, float(ahead)) for ahead in places)
    slices = tuple(ends for ends in slices if len(ends))
    if not slices:
        raise InputError(
            f"{name}: has no triangles in its middle; label the whole crown, or label it 0"
        )
    top = max(float(ends[..., 1].max()) for ends in slices)
    height = top - max(_lowest_of_both(ends) for ends in slices)
    if height < SHORTEST_MM:
        raise InputError(
            f"{name}: its labial and lingual sides reach only {max(height, 0.0):.1f} mm down from "
            f"the edge; at least {SHORTEST_MM:g} are needed: label both sides of the crown, or "
            "label it 0"
        )
    return FrontProfile(slices, top, height)


def _lowest_of_both(ends: Floats) -> float:
    """Return how low (mm) both the labial and the lingual side of a slice reach."""
    points = ends.reshape(-1, 2)
    edge = points[np.argmax(points[:, 1]), 0]
    labial = points[:, 0] >= edge
    return float(max(points[labial, 1].min(), points[points[:, 0] <= edge, 1].min()))


def middle_of(values: Floats) -> float:
    """Return the middle between the least and the greatest of some values."""
    return float(0.5 * (values.min() + values.max()))
