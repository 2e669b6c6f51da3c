"""What the records cannot tell, in words: counts, limits, records, defaults and sources."""

import re
from dataclasses import replace
from types import SimpleNamespace

from kinematics.planning.judging import JudgingSettings
from scenes.record_limits import record_limits
from scenes.setting_tables import SettingRow
from tests.made_records import two_records

EXACT = JudgingSettings()


def test_exact_records_are_tried_with_the_usual_scatter(example):
    """The sentence says that it is a trial; both findings above a note lie near their limit."""
    limits = record_limits(example, EXACT, ())
    assert "taken as exact" in limits.scatter and "0.30 mm" in limits.scatter
    assert limits.open_statements == (
        "With that scatter 4 of 5 verdicts on guidance and 2 of 2 findings that call for attention"
        " would be open."
    )
    said = {what: (far, record) for what, far, record in limits.table.rows}
    serious = next(what for what in said if what.startswith("■ serious: Replacement tooth 16"))
    assert said[serious] == ("0.20 mm", "left lateral")


def test_a_set_scatter_tells_what_is_not_determined(example):
    """Only the finding that is marked, with its distance and its record."""
    limits = record_limits(example, JudgingSettings(record_scatter_mm=0.1), ())
    assert "set to scatter by 0.10 mm" in limits.scatter
    assert "1 of 2 findings" in limits.open_statements
    findings = [row for row in limits.table.rows if row[0].startswith(("■", "▲"))]
    assert [(row[1], row[2]) for row in findings] == [("14 µm", "right lateral")]
    assert "right lateral" in dict(limits.records)


def test_a_finding_without_a_limit_in_mm(example):
    """A kind of guidance that is open says so; whatever else has no length says that."""
    missed = replace(example.findings[1], kind="scheme not reached", margin=None)
    other = replace(missed, excursion=None)
    made = replace(example, findings=(missed, other))
    limits = record_limits(made, JudgingSettings(record_scatter_mm=2.0), ())
    rows = [row for row in limits.table.rows if row[0].startswith("▲")]
    assert [row[1] for row in rows] == [
        "canine with incisors: at 1.0 mm 11 on 41 misses by 0.41 mm",
        "no limit in mm",
    ]


def test_every_open_verdict_names_the_other_kind_and_the_teeth_that_decide(example):
    """One row each, with a distance below the scatter."""
    limits = record_limits(example, JudgingSettings(record_scatter_mm=2.0), ())
    rows = [row for row in limits.table.rows if row[0].startswith("what guides: ")]
    assert len(rows) == 5
    for what, other, _ in rows:
        assert ";" not in what
        assert re.fullmatch(r"[a-z() -]+: at \d\.\d mm \d\d on \d\d .*(µm|mm).*", other), other


def on_scans(example, centric=None, by_bite_record=False):
    """Return what the records of the example cannot tell if it were one of scans."""
    slides = replace(example.findings[1], kind="deflective contact", excursion=None)
    made = replace(
        example,
        scans=SimpleNamespace(by_bite_record=by_bite_record),
        centric=centric,
        findings=(slides,),
    )
    return record_limits(made, JudgingSettings(record_scatter_mm=0.3), ())


def test_scans_without_a_record_are_told_what_the_scatter_stands_for(example):
    """From which key it comes and how to lower it; nobody is sent for a second record of none."""
    limits = on_scans(example)
    assert "has no record of centric relation" in limits.scatter
    assert "record_scatter_mm under [judging] of the case file" in limits.scatter
    assert "no measurement of this patient" in limits.scatter
    assert "A smaller number alone makes nothing more certain" in limits.scatter
    assert limits.in_short.startswith("With the scatter of records that this case assumes, 0.30 mm")
    record = dict(limits.records)["centric (CR)"]
    assert record.startswith("a centric record") and "this case has none" in record


def test_scans_with_records_are_asked_for_a_further_one(example):
    """To compare it with those that are there."""
    limits = on_scans(example, centric=two_records(0.1))
    assert "set to scatter by 0.30 mm" in limits.scatter
    assert dict(limits.records)["centric (CR)"].startswith("a further centric record beside those")


def test_a_bite_as_scanned_is_told_apart_from_a_record_of_it(example):
    """No record lies between the casts; where a bite record moved them, one does."""
    words = "as they were scanned on each other"
    assert words in on_scans(example).scatter
    assert words not in on_scans(example, by_bite_record=True).scatter


def test_notes_that_are_open_are_counted(example):
    """They are not listed, but told beside the others."""
    note = replace(example.findings[1], severity="note")
    one = record_limits(replace(example, findings=(note,), sweeps=()), EXACT, ())
    assert one.open_statements.endswith("would be open, besides one note.")
    few = record_limits(replace(example, findings=(note,)), EXACT, ()).open_statements
    assert few.endswith("4 of 5 verdicts on guidance, besides one note, would be open.")
    two = record_limits(replace(example, findings=(*example.findings, note, note)), EXACT, ())
    assert ", besides 2 notes, would be open." in two.open_statements


def test_where_nothing_is_open_that_is_said(example):
    """No rows, no records, and a sentence that counts what was looked at."""
    limits = record_limits(replace(example, findings=(), sweeps=()), EXACT, ())
    assert limits.table.rows == () and limits.records == ()
    assert limits.open_statements.startswith(
        "With that scatter no verdict on guidance (of 0) and no finding"
    )


def test_settings_at_their_default_are_told_once_for_both_sides(example):
    """Right and left that agree share a line; others stand apart, each value with its unit."""

    def rows(side, angle):
        return (SettingRow(f"guidance, {side}", "condylar inclination", angle, "°"),
                SettingRow(f"guidance, {side}", "immediate shift", "0", "mm"))  # fmt: skip

    same = record_limits(example, EXACT, (*rows("right", "35"), *rows("left", "35")))
    assert same.defaults == (
        ("guidance, right and left", "condylar inclination 35°, immediate shift 0 mm"),
    )
    apart = record_limits(example, EXACT, (*rows("right", "35"), *rows("left", "9")))
    assert [group for group, _ in apart.defaults] == ["guidance, right", "guidance, left"]
