"""Pages, or pieces of one, as an independent parser reads them."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import html5lib

from tests.publish.stand import Stand


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


def fragment(html: str) -> ET.Element:
    """Parse a piece of a page by itself."""
    parser = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False)
    found: ET.Element = parser.parse(f"<!DOCTYPE html><title>x</title>{html}")
    return found
