"""Do mounted casts stand as in a mouth? Upside-down, exchanged and mirrored ones are named."""

from collections.abc import Mapping

import numpy as np

from kinematics.casts.casts import NO_TOOTH
from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import Mesh, face_areas_normals
from kinematics.tooth_codes import is_posterior, is_right

#: How each combination of wrong directions comes about: up, left and ahead; True where wrong.
_CAUSES = {
    (True, True, False): (
        "both casts are upside-down: their right and left are exchanged too, as by a half turn "
        "about the front-to-back axis. Are axis_right and axis_left (or molar_right and molar_left)"
        " under the wrong keys? Right is the patient's right"
    ),
    (True, False, True): "both casts are upside-down and face backwards; check the mounting",
    (False, True, True): (
        "both casts face backwards, turned by half about the vertical; check the mounting"
    ),
    (False, True, False): (
        "both casts are mirror images: teeth that are called right stand on the left. Were the "
        "scans exported mirrored, or were right and left exchanged when teeth were labelled?"
    ),
    (True, False, False): (
        "the upper cast lies below the lower one, though right, left and front are where they "
        "should be: scans.upper and scans.lower are exchanged together with their labels, or both "
        "are mirror images"
    ),
    (False, False, True): (
        "front and back are exchanged, though above, below, right and left are where they should "
        "be: the scans are mirror images, or their labels run backwards"
    ),
    (True, True, True): (
        "above and below, right and left, front and back are all exchanged: the scans are mirror "
        "images, and upside-down; check how they were exported"
    ),
}


def tooth_middles(mesh: Mesh, codes: Ints) -> dict[int, Floats]:
    """Return the middle of the surface of every tooth, in the coordinates of the mesh, mm.

    Parameters
    ----------
    mesh : Mesh
        One arch.
    codes : ndarray, shape (m,)
        Tooth number of every triangle; those of 0 are left out.
    """
    areas, _ = face_areas_normals(mesh)
    middles = mesh.corners.mean(axis=1)
    return {
        int(code): np.average(middles[codes == code], axis=0, weights=areas[codes == code])
        for code in np.unique(codes[codes != NO_TOOTH])
    }


def check_standing(upper: Mapping[int, Floats], lower: Mapping[int, Floats]) -> None:
    """Check that mounted teeth stand above each other, on their sides, front teeth in front.

    Parameters
    ----------
    upper, lower : mapping of tooth number to ndarray, shape (3,)
        Centre of every tooth, in the hinge frame, the jaw in MI, mm.

    Raises
    ------
    InputError
        They do not; the message says what must have happened.
    """
    left_wrong = [_left_mm(arch) < 0.0 for arch in (upper, lower)]
    ahead_wrong = [_ahead_mm(arch) < 0.0 for arch in (upper, lower)]
    for words, wrong in (("right and left", left_wrong), ("front and back", ahead_wrong)):
        if wrong[0] != wrong[1]:
            raise InputError(
                f"scans: {words} of one cast are where those of the other are not; the "
                f"{'upper' if wrong[0] else 'lower'} teeth stand the wrong way round. Do both files"
                " lie in the same coordinates, as they bite on each other? Are the labels right?"
            )
    above_mm = _mean_height_mm(upper) - _mean_height_mm(lower)
    found = (above_mm < 0.0, left_wrong[0], ahead_wrong[0])
    if any(found):
        raise InputError(f"scans, as mounted: {_CAUSES[found]}")


def _mean_height_mm(arch: Mapping[int, Floats]) -> float:
    return float(np.mean([place[2] for place in arch.values()]))


def _left_mm(arch: Mapping[int, Floats]) -> float:
    """Return how much farther left the left teeth stand than the right ones."""
    left = [place[1] for code, place in arch.items() if not is_right(code)]
    right = [place[1] for code, place in arch.items() if is_right(code)]
    return float(np.mean(left) - np.mean(right)) if left and right else 1.0


def _ahead_mm(arch: Mapping[int, Floats]) -> float:
    """Return how much farther ahead the front teeth stand than the back ones."""
    front = [place[0] for code, place in arch.items() if not is_posterior(code)]
    back = [place[0] for code, place in arch.items() if is_posterior(code)]
    return float(np.mean(front) - np.mean(back)) if front and back else 1.0
