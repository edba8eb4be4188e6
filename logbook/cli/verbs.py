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

    @property
    def tells(self) -> bool:
        """Tell whether what is typed with it goes on record."""
        return self.group in _TELLING and self.name not in _ONLY_ACTS


BENCH = "At the bench"
_TELLING = {BENCH, "The design", "The shop"}
_ONLY_ACTS = {"clock", "inbox", "sheet", "drafts", "undo"}
"""Verbs of the bench that list, print, count time or take back: they tell nothing."""

_TABLE = (
    ("open", "open", "Begin", "Open the screen."),
    ("demo", "demo", "Begin", "Replay the copy stand's first build in a new folder."),
    ("start", "start", "Begin", "Start a logbook in this git repository."),
    ("say", "say", BENCH, "Log a plain line, as you would say it."),
    ("measure", "measure", BENCH, "Log readings of a piece."),
    ("deviation", "deviation", BENCH, "Log a piece that differs."),
    ("failure", "failure", BENCH, "Log what broke, with cause and cure."),
    ("decision", "decision", BENCH, "Log a decision and its reason."),
    ("note", "note", BENCH, "Log a note."),
    ("met", "met", BENCH, "Say whether another builder would meet a fault."),
    ("retract", "retract", BENCH, "Say that a failure was none, a decision not kept."),
    ("dispose", "dispose", BENCH, "Say what to do with a piece."),
    ("status", "status", BENCH, "Say what became of a piece; withdraw a release."),
    ("count", "count", BENCH, "Count pieces used, scrapped and left over."),
    ("photo", "photo", BENCH, "Link a photo, cleaned, to an entry."),
    ("override", "override", BENCH, "Go on past a hold, with the reason."),
    ("clock", "clock", BENCH, "Start, pause or stop the clock on a step."),
    ("inbox", "inbox", BENCH, "List the photos and notes that wait to be sorted."),
    ("sheet", "sheet", BENCH, "Print the day's job with boxes; type it in later."),
    ("drafts", "drafts", BENCH, "Show what was typed and refused, or drop it."),
    ("offered", "offered", BENCH, "Answer or refuse what the entries suggest."),
    ("undo", "undo", BENCH, "Take the last entry back, or bring it back again."),
    ("project", "project_facts", "The design", "Say what holds for the whole design."),
    ("part", "part", "The design", "Make a part, or show one."),
    ("revise", "revise", "The design", "Open the next revision of a part."),
    ("build", "build", "The design", "Start a build."),
    ("piece", "piece", "The design", "Put a made piece on record."),
    ("line", "line", "The design", "Put a line on the parts list."),
    ("lines", "lines", "The design", "Read a parts list that is a table (CSV)."),
    ("joint", "joint", "The design", "Say what a fastener goes through."),
    ("gap", "gap", "The design", "Say what must fit into what, with how much room."),
    ("step", "step", "The design", "Put an operation into the order of work."),
    ("hold", "hold", "The design", "Say why a step has to wait."),
    (
        "question",
        "question",
        "The design",
        "Keep a rebuilder's question, or answer it.",
    ),
    ("machine", "machine", "The shop", "Put a machine or hand process on record."),
    ("instrument", "instrument", "The shop", "Say what you measure with, how well."),
    ("stock", "stock", "The shop", "Put material on record, as bought and as it is."),
    ("search", "search", "Look", "Find records by words and by sizes, newest first."),
    ("show", "show", "Look", "Show a record with its file and what mentions it."),
    ("history", "history", "Look", "Show how a record came to be what it is."),
    ("check", "check", "Look", "List what cannot be read or does not fit."),
    ("gaps", "gaps", "Look", "What each gap comes to, and sizes of what is made last."),
    ("holds", "holds", "Look", "Say what waits, and what to check before it closes."),
    ("joints", "joints", "Look", "Say what each joint comes to, worst case."),
    ("climate", "climate", "Look", "What heat and moist air do, over its rooms."),
    ("steps", "steps", "Look", "Propose an order of work; what the written one risks."),
    ("figures", "figures", "Look", "What each process does here, by its own pieces."),
    ("impact", "impact", "Look", "Say what a change touches, pieces made included."),
    ("conformity", "conformity", "Look", "Hold what was made against its drawing."),
    ("counts", "counts", "Look", "Hold what was used against the parts list."),
    ("verdicts", "verdicts", "Look", "Say what failures came to, and what differs."),
    ("sums", "sums", "Look", "Shop arithmetic, with formula and source."),
    ("pages", "pages", "Publish", "Write every page that is out of date."),
    ("notes", "notes", "Publish", "Write the builder notes."),
    ("release", "release", "Publish", "Freeze and tag what is published."),
    ("guide", "guide", "Publish", "Write the guide of a release."),
    ("erratum", "erratum", "Publish", "Save a known fault, drafted from an entry."),
    ("errata", "errata", "Publish", "Write the known faults of a release."),
    ("settle", "settle", "Publish", "Put in order what two clones did apart."),
    ("commit", "commit", "Publish", "Commit what still waits for git."),
)

VERBS: dict[str, Verb] = {row[0]: Verb(*row) for row in _TABLE}
