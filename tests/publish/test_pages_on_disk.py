"""Pages as they lie beside each other on disk: each link leads to a file that is there.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import re
from pathlib import Path
from urllib.parse import unquote

import pytest

from tests.publish.stand import Stand

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


def written(stand: Stand, *words: str) -> None:
    code, said = stand.run(*words)
    assert code == 0, said


def test_the_newer_release_is_linked_in_each_format_once_its_guide_is_written(
    stand: Stand,
) -> None:
    written(stand, "guide", "1.0")
    page = stand.read(f"{PUBLISHED}/1.0/guide.md")
    assert "> **NEWER RELEASE** Release 1.1 of" in page
    written(stand, "guide", "1.1")
    written(stand, "guide", "1.0")
    for name in ("guide", "errata"):
        text = stand.read(f"{PUBLISHED}/1.0/{name}.md")
        assert "> **NEWER RELEASE** [Release 1.1](../1.1/guide.md) of" in text
        html = stand.read(f"{PUBLISHED}/1.0/{name}.html")
        assert '<a href="../1.1/guide.html">Release 1.1</a>' in html


def test_every_link_between_pages_leads_to_a_file(stand: Stand) -> None:
    for words in (("guide", "1.0"), ("guide", "1.1"), ("guide", "1.0"), ("notes",)):
        written(stand, *words)
    written(stand, "errata", "--all")
    found = links(stand)
    assert {name for name, _ in found} >= {"guide.md", "guide.html", "errata.html"}
    assert [str(place) for _, place in found if not place.is_file()] == []


def test_the_builder_notes_are_a_page_too_with_their_pictures_in_it(
    stand: Stand,
) -> None:
    written(stand, "notes")
    html = stand.read(f"{PUBLISHED}/builder-notes.html")
    assert "<title>Desk copy stand: builder notes</title>" in html
    assert '<img src="data:image/png;base64,' in html
    assert "signal" in html
    assert stand.bench.git("status", "--short") == ""
