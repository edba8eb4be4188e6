"""The cautions that go with a process."""

from __future__ import annotations

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.cautions import cautions
from logbook.shop.given import Given, Input, Kind
from logbook.shop.sums import Sum


def _cautions(given: Given) -> Answer:
    wanted = given.word("process").lower().strip()
    rows = [
        row
        for row in cautions().rows
        if wanted == "all" or any(wanted in word for word in row.cells["process"])
    ]
    if not rows:
        words = sorted(
            {word for row in cautions().rows for word in row.cells["process"]}
        )
        raise BadInput(f"process: found “{wanted}”; accepted: all, {', '.join(words)}")
    return Answer(
        (Result("count", len(rows), "", 0, "cautions"),),
        tables=(
            Rows(
                "cautions",
                (
                    Column("signal"),
                    Column("caution"),
                    Column("who decides"),
                    Column("source"),
                ),
                tuple(
                    (
                        row.text("signal"),
                        row.text("line"),
                        row.text("defers"),
                        row.source,
                    )
                    for row in rows
                ),
            ),
        ),
    )


SUMS = (
    Sum(
        name="cautions",
        title="Cautions by process",
        inputs=(
            Input(
                "process",
                "such as bending, drilling, laser; all for every one",
                kind=Kind.TEXT,
            ),
        ),
        compute=_cautions,
        formula="table",
        source="each caution names its own",
        how="read",
        caution="Reminders, not instructions: makers' instructions, local "
        "codes and licensed practice come first.",
        relied_on=False,
        example={"process": "bending"},
    ),
)
