"""Poses as kernels use them, and points of the upper placed in the frame of the lower."""

from kinematics.geometry.kernels.compiling import bare_kernel, inner_kernel
from kinematics.geometry.kernels.lanes import WIDTH


@bare_kernel
def inverse_pose(pose, out):
    """Write lower_from_hinge (3, 4) of a rigid hinge_from_lower (4, 4)."""
    for i in range(3):
        for j in range(3):
            out[i, j] = pose[j, i]
        out[i, 3] = -(pose[0, i] * pose[0, 3] + pose[1, i] * pose[1, 3] + pose[2, i] * pose[2, 3])


@bare_kernel
def write_lanes(poses, start, count, lanes):
    """Write lower_from_hinge of up to eight rigid hinge_from_lower; the last fills what is left.

    poses: (n, 4, 4). lanes: (12, 8), rows of the matrix one after the other.
    """
    for lane in range(WIDTH):
        n = start + min(lane, count - 1)
        for i in range(3):
            for j in range(3):
                lanes[4 * i + j, lane] = poses[n, j, i]
            lanes[4 * i + 3, lane] = -(
                poses[n, 0, i] * poses[n, 0, 3]
                + poses[n, 1, i] * poses[n, 1, 3]
                + poses[n, 2, i] * poses[n, 2, 3]
            )


@inner_kernel
def lane_pose(poses, lane):
    """Return the pose of one lane as a tuple, which no store to an array can change."""
    return (
        poses[0, lane], poses[1, lane], poses[2, lane], poses[3, lane],
        poses[4, lane], poses[5, lane], poses[6, lane], poses[7, lane],
        poses[8, lane], poses[9, lane], poses[10, lane], poses[11, lane],
    )  # fmt: skip


@inner_kernel
def moved_corner(pose, vertices, v):
    """Return an upper vertex in the lower's frame: x, y, z, r squared."""
    px, py, pz = vertices[v, 0], vertices[v, 1], vertices[v, 2]
    x = pose[0] * px + pose[1] * py + pose[2] * pz + pose[3]
    y = pose[4] * px + pose[5] * py + pose[6] * pz + pose[7]
    z = pose[8] * px + pose[9] * py + pose[10] * pz + pose[11]
    return x, y, z, x * x + z * z


@inner_kernel
def placed(pose, x, y, z):
    """Return a point moved by a pose (3, 4)."""
    return (
        pose[0, 0] * x + pose[0, 1] * y + pose[0, 2] * z + pose[0, 3],
        pose[1, 0] * x + pose[1, 1] * y + pose[1, 2] * z + pose[1, 3],
        pose[2, 0] * x + pose[2, 1] * y + pose[2, 2] * z + pose[2, 3],
    )
