"""A line read with single blanks or without its day, put back on the line as typed."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from logbook.plain.understanding import Span, Understanding

Row = tuple[Span, ...]


def spread(read: Understanding, line: str) -> Understanding:
    """Give what was read of the line with single blanks, at its places in the line."""
    places = _places(line)

    def moved(span: Span) -> Span:
        return Span(places[span.start], places[span.end - 1] + 1)

    return replace(
        _moved(read, moved), line=line, rest=_laid_out(read.rest, line, places)
    )


def gathered(line: Understanding) -> Understanding:
    """Give the line as it was read: without the words of its day, single blanks.

    How it was typed is kept beside it.
    """
    if not line.rest:
        return line
    places = {place: at for at, place in enumerate(_places(line.rest))}
    stays, _ = _parted(line)

    def moved(span: Span) -> Span:
        return Span(places[span.start], places[span.end - 1] + 1)

    single = " ".join(line.rest.split())
    plain = replace(line, words=stays, line=single, rest="")
    return replace(_moved(plain, moved), typed=line.typed or line.line)


def put_back(told: Understanding, line: Understanding) -> Understanding:
    """Give what became of a gathered line at its places in the line as it was typed.

    The day stays, whatever the line turned out to tell.
    """
    if not line.rest:
        return told
    kept = {name: getattr(line.facts, name) for name in ("when", "when_text")}
    if told.facts.when is None and told.amends is None:
        told = replace(
            told,
            facts=replace(told.facts, **kept, hour_said=line.facts.hour_said),
        )
    if told.line != " ".join(line.rest.split()):
        return told
    again = replace(spread(told, line.rest), line=line.line, rest=line.rest)
    _, of_day = _parted(line)
    return replace(again, words={**again.words, **of_day}, typed=line.typed)


def _parted(line: Understanding) -> tuple[dict[str, Row], dict[str, Row]]:
    """Give the words of the facts the line tells without its day, and of the day's."""
    stays: dict[str, Row] = {}
    of_day: dict[str, Row] = {}
    for fact, row in line.words.items():
        told = line.rest[row[0].start] if row else " "
        (of_day if told.isspace() else stays)[fact] = row
    return stays, of_day


def _laid_out(rest: str, line: str, places: list[int]) -> str:
    """Give the line without its day, laid out as the line itself is."""
    if not rest:
        return ""
    signs = [" "] * len(line)
    for at, place in enumerate(places):
        signs[place] = rest[at]
    return "".join(signs)


def _moved(read: Understanding, moved: Callable[[Span], Span]) -> Understanding:
    return replace(
        read,
        words={fact: tuple(map(moved, row)) for fact, row in read.words.items()},
        content=tuple(map(moved, read.content)),
        told_by=moved(read.told_by) if read.told_by else None,
    )


def _places(line: str) -> list[int]:
    """Give where each sign of the line with single blanks stands in the line."""
    places: list[int] = []
    for at, sign in enumerate(line):
        if not sign.isspace():
            if places and at and line[at - 1].isspace():
                places.append(at - 1)
            places.append(at)
    return places
