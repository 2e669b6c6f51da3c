"""The case of a long centric: the jaw closes anywhere between CR and MI, at one height."""

import tomllib
from dataclasses import replace
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from pydantic import ValidationError

from kinematics.contact.closure import close
from kinematics.contact.workers import Workers
from kinematics.guidance.excursions import along, greatest_progress, retrusion
from kinematics.guidance.mandible import opened, place
from kinematics.mounting import mounted_casts
from kinematics.planning.slide import CONTACT_AREA, LEVEL_MM, SLIDE
from kinematics.teeth.generated_path import formed
from scenes.builtin_cases import builtin_case
from tests.shipped_cases import kind_in, run_case

PUBLISHED = tomllib.loads(
    (Path(__file__).parent / "published" / "contacts.toml").read_text(encoding="utf-8")
)["long_centric"]
NAME = "long_centric"


@cache
def checked():
    """Run the case as it is shipped."""
    return run_case(builtin_case(NAME))


def test_the_way_from_cr_to_mi_is_level():
    """Of published length, without change of height, and told so."""
    slide = checked().slide
    low, high = PUBLISHED["length_mm"]
    assert low < slide.length_mm < high
    assert slide.kind == CONTACT_AREA
    assert slide.height_range_mm < 0.25 * LEVEL_MM
    assert "long centric" in next(
        finding.text for finding in checked().findings if finding.kind == CONTACT_AREA
    )


def test_back_teeth_of_both_sides_hold_the_jaw_all_the_way():
    """In every pose of the retrusion, within the contact tolerance."""
    back = next(sweep for sweep in checked().sweeps if sweep.excursion.name == "retrusion")
    for pose in range(len(back.travel_mm)):
        uppers = set(back.patches.tooth_upper[back.patches.pose == pose])
        assert {16, 17} & uppers and {26, 27} & uppers, (pose, uppers)


def test_nothing_else_suffers():
    """Stops on both sides in MI, canine and incisal guidance, nothing that asks for attention."""
    result = checked()
    for first in (1, 2):
        assert {s.tooth_upper for s in result.stops if s.tooth_upper // 10 == first} >= {
            10 * first + number for number in (5, 6, 7)
        }
    assert kind_in(result, "left lateral") == kind_in(result, "right lateral") == "canine"
    assert kind_in(result, "protrusion") == "anterior"
    assert {finding.severity for finding in result.findings} == {"note"}


def test_unformed_teeth_slide():
    """The same casts before they were formed meet on inclines in CR and change height."""
    result = run_case(replace(builtin_case(NAME), generated_path=None))
    assert result.slide.kind == SLIDE
    assert result.slide.height_range_mm > 5.0 * LEVEL_MM


def test_between_the_poses_it_was_formed_in_nothing_stands_in_the_way():
    """At 60 seeded places between CR and MI teeth meet at the level of MI, to 10 micrometres."""
    casts = mounted_casts(builtin_case(NAME))
    start = replace(casts.mi, opening_rad=0.0)
    last = greatest_progress(casts.guidance, retrusion(), start)
    progress = np.sort(np.random.default_rng(20261128).uniform(0.0, last, 60))
    positions = place(casts.guidance, *along(casts.guidance, retrusion(), start, progress))
    met = close(casts.pair, positions.pose_at_zero)
    poses = opened(positions, met.opening_rad)
    height = (poses @ np.append(casts.incisal_point, 1.0))[:, 2]
    drop_mm = casts.incisal_point_in_mi[2] - height
    assert np.abs(drop_mm).max() < 0.01


def test_a_retrusion_that_goes_nowhere_is_refused():
    """Where MI is CR there is no way between them to be formed by."""
    case = builtin_case(NAME)
    with pytest.raises(ValidationError, match="both are one position here"):
        replace(
            case,
            maximal_intercuspation=replace(
                case.maximal_intercuspation, advance_right_mm=0.0, advance_left_mm=0.0
            ),
        )


def test_any_number_of_threads_forms_the_same_teeth():
    """To the last bit."""
    case = builtin_case(NAME)
    coarse = replace(case.dentition, triangles_per_arch=12_000)
    casts = mounted_casts(replace(case, dentition=coarse, generated_path=None))
    one, two = (formed(casts, case.generated_path, Workers(n)).upper.mesh.vertices for n in (1, 2))
    np.testing.assert_array_equal(one, two)
