"""One part: revisions with their verdicts, sizes by piece, what went wrong, files, use.

Every row leads to the record it speaks of.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message

from logbook.counting import so_many
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.kinds.words import Source
from logbook.records.states.pieces import pieces_of
from logbook.records.states.tried import verdict_of
from logbook.records.together.revisions import (
    current_revision,
    is_withdrawn,
    shown_label,
)
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.part.part_asked import Asked
from logbook.screens.part.part_lines import is_section, lines_of
from logbook.screens.record.record import RecordSheet
from logbook.screens.record.record_words import said_of_record
from logbook.screens.ruled import verbs
from logbook.screens.ruled.choosing import MOVES, Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.passage import Say
from logbook.screens.run.codes import codes
from logbook.store.designs.design_files import recorded_files

OPEN = verbs.Verb("open", "open", "enter", "Open the record the arrow stands at.")
SECTIONS = (
    verbs.Verb("section(1)", "next section", "tab", "Go to the next section."),
    verbs.Verb(
        "section(-1)", "section before", "shift+tab", "Go a section back.",
        in_strip=False,
    ),
)  # fmt: skip


class Parts(Choosing):
    """The parts, each with a code of its own; chosen by code or name.

    One that was withdrawn is found by its name only.
    """

    ASKS = "its code or its name"
    NOTHING = "no part is called so"
    EMPTY = "no part yet; the line “base opening 178.6” makes one, or `logbook part`"
    MARGIN_WORD = "which ›"
    but = ""
    """The id of a part that is not asked about."""

    def on_mount(self) -> None:
        """Work out the codes once."""
        self._look()
        super().on_mount()

    def _look(self) -> None:
        self._parts = self.desk.snapshot.all(Part)
        self._codes = codes(part.title for part in self._parts)

    def told(self, message: Message) -> None:
        """Show the parts once the records are read."""
        if isinstance(message, news.Looked):
            self._look()
            self.narrow(self.query_one(EntryLine).value)
        else:
            super().told(message)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the parts that fit, an exact code first."""
        asked = " ".join(typed.casefold().split())
        found = []
        for part in self._parts:
            if part.id == self.but:
                continue
            if not asked and is_withdrawn(self.desk.snapshot, part):
                continue
            code = self._codes.get(part.title, "")
            if asked == code or asked in part.title.casefold():
                found.append(
                    (asked != code, Line(part.id, code, self._words(part), part.title))
                )
        return [line for _, line in sorted(found, key=lambda one: one[0])]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what is known of a part, as its own screen does."""
        part = self.desk.snapshot[line.key]
        assert isinstance(part, Part)
        width = self.query_one(Halves).word_columns
        known = lines_of(_asked(self.desk, part, width))
        return [Say(one.label, one.words) for one in known if one.label != "files"]

    def nothing(self) -> str:
        """Say how a part is made, while there is none."""
        if self._parts:
            return super().nothing()
        return self.EMPTY

    def _words(self, part: Part) -> str:
        snapshot = self.desk.snapshot
        now, said = current_revision(snapshot, part), _stands(snapshot, part)
        count = len(pieces_of(snapshot, part))
        pieces = f" · {so_many(count, 'piece')}" if count else ""
        made_of = (now.material if now else "") or part.material
        return f"{said}{pieces}{f' · {made_of}' if made_of else ''}"


class PartSheet(Choosing):
    """A part with all that is known of it; what is typed narrows the rows."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        OPEN, *MOVES, *SECTIONS, verbs.REVISE, verbs.NO_PART, verbs.BACK, verbs.UNDO,
        *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    BROAD = 160
    ONLY_BESIDE = True
    NOTHING = "nothing of this part has that"
    ASKS = "type to narrow the rows"

    @dataclass
    class FilesRead(Message):
        """The design files as they are on disk now."""

        files: Mapping[str, DesignFile]

    def __init__(self, desk: Desk, part_id: str) -> None:
        """Show the part with this id."""
        super().__init__(desk)
        self._part_id = part_id
        self._files: Mapping[str, DesignFile] | None = None
        self._lines: tuple[Line, ...] = ()

    @property
    def part(self) -> Part | None:
        """The part as it is now; none once it was taken back."""
        return self.desk.snapshot.by_id(self._part_id, Part)

    @property
    def heading(self) -> str:
        """The part and how its drawing stands."""
        part = self.part
        if part is None:
            return "part gone"
        return f"{part.title}: {_stands(self.desk.snapshot, part)}"

    def on_mount(self) -> None:
        """Show what is known, then how the files stand."""
        super().on_mount()
        self._read_files()

    def told(self, message: Message) -> None:
        """Follow the records."""
        if isinstance(message, news.Looked | news.Advised):
            self.show_band()
            self.narrow(self.query_one(EntryLine).value)
            self._read_files()
        else:
            super().told(message)
        if isinstance(message, news.Written) and (told := message.job.told):
            said = " · ".join(filter(None, (told, message.also)))
            self.tell(said, label="on disk")

    @work(thread=True, exclusive=True, group="files")
    def _read_files(self) -> None:
        if self.desk.is_open:
            files = recorded_files(self.desk.project.root)
            self.post_message(self.FilesRead(files))

    @on(FilesRead)
    def _files_read(self, message: FilesRead) -> None:
        self._files = message.files
        self.narrow(self.query_one(EntryLine).value)

    def on_resize(self) -> None:
        """Draw the strips for the new width."""
        if self.is_mounted:
            self.narrow(self.query_one(EntryLine).value)

    # -- the rows ----------------------------------------------------------------

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the rows that have every word typed; all where nothing is."""
        part, words = self.part, typed.casefold().split()
        if part is None:
            return ()
        width = self.query_one(Halves).list_columns
        asked = _asked(self.desk, part, width, self._files)
        return [
            line
            for line in lines_of(asked)
            if all(word in f"{line.label} {line.words}".casefold() for word in words)
        ]

    def narrow(self, typed: str) -> None:
        """Show the rows that fit, the arrow where it was."""
        listing = self.query_one(Listing)
        kept = listing.chosen.key if listing.chosen else ""
        self._lines = tuple(self.lines(typed))
        listing.show(self._lines, kept)
        self.follow()

    def about(self, line: Line) -> Sequence[Say]:
        """Say what the record says that a row speaks of."""
        record = self.desk.snapshot.by_id(line.key.split()[1])
        return [*said_of_record(record)] if record else ()

    def choose(self, chosen: Line) -> None:
        """Open the record the row speaks of; coming back leads here again."""
        record_id = chosen.key.split()[1]
        if record_id == self._part_id:
            self.app.push_screen(RecordSheet(self.desk, record_id))
        else:
            self.show_record(record_id)

    def action_revise(self) -> None:
        """Revise this part."""
        self.go("revise_the_part", self._part_id)

    def action_no_part(self) -> None:
        """Say that it is no part, another one, or withdrawn."""
        self.go("no_part", self._part_id)

    def action_section(self, by: int) -> None:
        """Go to the beginning of another section."""
        listing = self.query_one(Listing)
        if listing.chosen is None:
            return
        starts = [at for at, line in enumerate(self._lines) if is_section(line)]
        at = self._lines.index(listing.chosen)
        rest = [s for s in starts if (s > at if by > 0 else s < at)]
        if rest:
            listing.move((rest[0] if by > 0 else rest[-1]) - at)


def _asked(
    desk: Desk,
    part: Part,
    width: int,
    files: Mapping[str, DesignFile] | None = None,
) -> Asked:
    """Ask about a part in the build in hand, by the advice as it is now."""
    advice = desk.advice.advice if desk.knows_waits else ()
    return Asked(desk.snapshot, part, width, files, advice, desk.build)


def _stands(snapshot: Snapshot, part: Part) -> str:
    """Say at which revision a part is; of one that is made, whether it was tried."""
    if is_withdrawn(snapshot, part):
        return "withdrawn"
    now, bought = current_revision(snapshot, part), part.source is Source.BOUGHT
    if now is None:
        return "bought" if bought else "not drawn"
    return f"{shown_label(now)}, {'bought' if bought else verdict_of(snapshot, now)}"
