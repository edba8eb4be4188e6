"""A page of its own: published Markdown as one HTML file, on screen and on paper."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from logbook.publish.html import Picture, with_contents
from logbook.publish.kept_together import kept_together
from logbook.publish.pages import render_page

PAPERS = {"A4": "210mm 297mm", "Letter": "215.9mm 279.4mm"}
"""Sizes of paper: ISO 216 A4, and ANSI/ASME Y14.1 size A (from memory)."""


@dataclass(frozen=True, slots=True)
class Printed:
    """How a page comes out on paper: its footer, and the size of paper as CSS has it.

    Without a size it is the printer's own.
    """

    footer: str = ""
    size: str = ""


def page(
    text: str,
    *,
    title: str,
    language: str = "en",
    printed: Printed = Printed(),
    picture: Picture | None = None,
    own_templates: Path | None = None,
) -> str:
    """Turn Markdown into a whole page of its own."""
    html, contents = with_contents(text, picture)
    heading, closing, body = html.partition("</h1>")
    facts: Mapping[str, Any] = {
        "title": title,
        "language": language,
        "footer": printed.footer,
        "size": printed.size,
        "heading": heading + closing,
        "body": kept_together(body),
        "contents": contents,
    }
    return render_page("page.html.j2", facts, own_templates)
