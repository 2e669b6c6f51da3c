"""Built-in cases about guidance: what each is to teach, and one change that undoes it."""

from dataclasses import replace

import numpy as np
import pytest

from tests.shipped_cases import coarse, kind_in, run_case, shipped, with_teeth


def _inclined(name, right_deg, left_deg):
    case = coarse(name)
    given = case.guidance
    right = replace(given.right, condylar_inclination_deg=right_deg)
    left = replace(given.left, condylar_inclination_deg=left_deg)
    return run_case(replace(case, guidance=replace(given, right=right, left=left)))


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
        _gap_mm(shipped(name), "protrusion", 3.0, 26)
        for name in ("steep_guidance", "flat_guidance")
    )
    assert steep > 2.0 * flat
    assert kind_in(shipped("steep_guidance"), "left lateral") == "canine"
    assert kind_in(shipped("flat_guidance"), "left lateral") == "nonworking only"


@pytest.mark.parametrize("name", ["steep_guidance", "flat_guidance"])
def test_the_condyles_alone_change_the_pair(name):
    """With 35 degrees back teeth part less than in the steep case and more than in the flat one."""
    usual = _gap_mm(_inclined(name, 35.0, 35.0), "protrusion", 3.0, 26)
    shown = _gap_mm(shipped(name), "protrusion", 3.0, 26)
    assert usual < shown - 0.1 if name == "steep_guidance" else usual > shown + 0.1


def test_a_deep_overbite_opens_the_jaw_more():
    """The incisal point drops at least 0.3 mm more in 2 mm of protrusion than at the usual bite."""
    drops = []
    for result in (shipped("deep_overbite"), with_teeth("deep_overbite", overbite_mm=2.1)):
        sweep, pose = _pose(result, "protrusion", 2.0)
        drops.append(sweep.incisal_point[0, 2] - sweep.incisal_point[pose, 2])
    assert drops[0] > drops[1] + 0.3
    # As steep as two overbites differ: the way down a longer, steeper lingual surface.
    steep, usual = (np.degrees(np.arctan2(drop, 2.0)) for drop in drops)
    assert steep > usual + 5.0
    assert kind_in(shipped("deep_overbite"), "protrusion") == "anterior"


def test_unequal_condyles_roll_the_jaw():
    """In protrusion the condyle on the steep path stands lower, and its molars part farther."""
    result = shipped("unequal_condyles")
    sweep, pose = _pose(result, "protrusion", 3.0)
    right, left = sweep.positions.condyle_right[pose, 2], sweep.positions.condyle_left[pose, 2]
    assert right - left > 0.8
    right_gap, left_gap = (_gap_mm(result, "protrusion", 3.0, code) for code in (17, 27))
    assert left_gap > right_gap + 0.4
    assert kind_in(result, "protrusion") == "one-sided anterior"


def test_equal_condyles_do_not_roll():
    """With 35 degrees on both sides both condyles go down alike."""
    result = _inclined("unequal_condyles", 35.0, 35.0)
    sweep, pose = _pose(result, "protrusion", 3.0)
    assert sweep.positions.condyle_right[pose, 2] == pytest.approx(
        sweep.positions.condyle_left[pose, 2], abs=1e-9
    )
    right_gap, left_gap = (_gap_mm(result, "protrusion", 3.0, code) for code in (17, 27))
    assert right_gap == pytest.approx(left_gap, abs=1e-9)
    assert kind_in(result, "protrusion") == "anterior"


def _kinds(result, name):
    """Return the guidance kind within 20 micrometres at each reading position beyond the start."""
    verdict = next(v for v in result.verdicts if v.excursion == name)
    return {
        reading.travel_mm: reading.kind
        for reading in verdict.readings
        if reading.tolerance_mm == pytest.approx(0.02) and reading.travel_mm > 0.0
    }


@pytest.mark.parametrize(("name", "first"), [("left lateral", 2), ("right lateral", 1)])
def test_guidance_of_worn_canines_passes_to_the_group(name, first):
    """Second premolar and first molar share to 2 mm; at 3 mm the canine is back."""
    result = shipped("worn_canines")
    assert _kinds(result, name) == {
        0.5: "partial group",
        1.0: "partial group",
        2.0: "partial group",
        3.0: "canine",
    }
    verdict = next(v for v in result.verdicts if v.excursion == name)
    at_one = next(
        r for r in verdict.readings if r.travel_mm == 1.0 and r.tolerance_mm == pytest.approx(0.02)
    )
    uppers = {upper for upper, _ in at_one.touching}
    assert uppers == {10 * first + number for number in (5, 6)}
    assert _serious(result) >= {(26, 36), (25, 35)}


def test_half_the_wear_passes_it_on_for_half_the_way():
    """With 0.3 mm the group shares at 0.5 mm, and the canine leads from 2 mm on."""
    kinds = _kinds(with_teeth("worn_canines", wear_canine_mm=0.3), "left lateral")
    assert (kinds[0.5], kinds[2.0], kinds[3.0]) == ("partial group", "canine", "canine")


def test_canines_that_are_not_worn_guide():
    """Without the wear nothing calls for attention."""
    result = with_teeth("worn_canines", wear_canine_mm=0.0)
    assert kind_in(result, "left lateral") == "canine"
    assert {finding.severity for finding in result.findings} == {"note"}


def test_the_nonworking_interference_is_named():
    """17 on 47 in left lateral excursion, and nothing else is serious."""
    result = shipped("nonworking_interference")
    found = [finding for finding in result.findings if finding.severity == "serious"]
    assert [(f.kind, f.tooth_upper, f.tooth_lower, f.excursion) for f in found] == [
        ("nonworking interference", 17, 47, "left lateral")
    ]


def test_a_steeper_condyle_removes_the_interference():
    """With 35 degrees on the right the canine guides."""
    result = _inclined("nonworking_interference", 35.0, 35.0)
    assert not _serious(result)
    assert kind_in(result, "left lateral") == "canine"


def test_the_centric_slide_begins_on_one_mesial_incline():
    """24 on 34 alone meets first in CR, on an incline that looks forward; a slide of 1 mm."""
    result = shipped("centric_slide")
    slide = result.slide
    assert (slide.first_contact_upper, slide.first_contact_lower) == (24, 34)
    assert not slide.together
    assert slide.kind == "slide"
    assert np.hypot(slide.forward_mm, slide.up_mm) == pytest.approx(1.0, abs=0.15)
    deflects = [f for f in result.findings if f.kind == "deflective contact"]
    assert [(f.tooth_upper, f.tooth_lower) for f in deflects] == [(24, 34)]
    back = next(sweep for sweep in result.sweeps if sweep.excursion.name == "retrusion")
    # From lower to upper, so backward where the upper surface looks forward.
    assert back.closures.normal[-1, 0] < -0.3
    assert slide.incline == "mesial"
    assert "24 on 34 meet first on a mesial incline of 24" in deflects[0].text
    assert f"a slide of {slide.length_mm:.2f} mm" in deflects[0].text


def test_with_that_incline_formed_like_the_others_the_slide_is_gone():
    """Only 24 is changed: then the jaw moves at one height, on several teeth."""
    case = coarse("centric_slide")
    path = case.generated_path
    assert path.spared == (24,)
    eased = replace(path, teeth=(*path.teeth, 24), spared=())
    slide = run_case(replace(case, generated_path=eased)).slide
    assert slide.kind == "intercuspal contact area"
    assert slide.height_range_mm < 0.02


def test_condyles_nearer_to_their_place_in_cr_slide_less():
    """Half the advance gives a slide at most 0.6 times as long."""
    case = coarse("centric_slide")
    at = case.maximal_intercuspation
    half = replace(at, advance_right_mm=0.25, advance_left_mm=0.25)
    less = run_case(replace(case, maximal_intercuspation=half)).slide
    assert less.forward_mm < 0.6 * shipped("centric_slide").slide.forward_mm
