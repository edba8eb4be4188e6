"""What others say because of records that changed: where names lead, part and build."""

from __future__ import annotations

import sqlite3
from collections.abc import Collection, Mapping

from logbook.index import statements
from logbook.index.derive import WALKED, build_of, part_of, target_of
from logbook.index.rows import Rows, place_terms
from logbook.index.stored import WALKED_FIELDS, Kept, Row, Stored, asked_of

_FOUND = "key, title_terms, body_terms, place_terms"


def moved_by(
    db: sqlite3.Connection,
    web: Stored,
    kept: Mapping[str, Kept],
    now: Mapping[str, Rows],
    changed: Collection[str],
) -> set[str]:
    """Lead references anew; give the records whose part or build may be another.

    `kept` is what the changed records were, `now` what they are; `changed` are those
    whose own references are others.
    """
    touched = {**kept, **now}
    another = [i for i in touched if _kind(kept, i) != web.kind(i)]
    moved = {*changed, *another}
    moved |= _led_elsewhere(db, web, another, _names_moved(touched, another, kept, now))
    asked = (
        "SELECT DISTINCT record FROM mention "  # noqa: S608
        f"WHERE field IN ({WALKED_FIELDS}) AND target IN"
    )
    waiting = moved
    while waiting:
        waiting = {source for (source,) in asked_of(db, asked, waiting)} - moved
        moved |= waiting
    return moved


def _kind(kept: Mapping[str, Kept], identity: str) -> str:
    return kept[identity].kind if identity in kept else ""


def _names_moved(
    touched: Collection[str],
    another: Collection[str],
    kept: Mapping[str, Kept],
    now: Mapping[str, Rows],
) -> set[str]:
    """Give the names that may lead elsewhere now."""
    names: set[str] = set()
    for identity in touched:
        before = kept[identity].names if identity in kept else set()
        after = set(now[identity].names) if identity in now else set()
        moved = before | after if identity in another else before ^ after
        names |= {name for name, _ in moved}
    return names


def _led_elsewhere(
    db: sqlite3.Connection, web: Stored, ids: Collection[str], names: Collection[str]
) -> set[str]:
    """Write the references that lead elsewhere now; give whose walk that changes."""
    asked = "SELECT record, number, field, to_id, to_name, target FROM mention WHERE "
    found: list[Row] = [*asked_of(db, asked + "to_id IN", ids)]
    found += asked_of(db, asked + "to_id = '' AND to_name IN", names)
    moved: set[str] = set()
    change = "UPDATE mention SET target = ? WHERE record = ? AND number = ?"
    for record, number, field, to_id, to_name, old in found:
        target = target_of(web, to_id, to_name)
        if target != old:
            db.execute(change, (target, record, number))
        if field in WALKED:
            moved.add(record)
    return moved


def place_anew(db: sqlite3.Connection, web: Stored, ids: Collection[str]) -> None:
    """Write part and build of these records, where they are others now."""
    asked = f"SELECT {_FOUND}, kind, id, part, build FROM record WHERE id IN"  # noqa: S608
    change = "UPDATE record SET part = ?, build = ?, place_terms = ? WHERE key = ?"
    for key, title, body, old, kind, identity, *place in asked_of(db, asked, ids):
        part, build = part_of(web, identity), build_of(web, identity)
        if place == [part, build]:
            continue
        terms = place_terms(kind, part, build)
        db.execute(statements.DROP_SEARCH, (key, title, body, old))
        db.execute(change, (part, build, terms, key))
        db.execute(statements.ADD_SEARCH, (key, title, body, terms))
