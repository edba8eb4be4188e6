"""Which pieces a line is of: both legs of three, each upright, the bracket of six."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import replace
from itertools import combinations

from logbook.plain.sure.coverage import recorded_as, tells_of_each
from logbook.plain.told.so_many import EVERY, meant_of
from logbook.plain.understanding import Doubt, Facts, Kind, Understanding, Verdict
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import pieces_of
from logbook.records.together.snapshot import Snapshot

ONE = "only one"
_LISTED = re.compile(r"\d{1,3}(?:\s*(?:,|and|&|\s)\s*\d{1,3})*")
_MOST = 50
_MOST_SETS = 6
"""So many ways to choose them are offered, the newest first; more are typed."""


def held_to_pieces(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with the question of which pieces it is, where that is not plain.

    What was `answered` is not asked again.
    """
    for doubt in (_by_sides(line), _doubt(line, snapshot)):
        if doubt is not None and doubt.question not in answered:
            return replace(line, doubts=(doubt, *line.doubts))
    return line


ONE_OF_EACH = "one value of each piece"
PLACES_OF_EACH = "each piece at all these places"


def _by_sides(line: Understanding) -> Doubt | None:
    """Ask of “both legs: left 41.2 g, right 41.0”: two pieces, or places of each."""
    facts = line.facts
    count = len(facts.pieces) or facts.so_many
    places = [one.place for one in facts.readings if one.place and not one.piece]
    told = line.kind is Kind.READING and line.verdict is Verdict.TAKEN
    if not told or count < 2 or not len({*places}) == len(facts.readings) == count:
        return None
    question = f"{', '.join(places)}: one of the pieces each, or places on every piece?"
    return Doubt("sides", question, (ONE_OF_EACH, PLACES_OF_EACH, "only a note"))


def of_sides(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line with one value of each piece, or with all of each."""
    facts = line.facts
    if answer == ONE_OF_EACH:
        apart = enumerate(facts.readings, 1)
        readings = tuple(replace(one, piece=number) for number, one in apart)
        facts = replace(facts, readings=readings)
    return _told(line, doubt, facts)


def _doubt(line: Understanding, snapshot: Snapshot) -> Doubt | None:
    facts = line.facts
    told = line.verdict is Verdict.TAKEN and tells_of_each(recorded_as(line), facts)
    if not told or facts.pieces:
        return None
    if not facts.so_many:
        return _of_a_batch(line, snapshot)
    here = _here(snapshot, facts)
    if here is None:
        return None
    if facts.so_many == EVERY:
        measured = line.kind is Kind.READING and len(here) < 2
        question = f"each {facts.part}: how many were measured?"
        return Doubt("pieces", question, (ONE,)) if measured else None
    if len(here) <= facts.so_many:
        return None
    every = ", ".join(str(number) for number in here)
    question = f"which pieces of {facts.part}? this build has {every}"
    sets = [*combinations(here, facts.so_many)]
    sets = sets if len(sets) <= _MOST_SETS else [meant_of(here, facts.so_many, 0)]
    named = (_named(facts, one) for one in reversed(sets))
    return Doubt("which pieces", question, (*named, "only a note"))


_ONE_OF_THEM = re.compile(
    r"\bone (?:of (?:the|them|these|my|our)\b|more\b)", re.IGNORECASE
)


def _of_a_batch(line: Understanding, snapshot: Snapshot) -> Doubt | None:
    """Ask which bracket of six it befell, was read, or what is done with.

    No word tells it. The newest is meant where one was made after the other, and one is
    needed; what is measured is the newest too, unless several were made together.
    """
    facts, kind = line.facts, recorded_as(line)
    befell = kind in (Kind.FAILURE, Kind.DISPOSITION)
    read = kind is Kind.READING and any(not one.piece for one in facts.readings)
    if not (befell or read) or facts.piece or "part" not in line.words:
        return None
    here = [] if facts.part_is_new else _here(snapshot, facts) or []
    if read:
        alike = _made_at_once(snapshot, facts, here)
    else:
        one_of = _ONE_OF_THEM.search(line.line) is not None
        alike = one_of or _several_at_once(snapshot, facts, here)
    if len(here) < 2 or not alike:
        return None
    every = ", ".join(str(number) for number in here)
    question = f"which {facts.part}? this build has {every}"
    named = (_named(facts, (one,)) for one in here[: -_MOST_SETS - 1 : -1])
    return Doubt("which pieces", question, (*named, "only a note"))


def _several_at_once(snapshot: Snapshot, facts: Facts, here: list[int]) -> bool:
    """Tell whether a unit needs several of a part, or several were made together."""
    part = next(iter(snapshot.named(facts.part, Part)), None)
    if part is None:
        return False
    lines = [one for one in snapshot.all(Line) if one.part.id == part.id]
    several = sum(one.quantity for one in lines) > 1
    return several or _made_at_once(snapshot, facts, here)


def _made_at_once(snapshot: Snapshot, facts: Facts, here: list[int]) -> bool:
    """Tell whether several of the pieces of a part were made together."""
    part = next(iter(snapshot.named(facts.part, Part)), None)
    every = pieces_of(snapshot, part) if part else ()
    made = [one.when for one in every if one.number in here]
    return len({*made}) < len(made)


def _named(facts: Facts, numbers: tuple[int, ...]) -> str:
    return ", ".join(f"{facts.part}-{number}" for number in numbers)


def _here(snapshot: Snapshot, facts: Facts) -> list[int] | None:
    """Give the pieces of this build by number; None of what nobody keeps apart."""
    builds = snapshot.named(facts.build, Build) if facts.build else ()
    if not snapshot.all(Build):
        return []
    draft = Draft(snapshot, snapshot.all(Build)[-1].when, next(iter(builds), None))
    part = draft.part(facts.part)
    if part.source is Source.BOUGHT:
        return None
    return [piece.number for piece in draft.pieces_here(part)][::-1]


def numbers_of(said: str) -> tuple[int, ...]:
    """Give the numbers typed as pieces: 1 and 3; nothing where it is no list."""
    bare = re.sub(r"[^\W\d_][\w ]*-(?=\d)", "", said).strip()
    if not _LISTED.fullmatch(bare):
        return ()
    return tuple(int(one) for one in re.findall(r"\d+", bare))


def how_many(said: str) -> int:
    """Give the count that was typed, 0 where it is none."""
    bare = said.strip()
    return int(bare) if bare.isdecimal() and 0 < int(bare) <= _MOST else 0


def of_so_many(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as of so many pieces; of one only, where it was not said."""
    many = how_many(answer)
    return _told(line, doubt, replace(line.facts, so_many=many if many > 1 else 0))


def of_these(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the line as of the pieces that were named."""
    numbers = numbers_of(answer)
    if len(numbers) == 1:
        one = f"{line.facts.part} {numbers[0]}"
        return _told(line, doubt, replace(line.facts, piece=one, so_many=0))
    return _told(line, doubt, replace(line.facts, pieces=numbers))


def _told(line: Understanding, doubt: Doubt, facts: Facts) -> Understanding:
    left = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, facts=facts, doubts=left, confidence=1.0)
