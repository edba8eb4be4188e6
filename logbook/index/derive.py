"""What a record's row says because of others: targets, part and build.

`Web` is what is known of ids, names and references, filled from the database as
it is asked or beforehand by a rebuild; both work things out by the same code,
and as `records.together` and `records.states` do.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple, Protocol

from logbook.index.rows import Mentioned

TOWARD_PART = ("part", "piece", "revision", "characteristic", "of", "makes", "opens")
"""Fields followed to the part a record is about, in this order; then `about`."""

_RANK = {name: rank for rank, name in enumerate((*TOWARD_PART, "about"))}

WALKED = frozenset({*TOWARD_PART, "about", "build"})
"""Fields whose targets decide part and build."""


class Link(NamedTuple):
    """A walked reference of a record: field, id and name as written, and target."""

    field: str
    to_id: str
    to_name: str
    target: str


class Web(Protocol):
    """What is known of the records while rows are derived."""

    def kind(self, identity: str) -> str:
        """Give the kind of the record with this id, nothing if there is none."""

    def called(self, name: str) -> Sequence[tuple[str, bool]]:
        """Give the ids that answer to a folded name, and whether still now."""

    def links(self, identity: str) -> Sequence[Link]:
        """Give the walked references of a record, in their order."""


def target_of(web: Web, to_id: str, to_name: str, kind: str = "") -> str:
    """Follow a reference: by id, or by a name that only one record has."""
    if to_id:
        found = web.kind(to_id)
        return to_id if found and kind in {"", found} else ""
    called = [one for one in web.called(to_name) if kind in {"", web.kind(one[0])}]
    now = [identity for identity, current in called if current]
    found_ids = now or [identity for identity, _ in called]
    return found_ids[0] if len(found_ids) == 1 else ""


def mention_row(
    web: Web, record: str, number: int, one: Mentioned
) -> tuple[object, ...]:
    """Give a row of the mention table, in the order of its columns."""
    return record, number, *one, target_of(web, one.to_id, one.to_name)


def part_of(web: Web, identity: str) -> str:
    """Give the id of the part a record is about, through others if need be."""
    seen: set[str] = set()
    waiting = [identity]
    while waiting:
        here = waiting.pop()
        if web.kind(here) == "part":
            return here
        if here not in seen:
            seen.add(here)
            waiting += reversed(_toward_part(web, here))
    return ""


def _toward_part(web: Web, identity: str) -> list[str]:
    """Give where a record's references to its part lead, the nearest first."""
    links = [one for one in web.links(identity) if one.target and one.field in _RANK]
    if len(links) > 1:
        links.sort(key=lambda link: _RANK[link.field])
    return [link.target for link in links]


def build_of(web: Web, identity: str) -> str:
    """Give the id of the build a record belongs to: its own, or its piece's."""
    if web.kind(identity) == "build":
        return identity
    own = _own_build(web, identity)
    if own:
        return own
    for link in web.links(identity):
        if link.field == "piece" and link.target:
            return _own_build(web, link.target)
    return ""


def _own_build(web: Web, identity: str) -> str:
    for link in web.links(identity):
        if link.field == "build":
            return target_of(web, link.to_id, link.to_name, "build")
    return ""
