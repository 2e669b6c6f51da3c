"""In which settings a case differs from the one it was made from, in words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from kinematics.trial.settings import Change
from kinematics.trial.wording import change_words
from scenes.report_tables import Table
from scenes.setting_tables import NOT_GIVEN, SettingRow

_SIDES: Final = (", right", ", left")
_BOTH: Final = ", right and left"
#: Group of settings that stand in no table of their own.
_WHOLE_CASE: Final = "case"
_SET_UP: Final = "trial set-up"
_UNCHANGED: Final = "unchanged"


@dataclass(frozen=True)
class ChangedSetting:
    """One setting that was changed, or the same one of both sides.

    Attributes
    ----------
    group, name : str
        As in the tables of settings.
    now, before : str
        Values with their units; `before` is empty where there was no such setting.
    """

    group: str
    name: str
    now: str
    before: str

    @property
    def named(self) -> str:
        """The setting with its group."""
        return self.name if self.group == _WHOLE_CASE else f"{self.group}: {self.name}"

    @property
    def was(self) -> str:
        """The value before, in words where there was none."""
        return self.before or ("given" if self.now == NOT_GIVEN else NOT_GIVEN)

    @property
    def text(self) -> str:
        """The setting and both values."""
        return f"{self.named} {self.now} (before: {self.was})"


def changed_table(changed: Sequence[ChangedSetting]) -> Table:
    """Return changed settings with both values."""
    rows = tuple((item.named, item.now, item.was) for item in changed)
    return Table(("changed setting", "now", "before"), rows)


def changed_settings(
    before: Sequence[SettingRow], now: Sequence[SettingRow]
) -> tuple[ChangedSetting, ...]:
    """Return the settings that differ, in the order of the tables.

    Settings of a table that is no longer there, or that have no effect any more, are left out: that
    the table is not given, or what made them void, is among the others.
    """
    values = {(row.group, row.name): row.shown for row in before}
    tables = {row.group for row in before}
    found = []
    for row in now:
        was = values.get((row.group, row.name), "")
        unset = not was and row.value == NOT_GIVEN and f"{row.group}, {row.name}" not in tables
        if was != row.shown and not unset:
            found.append(ChangedSetting(row.group, row.name, row.shown, was))
    return tuple(_sides_together(found))


def changed_set_up(before: Sequence[Change], now: Sequence[Change]) -> tuple[ChangedSetting, ...]:
    """Return of which teeth a trial set-up differs, each with all that is done to it.

    Where the same is done to every tooth, but not in the same order of teeth, that order is told.
    """
    was, does = (_by_tooth(changes) for changes in (before, now))
    found = [
        ChangedSetting(_SET_UP, str(tooth), does.get(tooth, _UNCHANGED), was.get(tooth, _UNCHANGED))
        for tooth in dict.fromkeys([*does, *was])
        if does.get(tooth) != was.get(tooth)
    ]
    if not found and tuple(before) != tuple(now):
        orders = (", ".join(str(change.tooth) for change in changes) for changes in (now, before))
        found.append(ChangedSetting(_SET_UP, "order", *orders))
    return tuple(found)


def _by_tooth(changes: Sequence[Change]) -> dict[int, str]:
    """Return what is done to every tooth, in order, without its number."""
    done: dict[int, list[str]] = {}
    for change in changes:
        done.setdefault(change.tooth, []).append(
            change_words(change).removeprefix(f"{change.tooth} ")
        )
    return {tooth: ", then ".join(words) for tooth, words in done.items()}


def _sides_together(found: Sequence[ChangedSetting]) -> Iterator[ChangedSetting]:
    """Yield changes, those that are the same on the right and the left as one."""
    right, left = _SIDES
    known = set(found)
    for item in found:
        stem = item.group.removesuffix(right).removesuffix(left)
        both = all(
            ChangedSetting(stem + side, item.name, item.now, item.before) in known
            for side in _SIDES
        )
        if not both:
            yield item
        elif item.group.endswith(right):
            yield ChangedSetting(stem + _BOTH, item.name, item.now, item.before)
