"""How much each dimension moves the formula of a gap, in mm per mm."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache

from logbook.quantity import Quantity, quantity
from logbook.shop.chains.evaluation import exact, sensitivities
from logbook.shop.chains.formula import Formula, Name, Node, Number, Product, Sum
from logbook.units import convert, find_unit


def values(sizes: Mapping[str, float]) -> dict[str, Quantity]:
    """Give sizes in mm as quantities, to put into a formula."""
    return {
        name: quantity(Fraction(f"{size:.9f}"), "mm") for name, size in sizes.items()
    }


@dataclass(frozen=True, slots=True)
class Slopes:
    """How much each name moves a formula, in mm per mm.

    A `linear` formula is its constant and its slopes, wherever it is looked at.
    """

    slopes: Mapping[str, float]
    constant: float
    linear: bool

    def at(self, sizes: Mapping[str, float]) -> float:
        """Give the value of a linear formula."""
        each = (self.slopes[name] * size for name, size in sizes.items())
        return math.fsum((self.constant, *each))


def slopes_of(formula: Formula, sizes: Mapping[str, float]) -> Slopes:
    """Give how much each name moves a formula at these sizes in mm.

    Raises:
        BadInput: the formula is no length, or divides by zero.
    """
    found = _straight_line(formula)
    return found if found.linear else _slopes(formula, sizes)


@lru_cache(maxsize=4096)
def _straight_line(formula: Formula) -> Slopes:
    """Look at a formula once; one with min, max or abs is bent for us."""
    plain = _plain_sum(formula)
    if plain is not None:
        return plain
    sizes = dict.fromkeys(map(str, formula.names), 1.0)
    found = _slopes(formula, sizes)
    return replace(found, linear=found.linear and not _bends(formula.root))


def _plain_sum(formula: Formula) -> Slopes | None:
    """Give the slopes of a sum of names and lengths, as most are, at sight."""
    root = formula.root
    slopes, constant = dict.fromkeys(map(str, formula.names), 0.0), Fraction(0)
    for sign, node in root.terms if isinstance(root, Sum) else ((1, root),):
        if isinstance(node, Name):
            slopes[str(node)] += sign
        elif isinstance(node, Number) and _is_length(node.unit):
            constant += sign * convert(node.value, node.unit, "mm")
        else:
            return None
    return Slopes(slopes, float(constant), linear=True)


def _is_length(unit: str) -> bool:
    return bool(unit) and find_unit(unit).dimension == "length"


def _bends(node: Node) -> bool:
    if isinstance(node, Sum):
        return any(_bends(term) for _, term in node.terms)
    if isinstance(node, Product):
        return any(_bends(factor) for _, factor in node.factors)
    return not isinstance(node, Name | Number)


def _slopes(formula: Formula, sizes: Mapping[str, float]) -> Slopes:
    found = sensitivities(formula, values(sizes), "mm")
    slopes = {name: float(found.slopes[name]) for name in sizes}
    value = float(exact(formula, values(sizes), "mm"))
    moved = math.fsum(slopes[name] * size for name, size in sizes.items())
    return Slopes(slopes, value - moved, found.linear)
