"""Formulas of lessons as MathML, by symbols and with numbers, as trees of plain lists.

A tree is [tag, child, ...]; a child is a text or a tree. The page makes elements of it, and reads
no markup.
"""

import math
from typing import Any, Final
from xml.etree import ElementTree

from sympy import Basic, Symbol
from sympy.printing.mathml import mathml

from kinematics.lessons.formula_table import Term
from kinematics.lessons.formulas import Worked
from scenes.lesson_words import with_unit

Tree = list[Any]

#: What is multiplied without a sign stands apart by a dot; minus signs are true ones.
_SIGNS: Final = {"\u2062": "·", "-": "−"}


def symbol_tree(name: str) -> Tree:
    """Return a symbol."""
    return _tree(_parsed(Symbol(name)))


def equation_tree(worked: Worked) -> Tree:
    """Return the equation as it is taught."""
    return _tree(_parsed(worked.relation.equation))


def numbers_tree(worked: Worked) -> Tree:
    """Return the equation with the numbers of the moment in place of its terms."""
    numbers = {
        repr(symbol_tree(term.symbol)): _number(term, value)
        for term, value in zip(worked.formula.terms, worked.values, strict=True)
    }
    return _put(equation_tree(worked), numbers)


def term_words(term: Term, value: float) -> str:
    """Return the value of a term with its unit."""
    return with_unit(math.degrees(value) if term.unit == "deg" else value, term.unit, term.decimals)


def _number(term: Term, value: float) -> Tree:
    words = term_words(term, value)
    if value < 0.0 and not words[0].isdigit():
        return ["mrow", ["mo", "("], ["mn", words], ["mo", ")"]]
    return ["mn", words]


def _parsed(expression: Basic) -> ElementTree.Element:
    text = mathml(expression, printer="presentation").replace("&InvisibleTimes;", "\u2062")
    return ElementTree.fromstring(text)


def _tree(element: ElementTree.Element) -> Tree:
    if not len(element):
        return [element.tag, _SIGNS.get(element.text or "", element.text or "")]
    return [element.tag, *map(_tree, element)]


def _put(tree: Tree, numbers: dict[str, Tree]) -> Tree:
    """Return a tree with numbers for symbols."""
    found = numbers.get(repr(tree))
    if found is not None:
        return found
    return [part if isinstance(part, str) else _put(part, numbers) for part in tree]
