"""Pages as they lie beside each other on disk: each link leads to a file that is there.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import json
import re
from pathlib import Path
from urllib.parse import unquote

import pytest
from markdown_it import MarkdownIt

from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

PUBLISHED = "as-built/published"
_LINK = re.compile(r"(?:\]\(|href=\")(?!#|https?:|mailto:|data:)([^)\"#]+)")


def links(stand: Stand) -> list[tuple[str, Path]]:
    """Give every link from a page to another file, with where it leads."""
    pages = sorted((stand.bench.top / PUBLISHED).rglob("*"))
    return [
        (page.name, (page.parent / unquote(target)).resolve())
        for page in pages
        if page.suffix in {".md", ".html"}
        for target in _LINK.findall(page.read_text("utf-8"))
    ]


def test_the_newer_release_is_linked_in_each_format_once_its_guide_is_written(
    stand: Stand,
) -> None:
    told(stand, "guide", "1.0")
    page = stand.read(f"{PUBLISHED}/1.0/guide.md")
    assert "> **NEWER RELEASE** Release 1.1 of" in page
    told(stand, "guide", "1.1")
    told(stand, "guide", "1.0")
    for name in ("guide", "errata"):
        text = stand.read(f"{PUBLISHED}/1.0/{name}.md")
        assert "> **NEWER RELEASE** [Release 1.1](../1.1/guide.md) of" in text
        html = stand.read(f"{PUBLISHED}/1.0/{name}.html")
        assert '<a href="../1.1/guide.html">Release 1.1</a>' in html


def test_every_link_between_pages_leads_to_a_file(stand: Stand) -> None:
    for words in (("guide", "1.0"), ("guide", "1.1"), ("guide", "1.0"), ("notes",)):
        told(stand, *words)
    told(stand, "errata", "--all")
    found = links(stand)
    assert {name for name, _ in found} >= {"guide.md", "guide.html", "errata.html"}
    assert [str(place) for _, place in found if not place.is_file()] == []


def test_one_verb_writes_every_page_so_that_none_is_out_of_date(stand: Stand) -> None:
    told(stand, "guide", "1.0")
    told(stand, "release", "1.2")
    assert "known faults of 1.0; written anew" in stand.look("check")[1]
    said = stand.run("pages")[1]
    for label in ("1.2", "1.1", "1.0"):
        assert f"{PUBLISHED}/{label}/guide.md\n" in said
        assert f"{PUBLISHED}/{label}/errata.html\n" in said
    assert f"{PUBLISHED}/builder-notes.md\n" in said
    assert "[Release 1.2](../1.2/guide.md) of" in stand.read(
        f"{PUBLISHED}/1.0/guide.md"
    )
    assert json.loads(stand.look("check", "--json")[1])["stale"] == []
    assert [str(place) for _, place in links(stand) if not place.is_file()] == []
    assert stand.bench.git("log", "-1", "--format=%s").startswith("pages: guide of 1.2")


def test_pages_that_say_the_same_are_left_alone(stand: Stand) -> None:
    told(stand, "pages")
    head = stand.bench.git("rev-parse", "HEAD")
    said = json.loads(stand.look("pages", "--json")[1])
    assert said["paths"] == []
    assert stand.bench.git("rev-parse", "HEAD") == head
    assert json.loads(stand.look("check", "--json")[1])["stale"] == []
    told(stand, "note", "the opal side of the diffuser faces the film")
    out = "out of date: builder notes; written anew with: logbook pages"
    assert json.loads(stand.look("check", "--json")[1])["stale"] == [out]
    said = json.loads(stand.look("pages", "--json")[1])
    assert said["paths"] == [
        f"{PUBLISHED}/builder-notes{end}" for end in (".md", ".html")
    ]
    assert "known faults of 1.0" in said["current"]


def test_the_builder_notes_are_a_page_too_with_their_pictures_in_it(
    stand: Stand,
) -> None:
    told(stand, "notes")
    html = stand.read(f"{PUBLISHED}/builder-notes.html")
    assert "<title>Desk copy stand: builder notes</title>" in html
    assert '<img src="data:image/png;base64,' in html
    assert "signal" in html
    assert stand.bench.git("status", "--short") == ""


# -- anchors and pictures ------------------------------------------------------------


def slugs(text: str) -> set[str]:
    """Give the anchors git hosts make of headings (common practice, no source).

    Small letters, nothing but letters, figures 0 to 9, “-” and “_”, a hyphen for each
    space; the second of one name has -1 behind it.
    """
    tokens = MarkdownIt("commonmark").enable("table").parse(text)
    made: list[str] = []
    for at, token in enumerate(tokens):
        if token.type == "heading_open" and token.level == 0:
            said = "".join(one.content for one in tokens[at + 1].children or ())
            kept = "".join(
                c for c in said.lower() if c.isalpha() or c.isdecimal() or c in "-_ "
            )
            made.append(kept.strip().replace(" ", "-"))
    return {
        f"{name}-{before}" if (before := made[:at].count(name)) else name
        for at, name in enumerate(made)
    }


def leading_nowhere(stand: Stand) -> list[str]:
    """Give each link with an anchor that its page has not, in either format."""
    lost = []
    every = sorted((stand.bench.top / PUBLISHED).rglob("*.*"))
    for page in (one for one in every if one.is_file()):
        text = page.read_text("utf-8")
        for target, named in _ANCHORED.findall(text):
            there = (page.parent / unquote(target)).resolve() if target else page
            other = there.read_text("utf-8")
            html = set(re.findall(r'\bid="([^"]+)"', other))
            if unquote(named) not in (slugs(other) if there.suffix == ".md" else html):
                lost.append(f"{page.name}: {target}#{named}")
    return lost


_ANCHORED = re.compile(r"(?:\]\(|href=\")(?!https?:|mailto:|data:)([^)\"#]*)#([^)\"]+)")


def test_every_anchor_is_a_heading_of_the_page_it_leads_to(stand: Stand) -> None:
    for title in ("lid: ¼ too “wide”, & it's off (again)", "lamp_cable `x` 2.0—cut"):
        told(stand, "failure", "diffuser", title, "--met-by", "drawing", "--cure",
                "a new one: 3 × M3, 4/5 in")  # fmt: skip
    told(stand, "failure", "lamp", "lamp flickers", "--met-by", "drawing")
    told(stand, "part", "Dimmer (A2) 24 V", "--source", "bought")
    told(stand, "line", "Dimmer (A2) 24 V", "1")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "erratum", "lamp flickers", "--fixed-by",
            "Dimmer (A2) 24 V first issue")  # fmt: skip
    told(stand, "pages")
    assert "lamp-flickers)" in stand.read(f"{PUBLISHED}/1.0/errata.md")
    assert leading_nowhere(stand) == []


def test_a_release_that_changed_nothing_is_led_to_and_not_to_what_changed(
    drawn: Stand,
) -> None:
    told(drawn, "release", "1.0", "--anyway")
    told(drawn, "part", "knob")
    told(drawn, "release", "1.1", "--anyway")
    assert drawn.look("pages")[0] == 0
    page = drawn.read(f"{PUBLISHED}/1.0/guide.md")
    assert "**Begun, not finished?** Go on by [release 1.1]" in page
    assert leading_nowhere(drawn) == []


def test_pictures_lie_where_a_page_shows_them_and_are_told_in_words(
    stand: Stand,
) -> None:
    for words in (("guide", "1.0"), ("errata", "1.0"), ("notes",)):
        told(stand, *words)
    shown = [
        (page, words, unquote(path))
        for page in (stand.bench.top / PUBLISHED).rglob("*.md")
        for words, path in re.findall(r"!\[(.*)\]\(([^)]+)\)", page.read_text("utf-8"))
    ]
    assert {page.name for page, _, _ in shown} == {
        "guide.md",
        "errata.md",
        "builder-notes.md",
    }
    for page, words, path in shown:
        assert (page.parent / path).resolve().is_file(), path
        assert words.strip()
        html = page.with_suffix(".html").read_text("utf-8")
        assert re.search(r'<img src="data:image/[^"]+" alt="[^"]+">', html)
        assert "Picture not in this page" not in html
