"""Guides on disk that say less of the known faults than the records do by now."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from logbook.publish.guide import write_guide
from logbook.records.made_public import Release
from logbook.records.snapshot import Snapshot

_HEADING = "## Known faults of this release"


def stale_guides(
    snapshot: Snapshot, root: Path, own_templates: Path | None
) -> Iterator[str]:
    """Say of which releases the guide on disk is older than their known faults."""
    for release in snapshot.all(Release):
        path = root / "as-built/published" / release.label / "guide.md"
        try:
            written = path.read_text("utf-8")
        except (OSError, UnicodeDecodeError):
            continue
        now = write_guide(snapshot, release, own_templates)
        if _faults(written) != _faults(now):
            yield (
                f"the guide of {release.label} is older than its known faults: "
                f"logbook guide {release.label}"
            )


def _faults(guide: str) -> str:
    """Give what a guide says under its heading of known faults."""
    return guide.partition(_HEADING)[2].partition("\n## ")[0].strip()
