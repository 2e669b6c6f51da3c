"""Bridges and splints as what carries teeth: told of loads beside frameworks of denture bases."""

from collections.abc import Sequence

from kinematics.planning.framework import Framework
from kinematics.planning.joined_teeth import Bridge, Joined
from kinematics.planning.judging import DentureBase
from kinematics.tooth_codes import is_upper


def in_order(joined: Sequence[Joined]) -> tuple[Joined, ...]:
    """Return bridges before splints, each in the order given: so loads are told of them."""
    return tuple(sorted(joined, key=lambda unit: not isinstance(unit, Bridge)))


def bridge_frames(joined: Sequence[Joined]) -> tuple[Framework, ...]:
    """Return every bridge, then every splint, as a framework that lies on no ridge.

    Their roots hold them: they have neither rests nor guide planes, and turn about no line. A
    bridge carries pontics; a splint carries the teeth that it joins.
    """
    return tuple(_frame(unit) for unit in in_order(joined))


def _frame(unit: Joined) -> Framework:
    if isinstance(unit, Bridge):
        base = DentureBase(unit.name, unit.pontics, unit.abutments)
    else:
        base = DentureBase(unit.name, unit.teeth)
    return Framework(
        name=unit.called,
        is_upper=is_upper(unit.joined[0]),
        bases=(base,),
        rests=(),
        guide_planes=(),
        ridges=(),
        kennedy=None,
        fulcrum=None,
        indirect=(),
        extension_sides=(),
        kind="bridge" if isinstance(unit, Bridge) else "splint",
    )
