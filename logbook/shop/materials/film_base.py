"""What an old strip of film is made of, by its edge mark and its year."""

from __future__ import annotations

from logbook.shop.answers import Answer, Result
from logbook.shop.given import Given, Input, Kind, at_least
from logbook.shop.sums import Sum


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


SUMS = (
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
)
