"""Which faults on record a line answers that tells what is done with a piece.

What scraps a piece or sends it back ends all that was wrong with it. A rework, a
repair or the word that it is good enough is for a reason: it decides on the faults it
names or whose size it gives, and on no others.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace
from textwrap import shorten

from logbook.plain.sure.coverage import left_in_words
from logbook.plain.understanding import Doubt, Facts, Understanding, Verdict
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.spoken import spoken
from logbook.quantity import Quantity
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import undisposed
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

Fault = Deviation | Failure
ALL, NONE = "all of them", "none of these"
_ENDS = frozenset({"scrap", "return"})
"""What ends everything that was wrong with a piece."""
_SHORTEST_WORD = 4
_LONGEST_TITLE = 60
_MOST_OFFERED = 6


def held_to_faults(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line with the question which open fault it answers, where none tells.

    What was `answered` is not asked again.
    """
    facts = line.facts
    if line.verdict is not Verdict.TAKEN or not facts.disposition or facts.answers:
        return line
    found = open_faults(snapshot, facts)
    if facts.disposition in _ENDS or not _leaves_open(line, found):
        return line
    titles = [told(one) for one in found[-_MOST_OFFERED:]]
    every = (ALL,) if len(found) > 1 else ()
    doubt = Doubt("answers", "which of these does it answer?", (*titles, *every, NONE))
    if doubt.question in answered:
        return line
    return replace(line, doubts=(doubt, *line.doubts))


def _leaves_open(line: Understanding, faults: Sequence[Fault]) -> bool:
    """Tell whether nothing in a line says which of the open faults it is for.

    “Sanded it” tells how, and may be for any of them.
    """
    if not says_why(line):
        return len(faults) > 1
    facts = line.facts
    stated = facts.cause or facts.readings or facts.what
    return bool(faults) and not stated and not answered_by(line, faults)


def answering(line: Understanding, answer: str) -> Understanding:
    """Give the line with the fault it was said to answer."""
    left = tuple(one for one in line.doubts if one.about != "answers")
    facts = replace(line.facts, answers=answer or NONE)
    return replace(line, facts=facts, doubts=left, confidence=1.0)


def open_faults(snapshot: Snapshot, facts: Facts) -> list[Fault]:
    """Give the faults of the part, or of the piece named, nobody has decided on."""
    parts = snapshot.named(facts.part, Part) if facts.part else ()
    pieces = snapshot.named(facts.piece, Piece) if facts.piece else ()
    if len(parts) != 1:
        return []
    return [
        one
        for one in undisposed(snapshot)
        if part_of(snapshot, one) is parts[0]
        and not (pieces and one.piece and one.piece.id != pieces[0].id)
    ]


def answered_by(line: Understanding, faults: Sequence[Fault]) -> list[Fault]:
    """Give those of the open faults that the line decides on."""
    facts = line.facts
    if facts.disposition in _ENDS:
        reason = _stems(reason_told(line))
        return [one for one in faults if not reason or reason & _told_stems(one)]
    if facts.answers:
        chosen = {ALL: faults, NONE: ()}.get(facts.answers)
        if chosen is None:
            chosen = [one for one in faults if told(one) == facts.answers]
        return [*chosen]
    if says_why(line):
        own = _stems(f"{facts.part} {facts.piece}")
        reason = _stems(reason_told(line)) - own
        return [
            one
            for one in faults
            if _size_of(line, one, faults) or reason & (_told_stems(one) - own)
        ]
    return [*faults] if len(faults) == 1 else []


def says_why(line: Understanding) -> bool:
    """Tell whether a line says more than what is done: a reason, or a size."""
    return bool(line.facts.readings or line.facts.what or _stems(reason_told(line)))


def for_another_reason(line: Understanding, faults: Sequence[Fault]) -> bool:
    """Tell whether what is done leaves every fault of its piece open.

    A line that says nothing but what is done decides on all of them.
    """
    facts = line.facts
    if faults or facts.disposition in _ENDS or facts.answers == ALL:
        return False
    return bool(facts.answers) or says_why(line)


def named_singly(line: Understanding, faults: Sequence[Fault]) -> bool:
    """Tell whether these are the faults answered, not all that the piece has.

    What ends a piece answers the one fault it is for, and all of them where they are
    several, or where the line names the piece.
    """
    if line.facts.disposition in _ENDS:
        return len(faults) == 1 and not line.facts.piece
    return line.facts.answers != ALL


def told(fault: Fault) -> str:
    """Give a fault as it is offered among others."""
    return shorten(fault.title, _LONGEST_TITLE, placeholder=" …")


def _size_of(line: Understanding, fault: Fault, faults: Sequence[Fault]) -> bool:
    """Tell whether a line gives a size, and it is the one that was off.

    One without a name can be that only where it is no further off than what was found.
    """
    if not isinstance(fault, Deviation) or fault.characteristic is None:
        return False
    facts = line.facts
    given = {one.what or facts.what for one in facts.readings} or {facts.what}
    name = fault.characteristic.name
    if given - {""}:
        return name.casefold() in {one.casefold() for one in given}
    sizes = {
        one.characteristic.id
        for one in faults
        if isinstance(one, Deviation) and one.characteristic
    }
    near = any(_no_further_off(one.value, fault) for one in facts.readings)
    return near and len(sizes) == 1


def _no_further_off(value: Quantity, fault: Deviation) -> bool:
    """Tell whether a value is as near to what was wanted as what was found."""
    wanted, found = fault.wanted, fault.found
    if wanted is None or found is None:
        return True
    three = (value, wanted, found)
    if any(one.metal or one.dimension != wanted.dimension for one in three):
        return False
    now, meant, was = (one.to(wanted.unit) for one in three)
    return abs(now - meant) <= abs(was - meant)


def tells_of_failing(words: str) -> bool:
    """Tell whether words tell that something failed: warped next to the lamp."""
    known, row = lexicon(), re.findall(r"[\w'-]+", words.casefold())
    found = (known.longest(row, at) for at in range(len(row)))
    return any(hit and "fail:past" in hit[1] for hit in found)


def reason_told(line: Understanding) -> str:
    """Give the words in which a line says why something is done with a piece."""
    cause = line.facts.cause.said if line.facts.cause else ""
    return f"{cause} {left_in_words(line)}"


def _told_stems(fault: Fault) -> frozenset[str]:
    return _stems(f"{fault.title} {fault.prose}")


def _stems(text: str) -> frozenset[str]:
    return frozenset(_stemmed(re.findall(r"[a-z]+", text.casefold())))


def _stemmed(words: Iterable[str]) -> Iterable[str]:
    for word in words:
        if len(word) >= _SHORTEST_WORD and word not in _SAY_NOTHING:
            yield word[:_SHORTEST_WORD]


_SAY_NOTHING = frozenset(spoken(
    "because since that this with from into again still then than after before came "
    "goes went does have drawing drawn should mm just only also again fits slides now"
))  # fmt: skip
"""Words that two faults may share without being of one thing."""
