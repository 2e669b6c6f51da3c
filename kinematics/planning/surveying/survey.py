"""What the survey of a cast says: path of insertion, undercuts, guide planes, tripod marks."""

from dataclasses import dataclass
from typing import Final, Literal

from kinematics.conventions import Floats
from kinematics.planning.denture_parts import RestPlace

CrownSide = Literal["facial", "lingual", "mesial", "distal"]
Point = tuple[float, float, float]

#: Undercut gauges in use, mm (common practice).
GAUGES_MM: Final = (0.25, 0.50, 0.75)
#: A clasp keeps so far from the lower border of the crown, mm (chosen for this program).
KEPT_FREE_MM: Final = 1.0


@dataclass(frozen=True)
class GaugeReading:
    """Where an undercut gauge touches on one side of a crown, seen in its outline.

    Attributes
    ----------
    gauge_mm : float
        Depth of undercut.
    below_line_mm : float or None
        How far below the height of contour; None where the side undercuts nowhere so far.
    above_border_mm : float or None
        How far above the lower border of the crown on that side.
    """

    gauge_mm: float
    below_line_mm: float | None
    above_border_mm: float | None


@dataclass(frozen=True)
class SurveyedSide:
    """One side of a crown.

    Attributes
    ----------
    side : "facial", "lingual", "mesial" or "distal"
        Which.
    faces_base : bool
        Whether the replacement teeth of a base stand there.
    deepest_mm : float
        Greatest undercut on it, on the surface.
    usable_mm : float
        Greatest undercut of its outline at least `KEPT_FREE_MM` above its border.
    line_above_border_mm : float
        Height of contour over its lower border.
    gauges : tuple of GaugeReading
        One for each of `GAUGES_MM`.
    """

    side: CrownSide
    faces_base: bool
    deepest_mm: float
    usable_mm: float
    line_above_border_mm: float
    gauges: tuple[GaugeReading, ...]


@dataclass(frozen=True)
class SurveyedTooth:
    """A tooth that holds a framework, as surveyed.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    clasped : bool
        Whether it bears a clasp.
    sides : tuple of SurveyedSide
        Facial, lingual, mesial, distal.
    """

    tooth: int
    clasped: bool
    sides: tuple[SurveyedSide, ...]

    def side(self, name: CrownSide) -> SurveyedSide:
        """Return one of its sides."""
        return next(item for item in self.sides if item.side == name)

    @property
    def retentive(self) -> SurveyedSide:
        """Its facial or lingual side, whichever has the greater usable undercut."""
        facial, lingual = self.side("facial"), self.side("lingual")
        return facial if facial.usable_mm >= lingual.usable_mm else lingual


@dataclass(frozen=True)
class SurveyedGuide:
    """A proximal surface that is to guide a base.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    side : "mesial" or "distal"
        Which of its surfaces.
    base : str
        Name of the base that it faces.
    assumed : bool
        Whether the case names no guide planes of the base.
    height_mm, width_mm : float
        Of the surface that guides as it is, within the limit: along the path and across.
    lean_deg : float
        How the surface leans from the path, over the wanted height about the height of contour:
        positive where it looks towards the other arch, negative where it undercuts.
    cut_mm : float or None
        How deep must be cut for a plane of the wanted height; None where the crown is too low.
    """

    tooth: int
    side: Literal["mesial", "distal"]
    base: str
    assumed: bool
    height_mm: float
    width_mm: float
    lean_deg: float
    cut_mm: float | None


@dataclass(frozen=True)
class RestDirection:
    """How far the press of a rest, along the axis of its tooth, is off the path of insertion."""

    tooth: int
    place: RestPlace
    off_path_deg: float


@dataclass(frozen=True)
class SoftUndercut:
    """Undercut of gums, ridge and palate.

    Attributes
    ----------
    deepest_mm : float
        Greatest, and where.
    point : tuple of float
        Upper: hinge frame, lower: lower coordinates, mm.
    area_mm2 : float
        Of the mucosa that undercuts more than the smallest gauge.
    """

    deepest_mm: float
    point: Point
    area_mm2: float


@dataclass(frozen=True)
class TiltSearch:
    """What a search for a tilt compared.

    Attributes
    ----------
    tilts : int
        How many.
    cost_mm, level_cost_mm : float
        Of the tilt found, and of the cast without tilt; see `tilt_search`.
    """

    tilts: int
    cost_mm: float
    level_cost_mm: float


@dataclass(frozen=True)
class Survey:
    """One cast as surveyed.

    Attributes
    ----------
    is_upper : bool
        Which.
    forward_deg, left_deg : float
        Its tilt from the occlusal plane.
    search : TiltSearch or None
        None where the tilt is given.
    path : tuple of float
        Unit vector in which a framework goes in; upper: hinge frame, lower: lower coordinates.
    teeth : tuple of SurveyedTooth
        Teeth that hold a framework or bear a clasp; all natural ones where there are none such.
    guides : tuple of SurveyedGuide
        Proximal surfaces that face bases.
    rests : tuple of RestDirection
        Rests of the frameworks of this arch.
    tripod : tuple of 3 points
        On the cast, in one plane square to the path, well apart: marks that find the tilt again.
    soft : SoftUndercut or None
        Of the mucosa; None where it does not undercut, or the cast has none.
    lines : dict of int to tuple of ndarray, shape (k, 3)
        Survey lines of every natural tooth, edge by edge of its mesh, mm.
    depth_mm : ndarray, shape (n,)
        Undercut of every vertex of the teeth of the arch; 0 of replacement teeth.
    soft_depth_mm : ndarray, shape (b,)
        Of every vertex of its body; empty without one.
    undercut_mm, guide_plane_deg, guide_plane_height_mm : float
        What was wanted; see `SurveySettings`.
    """

    is_upper: bool
    forward_deg: float
    left_deg: float
    search: TiltSearch | None
    path: Point
    teeth: tuple[SurveyedTooth, ...]
    guides: tuple[SurveyedGuide, ...]
    rests: tuple[RestDirection, ...]
    tripod: tuple[Point, ...]
    soft: SoftUndercut | None
    lines: dict[int, tuple[Floats, ...]]
    depth_mm: Floats
    soft_depth_mm: Floats
    undercut_mm: float
    guide_plane_deg: float
    guide_plane_height_mm: float

    @property
    def side(self) -> str:
        """Which arch, in a word."""
        return "upper" if self.is_upper else "lower"
