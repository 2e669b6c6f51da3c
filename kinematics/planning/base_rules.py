"""What the scheme of a denture base forbids its replacement teeth, and how grave a breach is."""

from dataclasses import dataclass
from typing import Final, Literal

import numpy as np

from kinematics.contact.contacts import pair_gaps
from kinematics.contact.pose_rows import picked
from kinematics.contact.sweep import Sweep
from kinematics.conventions import Bools, Floats
from kinematics.guidance.mandible import opened
from kinematics.planning.findings import Severity
from kinematics.planning.grazing import GRAZING_HEIGHT_MM, GRAZING_SOURCE, GRAZING_TRAVEL_MM
from kinematics.planning.guidance_kinds import is_posterior_pair, role, side_of, working_side
from kinematics.planning.heights import openings_without
from kinematics.planning.judging import DentureBase, JudgingSettings
from kinematics.planning.occlusion import Occlusion

Place = Literal["working side", "nonworking side", "protrusion"]
Breach = Literal["touches or comes near", "holds open", "holds open beyond the mucosa"]
Decider = Literal["guides", "carries", "touches", "comes near", "allowed"]

BACK_TEETH_SHARE: Final = "as the existing guidance: back teeth share"
BACK_TEETH_CLEAR: Final = "as the existing guidance: back teeth are clear"


@dataclass(frozen=True)
class BaseRule:
    """One row: what a replacement tooth must not do.

    Attributes
    ----------
    scheme : str
        Scheme of the base; "as the existing guidance" has one for each way the natural teeth
        guide when the replacement teeth are left out.
    place : str
        "working side", "nonworking side" or "protrusion" (retrusion included).
    breach : str
        "touches or comes near" (within the margin), "holds open" (the teeth of its base hold the
        others open by more than the contact tolerance) or "holds open beyond the mucosa" (by more
        than the balanced tolerance).
    """

    scheme: str
    place: Place
    breach: Breach


BASE_RULES: Final[tuple[BaseRule, ...]] = (
    BaseRule("contacts only in MI", "working side", "touches or comes near"),
    BaseRule("contacts only in MI", "nonworking side", "touches or comes near"),
    BaseRule("contacts only in MI", "protrusion", "touches or comes near"),
    BaseRule("shared on the working side", "working side", "holds open"),
    BaseRule("shared on the working side", "nonworking side", "touches or comes near"),
    BaseRule("shared on the working side", "protrusion", "touches or comes near"),
    BaseRule("balanced", "working side", "holds open beyond the mucosa"),
    BaseRule("balanced", "nonworking side", "holds open beyond the mucosa"),
    BaseRule("balanced", "protrusion", "holds open beyond the mucosa"),
    BaseRule(BACK_TEETH_CLEAR, "working side", "touches or comes near"),
    BaseRule(BACK_TEETH_CLEAR, "nonworking side", "touches or comes near"),
    BaseRule(BACK_TEETH_CLEAR, "protrusion", "touches or comes near"),
    BaseRule(BACK_TEETH_SHARE, "working side", "holds open"),
    BaseRule(BACK_TEETH_SHARE, "nonworking side", "touches or comes near"),
    BaseRule(BACK_TEETH_SHARE, "protrusion", "holds open"),
)


@dataclass(frozen=True)
class SeverityRow:
    """One row of the severity rule: the first that fits counts.

    Attributes
    ----------
    severity : str
        "note", "attention" or "serious".
    decides : str
        What makes it so, in a word: "guides", "carries", "touches", "comes near" or "allowed".
    text : str
        The same as the report prints it.
    """

    severity: Severity
    decides: Decider
    text: str


#: Across times lever from which on a touch is serious: a slope of 20 degrees 14 mm (a premolar and
#: half a molar) behind the abutment.
GRAVE_TURNING_MM: Final = 5.0
#: An approach that opens out of MI is leaving if it is clear of the margin within this much travel
#: beyond the near-MI length: molars that part by 1 mm in 3 mm pass 0.2 mm at 0.6 mm.
LEAVING_TRAVEL_MM: Final = 0.5
CHOSEN: Final = "chosen for this program, no published rule being known to it"

_AGAINST: Final = "touches against the scheme of its base"

#: How grave a contact of a replacement tooth is; printed in the report as it stands here.
SEVERITY_RULE: Final[tuple[SeverityRow, ...]] = (
    SeverityRow(
        "serious",
        "guides",
        f"{_AGAINST} and guides: the other teeth are held open by more than"
        f" {GRAZING_HEIGHT_MM:g} mm, or by more than the contact tolerance (on a balanced base: the"
        f" balanced tolerance) over {GRAZING_TRAVEL_MM:g} mm of travel on end or longer, by the"
        " teeth of its base together (where without these nothing would meet: by it alone)",
    ),
    SeverityRow(
        "serious",
        "carries",
        f"{_AGAINST} and carries the jaw over {GRAZING_TRAVEL_MM:g} mm on end or longer, however"
        " little it holds open, and N across per N along times the lever to the nearest abutment is"
        f" {GRAVE_TURNING_MM:g} mm or more (a slope of 20 degrees 14 mm behind the abutment)",
    ),
    SeverityRow(
        "attention",
        "touches",
        f"{_AGAINST} otherwise: it grazes, shares the load, or is not balanced from the other side",
    ),
    SeverityRow(
        "attention",
        "comes near",
        "comes nearer than the margin beyond the near-MI length, against the scheme of its base",
    ),
    SeverityRow(
        "note",
        "allowed",
        "touches or comes near as its scheme allows, or only on the way out of MI or CR: touches"
        " within the near-MI length alone, and is clear of the margin within another"
        f" {LEAVING_TRAVEL_MM:g} mm without coming nearer again",
    ),
)
SEVERITY_SOURCE: Final = GRAZING_SOURCE


def severity_of(
    touches: bool, against: bool, guides: bool, carries: bool, turning_mm: float
) -> SeverityRow:
    """Return the row of `SEVERITY_RULE` that fits.

    Parameters
    ----------
    touches : bool
        It touches, rather than only coming near.
    against : bool
        It is against the scheme of its base.
    guides : bool
        It holds the other teeth open and does more than graze.
    carries : bool
        Its base is the first to meet over as much travel as makes a guidance.
    turning_mm : float
        N across per N along times the lever, mm.
    """
    breach = against and touches
    fits = (
        breach and guides,
        breach and carries and turning_mm >= GRAVE_TURNING_MM,
        breach,
        against,
        True,
    )
    return SEVERITY_RULE[fits.index(True)]


def place_in(sweep: Sweep, tooth_pair: tuple[int, int]) -> Place:
    """Return where a pair stands in an excursion."""
    side = working_side(sweep.excursion)
    if side == 0:
        return "protrusion"
    return "working side" if side_of(tooth_pair) == side else "nonworking side"


def rule_of(scheme: str, place: Place) -> BaseRule:
    """Return the row of one scheme and place."""
    return next(rule for rule in BASE_RULES if (rule.scheme, rule.place) == (scheme, place))


def scheme_in(occlusion: Occlusion, sweep: Sweep, base: DentureBase, judged: Bools) -> str:
    """Return the scheme by which a base is judged in one excursion.

    Where it is "as the existing guidance", the jaw is closed without any replacement tooth, and
    the back teeth share if natural ones of the working side (in a straight movement, of either
    side) touch over more than half of the judged poses.
    """
    if base.scheme != "as the existing guidance":
        return base.scheme
    if not judged.any():
        return BACK_TEETH_CLEAR
    opening_rad = openings_without(occlusion, sweep, occlusion.replacement_teeth, judged)
    shut = judged & np.isfinite(opening_rad)
    side, codes = working_side(sweep.excursion), (sweep.upper_codes, sweep.lower_codes)
    counts = np.array(
        [
            [
                is_posterior_pair((upper, lower))
                and role((upper, lower), side) == "posterior"
                and not occlusion.has_replacement((upper, lower))
                for lower in codes[1]
            ]
            for upper in codes[0]
        ]
    )
    touching = sweep.pair_gap_mm <= occlusion.settings.tolerance_mm
    lowered = shut & (opening_rad != sweep.opening_rad)
    if lowered.any():
        positions = picked(sweep.positions, lowered)
        touching[lowered] = _touching(occlusion, opened(positions, opening_rad[lowered]), codes)
    sharing = shut & (touching & counts).any(axis=(1, 2))
    return BACK_TEETH_SHARE if 2 * sharing.sum() > judged.sum() else BACK_TEETH_CLEAR


def _touching(
    occlusion: Occlusion, poses: Floats, codes: tuple[tuple[int, ...], tuple[int, ...]]
) -> Bools:
    """Return which upper and lower teeth touch in some poses (n, 4, 4): (n, uppers, lowers)."""
    tolerance = occlusion.settings.tolerance_mm
    pair, workers = occlusion.casts.pair, occlusion.workers
    return np.asarray(pair_gaps(pair, poses, 2.0 * tolerance, *codes, workers) <= tolerance)


def hold_limit_mm(rule: BaseRule, settings: JudgingSettings) -> float:
    """Return how far the teeth of a base may hold the others open before that counts, mm.

    What the mucosa makes up for where a rule allows that much, else the contact tolerance.
    """
    if rule.breach == "holds open beyond the mucosa":
        return settings.balanced_tolerance_mm
    return settings.tolerance_mm


def breaches(rule: BaseRule, settings: JudgingSettings, touches: Bools, held_mm: Floats) -> Bools:
    """Return the poses, shape (n,), in which a touching replacement tooth breaks a rule.

    Parameters
    ----------
    rule : BaseRule
        The row.
    settings : JudgingSettings
        Tolerances.
    touches : ndarray, shape (n,)
        The poses in which it touches.
    held_mm : ndarray, shape (n,)
        How far its base holds the other teeth open.
    """
    if rule.breach == "touches or comes near":
        return touches
    return touches & (held_mm > hold_limit_mm(rule, settings))
