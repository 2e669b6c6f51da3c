"""Small lengths compared with things that everybody has held."""

import math
from typing import Final

#: Up to this length, mm, it is about that: office paper is 0.1 mm thick, a hair 0.05 to 0.1 mm, a
#: fingernail about 0.5 mm, a bank card 0.76 mm (ISO/IEC 7810), a coin 1.5 to 2.3 mm.
_COMPARISONS: Final = (
    (0.03, "much thinner than a hair"),
    (0.09, "about as thick as a hair"),
    (0.15, "about as thick as a sheet of paper"),
    (0.25, "about as thick as two sheets of paper"),
    (0.42, "about as thick as a few sheets of paper"),
    (0.62, "about as thick as a fingernail"),
    (0.95, "about as thick as a bank card"),
    (1.4, "a little thicker than a bank card"),
    (2.4, "about as thick as a coin"),
    (math.inf, "thicker than a coin"),
)
#: Lengths below this are told as less than it: half of it is what rounding leaves.
_LEAST_MM: Final = 0.01


def everyday_length(value_mm: float) -> str:
    """Return a length with its unit and what it is like: "0.10 mm (about as thick as ...)"."""
    like = next(words for limit, words in _COMPARISONS if value_mm <= limit)
    if value_mm < _LEAST_MM:
        return f"less than {_LEAST_MM:.2f} mm ({like})"
    return f"{value_mm:.{2 if value_mm < 1.0 else 1}f} mm ({like})"
