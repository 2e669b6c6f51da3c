"""`cuspway tracks`: what it prints, the case it writes, what it refuses, and what reports say."""

import json
import zipfile
from dataclasses import replace

import numpy as np
import pytest

from kinematics import checkup
from kinematics.case import Case
from kinematics.case_by_tracks import case_by_tracks
from kinematics.case_file import case_toml, parse_case, read_case
from kinematics.geometry.curves import displacement, measured_curve
from kinematics.geometry.poses import inverse, move_points
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import GuidanceCoordinates, pose_at
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.planning.finding_groups import finding_groups
from kinematics.planning.group_wording import group_sentence, next_steps
from kinematics.planning.tracked_settings import (
    AXIS_DIFFERS,
    SETTINGS_DIFFER_FROM_TRACKS,
    tracked_findings,
)
from kinematics.result_files import findings_document
from kinematics.tracks.from_tracks import found_in_tracks, placed_in
from kinematics.tracks.settings import JawTrack
from scenes import command_line
from scenes.page_report import Origin, write_case_file
from scenes.report import html_report
from scenes.settings_reference import settings_reference
from scenes.track_charts import measured_chart
from tests.made_excursion_records import poses_in, records_of, unlike
from tests.made_records import record_of, settings_of
from tests.made_tracks import POINTS, excursion_track, hinge_track, times, written
from tests.scanner_like import any_place
from tests.test_report import WORDS, Page

GIVEN = GuidanceSettings(
    right=SideGuidance(
        condylar_inclination_deg=41.0, path="curved", progressive_shift_deg=7.0,
        immediate_shift_mm=0.6,
    ),
    left=SideGuidance(condylar_inclination_deg=28.0, progressive_shift_deg=14.0),
)  # fmt: skip
FILES = {"protrusive": "p.csv", "right lateral": "r.csv", "left lateral": "l.csv"}
AXIS = np.array([0.6, 0.0, -0.9])


def case_in(folder, kinds=FILES, hinge=True, **more):
    """Write a case with exact tracks of guidance that it does not know, and return its file."""
    tracks = [JawTrack(file=FILES[k], kind=k, smoothed_before=True) for k in kinds]
    for kind in kinds:
        written(folder / FILES[kind], *excursion_track(GIVEN, kind, 9.0, times(1.2)))
    if hinge:
        tracks.append(JawTrack(file="h.csv", kind="hinge opening"))
        written(folder / "h.csv", *hinge_track(AXIS, [0.0, 1.0, 0.0], time_s=times(2.0)))
    case = Case(guidance=unlike(GIVEN), jaw_tracks=tuple(tracks), **more)
    path = folder / "case.toml"
    path.write_text(case_toml(case), "utf-8")
    return path


def run(capsys, *arguments):
    """Return exit code, output with single blanks, and complaints of the command."""
    code = command_line.main(["tracks", *map(str, arguments)])
    said = capsys.readouterr()
    return code, " ".join(said.out.split()), " ".join(said.err.split())


def test_it_tells_what_was_recorded_what_follows_and_what_is_left(tmp_path, capsys):
    """In this order, every number with its unit; nothing is written."""
    code, out, _ = run(capsys, case_in(tmp_path, ("protrusive", "left lateral")))
    assert code == 0
    order = (
        "What was recorded: 1, protrusive: p.csv: 121 rows, 1.2 s, 100 a second; poses; smoothed:"
        " before, to 6.0 Hz",
        "Hinge axis, from the axis of the case (forward, up): 3, turns: right forward 0.60 ±",
        "it turns about one axis, which moves by 0 µm at the condyles",
        "What follows: right condylar inclination: 41.0°, standard error",
        "right immediate shift: 0.60 mm, standard error",
        "What does not follow, and stays as set: left progressive shift (9.0°): No right lateral"
        " track moves the left condyle inward.",
        "What is left along the tracks: 1, protrusive: 0 µm root mean square of",
        "The case is set outside the intervals that the tracks give: right condylar inclination",
        "The path of the right condyle as",
        "off by 50 µm each way and by 0.20° about each axis at the teeth on either jaw",
    )
    places = [out.find(words) for words in order]
    assert -1 not in places, order[places.index(-1)]
    assert places == sorted(places)
    assert sorted(p.name for p in tmp_path.iterdir()) == ["case.toml", "h.csv", "l.csv", "p.csv"]


def test_the_case_written_has_what_follows(tmp_path, capsys):
    """Settings as made, their standard errors, and files named from its folder."""
    case_in(tmp_path)
    (tmp_path / "inner").mkdir()
    made = tmp_path / "inner" / "set.toml"
    code, out, _ = run(capsys, tmp_path, "--write", made)
    assert code == 0 and "Written to" in out
    assert '"../p.csv"' in made.read_text("utf-8")
    case = read_case(made)
    for side in ("right", "left"):
        found, want = getattr(case.guidance, side), getattr(GIVEN, side)
        for name in ("condylar_inclination_deg", "progressive_shift_deg", "immediate_shift_mm"):
            assert getattr(found, name) == pytest.approx(getattr(want, name), abs=1e-3)
        assert found.path == want.path
        spread = getattr(case.guidance_spread, side)
        assert 0.1 < spread.condylar_inclination_deg < 3.0
    # what was set lies within: nothing more to be done
    told = found_in_tracks(case.tracked, placed_in(case.tracked))
    assert all(estimate.holds_as_set for estimate in told.settings.estimates)
    code, _, err = run(capsys, tmp_path, "--write", made)
    assert code == 2 and "is there already, and no file is replaced" in err


def test_paths_are_written_as_points(tmp_path, capsys):
    """In place of inclination and curvature; shifts follow as before, and it can be read again."""
    made = tmp_path / "points.toml"
    code, _, _ = run(capsys, case_in(tmp_path), "--write", made, "--measured-paths")
    assert code == 0
    case = read_case(made)
    for side in ("right", "left"):
        found = getattr(case.guidance, side)
        assert found.path == "measured"
        reach = np.linspace(0.6, 8.5, 30)
        points = displacement(measured_curve(found.measured_points, "", 25.0), reach)
        true = displacement(getattr(prepare(GIVEN), side).path, reach)
        assert points == pytest.approx(true, abs=0.03)
        assert found.progressive_shift_deg == pytest.approx(
            getattr(GIVEN, side).progressive_shift_deg, abs=0.05
        )
        assert getattr(case.guidance_spread, side).condylar_inclination_deg is None
    code, out, _ = run(capsys, made)
    assert code == 0
    assert "the path is set as measured points, which say more" in out.lower()


def test_measured_paths_and_records_exclude_each_other(tmp_path, capsys):
    """Said with what to take out; nothing is written."""
    records = tuple(records_of(poses_in(GIVEN)))
    path = case_in(tmp_path, interocclusal_records=records)
    made = tmp_path / "points.toml"
    code, _, err = run(capsys, path, "--write", made, "--measured-paths")
    assert code == 2 and "take [[interocclusal_records]] out, or leave --measured-paths" in err
    assert not made.exists()


def test_what_cannot_be_done_is_refused(tmp_path, capsys):
    """No tracks, no file, nothing that follows, and points without a protrusive track."""
    empty = tmp_path / "empty.toml"
    empty.write_text('title = "None"\n', "utf-8")
    code, _, err = run(capsys, empty)
    assert code == 2 and "has no jaw_tracks; add them to the case file" in err
    path = case_in(tmp_path, ("left lateral",), hinge=False)
    code, _, err = run(capsys, path, "--measured-paths")
    assert code == 2 and "give --write FILE too" in err
    code, _, err = run(capsys, path, "--measured-paths", "--write", tmp_path / "new.toml")
    assert code == 2 and "no measured path follows: there is no protrusive track" in err
    path = case_in(tmp_path, (), hinge=True)
    code, _, err = run(capsys, path, "--write", tmp_path / "new.toml")
    assert code == 2 and "jaw_tracks: nothing follows that could be set" in err
    (tmp_path / "h.csv").unlink()
    code, _, err = run(capsys, path)
    assert code == 2 and "h.csv: there is no such file" in err
    assert not (tmp_path / "new.toml").exists()


FAULTS = {
    'kind = "sideways"': "jaw_tracks[0].kind",
    "bandwidth_hz = 100": "jaw_tracks[0].bandwidth_hz",
    "points_in_mi = [[1.0, 2.0, 3.0]]": "points_in_mi has 1 points; a track in points follows 3",
    "speed = 3": "jaw_tracks[0].speed: unknown key",
}


@pytest.mark.parametrize("line", FAULTS)
def test_faults_in_the_case_file_are_named(line):
    """By their key."""
    kind = "" if line.startswith("kind") else 'kind = "protrusive"\n'
    with pytest.raises(ValueError, match="1 fault") as refused:
        parse_case(f'[[jaw_tracks]]\nfile = "a.csv"\n{kind}{line}\n', "case.toml")
    assert FAULTS[line] in str(refused.value)


@pytest.mark.parametrize("seed", range(4))
def test_tracks_of_scans_say_the_same(tmp_path, seed):
    """In the coordinates of the upper scan, as transforms or as points from MI."""
    mi = GuidanceCoordinates(0.0, 0.0, 0.0, 0.0)
    hinge, bite = any_place(seed), any_place(seed + 40)
    scan_from_hinge = inverse(hinge)
    scans = settings_of(hinge, bite)
    mi_pose = pose_at(prepare(GIVEN), mi)
    tracks = []
    for kind, name in FILES.items():
        time_s, poses = excursion_track(GIVEN, kind, 9.0, times(1.2))
        moved = scan_from_hinge @ poses @ inverse(mi_pose) @ hinge
        in_points = kind == "protrusive"
        path = tmp_path / name
        if in_points:
            in_mi = move_points(scan_from_hinge, POINTS)
            written(path, time_s, moved @ scan_from_hinge, "points")
        else:
            written(path, time_s, moved @ bite, "transform")
        points = tuple(map(tuple, in_mi.tolist())) if in_points else ()
        tracks.append(
            JawTrack(file=str(path), kind=kind, smoothed_before=True, points_in_mi=points)
        )
    case = Case(guidance=unlike(GIVEN), scans=scans, jaw_tracks=tuple(tracks))
    case = replace(case, maximal_intercuspation=replace(
        case.maximal_intercuspation, advance_right_mm=0.0, advance_left_mm=0.0))  # fmt: skip
    told = found_in_tracks(case.tracked, placed_in(case.tracked))
    for estimate in told.settings.estimates:
        of = getattr(GIVEN, estimate.side)
        if estimate.quantity == "condylar inclination":
            assert estimate.value == pytest.approx(of.condylar_inclination_deg, abs=1e-4)
        if estimate.quantity == "progressive shift":
            assert estimate.value == pytest.approx(of.progressive_shift_deg, abs=1e-4)


@pytest.mark.parametrize("seed", range(4))
def test_tracks_of_scans_with_a_record_of_centric_relation(tmp_path, seed):
    """They begin in CR, whose place follows from the record; the casts go where the jaw was."""
    guidance, mi = prepare(GIVEN), GuidanceCoordinates(0.4, 0.3, 0.0, 0.0)
    hinge, bite = any_place(seed), any_place(seed + 60)
    record = record_of(guidance, mi, hinge, bite, 0.04)
    scans = settings_of(hinge, bite, record)
    mi_pose = pose_at(guidance, mi)
    tracks = []
    for kind, name in FILES.items():
        time_s, poses = excursion_track(GIVEN, kind, 9.0, times(1.2))
        moved = inverse(hinge) @ poses @ inverse(mi_pose) @ hinge @ bite
        written(tmp_path / name, time_s, moved, "transform")
        tracks.append(JawTrack(file=str(tmp_path / name), kind=kind, smoothed_before=True))
    case = Case(guidance=unlike(GIVEN), scans=scans, jaw_tracks=tuple(tracks))
    placed = placed_in(case.tracked)
    assert placed[2].hinge_from_lower(mi_pose) == pytest.approx(poses, abs=1e-6)
    told = found_in_tracks(case.tracked, placed)
    for estimate in told.settings.estimates:
        of = getattr(GIVEN, estimate.side)
        if estimate.quantity == "condylar inclination":
            assert estimate.value == pytest.approx(of.condylar_inclination_deg, abs=1e-4)
    assert max(track.misfit.largest_mm for track in told.tracks) < 1e-5


def test_reports_and_results_tell_of_tracks(tmp_path, example):
    """A section with its picture, linked from the top; all figures in findings.json, no rows."""
    case = read_case(case_in(tmp_path))
    told = found_in_tracks(case.tracked, placed_in(case.tracked))
    page = Page(html_report(replace(example, tracked=told), WORDS))
    assert "measured" in page.ids and "#measured" in page.addresses
    for words in (
        "Measured tracks",
        "What is left along the tracks.",
        "Hinge axis",
    ):
        assert words in page.text, words
    key = measured_chart(told.lines, "plane").key
    assert [label for _, label in key.entries] == [
        "protrusive, measured", "right lateral, measured", "left lateral, measured",
        "hinge opening, measured", "fitted guidance",
    ]  # fmt: skip
    document = findings_document(case, replace(example, tracked=told), [])
    text = json.dumps(document["jaw_tracks"])
    assert str(tmp_path) not in json.dumps(document)
    assert len(text) < 20_000 and "lines" not in document["jaw_tracks"]
    assert document["jaw_tracks"]["tracks"][0]["file"] == "p.csv"
    assert "jaw_tracks" not in findings_document(Case(), example, [])


def test_what_differs_from_the_tracks_is_a_finding(tmp_path):
    """Settings with their intervals, and an axis that is off; none where the case is set so."""
    case = read_case(case_in(tmp_path))
    told = found_in_tracks(case.tracked, placed_in(case.tracked))
    settings, axis = tracked_findings(told)
    assert (settings.kind, axis.kind) == (SETTINGS_DIFFER_FROM_TRACKS, AXIS_DIFFERS)
    for words in (
        "the right condylar inclination is set to 35.0 degrees (by the tracks 3",
        "set what the tracks give (cuspway tracks with --write)",
    ):
        assert words in settings.text, settings.text
    assert "beside the right condyle they pass each other by 1.08 mm (+0.60 ±" in axis.text
    groups = finding_groups((settings, axis), ())
    assert {group_sentence(group)[:30] for group in groups} and len(groups) == 2
    assert any("measured tracks" in step for step in next_steps(groups))
    set_so = case_by_tracks(case, placed_in(case.tracked), told, as_points=False).case
    again = found_in_tracks(set_so.tracked, placed_in(set_so.tracked))
    assert [finding.kind for finding in tracked_findings(again)] == [AXIS_DIFFERS]
    assert not list(tracked_findings(replace(again, axes=())))


def test_a_whole_run_takes_them_along(tmp_path):
    """From the case to its findings: section, findings and the casts along the tracks."""
    case = replace(read_case(case_in(tmp_path)), lateroprotrusion_azimuths_deg=())
    result = checkup.run(case, progress=lambda _: None)
    assert {SETTINGS_DIFFER_FROM_TRACKS, AXIS_DIFFERS} <= {f.kind for f in result.findings}
    assert [track.kind for track in result.driven] == [*FILES, "hinge opening"]
    assert all(len(track.gap_mm) for track in result.driven)
    document = findings_document(case, result, [])
    assert len(document["casts_along_tracks"]) == 4
    json.dumps(document, allow_nan=False)


def test_a_case_that_the_page_hands_over_has_its_tracks(tmp_path):
    """As one archive, which can be unpacked and run anywhere."""
    case = read_case(case_in(tmp_path))
    write_case_file(case, tmp_path, Origin("given", case))
    (made,) = tmp_path.glob("*.zip")
    with zipfile.ZipFile(made) as archive:
        archive.extractall(tmp_path / "elsewhere")
    for file in ("case.toml", "p.csv", "r.csv", "l.csv", "h.csv"):
        (tmp_path / file).unlink()
    again = read_case(next((tmp_path / "elsewhere").rglob("case.toml")))
    assert [track.kind for track in again.jaw_tracks] == [*FILES, "hinge opening"]
    assert len(found_in_tracks(again.tracked, placed_in(again.tracked)).settings.estimates) == 8


def test_every_key_is_described():
    """In the settings reference."""
    text = settings_reference()
    for key in ("[[jaw_tracks]]", "bandwidth_hz", "smoothed_before", "points_in_mi"):
        assert key in text
