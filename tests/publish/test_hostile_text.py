"""Hostile text is shown as written and does nothing."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import replace

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from logbook.publish.decimal_point import decimal_points
from logbook.publish.html import (
    is_welcome,
    to_html,
)
from logbook.publish.pages import css_string, inline, quoted, visible
from logbook.publish.whole_page import Printed, page
from logbook.records.kinds import assembling, design
from logbook.units import minus_signs
from tests.publish.hostile import HOSTILE, anything, hostile
from tests.publish.parsed import fragment, pages_of, tree, words
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_hostile_text_in_lists_steps_and_settings_is_shown_as_written(
    stand: Stand,
) -> None:
    """One text of each kind at each place, in a guide of what is released next."""
    texts = [one for one in HOSTILE if "\x1b" not in one and "\u202e" not in one]
    draft = stand.begin()
    line = draft.snapshot.lookup("diffuser", assembling.Line)
    draft.amend(replace(line, bought_as=texts[0], substitutes=tuple(texts)))
    step = draft.snapshot.lookup("Fit the crossbar", assembling.Step)
    draft.amend(replace(step, tools=tuple(texts), substitutes=tuple(texts)))
    part = draft.snapshot.lookup("crossbar", design.Part)
    draft.amend(replace(part, process=tuple(texts)))
    settings = {f"set {at}": one for at, one in enumerate(texts)}
    draft.amend(replace(draft.piece(part), settings=settings))
    stand.keep(draft, "hostile")
    assert stand.run("guide", "--draft")[0] == 0
    html = stand.read("as-built/published/draft/guide.html")
    tags = {element.tag for element in tree(html).iter()}
    assert not tags & {"script", "iframe", "object", "form", "b"}
    said = " ".join(words(html).split())
    for text in texts:
        assert said.count(" ".join(text.split())) >= 3, text
    pictures = [element.get("src", "") for element in tree(html).iter("img")]
    assert all(source.startswith("data:") for source in pictures)


@pytest.mark.parametrize("text", HOSTILE)
def test_hostile_text_in_a_cell_and_in_a_line_is_shown_as_written(text: str) -> None:
    shown = visible(" ".join(text.split()))
    table = to_html(f"| a | b |\n|---|---|\n| {inline(text)} | end |\n")
    cells = [e.text for e in fragment(table).iter("td")]
    assert cells == [shown, "end"]
    assert words(to_html(inline(text) + "\n")).strip() == shown
    item = fragment(to_html(f"- x: {inline(text)}\n- y\n"))
    assert [e.text for e in item.iter("li")] == [f"x: {shown}", "y"]


@given(st.lists(anything, min_size=1, max_size=3).map(" ".join))
@example("-0")
@example("0,5")
def test_any_text_comes_through_markdown_and_html_as_written(text: str) -> None:
    plain = visible(" ".join(text.split())).replace("\x00", "\ufffd")
    shown = minus_signs(decimal_points(plain))
    html = to_html(f"a {inline(text)} b\n")
    assert " ".join(words(html).split()) == " ".join(f"a {shown} b".split())
    assert re.findall(r"<(\w+)", html) == ["p"]


@given(anything)
def test_prose_keeps_its_markdown_but_no_html_and_no_unwelcome_link(text: str) -> None:
    html = to_html(quoted(text) + "\n")
    root = fragment(html)
    tags = {element.tag for element in root.find("body").iter()}  # type: ignore[union-attr]
    assert not tags & {"script", "img", "iframe", "style", "form"}
    assert all(is_welcome(e.get("href", "")) for e in root.iter("a"))


@pytest.mark.parametrize(
    ("address", "welcome"),
    [
        ("https://example.org/x", True), ("mailto:a@example.org", True),
        ("errata.html", True), ("#steps", True), ("../1.0/guide.md", True),
        ("javascript:alert(1)", False), ("JAVASCRIPT:x", False),
        ("java\nscript:x", False), ("\x01javascript:x", False),
        ("data:text/html,x", False), ("vbscript:x", False),
        ("file:///etc/passwd", False), ("//example.org/x", False),
    ],
)  # fmt: skip
def test_only_web_mail_and_relative_links_stay_links(
    address: str, welcome: bool
) -> None:
    assert is_welcome(address) is welcome


def test_a_title_in_the_footer_cannot_end_the_style() -> None:
    title = 'x"; } </style><script>alert(1)</script> \\'
    html = page("# t\n", title=title, printed=Printed(title))
    root = tree(html)
    assert list(root.iter("script")) == []
    assert root.findtext("head/title") == title
    assert re.fullmatch(r'"(?:[0-9A-Za-z]|\\[0-9a-f]+ )*"', css_string(title))


def test_headings_inside_a_quote_make_no_outline() -> None:
    html = to_html("# top\n\n> # shouted\n\n## two\n")
    assert "quoted-heading" in html
    assert [e.tag for e in fragment(html).iter() if re.fullmatch("h[1-6]", e.tag)] == [
        "h1",
        "h2",
    ]


def test_no_control_or_direction_character_reaches_a_page(stand: Stand) -> None:
    hostile(stand, "a\x1b[31m \u202eevil\u2066 \x00 b")
    for html in pages_of(stand).values():
        kinds = {unicodedata.category(c) for c in html if c not in "\n\t"}
        assert not kinds & {"Cc"}
        assert not re.search("[\u202a-\u202e\u2066-\u2069]", html)
