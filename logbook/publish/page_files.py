"""Published pages as the files they go to: each as Markdown and as one HTML page."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property, partial
from pathlib import Path

from logbook.publish.builders import builders, record_of
from logbook.publish.errata.errata import Days, write_errata
from logbook.publish.errata.links import linked, to_html
from logbook.publish.faults.worded import days_of
from logbook.publish.guide.control import shapes_of
from logbook.publish.guide.guide import write_guide
from logbook.publish.guide.licence import licence_files
from logbook.publish.html import pictures_from
from logbook.publish.notes.notes import PLACE, write_notes
from logbook.publish.whole_page import PAPERS, Printed, page
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.git.repository import Repository

PUBLISHED = "as-built/published"
OF_ALL = f"{PUBLISHED}/errata.md"
"""The page of known faults of all releases together."""

Make = Callable[[], tuple[str, dict[str, bytes]]]
"""Makes a page: gives its text, and its files."""


@dataclass(frozen=True)
class Press:
    """What pages are made of and for: the records, where they lie, the paper.

    It is of one moment: what git says is asked once for all of its pages.
    """

    snapshot: Snapshot
    root: Path
    repository: Repository
    own_templates: Path | None = None
    paper: str = "A4"

    @cached_property
    def _days(self) -> Days:
        return days_of(self.snapshot, self.root, self.repository)

    @cached_property
    def _builders(self) -> dict[str, str]:
        return builders(self.snapshot, self.root, self.repository)

    def guide(
        self, release: Release, coming: Sequence[str] = ()
    ) -> tuple[str, dict[str, bytes]]:
        """Give the guide of a release, as text and as its files.

        `coming` are pages that are not written yet and will be: they are linked.
        """
        shapes = shapes_of(self.snapshot, self.root, self.repository, release)
        licence = licence_files((self.root, self.repository.top))
        text = write_guide(
            self.snapshot, release, self.own_templates, shapes, licence, self._builders
        )
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
            days=self._days,
            names=self._builders,
        )
        path, what = OF_ALL, "known faults of all releases"
        if not every:
            path = errata_path(releases[-1])
            what = f"known faults, release {releases[-1].label}"
        return text, self._pair(text, path, what, coming)

    def notes(self) -> tuple[str, dict[str, bytes]]:
        """Give the builder notes, as text and as their files."""
        text = write_notes(self.snapshot, self.own_templates, self._builders)
        name = self.snapshot.project.title
        printed = f"{name}, builder notes: {record_of(self._builders)}."
        return text, self._files(text, PLACE, "builder notes", printed)

    def every_page(self) -> Iterator[tuple[str, Mapping[str, bytes]]]:
        """Give guide and known faults of each release, newest first, and the notes.

        Each with its name. The known faults of all together where that page is there.
        Links are as they are once all of them are written.
        """
        coming = [guide_path(release) for release in self._newest()]
        for name, _, make in self._pages(coming):
            yield name, make()[1]

    def pages_there(self) -> Iterator[tuple[str, Mapping[str, bytes]]]:
        """Give those pages that are on disk, each as written by itself it would be."""
        for name, path, make in self._pages(()):
            if any((self.root / one).is_file() for one in (path, _html(path))):
                yield name, make()[1]

    def _newest(self) -> list[Release]:
        every = self.snapshot.all(Release)
        return sorted(every, key=lambda one: (one.when, one.id), reverse=True)

    def _pages(self, coming: Sequence[str]) -> Iterator[tuple[str, str, Make]]:
        """Give each page by its name, with its place and what makes it."""
        newest = self._newest()
        for one in newest:
            label = one.label
            guide = partial(self.guide, one, coming)
            faults = partial(self.errata, (one,), coming)
            yield f"guide of {label}", guide_path(one), guide
            yield f"known faults of {label}", errata_path(one), faults
        if (self.root / OF_ALL).is_file():
            oldest = tuple(reversed(newest))
            every = partial(self.errata, oldest, coming, every=True)
            yield "known faults of all", OF_ALL, every
        yield "builder notes", PLACE, self.notes

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
        return {path: text.encode(), _html(path): made.encode()}


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


def _html(path: str) -> str:
    """Give where the same page lies as HTML."""
    return f"{path.removesuffix('.md')}.html"


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
