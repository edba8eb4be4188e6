"""Big figures, drawn with block signs so that they read from two metres.

Each sign is a raster of five by seven. Drawn tall it takes seven rows of two
columns a point; drawn low, half blocks put two points into one row.
"""

from __future__ import annotations

from collections.abc import Sequence

from rich.cells import cell_len
from textual.app import RenderResult
from textual.content import Content
from textual.widget import Widget

from logbook.screens.ruled.cutting import cut, fitted
from logbook.screens.ruled.look import prose, read_line

_RASTER = {
    "0": ".###. #...# #..## #.#.# ##..# #...# .###.",
    "1": "..#.. .##.. ..#.. ..#.. ..#.. ..#.. .###.",
    "2": ".###. #...# ....# ..##. .#... #.... #####",
    "3": ".###. #...# ....# ..##. ....# #...# .###.",
    "4": "...#. ..##. .#.#. #..#. ##### ...#. ...#.",
    "5": "##### #.... ####. ....# ....# #...# .###.",
    "6": "..##. .#... #.... ####. #...# #...# .###.",
    "7": "##### ....# ...#. ..#.. ..#.. ..#.. ..#..",
    "8": ".###. #...# #...# .###. #...# #...# .###.",
    "9": ".###. #...# #...# .#### ....# ...#. .##..",
    "-": "..... ..... ..... .###. ..... ..... .....",
    "+": "..... ..#.. ..#.. ##### ..#.. ..#.. .....",
    "/": "....# ....# ...#. ..#.. .#... #.... #....",
    ".": ". . . . . . #",
    ",": ". . . . . # #",
    " ": ".. .. .. .. .. .. ..",
}
HUGE, TALL, LOW = 14, 7, 4
"""Rows of a line of figures drawn huge, tall and low."""


def can_draw(text: str) -> bool:
    """Tell whether every sign of a number has a raster."""
    return bool(text) and all(sign in _RASTER for sign in text)


def draw(text: str, rows: int) -> list[str]:
    """Draw a number in `rows` lines, HUGE, TALL or LOW."""
    raster = ["".join(f"{line}." for line in lines) for lines in _lines(text)]
    if rows >= HUGE:
        huge = ["".join(_wide(point) * 2 for point in line) for line in raster[:7]]
        return [line for line in huge for _ in range(2)]
    if rows >= TALL:
        return ["".join(_wide(point) for point in line) for line in raster[:7]]
    return [_half(raster[at], raster[at + 1]) for at in range(0, 8, 2)]


def _lines(text: str) -> list[list[str]]:
    signs = [_RASTER[sign].split() for sign in text]
    rows = [[sign[row] for sign in signs] for row in range(7)]
    return [*rows, ["." * len(sign[0]) for sign in signs]]


def _wide(point: str) -> str:
    return "██" if point == "#" else "  "


def _half(above: str, below: str) -> str:
    pairs = {"##": "█", "#.": "▀", ".#": "▄", "..": " "}
    return "".join(pairs[a + b] for a, b in zip(above, below, strict=True))


def rows_for(text: str, width: int, most: int) -> int:
    """Give the rows a number is drawn in: as large as `width` and `most` allow."""
    for rows in (HUGE, TALL, LOW):
        if rows <= most and can_draw(text) and _columns(draw(text, rows)) <= width:
            return rows
    return 0


def unit_room(unit: str) -> int:
    """Give the columns a unit takes behind its number."""
    return cell_len(unit) + 2 if unit else 0


Piece = tuple[str, str]
"""Words and their style."""

PLAIN, LOUD = "$ink", "$ink reverse bold"


def _laid(words: Sequence[str], unit: str, room: int, rows: int) -> list[list[Piece]]:
    """Lay words out in so many rows of so many columns, the unit in the last.

    A verdict, in capitals, stands behind the unit, else above it, and is whole
    whatever the others come to; then the first is.
    """
    foot: list[Piece] = [(unit, "$ink bold")] if unit else []
    said = [word for word in words if word and not word.isupper()]
    above: list[list[Piece]] = []
    for verdict in (word for word in words if word.isupper()):
        if unit_room(unit) + cell_len(verdict) + 2 <= room:
            foot += [("  ", PLAIN)] if foot else []
            foot.append((f" {verdict} ", LOUD))
        elif room > 0:
            lines = fitted(Content(verdict), room, rows - 1)
            above += [[(line.plain, "$ink bold")] for line in lines]
    left = rows - 1 - len(above)
    told: list[list[Piece]] = []
    for at, word in enumerate(said if room > 0 else ()):
        spare = left - len(told)
        if spare > 0:
            most = max(spare - (len(said) - at - 1), 1)
            lines = fitted(Content(read_line(word)), room, most)
            told += [[(line.plain, PLAIN)] for line in lines]
    blank: list[list[Piece]] = [[] for _ in range(left - len(told))]
    return [*blank, *told, *above, foot]


def _columns(lines: Sequence[str]) -> int:
    """Give the columns lines need without the blanks at their ends."""
    return max(len(line.rstrip()) for line in lines)


class Figures(Widget):
    """A number in big figures, as large as there is room for, and words beside it."""

    DEFAULT_CSS = "Figures { height: 4; width: 1fr; color: $ink; }"

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        """Start with nothing to show."""
        super().__init__(id=id)
        self._number, self._unit = "", ""
        self._beside: tuple[str, ...] = ()

    def show(self, number: str, unit: str, *beside: str) -> None:
        """Show a number, its unit at the foot, and lines of words beside it."""
        if (number, unit, beside) == (self._number, self._unit, self._beside):
            return
        self._number, self._unit, self._beside = number, unit, beside
        self.refresh()

    def render(self) -> RenderResult:
        """Draw the number as large as it fits, the words to its right."""
        width, height = max(self.size.width, 1), max(self.size.height, 1)
        figures = self._figures(width, height)
        if figures is None:
            words = [word for word in self._beside[: height - 1] if word]
            plain = [f"{self._number} {self._unit}", *words]
            return Content("\n").join([prose(row) for row in plain[:height]])
        wide = _columns(figures)
        unit = read_line(self._unit)
        beside = _laid(self._beside, unit, width - wide - 2, len(figures))
        rows = [
            Content.assemble(figure[:wide].ljust(wide), "  " if words else "", *words)
            for figure, words in zip(figures, beside, strict=True)
        ]
        return Content("\n").join(cut(row, width) for row in rows)

    def _figures(self, width: int, height: int) -> list[str] | None:
        rows = rows_for(self._number, width - unit_room(self._unit), height)
        return draw(self._number, rows) if rows else None
