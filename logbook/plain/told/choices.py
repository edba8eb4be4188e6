"""What a choice is instead of, and which revision it opens."""

from __future__ import annotations

from itertools import pairwise
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.next_time import in_another_size_at
from logbook.plain.kinds.sizes_in_doubt import BECOMES
from logbook.plain.kinds.substitutions import short_of
from logbook.plain.told.ordered import bought_as
from logbook.plain.told.outcomes import told
from logbook.plain.told.part import part_named
from logbook.plain.told.reasons import ruled_out
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def instead_of(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give what was used instead of, as it was said."""
    for at in sentence.tagged("instead"):
        words = _phrase_to(sentence, at + 1)
        return told(sentence, "instead_of", words) if words else {}
    short = short_of(sentence)
    if short is not None and short[1] > short[0]:
        return told(sentence, "instead_of", sentence.words[short[0] : short[1]])
    for at in sentence.tagged("unavailable"):
        start = next(first for first, end in clauses(sentence) if first <= at < end)
        if sentence.words[start:at]:
            return told(sentence, "instead_of", sentence.words[start:at])
    lows = [word.low for word in sentence.words]
    for stop in ("with", "for"):
        if choice.at == 0 and stop in lows:
            words = [
                word
                for word in sentence.words[1 : lows.index(stop)]
                if "article" not in word.tags
            ]
            return told(sentence, "instead_of", words) if words else {}
    return {}


def part_replaced(sentence: Sentence, facts: dict[str, Any]) -> dict[str, Any]:
    """Tie what is not used to the part it is: M4x25, which is the M4x25 screw."""
    for word in sentence.spans.get("instead_of", []):
        bare = word.sort is Sort.THREAD and word.name is None
        part = bought_as(sentence, word) if bare else ""
        if not part or part == facts.get("part"):
            continue
        if not facts.get("part"):
            sentence.note("part", word)
            return {"part": part, "others": ()}
        return {"others": tuple(dict.fromkeys((*facts.get("others", ()), part)))}
    return {}


def instead_said(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what is not used, in a choice that says so: M5 instead of M6."""
    for at in sentence.tagged("instead"):
        words = _phrase_to(sentence, at + 1)
        return told(sentence, "instead_of", words) if words else {}
    return _changed_from(sentence) or _ruled_out(sentence)


def _ruled_out(sentence: Sentence) -> dict[str, Any]:
    """Give what is said not to be used: screws on the lid, not rivets."""
    at = in_another_size_at(sentence)
    if at is not None and sentence.words[at + 2].low == "not":
        return told(sentence, "instead_of", [sentence.words[at + 3]])
    for start, end in [*clauses(sentence)][1:]:
        row = sentence.words[start:end]
        figures = any(word.sort in FIGURES for word in row)
        if row[0].low == "not" and ruled_out(row) and not figures:
            return told(sentence, "instead_of", row[1:])
    return {}


def _changed_from(sentence: Sentence) -> dict[str, Any]:
    """Give the size that was: the 2.2 of “2.2 -> 2.5” and of “from 2.2 to 2.5”."""
    figures = sentence.sorts(Sort.NUMBER)
    for at, last in pairwise(figures):
        between = "".join(word.low for word in sentence.words[at + 1 : last])
        led = at > 0 and sentence.words[at - 1].low == "from"
        led = led or sentence.words[0].low == "decided"
        if between in BECOMES and (between != "to" or led):
            sentence.spans["readings"] = [
                word
                for word in sentence.spans.get("readings", [])
                if word is not sentence.words[at]
            ]
            return told(sentence, "instead_of", [sentence.words[at]])
    return {}


def _phrase_to(sentence: Sentence, at: int) -> list[Word]:
    words: list[Word] = []
    while at < len(sentence.words):
        word = sentence.words[at]
        if (
            word.sort is Sort.MARK
            or word.tags & {"locative", "joiner", "because"}
            or word.low in ("for", "on")
        ):
            break
        words.append(word)
        at += 1
    return words


def revision_of(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give the label of the revision told, and whether it is withdrawn."""
    word = sentence.words[choice.at]
    if word.sort is Sort.LABEL:
        label = _label_in(word)
    elif word.sort is Sort.CODE:
        label = word.text
    else:
        label = "new"
    sentence.note("revision", word)
    facts: dict[str, Any] = {"revision": label, **_first_named(sentence)}
    for at in sentence.tagged("withdrawn"):
        sentence.note("withdrawn", sentence.words[at])
        facts["withdrawn"] = True
    return facts


def _first_named(sentence: Sentence) -> dict[str, Any]:
    """Give the part named first, which is the one revised: the leg, its cable hole."""
    named = sorted(parts_named(sentence))
    parts = tuple(dict.fromkeys(part_named(sentence.words[at]) for at in named))
    if len(parts) < 2 or sentence.words[named[0]] in sentence.spans.get("part", []):
        return {}
    sentence.spans["part"] = [sentence.words[named[0]]]
    return {"part": parts[0], "others": parts[1:]}


def revision_of_piece(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give of which revision the piece is that is told of: base 3 rev A, 180.2."""
    for at, word in enumerate(sentence.words[1:], 1):
        named = sentence.words[at - 1].name
        of_it = named is not None and named.role in ("part", "piece")
        if of_it and word.sort is Sort.LABEL and "revision" in word.tags:
            sentence.note("revision", word)
            return {"revision": _label_in(word)}
    return {}


def _label_in(word: Word) -> str:
    """Give the A of “rev A”, of “new revision A”, and of “revised to A”."""
    label = word.text.rpartition(" ")[2].strip()
    return label.upper() if len(label) == 1 else label
