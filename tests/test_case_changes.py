"""Changed settings: the same as in a case file, refused in the same words, and written back."""

import numpy as np
import pytest

from kinematics.case import Case
from kinematics.case_changes import ChangesRefused, changed_case
from kinematics.case_file import case_toml, parse_case
from kinematics.guidance.settings import IncisalTable
from scenes.builtin_cases import builtin_case
from scenes.case_places import case_names

SIDES = ("guidance.right", "guidance.left")
#: Settings that go together whatever their values are, with what they accept.
NUMBERS = {
    **{f"{side}.condylar_inclination_deg": (5.0, 60.0) for side in SIDES},
    **{f"{side}.fischer_deg": (-10.0, 10.0) for side in SIDES},
    **{f"{side}.immediate_shift_mm": (0.0, 2.0) for side in SIDES},
    **{f"{side}.working_elevation_deg": (-30.0, 30.0) for side in SIDES},
    "guidance.intercondylar_distance_mm": (90.0, 130.0),
    "guidance.incisal_table.sagittal_deg": (0.0, 60.0),
    "guidance.incisal_table.wing_left_deg": (0.0, 50.0),
    "dentition.cusp_inclination_change_deg": (-8.0, 8.0),
    "dentition.overjet_mm": (2.2, 4.2),
    "dentition.wear_mm.34": (0.0, 0.8),
    "dentition.wear_cusps_mm.37 MB": (0.0, 0.8),
    "judging.record_scatter_mm": (0.0, 1.0),
    "pin_opening_mm": (0.0, 8.0),
}
CHOICES = {
    "guidance.reference_plane": ("occlusal", "Camper", "axis-orbital"),
    "guidance.incisal_table": (True, False),
    "guidance.right.shift_timing": ("immediate", "early"),
    "dentition.mi_scheme": ("natural", "cusp-ridge", "cusp-fossa"),
    "title": ('Said "so"', "tab\tand\x7f and \\ and\nline", "µ° ä 歯"),
}


def random_changes(rng):
    """Return some changes that every case can take."""
    changes = {
        key: float(rng.uniform(*ends)) for key, ends in NUMBERS.items() if rng.random() < 0.4
    }
    for key, words in CHOICES.items():
        if rng.random() < 0.4:
            changes[key] = words[rng.integers(len(words))]
    return changes


@pytest.mark.parametrize("name", case_names())
def test_every_changed_case_comes_back_from_its_file(name):
    """A case written as TOML is the same case when it is read again."""
    rng = np.random.default_rng(20)
    case = builtin_case(name)
    assert parse_case(case_toml(case), name) == case
    for _ in range(25):
        changed = changed_case(case, random_changes(rng))
        assert parse_case(case_toml(changed), name) == changed


def test_the_file_of_the_default_case_says_nothing():
    """A case file says only what differs from the defaults."""
    assert case_toml(Case()).strip() == ""


@pytest.mark.parametrize(
    ("changes", "lines"),
    [
        ({"guidance.right.fischer_deg": 5}, "[guidance.right]\nfischer_deg = 5"),
        ({"title": "Mine", "pin_opening_mm": 2.5}, 'title = "Mine"\npin_opening_mm = 2.5'),
        (
            {"dentition.over_erupted_mm.46": 1.2, "dentition.wear_cusps_mm.36 MB": 0.2},
            '[dentition]\nover_erupted_mm = { 46 = 1.2 }\nwear_cusps_mm = { "36 MB" = 0.2 }',
        ),
        (
            {"guidance.incisal_table": True, "guidance.incisal_table.sagittal_deg": 20},
            "[guidance.incisal_table]\nsagittal_deg = 20",
        ),
    ],
)
def test_a_change_does_what_the_line_in_the_file_does(changes, lines):
    """Changes to the default case are a case file of these lines."""
    assert changed_case(Case(), changes) == parse_case(lines, "lines")


def test_nothing_changed_is_the_same_case():
    """No changes, and changes to what is there already."""
    case = builtin_case()
    assert changed_case(case, {}) == case
    assert changed_case(case, {"guidance.right.condylar_inclination_deg": 35}) == case
    assert changed_case(case, {"denture_bases[0].scheme": "contacts only in MI"}) == case


def test_a_base_of_a_list_can_be_changed():
    """Named as messages name it."""
    changed = changed_case(builtin_case(), {"denture_bases[0].scheme": "balanced"})
    assert [base.scheme for base in changed.denture_bases] == ["balanced"]


def test_what_is_not_set_is_as_without_its_line():
    """None takes a value away, whether there was one or not."""
    case = builtin_case()
    changes = {"guidance.left.progressive_shift_deg": None, "dentition.over_erupted_mm.46": None}
    changed = changed_case(case, {**changes, "guidance.left.bennett_angle_deg": None})
    assert changed.guidance.left.progressive_shift_deg is None
    assert changed.dentition.over_erupted_mm == {}
    assert case.dentition.over_erupted_mm == {46: 1.2}


@pytest.mark.parametrize("order", [1, -1])
def test_a_table_is_put_in_and_taken_out(order):
    """In whatever order the changes come; what stands in a table taken out waits."""
    changes = {"guidance.incisal_table": True, "guidance.incisal_table.freedom_mm": 0.5}
    there = changed_case(Case(), dict(list(changes.items())[::order]))
    assert there.guidance.incisal_table == IncisalTable(freedom_mm=0.5)
    assert changed_case(there, {"guidance.incisal_table": True}) == there
    away = {"guidance.incisal_table": False, "guidance.incisal_table.freedom_mm": 0.7}
    assert changed_case(there, dict(list(away.items())[::order])).guidance.incisal_table is None
    waiting = {"guidance.incisal_table.freedom_mm": 99}
    assert changed_case(Case(), waiting) == Case()


@pytest.mark.parametrize(
    ("changes", "keys", "text"),
    [
        (
            {"guidance.right.condylar_inclination_deg": 99, "pin_opening_mm": 1},
            ["guidance.right.condylar_inclination_deg"],
            "guidance.right.condylar_inclination_deg = 99: must be 0 to 80 degrees",
        ),
        (
            {"guidance.right.condylar_inclinatoin_deg": 40},
            ["guidance.right.condylar_inclinatoin_deg"],
            "guidance.right.condylar_inclinatoin_deg: unknown key; did you mean "
            "'condylar_inclination_deg'?",
        ),
        (
            {"guidanc.right.fischer_deg": 4},
            ["guidanc.right.fischer_deg"],
            "guidanc: unknown key; did you mean 'guidance'?",
        ),
        (
            {"guidance.incisal_table.sagital_deg": 4},
            ["guidance.incisal_table.sagital_deg"],
            "guidance.incisal_table.sagital_deg: unknown key; did you mean 'sagittal_deg'?",
        ),
        (
            {"guidance.right.bennett_angle_deg": 12, "pin_opening_mm": 1},
            ["guidance.right.bennett_angle_deg"],
            "guidance.right: bennett_angle_deg = 12 and progressive_shift_deg = 9 are two ways",
        ),
        (
            {"maximal_intercuspation.shift_mm": 2, "pin_opening_mm": 1},
            ["maximal_intercuspation.shift_mm"],
            "maximal_intercuspation.shift_mm = 2 mm: the immediate_shift_mm of the right side",
        ),
        (
            {"dentition.mi_scheme": "cusp-fosa"},
            ["dentition.mi_scheme"],
            'dentition.mi_scheme = "cusp-fosa": must be one of',
        ),
        ({"pin_opening_mm": True}, ["pin_opening_mm"], "pin_opening_mm = true: must be a number"),
        ({"pin_opening_mm": "4"}, ["pin_opening_mm"], 'pin_opening_mm = "4": must be a number'),
        (
            {"pin_opening_mm": float("nan")},
            ["pin_opening_mm"],
            "pin_opening_mm = nan: must be a finite number",
        ),
        ({"guidance": True}, ["guidance"], "guidance = true: must be a table"),
        ({"title.x": 1}, ["title.x"], "title.x: there is no such setting in this case"),
        (
            {"denture_bases[7].scheme": "balanced"},
            ["denture_bases[7].scheme"],
            "denture_bases[7].scheme: there is no such setting in this case",
        ),
        ({"a..b": 1}, ["a..b"], '"a..b": unknown key;'),
        ({"": 1}, [""], '"": unknown key;'),
        ({"generated_path": True}, ["generated_path"], "generated_path.teeth: missing"),
    ],
)
def test_what_makes_no_case_is_refused_by_its_keys(changes, keys, text):
    """In the words of a case file; the keys are those of the changes that have a part in it."""
    with pytest.raises(ChangesRefused) as caught:
        changed_case(builtin_case(), changes)
    assert text in str(caught.value)
    assert list(caught.value.keys) == keys


def test_all_faults_are_told_at_once():
    """One a line."""
    changes = {"pin_opening_mm": 99, "guidance.right.fischer_deg": 99, "titel": "x", "note": "fine"}
    with pytest.raises(ChangesRefused) as caught:
        changed_case(Case(), changes)
    assert len(str(caught.value).splitlines()) == 3
    assert set(caught.value.keys) == {*changes} - {"note"}
