"""A line that puts a reading on record right: 178.6 not 178.9, where 178.9 was read."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import replace
from fractions import Fraction

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.answers.amended import PUT_RIGHT, asked_to_amend
from logbook.plain.answers.which_size import called
from logbook.plain.sure.unread import PUTS_RIGHT, SO_OR_NOTE
from logbook.plain.told.put_right import puts_right
from logbook.plain.understanding import Doubt, Kind, Understanding, Verdict
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Reading, Run
from logbook.records.states.pieces import Taken, pieces_of, readings_of
from logbook.records.together.snapshot import Snapshot

_NOT_SO = re.compile(r"(?i)\bnot\s+(?:as\s+|at\s+)?[\d.,/]+")
_LOGGED = re.compile(
    r"(?i)\b(?:i|we)\s+(?:had\s+)?(?:logged|wrote|noted|entered|typed|put down)\b"
)
_FIGURE = re.compile(r"(?<![\w.,/-])\d+(?:[.,]\d+)?(?![\w/-]|[.,]\d)")


def held_to_readings(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first where what it denies is a reading on record.

    What is drawn is denied of a piece that came out otherwise; what was read, of an
    entry that is wrong. Of two figures one was read, and the other is what it should
    have been. What was `answered` is not asked again.
    """
    if (said := _SAID_ANEW.fullmatch(line.line.strip())) is not None:
        return _held_to_last(line, said, snapshot, answered)
    parts = snapshot.named(line.facts.part, Part) if line.facts.part else ()
    if len(parts) != 1 or not _may_correct(line):
        return line
    for taken in _of_the_size(line, snapshot, parts[0]):
        new = _other_figure(line, taken.reading) or _last_said(line, taken.reading)
        if new is None or _drawn_so(snapshot, taken.reading):
            continue
        old, entry = taken.reading.value, taken.run
        question = (
            f"{old} is on record, as {_called(taken)} of “{entry.title}” {entry.id}: "
            f"put {new} there instead?"
        )
        if question in answered:
            return line
        choices = (PUT_RIGHT, *SO_OR_NOTE) if _stands(line) else (PUT_RIGHT, *_NOTE)
        doubt = Doubt("amend", question, choices)
        plain = replace(line, doubts=() if _stands(line) else line.doubts)
        return asked_to_amend(plain, doubt, entry, _with(entry, taken.reading, new))
    return _held_to_drawing(line, snapshot, parts[0], answered)


def _held_to_drawing(
    line: Understanding, snapshot: Snapshot, part: Part, answered: Collection[str]
) -> Understanding:
    """Give “12.9 not 12.7”, asked first where 12.7 was neither read nor is drawn."""
    facts = line.facts
    item = called(snapshot, part, facts.what)
    drawn = item.nominal if item is not None else None
    if not _stands(line) or not _NOT_SO.search(line.line) or drawn is None:
        return line
    for wanted in facts.wanted[:1]:
        question = (
            f"{wanted} is on no record of {facts.what}, which is drawn {drawn}: "
            f"should it be {wanted}?"
        )
        if not _alike(drawn, wanted) and question not in answered:
            doubt = Doubt("wanted", question, (IT_SHOULD, IT_IS_SO, *_NOTE))
            return replace(line, doubts=(doubt, *line.doubts))
    return line


IT_SHOULD = "it should"
IT_IS_SO = "no, only what was measured"


def of_wanted(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give the reading with what is denied as what it should be, or without it."""
    wanted = line.facts.wanted if answer == IT_SHOULD else ()
    left = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, facts=replace(line.facts, wanted=wanted), doubts=left)


_VALUE = r"\d+(?:[.,]\d+)?"
_UNIT = r"(?:\s?[^\W\d_°µ%]{1,3}|\s?[°µ%][^\W\d_]?)?"
_SAID_ANEW = re.compile(
    r"(?i)(?:no|nope|sorry|oops|whoops|wait|correction|i mean(?:t)?|make (?:it|that)|"
    r"scratch that|err?)\b(?:[\s,:;.!-]+(?:no|sorry|wait|"
    r"wrong))*[\s,:;.!-]+(?:(?:it|that|the|this|my)\s+)*"
    r"(?:(?P<of>[^\d,;:]+?)\s+)??(?:(?:is|was|reads?|makes?)\s+)?"
    rf"(?P<new>{_VALUE})(?P<unit>{_UNIT})"
    rf"(?:,?\s+(?:and\s+)?(?:not|instead of)\s+(?P<old>{_VALUE}){_UNIT})?[.!]?"
)
"""A line that only says a figure anew: no, 22.14; sorry, 20.3 not 20.4."""
_NEAR = Fraction(1, 10)
"""Of several values the one so near is meant: 599.4 after 599.2 × 399.5."""


def _held_to_last(
    line: Understanding,
    said: re.Match[str],
    snapshot: Snapshot,
    answered: Collection[str],
) -> Understanding:
    """Give the line, asked first whether it puts right what was read just before."""
    found = _just_read(line, said, snapshot)
    if found is None:
        return line
    run, reading, new = found
    question = (
        f"{reading.value} is on record, as {_called(Taken(reading, run))} of "
        f"“{run.title}” {run.id}: put {new} there instead?"
    )
    if question in answered:
        return line
    doubt = Doubt("amend", question, (PUT_RIGHT, *_NOTE))
    return asked_to_amend(line, doubt, run, _with(run, reading, new))


def _just_read(
    line: Understanding, said: re.Match[str], snapshot: Snapshot
) -> tuple[Run, Reading, Quantity] | None:
    """Give the one value of the newest entry that may be meant, and what it is now."""
    told = [one for one in snapshot.entries if not isinstance(one, Deviation)]
    run = told[-1] if told else None
    if not isinstance(run, Run) or not _of_that(line, said["of"] or "", run):
        return None
    found = []
    for reading in run.readings:
        old = reading.value
        if not isinstance(old, Quantity) or old.metal:
            continue
        try:
            new = parse_quantity(f"{said['new']} {said['unit'].strip() or old.unit}")
            was = parse_quantity(said["old"], old.unit) if said["old"] else old
        except (BadInput, NeedsAnswer):
            return None
        meant = new.dimension == old.dimension and not _alike(new, old)
        if meant and _alike(was, old):
            found.append((run, reading, new))
    if len(found) > 1:
        found = [one for one in found if _is_near(one[1].value, one[2])]
    return found[0] if len(found) == 1 else None


def _of_that(line: Understanding, of: str, run: Run) -> bool:
    """Tell whether what a line names is what was read: no, deck was 599.4."""
    known = f"{run.title} {run.piece.name if run.piece else ''}".casefold()
    named = of.casefold().removeprefix("the ").split()
    part = "" if line.facts.part_is_new else line.facts.part.casefold()
    return part in known and all(word in known for word in named)


def _is_near(old: object, new: Quantity) -> bool:
    assert isinstance(old, Quantity)
    return abs(old.to(new.unit) - new.value) <= abs(new.value) * _NEAR


_NOTE = SO_OR_NOTE[1:]


def _stands(line: Understanding) -> bool:
    """Tell whether the line may be what it says too: a size, and what is wanted."""
    return line.verdict is Verdict.TAKEN and line.kind is Kind.READING


def _may_correct(line: Understanding) -> bool:
    says = any(PUTS_RIGHT in doubt.question for doubt in line.doubts)
    denies = line.kind is Kind.READING and _NOT_SO.search(line.line)
    return bool(says or denies or _LOGGED.search(line.line) or puts_right(line.line))


def _of_the_size(
    line: Understanding, snapshot: Snapshot, part: Part
) -> Iterator[Taken]:
    """Go through the readings it may be, those at the place that is told first.

    Only those of the piece it names, and of the value it denies.
    """
    places = {one.place.casefold() for one in line.facts.readings if one.place}
    number = _FIGURE.findall(line.facts.piece.replace("-", " "))[-1:]
    denied = line.facts.wanted[:1] if _NOT_SO.search(line.line) else ()
    found = [
        taken
        for piece in reversed(pieces_of(snapshot, part))
        for taken in reversed(readings_of(snapshot, piece))
        if not number or str(piece.number) in number
        if not denied or _alike(taken.reading.value, denied[0])
    ]
    found.sort(key=lambda taken: taken.reading.place.casefold() not in places)
    return iter(found)


def _other_figure(line: Understanding, reading: Reading) -> Quantity | None:
    """Give the one figure beside that of the reading, where its own is in the line."""
    if not isinstance(reading.value, Quantity) or reading.value.metal:
        return None
    figures = []
    for said in _FIGURE.findall(_without_names(line)):
        try:
            figures.append(parse_quantity(said, reading.value.unit))
        except (BadInput, NeedsAnswer):
            return None
    others = [one for one in figures if not _alike(one, reading.value)]
    return others[0] if len(figures) == len(others) + 1 == _TWO else None


_TWO = 2


def _without_names(line: Understanding) -> str:
    """Give the line without the numbers that say which piece it is: foot 1."""
    text = line.line
    for fact in ("part", "piece", "revision"):
        for span in line.words.get(fact, ()):
            text = text[: span.start] + " " * (span.end - span.start) + text[span.end :]
    return text


def _last_said(line: Understanding, reading: Reading) -> Quantity | None:
    """Give the one figure of “wrote that wrong, …”, where it may be said of this."""
    if not any(PUTS_RIGHT in doubt.question for doubt in line.doubts):
        return None
    old = reading.value
    if len(line.facts.readings) != 1 or not isinstance(old, Quantity) or old.metal:
        return None
    [told] = line.facts.readings
    named = not told.what or told.what.casefold() == reading.what.name.casefold()
    if not named or told.value.metal or old.dimension != told.value.dimension:
        return None
    return None if _alike(old, told.value) else told.value


def _drawn_so(snapshot: Snapshot, reading: Reading) -> bool:
    item = snapshot.find(reading.what, Characteristic)
    value = reading.value
    return bool(item and isinstance(value, Quantity) and _alike(item.nominal, value))


def _called(taken: Taken) -> str:
    place = f" at {taken.reading.place}" if taken.reading.place else ""
    return f"{taken.reading.what.name}{place}"


def _with(run: Run, reading: Reading, value: Quantity) -> Run:
    rows = (
        replace(one, value=value) if one.id == reading.id else one
        for one in run.readings
    )
    return replace(run, readings=tuple(rows))


def _alike(one: object, other: Quantity) -> bool:
    if not isinstance(one, Quantity) or one.metal or other.metal:
        return False
    return one.dimension == other.dimension and one.to(other.unit) == other.value
