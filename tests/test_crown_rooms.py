"""Room for planned crowns: planted plates above cusps, walls beside, and what is said of them."""

import csv
import io
import json
import tomllib
from pathlib import Path

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.casts.casts import Arch, Tooth
from kinematics.checks import InputError
from kinematics.geometry.meshes import mesh_of
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.rooms.crown_rooms import WHOLE, crown_rooms
from kinematics.planning.rooms.rest_outlines import LEAST_BASE_MM, LENGTH_SHARES, TIPS_SHARE
from kinematics.planning.rooms.rest_rooms import ENAMEL_DEPTH_MM
from kinematics.planning.rooms.room_findings import room_findings
from kinematics.planning.rooms.room_rules import (
    NO_CROWN_ROOM,
    REDUCTION,
    ROOM_KINDS,
    ROOM_RULES,
)
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.settings import COVERS, PlannedCrown, RoomSettings
from kinematics.result_files import plain
from kinematics.result_texts import json_text
from kinematics.room_files import CROWN_COLUMNS, CROWNS_FILE, room_entries, room_tables
from kinematics.table_cells import table_text
from scenes.room_words import room_section
from tests.planted_seats import facing, fine_arch, lifted

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "rooms.toml").read_text("utf-8"))
MATERIALS = tuple(COVERS)
TEETH = (14, 16, 26, 34, 36, 45)


def test_limits_are_the_published_ones():
    """Each with its source in the table of published values."""
    rests, seats = PUBLISHED["rest_metal"], PUBLISHED["seat_size"]
    given = RoomSettings()
    assert (given.rest_least_mm, given.rest_wanted_mm) == (rests["least_mm"], rests["wanted_mm"])
    assert PUBLISHED["seat_outline"]["least_base_mm"] == LEAST_BASE_MM
    assert (TIPS_SHARE, list(LENGTH_SHARES)) == (seats["width_share"], seats["length_shares"])
    assert PUBLISHED["premolar_enamel"]["depth_mm"] == ENAMEL_DEPTH_MM
    assert {row["material"] for row in PUBLISHED["cover"]} == set(COVERS)
    for row in PUBLISHED["cover"]:
        cover = COVERS[row["material"]]
        assert (cover.functional_mm, cover.other_mm) == (row["functional_mm"], row["other_mm"])


def plate(crown, height_mm, code):
    """Return an arch of one plate square to a crown's axis, so high above its middle."""
    middle = crown.tooth.centre + height_mm * crown.up
    aside, other = 20.0 * crown.mesial, 20.0 * crown.facial
    points = middle + np.array([-aside - other, aside - other, aside + other, -aside + other])
    down = np.cross(points[1] - points[0], points[2] - points[0]) @ crown.up < 0.0
    faces = np.array([[0, 1, 2], [0, 2, 3]])
    mesh = mesh_of(points, faces if down else faces[:, ::-1])
    tooth = Tooth(code, middle, -crown.up, middle[None])
    return Arch(mesh, np.full(2, code), (tooth,))


def measured(planned, gap_mm):
    """Return crown, occlusion and room of a planned crown under a plate above its highest point."""
    code = planned.tooth
    arch = fine_arch(code, quartered=False)
    crown = crown_frame(arch, code)
    top = float(crown.seen[:, 2].max())
    opposite = plate(crown, top + gap_mm + 0.5, 46 if code < 30 else 16)
    occlusion = facing(arch, opposite, code)
    poses = lifted([0.0, 1.0, -0.5], crown.up, code)
    (room,) = crown_rooms(occlusion, (planned,), poses)
    return crown, occlusion, room


@pytest.mark.parametrize("seed", range(50))
def test_planted_room_over_cusps_is_found(seed):
    """Every cusp as far below a plate as its tip is, and what it lacks by its material."""
    dice = np.random.default_rng(seed)
    code, material = int(dice.choice(TEETH)), str(dice.choice(MATERIALS))
    gap = float(dice.uniform(0.05, 2.2))
    prepared = bool(dice.integers(2))
    crown, occlusion, room = measured(PlannedCrown(code, material, prepared), gap)
    top = float(crown.seen[:, 2].max())
    tips = sorted(crown.tooth.cusp_tips)
    assert len(room.cusps) == len(tips)
    least = min(item.least.distance_mm for item in room.cusps)
    assert least == pytest.approx(gap, abs=1e-9)
    cover = COVERS[material]
    for item, (name, tip) in zip(room.cusps, crown.tooth.cusp_tips.items(), strict=True):
        below = top - float((tip - crown.tooth.centre) @ crown.up)
        assert item.least.distance_mm <= gap + below + 0.05
        assert item.in_mi.distance_mm == pytest.approx(item.least.distance_mm + 0.5, abs=1e-9)
        assert item.functional == (name in crown.tooth.supporting)
        assert item.wanted_mm == (cover.functional_mm if item.functional else cover.other_mm)
        assert item.lacks_mm == pytest.approx(max(item.wanted_mm - item.least.distance_mm, 0.0))
        assert (item.least.excursion, item.least.travel_mm) == ("protrusion", 2.0)
    found = room_findings(occlusion, (), (room,), RoomSettings())
    lacking = any(item.lacks_mm > 0.0 for item in room.cusps)
    assert [item.kind for item in found] == [NO_CROWN_ROOM if prepared else REDUCTION] * lacking
    for finding in found:
        assert finding.severity == ("serious" if prepared else "note")
        assert finding.threshold.value == room.narrowest.wanted_mm


def test_a_front_tooth_is_told_as_a_whole():
    """It has no cusps over which a material is told apart."""
    _, _, room = measured(PlannedCrown(11, "ceramic"), 1.0)
    assert [(item.cusp, item.functional) for item in room.cusps] == [(WHOLE, False)]


def test_room_beside_a_surveyed_crown_is_that_to_its_neighbours():
    """Shortest distance of both surfaces, on either side; none of a crown that is not surveyed."""
    arch = fine_arch(36, quartered=False)
    crown, _, room = measured(PlannedCrown(36, "metal", surveyed=True), 3.0)
    assert [(side.side, side.neighbour) for side in room.beside] == [("mesial", 35), ("distal", 37)]
    for side in room.beside:
        other = arch.mesh.vertices[np.unique(arch.mesh.faces[arch.tooth_of_face == side.neighbour])]
        apart = np.linalg.norm(crown.surface.vertices[:, None] - other[None], axis=2).min()
        assert side.distance_mm <= apart + 1e-9
        assert side.distance_mm == pytest.approx(apart, abs=0.25)
    assert measured(PlannedCrown(36, "metal"), 3.0)[2].beside == ()


def test_results_tell_every_cusp():
    """JSON with every digit, a table of equal rows, and a section with every number's unit."""
    _, occlusion, room = measured(PlannedCrown(36, "ceramic", surveyed=True), 0.5)
    rooms = Rooms(crowns=(room,), findings=room_findings(occlusion, (), (room,), RoomSettings()))
    entries = json.loads(json_text(plain(dict(room_entries(rooms)))))
    assert list(entries) == ["crown_rooms"]
    (entry,) = entries["crown_rooms"]
    assert [cusp["cusp"] for cusp in entry["cusps"]] == [item.cusp for item in room.cusps]
    assert entry["cusps"][0]["lacks_mm"] == room.cusps[0].lacks_mm
    columns, rows = room_tables(rooms)[CROWNS_FILE]
    table = list(csv.reader(io.StringIO(table_text(columns, rows))))
    assert table[0] == CROWN_COLUMNS
    assert {len(row) for row in table} == {len(CROWN_COLUMNS)}
    assert len(table) == 1 + len(room.cusps) + len(room.beside)
    section = room_section(rooms)
    (told,) = section.crowns
    assert len(told.table.rows) == len(room.cusps)
    assert len(section.rules.rows) == len(ROOM_RULES) == len(ROOM_KINDS)
    assert all(rule.source for rule in ROOM_RULES)
    assert room_section(Rooms()) is None


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("[rooms]\nrest_least_mm = 1.4\nrest_wanted_mm = 1.2", "rest_wanted_mm = 1.2 is less"),
        ("[rooms]\nrest_least_mm = 9.0", "rest_least_mm"),
        ('[[crowns]]\ntooth = 99\nmaterial = "metal"', "99"),
        ('[[crowns]]\ntooth = 16\nmaterial = "gold"', "material"),
        ('[[crowns]]\ntooth = 16\nmaterial = "metal"\n' * 2, "a crown on 16 stands twice"),
        (
            '[[crowns]]\ntooth = 16\nmaterial = "metal"\n[[denture_bases]]\nname = "b"\n'
            "teeth = [16]\nabutments = [15]",
            "16 is a replacement tooth",
        ),
        (
            '[[crowns]]\ntooth = 16\nmaterial = "metal"\n[dentition]\nmissing = [16]',
            "tooth 16 is not there",
        ),
    ],
)
def test_what_cannot_be_is_refused(text, words):
    """With the key, what was found, and what to do."""
    with pytest.raises(InputError, match=words):
        parse_case(text, "case")


def test_a_crown_is_named_in_a_case():
    """And tells which tooth it wants to stand."""
    case = parse_case('[[crowns]]\ntooth = 16\nmaterial = "metal"\nprepared = true', "case")
    assert case.crowns == (PlannedCrown(16, "metal", prepared=True),)
    assert ("crowns", 16) in case.named_teeth
    assert Case().crowns == ()
