"""Landmarks of scanned teeth: centre, long axis, edge and cusp tips of every labelled crown."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.casts.casts import Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh
from kinematics.scans.crown_frames import Crown, crowns_of, front_profile, middle_of
from kinematics.scans.cusp_names import Cusps, cusps_of, named_tops
from kinematics.scans.front_edges import front_edge
from kinematics.scans.labels import check_arch
from kinematics.scans.surface_tops import Relief, cap_of, relief_of, smoothed, tops
from kinematics.tooth_codes import is_posterior, place

#: A top of a crown is a cusp if everything higher lies beyond a dip of this, mm. Chosen for this
#: program: ten times the roughness of a scan, less than a worn molar keeps.
PROMINENCE_MM: Final = 0.25
#: A cusp that is not found is the highest point no farther than this from where it usually stands,
#: in fractions of the size of the crown. Chosen for this program: short of its neighbours.
GUESSED_WITHIN: Final = 0.12
#: A cap that reaches farther than this, mm, is a facet and no tip. Chosen for this program: caps of
#: rounded cusps reach at most 1.3, and what was found on wider ones lay up to 1.8 mm off.
LEVEL_MM: Final = 1.4
#: The height of contour is read from what lies so near to the widest place, mm. Chosen for this
#: program.
_WIDEST_MM: Final = 0.1
_CANINE: Final = 3
_TIP: Final = "tip"


@dataclass(frozen=True)
class FoundTeeth:
    """Landmarks of all teeth of an arch.

    Attributes
    ----------
    teeth : tuple of Tooth
        From the patient's right to left, in the coordinates of the mesh.
    guessed : dict of int to tuple of str
        By tooth, names of the cusps whose tip is uncertain. Where no top was found (worn away, or
        not labelled) it is the highest point about where such a cusp usually stands; on a facet
        worn level it is the middle of the facet.
    """

    teeth: tuple[Tooth, ...]
    guessed: dict[int, tuple[str, ...]]


def landmarks_of_teeth(
    mesh: Mesh, tooth_of_face: Ints, side: Literal["upper", "lower"], name: str = "scan"
) -> FoundTeeth:
    """Find the landmarks of every tooth of an arch.

    Crowns may be open at the gum line, as scanned ones are, or closed. A supporting cusp is a
    lingual one of an upper, a buccal one of a lower back tooth (common practice); a crossbite,
    which swaps them, cannot be seen from one arch.

    Parameters
    ----------
    mesh : Mesh
        One arch in a frame with x anterior, y to the patient's left and z superior, mm; it may be
        tilted by about 25 degrees. Teeth are measured by their own surface: a rigid motion of the
        mesh moves the landmarks with it.
    tooth_of_face : ndarray, shape (m,)
        ISO 3950 number of every triangle, 0 where it belongs to no tooth.
    side : {"upper", "lower"}
        Which arch it is.
    name : str
        What to call the arch in messages.

    Raises
    ------
    InputError
        Labels do not fit the mesh or the arch (see `labels.check_arch`), or a tooth cannot be a
        tooth (see `crown_frames.crowns_of`).
    """
    labels = np.asarray(tooth_of_face)
    if labels.shape != (len(mesh.faces),):
        raise InputError(
            f"{name}: wanted one tooth number for each of its {len(mesh.faces)} triangles, found "
            f"an array of shape {labels.shape}"
        )
    check_arch(labels, side, name)
    up, crowns = crowns_of(mesh, labels, name)
    found = [
        _back_tooth(crown) if is_posterior(crown.code) else _front_tooth(crown, up)
        for crown in crowns
    ]
    guessed = {tooth.code: names for tooth, names in found if names}
    return FoundTeeth(tuple(tooth for tooth, _ in found), guessed)


def _front_tooth(crown: Crown, arch_up: Floats) -> tuple[Tooth, tuple[str, ...]]:
    """Return the landmarks of an incisor or canine, and the name of a tip that is uncertain."""
    profile = front_profile(crown.seen, crown.faces, f"tooth {crown.code}")
    level = profile.top_mm - 0.5 * profile.height_mm
    centre = crown.placed(np.array([middle_of(crown.seen[:, 0]), profile.middle_at(level), level]))
    axis = crown.axes[:, 2].copy()
    is_canine = place(crown.code) == _CANINE
    edge = front_edge(crown.seen, crown.faces, is_canine)
    if not is_canine:
        return Tooth(crown.code, centre, axis, crown.placed(edge)), ()
    # Half way between its own axis and the direction of the arch: the one is known less well, the
    # other is not where a leaning tooth was made to come to its tip.
    relief = relief_of(crown.seen, crown.faces)
    heights = smoothed(relief, 0.5 * crown.points @ (axis + arch_up))
    top = cap_of(relief, heights, int(np.argmax(heights)))
    edge = np.insert(edge, int((edge[:, 0] > top.place[0]).sum()), top.place, axis=0)
    tooth = Tooth(crown.code, centre, axis, crown.placed(edge), {_TIP: crown.placed(top.place)})
    return tooth, (_TIP,) if top.reach_mm > LEVEL_MM else ()


def _back_tooth(crown: Crown) -> tuple[Tooth, tuple[str, ...]]:
    """Return the landmarks of a premolar or molar, and names of cusps whose tip is uncertain."""
    low, high = crown.seen.min(axis=0), crown.seen.max(axis=0)
    middle, size = 0.5 * (low + high), high - low
    relief = relief_of(crown.seen, crown.faces)
    heights = smoothed(relief, crown.seen[:, 2])
    found = [cap_of(relief, heights, int(top)) for top in tops(relief, heights, PROMINENCE_MM)]
    places = np.array([top.place for top in found])
    cusps = cusps_of(crown.code)
    named = named_tops(cusps, ((places - middle) / size)[:, :2])
    tips = {
        name: crown.placed(places[named[name]] if name in named else usual)
        for name, usual in _usual_tips(cusps, relief, middle, size).items()
    }
    uncertain = tuple(
        name for name in cusps.names if name not in named or found[named[name]].reach_mm > LEVEL_MM
    )
    tooth = Tooth(
        crown.code,
        crown.placed(np.array([middle[0], middle[1], _contour(crown.seen)])),
        crown.axes[:, 2].copy(),
        np.array([tips[name] for name in cusps.buccal]),
        tips,
        cusps.supporting,
    )
    return tooth, uncertain


def _usual_tips(cusps: Cusps, relief: Relief, middle: Floats, size: Floats) -> dict[str, Floats]:
    """Return the highest vertex (3,) about where each cusp usually stands."""
    places = ((relief.points - middle) / size)[:, :2]
    away = np.linalg.norm(places[:, None] - cusps.places, axis=2)
    within = np.maximum(GUESSED_WITHIN, away.min(axis=0))
    highest = np.argmax(np.where(away <= within, relief.points[:, 2:], -np.inf), axis=0)
    return dict(zip(cusps.names, relief.points[highest], strict=True))


def _contour(seen: Floats) -> float:
    """Return the mean height of the widest places on the four sides of a crown, mm."""
    heights = []
    for across in (seen[:, 0], -seen[:, 0], seen[:, 1], -seen[:, 1]):
        heights.append(float(seen[across > across.max() - _WIDEST_MM, 2].mean()))
    return float(np.mean(heights))
