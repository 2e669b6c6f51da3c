"""From results to what the page is told: teeth, one pose, and how near the arches come."""

from collections.abc import Mapping
from typing import Any, Final

import numpy as np

from kinematics.contact.closure import MEETS
from kinematics.contact.gap_maps import DistanceMap
from kinematics.contact.mounted import (
    GUIDED_BY_PIN,
    GUIDED_BY_TABLE,
    GUIDED_BY_TEETH,
    MountedCasts,
)
from kinematics.conventions import Floats
from kinematics.guidance.excursions import Excursion
from kinematics.live import RAISED_BITE, PoseAt
from scenes.moving_casts import frame_at
from scenes.page_frames import frame
from scenes.phrases import counted, excursion_title, length, number, pair, role_of, start_words
from scenes.scene import Gaps, Scene
from scenes.scene_bytes import gap_arrays, scene_arrays
from scenes.tooth_names import tooth_name

#: Distance up to which gaps are shown on the teeth.
MAP_LIMIT_MM: Final = 1.0

_GUIDE: Final = {GUIDED_BY_TEETH: "teeth", GUIDED_BY_TABLE: "table", GUIDED_BY_PIN: "pin"}
#: What holds the jaw open, where teeth do not.
_HELD: Final = {GUIDED_BY_TABLE: " (held by the guide table)", GUIDED_BY_PIN: " (held by the pin)"}


def teeth_answer(
    number_: int,
    scene: Scene,
    casts: MountedCasts,
    replacement_teeth: tuple[int, ...],
    changed: tuple[int, ...] = (),
    notes: tuple[str, ...] = (),
) -> bytes:
    """Return the message with both casts as they stand in MI.

    `changed`: teeth of a trial set-up; `notes`: what of it could not be done as asked.
    """
    parts, places, arrays = scene_arrays(scene)
    codes = (*casts.upper.codes, *casts.lower.codes)
    triangles = [f"{len(arch.mesh.faces):,}" for arch in (casts.upper, casts.lower)]
    labels = [
        {
            "arch": "upper" if int(label.text) in casts.upper.codes else "lower",
            "tooth": int(label.text),
            "text": label.text,
            "point": _point(label.point),
            "strong": label.strong,
            "on_crown": label.on_crown,
        }
        for label in scene.labels
    ]
    told = {
        "kind": "teeth",
        "number": number_,
        "resolution_words": f"upper {triangles[0]}, lower {triangles[1]} triangles",
        "parts": parts,
        "places": places,
        "labels": labels,
        "names": {str(code): tooth_name(code) for code in codes},
        "replacement": list(replacement_teeth),
        "changed": list(changed),
        "notes": list(notes),
        "centre": _point(scene.view.centre),
    }
    return frame(told, arrays)


def pose_answer(
    number_: int,
    scene: Scene,
    casts: MountedCasts,
    excursion: Excursion,
    at: PoseAt,
    opened_mm: float,
    standing: Floats,
    near: DistanceMap,
) -> bytes:
    """Return the message with one pose.

    Parameters
    ----------
    number_ : int
        Of the message answered.
    scene : Scene
        Both casts.
    casts : MountedCasts
        The same, with their guidance.
    excursion : Excursion
        What the pose belongs to.
    at : PoseAt
        The pose at closure.
    opened_mm : float
        How far the lower incisal point is opened beyond it.
    standing : ndarray, shape (4, 4)
        hinge_from_lower, opened.
    near : DistanceMap
        Shortest distances as the lower stands.
    """
    closed = opened_mm == 0.0
    told: dict[str, Any] = {
        "kind": "pose",
        "number": number_,
        "movement": excursion.name,
        "start": excursion.start,
        "travel_mm": at.travel_mm,
        "opening_deg": float(np.degrees(at.opening_rad)),
        "opened_mm": opened_mm,
        "guide": _GUIDE.get(at.guide, "nothing"),
        "words": pose_words(excursion, at, opened_mm),
        "first": first_contact(at) if closed else None,
        "next": next_contact(at) if closed else None,
        "contacts": _contact_rows(excursion, at) if closed else [],
        "incisal_mm": _point(_moved(standing, casts.incisal_point)),
        "condyles_mm": {
            "right": _point(at.positions.condyle_right[0]),
            "left": _point(at.positions.condyle_left[0]),
        },
        "map_limit_mm": MAP_LIMIT_MM,
    }
    shown = frame_at(casts, standing, near, MAP_LIMIT_MM)
    told["move"] = [float(value) for value in shown.move.ravel()]
    return frame(told, gap_arrays(scene, shown.gaps) if shown.gaps else None)


def _contact_rows(excursion: Excursion, at: PoseAt) -> list[Mapping[str, Any]]:
    """Return what is told of every contact patch, from the patient's right to left.

    Before the jaw has gone anywhere no side works.
    """
    patches = at.patches
    order = np.argsort(patches.centroid[:, 1], kind="stable")
    return [
        {
            "upper": int(patches.tooth_upper[i]),
            "lower": int(patches.tooth_lower[i]),
            "place": _point(patches.centroid[i]),
            "side": role_of(int(patches.tooth_upper[i]), excursion) if at.travel_mm else "",
            "area_mm2": float(patches.area_mm2[i]),
            "gap_mm": float(patches.least_gap_mm[i]),
        }
        for i in order
    ]


def pose_words(excursion: Excursion, at: PoseAt, opened_mm: float) -> str:
    """Say in one line where the jaw stands and what touches."""
    where = f"{excursion_title(excursion)} {start_words(excursion)}, {number(at.travel_mm, 1)} mm"
    if excursion == RAISED_BITE:
        where = "Raised bite, condyles in centric relation (CR)"
    if opened_mm > 0.0:
        return f"{where}, opened by {number(opened_mm, 1)} mm at the lower incisal point"
    if first_contact(at) is None and at.guide not in _HELD:
        return f"{where}: nothing meets"
    teeth = zip(at.patches.tooth_upper.tolist(), at.patches.tooth_lower.tolist(), strict=True)
    pairs = dict.fromkeys(teeth)
    touching = ", ".join(pair(*both) for both in pairs)
    following = next_contact(at)
    after = ""
    if following and (following["upper"], following["lower"]) not in pairs:
        then = pair(following["upper"], following["lower"])
        after = f"; next would be {then} after {length(following['gap_mm'])} of closing"
    what = f"{counted(len(pairs), 'pair')} in contact: {touching}" if pairs else "no teeth touch"
    return f"{where}{_HELD.get(at.guide, '')}: {what}{after}"


def first_contact(at: PoseAt) -> Mapping[str, Any] | None:
    """Return the teeth that hold the jaw; None where the table does or nothing meets."""
    if at.guide != GUIDED_BY_TEETH or at.closures.status[0] != MEETS:
        return None
    return {
        "upper": int(at.closures.tooth_upper[0]),
        "lower": int(at.closures.tooth_lower[0]),
        "place": _point(at.closures.point[0]),
    }


def next_contact(at: PoseAt) -> Mapping[str, Any] | None:
    """Return what would touch next; on the guide table that is not measured."""
    if not np.isfinite(at.runner_up_gap_mm) or at.guide == GUIDED_BY_TABLE:
        return None
    return {
        "upper": int(at.runner_up.tooth_upper[0]),
        "lower": int(at.runner_up.tooth_lower[0]),
        "gap_mm": float(at.runner_up_gap_mm),
    }


def reach_answer(number_: int, scene: Scene, excursion: Excursion, near: DistanceMap) -> bytes:
    """Return the message with how near the arches come in a whole excursion."""
    told = {
        "kind": "reach",
        "number": number_,
        "movement": excursion.name,
        "start": excursion.start,
        "map_limit_mm": MAP_LIMIT_MM,
    }
    shown = Gaps(near.upper_mm, near.lower_mm, MAP_LIMIT_MM)
    return frame(told, gap_arrays(scene, shown))


def _moved(pose: Floats, point: Floats) -> Floats:
    return np.asarray(pose[:3, :3] @ point + pose[:3, 3])


def _point(place: Floats) -> list[float]:
    return [float(value) for value in place]
