"""Places of a scan in millimetres, refused where no arch has such a size."""

from typing import Final

import numpy as np

from kinematics.checks import InputError, nearest_word
from kinematics.conventions import Floats

MM_PER_UNIT: Final = {"um": 0.001, "mm": 1.0, "cm": 10.0, "m": 1000.0, "inch": 25.4}

#: Chosen for this program, wide around what there is: a scan of a few teeth, a child's arch, a
#: large model with its plate. A full arch with its base is about 50 to 90 mm (common practice).
SMALLEST_ARCH_MM: Final = 25.0
LARGEST_ARCH_MM: Final = 160.0


def in_millimetres(vertices: Floats, units: str, name: str) -> Floats:
    """Return places in millimetres, read-only, if they are as large as an arch.

    Parameters
    ----------
    vertices : ndarray, shape (n, 3)
        In units of the file. Places that are not finite stay so and are not measured.
    units : str
        "um", "mm", "cm", "m" or "inch".
    name : str
        What to call the file.

    Raises
    ------
    InputError
        Unknown unit, or the longest side of the box around all places is no size of an arch; the
        message names the units in which it would be one.
    """
    if units not in MM_PER_UNIT:
        known = ", ".join(repr(one) for one in MM_PER_UNIT)
        raise InputError(
            f"scans.units = {units!r}: must be one of {known}{nearest_word(units, MM_PER_UNIT)}"
        )
    extent = _longest_side(vertices, name)
    with np.errstate(over="ignore", invalid="ignore"):
        millimetres = vertices * MM_PER_UNIT[units]
        sizes = {unit: float(extent * factor) for unit, factor in MM_PER_UNIT.items()}
    if not _is_arch(sizes[units]):
        raise InputError(
            f"{name}: its longest side is {extent:.6g}, in {units} {sizes[units]:.4g} mm; an arch "
            f"is {SMALLEST_ARCH_MM:g} to {LARGEST_ARCH_MM:g} mm long (limits chosen wide: a full "
            f"arch with its base is about 50 to 90 mm). {_advice(sizes)}"
        )
    millimetres.setflags(write=False)
    return millimetres


def _longest_side(vertices: Floats, name: str) -> float:
    finite = vertices[np.isfinite(vertices).all(axis=1)]
    if len(finite) == 0:
        raise InputError(
            f"{name}: none of its {len(vertices)} vertices has finite coordinates; export it again"
        )
    with np.errstate(over="ignore"):
        return float((finite.max(axis=0) - finite.min(axis=0)).max())


def _is_arch(size_mm: float) -> bool:
    return SMALLEST_ARCH_MM <= size_mm <= LARGEST_ARCH_MM


def _advice(sizes: dict[str, float]) -> str:
    """Return what to do, by the units in which the scan would be an arch."""
    fitting = [unit for unit, size in sizes.items() if _is_arch(size)]
    would_be = " and ".join(f"in {unit} {sizes[unit]:.4g} mm" for unit in fitting)
    if len(fitting) == 1:
        unit = fitting[0]
        told = f'set scans.units = "{unit}" (for a new case: --units {unit})'
        return f"It would be {would_be}: if that is right, {told}"
    if fitting:
        told = "set scans.units (for a new case: --units)"
        return f"It would be {would_be}: find out which its program writes, and {told}"
    return (
        "It would be an arch in no unit that scans.units accepts: is it the scan of one arch, and "
        "does nothing lie far away from it?"
    )
