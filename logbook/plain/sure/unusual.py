"""What is built unlike a bench fact: asked about first, whatever it was read as.

Hearsay, plans, conditions, denials, and several things compared in one line: the
rules read words one by one, and here one word turns the whole line round.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.named.given_back import given_back_at
from logbook.plain.sure.unread import in_full, is_it
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named

_FACTS = frozenset(Kind) - {Kind.NOTE, Kind.QUESTION, Kind.COUNT}
_CHOSEN = frozenset({Kind.DECISION, Kind.REVISION, Kind.SUBSTITUTION})
_DONE = frozenset({Kind.STEP, Kind.ORDER, Kind.DISPOSITION, Kind.JOINT})
_FIT_CLASS = re.compile(r"\b\d{1,3} ?[A-Za-z]{1,2}[5-9]\b|\b\d{1,3} ?[A-Z]1[0-6]\b")


def unusual(sentence: Sentence, choice: Choice, facts: dict[str, Any]) -> list[Doubt]:
    """Give at most one doubt: the first thing that may turn the line round."""
    if choice.kind not in _FACTS:
        return []
    told = _turned(sentence, choice, facts)
    if choice.doubt is not None:
        told = iter(_none_of(sentence, choice) if choice.doubt.faint else ())
    for said in told:
        return [in_full(is_it(said), choice.kind, "may turn it round")]
    return []


def _turned(sentence: Sentence, choice: Choice, facts: dict[str, Any]) -> Iterator[str]:
    told = ("conditional",) if choice.kind is Kind.ORDER else ("hearsay", "conditional")
    for at in _free(sentence, *told):
        if not _a_symptom(sentence, choice, at):
            yield sentence.words[at].text
    if choice.kind not in _CHOSEN:
        for at in _free(sentence, "planned"):
            if choice.kind is not Kind.ORDER or sentence.words[at].low not in _DUE:
                yield sentence.words[at].text
        yield from _to_be_done(sentence)
    for rule in _RULES:
        yield from rule(sentence, choice, facts)


def _a_symptom(sentence: Sentence, choice: Choice, at: int) -> bool:
    """See “lamp flickers if I touch the plug”: it does, and that is when."""
    who = sentence.word(at + 1)
    ours = sentence.words[at].low == "if" and who is not None and who.low in ("i", "we")
    fails = choice.kind is Kind.FAILURE and "fail:now" in sentence.tags(choice.at)
    return ours and fails and choice.at < at


_DUE = frozenset({"next week", "tomorrow", "soon"})
"""When what is ordered is to come: no plan."""


def _free(sentence: Sentence, *tags: str) -> Iterator[int]:
    """Go through words with these tags that are no name and no reason's."""
    for at in sentence.tagged(*tags):
        before = {tag for word in sentence.words[:at] for tag in word.tags}
        if sentence.words[at].name is None and "because" not in before:
            yield at


_MUST = frozenset({"should", "must", "ought", "shall", "needs to", "need to", "has to"})


def _to_be_done(sentence: Sentence) -> Iterator[str]:
    """See “should be filed”; “should be 40” is what was wanted."""
    for at, word in enumerate(sentence.words):
        must = word.low.split(" ")[0] in _MUST or word.low in _MUST
        for ahead in (1, 2, 3):
            past = [t for t in sentence.tags(at + ahead) if t.endswith(":past")]
            following = sentence.word(at + ahead)
            if must and past and following is not None:
                yield f"{word.text} … {following.text}"
                return


_NEARLY = frozenset({"half", "nearly", "almost", "partly", "mostly"})
_NOT = frozenset({"not", "never", "nothing", "didn't", "did not", "hasn't", "no one"})


def _denied(sentence: Sentence, choice: Choice, _: dict[str, Any]) -> Iterator[str]:
    """See work denied: drawn but not ordered."""
    if choice.kind not in _DONE or choice.at < 0:
        return
    for word in sentence.words[max(0, choice.at - 1) : choice.at]:
        if word.low in _NEARLY:
            yield word.text  # Base half done.
    for word in sentence.words[max(0, choice.at - 3) : choice.at]:
        if word.low in _NOT or "negative" in word.tags:
            yield word.text
    following = sentence.word(choice.at + 1)
    if following is not None and following.low in _NOT:
        yield following.text


def _compared(
    sentence: Sentence, choice: Choice, facts: dict[str, Any]
) -> Iterator[str]:
    """See the sizes of two things in one line: the old one 36.18, the new 36.02."""
    if choice.kind is not Kind.READING:
        return
    for at in _free(sentence, "comparing"):
        yield sentence.words[at].text
    readings = facts.get("readings", ())
    sides = {one.place for one in readings} | {one.what for one in readings}
    parts = {sentence.words[at].name for at in parts_named(sentence)}
    apart = readings and all(one.piece for one in readings)  # Each of its own piece.
    several = len(readings) > 1 and len(parts) > 1 and not apart
    pieces = {sentence.words[at].name for at in sentence.named("piece")}
    if several and (len(pieces) > 1 or len(sides) < len(readings) + 1):
        yield sentence.words[parts_named(sentence)[1]].text
    if len({one.value.dimension for one in readings}) > 2:
        yield readings[-1].value.text


def _seems(sentence: Sentence, choice: Choice, _: dict[str, Any]) -> Iterator[str]:
    if choice.kind in _DONE:
        for at in _free(sentence, "seeming"):
            yield sentence.words[at].text


def _by_others(sentence: Sentence, choice: Choice, _: dict[str, Any]) -> Iterator[str]:
    """See a choice that is not ours: they sent M4 instead of M5."""
    first = sentence.tags(0) | sentence.tags(1)
    if choice.kind is Kind.SUBSTITUTION and "others_did" in first:
        yield sentence.words[0].text
    someone = sentence.words[0].low in ("he", "she", "somebody", "someone")
    if choice.kind is Kind.ORDER and someone:
        yield sentence.words[0].text


def _back_to_a_machine(
    sentence: Sentence, choice: Choice, facts: dict[str, Any]
) -> Iterator[str]:
    """See “returned to the folder”: worked on again, not given back."""
    if choice.kind is not Kind.DISPOSITION or facts.get("disposition") != "return":
        return
    if given_back_at(sentence) is not None:
        return  # Back to the cutter, who made it.
    for word in sentence.words[choice.at : choice.at + 4]:
        machine = word.name is not None and word.name.role == "machine"
        if machine or "tool" in word.tags:
            yield f"{sentence.words[choice.at].text} … {word.text}"


def _class_of_fit(
    sentence: Sentence, _: Choice, facts: dict[str, Any]
) -> Iterator[str]:
    """See “10H7”, which is no 7 mm."""
    found = _FIT_CLASS.search(sentence.text)
    named = [w for w in sentence.words if w.name or w.sort is Sort.THREAD]
    if (
        found
        and facts.get("readings")
        and not any(w.start <= found.start() < w.end for w in named)
    ):
        yield found[0]


def _none_of(sentence: Sentence, choice: Choice, *_: object) -> Iterator[str]:
    """See the no of “178.3, no 4 mm holes yet”: what is told there is not."""
    for at, word in enumerate(sentence.words[:-1]):
        sized = sentence.words[at + 1].sort in FIGURES
        if choice.kind is Kind.READING and word.low == "no" and sized:
            yield word.text


_ORDINARY_NOT = frozenset({"not", "no", "never", "nothing"})
_WARMING = frozenset({"cools", "cooled", "warms", "heats", "cool", "warm", "heated"})


def _doubtful_size(
    sentence: Sentence, choice: Choice, facts: dict[str, Any]
) -> Iterator[str]:
    """See sizes that may be none: 8 mm not; open by 0.5; cools down to 40."""
    readings = facts.get("readings", ())
    if choice.kind not in (Kind.READING, Kind.DISPOSITION) or not readings:
        return
    read = sentence.spans.get("readings", [])
    bare = [word for word in read if word.sort is Sort.NUMBER and not word.unit]
    for at, word in enumerate(sentence.words):
        following, before = sentence.word(at + 1), sentence.word(at - 1) if at else None
        sized = following is not None and following.sort in FIGURES
        if choice.kind is Kind.READING and word.low in _ORDINARY_NOT and not sized:
            yield word.text
        if word in read and before is not None and before.low == "by":
            yield f"by {word.text}"
        if bare and word.low.split(" ")[0] in _WARMING:
            yield f"{word.text} … {bare[0].text}"


_EACH = frozenset({"first", "second", "third", "one", "other", "another", "last"})


def _several(
    sentence: Sentence, choice: Choice, facts: dict[str, Any]
) -> Iterator[str]:
    """See several pieces told apart: first one scrap, second one 0.05 over."""
    if choice.kind is not Kind.DISPOSITION or facts.get("piece"):
        return
    told = [one for one in sentence.words if _EACH & set(one.low.split(" "))]
    heads = [sentence.words[start].low for start, _ in clauses(sentence)]
    heads += [sentence.words[s + 1].low for s, end in clauses(sentence) if end > s + 1]
    if len(told) > 1 and len(set(heads) & {one.low for one in told}) > 0:
        yield f"{told[0].text} … {told[-1].text}"


def _except(sentence: Sentence, choice: Choice, _: dict[str, Any]) -> Iterator[str]:
    """See “finished except for the paint”: nothing is decided by it."""
    if choice.kind is not Kind.DECISION or choice.at < 1:
        return
    done = any(
        tag.endswith(":past") for one in sentence.words[: choice.at] for tag in one.tags
    )
    if sentence.words[choice.at].low == "except" and done:
        yield sentence.words[choice.at].text


_RULES: tuple[Callable[[Sentence, Choice, dict[str, Any]], Iterator[str]], ...] = (
    _denied, _compared, _seems, _by_others, _back_to_a_machine, _class_of_fit,
    _none_of, _doubtful_size, _several, _except,
)  # fmt: skip
