"""Choosing a piece by at most three letters: each has a code of its own.

The code of a part means the piece of it that was used last here; with its number it
means that one, whatever else is made. Neither ever changes.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Piece
from logbook.records.states.pieces import piece_state, pieces_of
from logbook.records.together.revisions import current_revision, parts_now, shown_label
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.last_value import drawn_words
from logbook.screens.desk.of_build import pieces_here
from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say
from logbook.screens.ruled.rows import LABEL_ROOM
from logbook.screens.run.codes import codes, piece_codes
from logbook.screens.run.slot_history import earlier, had_words
from logbook.screens.run.slots import Subject, piece_of, slots_of


class Pieces(Choosing):
    """The pieces of this build, those used last first, then parts without one."""

    ASKS = "its code, name, or name and size; a new name starts a part"
    NOTHING = "nothing to measure yet: type the name of a part"
    MARGIN_WORD = "which ›"
    WAY = "measure"

    def prepare(self) -> None:
        """Work out the codes once, over the whole design: they stay what they are."""
        snapshot = self.desk.snapshot
        parts = codes(part.title for part in snapshot.all(Part))
        made = [(one, snapshot.find(one.part, Part)) for one in snapshot.all(Piece)]
        self._of_part = {
            piece.id: parts.get(part.title, "") for piece, part in made if part
        } | {part.id: parts.get(part.title, "") for part in snapshot.all(Part)}
        self._own = piece_codes(
            (one.id, self._of_part.get(one.id, ""), one.number) for one, _ in made
        )
        self._every = tuple(self._found())
        self._alike = Counter(self._of_part.get(_id(one), "") for one in self._every)

    def code_of(self, line: Line) -> str:
        """Give the code of a row: of its part while that is one row, else its own."""
        of_part = self._of_part.get(_id(line), "")
        own = self._own.get(_id(line), "")
        return of_part if of_part and self._alike[of_part] == 1 else own or of_part

    def _found(self) -> Iterator[Line]:
        snapshot, build = self.desk.snapshot, self.desk.build or self.desk.glance.build
        for piece in pieces_here(snapshot, build):
            yield Line(
                f"piece {piece.id}", "", piece.title, str(piece_state(snapshot, piece))
            )
        for part in parts_now(snapshot):
            ids = {piece.id for piece in pieces_of(snapshot, part)}
            here = any(piece.id in ids for piece in pieces_here(snapshot, build))
            if not here and not part.assembly:
                yield Line(f"part {part.id}", "", part.title, "no piece yet")

    def about(self, line: Line) -> Sequence[Say]:
        """Say which sizes of a piece are drawn, and what they read before."""
        subject = subject_of(line.key, self.desk.snapshot)
        if line.key.startswith("new ") and line.kind == "new part":
            return [Say("new", "Enter begins it; its first readings make its sizes")]
        said = []
        if piece_of(self.desk.snapshot, subject) is None:
            said.append(Say("new piece", _begins(self.desk.snapshot, subject)))
        for slot in slots_of(self.desk.snapshot, subject):
            before = earlier(self.desk.snapshot, slot)
            drawn = drawn_words(self.desk.snapshot, slot.drawn) if slot.drawn else ""
            reads = f"{before.value} before" if before else "not measured"
            reads += had_words(self.desk.snapshot, slot) if not before else ""
            place = f"{slot.place}: " if slot.place else ""
            named = f"{slot.what}: " if len(slot.what) > LABEL_ROOM else ""
            how = f", drawn {drawn}" if drawn[:1].isdecimal() else f", {drawn}"
            label = "" if named else slot.what
            said.append(Say(label, f"{named}{place}{reads}{how if drawn else ''}"))
        said = said or [Say("sizes", "none yet: the first run makes them, w 40.2")]
        return [*said, *self._one_more(line)]

    def _one_more(self, line: Line) -> Iterator[Say]:
        """Say by which name the next piece of the same part is begun."""
        snapshot = self.desk.snapshot
        piece = piece_of(snapshot, subject_of(line.key, snapshot))
        part = snapshot.find(piece.part, Part) if piece else None
        if part is not None:
            number = max(one.number for one in pieces_of(snapshot, part)) + 1
            yield Say("one more", f"type {part.title}-{number}: the next piece of it")

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the pieces that fit: the code first, then names, then a new part."""
        asked = " ".join(typed.casefold().split())
        found = []
        for line in self._every:
            of_part, own = (
                codes.get(_id(line), "") for codes in (self._of_part, self._own)
            )
            rank = _rank(asked, (of_part, own), line.words.casefold())
            if rank is not None:
                code = self.code_of(line)
                found.append((rank, Line(line.key, code, line.words, line.kind)))
        found.sort(key=lambda one: one[0])
        lines = [line for _, line in found] or [*self._by_size(asked)]
        if asked and not any(line.words.casefold() == asked for line in lines):
            name = " ".join(typed.split())
            lines.append(_typed_line(self.desk.snapshot, name))
        return lines

    def _by_size(self, asked: str) -> Iterator[Line]:
        """Give the pieces whose size is named behind their own name: base opening."""
        for line in self._every:
            size = asked.removeprefix(self._begun_with(line, asked)).strip()
            if not size or size == asked:
                continue
            slots = slots_of(
                self.desk.snapshot, subject_of(line.key, self.desk.snapshot)
            )
            names = dict.fromkeys(slot.what for slot in slots)
            for what in names:
                if what.casefold().startswith(size):
                    words = f"{line.words} · {what}"
                    key = f"{line.key} {what}"
                    yield Line(key, self.code_of(line), words, line.kind)

    def _begun_with(self, line: Line, asked: str) -> str:
        """Give with which of its names a row is asked for: its piece, its part, a code.

        Nothing where it is not.
        """
        subject = subject_of(line.key, self.desk.snapshot)
        names = (subject.title, subject.part, self.code_of(line))
        asks = (f"{name} ".casefold() for name in names if name)
        return next((name for name in asks if asked.startswith(name)), "")


def _typed_line(snapshot: Snapshot, name: str) -> Line:
    """Give the row of what is in no row yet: a piece of another build, or a new one."""
    known = _piece_of_a_part(name, snapshot)
    if known is None:
        return Line(f"new {name}", "new", name, "new part")
    piece = piece_of(snapshot, known)
    if piece is not None:
        of = piece.build.name if piece.build else "no build"
        return Line(f"piece {piece.id}", "", piece.title, f"of {of}")
    return Line(f"new {known.title}", "new", known.title, "new piece")


def _begins(snapshot: Snapshot, subject: Subject) -> str:
    """Say which piece Enter begins, and of which revision."""
    [part] = snapshot.named(subject.part, Part)[:1]
    now = current_revision(snapshot, part)
    of = f" of {shown_label(now)}" if now else ""
    return f"no piece yet: Enter begins {subject.title}{of}"


def _id(line: Line) -> str:
    """Give the id of the piece or part of a row."""
    return line.key.split(" ")[1] if " " in line.key else ""


def _rank(asked: str, known: Sequence[str], name: str) -> int | None:
    if not asked or asked in known:
        return 0
    if name.startswith(asked):
        return 1
    if any(code.startswith(asked) for code in known):
        return 2
    return 3 if asked in name else None


def subject_of(line_key: str, snapshot: Snapshot) -> Subject:
    """Give what a chosen row means."""
    sort, _, name = line_key.partition(" ")
    if sort == "new":
        return _piece_of_a_part(name, snapshot) or Subject(name, None, f"{name}-1")
    record = snapshot[name.partition(" ")[0]]
    if isinstance(record, Piece):
        part = snapshot.find(record.part)
        owner = part.title if part else record.part.name
        return Subject(owner, record.number, record.title)
    assert isinstance(record, Part)
    return _next_piece(snapshot, record)


def size_of(line_key: str) -> str:
    """Give the size a chosen row names behind its piece, else nothing."""
    sort, _, name = line_key.partition(" ")
    return "" if sort == "new" else name.partition(" ")[2]


def _next_piece(snapshot: Snapshot, part: Part) -> Subject:
    """Give the piece that is begun next, of the number it is saved under."""
    last = max((piece.number for piece in pieces_of(snapshot, part)), default=0)
    return Subject(part.title, last + 1, f"{part.title}-{last + 1}")


def _piece_of_a_part(name: str, snapshot: Snapshot) -> Subject | None:
    """Give the piece that a part's name means: base-2, or base for the next one."""
    for part in snapshot.named(name, Part)[:1]:
        return _next_piece(snapshot, part)
    owner, _, number = name.rpartition("-")
    parts = snapshot.named(owner, Part) if number.isdecimal() else ()
    for part in parts[:1]:
        return Subject(part.title, int(number), f"{part.title}-{int(number)}")
    return None
