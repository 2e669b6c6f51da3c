"""Where the lower stands: pose from condylar advances, side shift and opening."""

from dataclasses import dataclass

from kinematics.conventions import Floats, Ints


@dataclass(frozen=True)
class JawPositions:
    """The lower at n places of its condyles, before any closing.

    Attributes
    ----------
    advance_right_mm, advance_left_mm : ndarray, shape (n,)
        Arc length each condyle has travelled along its path from CR.
    shift_mm : ndarray, shape (n,)
        Immediate side shift used; positive to the patient's left.
    condyle_right, condyle_left : ndarray, shape (n, 3)
        Condyle centres in the hinge frame, mm.
    pose_at_zero : ndarray, shape (n, 4, 4)
        hinge_from_lower at opening 0.
    working_side : ndarray, shape (n,)
        RIGHT (-1), LEFT (1), or 0 where neither condyle works.
    laterotrusion_mm : ndarray, shape (n,)
        Slide of the working condyle along its own outward direction; negative inward.
    medial_mm : ndarray, shape (n,)
        Medial displacement of the nonworking condyle.
    """

    advance_right_mm: Floats
    advance_left_mm: Floats
    shift_mm: Floats
    condyle_right: Floats
    condyle_left: Floats
    pose_at_zero: Floats
    working_side: Ints
    laterotrusion_mm: Floats
    medial_mm: Floats


@dataclass(frozen=True)
class GuidanceCoordinates:
    """One jaw position in guidance coordinates, and what of a given pose does not fit the paths.

    Attributes
    ----------
    advance_right_mm, advance_left_mm, shift_mm : float
        See `JawPositions`.
    opening_rad : float
        Rotation about the line of the condyle centres.
    residual_mm : float
        Largest distance of a condyle centre of the given pose from the one the paths allow.
    residual_rad : float
        Rotation left between the given pose and the one rebuilt from these coordinates.
    """

    advance_right_mm: float
    advance_left_mm: float
    shift_mm: float
    opening_rad: float
    residual_mm: float = 0.0
    residual_rad: float = 0.0
