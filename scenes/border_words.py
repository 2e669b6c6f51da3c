"""What a report says of border movements: how far they reach, beside what is published."""

from typing import Final

from kinematics.borders.extents import BorderExtents, border_extents
from kinematics.borders.movements import BorderMovements
from scenes.phrases import degrees, length, number
from scenes.report_tables import Table

_WOELFEL: Final = "Woelfel et al., J Adv Prosthodont 2014;6(6), n = 316"
_KORDASS: Final = "Kordass et al., Int J Comput Dent 2014;17(1):9-20, n = 259"
_FERRARIO: Final = "Ferrario et al. 2005, n = 27, from the abstract"
_MEHL: Final = "Mehl et al., Clin Oral Investig 2025"
_RESTRICTED: Final = "Swiss Dent J, 500 patients; Hirsch et al., Eur J Oral Sci 2006;114:465"
#: Below these, mm, a movement counts as restricted.
_RESTRICTED_OPENING_MM: Final = 30.0
_RESTRICTED_MM: Final = 5.0


def border_table(found: BorderMovements) -> Table:
    """Return how far border movements reach, what is published of people, and by whom."""
    read = border_extents(found)
    both = f"{length(read.lateral_right_mm)} right, {length(read.lateral_left_mm)} left"
    centre = (
        f"{number(read.centre_below_mm, 1)} mm below and {number(abs(read.centre_behind_mm), 1)} mm"
        f" {'behind' if read.centre_behind_mm >= 0.0 else 'before'} the hinge axis in MI"
    )
    rows = (
        ("greatest opening, at the incisors", length(read.opening_mm), "51.2 mm", _WOELFEL),
        ("hinge opening, condyles in CR", length(read.hinge_opening_mm), "17.2 mm", _WOELFEL),
        ("protrusion", length(read.protrusion_mm), "8.0 mm", _WOELFEL),
        ("to the sides", both, "9.2 mm, 9.4 mm", _WOELFEL),
        (
            "way of the condyles at the greatest opening",
            length(read.condylar_way_mm),
            "14.5 ± 4.2 mm right, 15.1 ± 4.8 mm left",
            _KORDASS,
        ),
        (
            "turn on the hinge opening",
            degrees(read.hinge_turn_deg),
            "about 12° (18 to 25 mm)",
            "Posselt, as quoted by others",
        ),
        (
            "turn at the greatest opening",
            degrees(read.opening_turn_deg),
            "men 34° at 56 mm, women 32° at 46 mm",
            _FERRARIO,
        ),
        (
            "share of rotation in this opening",
            f"{number(100.0 * read.rotation_share, 0)} %",
            "77 %",
            _FERRARIO,
        ),
        (
            "centre of rotation of the whole opening",
            centre,
            "32.4 ± 7.4 mm below, 0.2 ± 10.8 mm behind",
            _MEHL,
        ),
    )
    return Table(("", "here", "published of people", "source"), rows)


def border_notes(found: BorderMovements) -> tuple[str, ...]:
    """Return which limits are not reached, and which movements count as restricted."""
    read = border_extents(found)
    return (*(f"{text[0].upper()}{text[1:]}." for text in found.cut_short), *_restricted(read))


def _restricted(read: BorderExtents) -> tuple[str, ...]:
    ways = (
        ("an opening", read.opening_mm, _RESTRICTED_OPENING_MM),
        ("protrusion", read.protrusion_mm, _RESTRICTED_MM),
        ("a right lateral excursion", read.lateral_right_mm, _RESTRICTED_MM),
        ("a left lateral excursion", read.lateral_left_mm, _RESTRICTED_MM),
    )
    return tuple(
        f"{name[0].upper()}{name[1:]} of {length(way_mm)} counts as restricted: less than"
        f" {length(least_mm)} ({_RESTRICTED})."
        for name, way_mm, least_mm in ways
        if way_mm < least_mm
    )
