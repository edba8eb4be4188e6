"""The builds an entry may be moved to, each with what is on record of it."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.moving import (
    goes_along,
    moves_words,
    piece_apart,
    stays_words,
    with_words,
)
from logbook.records.together.whose_shop import built_by
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.of_build import entries_of
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say


class Builds(Choosing):
    """The builds an entry may be moved to, the newest first, by number or name.

    The one it is of already comes last.
    """

    NOTHING = "no such build"
    ASKS = "its number or its name; Enter moves the entry there"
    MARGIN_WORD = "build ›"

    def __init__(self, desk: Desk, moving: Entry, along: Sequence[Entry]) -> None:
        """Choose where this entry is moved to; `along` is all that moves, it too."""
        super().__init__(desk, f"move “{moving.title}” to")
        self._moving, self._all = moving, along
        here = desk.wrote_here(moving)
        self._whose = "" if here else "; it was not logged in this window"

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the build with the figure typed, else those with it in their name."""
        builds = self.desk.glance.builds
        numbers = numbers_of([build.title for build in builds])
        every = [
            Line(build.id, number, f"{build.title}  {build.purpose}".strip())
            for number, build in zip(numbers[::-1], builds[::-1], strict=True)
        ]
        now = self._moving.build.id if self._moving.build else ""
        every.sort(key=lambda line: line.key == now)
        by_number = [line for line in every if line.label == typed.strip()]
        return by_number or [
            line for line in every if typed.casefold() in line.words.casefold()
        ]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a build is for, what it is made from, what there is of it."""
        snapshot = self.desk.snapshot
        build = snapshot[line.key]
        assert isinstance(build, Build)
        pieces = [one for one in snapshot.all(Piece) if is_in(one.build, build)]
        entries = entries_of(snapshot, build)
        moving = self._moving
        of = f", now of {moving.build.name}" if moving.build else ""
        piece = piece_apart(snapshot, moving, build)
        along = piece is not None and goes_along(snapshot, self._all, piece)
        its_piece = (moves_words if along else stays_words)(piece) if piece else ""
        said = [
            ("moves", f"“{moving.title}” of {day(moving.when)}{of}{self._whose}"),
            ("with it", with_words(moving, self._all)),
            ("its piece", its_piece),
            ("for", build.purpose),
            ("made from", build.release.name if build.release else ""),
            ("built by", built_by(build, self.desk.glance.builds)),
            ("begun", f"{build.when.astimezone():%d %b %Y}"),
            ("pieces", " · ".join(piece.title for piece in pieces) or "none yet"),
            ("last", entries[-1].title if entries else "nothing yet"),
        ]
        return [Say(label, words) for label, words in said if words]


def numbers_of(titles: Sequence[str]) -> list[str]:
    """Give the number each build is called by: the one in its name.

    Where one has none, or two have the same, they are counted, the oldest first.
    """
    own = [title.split()[-1].lstrip("0") for title in titles if title.split()]
    if len({*own}) == len(titles) and all(number.isdecimal() for number in own):
        return own
    return [str(n) for n in range(1, len(titles) + 1)]


def is_in(named: Ref | None, build: Build) -> bool:
    """Tell whether a record's build is this one."""
    return named is not None and named.id == build.id
