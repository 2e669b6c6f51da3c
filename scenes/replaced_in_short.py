"""Set-ups and schemes of replaced teeth in short: a line each, for the summary on the screen."""

from collections.abc import Iterator

from kinematics.checkup_result import Checkup
from kinematics.planning.extent import Extent
from kinematics.planning.extent_words import unmet_words
from kinematics.planning.scheme_advice import SchemeAdvice
from kinematics.planning.school_answers import nearest_of
from kinematics.planning.wording import enumeration
from scenes.advice_words import counted_words, scheme_words


def replaced_in_short(checkup: Checkup) -> Iterator[str]:
    """Yield the shortest set-up of every base, then how near every unit comes to the schools."""
    yield from map(_set_up, checkup.extents)
    yield from map(_schools, checkup.advice)


def _set_up(extent: Extent) -> str:
    name = f"Shortest set-up, '{extent.base}'"
    if not extent.is_told_by_stops:
        return f"{name}: not told by stops"
    name += f" ({_teeth(extent.full.teeth)})"
    further = "".join(
        f"; one more tooth, {item.tooth}, would stand opposite {enumeration(item.holds)} (told by"
        " place alone)"
        for item in extent.further
    )
    shortest = extent.shortest
    if shortest is None:
        best = _teeth(extent.best_off_ridge.teeth) or "none"
        told = f"none that keeps off the ascending ridge does all that is asked; nearest: {best}"
    elif not shortest.teeth:
        told = "none needed"
    elif not shortest.dropped:
        told = "all of it needed"
    else:
        told = f"{_teeth(shortest.teeth)}, without {_teeth(shortest.dropped)}"
    unmet = f"; but {unmet_words(extent)}" if extent.unmet and shortest is not None else ""
    return f"{name}: {told}{unmet}{further}"


def _schools(advice: SchemeAdvice) -> str:
    scheme = scheme_words(advice.scheme, natural=advice.unit.base is None)
    name = f"Scheme, '{advice.unit.name}': {scheme}"
    nearest = nearest_of(advice.schools)
    if not nearest:
        return f"{name}; nothing that schools want could be judged here"
    told = enumeration(map(counted_words, nearest))
    if len(advice.schools) == 1:
        return f"{name}; the one school that speaks of these teeth, by wants met: {told}"
    return f"{name}; nearest of {len(advice.schools)} schools by wants met: {told}"


def _teeth(codes: tuple[int, ...]) -> str:
    return " ".join(map(str, codes))
