"""The bed of mucosa under a denture base: patches along the ridge, each of which only pushes."""

from dataclasses import dataclass
from typing import Final

import numpy as np

from kinematics.conventions import Floats
from kinematics.load.links import Law, Model, Part
from kinematics.load.tooth_support import AXIAL_N_PER_MM

#: Width of a molar along the arch, mm, by which the give of mucosa and tooth are compared: about
#: that of a first molar (textbook crown sizes, from memory).
MOLAR_WIDTH_MM: Final = 10.0


@dataclass(frozen=True)
class RidgeSection:
    """A ridge cut across its crest: flat on top, with two walls.

    Attributes
    ----------
    width_mm : float
        Width of the flat crest.
    wall_mm : float
        Height of the walls.
    wall_rad : float
        How steep they are against the crest.
    """

    width_mm: float
    wall_mm: float
    wall_rad: float


def bed_stiffness_n_per_mm2(mucosa_ratio: float, width_mm: float) -> float:
    """Return how stiff a mm2 of mucosa is, N/mm for each.

    A bed of a molar's width on a level crest gives way `mucosa_ratio` times as far as a molar under
    the same load.
    """
    return AXIAL_N_PER_MM / (mucosa_ratio * MOLAR_WIDTH_MM * width_mm)


def lay_bed(
    model: Model,
    base: Part,
    jaw: Part,
    crest: Floats,
    outward: Floats,
    facial: Floats,
    section: RidgeSection,
    stiffness_n_per_mm2: float,
) -> tuple[int, ...]:
    """Lay a base on its ridge, and return the numbers of the links.

    Each piece along the ridge has two for the crest and, where it has walls, one for each.

    Parameters
    ----------
    model : Model
        To which the links are added.
    base, jaw : Part
        What lies on the ridge, and what the ridge is part of.
    crest : ndarray, shape (k, 3)
        Along the crest, mm.
    outward, facial : ndarray, shape (k, 3)
        Unit vectors away from the bone, and across the crest towards cheek or lip.
    section : RidgeSection
        What the ridge is like everywhere.
    stiffness_n_per_mm2 : float
        See `bed_stiffness_n_per_mm2`.
    """
    links = []
    middle = 0.5 * (crest[1:] + crest[:-1])
    length = np.linalg.norm(np.diff(crest, axis=0), axis=1)
    outwards, facials = (_unit(0.5 * (rows[1:] + rows[:-1])) for rows in (outward, facial))
    steep, wall = section.wall_rad, section.wall_mm
    slant = wall / np.sin(steep)
    aside = 0.5 * section.width_mm + 0.5 * wall / np.tan(steep)
    for at, run, out, face in zip(middle, length, outwards, facials, strict=True):
        # Two patches resist turning about the crest just as one as wide as the crest does.
        off = section.width_mm / np.sqrt(12.0)
        patches = [(at + side * off * face, out, 0.5 * section.width_mm) for side in (1.0, -1.0)]
        walls = (1.0, -1.0) if wall > 0.0 else ()
        patches += [
            (
                at + side * aside * face - 0.5 * wall * out,
                np.cos(steep) * out + side * np.sin(steep) * face,
                slant,
            )
            for side in walls
        ]
        for place, normal, breadth in patches:
            law = Law(stiffness_n_per_mm2 * run * breadth, one_sided=True)
            links.append(model.link(base, jaw, place, -normal, law))
    return tuple(links)


def _unit(rows: Floats) -> Floats:
    return np.asarray(rows / np.linalg.norm(rows, axis=1, keepdims=True))
