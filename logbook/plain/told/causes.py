"""Why it happened: behind a word that says so, or in a clause that can only be why."""

from __future__ import annotations

from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.astray import gone_astray
from logbook.plain.told.cause_clauses import (
    by_its_form,
    came_out,
    never_why,
    tells_where,
)
from logbook.plain.told.likely_causes import TELLS, why_likely
from logbook.plain.told.reasons import as_it_was, why_chosen
from logbook.plain.understanding import Cause, Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence


def cause(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give why it happened, and how sure that is; what is denied is no cause."""
    words = _behind_because(sentence)
    if not words and choice.kind is Kind.FAILURE:
        words = _why_failed(sentence, choice)
    elif not words and choice.kind is not Kind.READING:
        words = why_chosen(sentence, choice)
    return _caused(sentence, words) if words else {}


def _behind_because(sentence: Sentence) -> list[Word]:
    """Give what stands behind a because, not behind “not because of”."""
    for at in sentence.tagged("because"):
        before = sentence.words[at - 1] if at else None
        if before is not None and before.low in ("not", "no", "nor", "hardly"):
            continue
        if sentence.words[at].low == "since" and _is_time(sentence, at + 1):
            continue
        following = sentence.tags(at + 1)
        if sentence.words[at].low == "so that" and "is" in following:
            continue  # So that is my own trouble: what follows from it.
        if words := until(sentence, at + 1, "cure", "because"):
            return words
    return []


def _is_time(sentence: Sentence, at: int) -> bool:
    """See the moment behind a since: since last night, since monday."""
    word = sentence.word(at)
    timed = (Sort.WHEN, Sort.CLOCK, Sort.DATE)
    told = word is not None and (
        word.sort in timed
        or word.low.split(" ")[0] in ("last", "this", "yesterday", "then")
        or word.low in sentence.lexicon.weekdays
    )
    return bool(told) or any(tag.startswith("time:") for tag in sentence.tags(at))


def _why_failed(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give the clause of a failure that can only tell why."""
    words = as_it_was(sentence, choice) or _too_much_first(sentence)
    words = words or _from_what(sentence, choice)
    words = words or gone_astray(sentence, choice)
    words = words or _likeliest(sentence) or by_its_form(sentence, choice)
    return [] if _befell_one(words) or never_why(sentence, words) else words


def _too_much_first(sentence: Sentence) -> list[Word]:
    """Give “the screw was too long”, before “and bottomed, the cover stayed loose”.

    What is told behind the comma came of it, whatever it sounds like.
    """
    rows = list(clauses(sentence))
    first = sentence.words[slice(*rows[0])] if len(rows) > 1 else []
    for at, word in enumerate(first):
        if word.low in ("and", "so") and at + 1 < len(first):
            too = any("too" in one.low.split(" ") for one in first[:at])
            was = any(
                one.low.split(" ")[0] in ("was", "were", "is") for one in first[:at]
            )
            acted = first[at + 1].low.endswith("ed") or "fail" in first[at + 1].tags
            return first[:at] if too and was and acted else []
    return []


_ONE_OF_THEM = frozenset({"one", "two", "another", "other", "some", "half", "1", "2"})


def _befell_one(row: list[Word]) -> bool:
    """See what befell one of several: used 4 screws, one stripped its head."""
    said = [word for word in row if word.low not in _JOINS | {"the"}]
    first = said[0].low.removeprefix("the ").split(" ")[0] if said else ""
    failing = {"fail:past", "fail:now", "defect"}
    return first in _ONE_OF_THEM and any(word.tags & failing for word in said)


_JOINS = frozenset({"and", "so", "but", "then"})


def _likeliest(sentence: Sentence) -> list[Word]:
    """Give the clause whose words tell why, by what was learned of failures."""
    rows = why_likely(sentence)
    (start, end), likely = max(rows, key=lambda row: row[1], default=((0, 0), 0.0))
    row = sentence.words[start:end]
    ruled_out = (
        never_why(sentence, row)
        or came_out(row)
        or any("because" in word.tags for word in row)
        or (bool(row) and row[0].low == "so")
        or tells_where(row)
    )
    if likely < TELLS or ruled_out:
        return []
    while len(row) > 1 and row[0].low in _JOINS:
        row = row[1:]
    return row


def _from_what(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give what it came from: curled from heat, clouded by the glue fumes."""
    told = max(choice.at, 0)
    end = next((end for start, end in clauses(sentence) if start <= told < end), 0)
    for at in range(told + 1, end - 1):
        led = sentence.words[at].low
        if led not in ("from", "by"):
            continue
        first = at + 2 if "article" in sentence.tags(at + 1) else at + 1
        noun = sentence.word(first)
        if noun is None or noun.sort is not Sort.WORD:
            continue
        forces = sentence.lexicon.clauses["forces"]
        forced = any(word.low in forces for word in sentence.words[first : first + 2])
        worked = noun.low.endswith("ing") and not noun.tags & {"structure", "material"}
        worked = worked and led == "from"
        if forced or worked:
            return until(sentence, at + 1, "cure", "because", "joiner")
    return []


def until(sentence: Sentence, at: int, *stops: str) -> list[Word]:
    """Give the words from a place on, to the end of the clause or one of the stops."""
    words: list[Word] = []
    while at < len(sentence.words):
        word = sentence.words[at]
        if word.low in (",", ";", ".", "!") or word.tags & frozenset(stops):
            break
        if word.tags & {"is"} and not words:
            at += 1
            continue
        words.append(word)
        at += 1
    return words


_FIRST_THOUGHT = frozenset({"thought", "suspected", "assumed", "blamed"})


def _after_all(words: list[Word]) -> list[Word]:
    """Leave out what was only thought at first: thought it was X, but it was Y."""
    lows = [word.low.split(" ")[-1] for word in words]
    turned = [at for at, low in enumerate(lows) if low == "but"]
    if not turned or not _FIRST_THOUGHT & set(lows[: turned[0]]):
        return words
    return words[turned[0] + 1 :] or words


def _caused(sentence: Sentence, words: list[Word]) -> dict[str, Any]:
    words = _after_all(words)
    sentence.note("cause", *words)
    said = sentence.text[words[0].start : words[-1].end]
    status = "said"
    if sentence.has("guess"):
        status = "guessed"
    elif sentence.has("proven"):
        status = "proven"
    return {"cause": Cause(said, status)}
