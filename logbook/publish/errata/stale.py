"""Pages on disk that say otherwise of faults and releases than the records by now."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logbook.advice.faults.fixing import listed
from logbook.publish.errata.errata import write_errata
from logbook.publish.errata.links import linked
from logbook.publish.faults.worded import without_worded
from logbook.publish.guide.guide import write_guide
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot

_FAULTS = "## Known faults of this release"
_OPEN = "## May be wrong too"
_EXAMPLES = ("- **Time on record", "- **Money on record")
"""What a page says that leads nobody wrong when it is a build behind."""


def stale_pages(
    snapshot: Snapshot, root: Path, own_templates: Path | None
) -> Iterator[str]:
    """Say which pages on disk are out of date, newest release first; one sentence."""
    every = sorted(snapshot.all(Release), key=lambda one: (one.when, one.id))
    told: dict[str, list[str]] = {}
    for release in reversed(every):
        stale = " and the ".join(_stale(snapshot, release, root, own_templates))
        if stale:
            told.setdefault(stale, []).append(release.label)
    if told:
        said = (f"the {pages} of {listed(of)}" for pages, of in told.items())
        yield f"out of date: {', '.join(said)}; written anew with: logbook pages"


def _stale(
    snapshot: Snapshot, release: Release, root: Path, own_templates: Path | None
) -> Iterator[str]:
    """Name the pages of a release that are on disk and say otherwise by now."""
    folder = root / "as-built/published" / release.label
    if old := _read(folder / "guide.md"):
        guide = linked(write_guide(snapshot, release, own_templates), folder)
        if _said(old) != _said(guide):
            yield "guide"
    if old := _read(folder / "errata.md"):
        faults = linked(write_errata(snapshot, (release,), own_templates), folder)
        if without_worded(old).strip() != faults.strip():
            yield "page of known faults"


def _read(path: Path) -> str:
    """Give a page on disk; empty where there is none that can be read."""
    try:
        return path.read_text("utf-8")
    except (OSError, UnicodeDecodeError):
        return ""


def _said(guide: str) -> tuple[str, ...]:
    """Give what a guide says of newer releases, of its faults and of open ones."""
    page = guide.strip()
    first = page.partition("\n## ")[0].splitlines()
    kept = "\n".join(line for line in first if not line.startswith(_EXAMPLES))
    parts = (page.partition(head)[2] for head in (_FAULTS, _OPEN))
    return (kept, *(part.partition("\n## ")[0].strip() for part in parts))
