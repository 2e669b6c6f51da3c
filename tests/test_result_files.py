"""Result files: complete, readable by other programs, the same bytes for the same results."""

import csv
import dataclasses
import io
import json
import math

import numpy as np
import pytest

from kinematics.border_files import OUTLINE_COLUMNS, OUTLINES_FILE
from kinematics.case import Case
from kinematics.checkup_result import Checkup
from kinematics.contact.closure import NOTHING_MEETS
from kinematics.plane_files import PLANE_COLUMNS, PLANE_FILE
from kinematics.result_files import (
    BORDER_COLUMNS,
    CONTACT_COLUMNS,
    GAP_COLUMNS,
    TRACK_COLUMNS,
    border_rows,
    contact_rows,
    findings_document,
    gap_rows,
    plain,
    table_text,
    track_rows,
    write_results,
)
from kinematics.result_texts import CAUTION, OF_A_CASE, json_text

TABLES = {
    "contacts.csv": CONTACT_COLUMNS,
    "tracks.csv": TRACK_COLUMNS,
    "gaps.csv": GAP_COLUMNS,
    "borders.csv": BORDER_COLUMNS,
    OUTLINES_FILE: OUTLINE_COLUMNS,
    PLANE_FILE: PLANE_COLUMNS,
}


def _read(text):
    return list(csv.DictReader(io.StringIO(text)))


def _with_sweep(example: Checkup, **changes) -> Checkup:
    first = dataclasses.replace(example.sweeps[0], **changes)
    return dataclasses.replace(example, sweeps=(first, *example.sweeps[1:]))


def test_the_same_results_give_the_same_bytes(example, tmp_path):
    """Two writings differ in nothing, and every file is named in findings.json."""
    for name in ("one", "two"):
        (tmp_path / name).mkdir()
        write_results(tmp_path / name, Case(), example, ["report.html"])
    names = {path.name for path in (tmp_path / "one").iterdir()}
    assert names == {OF_A_CASE.file, *TABLES}
    for name in names:
        first, second = ((tmp_path / run / name).read_bytes() for run in ("one", "two"))
        assert first == second
        assert b"\r" not in first
    listed = json.loads((tmp_path / "one" / OF_A_CASE.file).read_text("utf-8"))["files"]
    assert listed == sorted({*names, "report.html"})


def test_findings_keep_every_digit_and_their_schema(example):
    """A number read back from findings.json is the very number that was computed."""
    document = json.loads(json_text(findings_document(Case(title="T"), example, [])))
    assert (document["schema"], document["schema_version"]) == (OF_A_CASE.schema, OF_A_CASE.version)
    assert document["case"]["title"] == "T"
    assert document["caution"] == CAUTION
    assert len(document["findings"]) == len(example.findings)
    for entry, finding in zip(document["findings"], example.findings, strict=True):
        figures = [(f["name"], f["value"], f["unit"]) for f in entry["figures"]]
        assert figures == [(f.name, f.value, f.unit) for f in finding.figures]
        assert entry["place_mm"] == (list(finding.place) if finding.place else None)
    assert [s["arc_gap_mm"] for s in document["centric_stops"]] == [
        stop.arc_gap_mm for stop in example.stops
    ]
    opening = math.radians(document["maximal_intercuspation"]["opening_deg"])
    assert opening == pytest.approx(example.mi.opening_rad, rel=1e-15)


def test_the_tables_have_their_columns_and_a_row_for_every_item(example, tmp_path):
    """One row a patch, a pose, a measured gap, a border pose; no cell too many or too few."""
    write_results(tmp_path, Case(), example)
    rows = {}
    for name, columns in TABLES.items():
        lines = list(csv.reader(io.StringIO((tmp_path / name).read_text("utf-8"))))
        assert lines[0] == columns
        assert {len(line) for line in lines} == {len(columns)}
        rows[name] = len(lines) - 1
    assert rows == {
        "contacts.csv": sum(len(s.patches.pose) for s in example.sweeps),
        "tracks.csv": sum(len(s.travel_mm) for s in example.sweeps),
        "gaps.csv": sum(int(np.isfinite(s.pair_gap_mm).sum()) for s in example.sweeps),
        "borders.csv": sum(len(b.advance_mm) for b in example.borders),
        OUTLINES_FILE: sum(len(line.opening_rad) for line in example.outlines.lines),
        PLANE_FILE: 0,
    }


def test_a_contact_row_says_what_the_patch_says(example):
    """Teeth, travel and place in contacts.csv are those of the patch, to a millionth."""
    sweep, patches = example.sweeps[0], example.sweeps[0].patches
    rows = _read(table_text(CONTACT_COLUMNS, contact_rows(example)))[: len(patches.pose)]
    for k, row in enumerate(rows):
        assert row["excursion"] == sweep.excursion.name
        assert int(row["tooth_upper"]) == patches.tooth_upper[k]
        assert int(row["tooth_lower"]) == patches.tooth_lower[k]
        assert float(row["travel_mm"]) == pytest.approx(sweep.travel_mm[patches.pose[k]], abs=5e-7)
        centroid = [float(row[f"centroid_{axis}_mm"]) for axis in "xyz"]
        assert centroid == pytest.approx(patches.centroid[k], abs=5e-7)


def test_a_gap_row_names_the_teeth_of_its_row_and_column(example):
    """gaps.csv holds exactly the finite entries of the gap table, pair by pair."""
    rows = _read(table_text(GAP_COLUMNS, gap_rows(example)))
    sweep = example.sweeps[0]
    found = {
        (int(row["pose"]), int(row["tooth_upper"]), int(row["tooth_lower"])): float(row["gap_mm"])
        for row in rows
        if (row["excursion"], row["start"]) == (sweep.excursion.name, sweep.excursion.start)
    }
    for i, j, k in np.ndindex(sweep.pair_gap_mm.shape):
        gap = sweep.pair_gap_mm[i, j, k]
        key = (i, sweep.upper_codes[j], sweep.lower_codes[k])
        assert (key in found) == math.isfinite(gap)
        if key in found:
            assert found[key] == pytest.approx(gap, abs=5e-7)


def test_what_is_not_a_number_is_left_empty(example):
    """Infinite gaps, poses where nothing meets, NaN: empty cells and null, never a word."""
    sweep = example.sweeps[0]
    n = len(sweep.travel_mm)
    nothing = dataclasses.replace(
        sweep.closures,
        opening_rad=np.full(n, -np.inf),
        status=np.full(n, NOTHING_MEETS),
        tooth_upper=np.full(n, -1),
        tooth_lower=np.full(n, -1),
    )
    changed = _with_sweep(
        example,
        closures=nothing,
        opening_rad=np.full(n, -np.inf),
        runner_up_gap_mm=np.full(n, np.inf),
        edge_to_edge_mm=math.nan,
    )
    text = table_text(TRACK_COLUMNS, track_rows(changed))
    row = _read(text)[0]
    for column in ("opening_deg", "first_contact_upper", "first_contact_x_mm"):
        assert row[column] == ""
    assert row["runner_up_arc_gap_mm"] == ""
    document = json_text(findings_document(Case(), changed, []))
    assert json.loads(document)["excursions"][0]["edge_to_edge_mm"] is None
    for word in ("nan", "inf,", "Infinity", "NaN"):
        assert word not in text
        assert word not in document


def test_minus_zero_is_zero(example):
    """The sign of nothing must not make two equal results differ."""
    assert math.copysign(1.0, plain(-0.0)) == 1.0
    track = dataclasses.replace(example.borders[0], incisal_point=np.full((41, 3), -1e-9))
    changed = dataclasses.replace(example, borders=(track,))
    assert "-0.0" not in table_text(BORDER_COLUMNS, border_rows(changed))


def test_a_title_with_commas_and_line_breaks_survives(example):
    """Names that a user chose come back unchanged from table and JSON."""
    odd = 'a, "b"\nc'
    track = dataclasses.replace(example.borders[0], name=odd)
    changed = dataclasses.replace(example, borders=(track,))
    assert _read(table_text(BORDER_COLUMNS, border_rows(changed)))[0]["excursion"] == odd
    document = json.loads(json_text(findings_document(Case(title=odd), changed, [])))
    assert document["case"]["title"] == odd
