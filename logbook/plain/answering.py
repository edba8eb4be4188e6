"""What the one answer makes of a doubtful line.

Where the answer fills a fact it is put into the line and the line is read
again, so that one set of rules understands everything.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.lines import understand
from logbook.plain.understanding import Doubt, Kind, Understanding
from logbook.plain.vocabulary import Vocabulary

NOTE_ANSWERS = frozenset({"only a note", "one note", "to do", "still to do"})
_SURE = {"measured", "done", "now", "one failure"}


def as_note(line: Understanding) -> Understanding:
    """Give the line to be kept as a note, with nothing left to ask."""
    return replace(line, kind=Kind.NOTE, confidence=0.0, doubts=())


def answered(
    line: Understanding, doubt: Doubt, answer: str, vocabulary: Vocabulary
) -> Understanding:
    """Give the line as understood with this answer to this doubt."""
    answer = answer.strip()
    if not answer or answer in NOTE_ANSWERS:
        return as_note(line)
    if answer in _SURE:
        return _sure(line, doubt, answer)
    if doubt.about == "part":
        facts = replace(line.facts, part=answer, part_is_new=_new(answer, vocabulary))
        return _sure(replace(line, facts=facts), doubt, answer)
    again = understand(_filled(line, doubt, answer), vocabulary)
    again = replace(again, line=line.line, words={})
    if any(one.needed for one in again.doubts):
        return as_note(line)
    return replace(again, confidence=max(again.confidence, 0.9))


def _new(part: str, vocabulary: Vocabulary) -> bool:
    return part.casefold() not in {name.casefold() for name in vocabulary.parts}


def _sure(line: Understanding, doubt: Doubt, answer: str) -> Understanding:
    left = tuple(one for one in line.doubts if one != doubt and not one.needed)
    facts = replace(line.facts, when=None) if answer == "now" else line.facts
    kind = Kind.FAILURE if answer == "one failure" else line.kind
    return replace(line, kind=kind, facts=facts, confidence=1.0, doubts=left)


def _filled(line: Understanding, doubt: Doubt, answer: str) -> str:
    """Put the answer where it belongs: for a number, over it; a unit, behind it."""
    text = line.line
    if doubt.about == "value":
        for spelled in _ambiguous(doubt):
            if spelled in text:
                return text.replace(spelled, answer, 1)
    if doubt.about == "unit":
        for span in reversed(line.words.get("readings", ())):
            text = f"{text[: span.end]} {answer}{text[span.end :]}"
        return text
    return f"{answer} {text}"


def _ambiguous(doubt: Doubt) -> tuple[str, ...]:
    """Give the words the question quotes: “1,234” can be …."""
    start, end = doubt.question.find("“"), doubt.question.find("”")
    return (doubt.question[start + 1 : end],) if 0 <= start < end else ()
