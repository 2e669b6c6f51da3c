"""Small lengths compared with things that everybody has held."""

import math
from typing import Final

#: Up to this length as told, mm, it is about that: a hair is about 0.07 mm thick, office paper
#: 0.1 mm, a fingernail about 0.5 mm, a bank card 0.76 mm (ISO/IEC 7810), a coin 1.5 to 2.3 mm, a
#: pencil 7 mm. No step is longer than a factor of two: what is twice as much has other words.
_COMPARISONS: Final = (
    (0.01, "much thinner than a hair"),
    (0.02, "about a quarter of a hair"),
    (0.04, "about half a hair"),
    (0.08, "about as thick as a hair"),
    (0.14, "about as thick as a sheet of paper"),
    (0.25, "about as thick as two sheets of paper"),
    (0.42, "about as thick as a few sheets of paper"),
    (0.62, "about as thick as a fingernail"),
    (0.95, "about as thick as a bank card"),
    (1.4, "a little thicker than a bank card"),
    (2.4, "about as thick as a coin"),
    (4.6, "about as thick as two coins"),
    (9.0, "about as thick as a pencil"),
    (math.inf, "thicker than a pencil"),
)
#: Lengths below this, mm, are told as less than it: half of it is what rounding leaves.
LEAST_MM: Final = 0.01


def everyday_length(value_mm: float) -> str:
    """Return a length with its unit and what it is like: "0.10 mm (about as thick as ...)"."""
    shown = f"{value_mm:.{2 if value_mm < 1.0 else 1}f}"
    like = next(words for limit, words in _COMPARISONS if float(shown) <= limit)
    if value_mm < LEAST_MM:
        return f"less than {LEAST_MM:.2f} mm ({like})"
    return f"{shown} mm ({like})"
