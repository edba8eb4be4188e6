"""What a process usually does to a size, until the shop has its own figures."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.given import Given, Input, Kind
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table

_CALLED = {
    "sawing": "hacksaw and file", "sawing and filing": "hacksaw and file",
    "hand sawing": "hacksaw and file", "filing": "hacksaw and file",
    "bending": "hand folding", "hand bending": "hand folding",
    "drilling": "drill", "hand drill": "hand drilling",
    "pillar drill": "pillar drilling", "3d printing": "printing",
    "fdm": "filament printing", "fdm print": "filament printing",
    "sla": "resin printing",
}  # fmt: skip
"""What people call a process, and what it is called in the table."""


def process_rows(process: str, feature: str = "") -> list[Row]:
    """Give the rows of a process: `offset`, `scatter_low`, `scatter_high`, `unit`.

    Raises:
        BadInput: the process or the feature is not in the table.
    """
    rows = table("process", "scatter").rows
    wanted = process.strip().lower()
    wanted = _CALLED.get(wanted, wanted)
    names = sorted({row.label for row in rows})
    found = [row for row in rows if row.label.lower() == wanted]
    found = found or [row for row in rows if wanted and wanted in row.label.lower()]
    found = found or [row for row in rows if row.label.lower() in wanted]
    if not found:
        raise BadInput(f"process: found “{process}”; accepted: {', '.join(names)}")
    of_feature = [row for row in found if feature.lower() in row.text("feature")]
    if not of_feature:
        features = ", ".join(sorted({row.text("feature") for row in found}))
        raise BadInput(f"feature: found “{feature}”; accepted: {features}")
    return of_feature


def _process(given: Given) -> Answer:
    rows = process_rows(given.word("process"), given.word("feature"))
    first = rows[0]
    unit = first.text("unit")
    return Answer(
        (
            Result("offset", first.number("offset"), unit, 2, first.text("feature")),
            Result("scatter", first.number("scatter_high"), unit, 2, "±, to plan with"),
            Result("scatter_low", first.number("scatter_low"), unit, 2, "± at best"),
            Result("feature", first.text("feature")),
        ),
        tables=(_feature_rows(rows),),
        assumptions=(
            (
                "a cautious range for about 95 % of pieces; the shop's own readings "
                "replace it"
            ),
        ),
        sources=tuple(dict.fromkeys(row.source for row in rows)),
    )


def _feature_rows(rows: Sequence[Row]) -> Rows:
    columns = (
        Column("process"),
        Column("feature"),
        Column("offset"),
        Column("± at best"),
        Column("± to plan with"),
        Column("unit"),
        Column("source"),
    )
    each = tuple(
        (
            row.label,
            row.text("feature"),
            row.number("offset"),
            row.number("scatter_low"),
            row.number("scatter_high"),
            row.text("unit"),
            row.source,
        )
        for row in rows
    )
    return Rows("all features of the process", columns, each)


SUMS = (
    Sum(
        name="process-scatter",
        title="Offset and scatter of a process, until the shop has its own figures",
        inputs=(
            Input("process", "what is done", kind=Kind.TEXT, rows_of="process.scatter"),
            Input("feature", "such as hole diameter", kind=Kind.TEXT, optional=True),
        ),
        compute=_process,
        formula="table",
        source="common practice, no source, but for the rows that name one",
        how="common practice",
        caution="Never take a general tolerance for what a process does.",
        example={"process": "hand folding", "feature": "bend angle"},
        also=("process", "process-defaults"),
    ),
)
