"""Built-in cases about guidance: what each is to teach, and one change that undoes it."""

from dataclasses import replace
from functools import cache

import numpy as np
import pytest

from kinematics import checkup
from scenes.builtin_cases import builtin_case


def _coarse(name):
    case = builtin_case(name)
    return replace(case, dentition=replace(case.dentition, triangles_per_arch=15_000))


def _run(case):
    return checkup.run(case, progress=lambda _: None)


@cache
def _shipped(name):
    return _run(_coarse(name))


def _teeth(name, **changes):
    case = _coarse(name)
    return _run(replace(case, dentition=replace(case.dentition, **changes)))


def _inclined(name, right_deg, left_deg):
    case = _coarse(name)
    given = case.guidance
    right = replace(given.right, condylar_inclination_deg=right_deg)
    left = replace(given.left, condylar_inclination_deg=left_deg)
    return _run(replace(case, guidance=replace(given, right=right, left=left)))


def _kind(result, name):
    return next(v.kind for v in result.verdicts if v.excursion == name)


def _pose(result, name, travel_mm):
    sweep = next(s for s in result.sweeps if s.excursion.name == name)
    return sweep, int(np.abs(sweep.travel_mm - travel_mm).argmin())


def _gap_mm(result, name, travel_mm, upper):
    """Return the shortest distance of an upper tooth from the lower arch at a travel, mm."""
    sweep, pose = _pose(result, name, travel_mm)
    return float(sweep.pair_gap_mm[pose, sweep.upper_codes.index(upper)].min())


def _serious(result):
    return {(f.tooth_upper, f.tooth_lower) for f in result.findings if f.severity == "serious"}


def test_steep_and_flat_guidance_are_a_pair():
    """The first molar is parted at least twice as far in the steep case, at 3 mm of protrusion."""
    steep, flat = (
        _gap_mm(_shipped(name), "protrusion", 3.0, 26)
        for name in ("steep_guidance", "flat_guidance")
    )
    assert steep > 2.0 * flat
    assert _kind(_shipped("steep_guidance"), "left lateral") == "canine"
    assert _kind(_shipped("flat_guidance"), "left lateral") == "nonworking only"


def test_usual_settings_mend_flat_guidance():
    """Condylar paths of 35 degrees and the usual overbite bring the canine back."""
    case = _coarse("flat_guidance")
    natural = _coarse("natural_dentition")
    usual = _run(replace(case, guidance=natural.guidance, dentition=natural.dentition))
    assert _kind(usual, "left lateral") == "canine"


def test_a_deep_overbite_opens_the_jaw_more():
    """The incisal point drops at least 0.3 mm more in 2 mm of protrusion than at the usual bite."""
    drops = []
    for result in (_shipped("deep_overbite"), _teeth("deep_overbite", overbite_mm=2.1)):
        sweep, pose = _pose(result, "protrusion", 2.0)
        drops.append(sweep.incisal_point[0, 2] - sweep.incisal_point[pose, 2])
    assert drops[0] > drops[1] + 0.3
    assert _kind(_shipped("deep_overbite"), "protrusion") == "anterior"


def test_unequal_condyles_roll_the_jaw():
    """In protrusion the condyle on the steep path stands lower, and its molars part farther."""
    result = _shipped("unequal_condyles")
    sweep, pose = _pose(result, "protrusion", 3.0)
    right, left = sweep.positions.condyle_right[pose, 2], sweep.positions.condyle_left[pose, 2]
    assert right - left > 0.8
    right_gap, left_gap = (_gap_mm(result, "protrusion", 3.0, code) for code in (17, 27))
    assert left_gap > right_gap + 0.4
    assert _kind(result, "protrusion") == "one-sided anterior"


def test_equal_condyles_do_not_roll():
    """With 35 degrees on both sides both condyles go down alike."""
    result = _inclined("unequal_condyles", 35.0, 35.0)
    sweep, pose = _pose(result, "protrusion", 3.0)
    assert sweep.positions.condyle_right[pose, 2] == pytest.approx(
        sweep.positions.condyle_left[pose, 2], abs=1e-9
    )
    assert _kind(result, "protrusion") == "anterior"


def test_worn_canines_pass_guidance_on():
    """First molars of the working side and second molars of the other carry the jaw."""
    result = _shipped("worn_canines")
    assert _kind(result, "left lateral") != "canine"
    assert _serious(result) >= {(26, 36), (17, 47)}


def test_canines_that_are_not_worn_guide():
    """Without the wear nothing calls for attention."""
    result = _teeth("worn_canines", wear_canine_mm=0.0)
    assert _kind(result, "left lateral") == "canine"
    assert {finding.severity for finding in result.findings} == {"note"}


def test_the_nonworking_interference_is_named():
    """17 on 47 in left lateral excursion, and nothing else is serious."""
    result = _shipped("nonworking_interference")
    found = [finding for finding in result.findings if finding.severity == "serious"]
    assert [(f.kind, f.tooth_upper, f.tooth_lower, f.excursion) for f in found] == [
        ("nonworking interference", 17, 47, "left lateral")
    ]


def test_a_steeper_condyle_removes_the_interference():
    """With 35 degrees on the right the canine guides."""
    result = _inclined("nonworking_interference", 35.0, 35.0)
    assert not _serious(result)
    assert _kind(result, "left lateral") == "canine"


def test_the_centric_slide_begins_at_one_pair():
    """24 on 34 meet first in CR; the slide is about a millimetre, forward and up."""
    result = _shipped("centric_slide")
    slide = result.slide
    assert (slide.first_contact_upper, slide.first_contact_lower) == (24, 34)
    assert not slide.together
    assert slide.kind == "slide"
    assert np.hypot(slide.forward_mm, slide.up_mm) == pytest.approx(1.1, abs=0.25)
    deflects = [f for f in result.findings if f.kind == "deflective contact"]
    assert [(f.tooth_upper, f.tooth_lower) for f in deflects] == [(24, 34)]


def test_condyles_nearer_to_their_place_in_cr_slide_less():
    """Half the advance gives a slide at most 0.6 times as long."""
    case = _coarse("centric_slide")
    at = case.maximal_intercuspation
    half = replace(at, advance_right_mm=0.31, advance_left_mm=0.30)
    less = _run(replace(case, maximal_intercuspation=half)).slide
    assert less.forward_mm < 0.6 * _shipped("centric_slide").slide.forward_mm
