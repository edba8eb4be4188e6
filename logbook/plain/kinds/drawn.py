"""Sizes told as drawn, nothing measured: opening drawn 180 ±1.2, in aluminium 2.0 mm.

They define the part. Where something was measured too, the line tells a reading.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from logbook.errors import LogbookError
from logbook.plain.kinds.choice import Choice
from logbook.plain.understanding import DrawnSize, Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named
from logbook.quantity import Quantity
from logbook.records.sizes.limits import Drawn, parse_drawn

_DRAWN = frozenset({"drawn", "nominal", "nominally", "nom", "nom.", "drawing", "cad"})


def drawn(sentence: Sentence, values: Values) -> Choice | None:
    """See what a drawing gives, where nothing was measured and nothing happened."""
    if not values.wanted or values.off is not None or not parts_named(sentence):
        return None
    if any(not _of_stock(sentence, word) for word in _read(sentence)):
        return None
    told = [at for at in range(len(sentence.words)) if _tells(sentence.words[at])]
    if not told or not sizes_drawn(sentence):
        return None
    return Choice(Kind.DRAWN, 0.85, told[0])


def _read(sentence: Sentence) -> Iterator[Word]:
    yield from sentence.spans.get("readings", [])


def _tells(word: Word) -> bool:
    return word.sort is Sort.TOLERANCE or _spec(word)


def _spec(word: Word) -> bool:
    return word.low.split(" ")[0] in _DRAWN and "wanted" in word.tags


def _of_stock(sentence: Sentence, figure: Word) -> bool:
    """Tell whether a size stands beside a material: folded aluminium 2.0 mm."""
    return beside_material(sentence, sentence.words.index(figure))


def sizes_drawn(sentence: Sentence) -> tuple[DrawnSize, ...]:
    """Give the drawn sizes with their names; none where one has no name."""
    wanted = [
        one for one in sentence.spans.get("wanted", []) if not _of_stock(sentence, one)
    ]
    found = []
    for start, end in clauses(sentence):
        row = sentence.words[start:end]
        figures = [word for word in row if word in wanted]
        name = [word for word in row if _names(word)] or _named_anew(row)
        if len(figures) > 1 or (figures and not name):
            return ()
        for figure in figures:
            at = sentence.words.index(figure)
            limits = sentence.word(at + 1)
            close = limits is not None and limits.sort is Sort.TOLERANCE
            size = f"{figure.text} {limits.text}" if limits and close else figure.text
            found.append(DrawnSize(_called(sentence, name), size))
            sentence.note(
                "drawn", *name, figure, *([limits] if limits and close else [])
            )
    return tuple(found)


def limits_told(sentence: Sentence, told: Mapping[str, Any]) -> dict[str, Any]:
    """Give the limits told with a reading: 28.12, drawn 28.0 ±0.05.

    Where it is within them, nothing else was wanted.
    """
    wanted = sentence.spans.get("wanted", [])
    limits = [at for at in sentence.sorts(Sort.TOLERANCE) if at]
    names = {one.what for one in told["readings"]}
    if len(limits) != 1 or len(wanted) != 1 or len(names) != 1:
        return {}
    [at], [what] = limits, names
    unit = told["readings"][0].value.unit
    size = sentence.between(at - 1, at)
    try:
        drawn = parse_drawn(size, unit)
        within = all(_within(one.value, drawn) for one in told["readings"])
    except LogbookError:
        return {}
    if sentence.words[at - 1] is not wanted[0]:
        return {}
    sentence.note("drawn", sentence.words[at])
    bare = unit == sentence.vocabulary.unit or size[-1:].isalpha()
    facts = {"drawn": (DrawnSize(what, size if bare else f"{size} {unit}"),)}
    if not within:
        return facts
    sentence.note("drawn", *sentence.spans.pop("wanted"))
    return {**facts, "wanted": ()}


def _within(value: Quantity, drawn: Drawn) -> bool:
    """Tell whether a value is within both limits."""
    low, high = drawn.lower, drawn.upper
    above = low is None or value.to(low.unit) >= low.value
    return above and (high is None or value.to(high.unit) <= high.value)


def _names(word: Word) -> bool:
    named = word.name is not None and word.name.role == "characteristic"
    return named or (word.name is None and "measures" in word.tags)


def _named_anew(row: list[Word]) -> list[Word]:
    """Give the spigot of “shade spigot drawn 5.9”, a name nobody has used yet."""
    told = next((at for at, word in enumerate(row) if _spec(word)), 0)
    parts = [at for at, word in enumerate(row[:told]) if word.name is not None]
    between = row[parts[-1] + 1 : told] if parts else []
    plain = all(
        one.sort is Sort.WORD
        and not one.tags - {"structure"}
        and not one.low.endswith("ly")
        for one in between
    )
    return between if plain and len(between) <= _FEW else []


_FEW = 2
"""Words that may name a size: spigot, seat bore."""


def _called(sentence: Sentence, words: list[Word]) -> str:
    names = sentence.lexicon.dimension_of
    return " ".join(names.get(word.low, word.low) for word in words)


def as_drawn(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give the sizes as drawn, and the stock they are made from."""
    sentence.spans.pop("drawn", None)
    facts: dict[str, Any] = {"drawn": sizes_drawn(sentence), "wanted": ()}
    read = [*_read(sentence), *sentence.spans.get("wanted", [])]
    stock = [one for one in read if one.sort in FIGURES and _of_stock(sentence, one)]
    if len(stock) == 1 and len(stock[0].amounts) == 1:
        facts["thickness"] = stock[0].quantities(sentence.vocabulary.unit)[0]
        sentence.note("thickness", stock[0])
    sentence.spans.pop("readings", None)
    if all("stock_form" in word.tags for word in sentence.spans.get("material", [])):
        facts["material"] = ""
    return {**facts, "readings": ()}


def beside_material(sentence: Sentence, at: int) -> bool:
    """Tell whether a figure stands beside a material that is no part's name."""
    return any(
        word is not None and word.name is None and "material" in word.tags
        for word in (sentence.word(at - 1), sentence.word(at + 1))
    )
