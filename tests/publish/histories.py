"""Invented histories of a small design, as acts in a row, for tests of all its pages.

A rod and a plate are made, a bolt is bought. Pieces are made, fail, hold, are corrected
by revisions, and all of it is released several times.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from pathlib import Path

from hypothesis import strategies as st

from logbook.publish.release.frozen import chosen_revisions, freeze
from logbook.records.kinds import assembling, design, happenings, made_public, workshop
from logbook.records.kinds.words import Blame, Disposition, Source, State
from tests.advice.world import World

PARTS = ("rod", "plate", "bolt")
TROUBLE = ("bent at the end", "cracked at a hole", "rattles")

Act = tuple[str, int, int]
"""What is done, to which part, and how: the figures choose among what there is."""

_KINDS = ("make", "fail", "hold", "revise", "fault", "release", "drop", "build")
acts: st.SearchStrategy[list[Act]] = st.lists(
    st.tuples(st.sampled_from(_KINDS), st.integers(0, 2), st.integers(0, 11)),
    max_size=14,
)


@dataclass
class History(World):
    """A design and all that came of it; `released` counts its releases."""

    released: int = 0
    line: dict[str, list[design.Revision]] = field(default_factory=dict)
    failures: list[happenings.Failure] = field(default_factory=list)
    found_on: list[design.Revision] = field(default_factory=list)
    saved: dict[str, made_public.Erratum] = field(default_factory=dict)
    pieces: list[workshop.Piece] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__post_init__()
        self.parts = {}
        for name in PARTS:
            source = Source.BOUGHT if name == "bolt" else Source.MADE
            part = self.parts[name] = self.part(name, source=source)
            self.line[name] = []
            self._revision(name)
            self.add(
                assembling.Line(title=name, part=part.ref, quantity=1, **self.about())
            )
        self.build()
        self.release()

    def play(self, rows: list[Act]) -> None:
        """Do these acts, and release what came of them."""
        for kind, at, how in rows:
            getattr(self, kind)(PARTS[at], how)
        self.release()

    # -- the acts -----------------------------------------------------------------

    def build(self, _: str = "", __: int = 0) -> None:
        number = sum(isinstance(r, workshop.Build) for r in self.records.values()) + 1
        self.now = self.add(workshop.Build(title=f"build {number}", **self.about()))

    def make(self, name: str, how: int) -> workshop.Piece:
        part = self.parts[name]
        own = self.line[name]
        piece = self.add(
            workshop.Piece(
                title=f"{name}-{len(self.pieces) + 1}",
                part=part.ref,
                revision=own[-1 - how % len(own)].ref,
                build=self.now.ref,
                **self.about(),
            )
        )
        self.pieces.append(piece)
        return piece

    def fail(self, name: str, how: int) -> None:
        piece = self.make(name, 0) if how % 2 else None
        failure = happenings.Failure(
            title=f"{name} {TROUBLE[how % 3]}",
            piece=piece.ref if piece else None,
            part=self.parts[name].ref,
            build=self.now.ref,
            cure="" if how % 4 == 0 else f"a {name} with more room",
            disposition=[Disposition.SCRAP, Disposition.USE_AS_IS, None][how % 3]
            if piece
            else None,
            met_by_others=[Blame.DRAWING, Blame.DRAWING, Blame.UNKNOWN][how // 4],
            **self.about(),
        )
        self.failures.append(self.add(failure))
        self.found_on.append(self.line[name][-1])

    def hold(self, _: str, how: int) -> None:
        if self.pieces:
            self.add(
                happenings.Status(
                    title="still good",
                    of=self.pieces[how % len(self.pieces)].ref,
                    state=State.CONFIRMED,
                    build=self.now.ref,
                    **self.about(),
                )
            )

    def revise(self, name: str, how: int) -> None:
        mine = [one for one in self.failures if one.part == self.parts[name].ref]
        because = (mine[-1].ref,) if mine and how % 2 else ()
        remake = ("", "no", "yes", "only if it binds")[how % 4]
        self._revision(name, changed="more room", because=because, remake=remake)

    def fault(self, _: str, how: int) -> None:
        """Save a known fault of a failure, with an answer and perhaps a cure."""
        if not self.failures:
            return
        at = how % len(self.failures)
        entry, found_on = self.failures[at], self.found_on[at]
        part = next(n for n in PARTS if self.parts[n].ref == entry.part)
        later = self.line[part][self.line[part].index(found_on) + 1 :]
        before = self.saved.get(entry.id)
        about = {"id": before.id, "when": before.when} if before else self.about()
        self.saved[entry.id] = self.add(
            made_public.Erratum(
                title=entry.title,
                part=entry.part,
                revisions=(found_on.ref,),
                from_entries=(entry.ref,),
                do_this=entry.cure,
                remake=("", "no", "yes", "only if it binds")[how % 4],
                fixed_by=later[-1].ref if later and how % 2 else None,
                stop_using_until="it is replaced" if how == 11 else "",
                **about,
            )
        )

    def drop(self, name: str, how: int) -> None:
        """Take a part off the list, or put it on again."""
        mine = [
            one
            for one in self.records.values()
            if isinstance(one, assembling.Line) and one.part == self.parts[name].ref
        ]
        self.add(replace(mine[0], quantity=how % 2))

    def release(self, _: str = "", __: int = 0) -> None:
        self.released += 1
        snapshot = self.snapshot()
        about = self.about()
        made = freeze(
            snapshot,
            Path("/nowhere"),
            f"1.{self.released - 1}",
            chosen_revisions(snapshot),
            about["when"],
        )
        self.add(made)

    def _revision(self, name: str, **facts: object) -> None:
        own = self.line[name]
        label = "" if not own else chr(ord("A") + len(own) - 1)
        own.append(
            self.add(
                design.Revision(
                    title=f"{name} rev {label}" if label else f"{name} first issue",
                    part=self.parts[name].ref,
                    label=label or "-",
                    follows=own[-1].ref if own else None,
                    **self.about(),
                    **facts,  # type: ignore[arg-type]
                )
            )
        )
