"""What a process usually does to a size, until the shop has its own figures.

Also the spares to make for a wanted yield, the base of an old film strip
by its edge mark, and the cautions by process.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Column, Result, Rows
from logbook.shop.cautions import cautions
from logbook.shop.given import Given, Input, Kind, above, at_least, between
from logbook.shop.sums import Sum
from logbook.shop.tables import Row, table

MOST_PIECES = 100_000
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


def pieces_to_make(wanted: int, good: float, chance: float) -> int:
    """Give the fewest pieces that leave `wanted` good ones with this chance.

    Raises:
        BadInput: it would take more than 100 000.
    """
    made = wanted
    while chance_of_too_few(made, wanted, good) > 1 - chance:
        made += max(1, int(wanted * (1 - good) / (10 * good)))
        if made > MOST_PIECES:
            raise BadInput(
                f"good: found {good:.3g}, which takes more than {MOST_PIECES} pieces; "
                "accepted: a better process, or fewer pieces"
            )
    while made > wanted and chance_of_too_few(made - 1, wanted, good) <= 1 - chance:
        made -= 1
    return made


def chance_of_too_few(made: int, wanted: int, good: float) -> float:
    """Give the chance of fewer than `wanted` good ones, without overflow."""
    if good >= 1:
        return 0.0
    total = 0.0
    for k in range(wanted):
        log = math.lgamma(made + 1) - math.lgamma(k + 1) - math.lgamma(made - k + 1)
        total += math.exp(log + k * math.log(good) + (made - k) * math.log1p(-good))
    return min(total, 1.0)


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


def _spares(given: Given) -> Answer:
    wanted, good = given.count("wanted"), given.number("good") / 100
    chance = given.number("chance") / 100
    made = pieces_to_make(wanted, good, chance)
    sure = 1 - chance_of_too_few(made, wanted, good)
    return Answer(
        (
            Result("make", made, "pcs", 0, "in all"),
            Result("spares", made - wanted, "pcs", 0, "of them spare"),
            Result("chance", 100 * sure, "%", 1, "of having enough"),
            Result("expected_good", made * good, "pcs", 1),
        ),
        assumptions=("pieces fail independently; a wrong setting fails them all",),
    )


def film_base(edge: str, year: int | None) -> str:
    """Tell the base of a film from its edge mark and year, the cautious way."""
    mark = edge.lower()
    nitrate, safety = "nitrate" in mark, "safety" in mark
    if nitrate and safety:
        return "probably a later copy on safety base: test or ask"
    if nitrate:
        return "nitrate" if "embossed" in mark else "nitrate, unless printed by copying"
    if safety:
        said = "acetate, not nitrate"
        return said if "embossed" in mark else f"{said}, unless printed by copying"
    if year is None:
        return "unknown: treat as nitrate until tested"
    if year < 1920:
        return "assume nitrate"
    if year <= 1951:
        return "unknown: treat as nitrate until tested"
    return "not likely nitrate: none is known after 1951, test if in doubt"


def _film(given: Given) -> Answer:
    year = given.count("year") if given.has("year") else None
    return Answer((Result("answer", film_base(given.word("edge"), year)),))


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
    Sum(
        name="spares",
        title="How many to make so that enough are good",
        inputs=(
            Input("wanted", "good pieces", kind=Kind.COUNT, accept=at_least(1, 10_000)),
            Input(
                "good",
                "share that turns out good",
                "%",
                accept=above(0, 100),
                also=("yield",),
                share=True,
            ),
            Input(
                "chance",
                "of having enough",
                "%",
                accept=between(0, 100),
                default="95 %",
                also=("confidence",),
                share=True,
            ),
        ),
        compute=_spares,
        formula="fewest n with P(binomial(n, good) >= wanted) >= chance",
        source="binomial distribution",
        how="computed",
        example={"wanted": "4", "good": "80 %"},
        also=("yield",),
    ),
    Sum(
        name="film-base",
        title="What a strip of film may be made of, by its edge mark and year",
        inputs=(
            Input(
                "edge",
                "words on the edge, and whether embossed or printed; none",
                kind=Kind.TEXT,
                default="none",
                also=("edge_mark",),
            ),
            Input(
                "year",
                "when it was made, if known",
                kind=Kind.COUNT,
                accept=at_least(1880, 2100),
                optional=True,
            ),
        ),
        compute=_film,
        formula="decision tree: edge mark first, then the year",
        source="US National Park Service, film base decision tree and Conserve O Gram "
        "2/22",
        how="read",
        dangers=("nitrate film",),
        example={"edge": "none", "year": "1915"},
        also=("film",),
    ),
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
