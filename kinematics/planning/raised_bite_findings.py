"""What a raised bite means for the records and for everything else that is said, as a finding."""

from kinematics.planning.findings import Figure, Finding
from kinematics.planning.raised_bite import RaisedBite
from kinematics.planning.wording import length, pair_name

SOURCE = (
    "common practice: a change of vertical dimension is planned from a centric relation record, and"
    " tried with a removable appliance before teeth are restored"
)


def raised_bite_finding(raised: RaisedBite) -> Finding:
    """Say that MI is void, that a CR record is required, and what holds the jaw.

    Attention where the pin holds; serious where teeth touch before it, as the bite then stands
    elsewhere than planned.
    """
    told = length(raised.pin_opening_mm)
    first = pair_name(raised.first_contact_upper, raised.first_contact_lower)
    figures: tuple[Figure, ...] = (
        Figure("drop of the lower incisal point from MI", raised.raised_mm, "mm"),
        Figure("turned about the hinge axis", raised.turned_deg, "deg"),
    )
    if raised.pin_holds:
        held = (
            f"the pin holds the jaw in CR, and {first} would touch first, "
            f"{length(raised.first_arc_gap_mm)} away along the closing arc"
        )
        figures += (Figure("first contact, arc gap", raised.first_arc_gap_mm, "mm"),)
    else:
        held = (
            f"but the pin does not reach: in CR {first} touches first and holds the jaw "
            f"{length(raised.raised_mm)} open from MI"
        )
    return Finding(
        kind="raised bite",
        severity="attention" if raised.pin_holds else "serious",
        text=(
            f"Bite raised by {told} at the lower incisal point: MI is void, a centric relation "
            f"record is required; {held}. Stops, excursions and all other findings are for the "
            "present bite."
        ),
        tooth_upper=raised.first_contact_upper or None,
        tooth_lower=raised.first_contact_lower or None,
        figures=figures,
        threshold_source=SOURCE,
    )
