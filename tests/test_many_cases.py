"""Many cases side by side: counts as set, how sure they are, gravest first, refused ones last."""

import csv
import io
import json
import math
from dataclasses import replace

import pytest

from kinematics.engine.plan import Job
from kinematics.result_texts import OF_A_STUDY
from kinematics.studies.many import CaseRow, case_row, gravest_first
from kinematics.studies.many_files import (
    CASES_COLUMNS,
    CASES_TABLE,
    case_rows,
    cases_document,
    write_cases,
)
from kinematics.studies.point import Varied, columns, prepare, run_sample
from kinematics.table_cells import table_text
from scenes.cases_page import cases_page
from tests.made_uncertainty import finding_shares, made_uncertainty, share
from tests.shipped_cases import coarse

GUIDES = (("protrusion", "incisors"), ("right lateral", "canine"), ("left lateral", "canine"))


def made_row(title, serious=0, attention=0, load=math.nan, **more):
    """Return a case with some findings."""
    return CaseRow(title, f"{title}.toml", "", serious, attention, 1, GUIDES, load, 0.4, **more)


def cases():
    """Return cases of every kind, not in order."""
    return (
        CaseRow("", "broken.toml", "broken.toml, guidance.right = 3: must be a table"),
        made_row("few"),
        made_row("unsure", 1, 1, 0.3, settled=2, not_settled=1, gravest=finding_shares()[0]),
        made_row("<b>heavy</b>", 1, 1, 0.9),
        made_row("most", 2, 0),
    )


def test_the_gravest_case_comes_first_and_a_refused_one_last():
    """More serious findings, then more others, then more load; equals keep their order."""
    ordered = [row.title for row in gravest_first(cases())]
    assert ordered == ["most", "<b>heavy</b>", "unsure", "few", ""]
    same = [made_row("one"), made_row("other")]
    assert [row.title for row in gravest_first(same)] == ["one", "other"]


def test_a_run_becomes_a_row():
    """Of a built-in case as it is: its findings by severity, guidance, load, slide."""
    case = coarse("lower_distal_extension")
    run = run_sample(prepare(Varied(case, ({},))), 0)
    row = case_row(case.title, "case.toml", run, slide_mm=0.7)
    texts = [json.loads(text) for text in run["findings"]]
    assert row.serious + row.attention + row.notes == len(texts) > 0
    assert row.serious == sum(severity == "serious" for _, _, severity, *_ in texts)
    assert row.guidance == tuple(
        (label, run[f"what guides: {label}"])
        for label in ("protrusion", "right lateral", "left lateral")
    )
    assert row.load == max(
        run[f"load across replacement teeth: {label}, N across per N along"]
        for label in ("protrusion", "right lateral", "left lateral")
    )
    assert (row.slide_mm, row.settled, row.gravest) == (0.7, None, None)
    assert Job("one", None, 1, columns(case)).columns.keys() == run.keys()


def test_a_refused_run_tells_why_and_nothing_else():
    """As a case whose settings make none does."""
    row = case_row("bad", "bad.toml", {"refused": "no closure", "findings": ()})
    assert (row.refused, row.guidance, row.serious) == ("no closure", (), 0)


def test_of_the_gravest_severity_the_share_is_that_of_what_holds_most():
    """Findings that do not hold as set are never the gravest; settled ones are counted."""
    run = {"refused": "", "findings": (), **{f"what guides: {one}": "" for one, _ in GUIDES}}
    weaker = replace(finding_shares()[0], holds=share(100))
    row = case_row("a", "a", run, made_uncertainty(findings=(weaker, *finding_shares())))
    assert (row.settled, row.not_settled) == (2, 3)
    assert row.gravest == finding_shares()[0]
    assert math.isnan(row.load)
    row = case_row("a", "a", run, made_uncertainty(findings=finding_shares()[2:]))
    assert (row.settled, row.not_settled, row.gravest) == (1, 1, None)


def test_the_files_hold_every_case(tmp_path):
    """In one order; a refused case has its reason and empty cells; NaN is null or empty."""
    write_cases(tmp_path, cases())
    document = json.loads((tmp_path / OF_A_STUDY.file).read_text("utf-8"))
    assert document == json.loads(
        json.dumps(cases_document(cases(), [OF_A_STUDY.file, CASES_TABLE]))
    )
    assert [entry["file"] for entry in document["cases"]][::4] == ["most.toml", "broken.toml"]
    assert document["cases"][0]["load_across_per_along"] is None
    assert document["cases"][2]["gravest"]["holds"]["count"] == 364
    assert set(document["cases"][-1]) == {"title", "file", "refused"}
    rows = list(csv.DictReader(io.StringIO((tmp_path / CASES_TABLE).read_text("utf-8"))))
    assert [row["file"] for row in rows] == [entry["file"] for entry in document["cases"]]
    assert rows[2]["gravest_holds_in"] == "364"
    assert rows[-1]["refused"].startswith("broken.toml")
    assert (rows[-1]["serious"], rows[0]["load_across_per_along"]) == ("", "")
    lengths = {len(row) for row in case_rows(cases())}
    assert lengths == {len(CASES_COLUMNS)}
    assert table_text(CASES_COLUMNS, case_rows(cases())) == table_text(
        CASES_COLUMNS, case_rows(cases()[::-1])
    )


def test_the_page_tells_every_case():
    """Titles as text, shares where there are any, reasons of refused ones at the end."""
    page = cases_page("Cases & more", cases())
    assert "<h1>Cases &amp; more</h1>" in page
    assert "&lt;b&gt;heavy&lt;/b&gt;" in page
    assert "71 % (67 to 75), not settled" in page
    assert "1 case could not be run" in page
    assert page.index("What could not be run") > page.index("few.toml")
    assert page.index("must be a table") > page.index("What could not be run")
    assert "1 case with findings that are not settled" in page
    assert "not of patients" in page


@pytest.mark.parametrize("rows", [(), cases()[:1], cases()[1:2]])
def test_a_page_without_studies_speaks_of_none(rows):
    """Nor of refused cases where there are none; no case at all is told too."""
    page = cases_page("Cases", rows)
    assert "settled" not in page.split("</style>")[1]
    assert ("What could not be run" in page) == any(row.refused for row in rows)
