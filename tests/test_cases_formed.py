"""Built-in cases with teeth formed by a generated path: what they teach, and what changes it."""

from dataclasses import replace

import pytest

from kinematics.guidance.settings import IncisalTable
from kinematics.planning.findings import SEVERITIES
from scenes.builtin_cases import builtin_case
from tests.shipped_cases import coarse, run_case


@pytest.fixture(scope="module")
def group():
    """Run the group function case as it is shipped."""
    return run_case(builtin_case("group_function"))


@pytest.fixture(scope="module")
def dentures():
    """Run the complete dentures as they are shipped."""
    return run_case(builtin_case("complete_dentures"))


def _kinds(result):
    """Return the guidance kind of every judged excursion."""
    return {verdict.excursion: verdict.kind for verdict in result.verdicts}


def _pairs_at(result, name, reading_mm):
    """Return (upper, lower) of all contacts of one excursion at a travel."""
    sweep = next(s for s in result.sweeps if s.excursion.name == name)
    pose = int(abs(sweep.travel_mm - reading_mm).argmin())
    rows = sweep.patches.pose == pose
    uppers, lowers = sweep.patches.tooth_upper[rows], sweep.patches.tooth_lower[rows]
    return {(int(u), int(low)) for u, low in zip(uppers, lowers, strict=True)}


def test_group_function_is_group_function(group):
    """Groups on the working sides, front teeth in protrusion, stops kept, nothing to look at."""
    kinds = _kinds(group)
    assert kinds["right lateral"] == kinds["left lateral"] == "canine with posterior teeth (group)"
    assert kinds["protrusion"] == "anterior"
    assert {finding.severity for finding in group.findings} == {"note"}
    assert {(s.tooth_upper, s.tooth_lower) for s in group.stops} >= {(14, 44), (26, 36), (17, 47)}


@pytest.mark.parametrize("reading_mm", [1.0, 2.0])
def test_a_group_touches_on_the_working_side_alone(group, reading_mm):
    """Canine, a premolar and the first molar touch; no back tooth of the other side does."""
    pairs = _pairs_at(group, "left lateral", reading_mm)
    assert (23, 33) in pairs
    assert {26} <= {upper for upper, _ in pairs}
    assert {24, 25} & {upper for upper, _ in pairs}
    assert not [upper for upper, _ in pairs if 14 <= upper <= 17]


def test_without_forming_the_canines_guide_again():
    """The same teeth as they settle have canine guidance."""
    case = builtin_case("group_function")
    kinds = _kinds(run_case(replace(case, generated_path=None)))
    assert kinds["right lateral"] == kinds["left lateral"] == "canine"


def test_complete_dentures_are_balanced(dentures):
    """No finding but notes: balance holds in every excursion."""
    assert {finding.severity for finding in dentures.findings} == {"note"}
    assert _kinds(dentures)["protrusion"] == "anterior with posterior"


def test_a_balanced_denture_is_told_in_few_words(dentures):
    """One note an excursion for all contacts, one a base for stops on inclines; no tooth twice."""
    kinds = [finding.kind for finding in dentures.findings]
    assert kinds.count("replacement tooth touches, allowed") == len(dentures.verdicts)
    assert kinds.count("stops off the axis") == 2
    assert not [kind for kind in kinds if kind.startswith("contacts near")]
    for finding in dentures.findings:
        pairs = [(finding.tooth_upper, finding.tooth_lower), *finding.together]
        assert len(set(pairs)) == len(pairs)


@pytest.mark.parametrize("reading_mm", [1.0, 2.0])
def test_both_sides_touch_in_a_lateral_excursion(dentures, reading_mm):
    """A working and a nonworking molar pair touch in right lateral excursion."""
    pairs = _pairs_at(dentures, "right lateral", reading_mm)
    assert {16, 17} & {upper for upper, _ in pairs}
    assert {26, 27} & {upper for upper, _ in pairs}


def test_a_steep_incisal_guide_takes_the_balance_away():
    """With a guide of 35 degrees the table carries the jaw and balance is missed."""
    case = coarse("complete_dentures")
    steep = IncisalTable(sagittal_deg=35.0, wing_right_deg=25.0, wing_left_deg=25.0)
    changed = run_case(replace(case, guidance=replace(case.guidance, incisal_table=steep)))
    assert _kinds(changed)["protrusion"] == "table only"
    text = next(v.text for v in changed.verdicts if v.excursion == "right lateral")
    assert "The incisal guide table carries the jaw" in text
    assert "0.4 µm" not in text
    worst = max(SEVERITIES.index(finding.severity) for finding in changed.findings)
    assert SEVERITIES[worst] != "note"
    assert not _pairs_at(changed, "right lateral", 2.0)
