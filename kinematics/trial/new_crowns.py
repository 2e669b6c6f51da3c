"""Built-in crowns in a trial set-up: where a tooth is missing, or over one that stands."""

from dataclasses import dataclass, replace
from typing import Final

import numpy as np

from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.conventions import Floats, Ints
from kinematics.teeth.arch_form import Placement
from kinematics.teeth.crown_table import crown_table
from kinematics.teeth.landmarks import landmarks
from kinematics.teeth.standing_tooth import standing_tooth
from kinematics.tooth_codes import PERMANENT, arch_place, is_right, is_upper, place
from kinematics.trial.cutting import along
from kinematics.trial.standing import NEW_VERTEX, TrialTooth

#: How much narrower or wider than its table a built-in crown may be made. Chosen for this program.
NARROWEST: Final = 0.6
WIDEST: Final = 1.3
#: Share of the change of width by which an added crown becomes thicker and higher too. Chosen for
#: this program.
THICKNESS_SHARE: Final = 0.5
#: What lies within this distance of the line between two teeth, to the facial and the lingual,
#: limits the space between them, mm. Chosen for this program.
BESIDE_MM: Final = 1.5


@dataclass(frozen=True)
class BuiltInCrown:
    """A crown of the table: x mesial, y facial, z towards the opponent, mm.

    Attributes
    ----------
    vertices, faces : ndarray, shapes (n, 3) and (m, 3)
        Its triangles, counter-clockwise seen from outside.
    tooth : Tooth
        Its landmarks.
    low, high : ndarray, shape (3,)
        Its extents.
    """

    vertices: Floats
    faces: Ints
    tooth: Tooth
    low: Floats
    high: Floats


def built_in_crown(code: int, edge_mm: float) -> BuiltInCrown:
    """Return the crown of the table for a tooth, with triangles of about that edge."""
    upper = is_upper(code)
    flip = np.array([1.0, 1.0, -1.0 if upper else 1.0])  # uppers are made with their edge down
    at = Placement(np.diag(flip), np.zeros(3), np.array([-1.0, 0.0, 0.0]))
    kind = f"{'U' if upper else 'L'}{place(code)}"
    standing = standing_tooth(crown_table(), kind, at, edge_mm, 0.0)
    made = landmarks(standing, code, np.ones(3))
    vertices = standing.vertices() * flip
    faces = standing.faces[:, ::-1] if upper else standing.faces
    tooth = _placed_landmarks(made, np.diag(flip), np.zeros(3), np.array([0.0, 0.0, 1.0]))
    used = vertices[np.unique(faces)]
    return BuiltInCrown(vertices, faces, tooth, used.min(axis=0), used.max(axis=0))


def _placed_landmarks(tooth: Tooth, linear: Floats, origin: Floats, axis: Floats) -> Tooth:
    """Return landmarks after an affine map; the long axis is given."""

    def placed(points: Floats) -> Floats:
        return np.asarray(points @ linear.T + origin)

    tips = {name: placed(tip) for name, tip in tooth.cusp_tips.items()}
    return replace(
        tooth, centre=placed(tooth.centre), long_axis=axis, edge=placed(tooth.edge), cusp_tips=tips
    )


def _placed(crown: BuiltInCrown, axes: Floats, origin: Floats, scale: Floats) -> TrialTooth:
    """Return a crown in an arch: stretched along its own directions, then placed on new ones."""
    linear = axes * scale
    faces = crown.faces if np.linalg.det(axes) > 0.0 else crown.faces[:, ::-1]
    tooth = _placed_landmarks(crown.tooth, linear, origin, axes[:, 2])
    vertices = np.asarray(crown.vertices @ linear.T + origin)
    before = np.full(len(vertices), NEW_VERTEX, dtype=np.int64)
    return TrialTooth(tooth, axes, vertices, np.ascontiguousarray(faces), before)


def crown_over(tooth: TrialTooth, edge_mm: float) -> TrialTooth:
    """Return the built-in crown in place of a tooth's own: as wide, as thick, its top as high.

    Raises
    ------
    InputError
        The tooth's own crown is of no size that a built-in one can have.
    """
    code = tooth.tooth.code
    crown = built_in_crown(code, edge_mm)
    used = tooth.vertices[np.unique(tooth.faces)]
    own = np.stack([along(used, axis) for axis in tooth.axes.T], axis=1)
    low, high = own.min(axis=0), own.max(axis=0)
    aside = (high - low)[:2] / (crown.high - crown.low)[:2]
    for share, way in zip(aside, ("wide", "thick"), strict=True):
        _refuse_size(code, float(share), f"its own crown is too {{}} {way}")
    scale = np.array([*aside, float(aside.mean())])
    middle = 0.5 * (low + high) - 0.5 * (crown.low + crown.high) * scale
    middle[2] = high[2] - crown.high[2] * scale[2]
    return _placed(crown, tooth.axes, tooth.axes @ middle, scale)


def _refuse_size(code: int, share: float, what: str) -> None:
    if not NARROWEST <= share <= WIDEST:
        said = what.format("little" if share < NARROWEST else "much")
        raise InputError(
            f"tooth {code}: {said} for a built-in crown: {100.0 * share:.0f} percent of its size "
            f"in the table; accepted are {100.0 * NARROWEST:g} to {100.0 * WIDEST:g} percent"
        )


@dataclass(frozen=True)
class _Neighbour:
    """A tooth beside a space: its middle, the way along the arch from right to left, its axis."""

    middle: Floats
    along_arch: Floats
    up: Floats
    points: Floats

    def reach_mm(self, into: Floats) -> float:
        """Return how far its crown extends from its middle along a direction into the space, mm.

        Only what lies beside the line through its middle counts, as a proximal contact does.
        """
        away = self.points - self.middle
        facial = np.cross(into, self.up)
        aside = along(away, facial / np.linalg.norm(facial))
        return float(along(away, into)[np.abs(aside) <= BESIDE_MM].max(initial=0.0))


def _neighbour(arch: Arch, code: int) -> _Neighbour:
    tooth = arch.tooth(code)
    points = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == code])]
    return _Neighbour(tooth.centre, _along_arch(arch, code), tooth.long_axis, points)


def _along_arch(arch: Arch, code: int) -> Floats:
    """Return the unit vector along the arch at a tooth, from the patient's right to left.

    Of the parabola through its middle and those of its neighbours, near or far.
    """
    at = arch.codes.index(code)
    here = arch.teeth[at].centre
    ways, lengths = [], []
    for beside, sign in ((at - 1, -1.0), (at + 1, 1.0)):
        if 0 <= beside < len(arch.teeth):
            way = sign * (arch.teeth[beside].centre - here)
            lengths.append(float(np.linalg.norm(way)))
            ways.append(way / lengths[-1])
    if not ways:
        return np.array([0.0, 1.0, 0.0])
    if len(ways) == 1:
        return np.asarray(ways[0])
    along_arch = ways[0] * lengths[1] + ways[1] * lengths[0]
    return np.asarray(along_arch / np.linalg.norm(along_arch))


def _nominal_mm(code: int) -> float:
    return float(crown_table().form(f"{'U' if is_upper(code) else 'L'}{place(code)}").size[0])


def added_tooth(arch: Arch, code: int, edge_mm: float) -> TrialTooth:
    """Return a built-in crown in the space of a missing tooth, at the height of its neighbours.

    Between two neighbours it takes its share of the space, as wide as the table has the teeth that
    are missing there; behind the last tooth it has its size in the table.

    Raises
    ------
    InputError
        There is no tooth beside the space, or too little room.
    """
    here = arch_place(code)
    rights = [c for c in arch.codes if arch_place(c) < here]
    lefts = [c for c in arch.codes if arch_place(c) > here]
    crown = built_in_crown(code, edge_mm)
    if rights and lefts:
        spot = _between(arch, code, rights[-1], lefts[0])
    elif rights:
        spot = _behind(arch, code, rights[-1], right_to_left=True)
    else:
        spot = _behind(arch, code, lefts[0], right_to_left=False)
    share = spot.width_mm / _nominal_mm(code)
    _refuse_size(code, share, f"there is too {{}} room {spot.called}")
    scale = np.array([share, *[1.0 + THICKNESS_SHARE * (share - 1.0)] * 2])
    axes = _axes(code, spot)
    return _placed(crown, axes, spot.middle - axes @ (crown.tooth.centre * scale), scale)


@dataclass(frozen=True)
class _Spot:
    """Where a missing tooth goes: its middle, the way along the arch, its axis, its room."""

    middle: Floats
    along_arch: Floats
    up: Floats
    width_mm: float
    called: str


def _axes(code: int, spot: _Spot) -> Floats:
    """Return mesial, facial and long axis (3, 3) of a tooth at a spot."""
    up = spot.up / np.linalg.norm(spot.up)
    mesial = spot.along_arch if is_right(code) else -spot.along_arch
    mesial = mesial - (mesial @ up) * up
    mesial = mesial / np.linalg.norm(mesial)
    turns_right = is_upper(code) == is_right(code)
    facial = np.cross(up, mesial) if turns_right else np.cross(mesial, up)
    return np.stack([mesial, facial, up], axis=1)


def _missing_between(code: int, right: int, left: int) -> list[int]:
    """Return the teeth that are missing between two, from right to left; third molars are not."""
    same = [c for c in PERMANENT if is_upper(c) == is_upper(code)]
    first, last = arch_place(right), arch_place(left)
    return sorted((c for c in same if first < arch_place(c) < last), key=arch_place)


def _between(arch: Arch, code: int, right: int, left: int) -> _Spot:
    """Return the spot of a tooth in a space between two others."""
    start, end = _neighbour(arch, right), _neighbour(arch, left)
    middles, ways = _curve(start, end)
    lengths = np.linalg.norm(np.diff(middles, axis=0), axis=1)
    travelled = np.concatenate([[0.0], np.cumsum(lengths)])
    first_mm, last_mm = start.reach_mm(start.along_arch), end.reach_mm(-end.along_arch)
    room = travelled[-1] - first_mm - last_mm
    lost = _missing_between(code, right, left)
    widths = np.array([_nominal_mm(c) for c in lost])
    widths *= room / widths.sum()
    at = lost.index(code)
    station = first_mm + widths[:at].sum() + 0.5 * widths[at]
    middle, way = (
        np.array([np.interp(station, travelled, rows[:, k]) for k in range(3)])
        for rows in (middles, ways)
    )
    share = float(station / travelled[-1])
    up = (1.0 - share) * start.up + share * end.up
    return _Spot(middle, way, up, float(widths[at]), f"between {right} and {left}")


def _curve(start: _Neighbour, end: _Neighbour) -> tuple[Floats, Floats]:
    """Return places and directions (n, 3) on the smooth curve from one tooth to another."""
    s = np.linspace(0.0, 1.0, 101)[:, None]
    chord = end.middle - start.middle
    length = float(np.linalg.norm(chord))
    leave, arrive = length * start.along_arch, length * end.along_arch
    middles = (
        start.middle
        + (3.0 * s**2 - 2.0 * s**3) * chord
        + (s - 2.0 * s**2 + s**3) * leave
        + (s**3 - s**2) * arrive
    )
    ways = (
        (6.0 * s - 6.0 * s**2) * chord
        + (1.0 - 4.0 * s + 3.0 * s**2) * leave
        + (3.0 * s**2 - 2.0 * s) * arrive
    )
    return middles, ways


def _behind(arch: Arch, code: int, last: int, *, right_to_left: bool) -> _Spot:
    """Return the spot of a tooth behind the last of its arch."""
    beside = _neighbour(arch, last)
    ahead = beside.along_arch if right_to_left else -beside.along_arch
    lost = [
        c
        for c in PERMANENT
        if is_upper(c) == is_upper(code)
        and min(arch_place(last), arch_place(code))
        < arch_place(c)
        < max(arch_place(last), arch_place(code))
    ]
    width = _nominal_mm(code)
    away = beside.reach_mm(ahead) + sum(map(_nominal_mm, lost)) + 0.5 * width
    middle = beside.middle + away * ahead
    return _Spot(middle, beside.along_arch, beside.up, width, f"behind {last}")
