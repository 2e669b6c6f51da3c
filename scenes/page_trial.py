"""Changes of single teeth on the page: what it offers, and what it is told of teeth before them."""

from collections.abc import Mapping
from dataclasses import dataclass, fields
from functools import cache
from typing import Any, Final

import numpy as np
from pydantic import TypeAdapter

from kinematics.case import Case
from kinematics.casts.casts import Arch
from kinematics.contact.mounted import MountedCasts
from kinematics.conventions import Floats
from kinematics.geometry.meshes import part_of
from kinematics.geometry.poses import move_points
from kinematics.mounting import Teeth, lower_moved
from kinematics.tooth_codes import PERMANENT, is_upper
from kinematics.trial.settings import AMOUNTS, MOST_CHANGES, Change, Kind
from scenes.arch_scenes import LOWER, UPPER
from scenes.scene import Part
from scenes.tooth_names import tooth_name

#: Role of the parts that show teeth as they were.
BEFORE: Final = "before"

#: Of every kind: what it is called, what is said to be done, and what it does.
_KINDS: Final[dict[Kind, tuple[str, str, str]]] = {
    "lower": ("Lower", "lowered", "Away from the opponent, along the tooth's own long axis."),
    "raise": ("Raise", "raised", "Towards the opponent, along the tooth's own long axis."),
    "move": ("Move", "moved", "Square to the long axis, without tilting."),
    "tilt": (
        "Tilt",
        "tilted",
        "About the middle of the crown, so that its edge or table goes this way.",
    ),
    "turn": ("Turn", "turned", "About the tooth's own long axis."),
    "flatten": (
        "Flatten a cusp",
        "flattened",
        "Everything goes that stands above a plane square to the long axis, so far below the "
        "highest point.",
    ),
    "wear": (
        "Wear",
        "worn",
        "A flat facet along the plane of the neighbouring tips, so far below the point that "
        "stands highest over it, as attrition leaves it.",
    ),
    "steepen": (
        "Build up to guide more steeply",
        "built up",
        "The guiding surface of a front tooth, lingual of an upper and facial of a lower one: so "
        "much at its edge, and nothing where it begins below the edge.",
    ),
    "crown": (
        "Give it a new crown",
        "given a crown",
        "A built-in crown in place of the tooth's own, as wide and as thick, set up against its "
        "opponents until it just stops.",
    ),
    "remove": (
        "Remove",
        "removed",
        "The tooth is taken out, unless the case names it elsewhere, as an abutment for instance.",
    ),
    "add": (
        "Add",
        "added",
        "A built-in crown where the tooth is missing, as wide as its space, set up against its "
        "opponents until it just stops.",
    ),
}


#: Which teeth kinds are for that are not for all that stand.
_OF: Final[dict[Kind, str]] = {"add": "missing", "steepen": "front"}


@dataclass(frozen=True)
class _Amount:
    """How the page asks for an amount of a change.

    Attributes
    ----------
    label, unit : str
        As they stand at its field.
    step : float
        Of the field, and the least amount where 0 is not accepted.
    start : float
        What the field begins with.
    said : tuple of str
        How it is said; a second way is that of negative amounts.
    """

    label: str
    unit: str
    step: float
    start: float
    said: tuple[str, ...]


_FACIAL: Final = "To the facial (− lingual)"
_MESIAL: Final = "To the mesial (− distal)"
_ALONG: Final = ("{} mesially", "{} distally")
_ACROSS: Final = ("{} facially", "{} lingually")
_AMOUNTS: Final = {
    "by_mm": _Amount("By how much", "mm", 0.01, 0.2, ("by {}",)),
    "from_mm": _Amount(
        "Beginning below the edge", "mm", 0.1, 3.0, ("beginning {} below its edge",)
    ),
    "mesial_mm": _Amount(_MESIAL, "mm", 0.05, 0.0, _ALONG),
    "facial_mm": _Amount(_FACIAL, "mm", 0.05, 0.0, _ACROSS),
    "mesial_deg": _Amount(_MESIAL, "°", 0.5, 0.0, _ALONG),
    "facial_deg": _Amount(_FACIAL, "°", 0.5, 0.0, _ACROSS),
    "by_deg": _Amount(
        "Mesial end to the facial (− lingual)",
        "°",
        1.0,
        0.0,
        ("{} with its mesial end to the facial", "{} with its mesial end to the lingual"),
    ),
}


@cache
def trial_offered() -> Mapping[str, Any]:
    """Return all changes that the page offers, and the teeth that can be added."""
    limits = TypeAdapter(Change).json_schema()["properties"]
    return {
        "most": MOST_CHANGES,
        "kinds": [
            {
                "kind": kind,
                "title": title,
                "done": done,
                "help": words,
                "of": _OF.get(kind, "standing"),
                "amounts": [_amount_told(name, limits[name]) for name in AMOUNTS[kind]],
            }
            for kind, (title, done, words) in _KINDS.items()
        ],
        "teeth": [{"tooth": code, "name": tooth_name(code)} for code in PERMANENT],
    }


def _amount_told(name: str, schema: Mapping[str, Any]) -> Mapping[str, Any]:
    """Return what the field of an amount needs; limits are those of the case file."""
    amount = _AMOUNTS[name]
    limits = next(option for option in schema["anyOf"] if option.get("type") != "null")
    return {
        "name": name,
        "type": "number",
        "label": amount.label,
        "unit": amount.unit,
        "least": limits.get("minimum", amount.step),
        "most": limits["maximum"],
        "step": amount.step,
        "start": amount.start,
        "decimals": len(f"{amount.step:g}".partition(".")[2]),
        "said": list(amount.said),
        "whole": False,
        "optional": False,
    }


def trial_of(case: Case) -> list[Mapping[str, Any]]:
    """Return the changes of a case as the page keeps them: what is not given left out."""
    return [
        {
            field.name: value
            for field in fields(change)
            if (value := getattr(change, field.name)) is not None
        }
        for change in case.change
    ]


def parts_before(case: Case, teeth: Teeth, casts: MountedCasts) -> tuple[Part, ...]:
    """Return every changed tooth as it was, where it would stand in MI of the changed casts.

    Parameters
    ----------
    case : Case
        What was changed.
    teeth : Teeth
        Its teeth.
    casts : MountedCasts
        The same on its guidance.
    """
    unchanged = teeth.unchanged
    if unchanged is None:
        return ()
    hinge_from_lower = casts.mi_pose @ lower_moved(teeth, casts)
    found = []
    for code in sorted({change.tooth for change in case.change}):
        upper = is_upper(code)
        arch = unchanged.upper if upper else unchanged.lower
        if code in arch.codes:
            found.append(_as_it_was(arch, code, None if upper else hinge_from_lower))
    return tuple(found)


def _as_it_was(arch: Arch, code: int, hinge_from_arch: Floats | None) -> Part:
    mesh, _ = part_of(arch.mesh, np.asarray(arch.tooth_of_face == code))
    vertices = mesh.vertices
    if hinge_from_arch is not None:
        vertices = move_points(hinge_from_arch, vertices)
    return Part(BEFORE, vertices, mesh.faces, cast=UPPER if hinge_from_arch is None else LOWER)
