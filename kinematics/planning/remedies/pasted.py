"""A remedy as entries of a case file, ready to be pasted into one."""

import json
from collections.abc import Iterator
from dataclasses import fields
from typing import Any, Final

from kinematics.planning.adjusting.settings import KEY as CUTS
from kinematics.planning.remedies.found import Remedy
from kinematics.trial.rules import KEY as CHANGES

#: Said behind what would otherwise raise a question.
_MEANINGS: Final = {
    "margin_mm": "  # along the closing arc; on a slope the shortest distance is less",
}


def pasted(remedy: Remedy) -> str:
    """Return what a case file would say; empty where nothing was found."""
    told = ["\n".join(_lines(CHANGES, change)) for change in remedy.changes]
    if remedy.adjustment is not None:
        told.append("\n".join(_lines(CUTS, remedy.adjustment)))
    return "\n\n".join(told)


def _lines(key: str, entry: Any) -> Iterator[str]:
    """Yield the lines of one entry: what differs from its defaults."""
    yield f"[[{key}]]"
    for field in fields(entry):
        value = getattr(entry, field.name)
        if value != field.default:
            yield f"{field.name} = {json.dumps(value)}{_MEANINGS.get(field.name, '')}"
