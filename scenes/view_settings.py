"""Settings of guidance that the window offers, those of the page, stepped by keys."""

from collections.abc import Mapping
from typing import Any, Final

from kinematics.case import Case
from kinematics.case_changes import Changed
from scenes.page_controls import SIDES, control_groups, hidden_controls, values_for_page
from scenes.phrases import number

#: Groups of the page that change how the jaw moves, and leave the teeth as they are.
GROUPS: Final = ("condyles", "jaw", "incisal")
BOTH: Final = "both"
#: For which sides a setting is stepped, in the order of the key.
CHOICES: Final = (BOTH, *SIDES)

Control = Mapping[str, Any]


def offered(case: Case) -> tuple[Control, ...]:
    """Return the settings that a case has a use for, in the order of the page."""
    hidden, values = set(hidden_controls(case)), values_for_page(case)
    return tuple(
        {**control, "group": group["title"]}
        for group in control_groups()
        if group["id"] in GROUPS
        for control in group["controls"]
        if control["id"] not in hidden and _is_needed(control, values)
    )


def _is_needed(control: Control, values: Mapping[str, Any]) -> bool:
    """Tell whether what a setting depends on is set, on one side at least."""
    needs = control["needs"] or {}
    return all(
        any(values[path.replace("{side}", side)] == wanted for side in SIDES)
        for path, wanted in needs.items()
    )


def control_named(case: Case, name: str) -> Control:
    """Return the setting of a name; the first one where the case has no use for it any more."""
    known = offered(case)
    return next((one for one in known if one["id"] == name), known[0])


def neighbour(case: Case, name: str, ways: int) -> str:
    """Return the name of the setting some places on, round in a ring."""
    known = [control["id"] for control in offered(case)]
    at = known.index(control_named(case, name)["id"])
    return str(known[(at + ways) % len(known)])


def keys_of(control: Control, side: str) -> tuple[str, ...]:
    """Return the paths in a case file that are stepped."""
    keys = control["keys"]
    return (keys[side],) if side in keys else tuple(keys.values())


def stepped(case: Case, control: Control, side: str, steps: int) -> dict[str, Changed]:
    """Return what a setting would be some steps higher, or lower, by its path in a case file.

    Parameters
    ----------
    case : Case
        As it stands.
    control : Control
        Of `offered`.
    side : str
        Of `CHOICES`.
    steps : int
        Negative: lower. Nothing is refused here: what a value may be, the case knows.
    """
    values = values_for_page(case)
    return {key: _stepped(control, values[key], steps) for key in keys_of(control, side)}


def _stepped(control: Control, value: Changed, steps: int) -> Changed:
    """Return one value some steps on."""
    if control["type"] == "switch":
        return steps > 0
    if control["type"] == "choice":
        known = [choice["value"] for choice in control["choices"]]
        return str(known[min(max(known.index(value) + steps, 0), len(known) - 1)])
    if not isinstance(value, int | float):
        return control["least"] if steps > 0 else None
    if control["optional"] and value <= control["least"] and steps < 0:
        return None
    return round(value + steps * float(control["step"]), control["decimals"])


def setting_words(case: Case, name: str, side: str) -> str:
    """Return what a setting is called, whose it is, and its value with its unit."""
    control = control_named(case, name)
    values = values_for_page(case)
    told = {key: _told(control, values[key]) for key in keys_of(control, side)}
    if len(told) == 1:
        whose = f", {side}" if side in SIDES and side in control["keys"] else ""
        return f"{control['label']}{whose}: {next(iter(told.values()))}"
    if len(set(told.values())) == 1:
        return f"{control['label']}, right and left: {next(iter(told.values()))}"
    apart = ", ".join(f"{one} {told[key]}" for one, key in control["keys"].items())
    return f"{control['label']}: {apart}"


def group_words(case: Case, name: str) -> str:
    """Return to which group of the page a setting belongs, to go on with within a sentence."""
    title = str(control_named(case, name)["group"])
    return title[0].lower() + title[1:]


def step_words(case: Case, name: str) -> str:
    """Return by how much a setting is stepped; empty where there are only choices."""
    control = control_named(case, name)
    if control["type"] != "number":
        return ""
    return f"by {_with_unit(control, float(control['step']))}"


def _told(control: Control, value: Changed) -> str:
    if control["type"] == "switch":
        return "yes" if value else "no"
    if control["type"] == "choice":
        return next(str(one["label"]) for one in control["choices"] if one["value"] == value)
    if not isinstance(value, int | float):
        return "not set"
    return _with_unit(control, float(value))


def _with_unit(control: Control, value: float) -> str:
    """Return a number as exactly as it is stepped, or as exactly as it was given."""
    decimals = max(control["decimals"], len(f"{value:.6g}".partition(".")[2]))
    unit = control["unit"]
    return f"{number(value, decimals)}{unit if unit == '°' else f' {unit}'}"
