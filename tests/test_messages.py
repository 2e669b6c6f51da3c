"""What a user reads when an input cannot be used: where, what came, what fits, what to do."""

import re
from pathlib import Path

import pytest

from kinematics.case_file import parse_case, read_case
from kinematics.checks import InputError
from kinematics.toml_text import LARGEST_BYTES
from scenes.case_places import DEFAULT_CASE, case_names, case_text
from scenes.command_line import main
from scenes.given_case import find_case
from scenes.output_folder import folder_in_one_piece

#: Text of a case file, and each line of the complaint under its heading.
CASE_FILES = {
    "unknown key, with the nearest and all known ones": (
        "titel = 'x'",
        r"titel: unknown key; did you mean 'title'\? known keys: title, note, guidance, .*",
    ),
    "unknown key that resembles none": (
        "[guidance.right]\nzzz = 1",
        r"guidance\.right\.zzz: unknown key; known keys: condylar_inclination_deg, path, .*",
    ),
    "key that needs quotes": (
        '"a b\\u001b" = 1',
        r'"a b\\u001b": unknown key; known keys: .*',
    ),
    "angle out of range": (
        "guidance.left.condylar_inclination_deg = 95",
        r"guidance\.left\.condylar_inclination_deg = 95: must be 0 to 80 degrees",
    ),
    "length out of range": (
        "guidance.intercondylar_distance_mm = -3.5",
        r"guidance\.intercondylar_distance_mm = -3\.5: must be 60 to 160 mm",
    ),
    "open range": (
        "lateroprotrusion_azimuths_deg = [90]",
        r"lateroprotrusion_azimuths_deg\[0\] = 90: "
        r"must be more than -90 degrees and less than 90 degrees",
    ),
    "range of a setting that may be left out": (
        "guidance.left.bennett_angle_deg = 60",
        r"guidance\.left\.bennett_angle_deg = 60: must be 0 to 45 degrees",
    ),
    "text in place of a number": (
        "maximal_intercuspation.shift_mm = '1'",
        r'maximal_intercuspation\.shift_mm = "1": must be a number, -3 to 3 mm',
    ),
    "number in place of a text": (
        "note = 3",
        r"note = 3: must be a text in quotes, 0 to 2000 letters long",
    ),
    "text too long": (
        f"title = '{'x' * 201}'",
        r'title = "x+\.\.\.: must be 1 to 200 letters long',
    ),
    "word in place of true or false": (
        "guidance.right.pure_rotation = 'yes'",
        r'guidance\.right\.pure_rotation = "yes": must be true or false',
    ),
    "not one of the words": (
        "guidance.right.path = 'curvd'",
        r"guidance\.right\.path = \"curvd\": must be one of 'straight', 'curved', 'measured'; "
        r"did you mean 'curved'\?",
    ),
    "number in place of a table": (
        "guidance = 3",
        r"guidance = 3: must be a table of keys and values",
    ),
    "number in place of a list": (
        "judging.readings_mm = 3",
        r"judging\.readings_mm = 3: must be a list in square brackets",
    ),
    "list of the wrong length": (
        "guidance.left.path = 'measured'\nguidance.left.measured_points = [[0, 0], [1, 2, 3]]",
        r"guidance\.left\.measured_points\[1\] = \[1, 2, 3\]: must be 2 entries long",
    ),
    "empty list": (
        "denture_bases = [{name = 'a', teeth = []}]",
        r"denture_bases\[0\]\.teeth = \[\]: must be 1 or more entries long",
    ),
    "broken tooth number": (
        "denture_bases = [{name = 'a', teeth = [16.5]}]",
        r"denture_bases\[0\]\.teeth\[0\] = 16\.5: must be a whole number",
    ),
    "no tooth": (
        "denture_bases = [{name = 'a', teeth = [19]}]",
        r"denture_bases\[0\]: tooth of base 'a' = 19: not a tooth number of ISO 3950; .*",
    ),
    "missing key": (
        "denture_bases = [{teeth = [16]}]",
        r"denture_bases\[0\]\.name: missing; this must be given",
    ),
    "not a number": (
        "guidance.right.fischer_deg = nan",
        r"guidance\.right\.fischer_deg = nan: must be a finite number",
    ),
    "key of a table that is no tooth number": (
        "dentition.wear_mm = {a13 = 0.2}",
        r"dentition\.wear_mm\.a13: this key must be a whole number",
    ),
    "value in a table of teeth": (
        "dentition.wear_mm = {13 = 9}",
        r"dentition\.wear_mm\.13 = 9: must be 0 to 0\.8 mm",
    ),
    "replacement teeth said twice, differently": (
        "dentition.replacements = [15]",
        r"dentition\.replacements = \[15\], but denture bases and bridges carry \[\]: leave .*",
    ),
    "tooth on two bases": (
        "denture_bases = [{name = 'a', teeth = [16]}, {name = 'b', teeth = [16]}]",
        r"denture_bases: 16 stands on two bases; name it once",
    ),
    "two bases of one name": (
        "denture_bases = [{name = 'a', teeth = [16]}, {name = 'a', teeth = [26]}]",
        r"denture_bases: two bases are called 'a'; give each its own name",
    ),
    "tooth that is not there": (
        "dentition.missing = [14]\ndenture_bases = [{name = 'a', teeth = [16], abutments = [14]}]",
        r"denture base 'a': the dentition has no tooth 14; accepted are .*",
    ),
    "replacement tooth that has over-erupted": (
        "dentition.over_erupted_mm = {16 = 1}\ndenture_bases = [{name = 'a', teeth = [16]}]",
        r"denture base 'a': 16 is a replacement tooth and cannot be in dentition\.over_erupted_mm",
    ),
    "abutment that is itself replaced": (
        "denture_bases = [{name = 'a', teeth = [16], abutments = [15]}, "
        "{name = 'b', teeth = [15]}]",
        r"denture base 'a': its abutment 15 is a replacement tooth; an abutment is a natural .*",
    ),
    "a date": (
        "note = 2020-01-02",
        r"note = 2020-01-02: no setting is a date or time; put a text in quotes",
    ),
    "settings that contradict each other": (
        "guidance.left.bennett_angle_deg = 9\nguidance.left.progressive_shift_deg = 9",
        r"guidance\.left: bennett_angle_deg = 9 and progressive_shift_deg = 9 .*: give one",
    ),
}

SYNTAX = {
    "key without a value": ("a =\n", r"not valid TOML: Invalid value \(at line 1, column 4\).*"),
    "key given twice": ("a = 1\na = 2\n", r"not valid TOML: Cannot overwrite a value .*keep one.*"),
    "table given twice": ("[a]\n[a]\n", r"not valid TOML: Cannot declare .*keep one.*"),
    "brackets without end": ("a = " + "[" * 5000, r"brackets are nested too deeply; .*"),
    "endless number": ("a = " + "9" * 5000, r"holds a number of more than 4000 digits"),
}


def _refusal(call, *arguments):
    with pytest.raises(InputError) as caught:
        call(*arguments)
    return str(caught.value)


@pytest.mark.parametrize("text, wanted", CASE_FILES.values(), ids=CASE_FILES)
def test_a_fault_in_a_case_file(text, wanted):
    """One fault is one line: the key path, what was found, what is accepted."""
    heading, line = _refusal(parse_case, text, "c.toml").splitlines()
    assert heading == "c.toml: 1 fault"
    assert re.fullmatch(rf"  {wanted}", line)


@pytest.mark.parametrize("text, wanted", SYNTAX.values(), ids=SYNTAX)
def test_a_file_that_is_not_toml(text, wanted):
    """The message says what is wrong, and where as far as it can be told."""
    assert re.fullmatch(f"c.toml: {wanted}", _refusal(parse_case, text, "c.toml"), re.DOTALL)


def test_a_file_that_cannot_be_read(tmp_path):
    """Missing, a folder, not text, too large, an impossible name: one clear line each."""
    missing = tmp_path / "missing.toml"
    assert _refusal(read_case, missing) == f"{missing}: there is no such file"
    assert _refusal(read_case, tmp_path) == f"{tmp_path}: is a folder; give the case file in it"
    path = tmp_path / "c.toml"
    path.write_text("title = 'ä'", "latin-1")
    assert _refusal(read_case, path) == (
        f"{path}: byte 10 is not UTF-8 text; save the file as UTF-8"
    )
    path.write_bytes("\ufefft".encode("utf-16-le") + b"x")
    assert _refusal(read_case, path) == (
        f"{path}: byte 5 is not UTF-16 text; save the file as UTF-8"
    )
    path.write_bytes(b"\0" * (LARGEST_BYTES + 1))
    assert _refusal(read_case, path).startswith(f"{path}: larger than 1 MB; a case file is a page")
    assert "cannot be read" in _refusal(read_case, Path("a\0b"))
    assert "cannot be read" in _refusal(read_case, path / "below")
    assert "cannot be read (File name too long)" in _refusal(read_case, Path("a" * 300 + ".toml"))


def test_a_case_that_is_neither_a_file_nor_built_in():
    """The nearest built-in name is offered, and all are listed."""
    wrong = DEFAULT_CASE[:-2]
    message = _refusal(find_case, wrong)
    assert message.startswith(
        f"{wrong}: neither a file nor a built-in case; did you mean '{DEFAULT_CASE}'? "
        f"built-in cases are: {case_names()[0]}"
    )
    assert _refusal(case_text, wrong).startswith(
        f"{wrong}: no such built-in case; did you mean '{DEFAULT_CASE}'? there are:"
    )
    for path in ("mine.toml", "cases/mine", f"{DEFAULT_CASE}.toml"):
        message = _refusal(find_case, path)
        assert message.startswith(f"{path}: there is no such file; built-in cases are: ")


def _open(out):
    with folder_in_one_piece(out):
        pass


def test_a_folder_that_must_not_be_replaced(tmp_path):
    """What stands in the way is named, and what to do about it."""
    (tmp_path / "file").touch()
    assert _refusal(_open, tmp_path / "file") == (
        f"--out {tmp_path / 'file'}: this is a file; give a folder that is new, empty or ours"
    )
    theirs = tmp_path / "theirs"
    theirs.mkdir()
    (theirs / "photo.jpg").touch()
    assert _refusal(_open, theirs) == (
        f"--out {theirs}: the folder holds other files (such as photo.jpg) and was not written by "
        "cuspway, so it is left alone; give a new or an empty folder"
    )


@pytest.mark.parametrize(
    "arguments, wanted",
    [
        (["chekc"], "argument COMMAND: invalid choice: 'chekc'"),
        (["check"], "the following arguments are required: --out"),
        (["check", "--out", "x", "--fail-on", "grave"], "invalid choice: 'grave'"),
        (["check", "--out", "x", "--threads", "0"], "'0': must be a whole number from 1 to 256"),
        (["check", "--out", "x", "--threads", "two"], "'two': must be a whole number from 1 to"),
        (["check", "--out", "x", "a", "b"], "unrecognized arguments: b"),
        (["check", "--outt", "x"], "the following arguments are required: --out"),
    ],
)
def test_arguments_that_cannot_be_used(arguments, wanted, capsys):
    """The parser ends with exit code 2 and says what is wrong with which argument."""
    with pytest.raises(SystemExit) as caught:
        main(arguments)
    assert caught.value.code == 2
    assert wanted in capsys.readouterr().err
