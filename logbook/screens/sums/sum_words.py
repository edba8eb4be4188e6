"""What the calculator says of a sum and its inputs, and the form as it is kept."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say
from logbook.shop.answers import Answer
from logbook.shop.evidence import evidence
from logbook.shop.given import Input, in_words
from logbook.shop.shown import table_lines
from logbook.shop.sums import Sum


def meaning_of(asked: Input) -> str:
    """Say in the empty line what it is, and what holds if nothing is typed."""
    if asked.default:
        return f"{asked.meaning} [{asked.default}]"
    return asked.meaning if asked.required else f"{asked.meaning} (may be left out)"


def accepted_of(asked: Input) -> str:
    """Say what an input is and what it accepts, in full."""
    without = f"; if not given: {asked.default}" if asked.default else ""
    needed = "" if asked.default or not asked.required else " (needed)"
    accepted = (
        "" if asked.accepted == asked.meaning else f"; accepted: {asked.accepted}"
    )
    return f"{asked.meaning}{needed}{accepted}{without}"


def said_of(each: Sum, *, with_inputs: bool = True) -> Iterator[Say]:
    """Say what a sum does, what it needs, and where it comes from."""
    yield Say("does", each.title)
    for at, asked in enumerate(each.inputs if with_inputs else ()):
        yield Say(
            "" if at else "from", f"{asked.name.replace('_', ' ')}: {asked.meaning}"
        )
    yield Say("formula", each.formula)
    yield Say("source", each.source)
    if each.caution:
        yield Say("mind", each.caution)
    for name, typed in each.example.items():
        words = typed if isinstance(typed, str) else "  ".join(typed)
        yield Say(
            "example" if name == next(iter(each.example)) else "",
            f"{name.replace('_', ' ')} {words}",
        )


def answer_said(answer: Answer, width: int) -> Iterator[Say]:
    """Say what a sum came to, each result with its name, then why and how sure.

    Tables take up to `width` columns.
    """
    for one in answer.alarms:
        yield Say("warning", sentence("[$alarm bold]$words[/]", words=one))
    wide = max((len(each.shown) for each in answer.results), default=0)
    for each in answer.results:
        value = each.shown.ljust(wide) if each.meaning else each.shown
        words = sentence(
            "[bold]$value[/]  [$quiet]$meaning[/]", value=value, meaning=each.meaning
        )
        yield Say(in_words(each.name), words)
    for held in answer.tables:
        yield Say("", "")
        for at, line in enumerate(table_lines(held, width)):
            yield Say("" if at else "table", line)
    yield Say("", "")
    yield from _why(answer)


def _why(answer: Answer) -> Iterator[Say]:
    said = [("warning", one) for one in answer.warnings if one not in answer.alarms]
    said += [("assumed", one) for one in answer.assumptions]
    said.append(("formula", answer.formula))
    said += [("source", one) for one in answer.sources]
    said += [("certainty", str(one)) for one in evidence(answer.sources)]
    said += [("caution", one) for one in answer.cautions]
    said += [("mind", answer.note)] if answer.note else []
    yield from (Say(label, words) for label, words in said)


def form_text(typed: Mapping[str, str]) -> str:
    """Give what was typed for the inputs as the lines it is kept in."""
    rows = ((name, words) for name, words in typed.items() if words.strip())
    return "\n".join(f"{name}: {words}" for name, words in rows)


def form_read(text: str) -> dict[str, str]:
    """Give what was typed for the inputs, by their names, of kept lines."""
    rows = (line.partition(": ") for line in text.split("\n"))
    return {name: words for name, _, words in rows if words}
