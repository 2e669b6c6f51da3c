"""Rings around some teeth, to lie over the picture of their arch that is already in the page."""

from dataclasses import dataclass
from typing import Final

from kinematics.casts.casts import Arch
from scenes.arch_scenes import occlusal_view
from scenes.scene import View

#: Room between a crown and its ring: less than that between a crown and its number.
_RING_MM: Final = 0.4


@dataclass(frozen=True)
class Ring:
    """An ellipse about one tooth: middle from the upper left corner of the picture, half axes."""

    code: int
    x_mm: float
    y_mm: float
    wide_mm: float
    high_mm: float


@dataclass(frozen=True)
class RingedArch:
    """The picture of an arch with rings around some teeth.

    Attributes
    ----------
    side : str
        "upper" or "lower".
    width_mm, height_mm : float
        Size of the picture.
    rings : tuple of Ring
        Around the teeth that are meant.
    """

    side: str
    width_mm: float
    height_mm: float
    rings: tuple[Ring, ...]


def ringed_arch(arch: Arch, side: str, codes: tuple[int, ...]) -> RingedArch | None:
    """Return the rings around some teeth of an arch; None where it has none of them.

    Parameters
    ----------
    arch : Arch
        The arch.
    side : str
        "upper" or "lower".
    codes : tuple of int
        Teeth to ring, of either arch; those of the other are left out.
    """
    view = occlusal_view(arch, side)
    rings = tuple(_ring(arch, view, code) for code in arch.codes if code in codes)
    return RingedArch(side, view.width_mm, view.height_mm, rings) if rings else None


def _ring(arch: Arch, view: View, code: int) -> Ring:
    crown = arch.mesh.vertices[arch.mesh.faces[arch.tooth_of_face == code]].reshape(-1, 3)
    seen = view.project(crown)
    low, high = seen.min(axis=0), seen.max(axis=0)
    right, up = 0.5 * (low + high)
    wide, tall = 0.5 * (high - low) + _RING_MM
    x, y = 0.5 * view.width_mm + right, 0.5 * view.height_mm - up
    return Ring(code, float(x), float(y), float(wide), float(tall))
