"""How each part of a release is made: process, file, sizes, and what it became."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import NamedTuple

from logbook.advice.changes.compensated import compensation_words
from logbook.advice.changes.unlisted import unlisted
from logbook.publish.faults.withdrawn import not_to_be_made
from logbook.publish.guide.control import NOT_READ, control_words
from logbook.publish.guide.decided import decided_on
from logbook.publish.guide.set_values import set_for
from logbook.publish.html import anchor
from logbook.publish.pages import capital
from logbook.publish.parts.asbuilt import example, in_service, without_settings
from logbook.publish.parts.gaps import made_to_suit, suited_words
from logbook.publish.release.released import Mark, Released
from logbook.publish.release.statements import limits_text, stuff
from logbook.publish.signals import Box, Spoken, reminders
from logbook.records.kinds import assembling
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.words import Source
from logbook.records.sizes.definition import (
    NO_LIMITS,
    Dimension,
    dimension,
    drawn_as_said,
)
from logbook.records.sizes.limits_held import held_words, limits_held
from logbook.records.states.practice import is_practice
from logbook.records.states.statements import Form
from logbook.records.states.tried import tried_words
from logbook.records.states.wanted import only_wanted
from logbook.records.together.revisions import shown_label
from logbook.store.designs.shapes import Shape


@dataclass(frozen=True, slots=True)
class FileView:
    """A file of a part: where, which content, its size, and what is wrong with it."""

    path: str
    sha256: str
    control: str
    marks: tuple[Mark, ...]


class GapLink(NamedTuple):
    """A gap of the same guide: its name there, its heading, whether it is unchanged."""

    name: str
    anchor: str
    live: bool


@dataclass(frozen=True, slots=True)
class SizeView:
    """A dimension as drawn, and what it became on one build.

    `suits` is the gap it is made last for, where the guide has it.
    """

    name: str
    drawn: str
    accept: str
    became: str
    matters: bool
    marks: tuple[Mark, ...]
    suits: GapLink | None = None


@dataclass(frozen=True, slots=True)
class PartView:
    """A part that is made, as its maker needs it; `unset` is one of unsaid settings."""

    name: str
    revision: str
    withdrawn: str
    changed: str
    unlisted: tuple[str, ...]
    boxes: tuple[Box, ...]
    made_of: str
    process: str
    steps: tuple[str, ...]
    files: tuple[FileView, ...]
    compensated: str
    sizes: tuple[SizeView, ...]
    measured: tuple[str, ...]
    decided: tuple[str, ...]
    was_set: tuple[str, ...]
    service: str
    unset: bool
    marks: tuple[Mark, ...]


class PartSheets:
    """The parts of a release that are made, each with what its maker needs."""

    def __init__(
        self, released: Released, spoken: Spoken, shapes: Mapping[str, Shape]
    ) -> None:
        """Take the release, what the page has said, and the shapes by file hash."""
        self.released = released
        self.spoken = spoken
        self.shapes = shapes
        self.snapshot = released.snapshot

    def views(self) -> Iterator[PartView]:
        """Give the parts that are made here or by a service, where any is needed."""
        for part in self.released.needed:
            bought = part.source is Source.BOUGHT
            if not bought and not is_practice(self.snapshot, part):
                yield self._view(part)

    def practice(self) -> Iterator[PartView]:
        """Give the test pieces, which are no part of the thing."""
        for part in self.released.parts:
            if is_practice(self.snapshot, part):
                yield self._view(part)

    def _view(self, part: Part) -> PartView:
        revision = self.released.revision(part)
        material = stuff(self.snapshot, part, revision)
        title = capital(part.title)
        makers = tuple(self._makers(part))
        called = reminders(part.process, material) if not makers else ()
        boxes = self.spoken.before(called, anchor(title), title)
        label = ""
        if revision is not None:
            label = f"{shown_label(revision)}, {tried_words(self.snapshot, revision)}"
        files, sizes = tuple(self._files(part)), tuple(self._sizes(part))
        marks = [mark for file in files for mark in file.marks]
        marks += [mark for size in sizes for mark in size.marks]
        return PartView(
            name=title,
            revision=label,
            withdrawn=not_to_be_made(self.snapshot, revision) if revision else "",
            changed=_changed(revision),
            unlisted=unlisted(self.snapshot, revision) if revision else (),
            boxes=boxes,
            made_of=material,
            process=", ".join(part.process),
            steps=makers,
            files=files,
            compensated=compensation_words(self.snapshot, revision) if revision else "",
            sizes=sizes,
            measured=tuple(self._measured(part)),
            decided=tuple(decided_on(self.snapshot, part)),
            was_set=tuple(set_for(self.snapshot, part, self.released.revisions)),
            service=in_service(self.snapshot, part, revision),
            unset=without_settings(self.snapshot, part, revision),
            marks=tuple(dict.fromkeys(marks)),
        )

    def _makers(self, part: Part) -> Iterator[str]:
        """Give the released steps that make a part, as `step 1`."""
        for at, statement in enumerate(self.released.of(Form.STEP), 1):
            step = self.snapshot.find(statement.of, Step)
            if step and self.snapshot.find(step.makes) is part:
                yield f"step {at}"

    def _files(self, part: Part) -> Iterator[FileView]:
        revision = self.released.revision(part)
        hashes = {file.path: file.sha256 for file in self.released.release.files}
        for statement in self.released.of(Form.FILE):
            if revision is None or statement.of.id != revision.id:
                continue
            path = next((p for p in hashes if f": {p}, " in statement.says), "")
            if path:
                sha256 = hashes[path]
                shape = self.shapes.get(sha256)
                unit = self.snapshot.project.unit
                words = control_words(shape, unit) if shape else NOT_READ
                marks = self.released.marked(statement.id)
                yield FileView(path, sha256[:16], words, marks)

    # -- sizes -------------------------------------------------------------------

    def _dimensions(self, part: Part) -> Iterator[tuple[Statement, Characteristic]]:
        for statement in self.released.of(Form.DIMENSION):
            item = self.snapshot.find(statement.of, Characteristic)
            if item and self.snapshot.find(item.part) is part:
                yield statement, item

    def _sizes(self, part: Part) -> Iterator[SizeView]:
        seen = set()
        for statement, item in self._dimensions(part):
            seen.add(item.id)
            view = self._size(part, statement, item)
            if view is not None:
                yield view
        for gap in self.snapshot.all(assembling.Fit):
            last = self.snapshot.find(gap.made_last, Characteristic)
            if last and last.id not in seen and self.snapshot.find(last.part) is part:
                seen.add(last.id)
                yield self._suited(part, gap, last, ())

    def _size(
        self, part: Part, statement: Statement, item: Characteristic
    ) -> SizeView | None:
        marks = self.released.marked(statement.id)
        revision = self.released.revision(part)
        drawn = dimension(self.snapshot, revision, item)
        gap = made_to_suit(self.snapshot, item)
        suits = self._link(gap)
        if statement.id not in self.released.unchanged:
            _, _, text = statement.says.partition(": ")
            drawn_then = drawn_as_said(item, text)
            if drawn_then is None:
                read = example(self.snapshot, part, item, revision)
                told = item.title, text, "", read
                return SizeView(*told, matters=False, marks=marks, suits=suits)
            drawn = drawn_then
        if drawn.to_suit and gap:
            return self._suited(part, gap, item, marks)
        if drawn.nominal is None:
            return None
        note, accept = self._accepted(drawn, gap, marks)
        held = None if gap else limits_held(self.snapshot.project, drawn)
        same = drawn.nominal == item.nominal
        undrawn = same and only_wanted(self.snapshot, item)
        said = f"not drawn; {drawn.nominal} wanted" if undrawn else str(drawn.nominal)
        return SizeView(
            name=item.title,
            drawn=f"{said}{note}",
            accept=accept,
            became=example(self.snapshot, part, item, revision, held),
            matters=item.critical,
            marks=marks,
            suits=suits,
        )

    def _accepted(
        self, drawn: Dimension, gap: assembling.Fit | None, marks: tuple[Mark, ...]
    ) -> tuple[str, str]:
        """Say what stands behind a drawn size, and what is accepted.

        Where a gap decides, its limits are accepted, and the drawn ones only named.
        """
        accept = held_words(self.snapshot.project, drawn) or NO_LIMITS
        if gap is None:
            return "", accept
        link = self._link(gap)
        if marks or (link and link.live):
            rule = suited_words(self.snapshot, gap)
            lead = "better" if marks else "made to suit"
            return f" ({accept}); {lead}: {rule}", f"gap {limits_text(gap)}"
        return "; made to suit" if link else "", accept

    def _link(self, gap: assembling.Fit | None) -> GapLink | None:
        """Lead to where this release's guide tells of a gap, if it does."""
        if gap is None:
            return None
        for told in self.released.of(Form.GAP):
            if self.snapshot.find(told.of) is gap:
                live = self.released.live(told) is not None
                name = gap.title if live else told.of.name
                return GapLink(name, anchor(name), live)
        return None

    def _suited(
        self,
        part: Part,
        gap: assembling.Fit,
        item: Characteristic,
        marks: tuple[Mark, ...],
    ) -> SizeView:
        """Tell a size that no drawing gives, because it is made to suit a gap."""
        return SizeView(
            name=item.title,
            drawn=f"to suit: {suited_words(self.snapshot, gap)}",
            accept=f"gap {limits_text(gap)}",
            became=example(self.snapshot, part, item, self.released.revision(part)),
            matters=item.critical,
            marks=marks,
            suits=self._link(gap),
        )

    def _measured(self, part: Part) -> Iterator[str]:
        """Say what was measured of a part that no drawing gives a size for."""
        revision = self.released.revision(part)
        last = (gap.made_last for gap in self.snapshot.all(assembling.Fit))
        suited = {one.id for one in last if one}
        for _, item in self._dimensions(part):
            if item.nominal is None and item.id not in suited:
                found = example(self.snapshot, part, item, revision)
                if found:
                    yield f"{item.title} {found}"


def _changed(revision: Revision | None) -> str:
    """Say what is new in a revision, and its name: a file can lag behind its words."""
    if revision is None or not revision.changed:
        return ""
    return f"{shown_label(revision)}: {revision.changed}"
