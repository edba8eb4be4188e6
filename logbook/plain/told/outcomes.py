"""How it went: cause, cure, what is done, and whose fault."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from logbook.plain.kinds.blame import drawn_wrong, my_machine
from logbook.plain.kinds.choice import FIGURES, Choice
from logbook.plain.kinds.dispositions import mere_noun, repairs
from logbook.plain.told.reasons import why_chosen
from logbook.plain.understanding import Cause, Kind
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence


def told(sentence: Sentence, fact: str, words: list[Word]) -> dict[str, Any]:
    """Give a fact in the words it was told in."""
    sentence.note(fact, *words)
    return {fact: sentence.text[words[0].start : words[-1].end]}


def _clauses(sentence: Sentence) -> Iterator[tuple[int, int]]:
    start = 0
    for at, word in enumerate(sentence.words):
        if word.sort is Sort.MARK and word.low in ",;.":
            if at > start:
                yield start, at
            start = at + 1
    if start < len(sentence.words):
        yield start, len(sentence.words)


def cause(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give why it happened, and how sure that is."""
    for at in sentence.tagged("because"):
        words = _until(sentence, at + 1, "cure")
        if words:
            return _caused(sentence, words)
    if choice.kind is Kind.READING:
        return {}
    if choice.kind is not Kind.FAILURE:
        words = why_chosen(sentence, choice)
        return _caused(sentence, words) if words else {}
    led = _tool_first(sentence, choice)
    if led:
        return _caused(sentence, led)
    for start, end in _clauses(sentence):
        off, row = sentence.spans.get("off", []), sentence.words[start:end]
        was = any(word.low in ("was", "were") for word in row)
        if start <= choice.at < end or (not was and any(one in off for one in row)):
            continue
        if any("mood" in word.tags for word in sentence.words[start:end]):
            continue
        gave_up = _gave_up(sentence, choice) and _short_failure(sentence, start, end)
        lacking = _not_as_it_should(sentence, start, end)
        if gave_up or lacking or _tells_cause(sentence, start, end):
            return _caused(sentence, sentence.words[start:end])
    return {}


def _tool_first(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give a first clause in which a tool went wrong: bit wandered, hole 1/16 off."""
    rows = list(_clauses(sentence))
    if len(rows) < 2 or not rows[0][0] <= choice.at < rows[0][1]:
        return []
    first = sentence.words[slice(*rows[0])]
    tool = any("tool" in word.tags for word in first[:3]) or (
        first[0].low.split(" ")[0] in ("drill", "bit", "saw", "blade", "clamp", "fence")
    )
    if not tool or any(word.name is not None for word in first):
        return []
    rest = sentence.words[rows[1][0] : rows[1][1]]
    about = any(word.name is not None or "structure" in word.tags for word in rest) or (
        any(word.sort is Sort.LABEL for word in rest)
    )
    worse = {"fail:past", "fail", "defect", "off_strong", "off", "too_bad"}
    return first if about and any(word.tags & worse for word in rest) else []


_GAVE_UP = frozenset(
    {"dead", "died", "failed", "went out", "gave up", "quits", "not working",
     "stopped working", "went dark"}
)  # fmt: skip


def _gave_up(sentence: Sentence, choice: Choice) -> bool:
    """Tell a failure that says nothing of how it came: lamp dead."""
    return choice.at >= 0 and sentence.words[choice.at].low in _GAVE_UP


def _short_failure(sentence: Sentence, start: int, end: int) -> bool:
    """See “driver shorted” behind “lamp dead”: it can only be why."""
    words, last = sentence.words[start:end], sentence.words[end - 1]
    named = any(word.name is not None for word in words)
    broke = "fail" in last.tags or (not last.tags and last.low.endswith("ed"))
    return start > 0 and 2 <= len(words) <= 3 and not named and broke


def _not_as_it_should(sentence: Sentence, start: int, end: int) -> bool:
    """See “clamp not tight” behind a failure: a thing that was not as it should be."""
    words = sentence.words[start:end]
    if start == 0 or not 3 <= len(words) <= 5 or words[-2].low != "not":
        return False
    return all(word.sort is Sort.WORD for word in words) and not words[-1].tags & (
        _TELLS_OTHER | {"make:past", "close:past", "step"}
    )


_TELLS_OTHER = frozenset(
    {
        "cure", "decide", "scrap", "order_done", "order_wish", "room", "todo",
        "attribution_drawing", "attribution_piece", "attribution_machine",
    }
)  # fmt: skip


def _tells_cause(sentence: Sentence, start: int, end: int) -> bool:
    tags = {tag for at in range(start, end) for tag in sentence.tags(at)}
    hinted = tags & {
        "cause_hint",
        "guess",
        "too_bad",
        "off_strong",
    }
    figures = any(word.sort in FIGURES for word in sentence.words[start:end])
    tags = tags if figures else tags - {"room"}  # No air gap.
    was = any(sentence.words[at].low in ("was", "were") for at in range(start, end))
    off = tags & {"too_bad", "off_strong", "guess"} or (was and "off" in tags)
    if figures and not off:
        return False  # The wire is 2 mm: what it is now, no cause.
    happened = (
        end - start == 1
        and sentence.words[start].low in (sentence.lexicon.clauses["happens"])
    )
    if happened and start > 0:
        return True
    return (
        bool(hinted)
        and (not tags & _TELLS_OTHER or "guess" in tags)
        and (end - start >= 2 or (start > 0 and " " in sentence.words[start].low))
    )


def _until(sentence: Sentence, at: int, *stops: str) -> list[Word]:
    words: list[Word] = []
    while at < len(sentence.words):
        word = sentence.words[at]
        if word.low in (",", ";", ".") or word.tags & frozenset(stops):
            break
        if word.tags & {"is"} and not words:
            at += 1
            continue
        words.append(word)
        at += 1
    return words


def _caused(sentence: Sentence, words: list[Word]) -> dict[str, Any]:
    sentence.note("cause", *words)
    said = sentence.text[words[0].start : words[-1].end]
    status = "said"
    if sentence.has("guess"):
        status = "guessed"
    elif sentence.has("proven"):
        status = "proven"
    return {"cause": Cause(said, status)}


def cure(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what cured it."""
    for at in sentence.tagged("cure"):
        words = _until(sentence, at + 1)
        if words:
            return told(sentence, "cure", words)
    return {}


def _is_done(sentence: Sentence, at: int, tag: str) -> bool:
    """Tell whether a disposition is meant: not “on scrap”, not “not scrapped”."""
    if tag == "as_is":
        return True
    before = sentence.words[max(0, at - 2) : at]
    unmade = any(word.tags & {"negation", "negative"} for word in before)
    return not unmade and not mere_noun(sentence, at)


def disposition(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give what is done with the piece."""
    back = sentence.tagged("back")
    away = choice.kind is Kind.DISPOSITION and "send" in sentence.tags(0)
    if away and back and back[0] <= 4:
        sentence.note("disposition", sentence.words[0])
        return {"disposition": "return"}
    for tag, disposition in (
        ("as_is", "use as is"), ("scrap", "scrap"), ("give_back", "return"),
        ("repair", "repair"), ("rework", "rework"),
    ):  # fmt: skip
        found = [at for at in sentence.tagged(tag) if _is_done(sentence, at, tag)]
        if found:
            sentence.note("disposition", *(sentence.words[at] for at in found[:1]))
            return {"disposition": disposition}
    marred = any("fail:past" in sentence.tags(at) for at in range(1, 4))
    kept = choice.kind is Kind.DECISION and (sentence.named("piece") or marred)
    told_by = sentence.word(choice.at)
    if kept and told_by is not None and told_by.low.split(" ")[0] in _KEEPS:
        sentence.note("disposition", told_by)
        return {"disposition": "use as is"}
    given = _given_back(sentence, choice)
    if given is not None:
        sentence.note("disposition", sentence.words[given])
        return {"disposition": "return"}
    mended = repairs(sentence) or any(
        "fail:past" in sentence.tags(at) for at in range(1, 4)
    )
    if choice.kind is Kind.DISPOSITION and mended:
        sentence.note("disposition", sentence.words[choice.at])
        return {"disposition": "repair"}
    if choice.kind is Kind.DISPOSITION and sentence.tags(choice.at) & {"order_done"}:
        sentence.note("disposition", sentence.words[choice.at])
        return {"disposition": "return"}
    if choice.kind is Kind.DISPOSITION and choice.at >= 0:
        sentence.note("disposition", sentence.words[choice.at])
        return {"disposition": "rework"}
    return {}


_KEEPS = frozenset({"keep", "keeping", "leave", "leaving", "stays", "stay"})


def _given_back(sentence: Sentence, choice: Choice) -> int | None:
    """Give the word that tells of sending something back."""
    disposed = choice.kind is Kind.DISPOSITION
    if disposed and "back" in sentence.tags(choice.at):
        return choice.at
    sent = _sent_back(sentence)
    if sent is None and disposed and "send" in sentence.tags(0):
        return 0
    return sent


def _sent_back(sentence: Sentence) -> int | None:
    """See “sent it back” in any clause."""
    for at in sentence.tagged("send"):
        it, back = sentence.word(at + 1), sentence.word(at + 2)
        if it is not None and it.low in ("it", "them") and back is not None:
            return at if back.low == "back" else None
    return None


def blame(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    """Give whether another builder would meet this, where it was said."""
    if choice.kind not in (Kind.DECISION, Kind.FAILURE, Kind.READING, Kind.DISPOSITION):
        return {}
    mine = my_machine(sentence) if choice.kind is Kind.DECISION else []
    if mine and not sentence.has("attribution_drawing"):
        sentence.note("met_by_others", *sentence.words[mine[0] : mine[0] + 2])
        return {"met_by_others": "my machine"}
    for tag, whose in (
        ("attribution_drawing", "the drawing"),
        ("attribution_machine", "my machine"),
        ("attribution_piece", "only this piece"),
    ):
        found = sentence.tagged(tag)
        if found and (choice.kind is Kind.DECISION or tag != "attribution_machine"):
            sentence.note("met_by_others", *(sentence.words[at] for at in found))
            return {"met_by_others": whose}
    wrong = drawn_wrong(sentence) if choice.kind is Kind.DECISION else []
    if wrong and choice.at == wrong[0]:
        sentence.note("met_by_others", sentence.words[wrong[0]])
        return {"met_by_others": "the drawing"}
    return {}
