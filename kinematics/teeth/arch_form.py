"""Where crowns stand: arch curve, occlusal sphere, frame of every tooth of the left side.

Arch frame: x forward, y to the left, z up, mm; origin where the upper arch curve crosses the
midline, z = 0 at the lowest point of the occlusal sphere.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Final

import numpy as np

from kinematics.checks import NotConverged
from kinematics.conventions import Floats
from kinematics.geometry.poses import rotation_about
from kinematics.teeth.crown_table import ArchSpan, CrownTable, SetUp

#: Half the width over which the arch curve is sampled, mm, and the samples' distance.
_REACH_MM: Final = 40.0
_STEP_MM: Final = 0.02
_ACROSS: Final = np.arange(0.0, _REACH_MM, _STEP_MM)
_ACROSS_2: Final = _ACROSS**2
_ACROSS_5: Final = _ACROSS**5
#: b of the flattest arch curve that is used, per mm.
_FLATTEST: Final = 2e-4


@dataclass(frozen=True)
class ArchCurve:
    """x = x0 - b y^2 - a |y|^5 through the proximal contacts; x forward, y left, mm."""

    x0: float
    b: float
    a: float


@dataclass(frozen=True)
class Placement:
    """Frame of one tooth in the arch frame.

    Attributes
    ----------
    axes : ndarray, shape (3, 3)
        Columns: mesial, facial and occlusal direction of the crown. Left-handed on the upper.
    origin : ndarray, shape (3,)
        Where the crown's own origin (axis at the cervical line) lies, mm.
    distal : ndarray, shape (3,)
        Unit vector along the arch, distally, in the plane z = 0.
    """

    axes: Floats
    origin: Floats
    distal: Floats

    def points(self, local: Floats) -> Floats:
        """Return points (n, 3) of the crown's own frame in the arch frame, mm."""
        return local @ self.axes.T + self.origin

    def moved(self, by: Floats) -> "Placement":
        """Return the frame moved by a vector (3,), mm."""
        return Placement(self.axes, self.origin + by, self.distal)


def sphere_height(set_up: SetUp, x: float, y: float) -> float:
    """Return the height of the occlusal sphere over its lowest point at (x, y), mm."""
    away = (x - set_up.sphere_lowest_x) ** 2 + y**2
    return float(set_up.sphere_radius - np.sqrt(set_up.sphere_radius**2 - away))


def sphere_normal(set_up: SetUp, x: float, y: float) -> Floats:
    """Return the unit vector from the occlusal sphere at (x, y) to its centre."""
    to_centre = np.array(
        [
            set_up.sphere_lowest_x - x,
            -y,
            set_up.sphere_radius - sphere_height(set_up, x, y),
        ]
    )
    return np.asarray(to_centre / set_up.sphere_radius)


def contact_points(curve: ArchCurve, widths: Floats) -> Floats:
    """Return the proximal contacts (n + 1, 2) of teeth laid by chord from the midline, mm.

    Parameters
    ----------
    curve : ArchCurve
        The curve they lie on.
    widths : ndarray, shape (n,)
        Mesiodistal sizes from the central incisor on, mm.
    """
    x = curve.x0 - curve.b * _ACROSS_2 - curve.a * _ACROSS_5
    points = [np.array([curve.x0, 0.0])]
    for width in widths:
        # Only the part behind the last contact; the distance grows along it.
        first = int(np.searchsorted(_ACROSS, points[-1][1]))
        y = _ACROSS[first:]
        place = np.interp(width, np.hypot(x[first:] - points[-1][0], y - points[-1][1]), y)
        points.append(np.array([curve.x0 - curve.b * place**2 - curve.a * place**5, place]))
    return np.array(points)


def half_widths(curve: ArchCurve, widths: Floats) -> Floats:
    """Return y (2,) of the middle of canine and first molar between their contacts, mm."""
    y = contact_points(curve, widths[:6])[:, 1]
    return np.array([0.5 * (y[2] + y[3]), 0.5 * (y[5] + y[6])])


def curve_through(span: ArchSpan, widths: Floats) -> ArchCurve:
    """Return the arch curve on which canine and first molar have the wanted half widths.

    Parameters
    ----------
    span : ArchSpan
        Where the curve crosses the midline, and the two half widths.
    widths : ndarray, shape (n,)
        Mesiodistal sizes from the central incisor to the first molar or beyond, mm.

    Raises
    ------
    NotConverged
        No such curve: the half widths do not go with the sizes of the teeth.
    """
    wanted = np.array([span.canine, span.molar])
    # Unknowns scaled so that both are near 1.
    unit = np.array([0.01, 3e-6])
    values = np.ones(2)
    missing = np.full(2, np.inf)
    for _ in range(30):
        found = half_widths(ArchCurve(span.x0, *(values * unit)), widths)
        missing = wanted - found
        if np.abs(missing).max() < 1e-6:
            return ArchCurve(span.x0, *(float(v) for v in values * unit))
        slopes = np.stack(
            [
                half_widths(ArchCurve(span.x0, *((values + step) * unit)), widths) - found
                for step in 1e-3 * np.eye(2)
            ],
            axis=1,
        )
        step = np.linalg.solve(slopes / 1e-3, missing)
        values = np.clip(values + np.clip(step, -0.5, 0.5), 1e-3, 10.0)
    raise NotConverged(
        f"fitting an arch curve to half widths of {span.canine:.2f} mm at the canines and "
        f"{span.molar:.2f} mm at the first molars, mm; change arch width or overjet less",
        float(np.abs(missing).max()),
        30,
    )


def widest_canine(span: ArchSpan, widths: Floats) -> float:
    """Return the greatest half width at the canines, mm, for the molar width of a span.

    There the arch is flat in front (b nearly 0); teeth of these sizes reach no farther.
    """
    return _widest_canine(span.x0, span.molar, tuple(widths.tolist()))


@lru_cache(maxsize=64)
def _widest_canine(x0: float, molar: float, sizes: tuple[float, ...]) -> float:
    widths = np.array(sizes)
    low, high = 1e-7, 3e-5
    for _ in range(30):
        middle = 0.5 * (low + high)
        narrow = half_widths(ArchCurve(x0, _FLATTEST, middle), widths)[1] < molar
        low, high = (low, middle) if narrow else (middle, high)
    return float(half_widths(ArchCurve(x0, _FLATTEST, low), widths)[0])


def _base_axes(mesial: Floats, axis: Floats) -> Floats:
    """Return axes from a mesial direction and an occlusal axis; facial points away from both."""
    mesial = mesial - (mesial @ axis) * axis
    mesial = mesial / np.linalg.norm(mesial)
    return np.stack([mesial, np.cross(axis, mesial), axis], axis=1)


def _leaned(axes: Floats, torque_deg: float, tip_deg: float, turn_deg: float) -> Floats:
    """Return axes leaned facially, then mesially, then turned with the mesial end outward."""
    # In the crown's own coordinates, so that the same words hold on both arches.
    lean = (
        rotation_about(np.array([0.0, 0.0, 1.0]), np.radians(turn_deg))
        @ rotation_about(np.array([0.0, 1.0, 0.0]), np.radians(tip_deg))
        @ rotation_about(np.array([1.0, 0.0, 0.0]), -np.radians(torque_deg))
    )
    return np.asarray(axes @ lean)


def place_tooth(table: CrownTable, kind: str, contacts: Floats, slide: float) -> Placement:
    """Return the frame of a left tooth between its two proximal contacts.

    Parameters
    ----------
    table : CrownTable
        Crown forms and set-up.
    kind : str
        Crown type, as "U6".
    contacts : ndarray, shape (2, 2)
        Mesial and distal contact, mm.
    slide : float
        How far the tooth is moved distally along its chord, mm.
    """
    set_up = table.set_up
    chord = contacts[1] - contacts[0]
    chord = chord / np.linalg.norm(chord)
    outward = np.array([chord[1], -chord[0]])
    middle = contacts.mean(axis=0) + outward * set_up.buccal_offset.get(kind, 0.0) + chord * slide
    x, y = float(middle[0]), float(middle[1])
    height = sphere_height(set_up, x, y)
    front = kind in table.anterior
    up = np.array([0.0, 0.0, 1.0]) if front else sphere_normal(set_up, x, y)
    mesial = np.array([-chord[0], -chord[1], 0.0])
    axes = _base_axes(mesial, up)
    if kind[0] == "U":
        axes = axes * np.array([1.0, 1.0, -1.0])
    axes = _leaned(
        axes,
        set_up.torque.get(kind, 0.0),
        set_up.tip.get(kind, 0.0),
        set_up.turn.get(kind, 0.0),
    )
    if front:
        height += set_up.edge_over_sphere[kind]
        reference = np.array([0.0, 0.0, table.anterior[kind].size[2]])
    else:
        reference = np.array([0.0, 0.0, table.posterior[kind].reference_height])
    origin = np.array([x, y, height]) - axes @ reference
    return Placement(axes, origin, np.array([chord[0], chord[1], 0.0]))


@lru_cache(maxsize=64)
def _contacts_of(span: ArchSpan, sizes: tuple[float, ...]) -> Floats:
    """Return the proximal contacts (n + 1, 2) of teeth of these sizes on the curve of a span."""
    widths = np.array(sizes)
    contacts = contact_points(curve_through(span, widths), widths)
    contacts.setflags(write=False)
    return contacts


def arch_contacts(table: CrownTable, arch: str, last: int) -> Floats:
    """Return the proximal contacts (last + 1, 2) of an arch from the midline to a place, mm."""
    return _contacts_of(table.set_up.spans[arch], tuple(table.widths(arch, last).tolist()))


def place_side(table: CrownTable, arch: str, slides: Mapping[str, float]) -> dict[str, Placement]:
    """Return the frames of the seven left teeth of an arch ("U" or "L"), keyed by crown type.

    Parameters
    ----------
    table : CrownTable
        Crown forms and set-up.
    arch : str
        "U" or "L".
    slides : mapping of str to float
        How far each tooth is moved distally along its chord, mm.
    """
    contacts = arch_contacts(table, arch, 7)
    return {
        f"{arch}{k + 1}": place_tooth(
            table, f"{arch}{k + 1}", contacts[k : k + 2], slides.get(f"{arch}{k + 1}", 0.0)
        )
        for k in range(7)
    }
