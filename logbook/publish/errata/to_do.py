"""What to do about the known faults of a release: of one part one instruction.

Who holds a part has one piece of it to make again or not, however many faults it has.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.advice.faults.as_done import AS_DONE, AS_SAID
from logbook.advice.faults.doing import MAKE_IT
from logbook.advice.faults.fixing import listed
from logbook.advice.faults.making_again import agreed, is_no
from logbook.publish.faults.fix_files import FixFile
from logbook.publish.faults.told import KnownFault
from logbook.publish.pages import capital
from logbook.records.together.names import folded


@dataclass(frozen=True, slots=True)
class Doing:
    """One thing to do, against the faults of these numbers.

    Where no cure is on record it says nothing, and `missing` names the fault.
    """

    numbers: tuple[int, ...]
    says: str
    missing: str


@dataclass(frozen=True, slots=True)
class ToDo:
    """What to do about one part, and whether to make it again.

    `made` is the part that is made again, where that is another: the faults it is made
    for stand apart; it `gets` that where it is bought. `take` is the revision to take;
    empty where nothing is made. `beside` says how that stands to what there is to do,
    `but` what stands against it; `files` are what it is made from. It is `idle` where
    nothing is done to a piece that is made.
    """

    part: str
    bought: bool
    made: str
    gets: bool
    idle: bool
    doing: tuple[Doing, ...]
    remake: str
    take: str
    beside: str
    files: tuple[FixFile, ...]
    but: str


def to_do(faults: Sequence[KnownFault]) -> tuple[ToDo, ...]:
    """Give what to do, part by part, in the order of the gravest fault of each.

    Faults are numbered in their order; those of no part stand each by itself.
    """
    groups: dict[tuple[str, str], list[tuple[int, KnownFault]]] = {}
    for number, fault in enumerate(faults, 1):
        key = (fault.part or f"fault {number}", fault.made)
        groups.setdefault(key, []).append((number, fault))
    return tuple(_of_part(group) for group in groups.values())


def agreed_faults(faults: Sequence[KnownFault]) -> list[KnownFault]:
    """Give the faults with answers that agree of each part (`agreed`)."""
    said = agreed([(one.made or one.part, one.remake) for one in faults])
    return [replace(one, remake=words) for one, words in zip(faults, said, strict=True)]


def _of_part(group: Sequence[tuple[int, KnownFault]]) -> ToDo:
    remake, maker = _made_again(group)
    doing = tuple(_doing(group, maker))
    take = maker.take if maker else ""
    beside = maker.beside if maker else ""
    files = maker.files if maker else ()
    first = group[0][1]
    idle = all(one.idle for _, one in group) and not remake.startswith("yes")
    but = _but(maker, group) if maker and take else ""
    return ToDo(
        first.part, first.bought, first.made, first.gets, idle, doing,
        remake, take, beside, files, but,
    )  # fmt: skip


def _doing(
    group: Sequence[tuple[int, KnownFault]], maker: KnownFault | None
) -> Iterator[Doing]:
    """Give each instruction once: what another one of the part covers goes with it.

    What stands against the revision to take is said where that is named.
    """
    there = maker.but if maker and maker.take else ""
    said = {number: _says(fault, group, there) for number, fault in group}
    under: dict[int, int] = {}
    longest = sorted(group, key=lambda one: (-len(said[one[0]]), one[0]))
    for number, fault in longest:
        leading = (one for one, other in under.items() if one == other)
        found = (o for o in leading if _covers(said[o], fault, said[number]))
        under[number] = next(found, number)
    for number, fault in group:
        if not said[number] and under[number] == number:
            yield Doing((number,), "", _sentences(fault.title, fault.sizes))
        elif under[number] == number:
            same = sorted(one for one, other in under.items() if other == number)
            yield Doing(tuple(same), said[number], "")


def _covers(more: str, fault: KnownFault, text: str) -> bool:
    """Tell whether an instruction says what is to be done about a fault as well.

    It has the words, or it is to make the very revision that fixes that fault too.
    """
    name = fault.take.partition(" (")[0]
    made = bool(name) and more.startswith(f"{MAKE_IT} {name} ")
    return made or (bool(text) and folded(text) in folded(more))


def _says(
    fault: KnownFault, group: Sequence[tuple[int, KnownFault]], there: str
) -> str:
    """Put together what to do about a fault; not what is said beside it anyhow."""
    if not fault.do_this:
        return ""
    but = "" if fault.but == there else _but(fault, group)
    return _sentences(_whose(fault), fault.instead, but, fault.sizes)


def _whose(fault: KnownFault) -> str:
    """Give an instruction with the fault it is of, where its words only say “it”."""
    do = fault.do_this
    only_it = do.startswith((AS_DONE, AS_SAID)) and re.search(r"\b(?:it|them)\b", do)
    return f"{do} ({fault.title})" if only_it else do


def _but(fault: KnownFault, group: Sequence[tuple[int, KnownFault]]) -> str:
    """Give what stands against a cure; nothing where it is another fault told here."""
    others = [other.title for _, other in group if other is not fault]
    return "" if any(title in fault.but for title in others) else fault.but


def _sentences(*said: str) -> str:
    """Join words to sentences; the first begins, and the last ends, as it is used."""
    first, *more = (one.rstrip(". ") for one in said if one)
    return ". ".join((first, *(capital(one) for one in more)))


def _made_again(
    group: Sequence[tuple[int, KnownFault]],
) -> tuple[str, KnownFault | None]:
    """Give the strictest of what is said of making it again, and what is cured then.

    Where several things are said it is said against which fault each of them is.
    """
    said = [(number, fault) for number, fault in group if fault.remake]
    for _, fault in said:
        if fault.remake.startswith("yes"):
            return fault.remake, fault
    some = [one for one in said if not is_no(one[1].remake)]
    words: dict[str, list[int]] = {}
    for number, fault in some or said:
        words.setdefault(fault.remake, []).append(number)
    if not some and len(words) > 1:
        words.pop("no", None)
    taken = [fault for _, fault in some if fault.take]
    return _against_each(words), taken[-1] if taken else None


def _against_each(words: Mapping[str, Sequence[int]]) -> str:
    """Put together what is said of several faults; of one, or all alike, only that."""
    if len(words) < 2:
        return next(iter(words), "")
    return "; ".join(
        f"against {numbered(numbers)} {said}" for said, numbers in words.items()
    )


def numbered(numbers: Sequence[int]) -> str:
    """Name faults by their numbers on the page: fault 4; faults 1 and 3."""
    return f"fault{'s' * (len(numbers) > 1)} {listed([str(one) for one in numbers])}"
