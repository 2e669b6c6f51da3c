"""Case files: what is written is what is run, and what cannot be used is said all at once."""

import dataclasses
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kinematics.case import Case
from kinematics.case_file import LARGEST_BYTES, parse_case, read_case
from kinematics.checks import InputError


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
