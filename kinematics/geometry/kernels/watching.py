"""How a long run is watched from outside: how far it has come, and that it is to stop."""

from kinematics.geometry.kernels.compiling import inner_kernel

STOP = 0  # place of the flag; the other places count what each part has done


@inner_kernel
def told_to_stop(watch):
    """Tell whether the work is no longer wanted. watch: (int64 array, place of this part)."""
    return watch[0][STOP] != 0


@inner_kernel
def count_some(watch, poses):
    """Say that so many more poses are done."""
    watch[0][watch[1]] += poses
