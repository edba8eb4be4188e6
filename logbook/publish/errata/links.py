"""Links from one published page to another: only to what is written, in each format."""

from __future__ import annotations

import re
from os.path import normpath
from pathlib import Path

_OURS = re.compile(r"\]\(((?:(?:\.\./)?[\w.+-]+/)?(?:guide|errata))\.md(?=[#)])")
"""A link to a page of ours, which each of its formats has in its own format."""
_BESIDE = re.compile(
    r"\[([^\[\]]*)\]\(((?:\.\./)?[\w.+-]+/guide\.md)((?:#[^()\s]*)?)\)"
)
"""A link to the guide of another release."""


def linked(page: str, folder: Path, coming: frozenset[Path] = frozenset()) -> str:
    """Give a page with links to another release's guide only where that is written.

    `folder` is where the page goes; it may not be there yet. `coming` are files that
    are not there either and are written with it.
    """

    def link(found: re.Match[str]) -> str:
        place = Path(normpath(folder / found[2]))
        return found[0] if place in coming or place.is_file() else found[1]

    return _BESIDE.sub(link, page)


def to_html(page: str) -> str:
    """Give a page whose links go to the HTML file of each page of ours."""
    return _OURS.sub(r"](\1.html", page)
