"""Pages on disk that say otherwise of faults and releases than the records by now."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

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
    """Say of which releases the pages on disk are out of date, and what writes them.

    Newest first, as they are written: an older guide links to those after it.
    """
    every = sorted(snapshot.all(Release), key=lambda one: (one.when, one.id))
    for release in reversed(every):
        folder = root / "as-built/published" / release.label
        old_guide, old_faults = _read(folder / "guide.md"), _read(folder / "errata.md")
        stale = []
        if old_guide:
            guide = linked(write_guide(snapshot, release, own_templates), folder)
            stale += ["guide"] if _said(old_guide) != _said(guide) else []
        if old_faults:
            faults = linked(write_errata(snapshot, (release,), own_templates), folder)
            same = without_worded(old_faults).strip() == faults.strip()
            stale += [] if same else ["page of known faults"]
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


def _said(guide: str) -> tuple[str, ...]:
    """Give what a guide says of newer releases, of its faults and of open ones."""
    page = guide.strip()
    first = page.partition("\n## ")[0].splitlines()
    kept = "\n".join(line for line in first if not line.startswith(_EXAMPLES))
    parts = (page.partition(head)[2] for head in (_FAULTS, _OPEN))
    return (kept, *(part.partition("\n## ")[0].strip() for part in parts))
