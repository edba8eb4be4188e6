"""Which class belongs to which kind word, where its files go, its word on screen."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.records import model
from logbook.records.ids import slug
from logbook.records.model import Record
from logbook.records.place import FOLDER, PROJECT_FILE


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
        return issubclass(self.type, model.Entry)


_TABLE: tuple[tuple[str, str, str, type[Record]], ...] = (
    ("project", "", "project", model.Project),
    ("part", "parts", "part", model.Part),
    ("revision", "revisions", "revision", model.Revision),
    ("characteristic", "dimensions", "dimension", model.Characteristic),
    ("line", "list", "line", model.Line),
    ("joint", "joints", "joint", model.Joint),
    ("fit", "gaps", "gap", model.Fit),
    ("step", "steps", "step", model.Step),
    ("hold", "holds", "wait", model.Hold),
    ("build", "builds", "build", model.Build),
    ("piece", "pieces", "piece", model.Piece),
    ("machine", "machines", "machine", model.Machine),
    ("instrument", "instruments", "instrument", model.Instrument),
    ("stock", "stock", "stock", model.Stock),
    ("run", "runs", "measuring run", model.Run),
    ("deviation", "deviations", "deviation", model.Deviation),
    ("failure", "failures", "failure", model.Failure),
    ("decision", "decisions", "decision", model.Decision),
    ("note", "notes", "note", model.Note),
    ("status", "statuses", "status", model.Status),
    ("disposal", "disposals", "what to do with it", model.Disposal),
    ("step done", "steps-done", "step done", model.StepDone),
    ("work", "work", "time worked", model.Work),
    ("override", "overrides", "override", model.Override),
    ("count", "counts", "count", model.Count),
    ("order", "orders", "order", model.Order),
    ("question", "questions", "question", model.Question),
    ("taken in", "taken-in", "taken in", model.TakenIn),
    ("declined", "declined", "not wanted", model.Declined),
    ("release", "releases", "release", model.Release),
    ("erratum", "errata", "known fault", model.Erratum),
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
