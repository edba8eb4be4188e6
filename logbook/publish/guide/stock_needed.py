"""What is cut from which material: pieces with their overall size, not what is bought.

Who begins asks how much of a material to have, and whether his machine takes the
largest piece. Overall sizes are those the released files measure.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from logbook.publish.guide.parts_list import Listed, in_all
from logbook.publish.release.released import Released
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Piece, Stock
from logbook.store.designs.overall import longest_mm, of_own_units, overall, page
from logbook.store.designs.shapes import Shape
from logbook.store.designs.unsaid_units import in_metres, in_own_units


@dataclass(frozen=True, slots=True)
class StockView:
    """A material with the pieces cut from it, and the stock that was had for them."""

    material: str
    pieces: tuple[str, ...]
    bought: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class StockNeeded:
    """What is cut from each material; `largest` is the longest piece, where known."""

    rows: tuple[StockView, ...]
    largest: str


def stock_needed(
    released: Released, lines: tuple[Listed, ...], shapes: Mapping[str, Shape]
) -> StockNeeded:
    """Give each material of what is made here, in the order of the list."""
    cut: dict[str, list[str]] = {}
    bought: dict[str, list[str]] = {}
    longest, largest = 0.0, ""
    for line in _made_here(lines):
        material, part = line.said.material, line.part
        assert part is not None
        size, reach = _overall(released, part, shapes)
        said = f"{_number(line, lines)} {line.name}, {size}"
        cut.setdefault(material, []).append(said)
        bought.setdefault(material, []).extend(_bought(released, part))
        if reach > longest:
            longest, largest = reach, f"{line.name}, {size}"
    rows = (
        StockView(one, tuple(pieces), tuple(dict.fromkeys(bought[one])))
        for one, pieces in cut.items()
    )
    return StockNeeded(tuple(rows), largest)


def _made_here(lines: tuple[Listed, ...]) -> Iterator[Listed]:
    """Give the lines of parts that are made here of something, each part once."""
    done = set()
    for line in lines:
        part = line.part
        made = line.said.source in {None, Source.MADE} and not line.dropped
        if part and made and not part.assembly and line.said.material:
            if part.id not in done:
                yield line
            done.add(part.id)


def _number(line: Listed, lines: tuple[Listed, ...]) -> str:
    if line.said.quantity is None:
        return "number not stated:"
    spare = sum(one.said.spare for one in lines if one.name == line.name)
    return f"{in_all(line.name, lines) + spare} ×"


def _overall(
    released: Released, part: Part, shapes: Mapping[str, Shape]
) -> tuple[str, float]:
    """Give the overall size of a part as its file has it, and its longest side in mm.

    The page of a drawing is named as such and is no size of the part.
    """
    revision = released.revision(part)
    paths = {file.path for file in revision.files} if revision else set()
    meant, sheet = released.snapshot.project.unit, ""
    for file in released.release.files:
        shape = shapes.get(file.sha256)
        if file.path not in paths or shape is None:
            continue
        if shape.size is None:
            sheet = sheet or page(shape, meant)
        elif metres := in_metres(shape, meant):
            return f"{metres} if its file is in metres, which it does not say", 0.0
        elif in_own_units(shape):
            sides, _ = of_own_units(shape)
            return f"{sides} in units of its drawing, of unsaid length", 0.0
        else:
            return overall(shape, meant), longest_mm(shape, meant)
    of_page = f", whose page is {sheet}" if sheet else ""
    return f"size not read from a file{of_page}", 0.0


def _bought(released: Released, part: Part) -> Iterator[str]:
    """Name the stock that pieces of a part were made from, with its size."""
    snapshot = released.snapshot
    refs = [part.stock, *(one.stock for one in snapshot.mentions(part, Piece))]
    for stock in filter(None, (snapshot.find(ref, Stock) for ref in refs)):
        size = " × ".join(map(str, stock.size))
        sold = f"sold as {stock.bought_as}" if stock.bought_as else ""
        read = f"measured {stock.measured}" if stock.measured else ""
        yield ", ".join(filter(None, (stock.title, size, sold, read)))
