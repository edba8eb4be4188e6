"""Used, scrapped and left over against the parts list: pieces, never packs.

The list says how many one unit takes; an assembly that goes in twice takes its
lines twice. What a build really took is the last count of it, else the pieces
on record.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.ground.advice import Advice
from logbook.counting import so_many
from logbook.errors import Problem
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Count
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade, Source, State
from logbook.records.kinds.workshop import Build
from logbook.records.states.pieces import current_build, piece_state, pieces_of
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.answers import Result

_AWAY = {State.ORDERED, State.SENT_OUT, State.RECEIVED}
_PACK = re.compile(
    r"\b(?:pack|packet|box|bag|set|roll|strip|reel)s?\s*(?:of|à)\s*(?P<a>\d+)"
    r"|\b(?P<b>\d+)\s*(?:pcs?|pieces|pack|per\s+(?:pack|box|bag))\b",
    re.IGNORECASE,
)
_FORMULA = "used + scrapped + left over, against number × units + spare of the list"


@dataclass(frozen=True, slots=True)
class Listed:
    """What the parts list asks of a part for one unit, by assembly.

    `places` gives the number in each assembly once, `total` over all of them.
    """

    part: Part
    lines: tuple[Line, ...]
    places: tuple[tuple[str, int], ...]
    total: int
    spare: int

    @property
    def pack(self) -> int:
        """How many pieces it is bought by, 1 where the line names no pack."""
        return max((pack_of(line.bought_as) for line in self.lines), default=1)


@dataclass(frozen=True, slots=True)
class Tally:
    """What a build took of a part; `counted` tells a count from pieces on record.

    What was `bought` nobody made: its pieces are on record. What was `lost` is not
    spoiled.
    """

    used: int
    scrapped: int
    spare: int
    counted: bool
    bought: bool
    refs: tuple[Ref, ...]
    lost: int = 0

    @property
    def total(self) -> int:
        """All of them together."""
        return self.used + self.scrapped + self.spare + self.lost

    @property
    def words(self) -> str:
        """Say it; pieces that nobody counted were made, not known to be used."""
        told = ("scrapped", "lost", "left over")
        rest = zip((self.scrapped, self.lost, self.spare), told, strict=True)
        said = ", ".join(f"{number} {word}" for number, word in rest if number)
        if self.counted and not self.used:
            return f"{said}; how many were used was not counted"
        if self.counted:
            return f"{self.used} used" + (f", {said}" if said else "")
        on_record = "on record" if self.bought else "made"
        for number, word in ((self.scrapped, "scrapped"), (self.lost, "lost")):
            if number == self.total:
                every = word if number == 1 else f"all {word}"
                return f"{number} {on_record}, {every}"
        return f"{self.total} {on_record}" + (f", of these {said}" if said else "")


# -- the list --------------------------------------------------------------------


def parts_list(snapshot: Snapshot) -> tuple[tuple[Listed, ...], tuple[Problem, ...]]:
    """Give the list part by part, and assemblies that would contain themselves."""
    by_part: dict[str, list[Line]] = {}
    parts: dict[str, Part] = {}
    for line in snapshot.all(Line):
        part = snapshot.find(line.part, Part)
        if part is not None and not is_withdrawn(snapshot, part):
            by_part.setdefault(part.id, []).append(line)
            parts[part.id] = part
    problems: list[Problem] = []
    found = []
    for identity, lines in by_part.items():
        part = parts[identity]
        places = []
        total = 0
        for line in lines:
            assembly = snapshot.find(line.assembly, Part)
            times = _times(snapshot, assembly, by_part, (part.id,), line, problems)
            places.append((assembly.title if assembly else "", line.quantity))
            total += line.quantity * times
        spare = sum(line.spare for line in lines)
        found.append(Listed(part, tuple(lines), tuple(places), total, spare))
    ordered = sorted(found, key=lambda one: one.part.title.casefold())
    return tuple(ordered), tuple(dict.fromkeys(problems))


def _times(
    snapshot: Snapshot,
    assembly: Part | None,
    by_part: dict[str, list[Line]],
    above: tuple[str, ...],
    line: Line,
    problems: list[Problem],
) -> int:
    """Tell how often an assembly goes into one unit; unlisted ones go in once."""
    if assembly is None:
        return 1
    if assembly.id in above:
        found = f"{assembly.title} inside itself"
        accepted = "an assembly that does not contain itself"
        problems.append(Problem(snapshot.path(line), 0, "assembly", found, accepted))
        return 0
    own = by_part.get(assembly.id)
    if not own:
        return 1
    return sum(
        one.quantity
        * _times(
            snapshot,
            snapshot.find(one.assembly, Part),
            by_part,
            (*above, assembly.id),
            one,
            problems,
        )
        for one in own
    )


def pack_of(bought_as: str) -> int:
    """Give how many pieces a pack holds, 1 where none is named."""
    match = _PACK.search(bought_as)
    return max(1, int(match["a"] or match["b"])) if match else 1


# -- what a build took -----------------------------------------------------------


def tally(snapshot: Snapshot, part: Part, build: Build) -> Tally | None:
    """Give what a build took of a part, None where nothing is on record."""
    last = None
    for record in snapshot.mentions(part):
        if isinstance(record, Count) and snapshot.find(record.part) is part:
            mine = snapshot.find(record.build)
            last = record if mine is None or mine is build else last
    bought = part.source is Source.BOUGHT
    if last is not None:
        amounts = last.used, last.scrapped, last.spare
        return Tally(*amounts, counted=True, bought=bought, refs=(last.ref,))
    pieces = [p for p in pieces_of(snapshot, part) if snapshot.find(p.build) is build]
    states = [piece_state(snapshot, piece) for piece in pieces]
    here = [state for state in states if state not in _AWAY]
    if not here:
        return None
    scrapped = here.count(State.SCRAPPED)
    spare = here.count(State.SPARE) + here.count(State.TAKEN_OUT)
    lost = here.count(State.LOST)
    return Tally(
        len(here) - scrapped - spare - lost,
        scrapped,
        spare,
        counted=False,
        bought=bought,
        refs=tuple(piece.ref for piece in pieces),
        lost=lost,
    )


def counts_advice(snapshot: Snapshot, build: Build | None = None) -> Iterator[Advice]:
    """Say, part by part, what a build took against what the list asks."""
    build = build or current_build(snapshot)
    for listed in parts_list(snapshot)[0]:
        yield _told(
            listed, build, tally(snapshot, listed.part, build) if build else None
        )


def _told(listed: Listed, build: Build | None, taken: Tally | None) -> Advice:
    units = build.units if build else 1
    wanted = listed.total * units
    numbers = [
        Result("list", wanted, "", 0, "pieces the list asks for, spare aside"),
        Result("spare_listed", listed.spare, "", 0, "spare the list asks for"),
    ]
    if taken is not None:
        numbers += [
            Result("used", taken.used, "", 0, "pieces in the build"),
            Result("scrapped", taken.scrapped, "", 0, "pieces spoiled"),
            Result("left_over", taken.spare, "", 0, "pieces left over"),
        ]
        if taken.lost:
            numbers.append(Result("lost", taken.lost, "", 0, "pieces lost"))
    lines = tuple(line.ref for line in listed.lines)
    return Advice(
        key=f"counts {listed.part.id}" + (f" {build.id}" if build else ""),
        topic="counts",
        grade=Grade.REMARK,
        about=listed.part.ref,
        statement=f"{listed.part.title}: {'; '.join(_words(listed, wanted, taken))}",
        numbers=tuple(numbers),
        inputs=(
            *lines,
            *(taken.refs if taken else ()),
            *((build.ref,) if build else ()),
        ),
        formula=_FORMULA,
        assumed=tuple(_assumed(listed, taken)),
        changes=("a count of what was used, scrapped and left over",),
    )


def _words(listed: Listed, wanted: int, taken: Tally | None) -> Iterator[str]:
    spare = f" and {listed.spare} spare" if listed.spare else ""
    yield f"the list asks for {wanted}{spare}"
    if any(name for name, _ in listed.places):
        yield ", ".join(
            f"{count} in {name or 'the whole'}" for name, count in listed.places
        )
    if taken is None:
        yield "nothing is on record"
    else:
        yield taken.words
        yield from _off(listed, wanted, taken)
    if listed.pack > 1:
        packs = -(-(wanted + listed.spare) // listed.pack)
        yield f"bought by {listed.pack}, so {so_many(packs, 'pack')}"
        if wanted == listed.pack:
            yield f"is {wanted} pieces or a pack?"


def _off(listed: Listed, wanted: int, taken: Tally) -> Iterator[str]:
    """Say what the next builder should have got, where the list falls short."""
    if taken.used > wanted:
        yield f"the list is {taken.used - wanted} short"
    elif taken.used < wanted and (taken.used or not taken.counted):
        yield f"{wanted - taken.used} fewer than listed"
    if taken.scrapped > listed.spare:
        yield f"{taken.scrapped} spoiled against {listed.spare} spare on the list"


def _assumed(listed: Listed, taken: Tally | None) -> Iterator[str]:
    if taken is not None and not taken.counted:
        yield "taken from the pieces on record, nobody counted"
    if listed.pack > 1:
        yield "number and spare are taken as pieces, not packs"
