"""Case files edited as by hand: what changes, what stays, and what is not dared."""

import json

import pytest

from kinematics.case_by_records import case_by_records
from kinematics.case_changes import changed_case
from kinematics.case_file import parse_case, read_case
from kinematics.case_text import edited_text, has_comments
from scenes import command_line
from scenes.case_places import case_names, case_text
from tests.test_records_command import case_of

REMARKED = """# A case of two records.
title = "Found # by records"   # its title

[guidance]   # measured
reference_plane = "occlusal"

[guidance.right]
condylar_inclination_deg = 35.0     # mean value
# nothing is known of the shift
bennett_angle_deg = 12.0            # as set

[judging]
scheme = "canine"  # aimed at
readings_mm = [
    1.0,  # near
    2.0,
]
"""


def remarked(case):
    """Return a commented case file with the records of a case."""
    records = "".join(
        f'\n[[interocclusal_records]]  # number {number}\nkind = "{record.kind}"\n'
        f"transform = {json.dumps(record.transform)}\n"
        for number, record in enumerate(case.interocclusal_records)
    )
    return REMARKED + records


@pytest.mark.parametrize("seed", range(10))
def test_settings_found_are_edited_in_and_every_comment_stays(seed):
    """The same case as without comments; lines that do not change are the same lines."""
    text = remarked(case_of(seed=seed))
    before = parse_case(text, "case")
    after = case_by_records(before).case
    edited = edited_text(text, before, after)
    assert edited is not None
    assert parse_case(edited, "edited") == after
    for comment in ("# A case of two", "# its title", "# measured", "# mean value",
                    "# nothing is known", "# aimed at", "# near", "# number 5"):  # fmt: skip
        assert comment in edited
    assert "# as set" in edited
    unchanged = set(text.split("\n")) - set(edited.split("\n"))
    assert all("deg = " in line for line in unchanged)
    if after.guidance.right.bennett_angle_deg is None:
        assert "# no longer set: bennett_angle_deg = 12.0            # as set" in edited


@pytest.mark.parametrize("name", case_names())
def test_built_in_cases_can_be_edited(name):
    """Their many comments stay."""
    text = case_text(name)
    before = parse_case(text, name)
    after = changed_case(
        before, {"guidance.left.condylar_inclination_deg": 41.5, "judging.near_mi_mm": 0.4}
    )
    edited = edited_text(text, before, after)
    assert edited is not None
    assert parse_case(edited, "edited") == after
    assert edited.count("#") >= text.count("#") - 1


@pytest.mark.parametrize(
    "text",
    [
        "guidance = { right = { condylar_inclination_deg = 30.0 } }  # inline\n",
        "guidance.right.condylar_inclination_deg = 30.0  # dotted\n",
        '[guidance]\n"right" = { condylar_inclination_deg = 30.0 }  # quoted\n',
    ],
)
def test_what_cannot_be_edited_line_by_line_is_left_alone(text):
    """Nothing is returned rather than something wrong."""
    before = parse_case(text, "case")
    right = parse_case("[guidance.right]\ncondylar_inclination_deg = 31.0\n", "case")
    assert edited_text(text, before, right) is None
    assert edited_text(text, before, before) == text


def test_comments_are_seen_where_they_are():
    """Signs within texts are none."""
    assert has_comments("# a remark\n")
    assert has_comments('title = "a # b"  # c\n')
    assert not has_comments('title = "a # b"\n[guidance]\n')


def test_the_command_keeps_comments_and_says_so(tmp_path, capsys):
    """In its last line."""
    path, made = tmp_path / "case.toml", tmp_path / "set.toml"
    path.write_text(remarked(case_of(seed=1)), "utf-8")
    assert command_line.main(["records", str(path), "--write", str(made)]) == 0
    assert "Comments of the old file are kept." in capsys.readouterr().out
    assert "# mean value" in made.read_text("utf-8")
    assert read_case(made).guidance_spread is not None


def test_the_command_says_where_comments_cannot_be_kept(tmp_path, capsys):
    """A file whose settings stand within one line."""
    path, made = tmp_path / "case.toml", tmp_path / "set.toml"
    records = remarked(case_of(seed=1)).partition("\n[[interocclusal")
    inline = "guidance = { right = { condylar_inclination_deg = 30.0 } }  # inline\n"
    path.write_text(inline + records[1] + records[2], "utf-8")
    assert command_line.main(["records", str(path), "--write", str(made)]) == 0
    assert "Comments of the old file are not taken along" in capsys.readouterr().out
    assert "#" not in made.read_text("utf-8")
