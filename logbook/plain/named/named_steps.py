"""A step of the order of work told by its own title, whatever is said behind it.

What waits for a step must be over by the words in which it is told to wait: by the
title of the step, or by saying that its things are where the step puts them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from logbook.plain.stated.part_names import one_slip_off
from logbook.plain.understanding import Doubt, Facts, Kind, Span, Understanding, Verdict
from logbook.plain.words.past_forms import is_past_of
from logbook.plain.words.spoken import spoken
from logbook.quantity import parse_quantity

_SEPARATOR = re.compile(r"\s*[,;.]\s+|\s+(?:and|so|then)\s+")
_UNDONE = re.compile(
    r"(?i)\b(?:not|no|never|but|yet|still|again|tomorrow|later|must|should|will|can|"
    r"cannot|except|without|before|failed|broke|came|fell)\b|n['’]t\b|\?"
)
"""What behind a step's title may say that it was not done, or went wrong."""
_TOOK = re.compile(r"(?i)\btook\s+(\d+(?:[.,]\d+)?\s*(?:min(?:utes)?|h(?:ours)?))\b")
_DONE = frozenset({"done", "finished", "complete", "completed"})
_STEP_NUMBER = re.compile(
    r"(?i)\s*(?:(?:i|we|just|now)\s+)*(?:(?:did|finished|completed|done with)\s+"
    r"(?:step|no\.?)\s*(?P<number>\d{1,3})|(?:step|no\.?)\s*(?P<other>\d{1,3})\s*[:,-]?"
    r"\s*(?:is\s+|now\s+)?(?:done|finished|completed?))\b"
)
_BARE_NUMBER = re.compile(
    r"(?i)\s*(?P<number>\d{1,3})(?P<other>)\s+(?:is\s+)?(?:done|finished)\s*[.!]?\s*"
)
"""“6 done” says no more than that; more behind it may be of six things done."""
_LEAD = frozenset({"i", "we", "now", "just", "then", "have"})
_SMALL = frozenset({
    "the", "a", "an", "its", "it", "in", "on", "into", "onto", "to", "at", "of", "from",
    "up", "down", "with", "is", "are", "now", "all", "both", "inside", "my", "their",
})  # fmt: skip
"""Words in which the same thing is said one way or the other."""
_IS = frozenset({"is", "are", "lies", "sits"})


def of_named_step(
    line: Understanding, steps: Sequence[str], numbered: Mapping[int, str]
) -> Understanding:
    """Give the line as told of the step it names, unless it tells more than that.

    By its title, or by its number in the order of work: step 6 done.
    """
    if not steps or line.line.rstrip().endswith("?"):
        return line
    found = _named(line.line, steps) or _by_number(line.line, numbered)
    if found is None:
        return line if line.kind is not Kind.NOTE else _slipped(line, steps)
    step, end = found
    words = {**line.words, "step": (Span(0, end),)}
    if line.kind is Kind.STEP and line.verdict is Verdict.TAKEN:
        facts = replace(line.facts, step=step)
        return replace(line, facts=facts, words=words)
    of_part = [one.about for one in line.doubts] == ["part"]
    asked = line.kind is Kind.STEP and of_part and end == len(line.line.rstrip(" ."))
    if line.kind is Kind.NOTE or line.verdict is Verdict.KEPT or asked:
        facts = Facts(step=step, when=line.facts.when, when_text=line.facts.when_text)
        took = _TOOK.search(line.line, end)
        if took is not None:
            facts = replace(facts, minutes=parse_quantity(took[1]))
            words["minutes"] = (Span(took.start(), took.end()),)
        return replace(
            line, kind=Kind.STEP, confidence=0.9, facts=facts, words=words, doubts=()
        )
    return line


def _slipped(line: Understanding, steps: Sequence[str]) -> Understanding:
    """Ask a note whether it is the one step that it misspells by one slip."""
    said = " ".join(spoken(line.line))
    near = [one for one in steps if one_slip_off(said, " ".join(spoken(one)))]
    if len(near) != 1:
        return line
    doubt = Doubt("step", "is that this step, done?", (near[0], "only a note"))
    return replace(line, doubts=(doubt,))


def of_step_answered(line: Understanding, _: Doubt, answer: str) -> Understanding:
    """Give the line as the step done that it was answered to be."""
    facts = Facts(step=answer, when=line.facts.when, when_text=line.facts.when_text)
    words = {"step": (Span(0, len(line.line)),)}
    told = replace(line, kind=Kind.STEP, facts=facts, words=words, doubts=())
    return replace(told, confidence=0.9)


_TO_SIZE = re.compile(
    r"(?i)(?:\s+for\s+(?:the\s+)?[\w-]+(?:\s+\d+)?)?\s+(?:to|at)\s+[\d.,]+"
)


def begins_with_step(text: str, steps: Sequence[str]) -> str:
    """Give the step that a line begins with, before a size: cut the crossbar to 179.7.

    Its words are the act and the part it is done to, which came out so.
    """
    for match in _TO_SIZE.finditer(text):
        said = spoken(text[: match.start()])
        while said and said[0] in _LEAD:
            said = said[1:]
        found = [one for one in steps if said and spoken(one) == said]
        if len(found) == 1 and not _UNDONE.search(text[match.end() :]):
            return found[0]
    return ""


def _named(text: str, steps: Sequence[str]) -> tuple[str, int] | None:
    """Give the one step that a line begins with, and where its words end."""
    for end in _ends(text):
        if _UNDONE.search(text[end:]):
            return None
        said = spoken(text[:end])
        while said and said[0] in _LEAD:
            said = said[1:]
        if said not in map(spoken, steps):
            said = _without_done(said)
        found = [one for one in steps if said and spoken(one) == said]
        found = found or [one for one in steps if said and _did(said, spoken(one))]
        found = found or [one for one in steps if said and _is_so(said, spoken(one))]
        if len(found) == 1:
            return found[0], end
    return None


def _by_number(text: str, numbered: Mapping[int, str]) -> tuple[str, int] | None:
    """Give the step that a line says was done by its number, and where that ends."""
    said = _BARE_NUMBER.fullmatch(text) or _STEP_NUMBER.match(text)
    if said is None or _UNDONE.search(text[said.end() :]):
        return None
    step = numbered.get(int(said["number"] or said["other"]))
    return (step, said.end()) if step else None


def _without_done(said: tuple[str, ...]) -> tuple[str, ...]:
    """Give words without what says behind a title that it was done."""
    if said and said[-1] in _DONE:
        said = said[:-1]
        return said[:-1] if said and said[-1] in {"is", "was"} else said
    return said


def _ends(text: str) -> Iterator[int]:
    """Give where the line, or a part of it from its beginning, ends; longest first."""
    yield len(text)
    yield from [match.start() for match in _SEPARATOR.finditer(text)][::-1]


def _did(said: Sequence[str], step: Sequence[str]) -> bool:
    """Tell whether words say that what a step is called was done: pressed it in.

    An article more or less makes no other step.
    """
    told, called = (
        [word for word in words if word not in _ARTICLES] for words in (said, step)
    )
    return bool(told) and told[1:] == called[1:] and is_past_of(told[0], called[0])


_ARTICLES = frozenset({"the", "a", "an", "my", "its", "their", "this"})


def _is_so(said: Sequence[str], step: Sequence[str]) -> bool:
    """Tell whether words say that all a step names is where it puts it.

    “The cable is in its channel” for “put the cable in its channel”: the same things
    and nothing else, two of them at least, for one word says too little.
    """
    things = [word for word in step[1:] if word not in _SMALL]
    told = [word for word in said if word not in (_SMALL | _IS)]
    so = bool(_IS & {*said[1:]}) and said[0] not in _IS
    return so and len(things) > 1 and told == things
