"""A line on the bench that is a command of the shell: said so, never read as work.

What a screen does as well leads to that screen.
"""

from __future__ import annotations

import re

from logbook.records.kinds.design import Part
from logbook.records.together.snapshot import Snapshot

VERBS = (
    "climate", "check", "impact",
    "conformity", "counts", "verdicts",
)  # fmt: skip
"""Verbs that no plain line begins with and nothing else follows."""

_LINE = re.compile(rf"(?:logbook )?({'|'.join(VERBS)})(?: v?\d[\w.]*)?", re.IGNORECASE)

_UNDO = re.compile(
    r"(?:logbook )?undo(?: (?:it|that|the last(?: one)?))?", re.IGNORECASE
)


_BRING_BACK = re.compile(
    r"(?:logbook )?(?:undo --bring-back|redo|bring (?:(?:it|that) )?back)",
    re.IGNORECASE,
)

_STATED = re.compile(
    r"(?:logbook )?(?:hold(?: \d+)?:"
    r"|(step|hold|gap|joint)\b.*"
    r"(?: --[a-z]|; ?(?:closes(?=;|$)|limits \d|layer ))).*",
    re.IGNORECASE,
)
"""What no line that tells what happened looks like; “step 6: done” does."""
_STEP = re.compile(
    r"(?:logbook )?step (?!\d).*; ?(?:after \d+(?:(?:,| and) ?\d+)*(?=;|$)|"
    r"(?:uses|makes|tools?|inside|tested|clean|accept) \S).*",
    re.IGNORECASE,
)
"""A step with what is told of it; “step 6 done; after 2 h it held” happened."""

_PUTS_OUT = re.compile(
    r"(?:logbook )?"
    r"(?:release(?: v?(\d[\w.]*))?|(?:guide|notes|errata|pages)(?: v?\d\S*)?)",
    re.IGNORECASE,
)


def puts_out(line: str, snapshot: Snapshot) -> str | None:
    """Give the label a line puts a release out under, empty without one; else None.

    What asks for pages leads there too. A part of that name is meant before it.
    """
    words = line.split()
    found = _PUTS_OUT.fullmatch(" ".join(words))
    if found is None or any(snapshot.named(word, Part) for word in words[:1]):
        return None
    return found[1] or ""


def in_the_shell(line: str, snapshot: Snapshot) -> str:
    """Say how the shell, or which key, takes a line that is a verb; else nothing.

    A part of that name is meant before the verb.
    """
    words = " ".join(line.split())
    if _UNDO.fullmatch(words):
        return "F8 takes back what was logged last, Shift-F8 brings it back"
    if _BRING_BACK.fullmatch(words):
        return (
            "Shift-F8 brings back what was taken back last; so does F1, “bring back” "
            "and Enter"
        )
    stated = _STATED.fullmatch(words)
    verb = (stated[1] or "hold").casefold() if stated else ""
    verb = verb or ("step" if _STEP.fullmatch(words) else "")
    if verb and not snapshot.named(verb, Part):
        gap = verb in {"gap", "joint"}
        where = "where gaps and joints are" if gap else "in the order of work"
        return f"{'Ctrl-B' if gap else 'Ctrl-N'} takes it, {where}"
    found = _LINE.fullmatch(words)
    if found is None or snapshot.named(found[1], Part):
        return ""
    verb, rest = found[1].casefold(), words[found.end(1) :]
    return f"in the shell: logbook {verb}{rest}"
