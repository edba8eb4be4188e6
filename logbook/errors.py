"""Refusals and problems: every way the logbook says no, as one sentence.

A refused operation raises a `LogbookError`; its class decides the exit code of
the command line. Something wrong in a file is a `Problem`, a value: it is
listed and shown, and never stops the work on the other files.
"""

from __future__ import annotations

from dataclasses import dataclass


class LogbookError(Exception):
    """Something the user asked for was refused; the text is the whole sentence."""

    exit_code = 1


class BadInput(LogbookError):
    """What was typed cannot be understood or is outside what is accepted."""

    exit_code = 2


class NeedsAnswer(BadInput):
    """What was typed has two meanings; `choices` are the ways to say it plainly."""

    exit_code = 3

    def __init__(self, sentence: str, choices: tuple[str, ...] = ()) -> None:
        """Keep the sentence and the plain ways to say what was meant."""
        super().__init__(sentence)
        self.choices = choices


class NoProject(LogbookError):
    """No `as-built/project.md` was found from this folder upward.

    `below` are the folders below it that have one.
    """

    exit_code = 4

    def __init__(self, sentence: str, below: tuple[str, ...] = ()) -> None:
        """Keep the sentence and the designs that are meant perhaps."""
        super().__init__(sentence)
        self.below = below


class NotFound(LogbookError):
    """A name or id given by the user matches no record, or more than one."""

    exit_code = 5


class ChangedMeanwhile(LogbookError):
    """A record changed on disk since it was read; nothing was overwritten."""

    exit_code = 6


class Refused(LogbookError):
    """The repository or the disk is in a state in which nothing is written."""

    exit_code = 7


class ProblemsFound(LogbookError):
    """A check found problems; they have been listed."""

    exit_code = 8


@dataclass(frozen=True, slots=True)
class Problem:
    """Something wrong in a file, said so that it can be mended.

    `file` is relative to the repository, `line` counts from 1 (0: the whole
    file), `field` may be empty.
    """

    file: str
    line: int
    field: str
    found: str
    accepted: str

    def __str__(self) -> str:
        """Give the problem as one sentence."""
        where = f"{self.file}:{self.line}" if self.line else self.file
        what = f"{self.field}: " if self.field else ""
        return f"{where}: {what}found {self.found}; accepted: {self.accepted}"
