"""Places on a crown where a framework meets it: marginal ridges, cingulum, proximal surfaces.

Only landmarks and the surface are used, so that they are found on scanned crowns too.
"""

from dataclasses import dataclass
from functools import cached_property
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.geometry.meshes import Mesh, part_of
from kinematics.geometry.nearest_points import nearest_on
from kinematics.planning.denture_parts import RestPlace
from kinematics.tooth_codes import arch_place

#: A rest on a marginal ridge lies so far from that end of the crown, in mesiodistal sizes: half the
#: length of a rest seat, which is a third to a half of that size (dentowesome.in, 2022).
SEAT_SHARE: Final = 1.0 / 6.0
#: Height of a cingulum rest above the cervix, in heights of the crown: between middle and cervical
#: third (common practice).
CINGULUM_SHARE: Final = 1.0 / 3.0
#: A slice of a crown about a place is so thick on either side, mm (chosen for this program).
_SLICE_MM: Final = 0.5


@dataclass(frozen=True)
class CrownFrame:
    """A crown and its directions, in the coordinates of its arch.

    Attributes
    ----------
    tooth : Tooth
        Its landmarks.
    surface : Mesh
        Its triangles.
    mesial, facial, up : ndarray, shape (3,)
        Unit, at right angles: along the arch towards the midline, towards cheek or lip, and along
        the long axis towards the other arch.
    """

    tooth: Tooth
    surface: Mesh
    mesial: Floats
    facial: Floats
    up: Floats

    @cached_property
    def seen(self) -> Floats:
        """Vertices (n, 3) along mesial, facial and up, from the middle of the crown, mm."""
        return np.asarray((self.surface.vertices - self.tooth.centre) @ self._axes.T)

    @cached_property
    def _axes(self) -> Floats:
        return np.stack([self.mesial, self.facial, self.up])

    def rest_at(self, place: RestPlace, seats: Floats) -> Floats:
        """Return the middle of a rest (3,), mm.

        Parameters
        ----------
        place : "mesial", "distal" or "cingulum"
            Where on the crown.
        seats : ndarray, shape (n, 3)
            Picked places for rests on it; one on the side of the place is taken, the nearest to
            where the rest would lie else, and brought onto the surface.
        """
        on_cingulum = place == "cingulum"
        usual = self.rest_on_cingulum() if on_cingulum else self.rest_on_ridge(place == "mesial")
        local = (seats - self.tooth.centre) @ self._axes.T
        towards = -local[:, 1] if on_cingulum else local[:, 0] * (1 if place == "mesial" else -1)
        own = seats[towards > 0.0]
        if len(own) == 0:
            return usual
        nearest = own[np.argmin(np.linalg.norm(own - usual, axis=1))]
        return np.asarray(nearest_on(self.surface, nearest[None])[0][0])

    def rest_on_ridge(self, mesial: bool) -> Floats:
        """Return the middle of a rest on a marginal ridge (3,), mm."""
        low, high = self.seen[:, 0].min(), self.seen[:, 0].max()
        inward = SEAT_SHARE * (high - low)
        along = float(high - inward if mesial else low + inward)
        near = self.seen[np.abs(self.seen[:, 0] - along) < _SLICE_MM, 1]
        across = 0.5 * float(near.min() + near.max()) if len(near) else 0.0
        return self._outermost((along, across), 2, 1.0)

    def rest_on_cingulum(self) -> Floats:
        """Return the middle of a rest on the cingulum (3,), mm."""
        low, high = self.seen[:, 2].min(), self.seen[:, 2].max()
        return self._outermost((0.0, float(low + CINGULUM_SHARE * (high - low))), 1, -1.0)

    def guide_plane(self, mesial: bool) -> Floats:
        """Return the middle of a guide plane (3,), mm: proximal, at the height of contour."""
        return self._outermost((0.0, 0.0), 0, 1.0 if mesial else -1.0)

    def _outermost(self, at: tuple[float, float], axis: int, sign: float) -> Floats:
        """Return where a line along one of the directions leaves the crown; a hole: nearest to it.

        Parameters
        ----------
        at : (float, float)
            Where it runs along the other two, in their order.
        axis : int
            Of the direction.
        sign : float
            1 or -1: which way it leaves.
        """
        others = [k for k in range(3) if k != axis]
        corners = self.seen[self.surface.faces]
        flat = corners[:, :, others] - np.array(at)
        one, two, three = flat[:, 0], flat[:, 1], flat[:, 2]
        shares = np.stack([_cross(two, three), _cross(three, one), _cross(one, two)], axis=1)
        total = shares.sum(axis=1)
        hit = (total != 0.0) & ((shares >= 0.0).all(axis=1) | (shares <= 0.0).all(axis=1))
        place = np.empty(3)
        place[others] = at
        weights = shares[hit] / total[hit, None]
        reached = sign * (weights * corners[hit][:, :, axis]).sum(axis=1)
        if (reached > 0.0).any():  # through a hole it leaves on the wrong side alone
            place[axis] = sign * reached.max()
            return self._placed(place)
        place[axis] = sign * np.max(sign * self.seen[:, axis])
        return np.asarray(nearest_on(self.surface, self._placed(place)[None])[0][0])

    def _placed(self, place: Floats) -> Floats:
        return np.asarray(self.tooth.centre + place @ self._axes)


def _cross(one: Floats, other: Floats) -> Floats:
    return np.asarray(one[:, 0] * other[:, 1] - one[:, 1] * other[:, 0])


def crown_frame(arch: Arch, code: int) -> CrownFrame:
    """Return the frame of a crown.

    Parameters
    ----------
    arch : Arch
        The arch it stands in.
    code : int
        ISO 3950 number.

    Raises
    ------
    InputError
        There is no such tooth, or it stands alone in its arch, so that nothing tells which of its
        sides is mesial.
    """
    tooth = arch.tooth(code)
    others = sorted(
        (other for other in arch.teeth if other.code != code),
        key=lambda other: abs(arch_place(other.code) - arch_place(code)),
    )
    if not others:
        raise InputError(f"tooth {code} stands alone in its arch; a framework wants more teeth")
    up = np.asarray(tooth.long_axis, dtype=np.float64)
    left = _across(_towards_left(tooth, others), up)
    mesial = left if arch_place(code) < 0 else -left
    # Seen from the other arch the patient's left lies at the same hand on both arches, so facial
    # is told by the way from the middle of the arch.
    facial = np.cross(up, mesial)
    middle = np.mean([other.centre for other in arch.teeth], axis=0)
    if facial @ (tooth.centre - middle) < 0.0:
        facial = -facial
    surface, _ = part_of(arch.mesh, arch.tooth_of_face == code)
    return CrownFrame(tooth, surface, mesial, facial, up)


def _towards_left(tooth: Tooth, others: list[Tooth]) -> Floats:
    """Return the way along the arch towards the patient's left at a tooth, by its neighbours."""
    here = arch_place(tooth.code)
    before = [other for other in others if arch_place(other.code) < here][:1]
    after = [other for other in others if arch_place(other.code) > here][:1]
    steps = [tooth.centre - other.centre for other in before]
    steps += [other.centre - tooth.centre for other in after]
    return np.asarray(sum(step / np.linalg.norm(step) for step in steps))


def _across(vector: Floats, up: Floats) -> Floats:
    """Return the unit vector of the part of a vector square to a direction."""
    flat = vector - (vector @ up) * up
    return np.asarray(flat / np.linalg.norm(flat))
