"""Guidance settings and jaw positions for hypothesis, and their mirror images."""

import dataclasses

import numpy as np
from hypothesis import strategies as st

from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings, SideGuidance

#: Turns a pose, or a point, into its mirror image in the midsagittal plane.
MIRROR = np.diag([1.0, -1.0, 1.0, 1.0])

MEASURED = ((0.0, 0.0), (2.0, 1.7), (4.5, 3.6), (8.0, 5.2), (12.0, 6.0))

SIDES = st.builds(
    lambda path, **fields: SideGuidance(
        path=path, measured_points=MEASURED if path == "measured" else (), **fields
    ),
    path=st.sampled_from(["straight", "curved", "measured"]),
    condylar_inclination_deg=st.floats(0.0, 55.0),
    progressive_shift_deg=st.floats(0.0, 20.0),
    fischer_deg=st.floats(-5.0, 10.0),
    immediate_shift_mm=st.sampled_from([0.0, 0.0, 0.75, 2.0]),
    shift_timing=st.sampled_from(["immediate", "early"]),
    early_over_mm=st.floats(0.5, 4.0),
    working_elevation_deg=st.floats(-30.0, 30.0),
    working_retrusion_deg=st.floats(-30.0, 30.0),
    path_length_mm=st.just(12.0),
)

SETTINGS = st.builds(
    GuidanceSettings,
    intercondylar_distance_mm=st.floats(90.0, 125.0),
    right=SIDES,
    left=SIDES,
)


@st.composite
def settings_and_coordinates(draw):
    """Draw settings and a position they allow, often with level condyles or with full shift."""
    given = draw(SETTINGS)
    right_leads = draw(st.booleans())
    common = draw(st.floats(0.0, 5.0))
    excess = draw(st.sampled_from([0.0, draw(st.floats(1e-3, 5.0))]))
    leading = given.right if right_leads else given.left
    share = draw(st.sampled_from([0.0, 1.0, draw(st.floats(0.0, 1.0))]))
    shift = share * leading.immediate_shift_mm * (1.0 if right_leads else -1.0)
    right, left = (common + excess, common) if right_leads else (common, common + excess)
    opening = draw(st.floats(-0.05, 0.4))
    return given, GuidanceCoordinates(right, left, shift, opening)


def mirrored_settings(given):
    """Swap the sides."""
    return dataclasses.replace(given, right=given.left, left=given.right)


def mirrored_coordinates(given):
    """Swap the sides of a jaw position."""
    return GuidanceCoordinates(
        given.advance_left_mm, given.advance_right_mm, -given.shift_mm, given.opening_rad
    )
