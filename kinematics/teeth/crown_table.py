"""The table of crown and arch forms, shipped with the package and read once.

Left side, seen in each crown's own frame: x mesial, y buccal (labial), z from the cervical line
towards the occlusal table or edge. Places are fractions of the full mesiodistal and buccolingual
size, heights and depths in mm, slopes in degrees to the plane across the crown's axis.
"""

import tomllib
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from importlib.resources import files
from typing import Any, Final

import numpy as np

from kinematics.conventions import Floats

#: Crown types by arch and place from the midline; third molars are made on demand.
KINDS: Final = tuple(f"{arch}{place}" for arch in "UL" for place in range(1, 8))
THIRD_MOLARS: Final = ("U8", "L8")
#: Stands for the one part of a front tooth where others have a cusp's name.
WHOLE_TOOTH: Final = ""


@dataclass(frozen=True)
class CuspForm:
    """One cusp: a soft four-sided pyramid with four ridges.

    Attributes
    ----------
    name : str
        "B", "MB", "DB", "D", "L", "ML" or "DL".
    at : tuple of float
        Place of the tip, fractions of the mesiodistal and buccolingual size.
    height : float
        Height of the tip, mm.
    inner, outer, mesial, distal : float
        Slopes of the four sides, degrees; `inner` faces the middle of the table.
    turn : float
        Degrees by which the triangular ridge turns from straight inward; + turns it distally for
        buccal cusps moving inward.
    """

    name: str
    at: tuple[float, float]
    height: float
    inner: float
    outer: float
    mesial: float
    distal: float
    turn: float


@dataclass(frozen=True)
class RidgeForm:
    """A marginal or oblique ridge: a rounded tent over a segment.

    Attributes
    ----------
    ends : ndarray, shape (2, 3)
        Both ends: two fractions and a height in mm.
    flank : float
        Slope of both sides, degrees.
    sag : float
        How far the middle sinks below the line between the ends, mm.
    """

    ends: Floats
    flank: float
    sag: float


@dataclass(frozen=True)
class GrooveForm:
    """A groove along a polyline.

    Attributes
    ----------
    along : ndarray, shape (k, 2)
        Corners, fractions.
    depth, half_width : float
        In mm; the section is a bell.
    """

    along: Floats
    depth: float
    half_width: float


@dataclass(frozen=True, eq=False)
class PosteriorForm:
    """A premolar or molar; equal only to itself.

    Attributes
    ----------
    kind : str
        "U4" to "U8", "L4" to "L8".
    size : tuple of float
        Mesiodistal, buccolingual, height, mm.
    outline : ndarray, shape (k, 2)
        Control points of the outline at the height of contour, fractions.
    cusps, ridges, grooves : tuple
        What stands on the table.
    supporting, settled : tuple of str
        Names of the supporting cusps, and of those whose height is settled onto the opponent (the
        others stay short of it: a light cusp settled on a slope would interfere in excursions).
    floor : float
        Height of the fossa floor before grooves, mm.
    reference_height : float
        Height at which the crown's axis is set on the occlusal sphere, mm. A stored number, so
        that a crown stays where it is while a cusp is settled.
    contour : tuple of float
        Height of contour over crown height: mesial, buccal, distal, lingual.
    facial_lean : float
        How the buccal side leaves its height of contour: 0.5 upright, 1 leaning inward at once.
    cervix : tuple of float
        Mesiodistal and buccolingual size at the cervical line, mm.
    cervix_shift : float
        How far the cervical outline stands to the buccal, mm.
    cej : tuple of float
        Rise of the cervical line mesially and distally, mm.
    """

    kind: str
    size: tuple[float, float, float]
    outline: Floats
    cusps: tuple[CuspForm, ...]
    ridges: tuple[RidgeForm, ...]
    grooves: tuple[GrooveForm, ...]
    supporting: tuple[str, ...]
    settled: tuple[str, ...]
    floor: float
    reference_height: float
    contour: tuple[float, float, float, float]
    facial_lean: float
    cervix: tuple[float, float]
    cervix_shift: float
    cej: tuple[float, float]

    @property
    def cusp_names(self) -> tuple[str, ...]:
        """Names of the cusps, in the order of the table."""
        return tuple(cusp.name for cusp in self.cusps)

    @property
    def heights(self) -> Floats:
        """Heights of the cusps' tips, then mean heights of the ridges, mm."""
        ridges = [float(ridge.ends[:, 2].mean()) for ridge in self.ridges]
        return np.array([*(cusp.height for cusp in self.cusps), *ridges])


@dataclass(frozen=True)
class AnteriorForm:
    """An incisor or canine.

    Attributes
    ----------
    kind : str
        "U1" to "U3", "L1" to "L3".
    size : tuple of float
        Mesiodistal, labiolingual, height, mm.
    mesial, distal, labial, lingual : ndarray, shape (k, 2)
        Profiles: fraction of the height, distance from the axis in mm.
    section : tuple of float
        Exponents of the labial and lingual half of a cross-section, and where between lingual and
        labial profile the two halves meet.
    cej : tuple of float
        Rise of the cervical line mesially and distally, mm.
    marginal_ridge : float
        Height of the two lingual marginal ridges, mm.
    corner : tuple of float
        Drop (mm) and power of the mesial, then of the distal incisal angle.
    tip : tuple of float
        Of a canine (else empty): place across the crown (-1 to 1), mesial and distal slope in
        degrees, tip radius in mm.
    lingual_ridge, labial_ridge : float
        Height of a canine's central ridges, mm.
    """

    kind: str
    size: tuple[float, float, float]
    mesial: Floats
    distal: Floats
    labial: Floats
    lingual: Floats
    section: tuple[float, float, float]
    cej: tuple[float, float]
    marginal_ridge: float
    corner: tuple[float, ...]
    tip: tuple[float, ...]
    lingual_ridge: float
    labial_ridge: float

    @property
    def is_canine(self) -> bool:
        """Tell whether the crown has a tip instead of an edge."""
        return bool(self.tip)


@dataclass(frozen=True)
class ArchSpan:
    """Where an arch curve runs, mm.

    Attributes
    ----------
    x0 : float
        Forward of the arch frame's origin, where the curve crosses the midline.
    canine, molar : float
        Half width at the middle of the canine and of the first molar.
    """

    x0: float
    canine: float
    molar: float


@dataclass(frozen=True)
class SetUp:
    """How the crowns stand on the two arch curves and on the occlusal sphere.

    Angles in degrees on top of the base frame of a tooth, keyed by crown type: `torque` leans the
    crown to the facial, `tip` to the mesial, `turn` brings the mesial end outward.

    Attributes
    ----------
    molar_relation : float
        How far the lower first molar's reference point stands ahead of the upper one's, mm.
    spans : dict of str to ArchSpan
        Keys "U" and "L".
    sphere_radius, sphere_lowest_x : float
        The occlusal sphere and where along x it is lowest, mm.
    edge_over_sphere : dict of str to float
        Height of the edge or tip of a front tooth over the sphere, mm.
    buccal_offset : dict of str to float
        Distance of the crown's axis outward from the chord of its contacts, mm.
    slide : dict of str to float
        Distance along the arch, distally, that closes the proximal contacts, mm.
    """

    molar_relation: float
    spans: Mapping[str, ArchSpan]
    sphere_radius: float
    sphere_lowest_x: float
    torque: Mapping[str, float]
    tip: Mapping[str, float]
    turn: Mapping[str, float]
    edge_over_sphere: Mapping[str, float]
    buccal_offset: Mapping[str, float]
    slide: Mapping[str, float]


@dataclass(frozen=True)
class CrownTable:
    """All crown types, the third molars too, and their set-up."""

    posterior: Mapping[str, PosteriorForm]
    anterior: Mapping[str, AnteriorForm]
    set_up: SetUp

    def form(self, kind: str) -> PosteriorForm | AnteriorForm:
        """Return the form of a crown type."""
        return self.anterior[kind] if kind in self.anterior else self.posterior[kind]

    def widths(self, arch: str, last: int = 7) -> Floats:
        """Return the mesiodistal sizes (last,) of an arch ("U" or "L") from the midline on, mm."""
        return np.array([self.form(f"{arch}{place}").size[0] for place in range(1, last + 1)])


def _array(rows: Any) -> Floats:
    array = np.array(rows, dtype=np.float64)
    array.setflags(write=False)
    return array


def _posterior(kind: str, row: Mapping[str, Any]) -> PosteriorForm:
    cusps = tuple(
        CuspForm(name=name, **{**cusp, "at": tuple(cusp["at"])})
        for name, cusp in row["cusps"].items()
    )
    ridges = tuple(RidgeForm(**{**ridge, "ends": _array(ridge["ends"])}) for ridge in row["ridges"])
    grooves = tuple(
        GrooveForm(**{**groove, "along": _array(groove["along"])}) for groove in row["grooves"]
    )
    return PosteriorForm(
        kind=kind,
        size=tuple(row["size"]),
        outline=_array(row["outline"]),
        cusps=cusps,
        ridges=ridges,
        grooves=grooves,
        supporting=tuple(row["supporting"]),
        settled=tuple(row["settled"]),
        floor=row["floor"],
        reference_height=row["reference_height"],
        contour=tuple(row["contour"]),
        facial_lean=row["facial_lean"],
        cervix=tuple(row["cervix"]),
        cervix_shift=row["cervix_shift"],
        cej=tuple(row["cej"]),
    )


def _anterior(kind: str, row: Mapping[str, Any]) -> AnteriorForm:
    return AnteriorForm(
        kind=kind,
        size=tuple(row["size"]),
        mesial=_array(row["mesial"]),
        distal=_array(row["distal"]),
        labial=_array(row["labial"]),
        lingual=_array(row["lingual"]),
        section=tuple(row["section"]),
        cej=tuple(row["cej"]),
        marginal_ridge=row["marginal_ridge"],
        corner=tuple(row.get("corner", ())),
        tip=tuple(row.get("tip", ())),
        lingual_ridge=row.get("lingual_ridge", 0.0),
        labial_ridge=row.get("labial_ridge", 0.0),
    )


@cache
def crown_table() -> CrownTable:
    """Return the table shipped with the package."""
    rows = tomllib.loads(files("kinematics.teeth").joinpath("crown_table.toml").read_text("utf-8"))
    arch = rows.pop("arch")
    spans = {key: ArchSpan(**arch.pop(name)) for key, name in (("U", "upper"), ("L", "lower"))}
    return CrownTable(
        posterior={k: _posterior(k, row) for k, row in rows.items() if "outline" in row},
        anterior={k: _anterior(k, row) for k, row in rows.items() if "labial" in row},
        set_up=SetUp(spans=spans, **arch),
    )
