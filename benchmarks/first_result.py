"""The shortest program that closes two meshes in memory, to be timed from its start to its end.

Imports nothing that it does not need: what is timed is what any user of the engine waits for.
"""

import sys

from benchmarks.bodies import waved_body
from kinematics.casts.casts import Arch
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import prepare
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import identity_poses

POINTS_A_SIDE = 71


def main() -> int:
    """Close two small bodies once."""
    upper, lower = waved_body(POINTS_A_SIDE, 5.0), waved_body(POINTS_A_SIDE, -5.0)
    below = lower.mesh.vertices - [0.1, 0.1, 1.0]
    pair = prepare(upper, Arch(mesh_of(below, lower.mesh.faces), lower.tooth_of_face, ()))
    return 0 if close(pair, identity_poses(1)).status[0] == MEETS else 1


if __name__ == "__main__":
    sys.exit(main())
