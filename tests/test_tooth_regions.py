"""Places on crowns in the words of the trade, on blocks whose every region is known."""

import numpy as np
import pytest

from kinematics.casts.casts import Arch, Tooth
from kinematics.casts.crown_directions import crown_of
from kinematics.geometry.meshes import joined, mesh_of
from kinematics.planning.tooth_regions import region_words
from kinematics.tooth_codes import is_right, is_upper
from tests.built_dentition import coarse

CORNERS = np.array([[x, y, z] for x in (-1, 1) for y in (-1, 1) for z in (-1, 1)], dtype=float)
FACES = np.array([[0, 1, 3], [0, 3, 2], [4, 6, 7], [4, 7, 5], [0, 4, 5], [0, 5, 1],
                  [2, 3, 7], [2, 7, 6], [0, 2, 6], [0, 6, 4], [1, 5, 7], [1, 7, 3]])  # fmt: skip
#: Half the length, width and height of a block, mm; cusps stand off its middle by these.
HALF = np.array([5.0, 5.5, 3.5])
CUSPS = {"MB": (2.5, 3.0), "DB": (-2.5, 3.0), "ML": (2.5, -3.0), "DL": (-2.5, -3.0)}


def directions(code):
    """Return mesial, outward and up of a back tooth that stands along the x axis."""
    mesial, up = np.array([1.0, 0.0, 0.0]), np.array([0.0, 0.0, -1.0 if is_upper(code) else 1.0])
    return mesial, np.array([0.0, -1.0 if is_right(code) else 1.0, 0.0]), up


def block(code, cusps, forward=50.0):
    """Return a box as a tooth, its cusp tips at the height of its top."""
    mesial, outward, up = directions(code)
    middle = np.array([forward, -25.0 if is_right(code) else 25.0, -33.0])
    axes = np.stack([mesial, outward, up])

    def placed(local):
        return middle + np.asarray(local) @ axes

    tips = {name: placed([ahead, aside, HALF[2]]) for name, (ahead, aside) in cusps.items()}
    edge = placed(np.array([[4.0, 0.0, HALF[2]], [-4.0, 0.0, HALF[2]]]))
    tooth = Tooth(code, middle, up, edge, tips)
    return tooth, mesh_of(placed(CORNERS * HALF), FACES), placed


def crown(code, cusps=None):
    """Return a crown between a neighbour ahead and one behind, and what places points on it."""
    quadrant = code - code % 10
    own = block(code, CUSPS if cusps is None else cusps)
    row = [block(quadrant + 7, {}, 38.0), own, block(quadrant + 1, {}, 75.0)]
    row = row if is_right(code) else row[::-1]
    meshes = [mesh for _, mesh, _ in row]
    numbers = np.repeat([tooth.code for tooth, _, _ in row], len(FACES))
    arch = Arch(joined(meshes), numbers, tuple(tooth for tooth, _, _ in row))
    return crown_of(arch, code), own[2]


@pytest.mark.parametrize("code", [16, 26, 36, 46])
@pytest.mark.parametrize(
    ("ahead", "aside", "words"),
    [
        (2.6, 3.1, "tip of the mesiobuccal cusp"),
        (-2.5, -3.4, "tip of the distolingual cusp"),
        (0.0, 0.0, "fossa, middle third"),
        (2.5, 0.2, "fossa, mesial third"),
        (-2.5, -0.5, "fossa, distal third"),
        (4.5, 0.0, "mesial marginal ridge"),
        (-4.8, 1.0, "distal marginal ridge"),
        (1.0, 2.0, "inner distal incline of the mesiobuccal cusp"),
        (-1.0, -2.0, "inner mesial incline of the distolingual cusp"),
        (3.5, 4.5, "outer mesial incline of the mesiobuccal cusp"),
        (-3.6, -4.5, "outer distal incline of the distolingual cusp"),
    ],
)
def test_a_molar_of_four_cusps(code, ahead, aside, words):
    """Tip, fossa, ridge and incline are told the same way in all four quadrants."""
    own, placed = crown(code)
    assert region_words(own, placed([ahead, aside, 2.0])) == words


@pytest.mark.parametrize("code", [16, 36])
@pytest.mark.parametrize(
    ("cusps", "words"), [({}, "buccal half, mesial third"), ({"B": (0.0, 3.0)}, "buccal half")]
)
def test_without_cusps_on_both_sides_halves_and_thirds_are_told(code, cusps, words):
    """A scan without landmarks still says which half and which third."""
    own, placed = crown(code, cusps)
    assert region_words(own, placed([3.0, 1.0, 3.0])).startswith(words)
    assert region_words(own, placed([-3.0, -1.0, 3.0])) == "lingual half, distal third"


@pytest.mark.parametrize("code", [13, 23, 33, 43])
@pytest.mark.parametrize(
    ("at", "words"),
    [
        ((3.0, 0.2, 3.3), "incisal edge, mesial third"),
        ((0.0, -3.0, 2.5), "lingual surface, incisal third, centrally"),
        ((-3.0, -3.0, 0.0), "lingual surface, middle third, distally"),
        ((3.0, 3.0, -3.0), "labial surface, cervical third, mesially"),
    ],
)
def test_a_front_tooth(code, at, words):
    """Edge, surface, third of the height and third of the length."""
    own, placed = crown(code, {})
    assert region_words(own, placed(at)) == words


def test_the_tip_of_a_canine():
    """A point at the tip is on it, one further along the edge is not."""
    own, placed = crown(13, {"tip": (0.0, 0.0)})
    assert region_words(own, placed([0.3, 0.3, 3.4])) == "tip"
    assert region_words(own, placed([2.5, 0.0, 3.4])) == "incisal edge, mesial third"


def test_a_lone_flat_tooth_has_places_too():
    """One triangle, no neighbour, no extent along its axis: still a place, no division by zero."""
    flat = mesh_of(np.array([[49.0, -26, -33], [51, -26, -33], [50, -24, -33.0]]), [[0, 1, 2]])
    tooth = Tooth(16, np.array([50.0, -25, -33]), np.array([0.0, 0, -1]), flat.vertices[:1])
    own = crown_of(Arch(flat, np.array([16]), (tooth,)), 16)
    assert region_words(own, np.array([50.9, -25.9, -33.0])) == "buccal half, mesial third"
    front = Tooth(13, tooth.centre, tooth.long_axis, tooth.edge)
    own = crown_of(Arch(flat, np.array([13]), (front,)), 13)
    assert "third" in region_words(own, np.array([50.9, -24.1, -33.0]))


def test_every_cusp_of_the_built_in_teeth_is_found_at_its_tip():
    """Landmarks carry the names this module knows; mirrored teeth are told alike."""
    dentition = coarse()
    for arch in (dentition.upper, dentition.lower):
        for tooth in arch.teeth:
            own = crown_of(arch, tooth.code)
            assert (
                own.outward @ (tooth.centre - [50.0, 0.0, tooth.centre[2]]) > 0.0
            )  # off the tongue
            for tip in tooth.cusp_tips.values():
                words = region_words(own, tip)
                assert words == "tip" or words.startswith("tip of the ")
            names = {region_words(own, tip) for tip in tooth.cusp_tips.values()}
            assert len(names) == len(tooth.cusp_tips)
