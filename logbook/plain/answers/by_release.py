"""A line that says by which release a build goes on: from here on by release 1.1."""

from __future__ import annotations

import re
from dataclasses import replace

from logbook.plain.understanding import Facts, Kind, Span, Understanding
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot

_ON = r"(?:from\s+(?:here|now)\s+on|from\s+this\s+point\s+on)"
_BY = r"(?:by|with|to|after)\s+(?:the\s+)?(?:release\s+)?(?P<{}>\S+?)"
_LINE = re.compile(
    rf"(?:(?P<build>.+?)\s*[:,]?\s+)??(?:i\s+|we\s+|i'm\s+|it\s+)?"
    rf"(?:(?:(?:is\s+)?(?:built\s+|made\s+)?{_ON}|(?:go(?:es)?|going|went)\s+(?:on|over)|"
    rf"continues?|continuing|switch(?:es|ed|ing)?\s+over)\s+{_BY.format('of')}|"
    rf"(?:built\s+|made\s+)?{_BY.format('first')}\s+{_ON})[.!]?",
    re.IGNORECASE,
)


def held_to_release(line: Understanding, snapshot: Snapshot) -> Understanding:
    """Give the line as the decision to go on by a release, where it says that alone."""
    found = _LINE.fullmatch(line.line.strip())
    if found is None:
        return line
    group = "of" if found["of"] else "first"
    release = released_as(snapshot, found[group])
    builds = _builds(snapshot, found["build"] or "")
    if release is None or len(builds) != bool(found["build"]):
        return line
    return replace(
        line,
        kind=Kind.DECISION,
        facts=Facts(release=release.label, build=builds[0].title if builds else ""),
        words={"release": (Span(found.start(group), found.end(group)),)},
        content=(),
        doubts=(),
        confidence=1.0,
    )


def _builds(snapshot: Snapshot, name: str) -> tuple[Build, ...]:
    """Give the builds called so, with the word build before it or not."""
    bare = re.sub(r"(?i)^(?:the\s+)?build\s+", "", name)
    for one in (name, bare):
        if one and (found := snapshot.named(one, Build)):
            return found
    return ()


def released_as(snapshot: Snapshot, label: str) -> Release | None:
    """Give the one release of this label or name; None where there is none."""
    for name in (label, f"release {label}"):
        named = snapshot.named(name, Release)
        if len(named) == 1:
            return named[0]
    return None
