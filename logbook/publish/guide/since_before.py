"""What a release has that one before it has not: pieces that still do, what to buy.

Who made parts of an older release asks which of them fit on, and what is bought anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.faults.headline import reason, titled
from logbook.advice.faults.making_again import again_words, agreed
from logbook.advice.faults.older_pieces import piece_again
from logbook.advice.faults.remaking import remade
from logbook.publish.guide.bought_parts import Rebought, rebought
from logbook.publish.guide.parts_list import Listed, listed, new_in
from logbook.publish.parts.hanging import suited_to
from logbook.publish.release.released import Released
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Source
from logbook.records.states.practice import is_practice
from logbook.records.together.likeness import single
from logbook.records.together.references import is_of
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class Since:
    """What changed on the list since an earlier release; each may be empty.

    `same` are the parts to make whose revision is unchanged and has no known fault,
    `faulty` those that have one, with it and whether a piece is made again, `remade`
    those of them that are; `suited` are sizes of both that were made to suit a part
    that changed. `again` are the others with whether a piece is, `blameless` those of
    them against which the earlier release has no known fault, with what changed in
    them and why; `new` those it had not. `anew` is bought that was not, or in another
    number, `named` what a change names though its number on the list is as it was, with
    the part that changed; `rebought` is bought by another revision; `gone` is needed no
    more.
    """

    label: str
    same: tuple[str, ...]
    faulty: tuple[tuple[str, str], ...]
    remade: tuple[str, ...]
    suited: tuple[tuple[str, str, str], ...]
    again: tuple[tuple[str, str], ...]
    blameless: tuple[tuple[str, str], ...]
    new: tuple[str, ...]
    anew: tuple[str, ...]
    named: tuple[tuple[str, str], ...]
    rebought: tuple[Rebought, ...]
    gone: tuple[str, ...]


def since_before(released: Released) -> Iterator[Since]:
    """Compare a release with each one before it, the newest of them first."""
    snapshot, release = released.snapshot, released.release
    older = [one for one in snapshot.all(Release) if one.when < release.when]
    for one in sorted(older, key=lambda one: (one.when, one.id), reverse=True):
        yield _since(released, Released(snapshot, one))


def _since(released: Released, before: Released) -> Since:
    snapshot = released.snapshot
    made = [
        part
        for part in released.needed
        if part.source is not Source.BOUGHT and not is_practice(snapshot, part)
    ]
    needed = {part.id for part in before.needed}
    held = {one.part.id: one for one in before.revisions if one.part.id in needed}
    pairs = [(part, held.get(part.id), released.revision(part)) for part in made]
    same = [part for part, old, one in pairs if one and old is one]
    changed = [part for part, old, one in pairs if one and old and old is not one]
    then, now = _needed(before), _needed(released)
    return Since(
        label=before.release.label,
        same=tuple(part.title for part in same if not any(_faults(released, part))),
        faulty=tuple(
            (part.title, "; ".join(said))
            for part in same
            if (said := tuple(_faults(released, part)))
        ),
        remade=tuple(part.title for part in same if _is_remade(released, part)),
        suited=tuple(
            (last.part.name, part.title, gap.title)
            for last, part, gap in suited_to(snapshot, changed)
            if any(is_of(last.part, one) for one in same)
        ),
        again=tuple(
            (part.title, piece_again(snapshot, old, one))
            for part, old, one in pairs
            if one and old and _is_later(snapshot, part, old, one)
        ),
        blameless=tuple(
            (part.title, _what_changed(snapshot, one))
            for part, old, one in pairs
            if one and old and _is_later(snapshot, part, old, one)
            if not any(snapshot.find(fault.part) is part for fault in before.faults)
        ),
        new=tuple(part.title for part, old, one in pairs if one and not old),
        anew=tuple(_anew(released, then, now)),
        named=tuple(
            (name, one.title)
            for part, old, one in pairs
            if one and old is not one
            for name in _named(one.changed, then, now)
        ),
        rebought=tuple(rebought(released, before)),
        gone=tuple(_gone(released, before)),
    )


def _faults(released: Released, part: Part) -> Iterator[str]:
    """Tell each known fault of a part by its number, and whether it is made again."""
    snapshot = released.snapshot
    answers = agreed([_again(released, fault) for fault in released.faults])
    for number, (fault, again) in enumerate(
        zip(released.faults, answers, strict=True), 1
    ):
        if snapshot.find(fault.part) is part:
            told = titled(snapshot, fault)
            other = remade(snapshot, fault)
            what = f"the {other.title}" if other else "it"
            yield f"known fault {number}, {told}; make {what} again? {again}"


def _is_remade(released: Released, part: Part) -> bool:
    """Tell whether a part is made again itself against a known fault of it."""
    asked = [_again(released, fault) for fault in released.faults]
    answers = zip(asked, agreed(asked), strict=True)
    return any(n == part.title and said.startswith("yes") for (n, _), said in answers)


def _what_changed(snapshot: Snapshot, revision: Revision) -> str:
    """Say what changed in a revision, and why; empty where nobody said it."""
    why = reason(snapshot, revision)
    return ", because ".join(filter(None, (revision.changed, why)))


def _is_later(snapshot: Snapshot, part: Part, old: Revision, one: Revision) -> bool:
    line = revisions_of(snapshot, part)
    return line.index(old) < line.index(one)


def _again(released: Released, fault: Erratum) -> tuple[str, str]:
    """Give the part that is made again against a fault, and whether it is."""
    snapshot = released.snapshot
    part = remade(snapshot, fault) or snapshot.find(fault.part, Part)
    held = released.revision(part) if part else None
    return part.title if part else "", again_words(snapshot, fault, held)


def _needed(released: Released) -> dict[str, Listed]:
    """Give the lines of what is bought and needed, by the name of the part."""
    return {
        line.name: line
        for line in listed(released)
        if line.said.source is Source.BOUGHT and not line.dropped
    }


def _gone(released: Released, before: Released) -> Iterator[str]:
    """Name the parts an earlier release needed and this one lists none of."""
    still = {line.name for line in listed(released) if not line.dropped}
    for line in listed(before):
        if not line.dropped and line.name not in still:
            yield line.name


def _named(
    words: str, then: dict[str, Listed], now: dict[str, Listed]
) -> Iterator[str]:
    """Give what is bought, as before, and named in words; a plain word may mean less.

    “Washer M4” is that part, whatever the order; “lamp” may be only where it is near.
    """
    told = set(_WORD.findall(single(words)))
    for name, line in now.items():
        own = set(_WORD.findall(single(name)))
        before = then.get(name)
        alike = before is not None and before.said.quantity == line.said.quantity
        if alike and own <= told and (len(own) > 1 or re.search(r"\d", name)):
            yield name


_WORD = re.compile(r"\w+")


def _anew(
    released: Released, then: dict[str, Listed], now: dict[str, Listed]
) -> Iterator[str]:
    for name, line in now.items():
        number, amount = line.said.quantity, line.said.amount
        said = f"{number} × {name}" if number else name
        said += f" of {amount}" if amount else ""
        new = new_in(released.revision(line.part)) if line.part else ""
        told = "; ".join(filter(None, (line.said.bought_as, new)))
        as_what = f" ({told})" if told else ""
        if name not in then:
            yield f"{said}{as_what}"
        elif (then[name].said.quantity, then[name].said.amount) != (number, amount):
            yield f"{said}, not {_so_much(then[name])}"
        elif then[name].said.bought_as != line.said.bought_as:
            yield f"{name} as {line.said.bought_as or 'the author does not say what'}"


def _so_much(line: Listed) -> str:
    number, amount = line.said.quantity, line.said.amount
    return f"{number or 'a number not stated'}{f' of {amount}' if amount else ''}"
