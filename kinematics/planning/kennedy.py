"""The Kennedy class of an arch, by Applegate's rules.

The rules as they are taught (Applegate, Essentials of Removable Partial Denture Prosthesis; from
memory): a third molar counts only where it is used or replaced, a missing second molar only where
it is replaced; the spaces farthest back decide the class, every other one is a modification,
however long it is, and class IV has none.
"""

from collections.abc import Collection
from dataclasses import dataclass
from typing import Final, Literal

KennedyKind = Literal["I", "II", "III", "IV"]

#: Places of one arch from the patient's right to left: negative on the right.
PLACES: Final = (*range(-8, 0), *range(1, 9))


@dataclass(frozen=True)
class Kennedy:
    """A Kennedy class.

    Attributes
    ----------
    kind : "I", "II", "III" or "IV"
        I and II: the ridge ends free on both sides, or on one; III: all spaces lie between teeth;
        IV: the only one lies in front across the midline.
    modifications : int
        How many spaces there are besides.
    """

    kind: KennedyKind
    modifications: int

    @property
    def text(self) -> str:
        """The class as it is told, "Kennedy class II, modification 1"."""
        told = f", modification {self.modifications}" if self.modifications else ""
        return f"Kennedy class {self.kind}{told}"


def spaces(
    standing: Collection[int], replaced: Collection[int], used: Collection[int]
) -> tuple[tuple[int, ...], ...]:
    """Return the spaces of an arch that count, from the patient's right to left.

    Parameters
    ----------
    standing : collection of int
        Places (see `PLACES`) that teeth, implants or pontics fill.
    replaced : collection of int
        Places of replacement teeth of denture bases.
    used : collection of int
        Places of teeth that bear rests or are abutments.

    Returns
    -------
    tuple of tuple of int
        The places of each.
    """
    found: list[list[int]] = [[]]
    for place in PLACES:
        filled = place in standing
        if abs(place) == 8 and not (place in replaced or (filled and place in used)):
            continue
        if abs(place) == 7 and not filled and place not in replaced:
            continue
        if filled:
            found.append([])
        else:
            found[-1].append(place)
    return tuple(tuple(space) for space in found if space)


def kennedy(
    standing: Collection[int], replaced: Collection[int], used: Collection[int]
) -> Kennedy | None:
    """Return the class of an arch; None without a space, or without a tooth.

    Parameters are those of `spaces`.
    """
    counted = spaces(standing, replaced, used)
    teeth = [place for place in standing if abs(place) < 8 or place in used]
    if not counted or not teeth:
        return None
    free = (counted[0][0] < min(teeth)) + (counted[-1][-1] > max(teeth))
    if free:
        return Kennedy("I" if free == 2 else "II", len(counted) - free)
    if len(counted) == 1 and counted[0][0] < 0 < counted[0][-1]:
        return Kennedy("IV", 0)
    return Kennedy("III", len(counted) - 1)
