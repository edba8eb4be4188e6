"""Clauses that by their form can only tell why, and those that never do."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.told.astray import went_astray
from logbook.plain.words.clauses import clauses, ends_well
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence

AFTERWARDS = frozenset(
    {">", "so", "can't get", "cant get", "cannot get", "couldn't get", "could not get"}
)
"""How a clause begins that tells what came of it, and not why."""


def by_its_form(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give the clause of a failure that by its form can only be why."""
    words = _tool_first(sentence, choice)
    if words:
        return words
    for start, end in clauses(sentence):
        row = sentence.words[start:end]
        mood = row[0].low in AFTERWARDS or any("mood" in word.tags for word in row)
        what = _tells_what(sentence, choice, start, end) or came_out(row)
        if mood or what or never_why(sentence, row) or tells_where(row):
            continue
        gave_up = _gave_up(sentence, choice) and _short_failure(sentence, start, end)
        lacking = _not_as_it_should(sentence, start, end)
        astray = start > 0 and went_astray(sentence, start, end)
        if astray or gave_up or lacking or _tells_cause(sentence, start, end):
            return row
    return []


def tells_where(row: list[Word]) -> bool:
    """See a clause that tells where it was: it was under the bed."""
    leads = [word.low for word in row[:2]] == ["it", "was"] or (
        bool(row) and row[0].low == "it was"
    )
    return leads and any("locative" in word.tags for word in row[1:3])


def _tells_what(sentence: Sentence, choice: Choice, start: int, end: int) -> bool:
    """Tell whether a clause tells the failure itself, or how far a size is off."""
    off, row = sentence.spans.get("off", []), sentence.words[start:end]
    was = any(word.low in ("was", "were") for word in row)
    told = start <= max(choice.at, 0) < end
    beside = "structure" in row[0].tags and start > max(choice.at, 0)
    return told or (not was and not beside and any(one in off for one in row))


_COMES = frozenset({"comes", "come", "came", "turns", "turned", "ends", "ended"})


def came_out(row: list[Word]) -> bool:
    """See “bend comes 0.3 short”: so much came of it, which is never why."""
    figures = any(word.sort in FIGURES for word in row)
    return figures and any(word.low.split(" ")[0] in _COMES for word in row[1:])


_POINTS = frozenset({"it", "that", "this", "so"})
_DENIED = frozenset({"wasn't", "wasnt", "isn't", "isnt", "weren't", "was not", "is not",
                     "not"})  # fmt: skip


def denies(row: list[Word]) -> bool:
    """See a cause that is ruled out: it was not the glue, so it wasn't the heat.

    “No spare”, “no luck” is what comes after it, and rules itself out.
    """
    said = " ".join(word.low for word in row).split(" ")
    if said[0] == "no" and not _IDLE.isdisjoint(said[1:3]):
        return True
    while said and said[0] in _POINTS:
        said = said[1:]
    pointed = len(said) < sum(len(word.low.split(" ")) for word in row)
    lead = {" ".join(said[:2]), said[0]} if said else set()
    return pointed and not lead.isdisjoint(_DENIED)


def never_why(sentence: Sentence, row: list[Word]) -> bool:
    """See a clause that denies, tells a limit or a cure: spec was 3.5."""
    figures = any(word.sort in FIGURES for word in row)
    limits = sentence.lexicon.clauses["limits"]
    limit = figures and any(word.low in limits for word in row[:3])
    cure = ends_well(sentence, row, of_it=True) or _deals_with_it(sentence, row)
    return limit or denies(row) or cure


def _deals_with_it(sentence: Sentence, row: list[Word]) -> bool:
    """See “turn it over”, “pinned it too”, not “cut it too short”: what is about it."""
    if len(row) < len(("turn", "it")) or row[1].low not in ("it", "them"):
        return False
    ends = {tag.rpartition(":")[2] for tag in row[0].tags}
    mends = row[0].low in sentence.lexicon.clauses["mends"]
    spoiled = any("too_bad" in word.tags for word in row)
    return ("base" in ends and "past" not in ends) or (mends and not spoiled)


def _tool_first(sentence: Sentence, choice: Choice) -> list[Word]:
    """Give a first clause in which a tool went wrong: bit wandered, hole 1/16 off."""
    rows = list(clauses(sentence))
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
    worse = {"fail:past", "fail", "defect", "off_strong", "off", "too_bad", "is"}
    so = any(word.tags & worse for word in rest) or rest[-1].low.endswith("ed")
    return first if about and so else []


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
    hinted = tags & {"guess", "too_bad", "off_strong"} or _hints(sentence, start, end)
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


_IDLE = frozenset(
    {"good", "question", "doubt", "matter", "harm", "use", "problem", "spare", "spares",
     "replacement", "replacements", "luck", "idea", "photo", "damage", "light", "sound",
     "picture"}
)  # fmt: skip
"""What there is none of, and nothing follows from it: no good, no light."""


def _hints(sentence: Sentence, start: int, end: int) -> bool:
    """See a word of what was amiss: dull, skipped, no backing board, only 2 walls."""
    for at in range(start, end):
        word, following = sentence.words[at], sentence.word(at + 1)
        row = sentence.words[start:end]
        counted = any(one.whole is not None or one.sort is Sort.COUNT for one in row)
        if word.low == "only" and counted:
            return True
        lacks = start > 0 and following is not None and following.low not in _IDLE
        if "cause_hint" in word.tags and (word.low != "no" or lacks):
            return True
    return False
