"""An arch: triangles, the tooth of every triangle, and where each tooth's landmarks are."""

from dataclasses import dataclass, field
from functools import cached_property

from kinematics.casts.cast_bodies import CastBody, moved_body
from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, moved_mesh
from kinematics.geometry.poses import move_points, turn_vectors
from kinematics.tooth_codes import is_upper

#: Tooth number of triangles that belong to no tooth (gums, base).
NO_TOOTH = 0


@dataclass(frozen=True)
class Tooth:
    """Landmarks of one tooth, in the coordinates of its arch (upper: hinge frame), mm.

    Attributes
    ----------
    code : int
        ISO 3950 number.
    centre : ndarray, shape (3,)
        Middle of the crown at the height of its contour.
    long_axis : ndarray, shape (3,)
        Unit vector from the cervix towards the edge or the occlusal table.
    edge : ndarray, shape (k, 3)
        What reaches edge-to-edge: points along the incisal edge from mesial to distal, the canine
        tip with its two arms, or the buccal cusp tips.
    cusp_tips : dict of str to ndarray, shape (3,)
        Tip of each named cusp (empty for incisors; canines have one, "tip").
    supporting : tuple of str
        Names of the supporting cusps.
    """

    code: int
    centre: Floats
    long_axis: Floats
    edge: Floats
    cusp_tips: dict[str, Floats] = field(default_factory=dict)
    supporting: tuple[str, ...] = ()


@dataclass(frozen=True)
class Arch:
    """One cast.

    Attributes
    ----------
    mesh : Mesh
        Upper: in the hinge frame. Lower: in lower coordinates (the hinge frame in CR, opening 0).
    tooth_of_face : ndarray, shape (m,)
        ISO 3950 number of every triangle, `NO_TOOTH` where it belongs to none.
    teeth : tuple of Tooth
        In the order of the arch from the patient's right to left.
    body : CastBody or None
        Gums, ridges and base around the teeth, for pictures; takes part in no contact.
    """

    mesh: Mesh
    tooth_of_face: Ints
    teeth: tuple[Tooth, ...]
    body: CastBody | None = None

    @cached_property
    def codes(self) -> tuple[int, ...]:
        """Tooth numbers from the patient's right to left."""
        return tuple(tooth.code for tooth in self.teeth)

    def tooth(self, code: int) -> Tooth:
        """Return the tooth with that number.

        Raises
        ------
        InputError
            The arch has no such tooth; the message lists those it has.
        """
        for tooth in self.teeth:
            if tooth.code == code:
                return tooth
        side = "upper" if self.teeth and is_upper(self.teeth[0].code) else "lower"
        raise InputError(f"tooth {code}: the {side} arch has {', '.join(map(str, self.codes))}")


def carried(arch: Arch, pose: Floats) -> Arch:
    """Return an arch with triangles and landmarks moved by a pose (4, 4)."""
    teeth = tuple(
        Tooth(
            tooth.code,
            move_points(pose, tooth.centre[None])[0],
            turn_vectors(pose, tooth.long_axis[None])[0],
            move_points(pose, tooth.edge),
            {name: move_points(pose, tip[None])[0] for name, tip in tooth.cusp_tips.items()},
            tooth.supporting,
        )
        for tooth in arch.teeth
    )
    mesh = moved_mesh(arch.mesh, pose)
    body = None if arch.body is None else moved_body(arch.body, pose)
    return Arch(mesh, arch.tooth_of_face, teeth, body)
