"""Records of centric relation: the slide they were made from comes back, so does their scatter."""

import json
import math
import tomllib
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

from kinematics.case import Case
from kinematics.case_changes import ChangesRefused, changed_case
from kinematics.case_excursions import excursions_of
from kinematics.case_file import case_toml, parse_case
from kinematics.case_mi import MaximalIntercuspation
from kinematics.checks import Contradictions, InputError
from kinematics.geometry.poses import opening_rotation, pose_of
from kinematics.guidance.guidance import prepare
from kinematics.guidance.mandible import GuidanceCoordinates
from kinematics.guidance.settings import GuidanceSettings, SideGuidance
from kinematics.mounting import same_teeth
from kinematics.planning.centric_findings import SCATTER_SOURCE, centric_finding
from kinematics.planning.judging import JudgingSettings
from kinematics.scans.centric_records import centric_records, place_by_record
from scenes.centric_words import centric_words
from scenes.page_controls import hidden_controls
from tests.jaw_strategies import MIRROR, mirrored_coordinates, mirrored_settings
from tests.made_records import INCISAL, record_of, rows, settings_of, two_records
from tests.scanner_like import any_place

PUBLISHED = tomllib.loads((Path(__file__).parent / "published" / "scans.toml").read_text("utf-8"))
SEEDS = range(60)


def any_jaw(seed):
    """Return guidance settings and a place of MI that they allow."""
    rng = np.random.default_rng(seed)
    sides = [
        SideGuidance(
            condylar_inclination_deg=rng.uniform(15, 60),
            path=str(rng.choice(["straight", "curved"])),
            progressive_shift_deg=rng.uniform(3, 15),
            fischer_deg=rng.uniform(-5, 8),
            immediate_shift_mm=rng.choice([0.0, 0.8]),
        )
        for _ in range(2)
    ]
    given = GuidanceSettings(right=sides[0], left=sides[1])
    given = replace(given, intercondylar_distance_mm=rng.uniform(90, 120))
    common, excess = rng.uniform(0, 2), rng.choice([0.0, rng.uniform(0.05, 1.5)])
    right_leads = bool(rng.integers(2))
    leading = sides[0] if right_leads else sides[1]
    shift = rng.choice([0.0, rng.uniform(0.1, 0.9)]) * leading.immediate_shift_mm
    ahead = (common + excess, common)
    right, left = ahead if right_leads else ahead[::-1]
    return given, GuidanceCoordinates(right, left, shift if right_leads else -shift, 0.0)


def held_open(seed):
    """Return an opening, radians: 0 to 6 mm at the lower incisal point."""
    return np.random.default_rng(seed + 900).uniform(0.0, 6.0) / math.hypot(INCISAL[0], INCISAL[2])


@pytest.mark.parametrize("seed", SEEDS)
def test_the_slide_comes_back(seed):
    """Whatever guidance, record opening and coordinates: advances and shift to 1e-6 mm."""
    given, mi = any_jaw(seed)
    guidance, hinge, bite = prepare(given), any_place(seed), any_place(seed + 500)
    opening = held_open(seed)
    scans = settings_of(hinge, bite, record_of(guidance, mi, hinge, bite, opening))
    found = Case(guidance=given, scans=scans).mi
    for name in ("advance_right_mm", "advance_left_mm", "shift_mm"):
        assert getattr(found, name) == pytest.approx(getattr(mi, name), abs=1e-6), name
    assert found.residual_mm < 1e-6
    read = centric_records(scans, guidance, INCISAL)
    assert read.place.held_open_deg == pytest.approx(math.degrees(opening), abs=1e-6)
    chord = np.linalg.norm((opening_rotation(opening)[:3, :3] - np.eye(3)) @ INCISAL)
    assert read.held_open_mm == pytest.approx(chord, abs=1e-6)
    assert read.others == ()


@pytest.mark.parametrize("seed", range(20))
def test_a_mirrored_record_mirrors_the_answer(seed):
    """Sides change places, the shift its sign; so does what a record says that is off."""
    given, mi = any_jaw(seed)
    hinge, bite = any_place(seed), any_place(seed + 500)
    off = pose_of(np.eye(3), np.random.default_rng(seed).uniform(-0.3, 0.3, 3))
    records = [
        record_of(prepare(given), mi, hinge, bite, held_open(seed), moved)
        for moved in (off, np.eye(4))
    ]
    ours = settings_of(hinge, bite, *records)
    theirs = settings_of(*(MIRROR @ pose @ MIRROR for pose in (hinge, bite, *records)))
    one = centric_records(ours, prepare(given), INCISAL)
    two = centric_records(theirs, prepare(mirrored_settings(given)), INCISAL * [1, -1, 1])
    swapped = mirrored_coordinates(two.place.mi)
    for name in ("advance_right_mm", "advance_left_mm", "shift_mm"):
        assert getattr(swapped, name) == pytest.approx(getattr(one.place.mi, name), abs=1e-7)
    flip = np.array([1, -1, 1])
    assert one.place.beside_right_mm == pytest.approx(flip * two.place.beside_left_mm, abs=1e-7)
    first, second = one.others[0], two.others[0]
    assert first.condyle_left_mm == pytest.approx(flip * second.condyle_right_mm, abs=1e-8)
    assert first.incisal_mm == pytest.approx(flip * second.incisal_mm, abs=1e-8)


@pytest.mark.parametrize("seed", SEEDS)
def test_planted_scatter_is_found(seed):
    """A record off by a known motion differs by it at condyles and incisal point, however open."""
    rng = np.random.default_rng(seed)
    given, mi = any_jaw(seed)
    guidance, hinge, bite = prepare(given), any_place(seed), any_place(seed + 500)
    turn = Rotation.from_rotvec(rng.normal(0.0, 0.004, 3) * (seed % 3 > 0))
    move = rng.normal(0.0, 0.2, 3)
    first = record_of(guidance, mi, hinge, bite, held_open(seed))
    other = record_of(
        guidance, mi, hinge, bite, held_open(seed + 1), pose_of(turn.as_matrix(), move)
    )
    (found,) = centric_records(settings_of(hinge, bite, first, other), guidance, INCISAL).others
    half = guidance.half_distance_mm
    for side, seen in ((-half, found.condyle_right_mm), (half, found.condyle_left_mm)):
        seat = np.array([0.0, side, 0.0])
        assert seen == pytest.approx(turn.apply(seat) + move - seat, abs=1e-7)
    # Closed to one opening: of the turn, only that of the axis is left, without any about it.
    axis = turn.apply([0.0, 1.0, 0.0])
    cross = np.cross([0.0, 1.0, 0.0], axis)
    size = np.linalg.norm(cross)
    tilt = Rotation.from_rotvec(cross * (math.asin(size) / size if size > 0.0 else 0.0))
    assert found.incisal_mm == pytest.approx(tilt.apply(INCISAL) + move - INCISAL, abs=1e-7)
    assert found.number == 2
    if seed % 3 == 0:
        assert found.largest_mm == pytest.approx(np.linalg.norm(move), abs=1e-7)


def test_scatter_beyond_the_setting_is_a_finding_that_says_what_to_do():
    """It names record, place and way, and a scatter that would hold it; a smaller one is none."""
    records = two_records(0.412)
    found = centric_finding(records, JudgingSettings(record_scatter_mm=0.3))
    assert found.severity == "attention"
    for words in (
        "Centric record 2 stands 0.41 mm from the first at the right condyle (0.41 mm forward)",
        "take centric relation again, or set record_scatter_mm to at least 0.42 mm.",
    ):
        assert words in found.text
    assert centric_finding(records, JudgingSettings(record_scatter_mm=0.42)) is None
    assert centric_finding(two_records(0.0), JudgingSettings()) is None


def test_the_source_says_what_was_published():
    """Technique and material scatter stand in the source as printed."""
    given = PUBLISHED["record_scatter"]
    mean, spread = given["between_techniques_mm"]
    least, most = given["between_materials_mm"]
    assert f"{mean:.2f} ± {spread:.2f} mm between techniques" in SCATTER_SOURCE
    assert f"{least:.2f} to {most:.2f} mm between materials" in SCATTER_SOURCE


def test_the_report_tells_place_opening_and_agreement():
    """In words: advances, shift, what does not fit, how open, and every further record."""
    words = centric_words(two_records(0.412), 0.3)
    told = " ".join(words.place)
    assert "the right condyle advances 0.40 mm along its path and the left one 0.40 mm" in told
    assert "without a shift to the side" in told
    assert "held the jaw 1.7° more open than in MI, that is 2.71 mm" in told
    assert "fits the paths that are set within 10 µm" in told
    row = ("record 2, lower incisal point", "0.41 mm forward", "0.41 mm")
    assert words.scatter.rows[2] == row
    assert "The largest difference is 0.41 mm, more than the scatter" in words.agreement
    assert (
        "One record cannot tell"
        in centric_words(replace(two_records(0.0), others=()), 0.3).agreement
    )


def case_with(mi=None, off=None, opening_rad=0.03, **more):
    """Return a case whose record was made on the default guidance, off by a motion."""
    mi = mi or GuidanceCoordinates(0.4, 0.4, 0.0, 0.0)
    guidance = prepare(GuidanceSettings())
    hinge, bite = any_place(1), any_place(2)
    record = record_of(guidance, mi, hinge, bite, opening_rad, off)
    return Case(scans=settings_of(hinge, bite, record), **more)


def aside(*vector):
    """Return a motion that only moves."""
    return pose_of(np.eye(3), np.array(vector))


@pytest.mark.parametrize(
    ("given", "says"),
    [
        ({"off": aside(0, 1.3, 0)}, r"centric_records\[0\]: .* by 1\.\d+ mm .* immediate_shift_mm"),
        ({"off": aside(2.5, 0, 0)}, "backward .* the condyles were not seated in the record"),
        ({"mi": GuidanceCoordinates(6, 6, 0, 0)}, r"right condyle 6\.00 mm ahead .* protrusive"),
        ({"opening_rad": 0.4}, "holds the jaw 22.9 degrees open; accepted are -2 to 15"),
        ({"opening_rad": -0.1}, "5.7 degrees closed beyond maximal intercuspation"),
        (
            {"maximal_intercuspation": MaximalIntercuspation(0.5, 0.5)},
            "maximal_intercuspation and scans.centric_records both say .* leave one of them out",
        ),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_with_advice(given, says):
    """The message says which record, what was found, what is accepted and what to look at."""
    with pytest.raises(ValueError, match=says) as refused:
        case_with(**given)
    assert isinstance(refused.value.errors()[0]["ctx"]["error"], Contradictions)


def test_a_record_that_is_no_rigid_motion_is_refused():
    """A mirrored or stretched one is named by its place in the list."""
    hinge, bite = any_place(1), any_place(2)
    for bad in (np.diag([1.0, -1.0, 1.0, 1.0]), np.diag([1.01, 1.0, 1.0, 1.0])):
        scans = settings_of(hinge, bite, bite, bite @ bad)
        with pytest.raises(InputError, match=r"scans\.centric_records\[1\]: not a rigid motion"):
            place_by_record(scans, prepare(GuidanceSettings()))
    six = f"[scans]\nupper='u.stl'\nlower='l.stl'\ncentric_records={json.dumps([rows(bite)] * 6)}"
    with pytest.raises(InputError, match=r"centric_records.*0 to 5 entries long"):
        parse_case(six + f"\n[scans.mounting]\nhinge_from_scan={json.dumps(rows(hinge))}", "x")


@pytest.mark.parametrize("given", ["", "advance_right_mm = 0.3", "advance_left_mm = 0.7"])
def test_mi_in_numbers_beside_a_record_is_refused_whatever_they_are(given):
    """Also at their defaults, which nobody sees are passed over; told once, with other faults."""
    case = case_with()
    text = case_toml(case)
    assert parse_case(text, "x") == case
    table = f"\n[maximal_intercuspation]\n{given}\n"
    with pytest.raises(InputError, match="both say where") as alone:
        parse_case(text + table, "x")
    assert str(alone.value).startswith("x: 1 fault\n")
    with pytest.raises(InputError, match="both say where") as more:
        parse_case(text + table + "[judging]\nscheme = 'none'\n", "x")
    assert str(more.value).startswith("x: 2 faults\n")


def test_a_record_in_the_bite_says_that_cr_is_mi():
    """Then there are no excursions from CR, as where the slide is set to nothing."""
    in_cr = case_with(GuidanceCoordinates(0, 0, 0, 0), opening_rad=0.0)
    assert in_cr.mi.in_cr
    assert excursions_of(in_cr) == excursions_of(
        Case(maximal_intercuspation=MaximalIntercuspation(0.0, 0.0))
    )
    records = centric_records(in_cr.scans, prepare(in_cr.guidance), INCISAL)
    told = " ".join(centric_words(records, 0.3).place)
    assert "Is it a record of CR, and not the bite itself?" in told
    assert "held the jaw as far open as it is in MI" in told


def test_case_file_and_page_know_that_mi_is_recorded():
    """A case of records survives its file; the page hides what they decide and refuses it."""
    case = case_with()
    assert parse_case(case_toml(case), "x") == case
    assert {name for name in hidden_controls(case) if name.startswith("maximal")} == {
        "maximal_intercuspation.advance_side_mm", "maximal_intercuspation.shift_mm",
    }  # fmt: skip
    assert not [name for name in hidden_controls(Case()) if name.startswith("maximal")]
    with pytest.raises(ChangesRefused, match="both say where") as refused:
        changed_case(case, {"maximal_intercuspation.advance_right_mm": 1.0})
    assert refused.value.keys == ("maximal_intercuspation.advance_right_mm",)
    steeper = changed_case(case, {"guidance.right.condylar_inclination_deg": 45.0})
    assert 0.0 < steeper.mi.residual_mm < 0.1  # found anew along the path that is set


def test_moved_guidance_leaves_the_teeth_of_a_record_as_they_are():
    """Scans are not read anew when a condylar path is set otherwise, though MI lies otherwise."""
    case = case_with()
    steeper = changed_case(case, {"guidance.right.condylar_inclination_deg": 45.0})
    assert steeper.mi != case.mi
    assert same_teeth(case, steeper)
    other = replace(case, scans=replace(case.scans, allowance_um=10.0))
    assert not same_teeth(case, other)


def test_the_report_tells_what_does_not_fit():
    """A condyle that the record puts beside its path is told with the way it lies off."""
    case = case_with(off=aside(0.0, 0.3, 0.0))
    records = centric_records(case.scans, prepare(case.guidance), INCISAL)
    told = " ".join(centric_words(records, 0.3).place)
    assert "beside the paths that are set: the right condyle by" in told
    assert all(
        seen[1] < -0.25 for seen in (records.place.beside_right_mm, records.place.beside_left_mm)
    )
    assert "0.28 mm to the right" in told
