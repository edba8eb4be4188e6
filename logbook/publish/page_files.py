"""Published pages as the files they go to: each as Markdown and as one HTML page."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from logbook.publish.errata.errata import write_errata
from logbook.publish.errata.links import linked, to_html
from logbook.publish.faults.worded import days_of
from logbook.publish.guide.control import shapes_of
from logbook.publish.guide.guide import write_guide
from logbook.publish.html import pictures_from
from logbook.publish.notes.notes import PLACE, write_notes
from logbook.publish.sheet.sheet import PAPERS
from logbook.publish.whole_page import Printed, page
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.repository import Repository

PUBLISHED = "as-built/published"
OF_ALL = f"{PUBLISHED}/errata.md"
"""The page of known faults of all releases together."""


@dataclass(frozen=True, slots=True)
class Press:
    """What pages are made of and for: the records, where they lie, the paper."""

    snapshot: Snapshot
    root: Path
    repository: Repository
    own_templates: Path | None = None
    paper: str = "A4"

    def guide(
        self, release: Release, coming: Sequence[str] = ()
    ) -> tuple[str, dict[str, bytes]]:
        """Give the guide of a release, as text and as its files.

        `coming` are pages that are not written yet and will be: they are linked.
        """
        shapes = shapes_of(self.root, self.repository, release)
        text = write_guide(self.snapshot, release, self.own_templates, shapes)
        return text, self._pair(text, guide_path(release), _named(release), coming)

    def errata(
        self,
        releases: Sequence[Release],
        coming: Sequence[str] = (),
        *,
        every: bool = False,
    ) -> tuple[str, dict[str, bytes]]:
        """Give the known faults of releases, as text and as the page's files."""
        text = write_errata(
            self.snapshot,
            releases,
            self.own_templates,
            every=every,
            days=days_of(self.snapshot, self.root, self.repository),
        )
        path, what = OF_ALL, "known faults of all releases"
        if not every:
            path = errata_path(releases[-1])
            what = f"known faults, release {releases[-1].label}"
        return text, self._pair(text, path, what, coming)

    def notes(self) -> tuple[str, dict[str, bytes]]:
        """Give the builder notes, as text and as their files."""
        text = write_notes(self.snapshot, self.own_templates)
        name = self.snapshot.project.title
        printed = f"{name}, builder notes: one builder's record."
        return text, self._files(text, PLACE, "builder notes", printed)

    def every_page(
        self, *, apart: bool = False
    ) -> Iterator[tuple[str, Mapping[str, bytes]]]:
        """Give guide and known faults of each release, newest first, and the notes.

        Each with its name. The known faults of all together where that page is there.
        Links are as they are once all of them are written; `apart`, as each would be
        written by itself now.
        """
        newest = sorted(
            self.snapshot.all(Release), key=lambda one: (one.when, one.id), reverse=True
        )
        coming = [] if apart else [guide_path(release) for release in newest]
        for release in newest:
            yield f"guide of {release.label}", self.guide(release, coming)[1]
            faults = self.errata((release,), coming)[1]
            yield f"known faults of {release.label}", faults
        if (self.root / OF_ALL).is_file():
            oldest = tuple(reversed(newest))
            yield "known faults of all", self.errata(oldest, coming, every=True)[1]
        yield "builder notes", self.notes()[1]

    def _pair(
        self, text: str, path: str, what: str, coming: Sequence[str]
    ) -> dict[str, bytes]:
        """Give a page that is printed and kept, with what its footer warns of."""
        name = self.snapshot.project.title
        place = self.snapshot.project.published_at or "the place you got it from"
        printed = (
            f"{name}, {what}. On paper this does not change: look for known faults "
            f"at {place}."
        )
        there = frozenset(self.root / one for one in coming)
        text = linked(text, self.root / Path(path).parent, there)
        return self._files(text, path, what, printed)

    def _files(self, text: str, path: str, what: str, printed: str) -> dict[str, bytes]:
        made = page(
            to_html(text),
            title=f"{self.snapshot.project.title}: {what}",
            printed=Printed(printed, PAPERS[self.paper]),
            picture=pictures_from(self.root, self.root / Path(path).parent),
            own_templates=self.own_templates,
        )
        return {path: text.encode(), path.removesuffix(".md") + ".html": made.encode()}


def guide_path(release: Release) -> str:
    """Give where the guide of a release lies, from the top of the repository."""
    return f"{PUBLISHED}/{release.label}/guide.md"


def errata_path(release: Release) -> str:
    """Give where its page of known faults lies, from the top of the repository."""
    return f"{PUBLISHED}/{release.label}/errata.md"


def paper_on_disk(root: Path) -> str:
    """Give the paper the pages on disk were made for; A4 where there are none."""
    for path in sorted((root / PUBLISHED).rglob("*.html")):
        made = path.read_text("utf-8", errors="replace")
        for name, size in PAPERS.items():
            if f"size: {size}" in made:
                return name
    return "A4"


def _named(release: Release) -> str:
    return f"guide, release {release.label}"


def differing(root: Path, files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Give those of these files that are not on disk as they are here."""
    return {path: data for path, data in files.items() if _on_disk(root / path) != data}


def _on_disk(path: Path) -> bytes | None:
    try:
        return path.read_bytes()
    except OSError:
        return None
