"""What of one run can flip: how grave a finding is, that two teeth touch, what a text says."""

import json
import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Final, Literal

from kinematics.engine.plan import ColumnKind, Row
from kinematics.planning.findings import SEVERITIES, Severity
from kinematics.studies.point import FINDINGS, REFUSED

Kind = Literal["finding", "contact", "text"]
#: What is said of teeth that touch; nothing where not.
HOLDS: Final = "holds"
_PAIR: Final = re.compile(r"(\d\d)-(\d\d)")
_NONE: Final = (0, 0)


@dataclass(frozen=True, order=True)
class Feature:
    """Something that is so at one place and otherwise at another.

    Attributes
    ----------
    kind : {"finding", "contact", "text"}
        A finding about a tooth pair, a tooth pair that touches, or a quantity in words.
    name : str
        Kind of the finding, else the quantity.
    excursion : str
        Of a finding; empty for MI and CR.
    pair : (int, int)
        Upper and lower tooth, 0 where none is named.
    """

    kind: Kind
    name: str
    excursion: str = ""
    pair: tuple[int, int] = _NONE


#: What a run says of every feature, of a finding how grave it is; of those left out nothing.
Told = Mapping[Feature, str]


def told(row: Row, columns: Mapping[str, ColumnKind]) -> Told:
    """Return what one run says of all features.

    Parameters
    ----------
    row : Row
        The run.
    columns : mapping of str to ColumnKind
        What its columns hold.

    Notes
    -----
    A finding is taken apart into its tooth pairs. So findings of two runs are about the same where
    they share kind, excursion and a pair, however pairs are put together in either. Of a pair that
    is in several, the gravest counts.
    """
    found: dict[Feature, str] = {}
    for feature, severity in _severities(row):
        found[feature] = max(found.get(feature, ""), severity, key=gravity)
    for name, kind in columns.items():
        if kind == "text" and name != REFUSED:
            found[Feature("text", name)] = str(row[name])
        elif kind == "texts" and name != FINDINGS:
            found.update((feature, HOLDS) for feature in _touching(name, _texts(row, name)))
    return found


def _severities(row: Row) -> Iterator[tuple[Feature, Severity]]:
    """Yield every finding of a run by its tooth pairs, with its severity."""
    for text in _texts(row, FINDINGS):
        entry = json.loads(text)
        yield from ((feature, entry[2]) for feature in _features(entry))


def gravity(said: str) -> int:
    """Return how grave what is said of a finding is: 0 where it does not hold."""
    return ("", *SEVERITIES).index(said)


def differing(one: Told, other: Told) -> list[Feature]:
    """Return the features of which two runs do not say the same, in order."""
    return sorted(
        feature for feature in {*one, *other} if one.get(feature, "") != other.get(feature, "")
    )


def _texts(row: Row, column: str) -> Iterable[str]:
    value = row[column]
    return () if isinstance(value, int | float | str) else value


def _features(entry: list[object]) -> Iterator[Feature]:
    kind, excursion, _, pairs = entry[:4]
    assert isinstance(pairs, list)
    for upper, lower in pairs or [_NONE]:
        yield Feature("finding", str(kind), str(excursion or ""), (upper or 0, lower or 0))


def _touching(name: str, pairs: Iterable[str]) -> Iterator[Feature]:
    for text in pairs:
        both = _PAIR.fullmatch(text)
        if both is not None:
            yield Feature("contact", name, "", (int(both[1]), int(both[2])))
