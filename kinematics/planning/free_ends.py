"""Where denture bases end free: which teeth of an arch count, and whether one stands behind."""

from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import arch_place, place


def held_teeth(occlusion: Occlusion) -> frozenset[int]:
    """Return the teeth of both arches that hold a base: abutments, and those that bear rests."""
    return frozenset(code for base in occlusion.bases for code in base.held_by)


def counting_teeth(occlusion: Occlusion, upper: bool) -> tuple[int, ...]:
    """Return the teeth of an arch behind which a base does not end free (Applegate's rules).

    Those that stand on no base; a third molar only where it holds one.
    """
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    used = held_teeth(occlusion)
    return tuple(
        code
        for code in arch.codes
        if code not in occlusion.replacement_teeth and (place(code) < 8 or code in used)
    )


def extends(base: DentureBase, natural: tuple[int, ...]) -> bool:
    """Tell whether a base ends behind without a natural tooth, on one side or both."""
    places = [arch_place(code) for code in base.teeth]
    stands = [arch_place(code) for code in natural]
    return not any(p < min(places) for p in stands) or not any(p > max(places) for p in stands)
