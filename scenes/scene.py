"""One description of a picture: parts, marks, labels and how it is looked at.

Writers draw it: in three dimensions (`stage`), by the painter's method (`drawing2d`), and the
annotation that lies over either (`annotation`). None of them computes anything of the trade.
"""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.casts.casts import NO_TOOTH, Arch, Tooth
from kinematics.checkup import Checkup
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats, Ints
from kinematics.geometry.poses import inverse, move_points
from scenes import colours
from scenes.phrases import excursion_title, role_of

UPPER: Final = "upper"
LOWER: Final = "lower"
#: Travel at which a mark of its own shape is drawn; between them the trace is fine dots.
SHAPE_EVERY_MM: Final = 1.0
#: A pair that begins to touch after this travel gets its shape there too.
_LATE_MM: Final = 0.5


@dataclass(frozen=True)
class View:
    """A parallel projection with a fixed frame.

    Attributes
    ----------
    name : str
        What is seen, in words.
    towards, up : ndarray, shape (3,)
        Direction in which one looks, and what is up in the picture; unit, at right angles.
    centre : ndarray, shape (3,)
        Middle of the picture, mm.
    width_mm, height_mm : float
        Size of the frame.
    """

    name: str
    towards: Floats
    up: Floats
    centre: Floats
    width_mm: float
    height_mm: float

    @property
    def right(self) -> Floats:
        """Direction to the right of the picture."""
        return np.cross(self.towards, self.up)

    def project(self, points: Floats) -> Floats:
        """Return places in the picture (n, 2), mm to the right of and above its middle."""
        return (points - self.centre) @ np.stack([self.right, self.up], axis=1)

    def depth(self, points: Floats) -> Floats:
        """Return how far away points lie (n,), mm; greater is farther."""
        return np.asarray((points - self.centre) @ self.towards)


@dataclass(frozen=True)
class Part:
    """Triangles of one role, already in the coordinates of the scene, mm."""

    role: str
    vertices: Floats
    faces: Ints


@dataclass(frozen=True)
class Marks:
    """Contact marks of one meaning.

    Attributes
    ----------
    label : str
        What they are, for the legend.
    style : Style
        Colour and shape.
    filled : bool
        False: drawn hollow (nonworking side).
    points : ndarray, shape (k, 3)
        Places in the coordinates of the scene, mm.
    shaped : ndarray, shape (k,)
        True where the shape is drawn, False for the fine dots between.
    """

    label: str
    style: colours.Style
    filled: bool
    points: Floats
    shaped: Bools


@dataclass(frozen=True)
class Label:
    """A text at a point of the scene; `strong` for tooth numbers that need attention."""

    text: str
    point: Floats
    strong: bool = False


@dataclass(frozen=True)
class Note:
    """A text at a place of the picture, mm from its middle; aligned "left", "center", "right"."""

    text: str
    place: tuple[float, float]
    align: str = "center"


@dataclass(frozen=True)
class Scene:
    """Everything a writer needs for one picture.

    Attributes
    ----------
    view : View
        How it is looked at.
    parts : tuple of Part
        Surfaces.
    marks : tuple of Marks
        Contact marks, the later ones on top.
    labels : tuple of Label
        Tooth numbers.
    notes : tuple of Note
        Other words in the picture.
    scale_at : tuple of float or None
        Where the middle of the scale line stands, mm from the middle of the picture.
    legend : bool
        Whether the kinds of marks are named at the bottom of the picture.
    """

    view: View
    parts: tuple[Part, ...]
    marks: tuple[Marks, ...] = ()
    labels: tuple[Label, ...] = ()
    notes: tuple[Note, ...] = ()
    scale_at: tuple[float, float] | None = None
    legend: bool = False


def arch_parts(arch: Arch, side: str, replacement_teeth: tuple[int, ...]) -> tuple[Part, ...]:
    """Return the gum, the natural and the replacement teeth of an arch, where it has them."""
    tooth = arch.tooth_of_face
    replaced = np.isin(tooth, replacement_teeth)
    roles = {
        "gum": tooth == NO_TOOTH,
        f"{side} tooth": (tooth != NO_TOOTH) & ~replaced,
        "replacement tooth": replaced,
    }
    return tuple(_part(arch, role, faces) for role, faces in roles.items() if faces.any())


def _part(arch: Arch, role: str, chosen: Bools) -> Part:
    faces = arch.mesh.faces[chosen]
    used, numbers = np.unique(faces, return_inverse=True)
    return Part(role, arch.mesh.vertices[used], numbers.reshape(faces.shape).astype(np.int64))


def occlusal_view(arch: Arch, side: str) -> View:
    """Look straight at the chewing surfaces, along the vertical of the reference plane.

    Both arches are seen as when facing the patient and looking into the open mouth: the
    patient's right is on the left of the picture, the upper front teeth are at its top and the
    lower front teeth at its bottom.
    """
    vertices = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face != NO_TOOTH])]
    low, high = vertices.min(axis=0), vertices.max(axis=0)
    sign = 1.0 if side == UPPER else -1.0
    words = "seen from below" if side == UPPER else "seen from above"
    return View(
        f"{side} arch, {words}",
        towards=np.array([0.0, 0.0, sign]),
        up=np.array([sign, 0.0, 0.0]),
        centre=0.5 * (low + high),
        width_mm=float(np.ceil(high[1] - low[1])) + 17.0,
        height_mm=float(np.ceil(high[0] - low[0])) + 13.0,
    )


def tooth_labels(
    arch: Arch, view: View, replacement_teeth: tuple[int, ...], offset_mm: float = 2.6
) -> tuple[Label, ...]:
    """Place every tooth's number outside the arch, clear of the crowns, as seen in a view."""
    middles = np.array([tooth.centre for tooth in arch.teeth])
    seen = view.project(middles)
    along = np.gradient(seen, axis=0) if len(seen) > 1 else np.array([[1.0, 0.0]])
    outward = np.stack([-along[:, 1], along[:, 0]], axis=1)
    outward /= np.linalg.norm(outward, axis=1)[:, None]
    outward *= np.sign(np.sum(outward * (seen - seen.mean(axis=0)), axis=1))[:, None]
    return tuple(
        Label(
            str(tooth.code),
            _beside(arch, view, tooth, direction, offset_mm),
            strong=tooth.code in replacement_teeth,
        )
        for tooth, direction in zip(arch.teeth, outward, strict=True)
    )


def _beside(arch: Arch, view: View, tooth: Tooth, direction: Floats, offset_mm: float) -> Floats:
    """Return a point beyond the outline of a tooth in a direction of the picture."""
    crown = arch.mesh.corners[arch.tooth_of_face == tooth.code].reshape(-1, 3)
    middle = view.project(tooth.centre[None])[0]
    reach = ((view.project(crown) - middle) @ direction).max() if len(crown) else 0.0
    step = (reach + offset_mm) * (direction[0] * view.right + direction[1] * view.up)
    return np.asarray(tooth.centre + step)


def excursion_marks(sweep: Sweep, side: str) -> tuple[Marks, ...]:
    """Return the judged contacts of a sweep as marks on one arch: working or plain, nonworking.

    The start itself is left out (its marks are those of MI). The marks of the lower are carried
    to lower coordinates by the pose of each contact.
    """
    patches = sweep.patches
    judged = ~sweep.crossover[patches.pose] & (patches.pose > 0)
    nonworking = np.array(
        [role_of(int(code), sweep.excursion) == "nonworking" for code in patches.tooth_upper],
        dtype=bool,
    )
    shaped = _shaped_rows(sweep)
    places = patches.centroid
    if side == LOWER:
        back = inverse(sweep.poses)[patches.pose]
        places = move_points(back, places[:, None])[:, 0]
    title = excursion_title(sweep.excursion).removesuffix(" excursion")
    style = colours.style_of(sweep.excursion)
    groups = (
        (title if not nonworking.any() else f"{title}, working side", True, judged & ~nonworking),
        (f"{title}, nonworking side", False, judged & nonworking),
    )
    return tuple(
        Marks(label, style, filled, places[rows], shaped[rows])
        for label, filled, rows in groups
        if rows.any()
    )


def _shaped_rows(sweep: Sweep) -> Bools:
    """Choose patches drawn with their shape: every millimetre, and where a pair begins."""
    patches = sweep.patches
    step = np.floor(sweep.travel_mm / SHAPE_EVERY_MM + 1e-6)
    shaped = np.diff(step, prepend=step[0])[patches.pose] > 0.0
    seen: set[tuple[int, int]] = set()
    for row, teeth in enumerate(zip(patches.tooth_upper, patches.tooth_lower, strict=True)):
        pair = (int(teeth[0]), int(teeth[1]))
        shaped[row] |= pair not in seen and sweep.travel_mm[patches.pose[row]] >= _LATE_MM
        seen.add(pair)
    return np.asarray(shaped)


def stop_marks(checkup: Checkup, side: str) -> tuple[Marks, ...]:
    """Return the centric stops in MI as marks on one arch."""
    if not checkup.stops:
        return ()
    places = np.array([stop.point for stop in checkup.stops])
    if side == LOWER:
        places = move_points(inverse(checkup.mi_pose), places)
    every = np.ones(len(places), dtype=bool)
    return (Marks("Stops in maximal intercuspation", colours.MI, True, places, every),)


def marks_alone(scene: Scene, marks: tuple[Marks, ...]) -> Scene:
    """Return marks as they lie over the picture of a scene, without its parts and words."""
    return Scene(scene.view, (), marks)


def occlusal_scene(
    checkup: Checkup, side: str, marks: tuple[Marks, ...], replacement_teeth: tuple[int, ...]
) -> Scene:
    """Describe one arch, looked at from the opposing arch, with marks and tooth numbers."""
    arch = checkup.upper if side == UPPER else checkup.lower
    view = occlusal_view(arch, side)
    back = -1.0 if side == UPPER else 1.0
    aside, low = 0.17 * view.width_mm, back * 0.36 * view.height_mm
    return Scene(
        view,
        arch_parts(arch, side, replacement_teeth),
        marks,
        tooth_labels(arch, view, replacement_teeth),
        notes=(
            Note(view.name.replace(", ", "\n"), (0.0, 0.0)),
            Note("patient's\nright", (-aside, low)),
            Note("patient's\nleft", (aside, low)),
        ),
        scale_at=(0.0, low),
    )
