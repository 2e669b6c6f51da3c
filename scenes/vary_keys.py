"""Letters and colours of what is said on maps and charts of a variation, and their keys."""

import textwrap
from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Final

from scenes import colours
from scenes.sheet import Boxes, Item, Words

KEY_ROW_MM: Final = 3.9
KEY_PT: Final = 6.6
#: Light tints of Okabe and Ito's colours, which stay apart for every kind of colour vision; letters
#: and lines between them tell regions apart without colour.
TINTS: Final = (
    "#cfe3f1", "#fbe3b5", "#bfe0d2", "#f1cfb8", "#e6e6e6", "#e9cfe0", "#f6f1b4", "#a9c4da",
    "#d8c19a", "#8fbfae", "#c9a28c", "#b0b0b0",
)  # fmt: skip
CAPITALS: Final = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"
SMALL_LETTERS: Final = CAPITALS.lower()


@dataclass(frozen=True)
class KeyRow:
    """One line of a key: a letter on its colour, and words."""

    letter: str
    tint: str
    text: str


@dataclass(frozen=True)
class Alphabet:
    """Texts that maps and charts of a page tell by letter and colour, the same on all of them.

    Attributes
    ----------
    texts : tuple of str
        The most frequent first.
    letters : str
        Of them, in turn.
    """

    texts: tuple[str, ...]
    letters: str = CAPITALS

    def letter(self, label: int) -> str:
        """Return the letter of a text by its number; beyond the last one with a count."""
        round_, place = divmod(label, len(self.letters))
        return self.letters[place] + (str(round_) if round_ else "")

    def key_rows(self, text: str, width: int) -> list[KeyRow]:
        """Return a text in lines of so many letters; the first has its letter."""
        label = self.texts.index(text)
        lines = textwrap.wrap(text, width)
        return [
            KeyRow(self.letter(label), TINTS[label % len(TINTS)], lines[0]),
            *(KeyRow("", "", line) for line in lines[1:]),
        ]


def alphabet_of(said: Iterable[str], letters: str = CAPITALS) -> Alphabet:
    """Return the alphabet of all texts that are said, the most frequent first."""
    counts = Counter(text for text in said if text)
    return Alphabet(tuple(sorted(counts, key=lambda text: (-counts[text], text))), letters)


def key_items(rows: Sequence[KeyRow], left_mm: float) -> Iterator[Item]:
    """Yield a key at the bottom of a sheet, one row above the other."""
    for k, row in enumerate(rows):
        y = 1.0 + KEY_ROW_MM * (len(rows) - k - 0.5)
        if row.letter:
            yield Boxes(((left_mm, y - 1.5, 4.6, 3.0),), row.tint, rim=colours.SOFT_INK)
            yield Words(row.letter, (left_mm + 2.3, y), size_pt=KEY_PT, bold=True)
        yield Words(row.text, (left_mm + 6.2, y), "left", size_pt=KEY_PT)
