"""Work on a piece and a failure of it, told in one line: both are facts.

“Reworked the diffuser, chipped again”: it was reworked, and failed once more. “Remade
the gate because it warped”: one failed, and there is one more of it.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.choosing import choose
from logbook.plain.kinds.failing import failure_at
from logbook.plain.told.facts import gather
from logbook.plain.told.part import part_of
from logbook.plain.understanding import Beside, Kind
from logbook.plain.values.readings import find_values
from logbook.plain.words.clauses import reworks
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named
from logbook.records.making.one_more import makes_one_more

Told = tuple[Sentence, Choice, dict[str, Any]]


def work_and_failure(sentence: Sentence) -> Told | None:
    """Read work and a failure of the same piece, whichever came first."""
    return _failed_again(sentence) or _made_anew(sentence)


# -- reworked, and failed once more ------------------------------------------------

_JOINS = frozenset({"but", "and", "yet", "then"})
_AGAIN = frozenset({"again", "anyway", "regardless"})


def _failed_again(sentence: Sentence) -> Told | None:
    for start in _seams(sentence):
        first, rest = sentence.words[:start], sentence.words[start + 1 :]
        did = _reworked(sentence, first)
        again = {low for word in rest for low in word.low.split(" ")} & _AGAIN
        subject = [word for word in first if word.name is not None][:1]
        all_the_same = bool(again) or sentence.words[start].low == "but"
        if did and all_the_same and _fails(sentence, [*subject, *rest]):
            return _told(sentence, rest, Beside(did, _text(sentence, first)), first)
    return None


def _seams(sentence: Sentence) -> Iterator[int]:
    """Go through the stops and joiners at which a line may fall in two."""
    for at, word in enumerate(sentence.words[1:-1], 1):
        stop = word.sort is Sort.MARK and word.low in ",;.-"
        if stop or word.low.split(" ")[0] in _JOINS:
            yield at


def _reworked(sentence: Sentence, words: list[Word]) -> str:
    """Give what words say was done to a part, told first or right behind its name."""
    part = _part(sentence, words)
    for at, word in enumerate(words):
        if any(tag.endswith(":past") for tag in word.tags):
            did = reworks(_row(sentence, words), at)
            return did if part and not _fails(sentence, words) else ""
    return ""


# -- failed, and made anew ---------------------------------------------------------


def _made_anew(sentence: Sentence) -> Told | None:
    because = next(iter(sentence.tagged("because")), _of_the_old_one(sentence))
    if because < 1:
        return None
    first = sentence.words[:because]
    rest = sentence.words[because + 1 :]
    said = _text(sentence, first)
    named = {_part(sentence, first), _part(sentence, rest)} - {""}
    if not (makes_one_more(said) and _part(sentence, first) and len(named) == 1):
        return None
    if not (_fails(sentence, rest) or _it_is_off(rest)):
        return None
    return _told(sentence, rest, Beside(Beside.ANEW, said), first)


_OLD = frozenset({"first", "last", "old", "previous", "earlier", "other"})


def _of_the_old_one(sentence: Sentence) -> int:
    """Give where a stop stands before what befell the old one: the last one warped."""
    for at, word in enumerate(sentence.words):
        led = [one.low for one in sentence.words[at + 1 : at + 3]]
        stop = word.sort is Sort.MARK and word.low in ",;-"
        if stop and _OLD & {low for one in led for low in one.split(" ")}:
            return at
    return -1


def _it_is_off(words: list[Word]) -> bool:
    """See “it was too short”, which says of no other thing that it is off."""
    lows = {low for word in words[:2] for low in word.low.split(" ")}
    it = bool(lows & (_OLD | {"it", "they", "that"}))
    return it and any("too_bad" in word.tags for word in words)


# -- what both need ----------------------------------------------------------------


def _told(
    sentence: Sentence, rest: list[Word], beside: Beside, first: list[Word]
) -> Told:
    """Read the failure by itself, of the part that the whole line is about."""
    failed = _row(sentence, rest)
    subject = [word for word in first if word.name is not None][:1]
    at = failure_at(_row(sentence, [*subject, *rest])) or len(subject)
    at = max(at - len(subject), 0)
    facts = gather(failed, find_values(failed), Choice(Kind.FAILURE, 0.9, at))
    facts.pop("disposition", None)
    whole = replace(sentence, spans={})
    facts |= part_of(whole)
    facts["beside"] = beside
    spans = {one: row for one, row in failed.spans.items() if one != "disposition"}
    whole.spans.update(spans | whole.spans)
    whole.note("beside", *first)
    told = sentence.words.index(rest[at])
    return whole, Choice(Kind.FAILURE, 0.9, told), facts


def _row(sentence: Sentence, words: list[Word]) -> Sentence:
    return replace(sentence, words=words, spans={})


def _text(sentence: Sentence, words: list[Word]) -> str:
    return sentence.text[words[0].start : words[-1].end]


def _fails(sentence: Sentence, words: list[Word]) -> bool:
    """Tell whether words by themselves tell that something failed."""
    row = _row(sentence, words)
    if failure_at(row) is None:
        return False
    choice = choose(row, find_values(row))
    return choice.kind in (Kind.FAILURE, Kind.NOTE) and choice.doubt is None


def _part(sentence: Sentence, words: list[Word]) -> str:
    row = _row(sentence, words)
    return str(part_of(row).get("part", "")) if parts_named(row) else ""
