"""Schemes of maximal intercuspation: where supporting cusps come to rest.

Natural teeth as the table has them rest with most supporting cusps near one marginal ridge or in a
fossa of the tooth of their own number, with few contacts. Two schemes of the textbooks are made on
demand. In the cusp-marginal ridge scheme (one tooth to two teeth) lower buccal cusps rest on the
ridges of two neighbours; the farther ridge is brought up to them after all cusps have settled. In
the cusp-fossa scheme (one tooth to one tooth) mesial cusps stand over the mesial fossa of their own
opponent. Which cusp lands where: textbook tables of both schemes (common practice).
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cache
from importlib.resources import files
from typing import Any, Final

import numpy as np

from kinematics.checks import InputError
from kinematics.conventions import Floats
from kinematics.teeth.crown_table import CrownTable, PosteriorForm, crown_table
from kinematics.teeth.meeting import KindPair, pair_name
from kinematics.teeth.mi_scheme_names import NATURAL, MIScheme
from kinematics.teeth.posterior_pairs import MOST_ATTEMPTS, open_pairs
from kinematics.teeth.settling import WANTED_REACH_MM, Settled, settle
from kinematics.teeth.settling_programme import Freedom

#: How far a distal marginal ridge may rise towards a lower cusp, mm, and what that costs per mm.
RIDGE_RISE_MM: Final = 0.8
RIDGE_COST: Final = 0.3
WIDE_ROUNDS: Final = 6
#: Place of the distal marginal ridge among the ridges of every crown.
_DISTAL: Final = 1


@dataclass(frozen=True)
class SchemeChanges:
    """What a scheme changes in the table of crowns; empty for natural teeth.

    Attributes
    ----------
    molar_relation : float or None
        How far the lower first molar stands ahead of the upper one, mm; None: as in the table.
    settled : mapping of str to tuple of str
        Cusps that are settled onto their opponent, by crown type.
    cusps : mapping of str to mapping
        Place and height of cusps, named as "L6 MB".
    ridges : mapping of str to ndarray, shape (2, 3)
        Ends of ridges, named by crown type and place in the table, as "U6 0".
    also_meeting : frozenset of (str, str)
        Upper and lower crown types that meet besides those of one number.
    """

    molar_relation: float | None
    settled: Mapping[str, tuple[str, ...]]
    cusps: Mapping[str, Mapping[str, Any]]
    ridges: Mapping[str, Floats]
    also_meeting: frozenset[KindPair]


@cache
def scheme_changes(scheme: MIScheme) -> SchemeChanges:
    """Return what a scheme changes, read from the table shipped with the package."""
    text = files("kinematics.teeth").joinpath("mi_schemes.toml").read_text("utf-8")
    rows = tomllib.loads(text).get(scheme, {})
    return SchemeChanges(
        molar_relation=rows.get("molar_relation"),
        settled={kind: tuple(names) for kind, names in rows.get("settled", {}).items()},
        cusps={
            name: {key: tuple(v) if isinstance(v, list) else v for key, v in cusp.items()}
            for name, cusp in rows.get("cusps", {}).items()
        },
        ridges={name: np.array(ends) for name, ends in rows.get("ridges", {}).items()},
        also_meeting=frozenset((upper, lower) for upper, lower in rows.get("also_meeting", ())),
    )


@cache
def in_scheme(scheme: MIScheme) -> CrownTable:
    """Return the table with the crowns and the relation of the arches that a scheme asks for.

    Natural teeth are the table itself. Made once a scheme: crowns are known again by being the same
    object, wherever something has been worked out for them.
    """
    table, changes = crown_table(), scheme_changes(scheme)
    if scheme == NATURAL:
        return table
    set_up = table.set_up
    if changes.molar_relation is not None:
        set_up = replace(set_up, molar_relation=changes.molar_relation)
    posterior = {kind: _changed(form, changes) for kind, form in table.posterior.items()}
    return replace(table, posterior=posterior, set_up=set_up)


def _changed(form: PosteriorForm, changes: SchemeChanges) -> PosteriorForm:
    cusps = tuple(
        replace(cusp, **changes.cusps.get(f"{form.kind} {cusp.name}", {})) for cusp in form.cusps
    )
    ridges = tuple(
        replace(ridge, ends=changes.ridges.get(f"{form.kind} {place}", ridge.ends))
        for place, ridge in enumerate(form.ridges)
    )
    settled = changes.settled.get(form.kind, form.settled)
    return replace(form, cusps=cusps, ridges=ridges, settled=settled)


def with_second_ridges(settled: Settled, scheme: MIScheme, mi_pose: Floats) -> Settled:
    """Return a side with the pairs of neighbouring numbers that the scheme asks for in contact.

    Parameters
    ----------
    settled : Settled
        Teeth of the left side in MI.
    scheme : str
        Scheme of maximal intercuspation.
    mi_pose : ndarray, shape (4, 4)
        hinge_from_lower in MI.

    Raises
    ------
    InputError
        A lower cusp does not reach its second ridge; the message names both teeth.
    """
    wanted = scheme_changes(scheme).also_meeting
    if not wanted:
        return settled
    for _ in range(MOST_ATTEMPTS):
        settled = settle(
            settled.teeth, _ridges(settled, wanted), mi_pose, WIDE_ROUNDS, None, wanted
        )
        apart = open_pairs(settled.teeth, settled.meetings, sorted(wanted))
        if not apart:
            return settled
    # The names count from the midline, whatever the side.
    raise InputError(
        f'dentition: mi_scheme = "{scheme}" wants a contact of {", ".join(map(pair_name, apart))}'
        f" (counted from the midline), {min(WANTED_REACH_MM, max(apart.values())):.2f} mm or more"
        " apart with these settings: bring overbite_mm and overjet_mm nearer to their"
        ' defaults, or give mi_scheme = "natural"'
    )


def _ridges(settled: Settled, wanted: frozenset[KindPair]) -> list[Freedom]:
    """Return the distal marginal ridges of the upper teeth that may rise or give way."""
    return [
        Freedom(
            upper,
            len(settled.teeth[upper].cusp_names) + _DISTAL,
            RIDGE_RISE_MM,
            RIDGE_RISE_MM,
            RIDGE_COST,
            RIDGE_COST,
        )
        for upper, _ in sorted(wanted)
    ]
