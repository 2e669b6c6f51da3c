"""What is told of the occlusal plane of one arch: its surfaces, curves, and how its teeth stand."""

from dataclasses import dataclass
from typing import Final

from kinematics.planning.plane.arch_curves import SpeeCurve, WilsonCurve
from kinematics.planning.plane.curved_surface import CurvedSurface

#: Over-eruption from which it is moderate to severe (Kiliaridis et al. 2000).
MODERATE_FROM_MM: Final = 2.0
NONE: Final = "none"
SLIGHT: Final = "slight"
MODERATE: Final = "moderate to severe"


@dataclass(frozen=True)
class TipHeight:
    """One cusp tip or edge.

    Attributes
    ----------
    name : str
        Cusp, as "MB"; "tip" of a canine, "edge" of an incisor.
    point : tuple of float
        Where it stands in MI, hinge frame.
    supporting : bool
        Whether it supports.
    over_sphere_mm, over_plane_mm : float
        How far it stands out over the sphere of the other teeth, and over the plane: positive
        towards the opposing teeth. NaN where there is none.
    reduce_mm, build_up_mm : float
        What would have to come off it, or be added, for it to stand within the limit: of natural
        back teeth out of line; only supporting cusps are built up.
    """

    name: str
    point: tuple[float, float, float]
    supporting: bool
    over_sphere_mm: float
    over_plane_mm: float
    reduce_mm: float
    build_up_mm: float


@dataclass(frozen=True)
class ToothHeight:
    """How one tooth stands to its arch.

    Attributes
    ----------
    tooth : int
        ISO 3950 number.
    natural : bool
        Whether it is no replacement tooth and no pontic.
    crossed : bool
        Whether it stands in crossbite: beside the row, with other cusps supporting.
    takes_part : bool
        Whether the sphere of its arch is laid through it.
    height_mm : float
        Mean height of its supporting cusps (of a front tooth of its edge) over the sphere of the
        other teeth, square to it; positive towards the opposing teeth. NaN where none is told.
    along_axis_mm : float
        The same along its long axis: how far it would have to go back.
    uncertainty_mm : float
        How far the other teeth leave that open, 95 %.
    over_eruption : str
        "none", "slight" or "moderate to severe" of a natural back tooth that does not stand in
        crossbite; else empty.
    class_is_sure : bool
        Whether the height lies farther from the limits of the class than it is uncertain.
    beside_line_mm : float
        How far its supporting cusps stand beside the line of the others, positive to the cheek.
    tips : tuple of TipHeight
        Its tips.
    above_limit_mm3 : float
        Volume of the crown that stands out beyond the limit.
    """

    tooth: int
    natural: bool
    crossed: bool
    takes_part: bool
    height_mm: float
    along_axis_mm: float
    uncertainty_mm: float
    over_eruption: str
    class_is_sure: bool
    beside_line_mm: float
    tips: tuple[TipHeight, ...]
    above_limit_mm3: float

    @property
    def reduce_mm(self) -> float:
        """The most that would have to come off one of its tips."""
        return max((tip.reduce_mm for tip in self.tips), default=0.0)

    @property
    def build_up_mm(self) -> float:
        """The most that would have to be added to one of its tips."""
        return max((tip.build_up_mm for tip in self.tips), default=0.0)

    def is_out_of_line(self, limit_mm: float) -> bool:
        """Tell whether a natural back tooth stands beyond a limit, and that is more than chance."""
        out = abs(self.along_axis_mm)
        return bool(self.over_eruption) and out > limit_mm and out > self.uncertainty_mm


@dataclass(frozen=True)
class ArchPlane:
    """Plane and sphere of one arch, the jaw in MI, hinge frame.

    Attributes
    ----------
    upper : bool
        Which arch.
    natural : bool
        Whether natural teeth alone gave both; else replacement teeth, as there are no others.
    plane : CurvedSurface or None
        Through the buccal cusp tips of back teeth and the edges of front teeth.
    falls_forward_deg, falls_left_deg : float
        How far that plane falls forward, and to the patient's left, against the reference plane.
    sphere : CurvedSurface or None
        Through the supporting cusp tips of back teeth; None where they are too few.
    radius_mm : float
        Its radius by the teeth alone; NaN where they are too few to tell it, and the classic one is
        taken.
    scatter_mm : float
        How far teeth in line scatter about it.
    out_of_plane, out_of_sphere : tuple of int
        Teeth that were left out because they stand too far off.
    spee : tuple of SpeeCurve
        Curve of Spee of either side, without those teeth.
    wilson : tuple of WilsonCurve
        Curve of Wilson of every pair of molars, without those teeth.
    teeth : tuple of ToothHeight
        Every tooth, from the patient's right to left.
    """

    upper: bool
    natural: bool
    plane: CurvedSurface | None
    falls_forward_deg: float
    falls_left_deg: float
    sphere: CurvedSurface | None
    radius_mm: float
    scatter_mm: float
    out_of_plane: tuple[int, ...]
    out_of_sphere: tuple[int, ...]
    spee: tuple[SpeeCurve, ...]
    wilson: tuple[WilsonCurve, ...]
    teeth: tuple[ToothHeight, ...]
