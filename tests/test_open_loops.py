"""Open loops of a surface: of every piece the longest is its border, all others are holes."""

import numpy as np
import pytest

from kinematics.scans.edges import edges_of, open_loops, pieces

#: Middles of the holes in a sheet, and how far a sheet reaches, mm.
PLACES = ((5.0, 5.0), (14.0, 5.0), (9.0, 14.0))
WIDE = 20


def sheet(height_mm, holes):
    """Return a flat sheet of squares of 1 mm, each two triangles, with square holes in it."""
    x, y = np.meshgrid(np.arange(WIDE + 1.0), np.arange(WIDE + 1.0), indexing="ij")
    vertices = np.column_stack([x.ravel(), y.ravel(), np.full(x.size, height_mm)])
    number = np.arange(x.size).reshape(x.shape)
    a, b, c, d = number[:-1, :-1], number[1:, :-1], number[1:, 1:], number[:-1, 1:]
    faces = np.concatenate(
        [np.dstack([a, b, c]).reshape(-1, 3), np.dstack([a, c, d]).reshape(-1, 3)]
    )
    for at, half in holes:
        middles = vertices[faces].mean(axis=1)
        faces = faces[~(abs(middles[:, :2] - at) < half).all(axis=1)]
    return vertices, faces


@pytest.mark.parametrize("seed", range(60))
def test_every_piece_has_an_open_base_of_its_own(seed):
    """Sheets that do not hang together, with planted holes, in any order of triangles."""
    rng = np.random.default_rng(seed)
    count = int(rng.integers(1, 6))
    made, wanted = [], []
    for number in range(count):
        holes = [(PLACES[k], int(rng.integers(1, 4))) for k in range(rng.integers(0, 4))]
        wanted += [8.0 * half for _, half in holes]
        made.append(sheet(30.0 * number, holes))
    vertices = np.concatenate([points for points, _ in made])
    faces = np.concatenate([own + len(made[0][0]) * k for k, (_, own) in enumerate(made)])
    edges = edges_of(faces[rng.permutation(len(faces))])
    found = open_loops(edges, vertices)
    assert pieces(edges).max() + 1 == count
    np.testing.assert_allclose(found.borders_mm, np.full(count, 4.0 * WIDE))
    np.testing.assert_allclose(found.holes_mm, sorted(wanted, reverse=True))


def test_a_closed_surface_has_none():
    """Nothing to measure, and no error."""
    corners = np.array([[0, 2, 1], [0, 1, 3], [1, 2, 3], [2, 0, 3]])
    found = open_loops(edges_of(corners), np.eye(4)[:, :3])
    assert len(found.borders_mm) == len(found.holes_mm) == 0
