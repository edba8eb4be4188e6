"""Pages as browsers and other readers see them: valid, silent, legible, as written."""

from __future__ import annotations

import http.server
import re
import subprocess
import threading
import unicodedata
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import html5lib
import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.publish.html import (
    anchor,
    contents,
    is_welcome,
    markdown,
    to_html,
)
from logbook.publish.pages import SHIPPED, css_string, inline, quoted, visible
from logbook.publish.whole_page import Printed, page
from logbook.records.kinds import assembling, design, happenings
from logbook.records.kinds.words import Blame, Disposition
from tests.needs import needs
from tests.publish.stand import Stand
from tests.records.strategies import NASTY

pytestmark = pytest.mark.xdist_group("publish")

HOSTILE = [
    "<script>document.title='x'</script>",
    '<img src=x onerror="alert(1)">',
    "[a](javascript:alert(1))",
    "![a](http://127.0.0.1:1/x.png)",
    "a | b || c",
    "**bold** _it_ `code` ~~gone~~",
    "# no heading",
    "- no list",
    "> no quote",
    "1. no number",
    "--- ",
    "&lt;b&gt; &amp; &#x41;",
    "\x1b[31mred\x07",
    "left \u202eevil\u2066 right",
    "\\* \\",
    "</main></body>",
    "{{ 7 * 7 }} {% raw %}",
    "http://example.org <http://example.org>",
    "@left.opening base@left.opening",
]


def tree(html: str) -> ET.Element:
    """Parse a page with an independent parser that accepts no error."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    found: ET.Element = parser.parse(html)
    return found


def words(html: str) -> str:
    parser = html5lib.HTMLParser(namespaceHTMLElements=False)
    return "".join(parser.parse(html).itertext())


def pages_of(stand: Stand) -> dict[str, str]:
    for verb in (("guide", "1.0"), ("guide", "1.1"), ("errata", "--all")):
        assert stand.run(*verb)[0] == 0
    folder = stand.bench.top / "as-built/published"
    return {str(p.relative_to(folder)): p.read_text() for p in folder.rglob("*.html")}


# -- an independent parser -------------------------------------------------------


def test_every_page_parses_without_an_error_and_says_its_language(
    stand: Stand,
) -> None:
    pages = pages_of(stand)
    assert len(pages) == 5
    for html in pages.values():
        root = tree(html)
        assert root.get("lang") == "en"
        assert root.findtext("head/title")
        levels = [int(e.tag[1]) for e in root.iter() if re.fullmatch("h[1-6]", e.tag)]
        assert levels.count(1) == 1
        assert all(below - above <= 1 for above, below in pairwise(levels))
        assert all(e.get("alt") for e in root.iter("img"))
        assert all(e.get("scope") == "col" for e in root.iter("th"))


def test_no_page_holds_a_script_or_names_anything_to_be_fetched(
    stand: Stand,
) -> None:
    for html in pages_of(stand).values():
        root = tree(html)
        tags = {element.tag for element in root.iter()}
        assert not tags & {"script", "iframe", "object", "embed", "base", "form"}
        for element in root.iter():
            loaded = [element.get(name) for name in ("src", "srcset", "poster")]
            loaded += [element.get("href")] if element.tag == "link" else []
            assert all(one.startswith("data:") for one in loaded if one)
            assert not [name for name in element.attrib if name.startswith("on")]
        assert "url(" not in html
        assert "@import" not in html


def test_links_within_a_page_lead_somewhere(stand: Stand) -> None:
    for html in pages_of(stand).values():
        root = tree(html)
        ids = [e.get("id") for e in root.iter() if e.get("id")]
        assert len(ids) == len(set(ids))
        inner = [e.get("href", "")[1:] for e in root.iter("a")]
        marks = [e.get("href", "") for e in root.iter("a")]
        assert any(mark.startswith("#") for mark in marks)
        for mark, name in zip(marks, inner, strict=True):
            assert not mark.startswith("#") or name in ids


# -- a browser -------------------------------------------------------------------


QUIET = (
    "--headless", "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
)  # fmt: skip


class Listener:
    """A web server that only writes down who asked for what."""

    def __init__(self) -> None:
        asked: list[str] = []

        class Handler(http.server.BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                asked.append(self.path)
                self.send_error(404)

            def log_message(self, *_: object) -> None:
                pass

        self.asked = asked
        self.server = http.server.ThreadingHTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self.server.server_address[1]}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()


@pytest.fixture
def listener() -> Iterator[Listener]:
    made = Listener()
    yield made
    made.server.shutdown()
    made.server.server_close()


def browse(place: Path, profile: Path) -> tuple[str, str]:
    """Open a page in the browser; give its DOM and what the console said."""
    done = subprocess.run(
        ["chromium", *QUIET, f"--user-data-dir={profile}", "--enable-logging=stderr",
         "--virtual-time-budget=3000", "--dump-dom", place.as_uri()],
        capture_output=True, text=True, timeout=300, check=True,
    )  # fmt: skip
    console = [line for line in done.stderr.splitlines() if ":CONSOLE" in line]
    return done.stdout, "\n".join(console)


@needs("chromium")
def test_the_browser_finds_no_error_and_asks_nobody_for_anything(
    stand: Stand, tmp_path: Path, listener: Listener
) -> None:
    hostile(stand, f"![x]({listener.address}/p.png) <img src={listener.address}/i>")
    pages_of(stand)
    folder = stand.bench.top / "as-built/published"
    for name in ("1.0/guide.html", "errata.html"):
        dom, console = browse(folder / name, tmp_path / "profile")
        assert "<h1" in dom
        assert console == ""
    assert listener.asked == []


@needs("chromium")
def test_the_check_above_would_hear_a_request_and_a_console_error(
    tmp_path: Path, listener: Listener
) -> None:
    place = tmp_path / "loud.html"
    place.write_text(
        f"<!DOCTYPE html><title>x</title><img src={listener.address}/p.png>"
        "<script>console.error('loud')</script>"
    )
    _, console = browse(place, tmp_path / "profile")
    assert "loud" in console
    assert "/p.png" in listener.asked


# -- hostile text ----------------------------------------------------------------


def hostile(stand: Stand, text: str) -> None:
    """Put a text into every place of a record that the pages show."""
    draft = stand.begin()
    part = draft.snapshot.lookup("diffuser", design.Part)
    revision = draft.snapshot.lookup("diffuser first issue", design.Revision)
    draft.add(
        happenings.Failure(
            id="h0st11e0",
            title=text,
            prose=text,
            part=part.ref,
            where=text,
            cure=text,
            consequence=text,
            cause=happenings.Cause(said=text),
            met_by_others=Blame.DRAWING,
            when=revision.when.replace(day=20),
            disposition=Disposition.SCRAP,
        )
    )
    stand.keep(draft, "hostile")


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
    cells = [e.text for e in _parsed(table).iter("td")]
    assert cells == [shown, "end"]
    assert words(to_html(inline(text) + "\n")).strip() == shown
    item = _parsed(to_html(f"- x: {inline(text)}\n- y\n"))
    assert [e.text for e in item.iter("li")] == [f"x: {shown}", "y"]


def _parsed(fragment: str) -> ET.Element:
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    found: ET.Element = parser.parse(f"<!DOCTYPE html><title>x</title>{fragment}")
    return found


anything = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=40
) | st.sampled_from([*NASTY, *HOSTILE])


@given(st.lists(anything, min_size=1, max_size=3).map(" ".join))
def test_any_text_comes_through_markdown_and_html_as_written(text: str) -> None:
    shown = visible(" ".join(text.split())).replace("\x00", "\ufffd")
    html = to_html(f"a {inline(text)} b\n")
    assert " ".join(words(html).split()) == " ".join(f"a {shown} b".split())
    assert re.findall(r"<(\w+)", html) == ["p"]


@given(anything)
def test_prose_keeps_its_markdown_but_no_html_and_no_unwelcome_link(text: str) -> None:
    html = to_html(quoted(text) + "\n")
    root = _parsed(html)
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
    assert [e.tag for e in _parsed(html).iter() if re.fullmatch("h[1-6]", e.tag)] == [
        "h1",
        "h2",
    ]


# -- CommonMark ------------------------------------------------------------------

# Examples of the CommonMark specification 0.31.2, by their number there (from
# memory of the specification; checked with the reader of the same version).
COMMONMARK = [
    (1, "\tfoo\tbaz\t\tbim\n", "<pre><code>foo\tbaz\t\tbim\n</code></pre>\n"),
    (12, '\\!\\"\\#\n', "<p>!&quot;#</p>\n"),
    (42, "- `one\n- two`\n", "<ul>\n<li>`one</li>\n<li>two`</li>\n</ul>\n"),
    (43, "***\n---\n___\n", "<hr />\n<hr />\n<hr />\n"),
    (62, "# foo\n## foo\n", "<h1>foo</h1>\n<h2>foo</h2>\n"),
    (119, "```\n<\n >\n```\n", "<pre><code>&lt;\n &gt;\n</code></pre>\n"),
    (219, "aaa\n\nbbb\n", "<p>aaa</p>\n<p>bbb</p>\n"),
    (228, "> # Foo\n> bar\n> baz\n",
     "<blockquote>\n<h1>Foo</h1>\n<p>bar\nbaz</p>\n</blockquote>\n"),
    (301, "- foo\n- bar\n+ baz\n",
     "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n"),
    (328, "`foo`\n", "<p><code>foo</code></p>\n"),
    (350, "*foo bar*\n", "<p><em>foo bar</em></p>\n"),
    (378, "**foo bar**\n", "<p><strong>foo bar</strong></p>\n"),
    (482, '[link](/uri "title")\n', '<p><a href="/uri" title="title">link</a></p>\n'),
    (594, "<http://foo.bar.baz>\n",
     '<p><a href="http://foo.bar.baz">http://foo.bar.baz</a></p>\n'),
    (633, "foo  \nbaz\n", "<p>foo<br />\nbaz</p>\n"),
]  # fmt: skip


@pytest.mark.parametrize(("number", "text", "html"), COMMONMARK)
def test_commonmark_examples(number: int, text: str, html: str) -> None:
    assert markdown().render(text) == html, f"example {number}"


def test_anchors_are_those_of_the_headings_and_doubles_are_counted() -> None:
    assert anchor("Known faults of this release") == "known-faults-of-this-release"
    text = "## Gaps, made to suit\n\n## A\n\n## A\n"
    assert contents(text) == (
        ("gaps-made-to-suit", "Gaps, made to suit"), ("a", "A"), ("a-1", "A"),
    )  # fmt: skip


# -- contrast --------------------------------------------------------------------


def colours(css: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", css))


def themes() -> dict[str, dict[str, str]]:
    css = (SHIPPED / "page.html.j2").read_text("utf-8")
    light = css[css.index(":root") : css.index("@media (prefers")]
    dark = css[css.index("@media (prefers") : css.index("* { box-sizing")]
    paper = css[css.index("@media print") : css.index("html { font-size: 10pt")]
    base = colours(light)
    return {
        "light": base,
        "dark": base | colours(dark),
        "print": base | colours(paper),
    }


def luminance(colour: str) -> float:
    """Relative luminance of a colour (WCAG 2.2, definition; sRGB)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, two: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, definition), 1 to 21."""
    bright, dim = sorted((luminance(one), luminance(two)), reverse=True)
    return (bright + 0.05) / (dim + 0.05)


def test_the_formula_gives_the_published_ends() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_text_has_a_contrast_of_4_5_and_lines_of_3(theme: str) -> None:
    """WCAG 2.2, 1.4.3 and 1.4.11."""
    found = themes()[theme]
    for ink in ("ink", "faint", "link", "mark"):
        for ground in ("paper", "soft"):
            assert contrast(found[ink], found[ground]) >= 4.5, (ink, ground)
    for word in ("danger", "warning", "caution", "notice", "fault", "check"):
        assert contrast(found[f"{word}-ink"], found[word]) >= 4.5, word
    for ground in ("paper", "soft"):
        assert contrast(found["rule"], found[ground]) >= 3, ground


def test_no_control_or_direction_character_reaches_a_page(stand: Stand) -> None:
    hostile(stand, "a\x1b[31m \u202eevil\u2066 \x00 b")
    for html in pages_of(stand).values():
        kinds = {unicodedata.category(c) for c in html if c not in "\n\t"}
        assert not kinds & {"Cc"}
        assert not re.search("[\u202a-\u202e\u2066-\u2069]", html)


def test_each_cell_of_a_wide_table_names_its_column_for_a_narrow_screen() -> None:
    rows = "| fault | release 1.0 | 1.1 |\n|---|---|---|\n| crack | yes | **no** |\n"
    table = _parsed(to_html(rows)).find(".//table")
    assert table is not None
    assert (table.get("class"), table.get("role")) == ("stack", "table")
    cells = [cell.get("data-label") for cell in table.iter("td")]
    assert cells == [None, "release 1.0", "1.1"]
    two = _parsed(to_html("| tool | in step |\n|---|---|\n| saw | 1 |\n"))
    found = two.find(".//table")
    assert found is not None
    assert found.get("class") is None
