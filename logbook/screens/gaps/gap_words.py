"""What advice about a gap or a joint is as rows of the sheet."""

from __future__ import annotations

from collections.abc import Iterator

from textual.content import Content

from logbook.advice.gaps.gap_case import percent
from logbook.advice.ground.advice import STANDING, Advice
from logbook.advice.ground.naming import formula_of, meant
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Fit, Joint, Step
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Grade
from logbook.records.sizes.definition import TOO_CLOSE, dimension
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say, bar
from logbook.shop.answers import Result

BAR = 24
"""Columns of a full bar where there is room."""
DOUBT = "doubt of "


def grade_word(advice: Advice) -> str:
    """Say how strongly advice speaks, or that somebody went on past it."""
    return "gone past" if advice.passed else advice.grade.value


def verdict_of(advice: Advice) -> str:
    """Say in a list what it comes to: it fits, waits, is made to a size, wants a look.

    What is only remarked on a gap is no verdict by its grade, but by what it says.
    """
    if advice.passed or advice.grade is not Grade.REMARK:
        return grade_word(advice)
    made = next((one for one in advice.numbers if one.name == "finish"), None)
    if made is not None:
        return f"make {made.shown}"
    for said, word in _COMES_TO:
        if said in advice.statement:
            return word
    return "remark"


_COMES_TO = (
    ("cannot be worked out", "not known"),
    (TOO_CLOSE, "close call"),
    (": within", "fits"),
    ("stands through as it should", "fits"),
    ("more than three pitches", "fits, long"),
    ("may be made now", "may be made"),
    ("looser than wanted", "too loose"),
    ("tighter than wanted", "too tight"),
    ("only by force", "too tight"),
)
"""What the words of a remark come to, the graver first."""


def weight_of(advice: Advice) -> str:
    """Give how loud a verdict is drawn: what holds the work up loudest."""
    if advice.open:
        return "$alarm bold"
    return "$ink bold" if verdict_of(advice).startswith("make ") else "$ink"


def example_of(snapshot: Snapshot, record: Record) -> str:
    """Give what can be typed to suppose something of a gap or a joint."""
    if isinstance(record, Joint):
        names = dict.fromkeys(layer.part.name for layer in record.layers)
        screw = record.fastener or "M4x20"
        return ", or ".join([screw, *(f"{name} 6.5" for name in list(names)[:1])])
    if not isinstance(record, Fit):
        return ""
    try:
        named = [meant(snapshot, name) for name in formula_of(record.formula).names]
    except BadInput:
        return ""
    for one in named:
        revision = current_revision(snapshot, one.part)
        drawn = dimension(snapshot, revision, one.what).nominal
        if drawn is not None:
            return f"{one.part.title} {one.what.title} {drawn}"
    return f"{named[0].part.title} {named[0].what.title} 6.5" if named else ""


def said_of(
    advice: Advice, snapshot: Snapshot, width: int, *, supposed: bool = False
) -> Iterator[Say]:
    """Give advice row by row, what is to be done first.

    Where it is only `supposed` nothing is said to be so.
    """
    loud = "$alarm bold" if advice.open else "$ink bold"
    about, statement = advice.about.name, advice.statement
    verdict = verdict_of(advice)
    yield Say(
        "make" if verdict.startswith("make ") else verdict,
        Content(statement.removeprefix(f"{about}: ")).stylize(loud),
    )
    if advice.passed:
        yield Say("why", f"somebody went on past it: {advice.passed}")
    numbers = {one.name: one for one in advice.numbers}
    yield from _made(numbers)
    yield from _chances(numbers, supposed=supposed)
    yield from _doubts(advice, width)
    yield from _lengths(numbers)
    step = snapshot.find(advice.step, Step)
    if step is not None:
        yield Say("in step", f"{step.number} {step.title}")
    yield from _each("from", advice.assumed)
    yield from _each("changes it", advice.changes)
    yield Say("formula", sentence("[$quiet]$words[/]", words=advice.formula))
    for source in advice.sources:
        yield Say("source", sentence("[$quiet]$words[/]", words=source))
    yield Say("", sentence("[$quiet]$words[/]", words=STANDING))


def _each(label: str, lines: tuple[str, ...]) -> Iterator[Say]:
    for at, line in enumerate(lines):
        yield Say("" if at else label, line)


def _made(numbers: dict[str, Result]) -> Iterator[Say]:
    """Give the sizes to make it to, in the order of work."""
    steps: list[tuple[str, str, str]] = [
        (name, numbers[name].shown, numbers[name].meaning)
        for name in ("rough", "finish")
        if name in numbers
    ]
    if "accept_low" in numbers and "accept_high" in numbers:
        span = f"{numbers['accept_low'].shown} to {numbers['accept_high'].shown}"
        steps.append(("accept", span, "what is right; else offer it up and fit"))
    form = "$at [b]$name[/b] [$mark][b]$shown[/b][/]  [$quiet]$meaning[/]"
    for at, (name, shown, meaning) in enumerate(steps, 1):
        words = sentence(form, at=str(at), name=name, shown=shown, meaning=meaning)
        yield Say("make" if at == 1 else "", words)


_CHANCES = {
    "chance": "as it is",
    "chance_as_cut": "as cut",
    "chance_finished": "when finished so",
    "chance_as_drawn": "to the drawing",
}


SUPPOSED = "if it were so"


def _chances(numbers: dict[str, Result], *, supposed: bool) -> Iterator[Say]:
    made = "finish" in numbers
    said = []
    for name, words in _CHANCES.items():
        if name in numbers and not (made and name == "chance"):
            so = SUPPOSED if supposed and name == "chance" else words
            said.append(f"{_likely(numbers[name])} {so}")
    if said:
        yield Say("chance", " · ".join(said))


def _likely(one: Result) -> str:
    """Say a chance as the sentence above does: never certain, never none."""
    if isinstance(one.value, int | float):
        return percent(float(one.value) / 100)
    return one.shown


def _doubts(advice: Advice, width: int) -> Iterator[Say]:
    found = [one for one in advice.numbers if one.name.startswith(DOUBT)]
    names = [one.name.removeprefix(DOUBT) for one in found]
    wide = max((len(name) for name in names), default=0)
    room = min(BAR, width - wide - 10)
    for at, (name, one) in enumerate(zip(names, found, strict=True)):
        share = one.value / 100 if isinstance(one.value, int | float) else 0.0
        drawn = bar(share, room).ljust(room) if room > 3 else ""
        words = sentence(
            "$name $shown [$mark]$bar[/]",
            name=name.ljust(wide), shown=one.shown.rjust(7), bar=drawn,
        )  # fmt: skip
        yield Say("" if at else "doubt", words)


_SPANS = (
    ("gap", "gap_tight", "gap_loose", "at its tightest to its loosest"),
    ("worst case", "worst_low", "worst_high", "if everything is off at once"),
    ("likely", "rss_low", "rss_high", "root sum of squares"),
    ("stands out", "lowest", "highest", "beyond the nut, worst case"),
)
_SINGLE = ("through", "grip", "pitch", "edge", "least")


def _lengths(numbers: dict[str, Result]) -> Iterator[Say]:
    for label, low, high, words in _SPANS:
        if low in numbers and high in numbers:
            least, most = numbers[low].shown, numbers[high].shown
            span, meaning = f"{least} to {most}", words
            if least == most:
                span, meaning = least, "the same at every place"
            yield Say(label, _figure(span, meaning))
    for name in _SINGLE:
        if name in numbers:
            yield Say(name, _figure(numbers[name].shown, numbers[name].meaning))


def _figure(shown: str, meaning: str) -> Content:
    return sentence("$shown  [$quiet]$meaning[/]", shown=shown, meaning=meaning)


def strength(advice: Advice) -> int:
    """Give where advice stands in a list: waits first, what was gone past last."""
    return len(Grade) if advice.passed else list(Grade).index(advice.grade)
