"""Pages on disk that say otherwise of faults and releases than the records by now."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

from logbook.publish.errata import write_errata
from logbook.publish.guide import write_guide
from logbook.records.made_public import Release
from logbook.records.snapshot import Snapshot

_FAULTS = "## Known faults of this release"
_OPEN = "## May be wrong too"
_PAGE_LINK = re.compile(r"\[([^\[\]]*)\]\(\.\./[\w.+-]+/guide\.md\)")
"""A link to another release's guide, which a page has only where that is written."""


def stale_pages(
    snapshot: Snapshot, root: Path, own_templates: Path | None
) -> Iterator[str]:
    """Say of which releases the pages on disk are out of date, and what writes them."""
    for release in snapshot.all(Release):
        folder = root / "as-built/published" / release.label
        old_guide, old_faults = _read(folder / "guide.md"), _read(folder / "errata.md")
        stale = []
        if old_guide:
            guide = write_guide(snapshot, release, own_templates)
            stale += ["guide"] if _said(old_guide) != _said(guide) else []
        if old_faults:
            faults = write_errata(snapshot, (release,), own_templates)
            old, now = _plain(old_faults), _plain(faults)
            stale += ["page of known faults"] if old != now else []
        if stale:
            verb = "guide" if old_guide else "errata"
            yield (
                f"the {' and the '.join(stale)} of {release.label} "
                f"{'is' if len(stale) == 1 else 'are'} out of date: "
                f"logbook {verb} {release.label}"
            )


def _read(path: Path) -> str:
    """Give a page on disk; empty where there is none that can be read."""
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def _plain(page: str) -> str:
    return _PAGE_LINK.sub(r"\1", page).strip()


def _said(guide: str) -> tuple[str, ...]:
    """Give what a guide says of newer releases, of its faults and of open ones."""
    page = _plain(guide)
    parts = (page.partition(head)[2] for head in (_FAULTS, _OPEN))
    return tuple(
        part.partition("\n## ")[0].strip()
        for part in (page.partition("\n## ")[0], *parts)
    )
