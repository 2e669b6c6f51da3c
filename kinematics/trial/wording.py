"""Changes of a trial set-up in words."""

from collections.abc import Iterable

from kinematics.trial.settings import Change


def change_words(change: Change) -> str:
    """Say what one change does, as "46 lowered by 1.2 mm"."""
    tooth, kind = change.tooth, change.kind
    if kind in ("raise", "lower"):
        done = "raised" if kind == "raise" else "lowered"
        return f"{tooth} {done} by {change.by_mm:g} mm"
    if kind == "move":
        ways = _ways(
            "mm", (change.mesial_mm, "mesially", "distally"), (change.facial_mm, *_FACIALLY)
        )
        return f"{tooth} moved {ways}"
    if kind == "tilt":
        ways = _ways(
            "degrees", (change.mesial_deg, "mesially", "distally"), (change.facial_deg, *_FACIALLY)
        )
        return f"{tooth} tilted {ways}"
    if kind == "turn":
        turn = change.by_deg or 0.0
        way = "facial" if turn >= 0.0 else "lingual"
        return f"{tooth} turned by {abs(turn):g} degrees, its mesial end to the {way}"
    if kind == "flatten":
        return f"{tooth} flattened by {change.by_mm:g} mm"
    if kind == "wear":
        return f"{tooth} worn by {change.by_mm:g} mm"
    if kind == "steepen":
        begin = f"from {change.from_mm:g} mm below its edge on"
        return (
            f"{tooth} built up to guide more steeply, by {change.by_mm:g} mm at its edge, {begin}"
        )
    if kind == "remove":
        return f"{tooth} removed"
    return f"{tooth} added" if kind == "add" else f"{tooth} given a crown"


def set_up_words(changes: Iterable[Change]) -> str:
    """Say what a trial set-up changes; empty where it changes nothing."""
    said = ", ".join(map(change_words, changes))
    return f"trial set-up: {said}" if said else ""


_FACIALLY = ("facially", "lingually")


def _ways(unit: str, *parts: tuple[float | None, str, str]) -> str:
    said = [
        f"{abs(amount):g} {unit} {ahead if amount > 0.0 else back}"
        for amount, ahead, back in parts
        if amount
    ]
    return " and ".join(said) or f"by 0 {unit}"
