"""Wax-ups as the report tells them: what was added to every tooth, and what was taken away."""

from collections.abc import Sequence
from dataclasses import dataclass

from kinematics.planning.wax_up import LEAST_CHANGE_MM, WaxedTooth, WaxUp
from scenes.phrases import number
from scenes.report_tables import Table


@dataclass(frozen=True)
class WaxUpWords:
    """What is said of one wax-up: title, sentence and table (without rows where it is the same)."""

    title: str
    lead: str
    teeth: Table


def wax_up_words(wax_ups: Sequence[WaxUp]) -> tuple[WaxUpWords, ...]:
    """Say what every wax-up changes."""
    return tuple(_words(item) for item in wax_ups)


def _words(item: WaxUp) -> WaxUpWords:
    rows = (*item.teeth, *([item.relief] if item.relief else []))
    same = f"{number(100.0 * item.same_share, 0)} % of its surface is the original"
    what = "Teeth with the changes of the case" if item.by_changes else f"The wax-up {item.name}"
    told = f"{what} against the {item.side} cast: {same}"
    lead = f"{told}." if rows else f"{told}; nothing differs by {LEAST_CHANGE_MM:g} mm or more."
    head = (
        "tooth",
        "added",
        "highest",
        "on a surface of",
        "taken away",
        "deepest",
        "on a surface of",
    )
    return WaxUpWords(f"{item.side.capitalize()} cast", lead, Table(head, tuple(map(_row, rows))))


def _row(tooth: WaxedTooth) -> tuple[str, ...]:
    name = str(tooth.tooth) if tooth.tooth else "gums and ridge (relief)"
    return (
        name,
        *_change(tooth.added_mm3, tooth.most_added_mm, tooth.added_mm2),
        *_change(tooth.removed_mm3, tooth.most_removed_mm, tooth.removed_mm2),
    )


def _change(volume_mm3: float, most_mm: float, area_mm2: float) -> tuple[str, str, str]:
    if area_mm2 == 0.0:
        return "–", "–", "–"
    return f"{number(volume_mm3, 1)} mm³", f"{number(most_mm, 2)} mm", f"{number(area_mm2, 1)} mm²"
