"""A project written record by record, each through the text of its file."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import UTC, datetime, timedelta
from typing import Any, TypeVar

from logbook.advice.advisor import Told, advise
from logbook.advice.ground.advice import Advice
from logbook.quantity import Absent, parse_quantity, parse_value
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.ids import ALPHABET, ID_LENGTH, formula_name
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import path_of
from logbook.records.sizes.limits import parse_drawn
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import Parsed, digest, read_record, write_record

R = TypeVar("R", bound=Record)
BEGIN = datetime(2026, 3, 7, 9, 0, tzinfo=UTC)

File = tuple[str, str, Parsed]


def file_of(record: Record) -> File:
    """Write a record, and read it back as the store would."""
    path, data = path_of(record), write_record(record).encode()
    return path, digest(data), read_record(data, path)


@dataclass
class World:
    """Records by id, numbered as they come; `unit` is the project's."""

    unit: str = "mm"
    records: dict[str, Record] = field(default_factory=dict)
    made: int = 0

    def __post_init__(self) -> None:
        self.project = self.add(
            design.Project(title="Copy stand", unit=self.unit, **self.about())
        )

    def about(self) -> dict[str, Any]:
        """Give the next id, and an instant a minute after the last."""
        number, text = self.made, ""
        for _ in range(ID_LENGTH):
            number, digit = divmod(number, len(ALPHABET))
            text = ALPHABET[digit] + text
        self.made += 1
        return {"id": text, "when": BEGIN + timedelta(minutes=self.made)}

    def add(self, record: R) -> R:
        self.records[record.id] = record
        return record

    def files(self) -> list[File]:
        return [file_of(record) for record in self.records.values()]

    def snapshot(self) -> Snapshot:
        return make_snapshot(self.files())

    def told(self) -> Told:
        return advise(self.snapshot())

    def of(self, topic: str) -> list[Advice]:
        """Give the advice of one topic; there must be no problem."""
        told = self.told()
        assert not told.problems, told.problems
        return list(told.of(topic))

    def figures(self, topic: str = "gaps") -> dict[str, float]:
        """Give the single figures of the only piece of advice of a topic."""
        [advice] = self.of(topic)
        return {
            n.name: float(value)
            for n in advice.numbers
            if isinstance(value := n.value, int | float)
        }

    # -- what stands in it -------------------------------------------------------

    def rooms(self, **told: str) -> None:
        climate = design.Climate(**{k: parse_quantity(v) for k, v in told.items()})
        self.project = self.add(replace(self.project, climate=climate))

    def part(self, title: str, **facts: Any) -> design.Part:
        name = formula_name(title)
        return self.add(design.Part(title=title, name=name, **self.about(), **facts))

    def dimension(
        self, part: design.Part, title: str, size: str = "", **facts: Any
    ) -> design.Characteristic:
        drawn = parse_drawn(size, self.unit) if size else None
        return self.add(
            design.Characteristic(
                title=title,
                name=formula_name(title),
                part=part.ref,
                nominal=drawn.nominal if drawn else None,
                lower_limit=drawn.lower if drawn else None,
                upper_limit=drawn.upper if drawn else None,
                **self.about(),
                **facts,
            )
        )

    def gap(
        self, title: str, formula: str, limits: str = "", **facts: Any
    ) -> assembling.Fit:
        drawn = parse_drawn(limits, self.unit) if limits else None
        return self.add(
            assembling.Fit(
                title=title,
                formula=formula,
                lower_limit=drawn.lower if drawn else None,
                upper_limit=drawn.upper if drawn else None,
                **self.about(),
                **facts,
            )
        )

    def instrument(
        self, title: str = "300 mm caliper", **facts: str
    ) -> workshop.Instrument:
        sizes: dict[str, Any] = {
            name: parse_quantity(text, self.unit) for name, text in facts.items()
        }
        return self.add(workshop.Instrument(title=title, **self.about(), **sizes))

    def piece(self, part: design.Part, **facts: Any) -> workshop.Piece:
        title = f"{part.title}-{self.made}"
        return self.add(
            workshop.Piece(title=title, part=part.ref, **self.about(), **facts)
        )

    def read(
        self,
        piece: workshop.Piece,
        what: design.Characteristic,
        sizes: dict[str, str],
        tool: workshop.Instrument | None = None,
        **facts: Any,
    ) -> happenings.Run:
        """Log a measuring run; sizes by their place, as typed."""
        about = self.about()
        room = facts.pop("room", None)
        return self.add(
            happenings.Run(
                title=f"{piece.title} {what.title}",
                piece=piece.ref,
                instrument=tool.ref if tool else None,
                readings=tuple(
                    happenings.Reading(
                        id=self.about()["id"],
                        at=about["when"],
                        what=what.ref,
                        value=self._value(text),
                        place=place,
                        room=parse_quantity(room) if room else None,
                    )
                    for place, text in sizes.items()
                ),
                **about,
                **facts,
            )
        )

    def _value(self, text: str) -> Any:
        value = parse_value(text, self.unit)
        assert not isinstance(value, Absent)
        return value


@dataclass
class Stand(World):
    """The copy stand's base with the crossbar made last to suit it; all invented."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.caliper = self.instrument(uncertainty="0.04 mm", resolution="0.01 mm")
        self.base = self.part("base", process=("folding",))
        self.opening = self.dimension(self.base, "opening", "180.0")
        self.bar = self.part("crossbar", process=("sawing",))
        self.length = self.dimension(self.bar, "length", "179.7 ±0.1")
        self.fit = self.gap(
            "bar in the opening", "base.opening - crossbar.length", "0.1 to 0.5",
            made_last=self.length.ref,
        )  # fmt: skip

    def measured(self, sizes: dict[str, str], **facts: Any) -> workshop.Piece:
        """Read the opening of another base."""
        piece = self.piece(self.base)
        self.read(piece, self.opening, sizes, self.caliper, **facts)
        return piece

    def amended(self, record: R, **facts: Any) -> R:
        """Change facts of a record."""
        return self.add(replace(record, **facts))
