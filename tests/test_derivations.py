"""Closed forms derived by symbols agree with the code that computes."""

import math

import numpy as np
import pytest

from kinematics.geometry.kernels import features
from kinematics.guidance import derivations, excursions
from kinematics.guidance.condyles import slide_to_distance
from kinematics.guidance.guidance import prepare
from kinematics.guidance.incisal_guide import table_opening
from kinematics.guidance.mandible import CENTRIC_RELATION, opened, place
from kinematics.guidance.readings import christensen_angles
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance
from tests.fresh_python import run_python

CASES = 60


def generator(seed):
    """Random numbers of one test."""
    return np.random.default_rng(seed)


def real(values):
    """Numbers whose imaginary parts must be nothing."""
    assert all(abs(value.imag) < 1e-30 for value in values)
    return [value.real for value in values]


def test_rigid_distance_quadratic():
    """The slide of the working condyle is the root near zero."""
    closed_form = derivations.rigid_distance().compiled()
    rng = generator(1)
    for _ in range(CASES):
        direction = np.array([0.0, 1.0, 0.0]) + rng.uniform(-0.5, 0.5, 3)
        direction /= np.linalg.norm(direction)
        apart = np.array([0.0, rng.uniform(98.0, 104.0), 0.0]) + rng.uniform(-6.0, 6.0, 3)
        near, far = real(closed_form(*apart, *direction, 104.0))
        assert abs(near) < abs(far)
        slide = slide_to_distance(apart[None], direction, 104.0)[0]
        # Squares of lengths near 100 carry 1e-12 of rounding, halved by the distance.
        assert slide == pytest.approx(near, abs=1e-12)


def test_turning_point_meets_plane():
    """The guide table is met at the greater of both angles."""
    closed_form = derivations.turning_point_meets_plane().compiled()
    rng = generator(2)
    for _ in range(CASES):
        slope, wing = rng.uniform(0.0, 60.0), rng.uniform(0.0, 40.0)
        table = IncisalTable(sagittal_deg=slope, wing_right_deg=wing, wing_left_deg=wing)
        guidance = prepare(GuidanceSettings(incisal_table=table))
        tip = np.array([84.0, 0.0, -33.0]) + rng.uniform(-3.0, 3.0, 3)
        lead, follow = rng.uniform(2.0, 6.0), rng.uniform(0.0, 1.0)
        positions = place(guidance, lead, follow)
        pose = positions.pose_at_zero[0]
        angles = []
        for normal in guidance.table.normals:
            seen = pose[:3, :3].T @ normal
            height = normal @ tip - normal @ pose[:3, 3]
            angles.append(real(closed_form(*tip, *seen, height)))
        first = [max(pair) for pair in angles]
        assert [pair[0] for pair in angles] == first
        opening = table_opening(guidance, positions, tip, tip)[0]
        assert opening == pytest.approx(max(first), abs=1e-12)


def test_vertex_meets_face():
    """Both angles at which the circle of a vertex cuts a triangle, from the closure's kernel."""
    closed_form = derivations.vertex_meets_face().compiled()
    rng = generator(3)
    met = 0
    for _ in range(5 * CASES):
        corners = np.array([60.0, 20.0, -30.0]) + rng.uniform(-4.0, 4.0, (3, 3))
        s = 20.0 + rng.uniform(-2.0, 2.0)
        radius = math.hypot(60.0, 30.0) + rng.uniform(-2.0, 2.0)
        count, *found = features.circle_on_face(s, radius**2, *corners)
        angles = [math.atan2(-z, x) for x, z in found[:count]]
        if count == 0:
            continue
        roots = closed_form(s, radius, *corners.ravel())
        met += 1
        for angle in angles:
            off = min(abs(math.remainder(angle - root, math.tau)) for root in real(roots))
            # A circle that grazes the plane loses digits in both roots alike.
            grazing = abs(roots[0] - roots[1])
            assert off < 1e-12 / min(1.0, grazing)
    assert met > CASES // 2


def test_edge_meets_edge():
    """Points of two edges with equal s and r, from the closure's kernel."""
    closed_form = derivations.edge_meets_edge().compiled()
    rng = generator(4)
    met = 0
    for _ in range(6 * CASES):
        ends = np.array([60.0, 20.0, -30.0]) + rng.uniform(-4.0, 4.0, (4, 3))
        rows = np.column_stack([ends, ends[:, 0] ** 2 + ends[:, 2] ** 2])
        count, *found = features.edge_on_edge(*rows)
        if count == 0:
            continue
        met += 1
        roots = np.reshape(real(closed_form(*ends.ravel())), (2, 2))
        inside = [root for root in roots if (root >= 0.0).all() and (root <= 1.0).all()]
        assert len(inside) == count
        conditioning = abs(roots[0, 0] - roots[1, 0])
        for along, _ in found[:count]:
            off = min(abs(along - root[0]) for root in inside)
            assert off < 1e-12 * max(1.0, 100.0 / conditioning)
    assert met > CASES


def test_christensen_angle_and_condylar_advance():
    """A protrusion by the advance found turns the jaw by exactly the Christensen angle."""
    closed_form = derivations.christensen_angle().compiled()
    rng = generator(5)
    for _ in range(CASES):
        condylar, incisal, balkwill = (
            rng.uniform(5.0, 55.0),
            rng.uniform(0.0, 60.0),
            rng.uniform(8, 30),
        )
        height, travel = rng.uniform(75.0, 100.0), rng.uniform(0.5, 6.0)
        gamma, advance = real(
            closed_form(
                *(math.radians(deg) for deg in (condylar, incisal, balkwill)), height, travel
            )
        )
        side = SideGuidance(condylar_inclination_deg=condylar)
        guidance = prepare(
            GuidanceSettings(
                right=side, left=side, incisal_table=IncisalTable(sagittal_deg=incisal)
            )
        )
        course = excursions.along(
            guidance, excursions.protrusion("CR"), CENTRIC_RELATION, [advance]
        )
        positions = place(guidance, *course)
        phi = math.radians(balkwill)
        tip = np.array([height * math.cos(phi), 0.0, -height * math.sin(phi)])
        opening = table_opening(guidance, positions, tip, tip)
        assert opening[0] == pytest.approx(-gamma, abs=1e-12)
        pose = opened(positions, opening)
        assert christensen_angles(pose, np.eye(4))[0] == pytest.approx(gamma, abs=1e-12)
        moved = pose[0, :3, :3] @ tip + pose[0, :3, 3] - tip
        assert np.linalg.norm(moved) == pytest.approx(travel, abs=1e-11)


def test_nothing_that_computes_imports_the_derivations():
    """Every guidance module but this one loads without the symbolic library."""
    code = (
        "import sys\n"
        "from kinematics.guidance import excursions, incisal_guide, readings\n"
        "print([name for name in ('sympy', 'mpmath') if name in sys.modules])"
    )
    done = run_python("-c", code)
    assert (done.returncode, done.stdout) == (0, "[]\n"), done.stderr
