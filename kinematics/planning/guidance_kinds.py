"""Which kind of guidance a set of touching tooth pairs is, by side and by group of teeth.

A pair is grouped by its upper tooth, whose inner surface is what guides: the upper canine guides
whether the lower canine or the lower first premolar slides on it. Common practice.
"""

from functools import cache
from typing import Final, Literal

from kinematics.contact.mounted import GUIDED_BY_TABLE
from kinematics.conventions import LEFT, RIGHT
from kinematics.guidance.excursions import Excursion
from kinematics.tooth_codes import is_posterior, is_right, place

CANINE: Final = "canine"
CANINE_WITH_INCISORS: Final = "canine with incisors"
GROUP: Final = "canine with posterior teeth (group)"
PARTIAL_GROUP: Final = "partial group"
SINGLE_POSTERIOR: Final = "single posterior tooth"
INCISORS_ONLY: Final = "incisors only"
NONWORKING_ONLY: Final = "nonworking only"
TABLE_ONLY: Final = "table only"
NONE: Final = "none"
ANTERIOR: Final = "anterior"
ONE_SIDED_ANTERIOR: Final = "one-sided anterior"
ANTERIOR_WITH_POSTERIOR: Final = "anterior with posterior"
POSTERIOR_ONLY: Final = "posterior only"

LATERAL_KINDS: Final = (
    CANINE,
    CANINE_WITH_INCISORS,
    GROUP,
    PARTIAL_GROUP,
    SINGLE_POSTERIOR,
    INCISORS_ONLY,
    NONWORKING_ONLY,
    TABLE_ONLY,
    NONE,
)
PROTRUSIVE_KINDS: Final = (
    ANTERIOR,
    ONE_SIDED_ANTERIOR,
    ANTERIOR_WITH_POSTERIOR,
    POSTERIOR_ONLY,
    TABLE_ONLY,
    NONE,
)

#: Back teeth of the working side that must share with the canine to make a group. Common
#: practice: several working-side pairs guide and share the excursion.
FEWEST_OF_A_GROUP: Final = 2

Pair = tuple[int, int]
Role = Literal["incisor", "canine", "posterior", "nonworking"]


def working_side(excursion: Excursion) -> int:
    """Return the side the jaw moves to: RIGHT, LEFT, or 0 where it moves straight."""
    if excursion.azimuth_deg == 0.0:
        return 0
    return RIGHT if excursion.azimuth_deg < 0.0 else LEFT


def side_of(pair: Pair) -> int:
    """Return the side on which a pair stands, by its upper tooth: RIGHT or LEFT."""
    return RIGHT if is_right(pair[0]) else LEFT


def is_posterior_pair(pair: Pair) -> bool:
    """Tell whether a pair is one of back teeth."""
    return is_posterior(pair[0])


@cache  # of few pairs, asked again and again
def role(pair: Pair, side: int) -> Role:
    """Return what a pair is in an excursion whose working side is `side` (0: straight)."""
    if place(pair[0]) < 3:
        return "incisor"
    if side not in (0, side_of(pair)):
        return "nonworking"
    return "posterior" if is_posterior_pair(pair) else "canine"


def teeth_sharing(pairs: list[Pair]) -> int:
    """Return how many teeth share: one where a single tooth, upper or lower, is in every pair."""
    return min(len({upper for upper, _ in pairs}), len({lower for _, lower in pairs}))


def lateral_kind(touching: tuple[Pair, ...], side: int, guide: int) -> str:
    """Return the guidance kind of a lateral excursion or lateroprotrusion.

    Parameters
    ----------
    touching : tuple of (int, int)
        Upper and lower tooth of every touching pair.
    side : int
        Working side, RIGHT or LEFT.
    guide : int
        What ends the closing: teeth, table or nothing.
    """
    roles = {pair: role(pair, side) for pair in touching}
    canine, incisors = "canine" in roles.values(), "incisor" in roles.values()
    sharing = teeth_sharing([pair for pair, is_a in roles.items() if is_a == "posterior"])
    if sharing:
        if canine:
            return GROUP if sharing >= FEWEST_OF_A_GROUP else PARTIAL_GROUP
        return SINGLE_POSTERIOR if sharing == 1 and not incisors else PARTIAL_GROUP
    if canine:
        return CANINE_WITH_INCISORS if incisors else CANINE
    if incisors:
        return INCISORS_ONLY
    if roles:
        return NONWORKING_ONLY
    return TABLE_ONLY if guide == GUIDED_BY_TABLE else NONE


def protrusive_kind(touching: tuple[Pair, ...], guide: int) -> str:
    """Return the guidance kind of a straight movement; arguments as for `lateral_kind`."""
    anterior = [pair for pair in touching if not is_posterior_pair(pair)]
    posterior = len(anterior) < len(touching)
    if anterior and posterior:
        return ANTERIOR_WITH_POSTERIOR
    if anterior:
        return ANTERIOR if len({side_of(pair) for pair in anterior}) == 2 else ONE_SIDED_ANTERIOR
    if posterior:
        return POSTERIOR_ONLY
    return TABLE_ONLY if guide == GUIDED_BY_TABLE else NONE


def kind_of(touching: tuple[Pair, ...], excursion: Excursion, guide: int) -> str:
    """Return the guidance kind of a set of touching pairs in an excursion."""
    side = working_side(excursion)
    return lateral_kind(touching, side, guide) if side else protrusive_kind(touching, guide)
