"""Case files: what is written is what is run, and what cannot be used is said all at once."""

import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.case import Case
from kinematics.case_file import parse_case, read_case
from kinematics.checks import InputError
from kinematics.toml_text import LARGEST_BYTES


def _refusal(text):
    with pytest.raises(InputError) as caught:
        parse_case(text, "c.toml")
    return str(caught.value)


def test_an_empty_file_is_the_default_case():
    """Every setting has a default, so a file says only what differs."""
    assert parse_case("", "c.toml") == Case()


def test_what_a_file_says_is_what_the_case_holds():
    """Numbers, words, lists and tables arrive unchanged; whole numbers serve as mm and degrees."""
    case = parse_case(
        """
        title = "Läsion"
        lateroprotrusion_azimuths_deg = [-30, 60.5]
        [guidance]
        reference_plane = "Camper"
        right.condylar_inclination_deg = 41
        [maximal_intercuspation]
        advance_right_mm = 0.25
        [[denture_bases]]
        name = "right"
        teeth = [15, 16, 17]
        abutments = [14, 13]
        """,
        "c.toml",
    )
    assert case.title == "Läsion"
    assert case.lateroprotrusion_azimuths_deg == (-30.0, 60.5)
    assert case.guidance.reference_plane == "Camper"
    assert case.guidance.right.condylar_inclination_deg == 41.0
    assert case.guidance.left == Case().guidance.left
    assert case.maximal_intercuspation.advance_right_mm == 0.25
    assert case.denture_bases[0].teeth == (15, 16, 17)


def test_the_teeth_of_the_bases_are_the_replacement_teeth():
    """A base is said once; the dentition is set up with its teeth as replacements."""
    case = parse_case("denture_bases = [{name = 'a', teeth = [17, 16]}]", "c.toml")
    assert case.replacement_teeth == (17, 16)
    assert case.dentition_with_replacements().replacements == (17, 16)


def test_a_case_cannot_be_changed_afterwards():
    """A case is a frozen value."""
    with pytest.raises(dataclasses.FrozenInstanceError):
        parse_case("", "c.toml").title = "other"


def test_all_faults_come_at_once_each_on_its_line():
    """Six faults in one file are six lines under one heading."""
    message = _refusal(
        """
        titel = "x"
        lateroprotrusion_azimuths_deg = [10, 95]
        [guidance]
        intercondylar_distance_mm = nan
        [guidance.right]
        condylar_inclination_deg = 95
        path = "curvd"
        [guidance.lefty]
        """
    )
    heading, *lines = message.splitlines()
    assert heading == "c.toml: 6 faults"
    assert len(lines) == 6
    for expected in (
        "  guidance.right.condylar_inclination_deg = 95: must be 0 to 80 degrees",
        "  guidance.intercondylar_distance_mm = nan: must be a finite number",
        "  lateroprotrusion_azimuths_deg[1] = 95: "
        "must be more than -90 degrees and less than 90 degrees",
    ):
        assert expected in lines


#: Faults that have nothing to do with each other: what stands in the file, and the line said.
_SIDE = "guidance.right"
INDEPENDENT = {
    "value of one side": (
        f"{_SIDE}.fischer_deg = 99",
        f"{_SIDE}.fischer_deg = 99: must be -20 to 20 degrees",
    ),
    "contradiction in that side": (
        f"{_SIDE}.bennett_angle_deg = 10\n{_SIDE}.progressive_shift_deg = 8",
        f"{_SIDE}: bennett_angle_deg = 10 and progressive_shift_deg = 8 are two ways to say one"
        " thing: give one",
    ),
    "another contradiction in that side": (
        f"{_SIDE}.path = 'measured'",
        f"{_SIDE}: path = 'measured' with 0 measured_points: a measured path needs them, any other"
        " path must have none",
    ),
    "contradiction between sides": (
        f"{_SIDE}.pure_rotation = true\nguidance.left.immediate_shift_mm = 0.5",
        "guidance: right.pure_rotation leaves no room for left.immediate_shift_mm = 0.5: set one of"
        " them to nothing",
    ),
    "contradiction in the guide table": (
        "guidance.incisal_table.sagittal_deg = 10\n"
        "guidance.incisal_table.measured_points = [[0, 0, 0], [1, 0, 0], [0, 1, 0]]",
        "guidance.incisal_table: measured_points and sagittal_deg, wing_right_deg, wing_left_deg or"
        " freedom_mm are two ways to give one table: give one",
    ),
    "no number": ("sweep.step_mm = nan", "sweep.step_mm = nan: must be a finite number"),
    "readings that end too early": (
        "judging.readings_mm = [0, 0.4]",
        "judging: readings_mm ends at 0.4, within near_mi_mm = 0.5: nothing would be judged",
    ),
    "value beside the readings": (
        "judging.tolerance_mm = 9",
        "judging.tolerance_mm = 9: must be 0.001 to 0.2 mm",
    ),
    "tooth that is neither missing nor over-erupted": (
        "dentition.missing = [47]\ndentition.over_erupted_mm = {47 = 1}",
        "dentition: 47 is missing: it cannot have over-erupted",
    ),
    "unknown key": (
        "dentition.overbyte_mm = 2",
        "dentition.overbyte_mm: unknown key; did you mean",
    ),
    "base without a name": (
        "denture_bases = [{teeth = [36]}, {name = 'a', teeth = [16, 26.5]}, {name = 'b', scheme ="
        " 'x', teeth = [25, 25]}, {name = 'c', teeth = [16]}, {name = 'c', teeth = [18]}]",
        "denture_bases[0].name: missing; this must be given",
    ),
}
#: What else is wrong with those bases.
OF_THE_BASES = (
    "denture_bases[1].teeth[1] = 26.5: must be a whole number",
    'denture_bases[2].scheme = "x": must be one of',
    "denture_bases[2]: base 'b': a tooth is named twice among [25, 25]",
    "denture_bases: 16 stands on two bases; name it once",
    "denture_bases: two bases are called 'c'; give each its own name",
    "denture base 'c': the dentition has no tooth 18; accepted are",
)


@given(st.sets(st.sampled_from(sorted(INDEPENDENT)), min_size=1))
def test_any_faults_that_have_nothing_to_do_with_each_other_come_at_once(names):
    """Faulty values hide no contradiction that does not hang on them, and none is made up."""
    message = _refusal("\n".join(INDEPENDENT[name][0] for name in sorted(names)))
    wanted = [INDEPENDENT[name][1] for name in names]
    if "base without a name" in names:
        wanted += OF_THE_BASES
    heading, *lines = message.splitlines()
    for line in wanted:
        assert sum(shown.startswith(f"  {line}") for shown in lines) == 1, line
    assert heading == f"c.toml: {len(wanted)} fault{'s' * (len(wanted) > 1)}"
    assert len(lines) == len(wanted)


@pytest.mark.parametrize(
    ("text", "faults"),
    [
        ("judging.readings_mm = [0, 0.4]\njudging.near_mi_mm = 9", ["judging.near_mi_mm = 9"]),
        (
            "guidance.left.path = 'measured'\nguidance.left.measured_points = [[0, 0], [1, 'a']]",
            ["guidance.left.measured_points[1][1]"],
        ),
        (
            "guidance.left.path = 'measured'\nguidance.left.measured_points = 5",
            ["guidance.left.measured_points = 5"],
        ),
        (
            "dentition.replacements = [16]\ndenture_bases = [{name = 'a', teeth = ['x']}]",
            ["denture_bases[0].teeth[0]"],
        ),
        (
            "guidance.left.bennett_angle_deg = 10\nguidance.left.immediate_shift_mm = 1\n"
            "guidance.left.bennett_read_at_mm = 99",
            ["guidance.left.bennett_read_at_mm = 99"],
        ),
        (
            "maximal_intercuspation.shift_mm = 1\nguidance.left.immediate_shift_mm = 9",
            ["guidance.left.immediate_shift_mm = 9"],
        ),
        ("maximal_intercuspation.shift_mm = 1", ["maximal_intercuspation.shift_mm = 1 mm: the"]),
        (
            "title = 3\nguidance.left.bennett_angle_deg = 5\n"
            "guidance.left.immediate_shift_mm = 1\nguidance.left.bennett_read_at_mm = 3",
            ["title = 3", "guidance left bennett_angle_deg = 5 degrees: the immediate side shift"],
        ),
    ],
)
def test_a_contradiction_that_hangs_on_a_faulty_value_waits(text, faults):
    """A default that stands in for a faulty value contradicts nothing."""
    _, *lines = _refusal(text).splitlines()
    assert len(lines) == len(faults)
    for line, fault in zip(lines, faults, strict=True):
        assert line.startswith(f"  {fault}")


def test_text_is_not_taken_for_a_number_nor_truth_for_one():
    """Neither "35" nor true is an angle, 1.5 and true are no tooth numbers."""
    message = _refusal(
        """
        [guidance.right]
        condylar_inclination_deg = "35"
        fischer_deg = true
        [[denture_bases]]
        name = "a"
        teeth = [1.5, true, "16"]
        """
    )
    assert message.startswith("c.toml: 5 faults")


def test_windows_text_files_are_read(tmp_path):
    """A byte-order mark and carriage returns make no difference."""
    path = tmp_path / "c.toml"
    path.write_bytes('\ufefftitle = "a"\r\nnote = """b\r\nc"""\r\n'.encode())
    case = read_case(path)
    assert (case.title, case.note) == ("a", "b\nc")


def test_syntax_errors_show_line_column_and_the_place():
    """The caret stands under the column that the message names."""
    message = _refusal('title = "a"\n[guidance\n')
    first, shown, caret = message.splitlines()
    assert "(at line 2, column 10)" in first
    assert shown == "  [guidance"
    assert caret.index("^") - 2 == 10 - 1


def test_a_decimal_comma_is_named():
    """A number as half of Europe writes it gets told how TOML writes it."""
    message = _refusal("[guidance.right]\ncondylar_inclination_deg = 35,5\n")
    assert message.endswith("decimals are written with a point: 35.5")


def test_an_arch_without_teeth_and_readings_never_reached_are_refused():
    """Nothing could meet, and nothing would be read: both are said before anything is computed."""
    upper = [*range(11, 18), *range(21, 28)]
    assert "dentition: missing leaves no tooth in the upper arch, so nothing can meet" in _refusal(
        f"[dentition]\nmissing = {upper}\n"
    )
    lower = [*range(31, 39), *range(41, 49)]
    message = _refusal(f"[dentition]\nmissing = {lower}\n[judging]\nreadings_mm = [0, 9]\n")
    assert "dentition: missing leaves no tooth in the lower arch" in message
    twice = _refusal("[dentition]\nmissing = [11, 11]\n")
    assert "dentition: 11 stands 2 times in missing; name it once" in twice
    assert "judging.readings_mm = [0, 9]: none lies beyond judging.near_mi_mm = 0.5" in message
    parse_case("[sweep]\ntravel_mm = 1.0\n", "c.toml")  # the default readings go farther


def test_a_file_at_the_size_limit_is_read_and_one_byte_more_is_not(tmp_path):
    """The limit is where it says."""
    path = tmp_path / "c.toml"
    path.write_bytes(b"#" * LARGEST_BYTES)
    assert read_case(path) == Case()
    path.write_bytes(b"#" * (LARGEST_BYTES + 1))
    with pytest.raises(InputError, match="larger than 1 MB"):
        read_case(path)


_TOML_LIKE = st.text(alphabet='abt =.[]{}"\n#,-0123456789:_\x00\x1bé', max_size=60)


@given(_TOML_LIKE)
def test_no_text_brings_it_down(text):
    """Whatever stands in the file: a case or an InputError of printable lines, nothing else."""
    try:
        parse_case(text, "c.toml")
    except InputError as error:
        assert str(error).startswith("c.toml: ")


_VALUES = st.recursive(
    st.one_of(st.booleans(), st.integers(), st.floats(), st.text(max_size=5)).map(
        lambda v: v if not isinstance(v, str) else "t" + v.encode("ascii", "ignore").hex()
    ),
    lambda inner: st.lists(inner, max_size=3),
    max_leaves=4,
)
_KEYS = st.sampled_from(
    [
        "title", "note", "guidance", "guidance.right", "guidance.right.path",
        "guidance.left.measured_points", "guidance.incisal_table", "maximal_intercuspation",
        "dentition", "dentition.missing", "dentition.wear_mm", "dentition.wear_mm.13",
        "judging", "judging.readings_mm", "denture_bases", "lateroprotrusion_azimuths_deg",
        "strange", "guidance.strange",
    ]
)  # fmt: skip


def _toml(value):
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return "[" + ", ".join(map(_toml, value)) + "]"
    return f'"{value}"' if isinstance(value, str) else repr(value)


@given(_KEYS, _VALUES)
def test_every_wrong_value_is_named_by_its_key(key, value):
    """Each line begins with the key, something within it, or the table it contradicts in."""
    try:
        parse_case(f"{key} = {_toml(value)}", "c.toml")
    except InputError as error:
        heading, *lines = str(error).splitlines()
        assert heading == f"c.toml: {len(lines)} fault{'s' * (len(lines) > 1)}"
        for line in lines:
            named = re.split(r" = |: ", line.strip())[0]
            assert named.startswith(key) or key.startswith(f"{named}.")


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16-le", "utf-16-be"])
def test_every_way_a_shell_or_editor_writes_text_is_read(tmp_path, encoding):
    """UTF-8 with or without a mark, UTF-16 of either byte order with one, Windows line ends."""
    path = tmp_path / "c.toml"
    mark = "\ufeff" if encoding.startswith("utf-16") else ""
    path.write_bytes(f'{mark}title = "Läsion ☺"\r\n'.encode(encoding))
    assert read_case(path).title == "Läsion ☺"
