"""A crown coloured in bands by how near the opposing arch comes, with the outline of a rest."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.planning.rooms.rest_rooms import CrownMap
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.settings import COVERS
from kinematics.tooth_codes import is_posterior, is_upper
from scenes.colours import INK, PAPER
from scenes.gap_colours import rgb
from scenes.phrases import number
from scenes.scene import Part, Scene, View
from scenes.sheet import Boxes, Ground, Item, Line, Sheet, Words

#: Colours of the bands from near to far: of "cividis", as gaps are, apart in grey too.
BANDS: Final = ("#00224e", "#8c8878", "#fee838")
#: White around a crown, mm of the mouth, and the printed size of its map; the style of the page
#: must agree.
_AROUND_MM: Final = 3.0
_PRINTED_MM: Final = 42.0
#: Faces are halved so often that bands end in smooth lines.
_HALVED: Final = 2
_KEY_MM: Final = (120.0, 5.0)
_SAMPLE_MM: Final = (6.0, 3.2)


@dataclass(frozen=True)
class RoomMap:
    """A map to be drawn: the crown, what lies over it, and where its bands end, mm."""

    scene: Scene
    over: Sheet
    limits_mm: tuple[float, float]
    description: str


def rest_maps(rooms: Rooms) -> tuple[RoomMap, ...]:
    """Return a map of every rest; its bands end at the least room and at the room wanted."""
    limits = rooms.settings.rest_least_mm, rooms.settings.rest_wanted_mm
    named = (f"{r.rest.tooth} with the outline of its {r.rest.place} rest" for r in rooms.rests)
    return tuple(
        _map(room.map, room.rest.tooth, limits, text)
        for room, text in zip(rooms.rests, named, strict=True)
    )


def crown_maps(rooms: Rooms) -> tuple[RoomMap, ...]:
    """Return a map of every planned crown; its bands end where its material wants room."""
    covers = (COVERS[room.crown.material] for room in rooms.crowns)
    return tuple(
        _map(
            room.map,
            room.crown.tooth,
            (cover.other_mm, cover.functional_mm),
            str(room.crown.tooth),
        )
        for room, cover in zip(rooms.crowns, covers, strict=True)
    )


def _map(shown: CrownMap, tooth: int, limits: tuple[float, float], named: str) -> RoomMap:
    flat = shown.surface.vertices @ np.stack([shown.across, shown.upward], axis=1)
    low, high = flat.min(axis=0), flat.max(axis=0)
    middle = 0.5 * (low + high)
    depth = float(np.mean(shown.surface.vertices @ shown.towards))
    centre = middle[0] * shown.across + middle[1] * shown.upward + depth * shown.towards
    window = float((high - low).max()) + _AROUND_MM
    view = View(named, shown.towards, shown.upward, centre, window, window)
    scene = Scene(view, (_painted(shown, tooth, limits),))
    return RoomMap(scene, _over(shown, view, tooth), limits, f"Room over {named}")


def _painted(shown: CrownMap, tooth: int, limits: tuple[float, float]) -> Part:
    corners = shown.surface.corners
    far = 2.0 * limits[1]
    values = np.minimum(shown.least_mm, far)[shown.surface.faces][:, :, None]
    both = np.concatenate([corners, values], axis=2)
    for _ in range(_HALVED):
        both = _halved(both)
    band = np.searchsorted(limits, both[:, :, 3].mean(axis=1), side="right")
    paint = np.array([rgb(colour) for colour in BANDS])[band]
    role = f"{'upper' if is_upper(tooth) else 'lower'} tooth"
    faces = np.arange(3 * len(both)).reshape(-1, 3)
    return Part(role, both[:, :, :3].reshape(-1, 3), faces, paint=np.repeat(paint, 3, axis=0))


def _halved(corners: Floats) -> Floats:
    """Return triangles (4 m, 3, k) with the sides of triangles (m, 3, k) halved."""
    a, b, c = corners[:, 0], corners[:, 1], corners[:, 2]
    ab, bc, ca = 0.5 * (a + b), 0.5 * (b + c), 0.5 * (c + a)
    parts = ((a, ab, ca), (ab, b, bc), (ca, bc, c), (ab, bc, ca))
    return np.concatenate([np.stack(part, axis=1) for part in parts])


def _over(shown: CrownMap, view: View, tooth: int) -> Sheet:
    """Return the outline of a rest, and which side is which."""
    magnify = _PRINTED_MM / view.width_mm
    items: list[Item] = []
    if len(shown.outline):
        loop = np.concatenate([shown.outline, shown.outline[:1]])
        places = magnify * (view.project(loop) + 0.5 * view.width_mm)
        items += [Line(places, PAPER, 2.6), Line(places, INK, 1.2, dash=(0, (3, 1.4)), level=2.1)]
    half, edge = 0.5 * _PRINTED_MM, 1.8
    facial = "cheek" if is_posterior(tooth) else "lip"
    lingual = "palate" if is_upper(tooth) else "tongue"
    above, below = (facial, lingual) if shown.from_above else ("edge", "cervix")
    sides = ("distal", "mesial") if shown.mesial_is_right else ("mesial", "distal")
    items += [
        _words(above, (half, _PRINTED_MM - edge)),
        _words(below, (half, edge)),
        _words(sides[0], (edge, half), turned=True),
        _words(sides[1], (_PRINTED_MM - edge, half), turned=True),
    ]
    return Sheet(_PRINTED_MM, _PRINTED_MM, tuple(items), see_through=True)


def _words(text: str, place: tuple[float, float], *, turned: bool = False) -> Words:
    return Words(text, place, size_pt=6.4, ground=Ground(PAPER, 0.8, rounded=True), turned=turned)


def bands_key(limits: tuple[float, float]) -> Sheet:
    """Return what the colours of a map mean."""
    near, wanted = (number(limit, 1) for limit in limits)
    texts = (f"nearer than {near} mm", f"{near} to {wanted} mm", f"{wanted} mm or farther")
    items: list[Item] = []
    for k, (text, colour) in enumerate(zip(texts, BANDS, strict=True)):
        left = 0.5 + 40.0 * k
        items.append(Boxes(((left, 0.9, *_SAMPLE_MM),), colour, rim=INK))
        items.append(Words(text, (left + _SAMPLE_MM[0] + 1.6, 2.5), "left", size_pt=7.5))
    return Sheet(*_KEY_MM, tuple(items), see_through=True)
