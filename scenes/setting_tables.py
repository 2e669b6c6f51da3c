"""Settings as tables: one a group, and what is set for both sides side by side."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Final

from scenes.report_tables import Table

#: Shown for a setting without a value.
NOT_GIVEN: Final = "not given"
_RIGHT: Final = ", right"
_LEFT: Final = ", left"


@dataclass(frozen=True)
class SettingRow:
    """One setting as text."""

    group: str
    name: str
    value: str
    unit: str

    @property
    def shown(self) -> str:
        """The value with its unit."""
        return f"{self.value}{'' if self.unit == '°' else ' '}{self.unit}".rstrip()


def setting_tables(settings: Sequence[SettingRow]) -> tuple[Table, ...]:
    """Return a table for every group; rows of a group stand together.

    Groups of the right and the left that hold the same settings become one table.
    """
    groups = [(group, list(rows)) for group, rows in groupby(settings, lambda row: row.group)]
    tables: list[Table] = []
    before: tuple[str, list[SettingRow]] = ("", [])
    for group, rows in groups:
        if _is_other_side(before, (group, rows)):
            both = zip(before[1], rows, strict=True)
            told = tuple((right.name, right.shown, left.shown) for right, left in both)
            tables[-1] = Table((group.removesuffix(_LEFT), "right", "left"), told)
        else:
            tables.append(Table((group,), tuple((row.name, row.shown) for row in rows)))
        before = (group, rows)
    return tuple(tables)


def _is_other_side(right: tuple[str, list[SettingRow]], left: tuple[str, list[SettingRow]]) -> bool:
    """Tell whether two groups are the right and the left of one, with the same settings."""
    sides = right[0].endswith(_RIGHT) and left[0].endswith(_LEFT)
    same_group = right[0].removesuffix(_RIGHT) == left[0].removesuffix(_LEFT)
    return sides and same_group and [r.name for r in right[1]] == [r.name for r in left[1]]
