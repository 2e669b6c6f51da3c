"""Teeth moved along the arch until every crown just touches its neighbour.

Each tooth is slid along its own chord by the running sum of the gaps from the midline, which
closes all contacts of a side in a few rounds. (Changing chord lengths instead does not converge:
an alternating pattern of gaps hardly changes under it.)
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise
from typing import Final

import numpy as np
from scipy.spatial import KDTree

from kinematics.checks import NotConverged
from kinematics.conventions import Floats, Ints
from kinematics.teeth.anterior_crown import Sheets, anterior_crown
from kinematics.teeth.arch_form import Placement, place_side
from kinematics.teeth.crown_table import CrownTable, PosteriorForm
from kinematics.teeth.posterior_crown import PosteriorCrown, posterior_crown

#: Triangle edge of the crowns that are compared: the error of a gap is below a micrometre.
SAMPLE_MM: Final = 0.16
#: Where some points of two neighbours are nearer than this, others do not decide their gap, mm.
FAR_MM: Final = 0.5
#: Gaps are closed to within this, mm.
CLOSE_TO_MM: Final = 0.002
MOST_ROUNDS: Final = 30
#: After these rounds teeth are slid half as far, where they would go to and fro.
FULL_ROUNDS: Final = 10


@dataclass(frozen=True)
class Side:
    """Points and outward normals of one proximal side of a crown, in the crown's own frame."""

    points: Floats
    normals: Floats

    @cached_property
    def tree(self) -> KDTree:
        """Finds the nearest of the points."""
        return KDTree(self.points)


def _vertex_normals(vertices: Floats, faces: Ints) -> Floats:
    corners = vertices[faces]
    normal = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    corner, count = faces.T.ravel(), len(vertices)
    total = np.stack([np.bincount(corner, np.tile(part, 3), count) for part in normal.T], axis=1)
    return np.asarray(total / np.linalg.norm(total, axis=1, keepdims=True))


def proximal_sides(table: CrownTable, kind: str) -> tuple[Side, Side]:
    """Return the mesial and distal side of a crown type."""
    if kind in table.posterior:
        form = table.posterior[kind]
        return posterior_sides(form, form.heights)
    return anterior_sides(Sheets(kind))


@lru_cache(maxsize=32)
def anterior_sides(sheets: Sheets) -> tuple[Side, Side]:
    """Return the mesial and distal side of a front crown."""
    return _sides(*anterior_crown(sheets, SAMPLE_MM))


@lru_cache(maxsize=32)
def _sampled(form: PosteriorForm) -> PosteriorCrown:
    return posterior_crown(form, SAMPLE_MM)


def posterior_sides(form: PosteriorForm, heights: Floats) -> tuple[Side, Side]:
    """Return the mesial and distal side of a posterior crown with heights (parts,), mm."""
    crown = _sampled(form)
    return _sides(crown.vertices(heights), crown.faces)


def _sides(vertices: Floats, faces: Ints) -> tuple[Side, Side]:
    normals = _vertex_normals(vertices, faces)
    mesial, distal = normals[:, 0] > 0.7, normals[:, 0] < -0.7
    return (
        Side(vertices[mesial], normals[mesial]),
        Side(vertices[distal], normals[distal]),
    )


def neighbour_gap(
    front: Placement, distal_side: Side, behind: Placement, mesial_side: Side
) -> float:
    """Return the least gap of two neighbours, mm; negative where they overlap.

    Parameters
    ----------
    front, behind : Placement
        The tooth nearer to the midline and the next one.
    distal_side, mesial_side : Side
        The side of each that faces the other.
    """
    # In the frame of the tooth in front, whose tree need not be made anew for every place.
    other = (behind.points(mesial_side.points) - front.origin) @ front.axes
    query = distal_side.tree.query(other, distance_upper_bound=FAR_MM)
    distance, nearest = np.asarray(query[0]), np.asarray(query[1])
    near = np.isfinite(distance)
    if not near.any():
        return float(np.min(distal_side.tree.query(other)[0]))
    found = nearest[near]
    apart = other[near] - distal_side.points[found]
    return float(np.sum(apart * distal_side.normals[found], axis=1).min())


def _gaps(
    places: Mapping[str, Placement], sides: Mapping[str, tuple[Side, Side]], kinds: list[str]
) -> Floats:
    """Return the gaps (7,) from the midline on: to the mirror image, then between neighbours."""
    first = places[kinds[0]].points(sides[kinds[0]][0].points)
    midline = float(first[:, 1].min())
    between = [
        neighbour_gap(places[a], sides[a][1], places[b], sides[b][0]) for a, b in pairwise(kinds)
    ]
    return np.array([midline, *between])


def closed_slides(
    table: CrownTable, sides: Mapping[str, tuple[Side, Side]]
) -> tuple[dict[str, float], dict[str, Placement]]:
    """Return slides, mm, at which all neighbours of the left side touch, and where teeth stand so.

    Both are keyed by crown type.

    Parameters
    ----------
    table : CrownTable
        Crown forms and set-up; its slides are where the search begins.
    sides : mapping of str to (Side, Side)
        Mesial and distal side of every crown type, see `proximal_sides`.

    Raises
    ------
    NotConverged
        Gaps are still open or overlapping after some rounds.
    """
    slides, places = dict(table.set_up.slide), dict[str, Placement]()
    for arch in "UL":
        kinds = [f"{arch}{place}" for place in range(1, 8)]
        gaps = np.full(len(kinds), np.inf)
        for number in range(MOST_ROUNDS):
            stand = place_side(table, arch, slides)
            gaps = _gaps(stand, sides, kinds)
            if np.abs(gaps).max() <= CLOSE_TO_MM:
                places.update(stand)
                break
            share = 1.0 if number < FULL_ROUNDS else 0.5
            for kind, back in zip(kinds, share * np.cumsum(gaps), strict=True):
                slides[kind] = slides.get(kind, 0.0) - float(back)
        else:
            raise NotConverged(
                "closing the contacts between neighbouring teeth, mm",
                float(np.abs(gaps).max()),
                MOST_ROUNDS,
            )
    return slides, places
