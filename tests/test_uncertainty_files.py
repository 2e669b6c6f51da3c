"""What a study of uncertain settings says in result files, and at which finding."""

import csv
import io
from dataclasses import replace

import pytest

from kinematics.case import Case
from kinematics.plan_files import plan_tables
from kinematics.planning.findings import Finding
from kinematics.result_files import findings_document, write_results
from kinematics.result_texts import json_text
from kinematics.table_cells import table_text
from kinematics.uncertainty.matched import matched_shares, not_as_set
from kinematics.uncertainty_files import INFLUENCES_FILE, UNCERTAINTY_FILE
from tests.made_uncertainty import finding_shares, made_uncertainty, share


def read(checkup, name):
    """Return the rows of one table."""
    columns, rows = plan_tables(checkup)[name]
    return list(csv.DictReader(io.StringIO(table_text(columns, rows))))


def touching(*pairs, excursion="left lateral"):
    """Return a finding at some tooth pairs."""
    (upper, lower), *together = pairs
    return Finding(
        "nonworking interference", "attention", "They meet.", excursion, 0.5, 1.0, upper, lower,
        together=tuple(together),
    )  # fmt: skip


def test_a_share_belongs_to_the_finding_of_the_same_teeth_in_any_order():
    """Kind and excursion too; what was found in another excursion has no share."""
    studied = made_uncertainty()
    same = touching((18, 48), (17, 47))
    assert matched_shares([same], studied) == {same: studied.findings[2]}
    assert matched_shares([touching((18, 48), excursion="right lateral")], studied) == {}
    assert matched_shares([replace(same, kind="working interference")], studied) == {}
    assert matched_shares([same], None) == {}


def test_a_share_of_other_pairs_belongs_to_what_has_most_teeth_in_common():
    """A run finds a pair more than the study; without a common pair nothing belongs."""
    few = finding_shares()[2]
    many = replace(few, pairs=((15, 45), (17, 47), (18, 48)))
    studied = made_uncertainty(findings=(few, many))
    one = touching((18, 48), (16, 46), (15, 45))
    assert matched_shares([one], studied) == {one: many}
    assert matched_shares([touching((14, 44))], studied) == {}


def test_what_names_no_teeth_is_matched_by_kind_and_excursion():
    """Of two findings of one kind each gets a share of its own."""
    told = finding_shares()[3]
    finding = Finding(told.kind, "attention", "Nothing guides.", "protrusion")
    other = replace(finding, text="Nothing guides at all.")
    studied = made_uncertainty(findings=(told,))
    assert matched_shares([finding, other], studied) == {finding: told}


def test_what_does_not_hold_as_set_comes_by_its_share(example):
    """The most samples first; what belongs to a finding of the run is not among it."""
    studied = made_uncertainty()
    assert [item.holds.count for item in not_as_set(example.findings, studied)] == [82, 3]
    found = (*example.findings, touching((17, 47), (18, 48)))
    assert [item.holds.count for item in not_as_set(found, studied)] == [3]


def test_findings_carry_their_shares(example):
    """Count, share, ends of the interval, whether it is settled; null where not studied."""
    document = findings_document(Case(), replace(example, uncertainty=made_uncertainty()), [])
    first, _, note = (entry["holds_in"] for entry in document["findings"])
    expected = share(364)
    assert (first["count"], first["of"], first["share"]) == (364, 512, 364 / 512)
    assert (first["low"], first["high"]) == (expected.low, expected.high)
    assert first["serious_in"]["count"] == 205
    assert (first["severity_as_set"], first["settled"]) == ("serious", "not settled")
    assert note is None


def test_the_study_itself_stands_beside_them(example):
    """Factors with their settings, influences, records needed, quantities; all of it is JSON."""
    document = findings_document(Case(), replace(example, uncertainty=made_uncertainty()), [])
    told = document["uncertainty"]
    assert (told["seed"], told["samples"], told["runs"], told["refused"]) == (7, 512, 1280, 6)
    inclination = told["factors"][0]["settings"][0]
    assert inclination["path"] == "guidance.right.condylar_inclination_deg"
    assert inclination["standard_error"] == 7.8
    assert len(told["findings"]) == 4
    assert told["findings"][0]["needed_records"][2]["times_better"] is None
    assert told["quantities"][0]["as_set"] is None
    assert '"first_low": 0.478' in json_text(document)


def test_without_a_study_nothing_is_added(example, tmp_path):
    """No entry, no key at the findings, no table."""
    document = findings_document(Case(), example, [])
    assert "uncertainty" not in document
    assert all("holds_in" not in entry for entry in document["findings"])
    write_results(tmp_path, Case(), example)
    assert not (tmp_path / UNCERTAINTY_FILE).exists()


def test_tables_for_a_spreadsheet(example, tmp_path):
    """A row a finding, and a row for every factor of everything that has influences."""
    checkup = replace(example, uncertainty=made_uncertainty())
    shares = read(checkup, UNCERTAINTY_FILE)
    assert [row["holds_in"] for row in shares] == ["364", "510", "82", "3"]
    assert shares[2]["pairs"] == "17/47 18/48"
    assert shares[2]["severity_as_set"] == ""
    assert float(shares[0]["share"]) == pytest.approx(364 / 512, abs=1e-6)
    influences = read(checkup, INFLUENCES_FILE)
    assert len(influences) == 5 * 3
    first = influences[0]
    assert (first["of"], first["factor"]) == ("finding", "condylar inclination, right and left")
    assert (float(first["total"]), float(first["times_better_to_settle"])) == (0.71, 3.7)
    assert influences[2]["times_better_to_settle"] == ""
    assert influences[-1]["of"] == "quantity"
    write_results(tmp_path, Case(), checkup)
    assert {UNCERTAINTY_FILE, INFLUENCES_FILE} <= {path.name for path in tmp_path.iterdir()}
