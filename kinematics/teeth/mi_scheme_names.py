"""Which schemes of maximal intercuspation there are; see `mi_schemes` for what they are."""

from typing import Final, Literal

NATURAL: Final = "natural"
CUSP_RIDGE: Final = "cusp-ridge"
CUSP_FOSSA: Final = "cusp-fossa"
MIScheme = Literal["natural", "cusp-ridge", "cusp-fossa"]
