"""The batches that can be measured: pieces of a part that are there, or new ones."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import is_gone, pieces_of
from logbook.records.together.revisions import parts_now
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.run.slot_history import earlier
from logbook.screens.run.slots import Subject, slots_of
from logbook.store.typed.begun_batches import begin_batch, begun_batch

MOST = 300
"""New pieces begun as one batch."""
NEW = "new"
"""What the key of a row of new pieces begins with; how many, and the part follow."""


def here_of(desk: Desk, part: Part) -> list[Subject]:
    """Give the pieces of a part that are still there, in the build that is shown."""
    here = [
        Subject(part.title, piece.number, piece.title)
        for piece in pieces_of(desk.snapshot, part)
        if _is_here(desk, piece) and not is_gone(desk.snapshot, piece)
    ]
    return sorted([*here, *_begun(desk, part)], key=lambda one: one.number or 0)


def _begun(desk: Desk, part: Part) -> list[Subject]:
    """Give the pieces of a batch that was left in the middle: none is on record yet."""
    build = desk.here.id if desk.here else ""
    numbers = begun_batch(desk.project.root, part.id, build, desk.now())
    known = {piece.number for piece in pieces_of(desk.snapshot, part)}
    return [
        Subject(part.title, n, f"{part.title}-{n}") for n in numbers if n not in known
    ]


def begin(desk: Desk, part: Part, count: int) -> list[Subject]:
    """Begin a batch of so many new pieces; where it is left, `here_of` has them."""
    subjects, build = new_ones(desk, part, count), desk.here.id if desk.here else ""
    numbers = [one.number for one in subjects if one.number is not None]
    begin_batch(desk.project.root, part.id, build, numbers, desk.now())
    return subjects


def these(desk: Desk, part: Part, numbers: Sequence[int]) -> list[Subject]:
    """Give the pieces of a part by their numbers, on record by now or not."""
    known = {piece.number: piece.title for piece in pieces_of(desk.snapshot, part)}
    return [Subject(part.title, n, known.get(n, f"{part.title}-{n}")) for n in numbers]


def _is_here(desk: Desk, piece: Piece) -> bool:
    build = desk.here
    return build is None or piece.build is None or piece.build.id == build.id


def new_ones(desk: Desk, part: Part, count: int) -> list[Subject]:
    """Give so many pieces that are not on record; a first reading makes each."""
    known = pieces_of(desk.snapshot, part)
    last = max((piece.number for piece in known), default=0)
    numbers = range(last + 1, last + 1 + count)
    return [Subject(part.title, n, f"{part.title}-{n}") for n in numbers]


def batch_of(key: str) -> tuple[str, int]:
    """Give the part a row of the list is of, and how many new pieces it begins."""
    sort, _, rest = key.partition(" ")
    if sort != NEW:
        return key, 0
    count, _, part_id = rest.partition(" ")
    return part_id, int(count)


class Batches(Choosing):
    """The parts with pieces in the build shown; a number behind a name: new ones."""

    ASKS = "the name of a part; with a number, so many new pieces: strip 5"
    NOTHING = "no part with pieces"
    MARGIN_WORD = "which ›"
    WAY = "grid"

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the parts that fit, those with most pieces first; new pieces before.

        Before those stand as many as are on record already and were never measured.
        """
        found = [
            (len(here_of(self.desk, part)), part)
            for part in self._called(typed)
            if pieces_of(self.desk.snapshot, part)
        ]
        found.sort(key=lambda one: -one[0])
        old = (self._line(count, part) for count, part in found)
        return [*self._unmeasured(typed), *self._new(typed), *old]

    def _called(self, words: str) -> Iterator[Part]:
        low = words.strip().casefold()
        every = parts_now(self.desk.snapshot)
        return (part for part in every if low in part.title.casefold())

    def _unmeasured(self, typed: str) -> Iterator[Line]:
        """Give the row of the pieces that were told of as made, and of nothing more."""
        for part, count in self._counted(typed):
            here = {one.number for one in here_of(self.desk, part)}
            pieces = [
                one for one in pieces_of(self.desk.snapshot, part) if one.number in here
            ]
            read = any(self.desk.snapshot.mentions(one, Run) for one in pieces)
            if len(pieces) == count and not read:
                yield self._line(count, part)

    def _counted(self, typed: str) -> Iterator[tuple[Part, int]]:
        """Give the parts that are typed with a number behind, and the number."""
        name, _, number = typed.strip().rpartition(" ")
        if name.strip() and number.isdecimal() and 1 <= int(number) <= MOST:
            for part in self._called(name):
                yield part, int(number)

    def _new(self, typed: str) -> Iterator[Line]:
        """Give a row for each part that so many new pieces can be begun of."""
        for part, count in self._counted(typed):
            key = f"{NEW} {count} {part.id}"
            yield Line(key, str(count), part.title, "new piece" + "s" * (count != 1))

    def _line(self, count: int, part: Part) -> Line:
        build = self.desk.here
        none = f"none in {build.title} yet" if build else "none yet"
        kind = none if not count else "piece" if count == 1 else "pieces"
        return Line(part.id, str(count), part.title, kind)

    def about(self, line: Line) -> Sequence[Say]:
        """Say what each piece of the part read last, size by size."""
        snapshot = self.desk.snapshot
        part_id, new = batch_of(line.key)
        part = snapshot[part_id]
        assert isinstance(part, Part)
        if new:
            names = [one.title for one in new_ones(self.desk, part, new)]
            span = names[0] if new == 1 else f"{names[0]} to {names[-1]}"
            return [Say("new", f"{span}; each is on record with its first reading")]
        said = []
        for subject in here_of(self.desk, part):
            reads = []
            for slot in slots_of(snapshot, subject):
                before = earlier(snapshot, slot)
                at = " ".join(filter(None, (slot.what, slot.place)))
                reads.append(f"{at} {before.value if before else 'not measured'}")
            said.append(Say(f"piece {subject.number}", " · ".join(reads)))
        return said or [Say("new ones", _how_many(part))]

    def choose(self, chosen: Line) -> None:
        """Measure them; where there is none, say how new ones are begun."""
        part_id, new = batch_of(chosen.key)
        part = self.desk.snapshot[part_id]
        assert isinstance(part, Part)
        if new or here_of(self.desk, part):
            super().choose(chosen)
        else:
            self.tell(_how_many(part), label="none yet")


def _how_many(part: Part) -> str:
    return f"type how many new ones behind the name: {part.title} 5"
