"""Built-in cases with replacement teeth: what each is to teach, and one change that undoes it."""

from dataclasses import replace

from kinematics.guidance.settings import IncisalTable
from kinematics.planning.load_readings import largest_load
from scenes.builtin_cases import builtin_case
from tests.shipped_cases import coarse, kind_in, run_case, shipped, shipped_in_full


def _of_kind(result, kind):
    return {(f.tooth_upper, f.tooth_lower) for f in result.findings if f.kind == kind}


def test_a_replaced_canine_that_guides_is_serious():
    """13 touches 43 in right lateral excursion, where canine guidance needs it."""
    result = shipped("replaced_canine")
    assert kind_in(result, "right lateral") == "canine"
    gravest = result.findings[0]
    assert (gravest.severity, gravest.kind) == ("serious", "replacement tooth touches")
    assert (gravest.tooth_upper, gravest.tooth_lower) == (13, 43)
    assert gravest.excursion == "right lateral"


def test_replacing_a_premolar_instead_leaves_guidance_to_the_canine():
    """With 14 on the base and 13 natural no replacement tooth touches in an excursion."""
    case = coarse("replaced_canine")
    base = replace(case.denture_bases[0], teeth=(14,), abutments=(13, 15))
    changed = replace(case, denture_bases=(base,), tooth_conditions=())
    assert not _of_kind(run_case(changed), "replacement tooth touches")


def test_the_existing_guidance_is_kept():
    """Canines guide, both replacement teeth have stops, neither touches or comes near."""
    result = shipped("class_three_base")
    for name in ("right lateral", "left lateral"):
        assert kind_in(result, name) == "canine"
    assert kind_in(result, "protrusion") == "anterior"
    assert {15, 16} <= {stop.tooth_upper for stop in result.stops}
    assert not _of_kind(result, "replacement tooth touches")
    assert not _of_kind(result, "replacement tooth comes near")


def test_steeper_cusps_of_the_base_come_near():
    """Cusps 8 degrees steeper pass their opponents within the margin on the way out."""
    case = coarse("class_three_base")
    steep = replace(case.dentition, cusp_inclination_change_deg=4.0)
    found = run_case(replace(case, dentition=steep))
    kinds = ("replacement tooth comes near", "replacement tooth touches")
    assert {pair for kind in kinds for pair in _of_kind(found, kind)} & {
        (15, 45),
        (15, 46),
        (16, 46),
        (16, 47),
    }


def test_the_existing_guidance_goes_with_the_canine():
    """Worn canines leave nothing to keep: incisors lead, and the base touches on its side."""
    case = coarse("class_three_base")
    worn = run_case(replace(case, dentition=replace(case.dentition, wear_canine_mm=0.6)))
    assert kind_in(worn, "right lateral") != "canine"
    assert (16, 46) in _of_kind(worn, "replacement tooth touches")
    assert any(f.kind == "scheme not reached" for f in worn.findings)


def test_lower_bases_against_a_complete_denture_are_balanced():
    """Stops on the lower bases, no front contact in MI, both sides touch in every excursion."""
    result = run_case(builtin_case("lower_distal_extension"))
    assert {36, 37, 46, 47} <= {stop.tooth_lower for stop in result.stops}
    assert not [stop for stop in result.stops if stop.tooth_upper % 10 < 4]
    assert not _of_kind(result, "replacement tooth touches")
    assert not [f for f in result.findings if f.severity == "serious"]
    allowed = {
        finding.excursion: {(finding.tooth_upper, finding.tooth_lower), *finding.together}
        for finding in result.findings
        if finding.kind == "replacement tooth touches, allowed"
    }
    assert set(allowed) == {verdict.excursion for verdict in result.verdicts}
    for name, pairs in allowed.items():
        assert {upper for upper, _ in pairs} & {16, 17}, name
        assert {upper for upper, _ in pairs} & {26, 27}, name


def test_a_steep_incisal_guide_leaves_the_lower_bases_without_balance():
    """With a guide of 35 degrees the table carries the jaw, and back teeth part."""
    case = coarse("lower_distal_extension")
    steep = IncisalTable(sagittal_deg=35.0, wing_right_deg=25.0, wing_left_deg=25.0)
    changed = run_case(replace(case, guidance=replace(case.guidance, incisal_table=steep)))
    assert kind_in(changed, "protrusion") == "table only"
    assert not [f for f in changed.findings if f.kind == "replacement tooth touches, allowed"]


def _lower_bases_for_mi_only(case):
    """Return a case whose lower bases should touch in MI only."""
    bases = tuple(
        base if base.name.startswith("upper") else replace(base, scheme="contacts only in MI")
        for base in case.denture_bases
    )
    return run_case(replace(case, denture_bases=bases))


def test_the_same_contacts_need_attention_on_bases_that_should_touch_in_mi_only():
    """Only the scheme of the lower bases is changed: contacts that share load are against it."""
    result = _lower_bases_for_mi_only(coarse("lower_distal_extension"))
    touching = [f for f in result.findings if f.kind == "replacement tooth touches"]
    assert {f.tooth_lower for f in touching} >= {36, 37, 46, 47}
    assert {f.severity for f in touching} == {"attention"}
    assert result.findings[0].severity == "attention"


def test_contacts_are_serious_on_such_bases_where_no_path_has_formed_the_upper_teeth():
    """The lower bases then carry the jaw on both sides and hold all other teeth open."""
    case = replace(coarse("lower_distal_extension"), generated_path=None)
    result = _lower_bases_for_mi_only(case)
    assert result.findings[0].severity == "serious"
    serious = [f for f in result.findings if f.severity == "serious"]
    assert {f.kind for f in serious} == {"replacement tooth touches"}
    assert {f.tooth_lower // 10 for f in serious} == {3, 4}


def test_a_bridged_canine_loads_its_abutments_in_left_lateral():
    """The pontic 23 guides, is questioned, and 22 and 24 bear what pushes it sideways."""
    result = shipped_in_full("bridged_canine")
    assert kind_in(result, "left lateral") == "canine"
    assert any(f.kind.startswith("canine guidance") for f in result.findings)
    left = next(one for one in result.loads if one.as_is.excursion == "left lateral")
    largest = largest_load(left, 0)
    assert [tooth.tooth for tooth in largest.as_is.teeth] == [23]
    across = {one.tooth: one.across_n for one in largest.as_is.abutments}
    assert set(across) == {22, 24} and min(across.values()) > 2.0
    # Without the pontic 22 guides instead, and 24 is spared.
    off = dict(largest.taken_off)
    assert off[24] < across[24] and off[22] > 5.0


def test_without_loads_all_that_does_not_rest_on_them_is_the_same():
    """Findings with figures and places, verdicts, stops and set-ups; what is left out is empty."""
    brief, full = shipped("bridged_canine"), shipped_in_full("bridged_canine")
    assert full.loads and full.advice and full.findings
    assert brief.loads == brief.advice == ()
    for name in ("findings", "verdicts", "stops", "replacement", "slide"):
        assert repr(getattr(brief, name)) == repr(getattr(full, name)), name
    assert [extent.base for extent in brief.extents] == [extent.base for extent in full.extents]
