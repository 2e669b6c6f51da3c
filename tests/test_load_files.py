"""Tables of loads: what stands in them agrees with the contacts they come from."""

import numpy as np

from kinematics.load_files import (
    CONTACT_LOAD_COLUMNS,
    LOAD_COLUMNS,
    TOOTH_LOAD_COLUMNS,
    load_entries,
    load_tables,
)
from kinematics.planning.base_loads import excursion_loads
from tests.loaded_cases import ready

FORCE = ("force_x_n", "force_y_n", "force_z_n")


def tables_of(name, number):
    """Return the tables of one excursion of a case by name, rows as dictionaries."""
    here = ready(name)
    loads = (excursion_loads(here.occlusion, here.case.load, here.frames, here.sweeps[number]),)
    tables = load_tables(loads)
    assert [columns for columns, _ in tables.values()] == [
        LOAD_COLUMNS,
        TOOTH_LOAD_COLUMNS,
        CONTACT_LOAD_COLUMNS,
    ]
    told = (
        [dict(zip(columns, row, strict=True)) for row in rows] for columns, rows in tables.values()
    )
    return loads, *told


def which(row):
    """Return of which guidance and pose a row tells."""
    return row["guidance_on_replacement_teeth"], row["travel_mm"]


def forces(rows):
    """Return the forces of some rows, (n, 3)."""
    return np.array([[float(row[name]) for name in FORCE] for row in rows]).reshape(-1, 3)


def test_forces_on_teeth_are_those_of_their_contacts_in_every_pose():
    """Contacts of a replacement tooth add up to its force; what is across fits the framework's."""
    _, whole, teeth, contacts = tables_of("upper_distal_extension", 2)
    pushed = [row for row in teeth if row["pushed_by"] == "opponents"]
    assert len({which(row) for row in whole}) == len(whole) > 50
    for row in pushed:
        own = [c for c in contacts if which(c) == which(row) and c["tooth_upper"] == row["tooth"]]
        assert np.allclose(forces(own).sum(axis=0), forces([row])[0], atol=1e-5)
        assert row["lever_mm"] and not row["across_n_least"]
    for row in whole:
        own = [one for one in pushed if which(one) == which(row)]
        along = sum(float(one["along_n"]) for one in own)
        assert abs(along - float(row["along_n"])) < 1e-4
        if which(row)[0] == "taken off":
            assert row["across_n_least"] == row["across_n_greatest"] == ""
            continue
        least, set_, greatest = (
            float(row[f"across_n{end}"]) for end in ("_least", "", "_greatest")
        )
        assert least <= set_ <= greatest


def test_every_abutment_is_told_in_every_pose_with_its_range():
    """One row each, along and across adding up to the force."""
    _, whole, teeth, _ = tables_of("upper_distal_extension", 2)
    held = [row for row in teeth if row["pushed_by"] == "framework"]
    assert len(held) == len(whole) * len({row["tooth"] for row in held})
    for row in held:
        size = np.linalg.norm(forces([row])[0])
        assert abs(np.hypot(float(row["along_n"]), float(row["across_n"])) - size) < 1e-5
        if which(row)[0] == "taken off":
            continue
        assert float(row["across_n_least"]) <= float(row["across_n"]) + 1e-9
        assert float(row["across_n"]) <= float(row["across_n_greatest"]) + 1e-9


def test_the_entry_of_an_excursion_is_its_largest_row():
    """Beyond the near-MI length nothing in the table is larger than what is told as largest."""
    loads, whole, _, _ = tables_of("upper_distal_extension", 2)
    (entry,) = load_entries(loads)
    largest = entry["largest"][0].as_is.figures["across_n"]
    beyond = [
        float(row["across_n"])
        for row in whole
        if which(row)[0] == "as set up" and float(row["travel_mm"]) > 0.5 + 1e-6
    ]
    assert abs(max(beyond) - largest) < 1e-5
    assert entry["poses_without_equilibrium"] == []


def test_no_tables_without_loads():
    """A case without denture bases and bridges has none of these files."""
    assert load_tables(()) == {} and load_entries(()) == []


def test_bridges_and_splints_have_no_figures_of_a_ridge():
    """Cells of what they do not have are empty; every root has a row, ranges for all it gets."""
    loads, whole, teeth, _ = tables_of("bridge", 0)
    assert {row["framework"] for row in whole} == {"bridge 'lower right'", "splint 'front'"}
    for row in whole:
        for name in ("about_fulcrum_nmm", "about_crest_nmm", "mucosa_n", "sinking_mm"):
            assert row[name] == row[f"{name}_least"] == row[f"{name}_greatest"] == ""
        assert row["across_n"] != ""
    roots = [row for row in teeth if row["pushed_by"] == "framework"]
    assert {row["tooth"] for row in roots} == {"31", "32", "41", "44", "46"}
    for row in roots:
        if which(row)[0] == "taken off":
            continue
        for name in ("along_n", "across_n", "across_in_all_n"):
            least, value, greatest = (
                float(row[f"{name}{end}"]) for end in ("_least", "", "_greatest")
            )
            assert least - 1e-6 <= value <= greatest + 1e-6
        assert row["across_in_all_n"] == row["across_n"]
    (entry,) = load_entries(loads)
    assert [one.as_is.kind for one in entry["largest"] if one] in (["splint"], ["bridge", "splint"])
    assert all(one["overloads"] for one in entry["poses_to_doubt"])
