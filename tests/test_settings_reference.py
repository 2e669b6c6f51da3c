"""The reference of settings: complete, explained, and a case file of its own."""

import dataclasses
import re
import tomllib
import typing

import pytest

from kinematics.case import Case
from kinematics.case_file import parse_case
from kinematics.planning.joined_teeth import Bridge, Splint
from kinematics.planning.judging import DentureBase
from kinematics.teeth.generated_path_settings import GeneratedPath
from scenes import command_line
from scenes.settings_reference import settings_reference

TEXT = settings_reference()


def test_it_parses_as_the_default_case():
    """What is printed can be saved and used."""
    assert parse_case(TEXT, "reference") == Case()


def groups_of(kind):
    """Return a group of settings and all groups in it, by type hints."""
    found = [kind]
    for hint in typing.get_type_hints(kind).values():
        for part in (hint, *typing.get_args(hint)):
            if dataclasses.is_dataclass(part) and isinstance(part, type):
                found += groups_of(part)
    return found


@pytest.mark.parametrize("kind", sorted(set(groups_of(Case)), key=lambda kind: kind.__name__))
def test_every_setting_is_there_with_its_meaning(kind):
    """Each name, on a line of its own after a comment that says more than its type."""
    lines = TEXT.splitlines()
    for field in dataclasses.fields(kind):
        at = [
            n
            for n, line in enumerate(lines)
            if re.match(rf"(# )?({field.name} = |\[+[a-z_.]*\b{field.name}\]+$)", line)
        ]
        assert at, field.name
        for place in at:
            above = lines[place - 1]
            assert above.startswith("#") and len(above.strip("# ")) > 3, field.name


@pytest.mark.parametrize(
    ("heading", "kind", "given"),
    [
        ("[[denture_bases]]", DentureBase, {"name": '"base"', "teeth": "[16, 17]"}),
        ("[[splints]]", Splint, {"name": '"molars"', "teeth": "[26, 27]"}),
        ("[[bridges]]", Bridge, {"name": '"b"', "pontics": "[16]", "abutments": "[15, 17]"}),
        ("[generated_path]", GeneratedPath, {"teeth": "[14, 15]"}),
    ],
)
def test_commented_groups_can_be_filled_in(heading, kind, given):
    """Taking off the comment signs and filling in what has no default gives valid settings."""
    start = TEXT.index(f"# {heading}\n")
    lines = TEXT[start:].splitlines()
    end = next((n for n, line in enumerate(lines[1:], 1) if re.match(r"# \[", line)), len(lines))
    bare = []
    for line in lines[1:end]:
        found = re.match(r"# (\w+) = (.*)$", line)
        if found:
            value = given.get(found[1], found[2])
            assert value != "...", found[1]
            bare.append(f"{found[1]} = {value}")
    settings = tomllib.loads("\n".join(bare))
    assert kind(**{k: tuple(v) if isinstance(v, list) else v for k, v in settings.items()})


def test_types_are_told_in_words():
    """No word of the programming language stands where a value is described."""
    told = [line for line in TEXT.splitlines() if line.startswith("# ") and " = " not in line]
    assert not [line for line in told if re.search(r"\b(tuple|float|str|bool|None)\b", line)]


def test_the_command_prints_it(capsys):
    """`cuspway settings`."""
    assert command_line.main(["settings"]) == 0
    assert capsys.readouterr().out == TEXT
