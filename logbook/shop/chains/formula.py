"""Formulas over named dimensions: read into a tree, never run as code.

A formula has numbers with units, names `part.dimension` and
`part@place.dimension`, the signs + − × ÷ (also - * /), min, max, abs and
parentheses, and nothing else. A decimal has a point, since a comma separates
the members of min and max. A fraction with a unit, 3/16 in or 1 3/8 in, is one
number.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.units import is_unit

LONGEST = 4000
"""Characters; longer text is no formula."""
DEEPEST = 40
"""Parentheses within parentheses; the reader stops there."""


@dataclass(frozen=True, slots=True)
class Number:
    """A number and its unit; the unit is empty for a plain number."""

    value: Fraction
    unit: str


@dataclass(frozen=True, slots=True)
class Name:
    """A named dimension; `place` is empty where none is said."""

    part: str
    place: str
    dimension: str

    def __str__(self) -> str:
        place = f"@{self.place}" if self.place else ""
        return f"{self.part}{place}.{self.dimension}"


@dataclass(frozen=True, slots=True)
class Sum:
    """Terms added (1) or subtracted (−1)."""

    terms: tuple[tuple[int, Node], ...]


@dataclass(frozen=True, slots=True)
class Product:
    """Factors multiplied (1) or divided by (−1)."""

    factors: tuple[tuple[int, Node], ...]


@dataclass(frozen=True, slots=True)
class Call:
    """`min`, `max` or `abs` of its members."""

    function: str
    members: tuple[Node, ...]


Node = Number | Name | Sum | Product | Call


@dataclass(frozen=True, slots=True)
class Formula:
    """A formula as typed, its tree, and the names in it in order."""

    text: str
    root: Node
    names: tuple[Name, ...]


_UNIT = (
    r"N·m|N·cm|N\.m|N\.cm|lbf·in|lbf·ft|mm/s(?![\w.@])|mm/min(?!\s*\(|[\w.@])"
    r"|(?:mm|cm)(?:\^2|2(?![0-9])|²)|°\s?[CF]\b|[°′″\"%€$£℃℉]"
    r"|[A-Za-zµμΩ]+(?![\w.@(])"
)
_TOKEN = re.compile(
    rf"""\s*(?:
      (?P<number>(?:(?:[0-9]+(?:\s+|-))?[0-9]+[/⁄][0-9]+
          (?=\s*(?:{_UNIT}))
        |[0-9]+\.?[0-9]*|\.[0-9]+))\s*(?P<unit>{_UNIT})?
    | (?P<name>[a-z][a-z0-9_]*(?:@[a-z][a-z0-9_]*)?\.[a-z][a-z0-9_]*(?![\w.@(]))
    | (?P<function>min|max|abs)(?=\s*\()
    | (?P<word>\w[\w.@]*)
    | (?P<sign>[-+−–×*·÷/(),])
    )""",
    re.VERBOSE,
)
_SAME = {"−": "-", "–": "-", "×": "*", "·": "*", "÷": "/"}


@dataclass(frozen=True, slots=True)
class _Token:
    kind: str
    text: str
    at: int
    unit: str = ""


def read_formula(text: str) -> Formula:
    """Read a formula.

    Raises:
        BadInput: the text is no formula; the sentence says where and what is
            accepted.
    """
    if len(text) > LONGEST:
        raise BadInput(
            f"{len(text)} characters are no formula; accepted: at most {LONGEST}"
        )
    if not text.strip():
        raise BadInput(
            "nothing was typed; accepted: a formula such as base.width - bar.length"
        )
    reader = _Reader(list(_tokens(text)), text)
    root = reader.sum(0)
    reader.expect_end()
    return Formula(text, root, tuple(dict.fromkeys(_names(root))))


def _names(root: Node) -> Iterator[Name]:
    waiting: list[Node] = [root]
    while waiting:
        node = waiting.pop()
        match node:
            case Name():
                yield node
            case Sum(terms):
                waiting += [term for _, term in reversed(terms)]
            case Product(factors):
                waiting += [factor for _, factor in reversed(factors)]
            case Call(_, members):
                waiting += reversed(members)
            case Number():
                pass


def _tokens(text: str) -> Iterator[_Token]:
    at = 0
    end = len(text.rstrip())
    while at < end:
        found = _TOKEN.match(text, at)
        if not found:
            bad = text[at:].lstrip()
            raise BadInput(
                f"{_at(text, end - len(bad.rstrip()))}: found “{bad[0]}”; "
                "accepted: numbers, part.name, + − × ÷, min, max, abs and parentheses"
            )
        kind = found.lastgroup or ""
        if kind in {"number", "unit"}:
            yield _number_token(text, found)
        else:
            word = found[kind]
            if kind == "word":
                raise BadInput(_unknown_word(text, word, found.start(kind)))
            yield _Token(kind, _SAME.get(word, word), found.start(kind))
        at = found.end()


def _number_token(text: str, found: re.Match[str]) -> _Token:
    unit = (found["unit"] or "").replace(" ", "")
    if unit and not is_unit(unit):
        raise BadInput(
            f"{_at(text, found.start('unit'))}: “{unit}” is no unit known here; "
            "accepted: mm, in, °, °C, N·m and the like after a number"
        )
    return _Token("number", found["number"], found.start("number"), unit)


def _unknown_word(text: str, word: str, at: int) -> str:
    shown = word if len(word) <= 40 else word[:40] + "…"
    return (
        f"{_at(text, at)}: “{shown}” is no name of a dimension; accepted: part.name "
        "or part@place.name in small letters, digits and _, and min, max, abs before ("
    )


def _at(text: str, at: int) -> str:
    return f"character {at + 1} of {len(text)}"


def _value(digits: str) -> Fraction:
    if "/" not in digits and "⁄" not in digits:
        return Fraction(digits if digits[-1] != "." else digits + "0")
    *whole, part = re.split(r"\s+|-", digits)
    over, under = re.split(r"[/⁄]", part)
    if int(under) == 0:
        raise BadInput(f"“{digits}” divides by zero; accepted: a fraction like 3/16")
    return Fraction(whole[0] if whole else 0) + Fraction(int(over), int(under))


class _Reader:
    """Reads tokens by descending from sums to products to single values."""

    def __init__(self, tokens: list[_Token], text: str) -> None:
        self.tokens = tokens
        self.text = text
        self.next = 0

    def peek(self) -> str:
        """Give the sign that comes next, empty for anything else."""
        if self.next < len(self.tokens) and self.tokens[self.next].kind == "sign":
            return self.tokens[self.next].text
        return ""

    def sum(self, depth: int) -> Node:
        terms = [(1, self.product(depth))]
        while (sign := self.peek()) in {"+", "-"}:
            self.next += 1
            terms.append((1 if sign == "+" else -1, self.product(depth)))
        return terms[0][1] if len(terms) == 1 else Sum(tuple(terms))

    def product(self, depth: int) -> Node:
        factors = [(1, self.signed(depth))]
        while (sign := self.peek()) in {"*", "/"}:
            self.next += 1
            factors.append((1 if sign == "*" else -1, self.signed(depth)))
        return factors[0][1] if len(factors) == 1 else Product(tuple(factors))

    def signed(self, depth: int) -> Node:
        negative = False
        while (sign := self.peek()) in {"+", "-"}:
            negative ^= sign == "-"
            self.next += 1
        value = self.single(depth)
        return Sum(((-1, value),)) if negative else value

    def single(self, depth: int) -> Node:
        if depth > DEEPEST:
            raise BadInput(
                f"the formula is nested more than {DEEPEST} deep; "
                f"accepted: at most {DEEPEST} parentheses within one another"
            )
        token = self.take("a number, a name or (")
        if token.kind == "number":
            return Number(_value(token.text), token.unit)
        if token.kind == "name":
            owner, dimension = token.text.split(".")
            part, _, place = owner.partition("@")
            return Name(part, place, dimension)
        if token.kind == "function":
            return self.call(token.text, depth)
        if token.text == "(":
            inner = self.sum(depth + 1)
            self.close()
            return inner
        raise self.wrong(token, "a number, a name or (")

    def call(self, function: str, depth: int) -> Node:
        self.next += 1
        members = [self.sum(depth + 1)]
        while self.peek() == ",":
            self.next += 1
            members.append(self.sum(depth + 1))
        self.close()
        if function == "abs" and len(members) != 1:
            raise BadInput(
                f"abs has {len(members)} members; accepted: one (a decimal has a point)"
            )
        return Call(function, tuple(members))

    def close(self) -> None:
        token = self.take(")")
        if token.text != ")":
            raise self.wrong(token, "+ − × ÷, a comma inside min and max, or )")

    def take(self, wanted: str) -> _Token:
        if self.next >= len(self.tokens):
            raise BadInput(f"the formula ends too early; accepted here: {wanted}")
        self.next += 1
        return self.tokens[self.next - 1]

    def expect_end(self) -> None:
        if self.next < len(self.tokens):
            raise self.wrong(self.tokens[self.next], "+ − × ÷ or the end")

    def wrong(self, token: _Token, wanted: str) -> BadInput:
        hint = " (a decimal has a point)" if token.text == "," else ""
        return BadInput(
            f"{_at(self.text, token.at)}: found “{token.text}”; "
            f"accepted here: {wanted}{hint}"
        )
