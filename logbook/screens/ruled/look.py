"""How everything looks: two palettes, and words on their way to the screen.

The palettes are named for what is drawn on in a shop: slate (dark) and paper
(light). A terminal of few colours takes the nearest it has, and words may vanish in
their ground by that; so each palette is chosen anew for 256 and for 16 colours.
Whatever came from a file goes through `prose` or `sentence`, because a plain text
handed to a widget is read as markup.
"""

from __future__ import annotations

from functools import lru_cache

from textual.content import Content
from textual.theme import Theme

from logbook.records.written.shown_signs import one_line
from logbook.units import minus_signs

SLATE = {
    "sheet": "#12171b",
    "band": "#22384a",
    "ink": "#eee9dc",
    "quiet": "#a6b0b5",
    "rule": "#5b6c77",
    "mark": "#86c6f7",
    "alarm": "#ffb65c",
}
PAPER = {
    "sheet": "#f5f0e4",
    "band": "#dcd4c0",
    "ink": "#1b2025",
    "quiet": "#545d62",
    "rule": "#8d8671",
    "mark": "#0c4a84",
    "alarm": "#8a3500",
}
SLATE_256 = {
    "sheet": "#121212",
    "band": "#303030",
    "ink": "#eeeeee",
    "quiet": "#bcbcbc",
    "rule": "#767676",
    "mark": "#87d7ff",
    "alarm": "#ffaf5f",
}
PAPER_256 = {
    "sheet": "#ffffff",
    "band": "#dadada",
    "ink": "#121212",
    "quiet": "#4e4e4e",
    "rule": "#808080",
    "mark": "#005f87",
    "alarm": "#870000",
}
SLATE_16 = {
    "sheet": "#000000",
    "band": "#000080",
    "ink": "#ffffff",
    "quiet": "#c0c0c0",
    "rule": "#606060",
    "mark": "#00ffff",
    "alarm": "#ffff00",
}
PAPER_16 = {
    "sheet": "#ffffff",
    "band": "#c0c0c0",
    "ink": "#000000",
    "quiet": "#000000",
    "rule": "#606060",
    "mark": "#000080",
    "alarm": "#800000",
}
PALETTES = {
    "slate": {"truecolor": SLATE, "256": SLATE_256, "standard": SLATE_16},
    "paper": {"truecolor": PAPER, "256": PAPER_256, "standard": PAPER_16},
}
"""The palettes of each theme, by the colours a terminal has."""
ON_SHEET = ("ink", "quiet", "mark", "alarm")
"""Colours that carry words, on the sheet and on the band alike."""


ALARM_WITHOUT_COLOUR = "underline"
"""How words that call for care stand out where there is no colour to do it."""


def _theme(name: str, palette: dict[str, str], *, dark: bool, plain: bool) -> Theme:
    """Give a theme; in a `plain` one words stand out by more than their colour."""
    stands_out = f" {ALARM_WITHOUT_COLOUR}" if plain else ""
    return Theme(
        name=name,
        primary=palette["mark"],
        warning=palette["alarm"],
        error=palette["alarm"],
        foreground=palette["ink"],
        background=palette["sheet"],
        surface=palette["sheet"],
        panel=palette["band"],
        dark=dark,
        variables={
            **palette,
            "alarm": palette["alarm"] + stands_out,
            "alarm-ink": palette["alarm"],
            "input-cursor-background": palette["ink"],
            "input-cursor-foreground": palette["sheet"],
            "input-selection-background": palette["band"],
        },
    )


def themes(colours: str | None, *, plain: bool = False) -> list[Theme]:
    """Give the themes for a terminal of so many colours; all, where it says nothing.

    `plain` tells that no colour is wanted, whatever the terminal has.
    """
    chosen = {n: of.get(colours or "", of["truecolor"]) for n, of in PALETTES.items()}
    return [
        _theme(name, palette, dark=name == "slate", plain=plain)
        for name, palette in chosen.items()
    ]


def quiet_told(words: str, colours: str | None, *, plain: bool = False) -> str:
    """Give words that stand where something may be typed, told from typed ones.

    A terminal of few colours draws quiet words as it draws ink, or nearly: there they
    stand in brackets. `plain` tells that no colour is wanted.
    """
    alike = plain or colours not in {"256", "truecolor"}
    return f"‹{words}›" if words and alike else words


def prose(words: str) -> Content:
    """Prepare the user's words for a widget: as written, on one line."""
    return Content(read_line(words))


def read_line(words: str) -> str:
    """Give words on one line as they are read, with a minus before what is below 0."""
    return minus_signs(one_line(words))


@lru_cache(maxsize=256)
def sentence(template: str, **words: str) -> Content:
    """Fill `$name` slots of our own marked-up sentence with the user's words.

    Bands and lists say the same again at most keys, and to read the mark-up takes
    longer than the rest; what is given is never changed.
    """
    return Content.from_markup(
        template, **{name: read_line(word) for name, word in words.items()}
    )
