"""Front teeth whose guiding surface is built up in a trial set-up, against hand geometry."""

from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import parse_case
from kinematics.checks import InputError
from kinematics.geometry.meshes import face_areas_normals, mesh_of
from kinematics.tooth_codes import is_upper
from kinematics.trial.settings import Change
from kinematics.trial.standing import taken_out
from kinematics.trial.steepening import steepened
from kinematics.trial.wording import change_words
from tests.made_trials import after, arch_of, natural, others_alone, solid

FRONT = (11, 12, 13, 21, 23, 31, 33, 42, 43)


def alone(tooth):
    """Return areas and normals of the triangles of a tooth."""
    return face_areas_normals(mesh_of(tooth.vertices, tooth.faces))


def one(seed):
    """Return a front tooth of the natural teeth, how it is changed, and what comes of it."""
    random = np.random.default_rng(seed)
    code = FRONT[seed % len(FRONT)]
    change = Change(
        "steepen",
        code,
        by_mm=float(random.uniform(0.05, 1.0)),
        from_mm=float(random.uniform(1.0, 6.0)),
    )
    tooth = taken_out(arch_of(natural()[1], code), code)
    return tooth, change, steepened(tooth, change)


@pytest.mark.parametrize("seed", range(50))
def test_it_is_built_up_square_to_the_axis_towards_the_opponent(seed):
    """From nothing at its beginning to the whole at the edge; lingual above, facial below."""
    tooth, change, now = one(seed)
    mesial, facial, up = tooth.axes.T
    way = now.vertices - tooth.vertices
    outward = -facial if is_upper(change.tooth) else facial
    added = way @ outward
    assert np.abs(way @ up).max() < 1e-12
    assert np.abs(way @ mesial).max() < 1e-12
    assert added.min() >= 0.0
    below = (tooth.tooth.edge @ up).max() - tooth.vertices @ up
    most = change.by_mm * np.clip(1.0 - below / change.from_mm, 0.0, 1.0)
    assert (added <= most + 1e-9).all()
    assert added.max() > 0.5 * change.by_mm
    _, normals = alone(tooth)
    away = np.unique(tooth.faces[normals @ outward < -0.9])
    assert np.abs(added[away]).max() < 1e-12


@pytest.mark.parametrize("seed", range(9))
def test_no_triangle_folds_over_and_the_surface_stays_closed(seed):
    """Seen along the way in which it is built up every triangle keeps its area."""
    tooth, change, now = one(seed)
    outward = tooth.axes[:, 1] * (-1.0 if is_upper(change.tooth) else 1.0)
    areas = [area * (normals @ outward) for area, normals in map(alone, (tooth, now))]
    assert np.allclose(areas[0], areas[1], atol=1e-12)
    made = after((change.kind, change.tooth, {"by_mm": change.by_mm, "from_mm": change.from_mm}))
    before, grown = solid(natural()[1], change.tooth), solid(made, change.tooth)
    assert grown.is_watertight == before.is_watertight
    assert grown.volume > before.volume
    assert others_alone(natural()[1], made, [change.tooth])


def test_the_order_of_triangles_changes_no_bit():
    """Triangles and vertices in another order give the same places."""
    tooth, change, now = one(2)
    random = np.random.default_rng(0)
    vertices, faces = random.permutation(len(tooth.vertices)), random.permutation(len(tooth.faces))
    back = np.argsort(vertices)
    other = replace(tooth, vertices=tooth.vertices[vertices], faces=back[tooth.faces[faces]])
    assert np.array_equal(steepened(other, change).vertices[back], now.vertices)


@pytest.mark.parametrize(
    ("lines", "told"),
    [
        ("tooth = 16\nby_mm = 0.3\nfrom_mm = 2.0", "this is a back tooth; name a front tooth"),
        ("tooth = 13\nby_mm = 0.3", 'kind = "steepen" needs from_mm'),
        ("tooth = 13", 'kind = "steepen" needs by_mm and from_mm'),
        ("tooth = 13\nby_mm = 0.3\nfrom_mm = 0.1", "from_mm"),
        ("tooth = 13\nby_mm = 0.3\nfrom_mm = 2.0\nby_deg = 2.0", "by_deg does not belong"),
    ],
)
def test_what_cannot_be_steepened_is_told(lines, told):
    """Which entry, what is accepted."""
    with pytest.raises(InputError) as error:
        parse_case(f'[[change]]\nkind = "steepen"\n{lines}\n', "case.toml")
    assert told in str(error.value)


def test_it_is_said_in_words():
    """By how much, and from where on."""
    words = change_words(Change("steepen", 23, by_mm=0.54, from_mm=2.4))
    assert words.startswith("23 built up to guide more steeply, by 0.54 mm")
    assert words.endswith("from 2.4 mm below its edge on")
