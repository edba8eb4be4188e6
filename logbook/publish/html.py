"""Markdown to one HTML page that stands alone: no script, no request, its own look.

HTML in the Markdown is shown as written. Links go to the web, to mail, or within
the page or folder; pictures are put into the page, others are named instead.
"""

from __future__ import annotations

import base64
import re
import unicodedata
from collections.abc import Callable, Iterator, MutableMapping, Sequence
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

from logbook.publish.signals import SIGNALS

if TYPE_CHECKING:
    from markdown_it import MarkdownIt
    from markdown_it.renderer import RendererHTML
    from markdown_it.token import Token

_SCHEME = re.compile(r"[a-z][a-z0-9+.-]*:", re.IGNORECASE)
_WELCOME = ("http:", "https:", "mailto:")
_PICTURES = {
    ".jpg": "image/jpeg",
    ".jpeg": "image/jpeg",
    ".png": "image/png",
    ".webp": "image/webp",
    ".gif": "image/gif",
}
_LARGEST_PICTURE = 12_000_000
_BOXES = {word.casefold(): f"signal {word.casefold()}" for word in SIGNALS} | {
    "stop": "signal danger",
    "newer release": "signal notice",
    "known fault": "signal fault",
    "order": "signal fault",
    "check": "signal check",
}
"""Class of a quote by the bold word it begins with."""

Picture = Callable[[str], str | None]
"""Gives the data URI for a picture's path, or None if it is not to be had."""

Contents = tuple[tuple[str, str], ...]
"""Anchor and words of each second-level heading of a page."""


def markdown() -> MarkdownIt:
    """Give the one Markdown reader: CommonMark and tables, HTML shown as written."""
    from markdown_it import MarkdownIt

    reader = MarkdownIt("commonmark", {"html": False}).enable("table")
    reader.validateLink = is_welcome  # type: ignore[method-assign,assignment]
    return reader


def is_welcome(address: str) -> bool:
    """Tell whether a link may stay a link: web, mail, or a relative path."""
    plain = re.sub(r"[\x00-\x20\x7f-\x9f]", "", address).casefold()
    if plain.startswith("//"):
        return False
    scheme = _SCHEME.match(plain)
    return scheme is None or scheme[0] in _WELCOME


def to_html(text: str, picture: Picture | None = None) -> str:
    """Turn Markdown into the inside of a page; without `picture` none is shown."""
    return with_contents(text, picture)[0]


def with_contents(text: str, picture: Picture | None = None) -> tuple[str, Contents]:
    """Turn Markdown into the inside of a page, and give the page's contents."""
    reader = _page_reader()
    tokens = reader.parse(text)
    _name_headings(tokens)
    listed = tuple(_contents(tokens))
    _mark_boxes(tokens)
    _label_cells(tokens)
    env: MutableMapping[str, Any] = {"picture": picture or (lambda _: None)}
    html = str(reader.renderer.render(tokens, reader.options, env))
    return _values_whole(html), listed


_TAG = re.compile(r"(<[^>]*>)")
_DAY = re.compile(r"(?<![\w./-])(\d{4}-\d\d-\d\d)(?![\w/-])")
_FIGURE = r"\d[\d.,/]*"
_SIZE = re.compile(
    rf"(?<![\w./−-])((?:{_FIGURE} × ){{1,2}}{_FIGURE}(?: (?:mm|cm|m|in|ft))?|"
    rf"{_FIGURE} (?:mm²?|cm²?|m|in|ft|thou|µm|°[CF]?|N·m|N|kg|g|V|A|W|Hz|min|h|%))"
    r"(?![\w²·/])"
)
"""Figures with their unit, and sides with theirs: “60.0 × 50.0 × 14.0 mm”."""


def _values_whole(html: str) -> str:
    """Mark days and sizes in the text of a page, so that none is broken in two.

    What stands in code is typed as it stands there.
    """
    parts, in_code = _TAG.split(html), 0
    for at, one in enumerate(parts):
        if at % 2:
            in_code += one.startswith(("<code", "<pre"))
            in_code -= one.startswith(("</code", "</pre"))
        elif not in_code:
            days = _DAY.sub(r'<time datetime="\1">\1</time>', one)
            parts[at] = _SIZE.sub(r'<span class="size">\1</span>', days)
    return "".join(parts)


def _contents(tokens: Sequence[Token]) -> Iterator[tuple[str, str]]:
    for at, token in enumerate(tokens):
        if token.type == "heading_open" and token.tag == "h2" and token.level == 0:
            yield str(token.attrGet("id")), _plain(tokens[at + 1])


def pictures_from(root: Path, folder: Path) -> Picture:
    """Give the pictures of a page that will lie in `folder`, from inside `root`."""
    inside = root.resolve()

    def picture(source: str) -> str | None:
        from urllib.parse import unquote

        if _SCHEME.match(source) or source.startswith("/"):
            return None
        place = (folder / unquote(source)).resolve()
        kind = _PICTURES.get(place.suffix.lower())
        if kind is None or not place.is_relative_to(inside) or not place.is_file():
            return None
        if place.stat().st_size > _LARGEST_PICTURE:
            return None
        coded = base64.b64encode(place.read_bytes()).decode()
        return f"data:{kind};base64,{coded}"

    return picture


# -- how the page differs from plain CommonMark ----------------------------------


@cache
def _page_reader() -> MarkdownIt:
    reader = markdown()
    reader.add_render_rule("image", _image)
    reader.add_render_rule("table_open", _table_open)
    reader.add_render_rule("table_close", _table_close)
    reader.add_render_rule("th_open", _th_open)
    return reader


def _image(
    renderer: RendererHTML,
    tokens: Sequence[Token],
    at: int,
    options: Any,
    env: MutableMapping[str, Any],
) -> str:
    from markdown_it.common.utils import escapeHtml

    token = tokens[at]
    source = str(token.attrGet("src") or "")
    words = renderer.renderInlineAsText(token.children, options, env)
    data = env["picture"](source)
    if data is None:
        named = escapeHtml(f"{words} ({source})" if words else source)
        return f'<span class="missing">Picture not in this page: {named}</span>'
    return f'<img src="{data}" alt="{escapeHtml(words)}">'


def _table_open(
    renderer: RendererHTML,
    tokens: Sequence[Token],
    at: int,
    options: Any,
    env: MutableMapping[str, Any],
) -> str:
    opened = renderer.renderToken(tokens, at, options, env)
    return f'<div class="wide" role="region" aria-label="Table" tabindex="0">{opened}'


def _table_close(*_: Any) -> str:
    return "</table></div>\n"


def _th_open(
    renderer: RendererHTML,
    tokens: Sequence[Token],
    at: int,
    options: Any,
    env: MutableMapping[str, Any],
) -> str:
    tokens[at].attrSet("scope", "col")
    return str(renderer.renderToken(tokens, at, options, env))


_NARROW = 2
"""Columns that still stand side by side on a phone; more are laid one below another."""
_SHORT = 16
"""Letters of a cell of which a third column still fits beside on a phone."""
_NOTHING = "–"


def _label_cells(tokens: Sequence[Token]) -> None:
    """Give each cell its column's name, to stand before it where rows are stacked.

    The roles keep it a table to a screen reader when its cells are laid as blocks.
    """
    heads: list[str] = []
    column = 0
    for at, token in enumerate(tokens):
        if token.type == "table_open":
            heads = []
            if _is_wide(tokens[at:]):
                token.attrSet("class", "stack")
                token.attrSet("role", "table")
        elif token.type == "th_open":
            heads.append(_plain(tokens[at + 1]))
        elif token.type == "tr_open":
            column = 0
            token.attrSet("role", "row")
        elif token.type == "td_open":
            token.attrSet("role", "cell")
            if column:
                head = heads[column]
                token.attrSet("data-label", head if head.endswith("?") else f"{head}:")
                if _plain(tokens[at + 1]) == _NOTHING:
                    token.attrSet("class", "nothing")
            column += 1


def _is_wide(tokens: Sequence[Token]) -> bool:
    """Tell whether the table these begin with is too wide for a phone."""
    end = next(at for at, one in enumerate(tokens) if one.type == "table_close")
    cells = [
        (one.type, _plain(tokens[at + 1]))
        for at, one in enumerate(tokens[:end])
        if one.type in {"th_open", "td_open"}
    ]
    columns = sum(kind == "th_open" for kind, _ in cells)
    if columns != _NARROW + 1:
        return columns > _NARROW
    beside = (text for at, (_, text) in enumerate(cells) if at % columns)
    return any(len(text) > _SHORT for text in beside)


def _name_headings(tokens: Sequence[Token]) -> None:
    """Give headings their anchors; a heading inside a quote is plain bold text."""
    used: dict[str, int] = {}
    for at, token in enumerate(tokens):
        if token.type not in {"heading_open", "heading_close"}:
            continue
        if token.level > 0:
            token.tag = "p"
            if token.type == "heading_open":
                token.attrSet("class", "quoted-heading")
        elif token.type == "heading_open":
            name = anchor(_plain(tokens[at + 1]))
            count = used.get(name, 0)
            used[name] = count + 1
            token.attrSet("id", f"{name}-{count}" if count else name)


def anchor(words: str) -> str:
    """Give the anchor of a heading as git hosts make it (common practice, no source).

    Letters with their marks and figures stay; ¼ and ² are no figures to them.
    """
    kept = "".join(one for one in words.strip().lower() if _stays(one))
    return kept.replace(" ", "-")


def _stays(one: str) -> bool:
    kind = unicodedata.category(one)
    return one in "- " or kind[0] in "LM" or kind in {"Nd", "Pc"}


def _plain(inline: Token) -> str:
    return "".join(child.content for child in inline.children or ())


def _mark_boxes(tokens: Sequence[Token]) -> None:
    """Class each quote by the bold word it begins with, so that its box shows it."""
    for at, token in enumerate(tokens[:-2]):
        if token.type != "blockquote_open":
            continue
        children = tokens[at + 2].children or []
        bold = [c for c in children[:3] if c.content or c.type == "strong_open"]
        led = len(bold) > 1 and bold[0].type == "strong_open"
        word = bold[1].content.rstrip(": 0123456789").casefold() if led else ""
        token.attrSet("class", _BOXES.get(word, "told"))
