"""A line that begins a build: `start build 2 for mounted slides of release 1.1`.

Whose shop makes it is said last: `…, built by Ada`. It may tell its day.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.plain.when.dated import day_apart
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_LINE = re.compile(
    r"(?:(?:start|begin|started|began|starting|beginning)\s+(?:(?:on|with)\s+)?"
    r"(?:(?:a|the|another)\s+)?(?:(?:new|next)\s+)?|new\s+)"
    r"build\b[\s:]*(?P<rest>.*)",
    re.IGNORECASE,
)
_BUILDER = re.compile(
    r"(?P<rest>.*?)(?:^|[,;]?\s+)(?i:built|made|begun) (?i:by) (?P<builder>[^\W_].*)"
)
_TAIL = re.compile(
    r"(?P<name>.*?)"
    r"(?:\s*\b(?:from|of|to|by)\s+(?P<release>.+?))?"
    r"(?:\s*\bfor\s+(?P<purpose>.+?))?"
    r"(?:\s*\b(?:from|of|to|by)\s+(?P<last>(?:the\s+)?release\s+\S+))?",
    re.IGNORECASE,
)
"""What follows: the release stands before what it is for, or behind it, called so."""
LONGEST_NAME = 3
"""Words a name with a number may have; else more than one is about something else."""


@dataclass(frozen=True, slots=True)
class BuildBegun:
    """A build to begin; `known` is the one that has this name already.

    `when` is the day that was told, if one was.
    """

    name: str
    purpose: str = ""
    release: Release | None = None
    builder: str = ""
    known: Build | None = None
    when: datetime | None = None

    @property
    def words(self) -> str:
        """Say what is begun, and what for."""
        purpose = f" for {self.purpose}" if self.purpose else ""
        of = f", from {self.release.title}" if self.release else ""
        by = f", built by {self.builder}" if self.builder else ""
        on = f", on {self.when:%Y-%m-%d}" if self.when else ""
        return f"{self.name}{purpose}{of}{by}{on}"

    def of(self, release: Release) -> BuildBegun:
        """Give the same build, made from this release."""
        return replace(self, release=release)

    def draft(self, draft: Draft) -> Build:
        """Draft it.

        Raises:
            BadInput: a build of this name is there by now.
        """
        return draft.new_build(
            self.name, purpose=self.purpose, release=self.release, builder=self.builder
        )


def build_begun(line: str, snapshot: Snapshot, now: datetime) -> BuildBegun | None:
    """Give the build a line begins; None where it says something else.

    Without a name it is the next number. The day it tells is one up to `now`.
    """
    dated = day_apart(line, Vocabulary(now=now)) if "build" in line.casefold() else None
    begun = _begun(dated.rest if dated else line, snapshot)
    return replace(begun, when=dated.moment.at) if begun and dated else begun


def _begun(line: str, snapshot: Snapshot) -> BuildBegun | None:
    begins = _LINE.fullmatch(" ".join(line.split()).rstrip(" .!"))
    rest = begins["rest"] if begins else ""
    said_by = _BUILDER.fullmatch(rest)
    if said_by and not said_by["builder"][0].isupper():
        said_by = None  # made by hand, by release 1.0: no name of anybody
    tail = _TAIL.fullmatch(said_by["rest"] if said_by else rest) if begins else None
    if tail is None or not _is_name(tail["name"]):
        return None
    of = tail["release"] or tail["last"] or ""
    release = _release(of, snapshot)
    if of and release is None:
        return None
    name = tail["name"].strip(" “”\"',:")
    title = f"build {name or len(snapshot.all(Build)) + 1}"
    known = [
        *snapshot.named(title, Build),
        *(snapshot.named(name, Build) if name else ()),
    ]
    return BuildBegun(
        title,
        (tail["purpose"] or "").strip(),
        release,
        said_by["builder"] if said_by else "",
        known[0] if known else None,
    )


def _is_name(said: str) -> bool:
    words = len(said.split())
    return words <= 1 or (words <= LONGEST_NAME and any(s.isdecimal() for s in said))


def _release(said: str, snapshot: Snapshot) -> Release | None:
    """Give the release meant by its name, with or without the word release."""
    bare = re.sub(r"^(?:the\s+)?release\s+", "", said.strip(), flags=re.IGNORECASE)
    for name in (said.strip(), bare, f"release {bare}"):
        for found in snapshot.named(name, Release) if name else ():
            return found
    return None
