"""Planned crowns as items: what has yet to come off, and what is shaped in their wax patterns."""

from collections.abc import Iterable, Iterator

from kinematics.planning.rooms.crown_rooms import CrownRoom
from kinematics.planning.sequence.steps import Amount, Item
from kinematics.planning.wording import enumeration, length, sentence


def crown_items(rooms: Iterable[CrownRoom], scatter_mm: float) -> Iterator[Item]:
    """Yield one item a planned crown.

    Parameters
    ----------
    rooms : iterable of CrownRoom
        What was measured of it.
    scatter_mm : float
        Scatter of the records; 0 where it is not known.
    """
    for room in rooms:
        yield _crown(room, scatter_mm)


def _crown(room: CrownRoom, scatter_mm: float) -> Item:
    planned = room.crown
    lacking = [cusp for cusp in room.cusps if cusp.lacks_mm > 0.0]
    worst = room.narrowest
    crown = f"a {planned.material} crown"
    if lacking and planned.prepared:
        text = f"reduce it further for {crown}, cusp by cusp"
    elif lacking:
        text = f"prepare it for {crown}; cusp by cusp, so much has yet to come off"
    elif planned.prepared:
        text = f"it is prepared: {crown} has the room wanted over every cusp"
    else:
        text = f"prepare it for {crown}; over its cusps there is room as it is"
    return Item(
        teeth=(planned.tooth,),
        where="surveyed crown" if planned.surveyed else "crown",
        text=sentence(text),
        part="rooms",
        because=(
            f"Its material wants {length(worst.wanted_mm)} over the {worst.cusp} and lacks"
            f" {length(worst.lacks_mm)}."
            if lacking
            else ""
        ),
        amounts=tuple(
            Amount(
                f"to come off the {cusp.cusp}",
                cusp.lacks_mm,
                plus_minus=scatter_mm or None,
                tooth=planned.tooth,
            )
            for cusp in lacking
        ),
        cautions=tuple(_surveyed(room)),
        cuts=bool(lacking) or not planned.prepared,
    )


def _surveyed(room: CrownRoom) -> Iterator[str]:
    if not room.crown.surveyed:
        return
    sides = [side.side for side in room.beside if side.faces_base]
    if sides:
        yield f"its guide plane lies on its {enumeration(sides)} side, milled along the path"
    yield "wax it on the surveyor, with its rest seat and undercut, beside the prepared abutments"
