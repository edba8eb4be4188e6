"""ISO 286: grades, limit deviations, and what a fit of two classes is like.

Deviations are in µm, sizes in mm, both exact. Only fundamental deviations of
shafts are tabulated; holes follow by the rules of ISO 286-1, which give every
published cell of ISO 286-2 for the letters offered here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import BadInput
from logbook.shop.tables import Row, table

LARGEST = 500


LETTERS = ("c", "d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "r", "s", "u")


_FINE = ("c", "r", "s", "u")


_UPPER = ("c", "d", "e", "f", "g", "h")


GRADES = range(5, 15)


@dataclass(frozen=True, slots=True)
class Deviations:
    """Upper and lower limit deviation in µm, for a nominal size in mm."""

    nominal: Fraction
    upper: Fraction
    lower: Fraction

    @property
    def largest(self) -> Fraction:
        """Upper limit of size in mm."""
        return self.nominal + self.upper / 1000

    @property
    def smallest(self) -> Fraction:
        """Lower limit of size in mm."""
        return self.nominal + self.lower / 1000


@dataclass(frozen=True, slots=True)
class Fit:
    """A hole and a shaft of one nominal size; clearances in µm.

    A negative clearance is an interference.
    """

    hole: Deviations
    shaft: Deviations

    @property
    def most(self) -> Fraction:
        """Largest hole on the smallest shaft."""
        return self.hole.upper - self.shaft.lower

    @property
    def least(self) -> Fraction:
        """Smallest hole on the largest shaft."""
        return self.hole.lower - self.shaft.upper

    @property
    def character(self) -> str:
        """`clearance`, `interference` or `transition`."""
        if self.least >= 0:
            return "clearance"
        return "interference" if self.most <= 0 else "transition"


def grade_width(nominal: Fraction, grade: int) -> Fraction:
    """Give the width of a standard tolerance grade in µm (ISO 286-1 Table 1).

    Raises:
        BadInput: the grade or the size is outside the table.
    """
    if grade not in GRADES:
        raise BadInput(
            f"grade IT{grade} is outside the table; "
            f"accepted: IT{GRADES[0]} to IT{GRADES[-1]}"
        )
    return Fraction(repr(_band("grades", nominal).number(f"IT{grade}")))


def _band(name: str, nominal: Fraction) -> Row:
    return table("iso286", name).band(float(nominal), "mm", "nominal size")


def parse_class(text: str) -> tuple[str, int]:
    """Read a tolerance class such as H7 or js6: its letters and its grade.

    Raises:
        BadInput: the text is no class offered here.
    """
    found = re.fullmatch(r"\s*([A-Za-z]{1,2})\s*([0-9]{1,2})\s*", text)
    letters = ", ".join(LETTERS)
    if not found or found[1].lower() not in LETTERS:
        raise BadInput(
            f"“{text.strip()[:20]}” is no tolerance class here; accepted: {letters} "
            "for shafts, the same in capitals for holes, then a grade from 5 to 14"
        )
    letter = found[1]
    if letter not in {letter.lower(), letter.upper()}:
        raise BadInput(
            f"“{letter}” mixes capitals and small letters; "
            "accepted: js for a shaft, JS for a hole"
        )
    return letter, int(found[2])


def deviations(nominal: Fraction, letter: str, grade: int) -> Deviations:
    """Give the limit deviations of a class: capitals a hole, else a shaft.

    Raises:
        BadInput: the class or the size is outside the tables.
    """
    width = grade_width(nominal, grade)
    if letter.lower() == "js":
        return Deviations(nominal, width / 2, -width / 2)
    if letter.islower():
        return _shaft(nominal, letter, grade, width)
    return _hole(nominal, letter.lower(), grade, width)


def _fundamental(nominal: Fraction, letter: str, grade: int) -> Fraction:
    """Give the deviation of a shaft nearest the nominal size."""
    if letter == "k" and not 4 <= grade <= 7:
        return Fraction(0)
    name = "shafts_fine" if letter in _FINE else "shafts"
    return Fraction(repr(_band(name, nominal).number(letter)))


def _shaft(nominal: Fraction, letter: str, grade: int, width: Fraction) -> Deviations:
    near = _fundamental(nominal, letter, grade)
    if letter in _UPPER:
        return Deviations(nominal, near, near - width)
    return Deviations(nominal, near + width, near)


def _hole(nominal: Fraction, letter: str, grade: int, width: Fraction) -> Deviations:
    # hole K goes by the tabulated k one grade further than shaft k does
    near = -_fundamental(nominal, letter, min(grade, 7) if grade <= 8 else grade)
    if letter in _UPPER:
        return Deviations(nominal, near + width, near)
    upper = near + _step(nominal, letter, grade)
    if letter == "k" and grade > 8 and nominal > 3:
        raise BadInput(
            f"K{grade} is not defined over 3 mm; accepted: K5 to K8 for a hole"
        )
    if letter == "n" and grade > 8 and nominal > 3:
        upper = Fraction(0)
    if (letter, grade) == ("m", 6) and 250 < nominal <= 315:
        upper = Fraction(-9)  # the one cell that stands off the rule
    return Deviations(nominal, upper, upper - width)


def _step(nominal: Fraction, letter: str, grade: int) -> Fraction:
    """IT(n) − IT(n−1), by which K, M, N to grade 8 and P to U to 7 are moved."""
    finest = 8 if letter in {"k", "m", "n"} else 7
    if grade > finest or nominal <= 3:
        return Fraction(0)
    if grade == GRADES[0]:
        raise BadInput(
            f"{letter.upper()}{grade} needs grade IT4, which is not in the table; "
            "accepted: grade 6 and coarser for this hole"
        )
    return grade_width(nominal, grade) - grade_width(nominal, grade - 1)


def fit(nominal: Fraction, text: str) -> Fit:
    """Work out a fit such as H7/g6.

    Raises:
        BadInput: the text is no hole class / shaft class, or outside the tables.
    """
    apart = re.sub(r"(?<=\d)(?:\s+|\s*[-–]\s*)(?=[A-Za-z])", "/", text.strip(), count=1)
    hole, slash, shaft = apart.partition("/")
    if not slash:
        raise BadInput(
            f"“{text[:30]}” is no fit; accepted: hole class / shaft class, as H7/g6"
        )
    first, second = parse_class(hole), parse_class(shaft)
    if not (first[0].isupper() and second[0].islower()):
        raise BadInput(
            f"“{text[:30]}” is no fit; accepted: the hole in capitals first, as H7/g6"
        )
    return Fit(deviations(nominal, *first), deviations(nominal, *second))
