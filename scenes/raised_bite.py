"""The raised bite in words and tables: asked, reached, how the front and every tooth stand."""

import math
from dataclasses import dataclass
from typing import Final

from kinematics.planning.raised_bite import ROOM_LIMIT_MM, FrontTeeth, RaisedBite, RaisedTooth
from scenes.phrases import degrees, length, number
from scenes.report_tables import Table

_NOT_MEASURED: Final = "not measured"
_NO_TOOTH: Final = "gum or base"
#: Half of the last digit told of overbite and overjet, mm; of an angle, degrees.
_LEVEL_MM: Final = 0.005
_LEVEL_DEG: Final = 0.05
#: A gap below this would be told as nothing, mm.
_TOUCHES_MM: Final = 0.00005


@dataclass(frozen=True)
class RaisedWords:
    """What the report says about a raised bite.

    Attributes
    ----------
    asked, reached, turned : str
        What the pin was to do, what holds the jaw and where it stands, and its turn from MI.
    front, teeth : Table
        Overlap of the incisors in MI and raised; every lower tooth.
    description : str
        The side view in words, for those who cannot see it.
    """

    asked: str
    reached: str
    turned: str
    front: Table
    teeth: Table
    description: str


def raised_words(raised: RaisedBite | None, reference_plane: str) -> RaisedWords | None:
    """Say what was found about a raised bite; None where the bite stays as it is."""
    if raised is None:
        return None
    return RaisedWords(
        asked=(
            f"The incisal pin is to raise the bite by {length(raised.pin_opening_mm)}: by so much"
            " the lower incisal point is to stand lower than in maximal intercuspation (MI),"
            f" square to the reference plane ({reference_plane}), with the condyles seated in"
            " centric relation (CR)."
        ),
        reached=f"{_held(raised)} {_incisal_point(raised)}",
        turned=_turned(raised.turned_deg),
        front=_front_table(raised.front_in_mi, raised.front),
        teeth=_teeth_table(raised.teeth),
        description=_description(raised),
    )


def _held(raised: RaisedBite) -> str:
    upper, lower = (
        f"{arch} {code or _NO_TOOTH}"
        for arch, code in (
            ("upper", raised.first_contact_upper),
            ("lower", raised.first_contact_lower),
        )
    )
    if raised.pin_holds:
        return (
            f"The pin holds the jaw there. If the jaw closed from there in CR, {upper} and {lower}"
            f" would touch first, {length(raised.first_arc_gap_mm)} away along the closing arc."
        )
    return (
        f"The pin does not reach: in CR {upper} and {lower} touch before it does. They hold the"
        f" jaw, raised by {length(raised.raised_mm)} instead, and the pin stands free."
    )


def _incisal_point(raised: RaisedBite) -> str:
    if abs(raised.back_mm) < _LEVEL_MM:
        return "The lower incisal point stands neither behind nor ahead of its place in MI."
    way = "behind" if raised.back_mm > 0.0 else "ahead of"
    return f"The lower incisal point stands {length(abs(raised.back_mm))} {way} its place in MI."


def _turned(turned_deg: float) -> str:
    """Say how far the jaw is turned from MI, and what that does to the lower occlusal plane."""
    if abs(turned_deg) < _LEVEL_DEG:
        return "About the hinge axis the jaw is turned as in MI."
    way, plane = ("open", "steeper") if turned_deg > 0.0 else ("closed", "flatter")
    return (
        f"From MI the jaw is turned {way} by {degrees(abs(turned_deg))} about the hinge axis; by so"
        f" much the lower occlusal plane is {plane} to the reference plane."
    )


def _front_table(in_mi: FrontTeeth | None, raised: FrontTeeth | None) -> Table:
    return Table(
        ("between the edges of the central incisors", "in MI", "raised"),
        (
            ("overbite: upper below lower", *(_overbite(front) for front in (in_mi, raised))),
            ("overjet: upper ahead of lower", *(_overjet(front) for front in (in_mi, raised))),
        ),
    )


def _overbite(front: FrontTeeth | None) -> str:
    if front is None:
        return _NOT_MEASURED
    told = f"{number(abs(front.overbite_mm), 2)} mm"
    return f"none: an open bite of {told}" if front.overbite_mm < -_LEVEL_MM else told


def _overjet(front: FrontTeeth | None) -> str:
    if front is None:
        return _NOT_MEASURED
    told = f"{number(abs(front.overjet_mm), 2)} mm"
    return f"reversed: lower ahead by {told}" if front.overjet_mm < -_LEVEL_MM else told


def _teeth_table(teeth: tuple[RaisedTooth, ...]) -> Table:
    head = (
        "lower tooth",
        "middle of its edge or buccal cusps, lower than in MI, square to the reference plane",
        "shortest distance to the nearest upper tooth, any direction",
        "gap along the closing arc in CR, if this tooth alone met the upper teeth",
    )
    return Table(head, tuple(_tooth_row(tooth) for tooth in teeth))


def _tooth_row(tooth: RaisedTooth) -> tuple[str, ...]:
    """Return a row; what has no number, or is nothing, is said in words."""
    drop = length(abs(tooth.opening_mm))
    room = f"more than {number(ROOM_LIMIT_MM, 0)} mm"
    if tooth.nearest_upper is not None:
        touches = tooth.room_mm < _TOUCHES_MM
        room = f"{'touches' if touches else f'{length(tooth.room_mm)} to'} {tooth.nearest_upper}"
    arc_gap = "nothing in its way"
    if math.isfinite(tooth.arc_gap_mm):
        arc_gap = "touches" if tooth.arc_gap_mm < _TOUCHES_MM else length(tooth.arc_gap_mm)
    return (
        str(tooth.tooth_lower),
        drop if tooth.opening_mm >= 0.0 else f"{drop} higher",
        room,
        arc_gap,
    )


def _description(raised: RaisedBite) -> str:
    way = "behind" if raised.back_mm >= 0.0 else "ahead of"
    return (
        "The lower teeth seen from the side, in MI and raised, and the arc on which the lower"
        f" incisal point turns about the hinge axis. The raised point stands"
        f" {length(raised.raised_mm)} below and {length(abs(raised.back_mm))} {way} its place in"
        " MI."
    )
