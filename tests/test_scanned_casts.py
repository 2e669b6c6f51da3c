"""From two scan files to findings: what scans of known teeth say, against the teeth themselves."""

import re
from dataclasses import replace

import numpy as np
import pytest

from kinematics.case_file import read_case
from kinematics.checks import InputError
from kinematics.geometry.poses import inverse, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.mounting import teeth_for
from kinematics.planning.given_marks import ObservedMarks
from kinematics.planning.observed_marks import ComparedMarks
from kinematics.result_files import findings_document
from kinematics.scans.settings import ScanFiles
from scenes.case_words import case_words
from scenes.new_command import new
from scenes.report import html_report
from tests.made_records import record_of, rows, two_records
from tests.scanned_teeth import guiding, true_teeth, write_case
from tests.scanner_like import any_place
from tests.shipped_cases import run_case


def silent(_step):
    """Tell nobody."""


@pytest.fixture(scope="module")
def truth():
    """Return a built-in case and its casts in MI."""
    return true_teeth()


@pytest.fixture(scope="module")
def plain(truth):
    """Return what a run says of the teeth themselves."""
    return run_case(truth[0], planning=True)


@pytest.fixture(scope="module")
def from_scans(truth, tmp_path_factory):
    """Return the case of the scans, and what a run says of it."""
    case = write_case(tmp_path_factory.mktemp("scans") / "case", truth, any_place(3))
    return case, run_case(case, planning=True)


def test_scans_say_what_the_teeth_say(plain, from_scans):
    """Guiding pairs, the slide and the graver findings are those of the teeth that were scanned."""
    _, found = from_scans
    wanted, seen = guiding(plain), guiding(found)
    for name, pairs in wanted.items():
        shared = set(pairs) & set(seen[name])
        assert sum(pair in shared for pair in pairs) >= 0.8 * len(pairs), name
    assert {tooth for stop in found.stops for tooth in (stop.tooth_upper, stop.tooth_lower)} >= {
        16, 46, 17, 47, 26, 36, 27, 37,
    }  # fmt: skip
    graver = [item for item in plain.findings if item.severity == "serious"]
    assert graver
    kinds = {(item.kind, item.excursion) for item in found.findings}
    assert {(item.kind, item.excursion) for item in graver} <= kinds


def test_openings_differ_by_what_the_scanner_adds(plain, from_scans):
    """Travel by travel, the jaw of the scans stands within 0.1 mm of that of the teeth."""
    _, found = from_scans
    for one, other in zip(plain.sweeps[:3], found.sweeps[:3], strict=True):
        travels = np.arange(0.5, 3.0, 0.5)
        heights = [
            np.interp(travels, sweep.travel_mm, sweep.incisal_point[:, 2]) for sweep in (one, other)
        ]
        assert np.abs(heights[0] - heights[1]).max() < 0.1


@pytest.mark.parametrize("seed", [8, 9])
def test_where_the_scans_lie_changes_nothing(truth, from_scans, tmp_path, seed):
    """Another rigid motion of the scan coordinates gives the same teeth, findings and words."""
    _, first = from_scans
    other = run_case(write_case(tmp_path / "again", truth, any_place(seed)), planning=True)
    assert other.findings
    assert [item.text for item in other.findings] == [item.text for item in first.findings]
    for side in ("upper", "lower"):
        one, two = (getattr(checkup, side) for checkup in (first, other))
        middles = [[tooth.centre for tooth in arch.teeth] for arch in (one, two)]
        assert np.array(middles[0]) == pytest.approx(np.array(middles[1]), abs=1e-9)
    for one, two in zip(first.sweeps, other.sweeps, strict=True):
        assert one.incisal_point == pytest.approx(two.incisal_point, abs=1e-9)
    overlaps = [checkup.scans.seating.as_scanned_mm for checkup in (first, other)]
    assert overlaps[0] == pytest.approx(overlaps[1], abs=1e-9)


def test_the_report_tells_of_the_scans(from_scans):
    """Files, mounting, seating, records and doubts stand in a section of their own.

    Marks found in the mouth stand on the page for the chair.
    """
    case, found = from_scans
    marks = (ComparedMarks("MI", (16,), (), (17,), ()),)
    page = html_report(replace(found, centric=two_records(0.4), marks=marks), case_words(case))
    assert page.index("Check list at the chair") < page.index("Marks found in the mouth")
    assert "<b>Casts and mouth differ.</b>" in page
    for words in (
        "Scans, mounting and bite",
        "upper.obj",
        "lower.ply",
        "The hinge frame was given as a transform",
        "Maximal intercuspation (MI) is the bite in which the casts were scanned.",
        "known from the first of 2 records of it",
        "The largest difference is 0.40 mm, more than the scatter",
        "What these scans cannot tell",
        "The teeth of this case were read from scans",
    ):
        assert words in page, words
    assert str(case.scans.upper) not in page  # no folder of this machine


def test_a_record_says_what_the_same_slide_in_numbers_says(from_scans):
    """A record made from the slide gives the same findings; a second one is told with its scatter.

    The result file says what was derived, and no longer the number it takes the place of.
    """
    case, plain = from_scans
    guidance, hinge = prepare(case.guidance), inverse(any_place(3))
    off = pose_of(np.eye(3), np.array([0.4, 0.0, 0.0]))
    made = [record_of(guidance, case.mi, hinge, np.eye(4), 0.05, by) for by in (None, off)]
    scans = replace(case.scans, centric_records=tuple(map(rows, made)))
    case = replace(case, scans=scans)
    found = run_case(case, planning=True)
    (differ,) = (item for item in found.findings if item.kind == "centric records differ")
    assert "0.40 mm forward" in differ.text
    others = [item for item in found.findings if item is not differ]
    assert [(item.kind, item.text) for item in others] == [
        (item.kind, item.text) for item in plain.findings
    ]
    document = findings_document(case, found, ())
    assert document["maximal_intercuspation"]["advance_right_mm"] == pytest.approx(0.3, abs=1e-6)
    assert "maximal_intercuspation" not in document["case"]
    assert document["centric_records"]["others"][0]["condyle_left_mm"] == pytest.approx([0.4, 0, 0])


def test_a_case_of_scans_says_nothing_of_built_in_teeth(tmp_path, truth):
    """Settings of the built-in teeth beside scans are refused, not passed over."""
    write_case(tmp_path / "case", truth, np.eye(4))
    path = tmp_path / "case" / "case.toml"
    path.write_text(path.read_text() + "[dentition]\noverbite_mm = 3.0\n")
    with pytest.raises(InputError, match="dentition is about the built-in teeth"):
        read_case(path)
    write_case(tmp_path / "chart", truth, np.eye(4))
    path = tmp_path / "chart" / "case.toml"
    path.write_text(path.read_text() + "[dentition]\nmissing = [18, 28, 36]\n")
    with pytest.raises(InputError, match=r"teeth that are labelled on them.*leave it out"):
        read_case(path)


def test_marks_on_teeth_that_the_scan_lacks_are_refused(tmp_path, truth):
    """What the scans hold is known only when they are read; the tooth is named then."""
    case = write_case(tmp_path / "case", truth, np.eye(4))
    marks = (ObservedMarks("CR", (16,)), ObservedMarks("MI", (18,), (38,)))
    says = (
        r"(?s)^observed_marks\[1\]: tooth 18: the upper arch has 17, 16.*\n"
        r"observed_marks\[1\]: tooth 38: the lower arch has 47, 46"
    )
    with pytest.raises(InputError, match=says):
        teeth_for(replace(case, observed_marks=marks), silent)


def test_a_base_on_teeth_that_the_scan_lacks_is_refused(tmp_path, truth):
    """The tooth is named, with those there are."""
    case = write_case(tmp_path / "case", truth, np.eye(4))
    bases = tuple(replace(base, abutments=(18,)) for base in case.denture_bases)
    says = "^denture base 'upper right base': tooth 18: the upper arch has 17, 16"
    with pytest.raises(InputError, match=says):
        teeth_for(replace(case, denture_bases=bases), silent)


def test_a_new_case_runs_as_it_is_written(tmp_path, truth):
    """Labelled scans find their landmarks; the folder holds copies and a case that can be read."""
    write_case(tmp_path / "given", truth, any_place(4))
    files = ScanFiles(
        upper=str(tmp_path / "given" / "upper.obj"), lower=str(tmp_path / "given" / "lower.ply")
    )
    begun = new(tmp_path / "made", files, silent)
    assert begun.ready
    assert {path.name for path in (tmp_path / "made").iterdir()} == {
        "case.toml", "upper.obj", "lower.ply", "upper_labels.json",
    }  # fmt: skip
    case = read_case(tmp_path / "made" / "case.toml")
    teeth = teeth_for(case, silent)
    path = tmp_path / "made" / "case.toml"
    signs = r"^# (?=centric_records|\[\[observed|movement|marked|unmarked)"
    text = re.sub(signs, "", path.read_text("utf-8"), flags=re.MULTILINE)
    path.write_text(text, "utf-8")
    with pytest.raises(InputError, match="both say where maximal intercuspation lies"):
        read_case(path)
    table = r"\[maximal_intercuspation\].*?(?=\n\[judging)"
    path.write_text(re.sub(table, "", text, flags=re.DOTALL), "utf-8")
    filled = read_case(path)
    assert filled.mi.in_cr  # its line is a place for a record, as yet in the bite
    assert filled.observed_marks == (ObservedMarks("MI", (16, 46), (27,)),)
    assert teeth.scans.mounting == "mean values"
    assert 80.0 < np.hypot(teeth.incisal_point[0], teeth.incisal_point[2]) < 100.0
    with pytest.raises(InputError, match="is not empty, and nothing in it is replaced"):
        new(tmp_path / "made", files, silent)


def test_a_new_case_without_labels_says_what_is_left_to_do(tmp_path, truth):
    """It is written all the same; running it is refused with the ways to give labels."""
    write_case(tmp_path / "given", truth, any_place(4))
    (tmp_path / "given" / "upper.json").unlink()
    files = ScanFiles(
        upper=str(tmp_path / "given" / "upper.obj"), lower=str(tmp_path / "given" / "lower.ply")
    )
    begun = new(tmp_path / "made", files, silent)
    assert not begun.ready
    told = {line.split(":")[0]: line for line in begun.lines}
    assert "nothing says which triangle belongs to which tooth in upper.obj" in told["teeth"]
    assert told["teeth"].endswith("takes lists with --upper-labels")
    assert "[scans.mounting]" in told["mounting"]
    scans, mounting = (tmp_path / "made" / "case.toml").read_text("utf-8").split("[scans.mounting]")
    assert '# upper_labels = "upper_labels.json"' in scans and "# lower_labels" not in scans
    assert "--upper-labels" in scans and "which tooth" not in mounting
    with pytest.raises(InputError, match="says nothing yet about where the hinge axis lies") as no:
        read_case(tmp_path / "made" / "case.toml")
    assert "2 faults" in str(no.value)
    assert "scans.upper_labels: missing" in str(no.value)


@pytest.mark.parametrize(
    ("height_mm", "says"),
    [(1.6, "stand in each other: the jaw would stay"), (-1.6, "do not meet: the jaw would close")],
)
def test_scans_that_are_in_no_bite_are_refused(tmp_path, truth, height_mm, says):
    """Casts pushed into each other, or held apart, are not closed as if nothing were wrong."""
    case = write_case(tmp_path / "case", truth, np.eye(4))
    off = np.eye(4)
    off[2, 3] = height_mm
    scans = replace(case.scans, scan_from_lower=tuple(map(tuple, off.tolist())))
    with pytest.raises(InputError, match=says):
        teeth_for(replace(case, scans=scans), silent)
