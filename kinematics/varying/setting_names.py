"""Which settings can be varied, by their names, and which are nearest to a misspelt one."""

from collections.abc import Iterator, Mapping
from difflib import SequenceMatcher
from typing import Final

from kinematics.case import Case
from kinematics.case_values import has_setting, is_table, numbers_in, values_of
from kinematics.uncertainty.hinge_axis import AXIS

_SIDES: Final = ("right", "left")
_GUIDANCE: Final = "guidance"
#: How far settings may be off: that no run depends on.
_SPREAD: Final = "guidance_spread."
#: So alike, 0 to 1, is the least that is suggested, and so many at most.
_LEAST_ALIKE: Final = 0.7
_MOST_SUGGESTED: Final = 3
#: Names whose words are alike, not as a whole, count so much.
_BY_WORDS: Final = 0.95


def paths_of(setting: str) -> tuple[str, ...]:
    """Return the settings that are meant: of guidance without a side those of both."""
    table, _, key = setting.rpartition(".")
    own = has_setting((_GUIDANCE,), key)
    if table == _GUIDANCE and not own and has_setting((_GUIDANCE, _SIDES[0]), key):
        return tuple(f"{_GUIDANCE}.{side}.{key}" for side in _SIDES)
    return (setting,)


def is_setting(setting: str) -> bool:
    """Tell whether every table on the way to a setting has what is named; entries are not told."""
    if setting in AXIS:
        return True
    *tables, key = paths_of(setting)[0].split(".")
    way: tuple[str, ...] = ()
    for step in (*tables, key):
        name = step.partition("[")[0]
        if is_table(way) and not has_setting(way, name):
            return False
        if "[" in step:  # of lists the case tells what they hold
            return True
        way = (*way, name)
    return True


def known_settings(case: Case) -> Iterator[str]:
    """Yield the settings that are numbers, of guidance also for both sides at once.

    Those of all tables, also where the case does not set them, and those of its own entries of
    lists and of teeth.
    """
    of_tables = (".".join(map(str, at)) for at in numbers_in())
    for path in dict.fromkeys([*_numbers(values_of(case, all_of_them=True), ""), *of_tables]):
        yield path
        if path.startswith(f"{_GUIDANCE}.{_SIDES[0]}."):
            yield path.replace(f".{_SIDES[0]}.", ".", 1)
    yield from AXIS


def _numbers(values: object, path: str) -> Iterator[str]:
    if isinstance(values, Mapping):
        for key, value in values.items():
            yield from _numbers(value, f"{path}.{key}" if path else str(key))
    elif isinstance(values, list):
        for number, value in enumerate(values):
            yield from _numbers(value, f"{path}[{number}]")
    elif isinstance(values, float):
        yield path


def nearest_settings(case: Case, setting: str) -> str:
    """Return a hint naming the settings nearest to a misspelt one, or where all are told."""
    known = (path for path in known_settings(case) if not path.startswith(_SPREAD))
    alike = {path: _alike(setting, path) for path in known}
    near = sorted(
        (path for path, (most, _) in alike.items() if most >= _LEAST_ALIKE),
        key=alike.__getitem__,
        reverse=True,
    )
    listed = " or ".join(f"'{path}'" for path in near[:_MOST_SUGGESTED])
    return f"; did you mean {listed}?" if near else "; `cuspway settings` tells all there are"


def _alike(one: str, other: str) -> tuple[float, float]:
    """Return how alike two settings are, by whole paths or last parts, and then by the former."""
    whole = _ratio(one, other)
    last, other_last = (path.rpartition(".")[2] for path in (one, other))
    words = [max(_ratio(word, of) for of in other_last.split("_")) for word in last.split("_")]
    by_words = _BY_WORDS * sum(words) / len(words)
    return max(whole, _ratio(last, other_last), by_words), whole


def _ratio(one: str, other: str) -> float:
    return SequenceMatcher(None, one, other, autojunk=False).ratio()
