"""Scans are put into millimetres as the user says, and refused where no arch has such a size."""

import re

import numpy as np
import pytest

from kinematics.checks import InputError
from kinematics.scans.units import MM_PER_UNIT, in_millimetres

#: A box of 60 x 50 x 20, as large as an arch in millimetres.
ARCH_MM = np.array([[5.0, -20.0, 3.0], [65.0, 30.0, 23.0], [9.0, 0.0, 10.0]])


@pytest.mark.parametrize("units", MM_PER_UNIT)
def test_an_arch_comes_out_in_millimetres(units):
    """Whatever the unit of the file, the arch has its size, and nobody can change it."""
    places = in_millimetres(ARCH_MM / MM_PER_UNIT[units], units, "upper.stl")
    np.testing.assert_allclose(places, ARCH_MM, rtol=1e-15)
    assert not places.flags.writeable


@pytest.mark.parametrize("size", [25.0, 160.0])
def test_both_limits_are_accepted(size):
    """The smallest and the largest arch are arches."""
    in_millimetres(np.array([[0.0, 0.0, 0.0], [0.0, size, 1.0]]), "mm", "a")


@pytest.mark.parametrize(
    ("size", "units", "fragment"),
    [
        (
            0.06,
            "mm",
            r"longest side is 0\.06, in mm 0\.06 mm; an arch is 25 to 160 mm long .*about 50 to 90 "
            r'mm\)\. It would be in m 60 mm: if that is right, set scans\.units = "m"',
        ),
        (60_000.0, "mm", r'It would be in um 60 mm: .* scans\.units = "um"'),
        (60.0, "m", r'in m 6e\+04 mm; .* It would be in mm 60 mm: .* scans\.units = "mm"'),
        (2.0, "mm", r'It would be in inch 50\.8 mm: .* scans\.units = "inch"'),
        (
            6.0,
            "mm",
            r"It would be in cm 60 mm and in inch 152\.4 mm: find out which its program writes, "
            r"and set scans\.units",
        ),
        (24.99, "mm", r"an arch in no unit that scans\.units accepts: is it the scan of one arch"),
        (1e308, "m", r"longest side is 1e\+308, in m inf mm; .* an arch in no unit"),
        (0.0, "mm", r"longest side is 0, in mm 0 mm; .* an arch in no unit"),
    ],
)
def test_another_size_is_refused_with_the_unit_that_would_fit(size, units, fragment):
    """Nothing is scaled by guess: the message says which setting would make it an arch."""
    with pytest.raises(InputError) as refused:
        in_millimetres(np.array([[0.0, 0.0, 0.0], [size, 0.0, 0.0]]), units, "upper.stl")
    assert re.search(fragment, str(refused.value)), str(refused.value)


def test_an_unknown_unit_is_refused():
    """The message lists the known ones and the nearest."""
    with pytest.raises(InputError, match=r"scans\.units = 'inches': .*'inch'; did you mean 'inch'"):
        in_millimetres(ARCH_MM, "inches", "upper.stl")


def test_places_that_are_not_finite_are_not_measured():
    """One vertex that is nowhere does not spoil the size; nothing but such is refused."""
    some = np.vstack((ARCH_MM, [[np.nan, 0.0, 0.0], [np.inf, 0.0, 0.0]]))
    np.testing.assert_array_equal(in_millimetres(some, "mm", "a")[:3], ARCH_MM)
    with pytest.raises(InputError, match="none of its 2 vertices has finite coordinates"):
        in_millimetres(some[3:], "mm", "a")
