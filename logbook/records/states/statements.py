"""What a released statement is known by: its kind, its id and the hash of its text.

The id follows from the record a statement is about, so the same statement keeps
it from release to release; the hash follows from its text, so a change shows.
"""

from __future__ import annotations

import hashlib
import unicodedata
from enum import StrEnum

from logbook.records.kinds.ids import ALPHABET, ID_LENGTH, Ref


class Form(StrEnum):
    """What kind of thing a statement is."""

    LINE = "list line"
    STEP = "step"
    CAUTION = "caution"
    DIMENSION = "dimension"
    GAP = "gap"
    JOINT = "joint"
    FILE = "file"


def statement_id(form: str, of: Ref, more: str = "") -> str:
    """Give the id of a statement: it follows from form, record and a name in it."""
    raw = hashlib.sha256(f"{form}\0{of.id}\0{more}".encode()).digest()
    number = int.from_bytes(raw[:5], "big")
    return "".join(ALPHABET[number >> 5 * at & 31] for at in range(ID_LENGTH))


def identity(named: str) -> str:
    """Give the id of a statement that is named: the name before it is a courtesy."""
    return (named.split() or [""])[-1]


def text_hash(text: str) -> str:
    """Give the SHA-256 of a statement's text, in hex."""
    return hashlib.sha256(text.encode()).hexdigest()


def one_line(text: str) -> str:
    """Give a text on one line, control characters dropped."""
    plain = "".join(c if unicodedata.category(c) != "Cc" else " " for c in text)
    return " ".join(plain.split())
