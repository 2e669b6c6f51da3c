"""Teeth of one arch in their order, and which side of a tooth is mesial."""

from collections.abc import Sequence

from kinematics.tooth_codes import arch_place


def side_towards(code: int, other: int) -> str:
    """Return which side of a tooth faces another of its arch: "mesial" or "distal"."""
    own, there = arch_place(code), arch_place(other)
    return "mesial" if (there > own) == (own < 0) else "distal"


def runs_of(teeth: Sequence[int], natural: Sequence[int]) -> tuple[tuple[int, ...], ...]:
    """Part the teeth of a base at natural teeth that stand between them.

    Parameters
    ----------
    teeth : sequence of int
        ISO 3950 numbers of replacement teeth of one arch.
    natural : sequence of int
        Of the other teeth of the arch.

    Returns
    -------
    tuple of tuple of int
        Teeth without a natural one between them, from the patient's right to left.
    """
    stands = {arch_place(code) for code in natural}
    runs: list[list[int]] = []
    for code in sorted(teeth, key=arch_place):
        here = arch_place(code)
        before = arch_place(runs[-1][-1]) if runs else here
        if not runs or any(before < place < here for place in stands):
            runs.append([])
        runs[-1].append(code)
    return tuple(map(tuple, runs))
