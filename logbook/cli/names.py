"""Names as they are typed to a verb: as `say` knows them, near ones told or refused.

A part is also known by its plural and by the end of its longer name, a piece by such a
name and its number. A name that is one slip from a known one makes nothing new unless
`--new` insists.
"""

from __future__ import annotations

import argparse
import re
import shlex
import sys
from collections.abc import Iterable
from difflib import get_close_matches
from typing import TypeVar, overload

from logbook.cli import terms
from logbook.errors import BadInput, NotFound
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Decision, Deviation, Failure
from logbook.records.kinds.record import Record
from logbook.records.kinds.workshop import Machine, Piece
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import characteristics_of
from logbook.records.states.pieces import pieces_of
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

R = TypeVar("R", bound=Record)

REASONS = (Deviation, Failure, Decision)
"""What may be the reason of a decision or a revision."""
_NUMBERED = re.compile(r"(?P<part>.+?)[\s-]+(?P<number>\d{1,3})")
_TOLD = 4
"""Near names that are told at most."""

_LIKENESS = 0.75
"""How alike two names are, by the letters they share in order, to be told as near."""


def insisting(parser: argparse.ArgumentParser) -> None:
    """Add the option that makes a part or a dimension of a name near a known one."""
    parser.add_argument(
        "--new", action="store_true", help="make it new, though its name is near one"
    )


# -- what is there -----------------------------------------------------------------


@overload
def meant(snapshot: Snapshot, words: str) -> Record: ...
@overload
def meant(snapshot: Snapshot, words: str, cls: type[R]) -> R: ...
def meant(snapshot: Snapshot, words: str, cls: type[Record] = Record) -> Record:
    """Give the record that is meant: by id or name, or as `say` knows parts and pieces.

    Of a part and its line of the parts list, which are called alike, it is the part.

    Raises:
        NotFound: none or several are meant; near names are told.
    """
    called = snapshot.named(words, cls)
    parts = [one for one in called if isinstance(one, Part)]
    if len(parts) == 1:
        return parts[0]
    try:
        return snapshot.lookup(words, cls)
    except NotFound:
        if called or not words.strip():
            raise
        found = known_part(snapshot, words) or known_piece(snapshot, words)
        if isinstance(found, cls):
            return found
        near = near_names(snapshot, words, cls)
        if not near:
            raise
    told = " or ".join(f"“{one}”" for one in near)
    raise NotFound(f"nothing is called “{words}”; near it: {told}")


def meant_of(snapshot: Snapshot, words: str, *kinds: type[Record]) -> Record:
    """Give the record that is meant: of several called alike, the one of these kinds.

    A line makes a reading and a deviation of one title, and only one of them can be
    the reason of something.

    Raises:
        NotFound: none or several are meant; near names are told.
    """
    called = [record for kind in kinds for record in snapshot.named(words, kind)]
    return called[0] if len(called) == 1 else meant(snapshot, words)


def machine_meant(snapshot: Snapshot, words: str) -> Machine:
    """Give the machine that is meant.

    Raises:
        NotFound: none or several are meant; the line that puts a new one on record is
            told, since a machine is there before what is done on it.
    """
    try:
        return meant(snapshot, words, Machine)
    except NotFound as refusal:
        raise NotFound(
            f"{refusal}; or put it on record first: logbook machine "
            f"{shlex.quote(words)} --process …, then this line again"
        ) from None


def known_part(snapshot: Snapshot, words: str) -> Part | None:
    """Give the one part these words name as a plain line would, None where none is."""
    from logbook.plain.words.project_words import vocabulary
    from logbook.plain.words.spoken import spoken

    said = spoken(words)
    if not said:
        return None
    known = vocabulary(snapshot, snapshot.project.when)
    found = known.longest(said, 0)
    if found and found[0] == len(said) and found[1].role == "part":
        return _part(snapshot, found[1].thing)
    longer = known.containing(said)
    return _part(snapshot, longer[0]) if len(longer) == 1 else None


def _part(snapshot: Snapshot, title: str) -> Part | None:
    found = snapshot.named(title, Part)
    return found[0] if len(found) == 1 else None


def known_piece(snapshot: Snapshot, words: str) -> Piece | None:
    """Give the piece that a known part's name and a number name: foot-1."""
    found = _NUMBERED.fullmatch(words.strip())
    part = _part(snapshot, found["part"]) if found else None
    part = part or (known_part(snapshot, found["part"]) if found else None)
    if found is None or part is None:
        return None
    pieces = pieces_of(snapshot, part)
    return next((one for one in pieces if one.number == int(found["number"])), None)


def near_names(
    snapshot: Snapshot, words: str, cls: type[Record] = Record
) -> tuple[str, ...]:
    """Give the names near what was typed: one slip off, longer ones, alike ones."""
    from logbook.plain.stated.part_names import slipped
    from logbook.plain.words.project_words import vocabulary
    from logbook.plain.words.spoken import spoken

    said = spoken(words)
    found: list[str] = []
    if said and issubclass(Part, cls):
        known = vocabulary(snapshot, snapshot.project.when)
        found += [*slipped(snapshot, words), *known.containing(said)]
        found += known.compounded(said[-1])
    found += _alike(words, (one.title for one in snapshot.all(Part)), cls, Part)
    found += _alike(words, (one.title for one in snapshot.all(Piece)), cls, Piece)
    if cls not in {Record, Part, Piece}:
        found += _alike(words, (one.title for one in snapshot.all(cls)), cls, cls)
    return tuple(dict.fromkeys(found))[:_TOLD]


def _alike(
    words: str, titles: Iterable[str], wanted: type[Record], kind: type[Record]
) -> list[str]:
    """Give the titles of a kind that share most of their letters with some words."""
    if not issubclass(kind, wanted):
        return []
    by_name = {folded(title): title for title in titles}
    close = get_close_matches(folded(words), by_name, _TOLD, _LIKENESS)
    return [by_name[name] for name in close]


# -- what is made where it is missing -------------------------------------------------


def part_for(args: argparse.Namespace, draft: Draft, words: str) -> Part:
    """Give the part that is meant, made with its first revision if there is none.

    The end of a longer name is taken for that part, and told.

    Raises:
        BadInput: no part is called so, and one is called nearly so.
    """
    if draft.snapshot.named(words, Part) or getattr(args, "new", False):
        return draft.part(words)
    known = known_part(draft.snapshot, words)
    if known is not None:
        print(f"“{words}” is taken for the part {known.title}", file=sys.stderr)
        return draft.part(known.title)
    return new_part_for(args, draft, words)


def part_and_words(args: argparse.Namespace, what: str) -> None:
    """Take PART and TEXT typed as for a failure: the first of two words is the part.

    Raises:
        BadInput: there are more, or nothing was said.
    """
    *before, text = args.text
    if len(before) > 1 or (before and args.part):
        raise BadInput(
            f"found {len(args.text)} things; accepted: {what} in quotes, with --part "
            "PART or the part before it"
        )
    args.part = args.part or "".join(before)
    args.text = terms.something(text, f"{what} in a few words")


def new_part_for(args: argparse.Namespace, draft: Draft, words: str) -> Part:
    """Give the part of exactly this name, made if there is none and none is near.

    Raises:
        BadInput: no name is given, or one is called nearly so.
    """
    from logbook.plain.stated.part_names import new_part

    return new_part(draft, words, insist=getattr(args, "new", False))


def dimension_for(
    args: argparse.Namespace,
    draft: Draft,
    part: Part,
    words: str,
    nominal: Quantity | None = None,
    since: Revision | None = None,
) -> Characteristic:
    """Give the dimension that is meant, made if there is none and none is near.

    One read on a piece is there `since` the revision that is made to.

    Raises:
        BadInput: none is called so, and one is called nearly so.
    """
    from logbook.plain.stated.part_names import one_slip_off, refuse_near

    held = characteristics_of(draft.snapshot, part)
    names = [name for one in held for name in (one.title, one.name, *one.formerly)]
    if folded(words) not in map(folded, names) and not getattr(args, "new", False):
        near = [one.title for one in held if one_slip_off(words, one.title)]
        refuse_near(words, near, f"dimension of {part.title}")
    return draft.characteristic(part, words, nominal, since=since)
