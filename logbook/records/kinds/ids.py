"""Permanent ids of records, and references by name and id.

An id is eight characters of Crockford's base 32 (no i, l, o, u), random, lower
case. A reference is written "<name> <id>"; the id decides, the name is a
courtesy for the reader.
"""

from __future__ import annotations

import os
import re
import unicodedata
from dataclasses import dataclass
from functools import lru_cache

ALPHABET = "0123456789abcdefghjkmnpqrstvwxyz"
ID_LENGTH = 8
SHORTEST_PREFIX = 4

_ID = re.compile(rf"[{ALPHABET}]{{{ID_LENGTH}}}")
_LOOKALIKE = str.maketrans("ilo", "110")


def new_id() -> str:
    """Make a random id: 40 bits from the system, five for each character."""
    bits = int.from_bytes(os.urandom(5), "big")
    return "".join(ALPHABET[bits >> shift & 31] for shift in range(35, -1, -5))


def is_id(word: str) -> bool:
    """Tell whether `word` has the form of an id."""
    return bool(_ID.fullmatch(word))


def spoken(word: str) -> str:
    """Read an id or its beginning as people type it: any case, i l for 1, o for 0."""
    return word.strip().lower().replace("-", "").translate(_LOOKALIKE)


@dataclass(frozen=True, slots=True)
class Ref:
    """A reference to another record; `id` is empty when only a name was written."""

    name: str
    id: str = ""

    def __str__(self) -> str:
        """Give the reference as it is written in a record."""
        return f"{self.name} {self.id}".strip()

    def __bool__(self) -> bool:
        """Tell whether anything is referred to."""
        return bool(self.id or self.name)


@lru_cache(maxsize=1 << 15)
def parse_ref(text: str) -> Ref:
    """Read a reference: the last word is the id when it has the form of one.

    Entries name the same pieces and parts over and over: they share what they name.
    """
    words = " ".join(text.split())
    name, _, last = words.rpartition(" ")
    return Ref(name, last) if is_id(last) else Ref(words)


def slug(text: str, longest: int = 40) -> str:
    """Make a file-name part of a title: lower-case ASCII words joined by `-`."""
    plain = unicodedata.normalize("NFKD", text.lower()).encode("ascii", "ignore")
    words = re.findall(r"[a-z0-9]+", plain.decode())
    made = ""
    for word in words:
        if made and len(made) + len(word) >= longest:
            break
        made = f"{made}-{word}" if made else word[:longest]
    return made or "record"


@lru_cache(maxsize=1 << 15)
def formula_name(text: str) -> str:
    """Make a name that formulas can use, `[a-z][a-z0-9_]*`, of free text."""
    name = slug(text).replace("-", "_")
    return name if name[0].isalpha() else f"n_{name}"
