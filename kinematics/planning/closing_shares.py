"""Who carries the closing force in one pose: contacts and joints; and what is unlikely there."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.planning.base_loads import TOLD_FOR_N, SweepLoads

Place = Literal["contact", "right condyle", "left condyle"]
_CONDYLES: Final[tuple[Place, Place]] = ("right condyle", "left condyle")
#: A joint that draws the jaw to the skull by less than this, N per 100 N, is not warned of: where
#: one side guides alone, that joint often draws a little (chosen for this program).
LEAST_PULL_N: Final = 10.0


@dataclass(frozen=True)
class Share:
    """What one place of support carries, N per 100 N of closing force.

    Attributes
    ----------
    place : "contact", "right condyle" or "left condyle"
        Where.
    tooth_upper, tooth_lower : int
        ISO 3950 numbers of the teeth that meet; 0 for a condyle.
    size_n : float
        Size of the whole force.
    against_closing_n : float
        Its part straight against the closing force; negative where it draws the jaw to the skull.
        Those of all places add up to the closing force.
    held_n : float
        Of a condyle, what muscles must hold along its path: forward on the skull.
    """

    place: Place
    tooth_upper: int
    tooth_lower: int
    size_n: float
    against_closing_n: float
    held_n: float = 0.0


@dataclass(frozen=True)
class Overload:
    """What a reader would doubt though forces balance.

    Attributes
    ----------
    kind : "tooth" or "condyle"
        A tooth that carries more than the whole closing force, or a condyle that draws the jaw to
        the skull.
    teeth : tuple of int
        ISO 3950 numbers, upper before lower where two bear the same; none for a condyle.
    side : str
        "right" or "left" for a condyle, else empty.
    force_n : float
        On the tooth, or with which the condyle draws, N per 100 N.
    """

    kind: Literal["tooth", "condyle"]
    teeth: tuple[int, ...]
    side: str
    force_n: float


def closing_shares(loads: SweepLoads, pose: int) -> tuple[Share, ...]:
    """Return who carries the closing force in one pose: contacts, most first, then both condyles.

    Forces of the upper on the lower and of the lower on the upper are the same but for their sense,
    and all else on the lower is the closing force: so what contacts and joints bear, counted along
    the closing force, adds up to it, and what they bear across it cancels.
    """
    way = loads.closing_n / np.linalg.norm(loads.closing_n)
    pairs: dict[tuple[int, int], np.ndarray] = {}
    contacts = loads.contacts
    for row in np.flatnonzero(contacts.pose == pose):
        teeth = int(contacts.tooth_upper[row]), int(contacts.tooth_lower[row])
        pairs[teeth] = pairs.get(teeth, np.zeros(3)) + contacts.force_n[row]
    found = [
        Share("contact", upper, lower, float(np.linalg.norm(force)), float(force @ way))
        for (upper, lower), force in pairs.items()
    ]
    found.sort(key=lambda share: (-share.against_closing_n, share.tooth_upper, share.tooth_lower))
    joints = [
        Share(
            name,
            0,
            0,
            float(np.linalg.norm(loads.joints_n[pose, side])),
            float(loads.joints_n[pose, side] @ way),
            float(loads.condyles_n[pose, side, 2]),
        )
        for side, name in enumerate(_CONDYLES)
    ]
    return (*found, *joints) if loads.balanced[pose] else ()


def overloads(loads: SweepLoads, pose: int) -> tuple[Overload, ...]:
    """Return teeth that carry more than the closing force, and condyles that draw, in one pose.

    Both come where the line of the closing force passes outside of what meets: it then has a lever
    about the nearest contact, as on the end of a board.
    """
    if not loads.balanced[pose]:
        return ()
    found: list[Overload] = []
    for code, size in _on_teeth(loads, pose).items():
        if size <= TOLD_FOR_N:
            continue
        same = next((one for one in found if abs(one.force_n - size) < 1e-6 * size), None)
        if same is None:
            found.append(Overload("tooth", (code,), "", size))
        else:
            found[found.index(same)] = Overload("tooth", (*same.teeth, code), "", same.force_n)
    for share in closing_shares(loads, pose):
        if share.place != "contact" and share.against_closing_n < -LEAST_PULL_N:
            side = share.place.removesuffix(" condyle")
            found.append(Overload("condyle", (), side, -share.against_closing_n))
    return tuple(found)


def _on_teeth(loads: SweepLoads, pose: int) -> dict[int, float]:
    """Return how large the force of all its opponents on each tooth is, N per 100 N."""
    contacts = loads.contacts
    here = contacts.pose == pose
    sizes = {}
    for codes in (contacts.tooth_upper[here], contacts.tooth_lower[here]):
        for code in np.unique(codes):
            sizes[int(code)] = float(np.linalg.norm(contacts.force_n[here][codes == code].sum(0)))
    return sizes
