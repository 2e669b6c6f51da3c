"""Cases that a command names; mistakes are refused before what computes is fetched."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kinematics.case import Case


def refuse_unusable(out: Path | None, *given: str | None) -> None:
    """Refuse cases that are not there and a folder that cannot be written, first of all."""
    from scenes.case_places import refuse_unless_there
    from scenes.output_folder import refuse_unless_writable

    for name in given:
        refuse_unless_there(name)
    if out is not None:
        refuse_unless_writable(out)


def asked_cases(out: Path | None, *given: str | None) -> "list[Case]":
    """Return the cases that a user names; mistakes are refused before what computes is fetched."""
    refuse_unusable(out, *given)

    from scenes.given_case import find_case

    return [find_case(name) for name in given]
