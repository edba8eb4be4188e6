"""Which rows of the cautions a piece of work calls for, by its words and its material.

What is really used decides before the process does: “glue it with solvent cement” is
told of that cement's vapour, not of epoxy.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from functools import cache, lru_cache

from logbook.shop.cautions import cautions
from logbook.shop.tables import Row, Table, table

_WORD = re.compile(r"[a-z0-9]+")
_THICK = re.compile(r"(?i)[\d][\d./ ]*\s*(?:mm|cm|in|thou|µm) thick\b")
"""A thickness that stands beside a material, or alone: it tells nothing of it."""


def called_for(
    of: str, told: Iterable[str], material: str
) -> Iterator[tuple[Row, tuple[str, ...]]]:
    """Give the rows that words call for, each with what it hangs on.

    `of` is work or whole. What it hangs on are the materials, or the things used, of
    which nobody said whether it is one; nothing where that is known.
    """
    said = tuple(_spaced(one) for one in told)
    terms = {term for one in said for term in _terms(one)}
    used = {word for one in said for word in used_in(one)}
    known = _spaced(_THICK.sub("", material)) if names_material(material) else ""
    for row in cautions().rows:
        if row.text("of") != of:
            continue
        if _words(row, "using") & used:
            yield row, ()
        elif not terms & set(row.cells["process"]) or _rivals(row) & used:
            continue
        elif _is_about(row.cells["material"], known):
            unsaid = row.cells["material"] if not known.strip() else ()
            yield row, tuple(row.cells["using"] or unsaid)


def names_material(made_of: str) -> bool:
    """Tell whether words say more than how thick a thing is."""
    return bool(_spaced(_THICK.sub("", made_of)).strip())


def used_in(line: str) -> Iterator[str]:
    """Give what a line names as used: epoxy, solvent cement."""
    said = _spaced(line)
    yield from (word for word in _used_words() if f" {word} " in said)


def _rivals(row: Row) -> set[str]:
    """Give what else may be used for the processes of a row, where it names its own."""
    if not row.cells["using"]:
        return set()
    process = set(row.cells["process"])
    rows = (*cautions().rows, *_without().rows)
    return {
        word
        for other in rows
        if process & set(other.cells["process"])
        or (other.cells["using"] and not other.cells["process"])
        for word in _words(other, "using")
    }


def _without() -> Table:
    """Give what is used that calls for no caution of its own."""
    return table("cautions", "used_without")


@cache
def _used_words() -> frozenset[str]:
    """Give all that is named as used for some work, in lower case."""
    rows = (*cautions().rows, *_without().rows)
    return frozenset(word for row in rows for word in _words(row, "using"))


def _words(row: Row, column: str) -> set[str]:
    return {_spaced(one).strip() for one in row.cells[column]}


@lru_cache(maxsize=4096)
def _spaced(words: str) -> str:
    """Give words in lower case with a blank around each."""
    return f" {' '.join(_WORD.findall(words.casefold()))} "


def _is_about(materials: Iterable[str], known: str) -> bool:
    """Tell whether a caution for these materials, or any, is about the known one."""
    named = [_spaced(one) for one in materials]
    return not named or not known.strip() or any(one in known for one in named)


def _terms(said: str) -> Iterator[str]:
    """Give the terms a process holds as whole words, but not the vaguer of two."""
    rows = (*cautions().rows, *_without().rows)
    every = {term for row in rows for term in row.cells["process"]}
    held = {term for term in every if _spaced(term) in said}
    for term in held:
        if not any(term != other and term in other.split() for other in held):
            yield term
