"""How far back the teeth of every denture base must go, worked out on the casts."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from kinematics.conventions import Floats
from kinematics.planning.extent import (
    ITS_IMPLANT,
    BareTooth,
    Extent,
    OpposingTooth,
    RidgeSlope,
    SetUp,
)
from kinematics.planning.extent_closure import ClosedInMi, closed_in_mi, closes_further_mm
from kinematics.planning.extent_further import further_teeth
from kinematics.planning.extent_ridge import occlusal_normal, slopes_below
from kinematics.planning.extent_set_ups import back_teeth, end_of, is_bounded, set_ups_of
from kinematics.planning.framework import Framework
from kinematics.planning.free_ends import counting_teeth
from kinematics.planning.joined_teeth import Bridge, holder_of
from kinematics.planning.judging import DentureBase
from kinematics.planning.occlusion import Occlusion
from kinematics.tooth_codes import is_posterior, is_right, is_upper, opponent, place


@dataclass(frozen=True)
class Surroundings:
    """What is known about teeth and ridges beside the casts.

    Attributes
    ----------
    holders : mapping of int to str
        Teeth that something else keeps in place, and what, as a sentence says it: "a rest of
        framework 'lower'", "its implant".
    crests : mapping of str to tuple of ndarray, shape (k, 3)
        Crests of the ridge below a base, by its name, in the coordinates of its arch, mm.
    given : frozenset of str
        Names of the bases of which the case gives the crest; all others are worked out.
    """

    holders: Mapping[int, str] = field(default_factory=dict)
    crests: Mapping[str, tuple[Floats, ...]] = field(default_factory=dict)
    given: frozenset[str] = frozenset()


def surroundings_of(
    occlusion: Occlusion,
    frameworks: Sequence[Framework],
) -> Surroundings:
    """Return what frameworks and the conditions of teeth say."""
    holders = {item.tooth: ITS_IMPLANT for item in occlusion.conditions if item.implant}
    crests: dict[str, tuple[Floats, ...]] = {}
    for framework in frameworks:
        for rest in framework.rests:
            assumed = " (assumed)" if rest.assumed else ""
            holders.setdefault(rest.tooth, f"a rest of '{framework.name}'{assumed}")
        for line in framework.ridges:
            crests[line.base] = (*crests.get(line.base, ()), line.crest)
    given = {line.base for item in frameworks for line in item.ridges if not line.assumed}
    return Surroundings(holders, crests, frozenset(given))


def extents(occlusion: Occlusion, surroundings: Surroundings | None = None) -> tuple[Extent, ...]:
    """Compare the set-ups of every denture base; all other bases stay as they are.

    Parameters
    ----------
    occlusion : Occlusion
        The arches, bases, splints and bridges.
    surroundings : Surroundings, optional
        What else holds teeth, and where ridges run.
    """
    if not occlusion.bases:
        return ()
    full = closed_in_mi(occlusion)
    known = surroundings or Surroundings()
    return tuple(_extent(occlusion, known, base, full) for base in occlusion.bases)


def _extent(
    occlusion: Occlusion, known: Surroundings, base: DentureBase, full: ClosedInMi
) -> Extent:
    own, upper = frozenset(base.teeth), is_upper(base.teeth[0])
    # Third molars that hold nothing bound no base; opposite they face what they face.
    natural = (*counting_teeth(occlusion, upper), *_natural(occlusion, not upper))
    facing = _facing(occlusion, base, full)
    behind = _behind(occlusion, base, natural) - facing
    judged = [code for code in facing if is_posterior(code) or code in full.with_stop]
    slopes = _slopes(occlusion, known, base, natural)
    bare = closed_in_mi(occlusion, own)
    opposing = tuple(
        OpposingTooth(
            tooth=code,
            stops=full.stops_of(code),
            stops_with_base=full.stops_of(code, own),
            stops_without_base=bare.stops_of(code),
            held_by=_holder(occlusion, known, code, bare),
            is_behind=code in behind,
        )
        for code in _codes(occlusion)
        if code in facing or code in behind
    )
    found = Extent(
        base=base.name,
        end=end_of(base, natural),
        opposing=opposing,
        set_ups=tuple(
            _set_up(occlusion, known, base, kept, full, (*judged, *behind), slopes)
            for kept in set_ups_of(base, natural)
        ),
        slopes=slopes,
        crest_given=base.name in known.given,
        faces_replacements=bool(opposing)
        and all(tooth.tooth in occlusion.replacement_teeth for tooth in opposing),
    )
    if not found.is_told_by_stops:
        return found
    crests = known.crests.get(base.name, ())
    further = further_teeth(occlusion, base, natural, found.full.left, crests)
    return replace(found, further=further)


def _codes(occlusion: Occlusion) -> tuple[int, ...]:
    return (*occlusion.casts.upper.codes, *occlusion.casts.lower.codes)


def _natural(occlusion: Occlusion, upper: bool) -> tuple[int, ...]:
    """Return the teeth of an arch that stand on no denture base."""
    arch = occlusion.casts.upper if upper else occlusion.casts.lower
    return tuple(code for code in arch.codes if code not in occlusion.replacement_teeth)


def _facing(occlusion: Occlusion, base: DentureBase, full: ClosedInMi) -> frozenset[int]:
    """Return the teeth of the other arch that a base faces by number, or meets in MI."""
    own, there = set(base.teeth), set(_codes(occlusion))
    meeting = ({stop.tooth_upper, stop.tooth_lower} for stop in full.stops)
    met = set[int]().union(*(pair - own for pair in meeting if pair & own))
    return frozenset((met | {opponent(code) for code in own}) & there)


def _behind(occlusion: Occlusion, base: DentureBase, natural: Sequence[int]) -> frozenset[int]:
    """Return opposing back teeth behind the first of a base that no natural tooth faces."""
    found: set[int] = set()
    there = _natural(occlusion, is_upper(base.teeth[0]))
    for teeth in back_teeth(base):
        found |= {
            code
            for code in _codes(occlusion)
            if is_upper(code) != is_upper(teeth[0])
            and is_right(code) == is_right(teeth[0])
            and place(code) > place(teeth[0])
            and opponent(code) not in there
            and (place(code) < place(teeth[-1]) or not is_bounded(teeth, natural))
        }
    return frozenset(found)


def _slopes(
    occlusion: Occlusion, known: Surroundings, base: DentureBase, natural: Sequence[int]
) -> tuple[RidgeSlope, ...]:
    """Return the ridge below back teeth behind which no natural tooth stands."""
    crests = known.crests.get(base.name, ())
    if not crests:
        return ()
    casts = occlusion.casts
    arch = casts.upper if is_upper(base.teeth[0]) else casts.lower
    sides = (side for side in back_teeth(base) if not is_bounded(side, natural))
    back = [arch.tooth(code) for side in sides for code in side]
    limit_deg = occlusion.settings.ascending_ridge_deg
    return slopes_below(back, crests, occlusal_normal(arch.teeth), limit_deg)


def _set_up(
    occlusion: Occlusion,
    known: Surroundings,
    base: DentureBase,
    kept: tuple[int, ...],
    full: ClosedInMi,
    judged: tuple[int, ...],
    slopes: tuple[RidgeSlope, ...],
) -> SetUp:
    """Close the jaw without what a set-up leaves out, and tell which teeth have no stop then."""
    dropped = frozenset(base.teeth) - frozenset(kept)
    closed = closed_in_mi(occlusion, dropped) if dropped else full
    # Other teeth lose no stop: closing farther about the hinge brings them only nearer.
    losing = frozenset(judged) - closed.with_stop
    tolerance_mm = occlusion.settings.tolerance_mm
    bare = [c for c in _codes(occlusion) if c in losing and closed.gap_mm[c] > tolerance_mm]
    return SetUp(
        teeth=kept,
        dropped=tuple(code for code in base.teeth if code in dropped),
        closes_mm=closes_further_mm(occlusion, full, closed),
        stops=len(closed.stops),
        bare=tuple(
            BareTooth(code, closed.gap_mm[code], _holder(occlusion, known, code, closed))
            for code in bare
        ),
        bare_sides=tuple(sorted(full.sides - closed.sides)),
        on_ridge=tuple(item.tooth for item in slopes if item.ascends and item.tooth in kept),
    )


def _holder(occlusion: Occlusion, known: Surroundings, code: int, closed: ClosedInMi) -> str:
    """Return what keeps a tooth in its place beside its own stops; empty for nothing."""
    for base in occlusion.bases:
        if code in base.teeth:
            return f"denture base '{base.name}'"
    for unit in occlusion.joined:
        if isinstance(unit, Bridge) and code in unit.pontics:
            return unit.called
    holder = holder_of(code, occlusion.joined, closed.with_stop - {code})
    if holder is not None:
        return holder[0].called
    return known.holders.get(code, "")
