"""The table of verbs: the one place that names them for help, tests and manual."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Verb:
    """A verb of the command line; its module has `arguments` and `run`."""

    name: str
    module: str
    group: str
    purpose: str


_TABLE = (
    ("open", "open", "Begin", "Open the screen."),
    ("demo", "demo", "Begin", "Replay the copy stand's first build in a new folder."),
    ("start", "start", "Begin", "Start a logbook in this git repository."),
    ("say", "say", "At the bench", "Log a plain line, as you would say it."),
    ("measure", "measure", "At the bench", "Log readings of a piece."),
    ("deviation", "deviation", "At the bench", "Log a piece that differs."),
    ("failure", "failure", "At the bench", "Log what broke, with cause and cure."),
    ("decision", "decision", "At the bench", "Log a decision and its reason."),
    ("note", "note", "At the bench", "Log a note."),
    ("undo", "undo", "At the bench", "Take the last entry back."),
    ("part", "part", "The design", "Make a part, or show one."),
    ("revise", "revise", "The design", "Open the next revision of a part."),
    ("build", "build", "The design", "Start a build."),
    ("piece", "piece", "The design", "Put a made piece on record."),
    ("show", "show", "Look", "Show a record with its file and what mentions it."),
    ("check", "check", "Look", "List what cannot be read or does not fit."),
    ("sums", "sums", "Look", "Shop arithmetic, with formula and source."),
    ("notes", "notes", "Publish", "Write the builder notes."),
    ("commit", "commit", "Publish", "Commit what still waits for git."),
)

VERBS: dict[str, Verb] = {row[0]: Verb(*row) for row in _TABLE}
