"""From results to pictures of arches: their parts, how they are looked at, numbers and marks."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from typing import Final

import numpy as np

from kinematics.casts.cast_bodies import LAND, SOFT, UNDERSIDE, WALL, CastBody
from kinematics.casts.casts import NO_TOOTH, Arch, Tooth
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.geometry.meshes import Mesh
from kinematics.geometry.poses import inverse, move_points
from kinematics.planning.stops import Stop
from scenes.movement_styles import MI, style_of
from scenes.phrases import excursion_title, role_of
from scenes.scene import Label, Marks, Note, Part, Scene, View

UPPER: Final = "upper"
LOWER: Final = "lower"
#: Travel at which a mark of its own shape is drawn; between them the trace is fine dots.
SHAPE_EVERY_MM: Final = 1.0
#: A pair that begins to touch after this travel gets its shape there too.
_LATE_MM: Final = 0.5
#: Room in an occlusal view around the crowns (forward and back, to the sides) and around the body.
_AROUND_CROWNS_MM: Final = (6.5, 8.5)
_AROUND_CAST_MM: Final = 0.5
#: Which part of the height of a crown is near its neck, and how far a number is lifted off it.
_NEAR_NECK: Final = (0.2, 0.5)
_LIFT_MM: Final = 0.4
_NO_VERTEX: Final = np.empty(0, dtype=np.int64)


def arch_parts(arch: Arch, side: str, replacement_teeth: tuple[int, ...]) -> tuple[Part, ...]:
    """Return the teeth of an arch, natural and replacement, and what of its body it has."""
    parts = (*_crown_parts(arch, side, replacement_teeth), *body_parts(arch.body))
    return tuple(replace(part, cast=side) for part in parts)


def _crown_parts(arch: Arch, side: str, replacement_teeth: tuple[int, ...]) -> list[Part]:
    tooth = arch.tooth_of_face
    replaced = np.isin(tooth, replacement_teeth)
    roles = {
        "gum": tooth == NO_TOOTH,
        f"{side} tooth": (tooth != NO_TOOTH) & ~replaced,
        "replacement tooth": replaced,
    }
    label = np.full(len(arch.mesh.vertices), NO_TOOTH)
    label[arch.mesh.faces] = tooth[:, None]
    return [
        replace(part, tooth=label[part.vertex_of])
        for part in (_part(arch.mesh, role, faces) for role, faces in roles.items() if faces.any())
    ]


def body_parts(body: CastBody | None) -> tuple[Part, ...]:
    """Return gums, denture base and the base of a cast; surfaces between sharp edges apart."""
    if body is None:
        return ()
    kinds = [np.isin(body.kind, SOFT), *(body.kind == kind for kind in (LAND, WALL, UNDERSIDE))]
    roles = ("gum", "stone", "stone", "stone")
    parts = [
        replace(_part(body.mesh, role, chosen), around_teeth=True, vertex_of=_NO_VERTEX)
        for role, chosen in zip(roles, kinds, strict=True)
        if chosen.any()  # a scan has no stone
    ]
    base = body.denture_base
    if base is not None:
        parts.append(Part("denture base", base.vertices, base.faces, around_teeth=True))
    return tuple(parts)


def has_base(arch: Arch) -> bool:
    """Tell whether a cast stands on a base of stone, as scans do not."""
    return arch.body is not None and not bool(np.isin(arch.body.kind, SOFT).all())


def _part(mesh: Mesh, role: str, chosen: Bools) -> Part:
    used = _vertices_of(mesh, chosen)
    numbers = np.cumsum(used) - 1
    faces = numbers[mesh.faces[chosen]]
    return Part(role, mesh.vertices[used], faces, vertex_of=np.flatnonzero(used))


def _vertices_of(mesh: Mesh, chosen: Bools) -> Bools:
    """Return which vertices the chosen triangles use."""
    used = np.zeros(len(mesh.vertices), dtype=bool)
    used[mesh.faces[chosen]] = True
    return used


def crown_vertices(arch: Arch) -> Floats:
    """Return the vertices of all teeth (n, 3), without gum and base."""
    return arch.mesh.vertices[_vertices_of(arch.mesh, arch.tooth_of_face != NO_TOOTH)]


def cast_vertices(arch: Arch) -> Floats:
    """Return the vertices of all teeth and of the body around them (n, 3)."""
    crowns = crown_vertices(arch)
    return crowns if arch.body is None else np.concatenate([crowns, arch.body.mesh.vertices])


def occlusal_view(arch: Arch, side: str) -> View:
    """Look straight at the chewing surfaces, along the vertical of the reference plane.

    Both arches are seen as when facing the patient and looking into the open mouth: the
    patient's right is on the left of the picture, the upper front teeth are at its top and the
    lower front teeth at its bottom.
    """
    low, high = _frame(arch)
    sign = 1.0 if side == UPPER else -1.0
    words = "seen from below" if side == UPPER else "seen from above"
    return View(
        f"{side} arch, {words}",
        towards=np.array([0.0, 0.0, sign]),
        up=np.array([sign, 0.0, 0.0]),
        centre=0.5 * (low + high),
        width_mm=float(np.ceil(high[1] - low[1])),
        height_mm=float(np.ceil(high[0] - low[0])),
    )


def _frame(arch: Arch) -> tuple[Floats, Floats]:
    """Return the corners of an occlusal view: crowns with their numbers, and the body."""
    crowns, cast = crown_vertices(arch), cast_vertices(arch)
    around = np.array([*_AROUND_CROWNS_MM, 0.0])
    return (
        np.minimum(crowns.min(axis=0) - around, cast.min(axis=0) - _AROUND_CAST_MM),
        np.maximum(crowns.max(axis=0) + around, cast.max(axis=0) + _AROUND_CAST_MM),
    )


def tooth_labels(
    arch: Arch, view: View, replacement_teeth: tuple[int, ...], offset_mm: float = 3.6
) -> tuple[Label, ...]:
    """Place every tooth's number outside the arch, clear of the crowns, as seen in a view."""
    return tuple(
        Label(
            str(tooth.code),
            _beside(arch, view, tooth, direction, offset_mm),
            strong=tooth.code in replacement_teeth,
        )
        for tooth, direction in zip(arch.teeth, _outward(arch, view), strict=True)
    )


def crown_labels(
    arch: Arch, side: str, view: View, replacement_teeth: tuple[int, ...]
) -> tuple[Label, ...]:
    """Place every tooth's number on its crown: on the outer side, near the neck, lifted a little.

    There it is seen from the front, from the sides and from the other arch, and leaves bare what
    touches. `view` looks along the vertical.
    """
    return tuple(
        Label(str(tooth.code), point, strong=tooth.code in replacement_teeth, on_crown=True)
        for tooth, direction in zip(arch.teeth, _outward(arch, view), strict=True)
        for point in [_near_neck(arch, side, tooth, view, direction)]
    )


def _near_neck(arch: Arch, side: str, tooth: Tooth, view: View, direction: Floats) -> Floats:
    """Return a point just outside a crown, at the height of what is nearest to its neck."""
    crown = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == tooth.code]].reshape(-1, 3)
    outward = direction[0] * view.right + direction[1] * view.up
    if not len(crown):
        return tooth.centre
    neck = crown[:, 2].max() if side == UPPER else crown[:, 2].min()
    far = np.abs(crown[:, 2] - neck)
    low, high = np.multiply(_NEAR_NECK, far.max())
    near = crown[(far >= low) & (far <= high)]
    near = near if len(near) else crown
    reach = ((near - tooth.centre) @ outward).max() + _LIFT_MM
    point = tooth.centre + reach * outward
    return np.array([point[0], point[1], near[:, 2].mean()])


def inner_labels(
    arch: Arch, view: View, texts: Mapping[int, str], offset_mm: float = 3.6
) -> tuple[Label, ...]:
    """Place a text at some teeth inside the arch, clear of the crowns, as seen in a view."""
    return tuple(
        Label(texts[tooth.code], _beside(arch, view, tooth, -direction, offset_mm))
        for tooth, direction in zip(arch.teeth, _outward(arch, view), strict=True)
        if tooth.code in texts
    )


def _outward(arch: Arch, view: View) -> Floats:
    """Return which way leads out of the arch at every tooth, unit directions of the picture."""
    seen = view.project(np.array([tooth.centre for tooth in arch.teeth]))
    along = np.gradient(seen, axis=0) if len(seen) > 1 else np.array([[1.0, 0.0]])
    outward = np.stack([-along[:, 1], along[:, 0]], axis=1)
    outward /= np.linalg.norm(outward, axis=1)[:, None]
    outward *= np.sign(np.sum(outward * (seen - seen.mean(axis=0)), axis=1))[:, None]
    return np.asarray(outward)


def _beside(arch: Arch, view: View, tooth: Tooth, direction: Floats, offset_mm: float) -> Floats:
    """Return a point beyond the outline of a tooth in a direction of the picture."""
    crown = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == tooth.code]].reshape(-1, 3)
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
    style = style_of(sweep.excursion)
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


def stop_marks(stops: Sequence[Stop], mi_pose: Floats, side: str) -> tuple[Marks, ...]:
    """Return the centric stops in MI as marks on one arch; `mi_pose` is hinge_from_lower there."""
    if not stops:
        return ()
    places = np.array([stop.point for stop in stops])
    if side == LOWER:
        places = move_points(inverse(mi_pose), places)
    every = np.ones(len(places), dtype=bool)
    return (Marks("Stops in maximal intercuspation", MI, True, places, every),)


def occlusal_scene(arch: Arch, side: str, replacement_teeth: tuple[int, ...]) -> Scene:
    """Describe one arch, looked at from the opposing arch, with its tooth numbers."""
    view = occlusal_view(arch, side)
    back = -1.0 if side == UPPER else 1.0
    aside, low = 0.1 * view.width_mm, back * 0.36 * view.height_mm
    scale, words = max(low, 0.75 * low), min(low, 0.75 * low)  # the scale line stands above
    return Scene(
        view,
        arch_parts(arch, side, replacement_teeth),
        labels=tooth_labels(arch, view, replacement_teeth),
        notes=(
            Note(view.name.replace(", ", "\n"), (0.0, 0.0)),
            Note("patient's\nright", (-aside, words)),
            Note("patient's\nleft", (aside, words)),
        ),
        scale_at=(0.0, scale),
    )
