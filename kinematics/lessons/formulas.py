"""Formulas of lessons with the numbers of a moment put in, and what they give."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from kinematics.checks import InputError
from kinematics.lessons.formula_table import FORMULAS, Formula
from kinematics.lessons.moment import Moment
from kinematics.lessons.reading_names import Asked, Kind, reading_named

if TYPE_CHECKING:
    from kinematics.lessons.relations import Relation


@dataclass(frozen=True)
class Worked:
    """A formula with the numbers of a moment.

    Attributes
    ----------
    formula : Formula
        Which.
    relation : Relation
        By symbols.
    values : tuple of float
        Of its terms; angles in radians.
    given : float
        What it gives.
    found : float or None
        What the engine found, where it did not use the same formula.
    """

    formula: Formula
    relation: "Relation"
    values: tuple[float, ...]
    given: float
    found: float | None


def worked(name: str, moment: Moment) -> Worked:
    """Put the numbers of a moment into a formula.

    Raises
    ------
    InputError
        There is no such formula, or the moment does not have what it asks for.
    """
    from kinematics.lessons import relations

    formula, asked = formula_named(name)
    values = tuple(term.read(moment, asked) for term in formula.terms if term.read)
    relation = getattr(relations, formula.relation)()
    numbers = dict(zip([term.symbol for term in formula.terms], values, strict=True))
    put_in = {symbol: numbers[symbol.name] for symbol in relation.arguments}
    given = complex(relation.solution.evalf(subs=put_in)).real
    read = formula.result.read
    return Worked(formula, relation, values, given, read(moment, asked) if read else None)


def formula_named(name: str) -> tuple[Formula, Asked]:
    """Return the formula of a name, and the tooth or number in it.

    Raises
    ------
    InputError
        There is none; the message lists those there are.
    """
    kinds = tuple(Kind(formula.form, "", 0, "", lambda _m, _a: 0.0) for formula in FORMULAS)
    try:
        found = reading_named(name, kinds)
    except InputError as error:
        raise InputError(str(error).replace("reading", "formula")) from error
    return next(f for f in FORMULAS if f.form == found.kind.form), found.asked
