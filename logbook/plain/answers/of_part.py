"""What an answer to “which part?” makes of a line: known, new, or none."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.lines import understand
from logbook.plain.named.ends_of_names import is_headed
from logbook.plain.understanding import NO_PART, Doubt, Kind, Understanding, as_note
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.spoken import spoken
from logbook.plain.words.vocabulary import Vocabulary

A_NEW_PART = ", a new part"
"""What stands behind a typed name that is offered as a new part."""


def _which_near(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding | None:
    """Ask once more where a typed name is no part's, and parts have names near it."""
    known = {name.casefold() for name in (*vocabulary.parts, *vocabulary.proposed)}
    new = f"{answer}{A_NEW_PART}"
    offered = {*doubt.choices, new} & {answer, *doubt.choices}
    if answer.casefold() in known or answer in offered or new in doubt.choices:
        return None
    words = spoken(answer)
    if _only_end(words, vocabulary):
        return None
    near = [
        name
        for word in words
        if len(word) > 2
        for name in vocabulary.containing((vocabulary.near(word) or word,))
    ]
    if not near:
        return None
    choices = (*tuple(dict.fromkeys(near))[:4], new, NO_PART)
    asked = Doubt("part", f"“{answer}” is no part yet: which?", choices)
    rest = tuple(one for one in line.doubts if one is not doubt)
    return replace(line, doubts=(asked, *rest))


def _only_end(words: Sequence[str], vocabulary: Vocabulary) -> str:
    """Give the one part that words are the end of the name of, if there is one."""
    longer = vocabulary.containing(words)
    one = longer[0] if len(longer) == 1 else ""
    return one if one and is_headed(lexicon(), one, words) else ""


def part_answered(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    """Give the line as told of the part that was named, or of none."""
    if answer == NO_PART:
        return without_part(line)
    if not answer.endswith(A_NEW_PART):
        unsure = _which_near(line, doubt, answer, vocabulary)
        if unsure is not None:
            return unsure
    return _of_part(line, answer.removesuffix(A_NEW_PART), vocabulary)


def names_size(answer: str, vocabulary: Vocabulary) -> bool:
    """Tell whether an answer ends in the name of a size, of a part or by itself."""
    words = read_sentence(answer, vocabulary).words
    known = words[-1].name if words else None
    if known is not None and known.role == "part":
        return False
    return bool(words) and bool(
        known is not None or words[-1].tags & {"measures", "structure"}
    )


def of_size_named(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    """Give a size as called what it was said to be; of which part is asked next."""
    readings = tuple(replace(one, what=answer) for one in line.facts.readings)
    facts = replace(line.facts, what=answer, readings=readings)
    left = tuple(one for one in line.doubts if one is not doubt)
    asked = Doubt("part", "which part?", (NO_PART,))
    return replace(line, facts=facts, doubts=(asked, *left))


_NEED_A_PART = (Kind.READING, Kind.DISPOSITION, Kind.REVISION, Kind.FIT)


def without_part(line: Understanding) -> Understanding:
    """Give the line as told of no part: a failure stays one, a size becomes a note."""
    left = tuple(one for one in line.doubts if one.about != "part")
    if line.kind in _NEED_A_PART or any(one.needed for one in left):
        return as_note(without_names(line))
    return replace(without_names(line), doubts=left, confidence=1.0)


def without_names(line: Understanding) -> Understanding:
    """Give the line with no part of its own or by the way, and no piece."""
    facts = replace(
        line.facts, part="", part_is_new=False, piece="", others=(), layers=()
    )
    return replace(line, facts=facts)


def _of_part(line: Understanding, part: str, vocabulary: Vocabulary) -> Understanding:
    """Read the line again as told of this part, by whatever name it is in the line."""
    known = {
        name.casefold(): name for name in (*vocabulary.parts, *vocabulary.proposed)
    }
    part = known.get(part.casefold(), part)
    longer = _only_end(spoken(part), vocabulary)
    asked = line.question.choices if line.question else ()
    if part.casefold() not in known and part not in asked and longer:
        part = longer
    words = vocabulary
    for said in _names_in(line, part):
        words = words.with_part(said, part if part.casefold() in known else "")
    again = understand(line.line, words)
    if again.facts.part != part or any(one.needed for one in again.doubts):
        # What else is doubtful is asked next: one answer never undoes the rest.
        told = again if again.kind is line.kind else line
        left = tuple(one for one in told.doubts if one.about not in _WHOSE)
        again = replace(told, facts=replace(told.facts, part=part), doubts=left)
    facts = replace(again.facts, part_is_new=part not in vocabulary.parts)
    return replace(again, facts=facts, confidence=max(again.confidence, 0.9))


_WHOSE = ("part", "what")
"""Doubts that the name of a part answers."""


def _names_in(line: Understanding, part: str) -> tuple[tuple[str, ...], ...]:
    """Give the words of the line that name the part: its own, or those asked about."""
    said = spoken(part)
    rest = line.line.casefold()
    asked = spoken(line.said("part"))
    whole = _run_of(spoken(line.line), said, asked)
    return tuple(name for name in (whole, said, asked) if name and name[0] in rest)


def _run_of(
    line: Sequence[str], name: Sequence[str], asked: Sequence[str]
) -> tuple[str, ...]:
    """Give the longest row of words of a name in a line, in any order.

    It holds those that were asked about, or is of two words at least.
    """
    found: tuple[str, ...] = ()
    at = 0
    while at < len(line):
        last = at
        while last < len(line) and line[last] in name:
            last += 1
        row = tuple(line[at:last])
        if {*asked} <= {*row} and len(row) > max(1, len(found)):
            found = row
        at = last + 1
    return found
