"""A raised bite with invented figures, for tests of what is said about it."""

from dataclasses import replace

from kinematics.planning.raised_bite import RaisedBite

_MADE = RaisedBite(
    pin_opening_mm=3.0,
    pin_holds=True,
    raised_mm=3.0,
    back_mm=1.1,
    opening_deg=2.4,
    turned_deg=2.0,
    first_contact_upper=17,
    first_contact_lower=47,
    first_arc_gap_mm=1.2,
    incisal_point=(83.0, 0.0, -36.0),
    incisal_point_in_mi=(84.0, 0.0, -33.0),
    front=None,
    front_in_mi=None,
    teeth=(),
)


def made_raised(**changed):
    """Return the raised bite with some fields changed."""
    return replace(_MADE, **changed)
