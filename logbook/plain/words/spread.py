"""A line read with single blanks, put back on the line as it was typed."""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.understanding import Span, Understanding


def spread(read: Understanding, line: str) -> Understanding:
    """Give what was read of the line with single blanks, at its places in the line."""
    places = _places(line)

    def moved(span: Span) -> Span:
        return Span(places[span.start], places[span.end - 1] + 1)

    return replace(
        read,
        line=line,
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
