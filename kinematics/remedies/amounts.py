"""The smallest of many amounts that will do."""

from collections.abc import Callable
from dataclasses import dataclass

from kinematics.checks import InputError


@dataclass(frozen=True)
class Smallest:
    """The answer of a search over whole steps.

    Attributes
    ----------
    steps : int or None
        Fewest that do; one fewer does not. None where none does.
    tried : int
        The most that were tried and could be made.
    refused : str
        Why no more could be; empty where the limit was reached.
    """

    steps: int | None
    tried: int
    refused: str = ""


def smallest(does: Callable[[int], bool], most: int, first: int = 1) -> Smallest:
    """Return the fewest steps that do: doubled until some do, then halved in between.

    Parameters
    ----------
    does : callable
        Tells whether a number of steps does. What it refuses by an InputError is too much.
    most : int
        No more are tried.
    first : int
        Tried first.
    """
    fails, tries, refused = 0, min(first, most), ""
    while fails < most:
        try:
            if does(tries):
                return Smallest(between(does, fails, tries), tries)
            fails = tries
        except InputError as error:
            refused, most = str(error), tries - 1
        tries = min(2 * tries, most) if not refused else (fails + most + 1) // 2
    return Smallest(None, fails, refused)


def between(does: Callable[[int], bool], fails: int, works: int) -> int:
    """Return the fewest steps that do between some that do not and some that do."""
    while works - fails > 1:
        middle = (works + fails) // 2
        if does(middle):
            works = middle
        else:
            fails = middle
    return works
