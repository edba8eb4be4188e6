"""Which class belongs to which kind word, where its files go, its word on screen."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.records.kinds import assembling, design, happenings, made_public, workshop
from logbook.records.kinds.ids import slug
from logbook.records.kinds.place import FOLDER, PROJECT_FILE
from logbook.records.kinds.record import Record


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of record: `word` in the file, `folder`, and `shown` on screen."""

    word: str
    folder: str
    shown: str
    type: type[Record]

    @property
    def is_entry(self) -> bool:
        """Tell whether records of this kind are things that happened."""
        return issubclass(self.type, happenings.Entry)


_TABLE: tuple[tuple[str, str, str, type[Record]], ...] = (
    ("project", "", "project", design.Project),
    ("part", "parts", "part", design.Part),
    ("revision", "revisions", "revision", design.Revision),
    ("characteristic", "dimensions", "dimension", design.Characteristic),
    ("line", "list", "line", assembling.Line),
    ("joint", "joints", "joint", assembling.Joint),
    ("fit", "gaps", "gap", assembling.Fit),
    ("step", "steps", "step", assembling.Step),
    ("hold", "holds", "wait", assembling.Hold),
    ("build", "builds", "build", workshop.Build),
    ("piece", "pieces", "piece", workshop.Piece),
    ("machine", "machines", "machine", workshop.Machine),
    ("instrument", "instruments", "instrument", workshop.Instrument),
    ("stock", "stock", "stock", workshop.Stock),
    ("run", "runs", "measuring run", happenings.Run),
    ("deviation", "deviations", "deviation", happenings.Deviation),
    ("failure", "failures", "failure", happenings.Failure),
    ("decision", "decisions", "decision", happenings.Decision),
    ("note", "notes", "note", happenings.Note),
    ("status", "statuses", "status", happenings.Status),
    ("disposal", "disposals", "what to do with it", happenings.Disposal),
    ("step done", "steps-done", "step done", happenings.StepDone),
    ("work", "work", "time worked", happenings.Work),
    ("override", "overrides", "override", happenings.Override),
    ("count", "counts", "count", happenings.Count),
    ("order", "orders", "order", happenings.Order),
    ("question", "questions", "question", happenings.Question),
    ("taken in", "taken-in", "taken in", happenings.TakenIn),
    ("declined", "declined", "not wanted", happenings.Declined),
    ("release", "releases", "release", made_public.Release),
    ("erratum", "errata", "known fault", made_public.Erratum),
)

KINDS: dict[str, Kind] = {row[0]: Kind(*row) for row in _TABLE}
_BY_TYPE: dict[type[Record], Kind] = {kind.type: kind for kind in KINDS.values()}


def kind_of(record: Record) -> Kind:
    """Give the kind of a record."""
    return _BY_TYPE[type(record)]


def path_of(record: Record) -> str:
    """Give the place of a new record's file, relative to the repository folder.

    The file never moves, so this is only asked once, when it is first written.
    """
    kind = kind_of(record)
    if not kind.folder:
        return f"{FOLDER}/{PROJECT_FILE}"
    name = f"{record.id}-{slug(record.title)}.md"
    return f"{FOLDER}/{kind.folder}/{record.when:%y%m}/{name}"
