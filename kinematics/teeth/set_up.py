"""Both arches of the left side set up against each other, before anything is settled.

Overbite and overjet put the upper incisal edges in place; the upper front teeth are then leaned
until they meet the lower ones, and the upper canine width is chosen so that the molars keep their
relation. Every change opens or closes contacts between neighbours, so all goes round together.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch
from kinematics.checks import NotConverged
from kinematics.contact.closure import MEETS, close
from kinematics.contact.pair import LeaveOut, prepare
from kinematics.conventions import Floats, Ints
from kinematics.geometry.meshes import mesh_of
from kinematics.geometry.poses import rotation_about
from kinematics.teeth.anterior_crown import EDGE_ROUNDING_MM, Sheets, anterior_crown
from kinematics.teeth.arch_form import Placement, widest_canine
from kinematics.teeth.crown_table import KINDS, CrownTable
from kinematics.teeth.proximal_contacts import Side, closed_slides, proximal_sides

#: Triangle edge of the front teeth that are leaned against each other; they settle finely later.
COARSE_MM: Final = 0.3
#: Accepted remainders of the front gap, the overjet and the molar relation, mm.
FRONT_SLACK_MM: Final = 0.003
OVERJET_SLACK_MM: Final = 0.003
MOLAR_SLACK_MM: Final = 0.006
#: Widening the upper canines by 1 mm a side brings the upper molars forward by about 3 mm, and the
#: same holds below; half of a correction is made in each arch.
MOLAR_GAIN: Final = 0.15
#: Front teeth ask to be leaned by at most so much, degrees, and a round in which they do teaches
#: nothing; leaning the crown forward brings the lingual surface nearer to the lower edge.
MOST_TURN_DEG: Final = 4.0
#: A deep overbite or a large overjet leaves the canines room only where the lower arch stands
#: farther back: the molar relation falls by these shares of what they exceed the usual ones, mm.
USUAL_OVERBITE_MM: Final = 2.1
USUAL_OVERJET_MM: Final = 3.25
RELATION_PER_OVERBITE: Final = 0.5
RELATION_PER_OVERJET: Final = 0.4
#: Canines stay this much inside the greatest half width, mm.
ROOM_MM: Final = 0.01
MOST_ROUNDS: Final = 45
#: A degree of torque moves the lingual surface of a front tooth by about so much, mm: what weighs
#: degrees against millimetres.
_MM_PER_DEG: Final = 0.07
#: What to change (rows) by what is asked for (columns), both in the order of `_changed`, measured
#: near the usual set-up: leaning the upper front when its edges move, both arches when one moves.
#: It only shortens the search; how a set-up answers is learnt from round to round.
_ANSWERED_BY: Final = np.array(
    [
        [1.0, 0.3, 0.0, 0.0, 0.0, 0.0],
        [0.1, 1.4, 0.5, 0.0, 0.0, 0.0],
        [0.7, 0.1, 1.7, -0.03, -0.03, -0.03],
        [-12.5, 7.8, -3.0, 1.1, 0.05, 0.05],
        [-20.0, -4.0, -24.0, 0.4, 1.4, 0.5],
        [-15.5, -10.0, -18.5, 0.3, 0.4, 1.5],
    ]
)
#: The next step is worked out from so many rounds; what they tell less clearly than by this share
#: of the clearest is not used.
_REMEMBERED: Final = 5
_CLEAR: Final = 0.01
_FRONT: Final = ("1", "2", "3")


@dataclass(frozen=True)
class SetUpTargets:
    """What the set-up must reach.

    Attributes
    ----------
    overbite_mm, overjet_mm : float
        Vertical and horizontal distance of the central incisors' edges, labial side.
    ahead_mm, below_mm : float
        Place of the lower incisal point from the hinge axis in MI.
    front_gap_mm : float
        Arc gap at which front teeth are left in MI.
    """

    overbite_mm: float
    overjet_mm: float
    ahead_mm: float
    below_mm: float
    front_gap_mm: float


def labial_edge(table: CrownTable, kind: str, place: Placement) -> Floats:
    """Return the labial end of the middle of an incisor's edge in the arch frame (3,), mm."""
    form = table.anterior[kind]
    labial, _, _ = Sheets(kind).profiles(np.ones(1))
    local = np.array([[0.0, float(labial[0]), form.size[2] - EDGE_ROUNDING_MM]])
    return np.asarray(place.points(local)[0])


def reference_point(table: CrownTable, kind: str, place: Placement) -> Floats:
    """Return the point by which a tooth was placed, in the arch frame (3,), mm."""
    if kind in table.anterior:
        height = table.anterior[kind].size[2]
    else:
        height = table.posterior[kind].reference_height
    return np.asarray(place.points(np.array([[0.0, 0.0, height]]))[0])


def overlaps(table: CrownTable, places: Mapping[str, Placement]) -> tuple[float, float]:
    """Return overbite and overjet, mm, of a set-up.

    Overbite is the height between the middles of the central incisors' edges, overjet the
    distance forward between the labial ends of those edges.
    """
    deep = reference_point(table, "L1", places["L1"]) - reference_point(table, "U1", places["U1"])
    apart = labial_edge(table, "U1", places["U1"]) - labial_edge(table, "L1", places["L1"])
    return float(deep[2]), float(apart[0])


def molar_relation(table: CrownTable, places: Mapping[str, Placement]) -> float:
    """Return how far the lower first molar stands ahead of the upper one, mm."""
    lower = reference_point(table, "L6", places["L6"])
    return float(lower[0] - reference_point(table, "U6", places["U6"])[0])


def wanted_relation(table: CrownTable, targets: SetUpTargets) -> float:
    """Return how far the lower first molar is to stand ahead of the upper one, mm."""
    deep = targets.overbite_mm - USUAL_OVERBITE_MM
    far = targets.overjet_mm - USUAL_OVERJET_MM
    return table.set_up.molar_relation - RELATION_PER_OVERBITE * deep - RELATION_PER_OVERJET * far


def to_hinge_frame(
    table: CrownTable, places: Mapping[str, Placement], targets: SetUpTargets
) -> Floats:
    """Return the vector (3,) that brings the lower incisal edge to its place, mm."""
    edge = reference_point(table, "L1", places["L1"])
    return np.array([targets.ahead_mm - edge[0], 0.0, -targets.below_mm - edge[2]])


@lru_cache(maxsize=len(KINDS))
def _coarse_crown(kind: str) -> tuple[Floats, Ints]:
    """Return vertices, mm, and triangles of a front crown in its own frame."""
    return anterior_crown(Sheets(kind), COARSE_MM)


def _front_arch(table: CrownTable, places: Mapping[str, Placement], arch: str, by: Floats) -> Arch:
    """Return the coarse left front teeth of an arch, numbered by their place from the midline."""
    vertices, faces, labels, count = [], [], [], 0
    for number in _FRONT:
        kind = arch + number
        local, triangles = _coarse_crown(kind)
        vertices.append(places[kind].points(local) + by)
        faces.append((triangles[:, ::-1] if arch == "U" else triangles) + count)
        labels.append(np.full(len(triangles), int(number)))
        count += len(local)
    return Arch(
        mesh_of(np.concatenate(vertices), np.concatenate(faces)), np.concatenate(labels), ()
    )


def _leaning(
    table: CrownTable, places: Mapping[str, Placement], targets: SetUpTargets
) -> tuple[Floats, Floats]:
    """Return the gaps (3,) of the upper front teeth, mm, and the torque changes (3,), degrees."""
    by = to_hinge_frame(table, places, targets)
    pair = prepare(_front_arch(table, places, "U", by), _front_arch(table, places, "L", by))
    gaps, changes = np.empty(3), np.empty(3)
    for k, number in enumerate(_FRONT):
        others = frozenset(int(n) for n in _FRONT if n != number)
        met = close(pair, np.eye(4)[None], LeaveOut(upper=others))
        if met.status[0] != MEETS:
            gaps[k], changes[k] = np.inf, MOST_TURN_DEG
            continue
        gaps[k] = -met.opening_rad[0] * met.radius_mm[0]
        place = places["U" + number]
        lever = met.point[0] - by - reference_point(table, "U" + number, place)
        turn = rotation_about(place.axes[:, 0] * np.linalg.det(place.axes), -np.radians(1.0))
        closing = np.array([-met.point[0, 2], 0.0, met.point[0, 0]]) / met.radius_mm[0]
        normal = met.normal[0]
        opened = (turn @ lever - lever) @ normal / (closing @ normal)
        changes[k] = np.clip(
            (targets.front_gap_mm - gaps[k]) / opened, -MOST_TURN_DEG, MOST_TURN_DEG
        )
    return gaps, changes


def _widest(table: CrownTable, arch: str) -> float:
    """Return the greatest half width at the canines that an arch is given, mm."""
    return widest_canine(table.set_up.spans[arch], table.widths(arch)) - ROOM_MM


def _not_too_wide(table: CrownTable) -> CrownTable:
    """Return the table with an upper canine width that the front teeth can reach."""
    upper = table.set_up.spans["U"]
    canine = min(upper.canine, _widest(table, "U"))
    spans = {**table.set_up.spans, "U": replace(upper, canine=canine)}
    return replace(table, set_up=replace(table.set_up, spans=spans))


def set_up_side(
    table: CrownTable, targets: SetUpTargets
) -> tuple[CrownTable, dict[str, Placement]]:
    """Set up the left side.

    Returns
    -------
    CrownTable
        The table with the set-up that was reached.
    dict of str to Placement
        Frames of the fourteen teeth in the arch frame, keyed by crown type.

    Raises
    ------
    NotConverged
        Overbite, overjet and molar relation do not go together with teeth of these forms.
    """
    sides: dict[str, tuple[Side, Side]] = {kind: proximal_sides(table, kind) for kind in KINDS}
    table = _not_too_wide(table)
    relation = wanted_relation(table, targets)
    left, rounds = np.inf, list[tuple[Floats, Floats]]()
    moved = np.zeros(6)
    for _ in range(MOST_ROUNDS):
        slides, places = closed_slides(table, sides)
        table = replace(table, set_up=replace(table.set_up, slide=slides))
        overbite, overjet = overlaps(table, places)
        gaps, torque = _leaning(table, places, targets)
        deeper = targets.overbite_mm - overbite
        farther = targets.overjet_mm - overjet
        behind = relation - molar_relation(table, places)
        left = max(
            float(np.abs(gaps - targets.front_gap_mm).max()) / FRONT_SLACK_MM,
            max(abs(deeper), abs(farther)) / OVERJET_SLACK_MM,
            abs(behind) / MOLAR_SLACK_MM,
        )
        if left <= 1.0:
            return table, places
        change = np.array([deeper, farther, behind, *torque])
        if np.abs(torque).max() >= MOST_TURN_DEG:
            rounds.clear()
        rounds.append((moved, change))
        step = _next_step(rounds[-_REMEMBERED:])
        moved = moved + step
        table = _changed(table, step)
    raise NotConverged(
        f"setting up the front teeth with an overbite of {targets.overbite_mm:g} mm and an overjet"
        f" of {targets.overjet_mm:g} mm, in units of the accepted remainder; bring them nearer to"
        " the defaults",
        left,
        MOST_ROUNDS,
    )


def _next_step(rounds: Sequence[tuple[Floats, Floats]]) -> Floats:
    """Return the next step (6,) from where rounds stood (6,) and what they asked for (6,).

    After D. G. Anderson, J ACM 1965;12:547 (from memory): the step by the last round alone, less
    what the rounds before let expect of it.
    """
    stood, asked = (np.array(values) for values in zip(*rounds, strict=True))
    wanted = asked @ _ANSWERED_BY.T
    steps, answers = np.diff(stood, axis=0).T, np.diff(wanted, axis=0).T
    weights = np.repeat([1.0, _MM_PER_DEG], 3)
    shares = np.linalg.lstsq(weights[:, None] * answers, weights * wanted[-1], rcond=_CLEAR)[0]
    return np.asarray(wanted[-1] - (steps + answers) @ shares)


def _changed(table: CrownTable, change: Floats) -> CrownTable:
    """Return the table with its set-up moved towards the targets.

    `change` (6,): how much deeper, farther forward and farther behind, mm, then torque of the upper
    front teeth, degrees.
    """
    deeper, farther, behind = (float(v) for v in change[:3])
    torque_deg = change[3:]
    set_up = table.set_up
    upper, lower = set_up.spans["U"], set_up.spans["L"]
    # A canine is lengthened half as much as the incisors when the overbite deepens.
    edges = dict(set_up.edge_over_sphere)
    for kind, share in (("U1", 1.0), ("U2", 1.0), ("U3", 0.5)):
        edges[kind] -= share * deeper
    torque = dict(set_up.torque)
    for number, change in zip(_FRONT, torque_deg, strict=True):
        torque["U" + number] = torque.get("U" + number, 0.0) + float(change)
    # Leaning and moving the front brings the molars along; take their share of it off at once.
    narrower = MOLAR_GAIN * (behind + farther)
    upper_canine = min(upper.canine - narrower, _widest(table, "U"))
    # What one arch cannot give, the other does.
    rest = narrower - (upper.canine - upper_canine)
    wanted = lower.canine + narrower + rest
    lower_canine = min(wanted, _widest(table, "L"))
    upper_canine -= wanted - lower_canine
    spans = {
        "U": replace(upper, x0=upper.x0 + farther, canine=upper_canine),
        "L": replace(lower, canine=lower_canine),
    }
    return replace(
        table, set_up=replace(set_up, spans=spans, edge_over_sphere=edges, torque=torque)
    )
