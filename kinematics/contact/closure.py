"""First touch: the greatest opening at which lower and upper meet, for many poses."""

from dataclasses import dataclass

from kinematics.conventions import Floats, Ints

MEETS = 0
NOTHING_MEETS = 1


@dataclass(frozen=True)
class Closures:
    """First contacts of n poses, coming from wide open about each pose's own hinge axis.

    Where `status` is NOTHING_MEETS (no part of the lower passes any part of the upper), the angle
    is -inf, faces and teeth are -1, points and normals are 0.

    Attributes
    ----------
    opening_rad : ndarray, shape (n,)
        Opening at first contact.
    status : ndarray, shape (n,)
        MEETS or NOTHING_MEETS.
    kind : ndarray, shape (n,)
        0 lower vertex on upper face, 1 upper vertex on lower face, 2 edge on edge.
    point : ndarray, shape (n, 3)
        Contact point in the hinge frame, mm.
    normal : ndarray, shape (n, 3)
        Unit normal in the hinge frame, along which the lower pushes on the upper.
    face_upper, face_lower : ndarray, shape (n,)
        The touching triangles, numbered as in each arch's mesh.
    tooth_upper, tooth_lower : ndarray, shape (n,)
        ISO 3950 numbers of the touching teeth (0 where the triangle belongs to no tooth).
    radius_mm : ndarray, shape (n,)
        Distance of the contact point from the hinge axis: mm along the arc per radian.
    on_rim : ndarray, shape (n,)
        True where the contact lies on an open boundary edge: exact, but not a tooth surface.
    """

    opening_rad: Floats
    status: Ints
    kind: Ints
    point: Floats
    normal: Floats
    face_upper: Ints
    face_lower: Ints
    tooth_upper: Ints
    tooth_lower: Ints
    radius_mm: Floats
    on_rim: Ints
