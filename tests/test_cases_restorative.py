"""Built-in cases with replacement teeth: what each is to teach, and one change that undoes it."""

from dataclasses import replace
from functools import cache

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


def _of_kind(result, kind):
    return {(f.tooth_upper, f.tooth_lower) for f in result.findings if f.kind == kind}


def test_a_replaced_canine_that_guides_is_serious():
    """13 touches 43 in right lateral excursion, where canine guidance needs it."""
    result = _shipped("replaced_canine")
    assert next(v.kind for v in result.verdicts if v.excursion == "right lateral") == "canine"
    assert result.findings[0].severity == "serious"
    assert (13, 43) in _of_kind(result, "replacement tooth touches")


def test_replacing_a_premolar_instead_leaves_guidance_to_the_canine():
    """With 14 on the base and 13 natural no replacement tooth touches in an excursion."""
    case = _coarse("replaced_canine")
    base = replace(case.denture_bases[0], teeth=(14,), abutments=(13, 15))
    assert not _of_kind(_run(replace(case, denture_bases=(base,))), "replacement tooth touches")


def test_the_existing_guidance_is_kept():
    """Canines guide, both replacement teeth have stops, neither touches in an excursion."""
    result = _shipped("class_three_base")
    assert next(v.kind for v in result.verdicts if v.excursion == "right lateral") == "canine"
    assert {14, 15} <= {stop.tooth_upper for stop in result.stops}
    assert not _of_kind(result, "replacement tooth touches")


def test_without_canine_guidance_the_base_loses_its_clearance():
    """A worn canine lets the jaw close on its replacement teeth or on other back teeth."""
    case = _coarse("class_three_base")
    worn = _run(replace(case, dentition=replace(case.dentition, wear_canine_mm=0.6)))
    assert next(v.kind for v in worn.verdicts if v.excursion == "right lateral") != "canine"
    assert worn.findings[0].severity == "serious"


def test_lower_bases_come_near_on_the_nonworking_side():
    """37 and 47 have stops in MI and come near their opponents in the other lateral excursion."""
    result = _shipped("lower_distal_extension")
    assert {37, 47} <= {stop.tooth_lower for stop in result.stops}
    near = {
        (f.tooth_upper, f.tooth_lower, f.excursion)
        for f in result.findings
        if f.kind == "replacement tooth comes near"
    }
    assert {(17, 47, "left lateral"), (27, 37, "right lateral")} <= near


def test_flatter_cusps_clear_the_lower_bases():
    """Cusps flatter by 8 degrees leave the second molars clear on the nonworking side."""
    case = _coarse("lower_distal_extension")
    flat = replace(case.dentition, cusp_inclination_change_deg=-8.0)
    flatter = _run(replace(case, dentition=flat))
    assert len(_of_kind(flatter, "replacement tooth comes near")) < len(
        _of_kind(_shipped("lower_distal_extension"), "replacement tooth comes near")
    )
