"""What is to be committed, and the commit message made of it.

No fact lives only in a message. Subject and trailers are one line each, without
control characters or marks that turn the direction of writing.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from datetime import datetime

LONGEST_SUBJECT = 200
_TURNING = {*"\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"}
_TWICE = re.compile(r"(?i)(^|: )([\w ]{1,20}): \2: ?")
"""A kind that a line begins with itself: note: note: …"""
_DIVIDER = re.compile(r"^(?=---)", re.MULTILINE)


@dataclass(frozen=True, slots=True)
class Change:
    """One step that becomes one commit: files already durable on disk.

    `paths` are relative to the top of the work tree, with `/`; one that HEAD has
    and the disk has not is committed as removed. `removed` are further paths that
    were taken back on purpose: of these alone, what git keeps of a file that never
    got its commit is let go. `when` is the author's time (now if None).
    """

    paths: tuple[str, ...]
    subject: str
    body: str = ""
    trailers: tuple[tuple[str, str], ...] = ()
    when: datetime | None = None
    removed: tuple[str, ...] = ()

    @property
    def touched(self) -> tuple[str, ...]:
        """All paths of the change, each once."""
        return tuple(dict.fromkeys((*self.paths, *self.removed)))


def one_line(text: str) -> str:
    """Put a text on one line, without control characters or turning marks."""
    return " ".join(_printable(text).split())


def message(change: Change) -> bytes:
    """Write the commit message of a change: subject, body, trailers."""
    subject = _TWICE.sub(r"\1\2: ", one_line(change.subject))
    if len(subject) > LONGEST_SUBJECT:
        subject = subject[: LONGEST_SUBJECT - 1].rstrip() + "…"
    parts = [subject or "As built"]
    if body := _paragraphs(change.body):
        parts.append(body)
    if trailers := _trailers(change.trailers):
        parts.append(trailers)
    return ("\n\n".join(parts) + "\n").encode("utf-8", "replace")


def moment(when: datetime) -> str:
    """Write an instant as git does: seconds since 1970 and the offset from UTC."""
    local = when if when.tzinfo else when.astimezone()
    offset = local.strftime("%z")[:5]
    return f"{max(0, int(local.timestamp()))} {offset}"


def _printable(text: str) -> str:
    return "".join(
        " "
        if sign.isspace() or unicodedata.category(sign) in {"Cc", "Zl", "Zp"}
        else sign
        for sign in text
        if sign not in _TURNING and unicodedata.category(sign) != "Cs"
    )


def _paragraphs(body: str) -> str:
    lines = [_printable(line).rstrip() for line in body.splitlines()]
    return _DIVIDER.sub(" ", "\n".join(lines).strip("\n"))


def _trailers(trailers: tuple[tuple[str, str], ...]) -> str:
    lines = []
    for name, text in trailers:
        token = re.sub(r"[^A-Za-z0-9]+", "-", name).strip("-")
        if token and (value := one_line(text)):
            lines.append(f"{token}: {value}")
    return "\n".join(lines)
