"""What the room of rests means: which severity when, in files, in the report and on the map."""

import csv
import io
import json
from dataclasses import replace
from types import SimpleNamespace

import numpy as np
import pytest

from kinematics.casts.casts import Arch
from kinematics.geometry.meshes import mesh_of
from kinematics.planning.crown_places import crown_frame
from kinematics.planning.rooms.rest_outlines import outline_of
from kinematics.planning.rooms.rest_rooms import rest_rooms
from kinematics.planning.rooms.room_findings import room_findings
from kinematics.planning.rooms.room_rules import (
    ASSUMED,
    GRAVER_ROOM_KINDS,
    LITTLE_ROOM,
    NO_ROOM,
    ROOM_RULES,
    TO_BE_CUT,
)
from kinematics.planning.rooms.rooms import Rooms
from kinematics.planning.rooms.seat_depth import outside_mm
from kinematics.planning.rooms.settings import RoomSettings
from kinematics.planning.tooth_findings import rule_for
from kinematics.result_files import plain
from kinematics.result_texts import json_text
from kinematics.room_files import REST_COLUMNS, RESTS_FILE, room_entries, room_tables
from kinematics.table_cells import table_text
from scenes.gap_colours import rgb
from scenes.room_maps import BANDS, bands_key, rest_maps
from scenes.room_words import room_section
from tests.planted_seats import facing, fine_arch, lifted, needle, rest_on, seated

SETTINGS = RoomSettings()


def rooms_of_one(gap_mm, depth_mm=0.0, assumed=False, code=14):
    """Return the room of a rest with a needle above its floor, and what it means."""
    arch = seated(fine_arch(code), code, "mesial", depth_mm)
    crown = crown_frame(arch, code)
    rest = replace(rest_on(fine_arch(code), code, "mesial", depth_mm), assumed=assumed)
    tip = np.array(rest.point) + gap_mm * crown.up
    occlusion = facing(arch, needle(tip, crown.up, 44), code)
    frame = SimpleNamespace(name="upper right base", rests=(rest,))
    rests = rest_rooms(occlusion, (frame,), lifted([0.0, 0.3], crown.up, code), SETTINGS)
    return Rooms(rests, findings=room_findings(occlusion, rests, (), SETTINGS))


@pytest.mark.parametrize(
    ("gap", "depth", "assumed", "kind"),
    [
        (0.6, 1.2, False, NO_ROOM),
        (0.6, 0.0, False, TO_BE_CUT),
        (0.6, 0.0, True, ASSUMED),
        (1.4, 0.0, False, LITTLE_ROOM),
        (3.0, 0.0, False, None),
    ],
)
def test_severity_follows_the_table(gap, depth, assumed, kind):
    """By seat, by who named the rest, and by how much room there is."""
    found = rooms_of_one(gap, depth, assumed).findings
    assert [item.kind for item in found] == ([kind] if kind else [])
    for item in found:
        assert item.severity == rule_for(ROOM_RULES, kind).severity
        assert (item.tooth_upper, item.tooth_lower) == (14, 44)
        assert item.threshold.value == (1.5 if kind == LITTLE_ROOM else 1.0)
        assert item.threshold_source
        assert (item.kind in GRAVER_ROOM_KINDS) == (item.severity != "note")


def test_enamel_is_warned_of_where_a_premolar_seat_would_be_deep():
    """Not of a molar, for which nothing is published here, nor of a shallow one."""
    (deep,) = rooms_of_one(0.1).findings
    assert "reached dentine" in deep.text and "not of this tooth" in deep.text
    (shallow,) = rooms_of_one(0.8).findings
    assert "reached dentine" not in shallow.text
    (molar,) = rooms_of_one(0.1, code=16).findings
    assert "reached dentine" not in molar.text
    assert room_section(rooms_of_one(0.1)).caution
    assert not room_section(rooms_of_one(3.0)).caution


def test_results_tell_every_part():
    """JSON with every digit, and a table with a row a part."""
    rooms = rooms_of_one(0.6, 1.2)
    (room,) = rooms.rests
    (entry,) = json.loads(json_text(plain(dict(room_entries(rooms)))))["rest_rooms"]
    assert entry["seat_found"] is True
    assert entry["seat_depth"]["ridge_mm"] == room.depth.ridge_mm
    assert entry["least"]["distance_mm"] == room.least.distance_mm
    assert [gain["wanted_mm"] for gain in entry["what_gives_room"]] == [1.0, 1.5]
    columns, rows = room_tables(rooms)[RESTS_FILE]
    table = list(csv.DictReader(io.StringIO(table_text(columns, rows))))
    assert list(table[0]) == REST_COLUMNS
    assert [row["part"] for row in table] == [part.part for part in room.parts]
    floor = table[0]
    assert float(floor["least_mm"]) == pytest.approx(room.parts[0].least.distance_mm, abs=1e-6)
    assert (floor["least_to"], floor["in_mi_in"], floor["seat_found"]) == ("44", "MI", "yes")
    assert room_tables(Rooms()) == {}


def test_a_hole_below_a_rest_is_told_not_measured():
    """Of a crown without its ridge nothing is said, and the report says so."""
    arch = fine_arch(14)
    crown, rest = crown_frame(arch, 14), rest_on(arch, 14, "mesial")
    outline = outline_of(crown, rest)
    axes = np.stack([crown.mesial, crown.facial, crown.up])
    seen = (arch.mesh.corners.mean(axis=1) - crown.tooth.centre) @ axes.T
    hole = (outside_mm(outline, seen[:, :2]) < 0.4) & (arch.tooth_of_face == 14)
    open_arch = Arch(
        mesh_of(arch.mesh.vertices, arch.mesh.faces[~hole]), arch.tooth_of_face[~hole], arch.teeth
    )
    occlusion = facing(open_arch, needle(crown.tooth.centre, crown.up, 44), 14)
    frame = SimpleNamespace(name="upper right base", rests=(rest,))
    assert rest_rooms(occlusion, (frame,), lifted([0.0], crown.up, 14), SETTINGS) == ()
    section = room_section(Rooms(untold=(rest,)))
    assert (section.untold, section.rests) == ("14 mesial", ())
    assert "rests_without_surface" in room_entries(Rooms(untold=(rest,)))


def test_the_report_tells_what_gives_room():
    """Depth, alone and shared, with units; every part in the table."""
    rooms = rooms_of_one(0.6, 1.2)
    section = room_section(rooms)
    (told,) = section.rests
    assert told.title == "14, mesial rest"
    assert "Seat found" in told.lines[1]
    assert told.lines[2].startswith("For 1.00 mm of room: ")
    assert "off the opponent" in told.lines[2]
    assert [row[0] for row in told.table.rows] == ["floor", "marginal ridge", "embrasure"]
    assert (section.least, section.wanted) == ("1.00 mm", "1.50 mm")


def test_colours_of_the_map_are_those_of_its_bands():
    """Every face is painted by how near the opposing arch comes to it; a key names the bands."""
    rooms = rooms_of_one(0.6)
    (drawn,) = rest_maps(rooms)
    (part,) = drawn.scene.parts
    assert drawn.limits_mm == (1.0, 1.5)
    shown = {tuple(colour) for colour in np.unique(part.paint, axis=0)}
    assert shown == {tuple(rgb(colour)) for colour in BANDS}
    crown = rooms.rests[0].map
    nearest = crown.surface.vertices[np.argmin(crown.least_mm)]
    corner = np.argmin(np.linalg.norm(part.vertices - nearest, axis=1))
    assert tuple(part.paint[corner]) == tuple(rgb(BANDS[0]))
    assert "14 with the outline of its mesial rest" in drawn.description
    texts = [item.text for item in bands_key(drawn.limits_mm).items if hasattr(item, "text")]
    assert texts == ["nearer than 1.0 mm", "1.0 to 1.5 mm", "1.5 mm or farther"]
