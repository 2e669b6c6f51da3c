"""Contacts that the schemes of denture bases allow, one finding for each excursion.

Of a balanced denture every tooth touches in every excursion, as wanted. Each contact keeps its
figures among the replacement contacts of the result; as findings they are told together.
"""

import math
from collections.abc import Sequence
from typing import Final

import numpy as np

from kinematics.contact.sweep import Sweep
from kinematics.planning.findings import Figure, Finding
from kinematics.planning.guidance_kinds import Pair
from kinematics.planning.replacement import ReplacementContact
from kinematics.planning.wording import enumeration, excursion_words, length, pair_name, sentence
from kinematics.tooth_codes import is_upper

#: Standing of a contact that its scheme allows.
ALLOWED: Final = "allowed by its scheme"
KIND: Final = "replacement tooth touches, allowed"


def told_together(contacts: Sequence[ReplacementContact]) -> tuple[ReplacementContact, ...]:
    """Return the allowed touches of an excursion that are told in one finding: two pairs or more.

    A contact of two replacement teeth counts once, though each base sees it.
    """
    allowed = tuple(c for c in contacts if c.touches and c.standing == ALLOWED)
    return allowed if len({_pair(contact) for contact in allowed}) > 1 else ()


def allowed_finding(sweep: Sweep, contacts: Sequence[ReplacementContact]) -> Finding:
    """Return some allowed contacts of one excursion as a note.

    Parameters
    ----------
    sweep : Sweep
        The excursion.
    contacts : sequence of ReplacementContact
        See `told_together`; one or more.
    """
    first: dict[Pair, ReplacementContact] = {}
    for contact in contacts:
        first.setdefault(_pair(contact), contact)
    pairs = tuple(first)
    schemes = sorted({contact.scheme for contact in contacts})
    from_mm = min(contact.travel_from_mm for contact in contacts)
    to_mm = max(contact.travel_to_mm for contact in contacts)
    ranges = [
        f"{pair_name(*pair)} ({c.travel_from_mm:.1f} to {c.travel_to_mm:.1f} mm)"
        for pair, c in first.items()
    ]
    highest = max(first.values(), key=lambda c: c.height_alone_mm)
    heaviest = max(first.values(), key=lambda c: c.across_per_along)
    return Finding(
        kind=KIND,
        severity="note",
        text=sentence(
            f"in {excursion_words(sweep.excursion)} {enumeration(ranges)} touch, as the scheme of"
            f" their bases ({enumeration(schemes)}) allows{_height_words(highest)}"
        ),
        excursion=contacts[0].excursion,
        travel_from_mm=from_mm,
        travel_to_mm=to_mm,
        tooth_upper=pairs[0][0],
        tooth_lower=pairs[0][1],
        place=first[pairs[0]].place,
        figures=_figures(highest, heaviest, sweep),
        threshold_source="the scheme chosen for each base",
        together=pairs[1:],
    )


def _pair(contact: ReplacementContact) -> Pair:
    if is_upper(contact.tooth):
        return contact.tooth, contact.opponent
    return contact.opponent, contact.tooth


def _height_words(highest: ReplacementContact) -> str:
    height = highest.height_alone_mm
    if height <= 0.0 or math.isinf(height):
        return ""
    return (
        f"; the most that one of them alone holds the others open is {length(height)} along the"
        f" closing arc, {pair_name(*_pair(highest))} at {highest.read_at_mm:.1f} mm"
    )


def _figures(
    highest: ReplacementContact, heaviest: ReplacementContact, sweep: Sweep
) -> tuple[Figure, ...]:
    named = [
        Figure(
            f"greatest height along the closing arc of one alone, {pair_name(*_pair(highest))}",
            highest.height_alone_mm,
            "mm",
        ),
        Figure(
            f"most across the long axis per N along it, {pair_name(*_pair(heaviest))}",
            heaviest.across_per_along,
            "N/N",
        ),
        Figure("travel of the excursion", float(np.max(sweep.travel_mm)), "mm"),
    ]
    return tuple(figure for figure in named if math.isfinite(figure.value))
