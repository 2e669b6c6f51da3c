"""Tooth numbers of ISO 3950 (two digits: quadrant, then place from the midline)."""

from collections.abc import Iterator
from typing import Final

from kinematics.checks import Contradiction, InputError

PERMANENT: Final = tuple(10 * q + n for q in (1, 2, 3, 4) for n in range(1, 9))
DECIDUOUS: Final = tuple(10 * q + n for q in (5, 6, 7, 8) for n in range(1, 6))
_TEETH: Final = frozenset(PERMANENT + DECIDUOUS)
_MIRROR: Final = {1: 2, 2: 1, 3: 4, 4: 3, 5: 6, 6: 5, 7: 8, 8: 7}
_OPPONENT: Final = {1: 4, 4: 1, 2: 3, 3: 2, 5: 8, 8: 5, 6: 7, 7: 6}


def check_code(code: int, name: str = "tooth") -> int:
    """Return `code` if it is a tooth of ISO 3950.

    Raises
    ------
    InputError
        Not a tooth; area codes (00 to 08, 10, 20, 30, 40) are not teeth.
    """
    if code in _TEETH:
        return code
    raise InputError(
        f"{name} = {code}: not a tooth number of ISO 3950; accepted are 11-18, 21-28, 31-38, "
        "41-48 and for deciduous teeth 51-55, 61-65, 71-75, 81-85"
    )


def unknown_code(code: int, *keys: str, name: str = "tooth") -> Iterator[Contradiction]:
    """Yield that a number stands for no tooth, if so, as a contradiction of some keys."""
    try:
        check_code(code, name)
    except InputError as error:
        yield keys, str(error)


def is_upper(code: int) -> bool:
    """Tell whether the tooth stands in the upper arch."""
    return check_code(code) // 10 in (1, 2, 5, 6)


def is_right(code: int) -> bool:
    """Tell whether the tooth stands on the patient's right."""
    return check_code(code) // 10 in (1, 4, 5, 8)


def place(code: int) -> int:
    """Return the place from the midline: 1 central incisor to 8 third molar."""
    return check_code(code) % 10


def arch_place(code: int) -> int:
    """Return the place of a tooth in its arch: -8 on the patient's right to 8 on the left."""
    return -place(code) if is_right(code) else place(code)


def is_posterior(code: int) -> bool:
    """Tell whether the tooth is a premolar or molar (for deciduous teeth: a molar)."""
    return place(code) >= 4


def mirror(code: int) -> int:
    """Return the same tooth on the other side."""
    return 10 * _MIRROR[check_code(code) // 10] + code % 10


def opponent(code: int) -> int:
    """Return the tooth of the same number in the opposing arch, same side."""
    return 10 * _OPPONENT[check_code(code) // 10] + code % 10
