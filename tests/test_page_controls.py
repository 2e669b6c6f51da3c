"""Which settings the page offers: all of guidance, with the ranges of the engine."""

import re
import typing

import pytest

from kinematics.case import Case
from kinematics.case_changes import ChangesRefused, changed_case
from kinematics.case_file import parse_case
from kinematics.guidance.settings import GuidanceSettings, IncisalTable, SideGuidance
from kinematics.teeth.crown_table import KINDS, crown_table
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names
from scenes.page_controls import control_groups, control_keys, hidden_controls, values_for_page

CONTROLS = [control for group in control_groups() for control in group["controls"]]
NUMBERS = [control for control in CONTROLS if control["type"] == "number"]
CHOICES = [control for control in CONTROLS if control["type"] == "choice"]
#: Lists of points cannot be set by a slider; a case file gives them.
NOT_OFFERED = {"measured_points", "right", "left"}


def scan_case():
    """Return a case of scans mounted by mean values; its files need not be there."""
    points = (
        "incisal_point = [85, 0, -30]\nmolar_right = [50, -25, -30]\nmolar_left = [50, 25, -30]"
    )
    text = f'[scans]\nupper = "u.stl"\nlower = "l.stl"\n[scans.mounting]\n{points}\n'
    return parse_case(text, "case.toml")


def test_every_guidance_setting_is_offered():
    """Each field of a side, of the jaw and of the incisal guide has a control."""
    keys = set(control_keys())
    wanted = {f"guidance.{name}" for name in typing.get_type_hints(GuidanceSettings)}
    wanted |= {
        f"guidance.{side}.{name}"
        for side in ("right", "left")
        for name in typing.get_type_hints(SideGuidance)
    }
    wanted |= {f"guidance.incisal_table.{name}" for name in typing.get_type_hints(IncisalTable)}
    missing = {key for key in wanted - keys if key.split(".")[-1] not in NOT_OFFERED}
    assert not missing


def test_scheme_tolerance_and_dentition_are_offered():
    """So are scheme, tolerance, pin opening and what shapes the teeth."""
    wanted = {
        "judging.scheme",
        "judging.tolerance_mm",
        "pin_opening_mm",
        "dentition.cusp_inclination_change_deg",
        "dentition.overbite_mm",
        "dentition.overjet_mm",
        "dentition.wear_canine_mm",
        "dentition.triangles_per_arch",
    }
    assert wanted <= set(control_keys())


def test_ids_are_unique_and_numbers_say_their_unit():
    """Every control can be told from the others, and says its unit unless it counts or scales."""
    ids = [control["id"] for control in CONTROLS]
    assert len(set(ids)) == len(ids)
    for control in CONTROLS:
        if control["type"] == "number":
            bare = control["id"].endswith(("_scale", "_ratio", "triangles_per_arch"))
            assert bool(control["unit"]) != bare, control["id"]
            assert control["least"] < control["most"]
            assert control["help"]


@pytest.mark.parametrize("control", NUMBERS, ids=lambda c: c["id"])
def test_ranges_are_those_of_the_engine(control):
    """A value just outside the range of a slider is refused, and the message names the setting."""
    of_scans = control["id"].startswith("scans.")
    case = scan_case() if of_scans else builtin_case()
    case = changed_case(case, {"guidance.incisal_table": True})
    reach = control["most"] - control["least"]
    for key in control["keys"].values():
        for beyond in (control["least"] - 0.01 * reach, control["most"] + 0.01 * reach):
            value = round(beyond) if control["whole"] else beyond
            with pytest.raises(ChangesRefused) as refused:
                changed_case(case, {key: value})
            assert refused.value.keys == (key,)


@pytest.mark.parametrize("control", CHOICES, ids=lambda c: c["id"])
def test_every_choice_is_accepted(control):
    """What can be chosen can be set."""
    case = builtin_case("complete_dentures" if "denture" in control["id"] else "natural_dentition")
    if control["id"] in hidden_controls(case):
        pytest.skip("this case has no place for it")
    values = {"guidance.incisal_table": True} if "incisal" in control["id"] else {}
    for key in control["keys"].values():
        for choice in control["choices"]:
            changed_case(case, {**values, key: choice["value"]})


@pytest.mark.parametrize("name", case_names())
def test_values_are_those_of_the_case(name):
    """Setting every value that the page shows of a case changes nothing."""
    case = builtin_case(name)
    hidden = set(hidden_controls(case))
    offered = {
        key for control in CONTROLS if control["id"] not in hidden
        for key in control["keys"].values()
    }  # fmt: skip
    values = {key: value for key, value in values_for_page(case).items() if key in offered}
    assert changed_case(case, values) == case


def test_no_control_promises_a_time():
    """How long teeth take depends on their triangles and on what is formed of them."""
    told = [group["words"] for group in control_groups()]
    told += [f"{control['label']} {control['help']}" for control in CONTROLS]
    assert not [text for text in told if re.search(r"\b(about a second|seconds|minutes?)\b", text)]


def test_the_resolution_says_that_it_changes_verdicts():
    """Gaps of two resolutions are not to be compared."""
    [control] = [c for c in CONTROLS if c["id"] == "dentition.triangles_per_arch"]
    assert "can change verdicts" in control["help"]
    assert "Compare results of one resolution only" in control["help"]


def test_the_help_says_how_steep_the_cusps_are_unchanged():
    """In the figures of the table of forms, for the teeth that are always made."""
    [control] = [c for c in CONTROLS if c["id"] == "dentition.cusp_inclination_change_deg"]
    forms = crown_table().posterior
    cusps = [cusp for kind in KINDS if kind in forms for cusp in forms[kind].cusps]
    inner = [cusp.inner for cusp in cusps]
    along = [slope for cusp in cusps for slope in (cusp.mesial, cusp.distal)]
    said = (
        f"slopes that face the middle of a tooth have {min(inner):g} to {max(inner):g} degrees, the"
        f" mesial and distal ones {min(along):g} to {max(along):g},"
    )
    assert said in control["help"]


def test_controls_of_what_is_not_there_are_hidden():
    """Without a denture base there is none whose scheme could be chosen."""
    scans = [control["id"] for control in CONTROLS if control["id"].startswith("scans.")]
    bases = ["denture_bases[0].scheme", "denture_bases[1].scheme"]
    load = [control["id"] for control in CONTROLS if control["id"].startswith("load.")]
    assert len(load) == 3
    assert hidden_controls(Case()) == [*bases, *load, *scans]
    assert hidden_controls(builtin_case()) == [bases[1], *scans]


def test_a_case_of_scans_hides_what_shapes_built_in_teeth():
    """Its own settings are offered: the allowance, and mean values where it is mounted by them."""
    hidden = set(hidden_controls(scan_case()))
    assert {c["id"] for c in CONTROLS if c["id"].startswith("dentition.")} <= hidden
    assert not [one for one in hidden if one.startswith(("scans.", "guidance."))]
    changed = changed_case(scan_case(), {"scans.allowance_um": 80.0})
    assert changed.scans.allowance_um == 80.0
