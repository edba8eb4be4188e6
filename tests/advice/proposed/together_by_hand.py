"""Records put together by hand, as an editor would write them."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from logbook.advice.proposals import proposals
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Reading,
    Run,
    StepDone,
)
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import Parsed

NOON = datetime(2026, 3, 7, 12, tzinfo=UTC)


class Bench:
    """Records put together by hand, as an editor would."""

    def __init__(self) -> None:
        self.records: list[Record] = []

    @property
    def now(self) -> datetime:
        return NOON + timedelta(minutes=len(self.records))

    def put(self, record: Record) -> Record:
        self.records.append(record)
        return record

    def part(self, name: str, **facts: object) -> Part:
        part = Part(id=new_id(), title=name, name=name, when=self.now, **facts)  # type: ignore[arg-type]
        self.put(part)
        return part

    def size(
        self, part: Part, name: str, read: str = "", drawn: str = ""
    ) -> Characteristic:
        what = Characteristic(
            id=new_id(), title=name, name=name.replace(" ", "_"), part=part.ref,
            when=self.now, nominal=parse_quantity(drawn, "mm") if drawn else None,
        )  # fmt: skip
        self.put(what)
        if read:
            reading = Reading(
                id=new_id(), at=self.now, what=what.ref,
                value=parse_quantity(read, "mm"),
            )  # fmt: skip
            title = f"{part.title} {name} {read}"
            run = Run(
                id=new_id(), title=title, when=self.now, part=part.ref,
                readings=(reading,),
            )  # fmt: skip
            self.put(run)
        return what

    def snapshot(self) -> Snapshot:
        files = [(f"{one.id}.md", "0" * 64, Parsed(one, ())) for one in self.records]
        found = make_snapshot(files)
        assert found.problems == ()
        return found

    def asked(self, topic: str = "") -> list[str]:
        every = proposals(self.snapshot())
        return [one.question for one in every if topic in {"", one.topic}]


def done(bench: Bench, title: str, part: Part | None = None, **facts: object) -> None:
    entry = StepDone(
        id=new_id(), title=title, when=bench.now, part=part.ref if part else None,
        **facts,  # type: ignore[arg-type]
    )  # fmt: skip
    bench.put(entry)
