"""The records a bench fact needs: what is missing is made, in an order that holds.

A `Draft` collects new and amended records on top of a snapshot. Parts come
before revisions, builds before pieces, definitions before entries, so that every
beginning of the list is a valid project.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from typing import Any

from logbook.errors import BadInput
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Characteristic, DesignFile, Part, Revision
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.ids import Ref, formula_name, new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.bought import source_by_name
from logbook.records.making.pending import Pending
from logbook.records.sizes.definition import characteristics_of
from logbook.records.states.pieces import current_build, is_gone, pieces_of
from logbook.records.together.labels import label_words, next_label
from logbook.records.together.revisions import built_to, last_revision, revisions_of
from logbook.records.together.snapshot import Snapshot


class Draft(Pending):
    """Records that are saved together; what they need is found or made."""

    def __init__(
        self, snapshot: Snapshot, now: datetime, build: Build | None = None
    ) -> None:
        """Start on a snapshot; `now` is the instant the fact is about."""
        super().__init__(snapshot, now)
        self._build = build or current_build(snapshot)

    def part(self, name: str) -> Part:
        """Give the part called `name`, made with its first revision if missing.

        What is called a screw, nut, washer, M4x16 and the like is taken for bought.

        Raises:
            BadInput: several parts are called so.
        """
        for part in self.made(Part):
            if part.title.casefold() == name.casefold():
                return part
        found = self.snapshot.named(name, Part)
        if len(found) > 1:
            ids = ", ".join(f"{part.title} {part.id}" for part in found)
            raise BadInput(f"several parts are called “{name}”: {ids}; accepted: an id")
        return found[0] if found else self.new_part(name, source_by_name(name))

    def new_part(
        self,
        name: str,
        source: Source = Source.MADE,
        label: str = "",
        files: tuple[DesignFile, ...] = (),
    ) -> Part:
        """Make a part and its first revision."""
        part = self.add(
            Part(
                id=new_id(),
                title=name,
                name=formula_name(name),
                source=source,
                when=self.when,
            )
        )
        self.new_revision(part, label or next_label(()), files=files)
        return part

    def new_revision(
        self,
        part: Part,
        label: str = "",
        *,
        changed: str = "",
        why: str = "",
        because: tuple[Ref, ...] = (),
        files: tuple[DesignFile, ...] = (),
    ) -> Revision:
        """Open the next revision of a part; the label follows those it has."""
        before = self.revisions(part)
        label = label or next_label([revision.label for revision in before])
        title = f"{part.title} {label_words(label)}"
        return self.add(
            Revision(
                id=new_id(),
                title=title,
                part=part.ref,
                label=label,
                follows=before[-1].ref if before else None,
                changed=changed,
                why=why,
                because=because,
                files=files,
                when=self.when,
            )
        )

    def revisions(self, part: Part) -> tuple[Revision, ...]:
        """Give the revisions of a part, those of this draft last."""
        made = (r for r in self.made(Revision) if r.part.id == part.id)
        return (*revisions_of(self.snapshot, part), *made)

    def revision(self, part: Part) -> Revision:
        """Give the current revision of a part."""
        made = [r for r in self.made(Revision) if r.part.id == part.id]
        current = made[-1] if made else last_revision(self.snapshot, part)
        return current or self.new_revision(part)

    def characteristic(
        self,
        part: Part,
        name: str,
        nominal: Quantity | None = None,
        *,
        since: Revision | None = None,
    ) -> Characteristic:
        """Give a dimension of a part, made if missing.

        A nominal that was not stated before is taken in. It is there `since` the
        revision that what was read is made to; else since the current one.
        """
        known = [
            *characteristics_of(self.snapshot, part),
            *(c for c in self.made(Characteristic) if c.part.id == part.id),
        ]
        words = {name.casefold(), formula_name(name)}
        for item in map(self.drafted, known):
            names = {item.title.casefold(), item.name, *item.formerly}
            if words & names:
                if nominal is not None and item.nominal is None:
                    return self.amend(replace(item, nominal=nominal))
                return item
        revision = since or self.revision(part)
        return self.add(
            Characteristic(
                id=new_id(),
                title=name,
                name=formula_name(name),
                part=part.ref,
                since=revision.ref,
                nominal=nominal,
                when=self.when,
            )
        )

    def build(self) -> Build:
        """Give the build the fact belongs to; “build 1” is made if there is none."""
        if self._build is None:
            count = len(self.snapshot.all(Build))
            title = f"build {count + 1}"
            self._build = self.add(Build(id=new_id(), title=title, when=self.when))
        return self._build

    def new_build(
        self, name: str = "", *, release: Release | None = None, **told: Any
    ) -> Build:
        """Begin a build with what is told of it; without a name it is the next number.

        Whose it is, where nobody is named, is put on record as it is saved.

        Raises:
            BadInput: there is one of this name.
        """
        title = name or f"build {len(self.snapshot.all(Build)) + 1}"
        if self.snapshot.named(title, Build):
            raise BadInput(f"there is a build called “{title}”; accepted: another name")
        self._build = self.add(
            Build(
                id=new_id(),
                title=title,
                when=self.when,
                release=release.ref if release else None,
                **told,
            )
        )
        return self._build

    def step_done(
        self, step: Step, *, time: Quantity | None = None, undone: bool = False,
        **seen: Any,
    ) -> StepDone:  # fmt: skip
        """Log a step of the order of work as done, or as taken apart again.

        `seen` is what was looked at before it closed: inside, tested, clean.
        """
        made = self.snapshot.find(step.makes, Part)
        return self.add(
            StepDone(
                id=new_id(),
                title=step.title,
                when=self.when,
                build=self.build().ref,
                step=step.ref,
                part=made.ref if made else None,
                time=time,
                closes=step.closes,
                undone=undone,
                **seen,
            )
        )

    def piece(self, part: Part, number: int | None = None) -> Piece:
        """Give a piece of a part in this build, made if missing.

        Without a number the newest piece that is not scrapped or away is meant.
        """
        if (known := self._known_piece(part, number)) is not None:
            return known
        return self.next_piece(part) if number is None else self.new_piece(part, number)

    def _known_piece(self, part: Part, number: int | None) -> Piece | None:
        """Give the piece of this number, else the newest here; None: still to make."""
        if number is None:
            return next(self.pieces_here(part), None)
        return next((p for p in self._pieces(part) if p.number == number), None)

    def made_to(self, part: Part, number: int | None = None) -> Revision | None:
        """Give the revision a piece is made to, or the next one of this build."""
        known = self._known_piece(part, number) if self._build else None
        of = known.revision if known else None
        revisions = self.revisions(part) if of else ()
        found = [one for one in revisions if of and one.id == of.id]
        return next(iter(found), None) or self._next_to(part)

    def _next_to(self, part: Part) -> Revision | None:
        """Give the revision that the next piece of a part is made to in this build."""
        opened = [r for r in self.made(Revision) if r.part.id == part.id]
        return opened[-1] if opened else built_to(self.snapshot, part, self._build)

    def pieces_here(self, part: Part) -> Iterator[Piece]:
        """Yield the pieces of this build not scrapped or away, the newest first."""
        build = self.build()
        for piece in reversed(self._pieces(part)):
            if piece.build is not None and piece.build.id != build.id:
                continue
            drafted = piece.id not in self.snapshot
            if drafted or not is_gone(self.snapshot, piece):
                yield piece

    def next_piece(self, part: Part) -> Piece:
        """Make one more piece of a part, numbered after all there are."""
        return self.new_piece(part, self.next_number(part))

    def next_number(self, part: Part) -> int:
        """Give the number of a part's next piece: they run through all builds."""
        return max((piece.number for piece in self._pieces(part)), default=0) + 1

    def _pieces(self, part: Part) -> list[Piece]:
        """Give every piece of a part, of whatever build, those of this draft last."""
        made = (p for p in self.made(Piece) if p.part.id == part.id)
        return [*pieces_of(self.snapshot, part), *made]

    def new_piece(self, part: Part, number: int) -> Piece:
        """Make a piece of the revision of a part that the build is made to."""
        build = self.build()
        of = self._next_to(part)
        return self.add(
            Piece(
                id=new_id(),
                title=f"{part.title}-{number}",
                part=part.ref,
                revision=(of or self.revision(part)).ref,
                build=build.ref,
                number=number,
                when=self.when,
            )
        )
