"""What nobody has decided on yet, each with what is known of it; Enter opens it.

What is typed narrows the list; a sentence that decides is taken as on the bench. The
words for what is done decide on the row the arrow stands at, alone or with its thing
behind them, and the list stays for the next one. Where they name the thing of other
rows, these are listed, and the next Enter decides. Only what has to be asked first goes
to the bench.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from textual.message import Message

from logbook.errors import LogbookError
from logbook.plain.answers.known_faults import answering, open_faults
from logbook.plain.answers.known_faults import told as title_of
from logbook.plain.understanding import Understanding, Verdict
from logbook.project import Project
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.disposing import dispose
from logbook.records.making.drafts import Draft
from logbook.screens.bench.saying import Saying, shown, understood
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.record.record_words import said_of_record
from logbook.screens.ruled.choosing import CHOOSE, Choosing
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.listing import Line, Listing
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say
from logbook.screens.ruled.said_of_row import is_thing_of, verb_and_thing
from logbook.screens.ruled.verbs import BACK, IN_LISTS, bindings

WORDS = {
    "scrap": "scrap {piece}",
    "rework": "rework {piece}",
    "repair": "repair {piece}",
    "return": "return {piece}",
    "use": "use {piece} as is",
    "as is": "use {piece} as is",
    "use as is": "use {piece} as is",
}
"""What may be said of the row the arrow stands at, and the sentence it makes."""

DONE = {
    word: Disposition.USE_AS_IS if "use" in says else Disposition(word)
    for word, says in WORDS.items()
}
"""What it comes to where the row is of no piece that a sentence could name."""


class Undecided(Choosing):
    """The deviations, failures and pieces of which nobody said what is done with them.

    They are those the bench counts, in its order.
    """

    VERBS = (replace(CHOOSE, label="open"), *MOVES, BACK, *IN_LISTS)
    BINDINGS = bindings(VERBS[1:])
    EMPTY = "nothing is undecided"
    NOTHING = "no row has these words"
    ASKS = "words of a row, or what is done with it: scrap, rework, use as is"
    MARGIN_WORD = "say ›"
    WAY = "undecided"

    _meant = ""
    """The row the arrow stood at when the line was begun, or was moved to since."""

    def __init__(self, desk: Desk, heading: str = "") -> None:
        """List it under this heading; nothing was decided on here yet."""
        super().__init__(desk, heading)
        self._decided: set[str] = set()

    def told(self, message: Message) -> None:
        """List anew what was decided meanwhile."""
        super().told(message)
        if isinstance(message, news.NotWritten):
            self._decided.clear()
        if isinstance(message, news.Looked | news.Advised | news.NotWritten):
            self.narrow(self.query_one(EntryLine).value)

    def lines(self, typed: str) -> Sequence[Line]:
        """Give what is undecided and has what was typed in it."""
        words = "" if self._decides(typed) else typed.casefold()
        rows = [
            (ref, record)
            for ref in self.desk.glance.open_ones
            if ref.id not in self._decided
            and (record := self.desk.snapshot.by_id(ref.id))
        ]
        found = [row for row in rows if words in row[0].name.casefold()]
        return [
            Line(
                ref.id,
                day(record.when),
                f"{_build(record)}{ref.name}",
                kind_of(record).shown,
            )
            for ref, record in found or self._whose_thing(rows, typed)
        ]

    def _whose_thing(
        self, rows: Sequence[tuple[Ref, Record]], typed: str
    ) -> list[tuple[Ref, Record]]:
        """Give the rows of the thing that stands behind a word for what is done.

        A piece named in full needs no row: the sentence is said on the bench.
        """
        verb, thing = verb_and_thing(typed)
        snapshot = self.desk.snapshot
        if not verb or snapshot.named(thing, Piece):
            return []
        return [row for row in rows if is_thing_of(snapshot, row[1], thing)]

    def narrow(self, typed: str) -> None:
        """Show the rows with these words; without one, what the sentence comes to.

        What is said of a row leaves the list as it is, the arrow at that row.
        """
        super().narrow(typed)
        listing = self.query_one(Listing)
        if not typed:
            self._meant = listing.chosen.key if listing.chosen else ""
        elif self._decides(typed):
            listing.show(self.lines(typed), self._meant)
            self.follow()
        if listing.chosen is None and (said := self._sentence(typed)):
            listing.show_nothing(f"Enter says it on the bench: {shown(said).plain}")

    def _sentence(self, typed: str) -> Understanding | None:
        """Give what is typed where it says what happened, not only words of a row."""
        desk = self.desk
        if len(typed.split()) < 2 or not desk.is_open:
            return None
        said = understood(typed.strip(), desk.words, desk.now(), desk.snapshot)
        return None if said.verdict is Verdict.KEPT else said

    def nothing(self) -> str:
        """Say that neither a row nor a sentence was found, and what would be one."""
        first = next(iter(self.desk.glance.open_ones), None)
        record = self.desk.snapshot.by_id(first.id) if first else None
        piece = (self._piece(record) if record else "") or "its piece"
        return f"{self.NOTHING}; a sentence that decides: {_words_for(piece)}"

    def about(self, line: Line) -> Sequence[Say]:
        """Say what is known of it, and by which words it is decided on."""
        record = self.desk.snapshot.by_id(line.key)
        if record is None:
            return ()
        said = [Say("in full", line.words)]
        if isinstance(record, Deviation | Failure):
            said = [*said_of_record(record)]
        piece = self._piece(record)
        typed = self.query_one(EntryLine).value
        if decided := self._decides(typed):
            said.insert(0, Say("Enter", f"decides on it: {decided}"))
        elif self._names_it(typed, line.key):
            said.insert(0, Say("Enter", "then once more Enter: decides on it"))
        elif piece:
            said.append(Say("to decide", f"type it here: {_words_for(piece)}"))
        elif isinstance(record, Deviation | Failure):
            said.append(Say("to decide", "type it here: scrap; use as is; rework"))
        return said

    def _piece(self, record: Record) -> str:
        if isinstance(record, Piece):
            return record.title
        named = record.piece if isinstance(record, Deviation | Failure) else None
        return named.name if named else ""

    def action_move(self, by: int) -> None:
        """Move the arrow; what is said from now on is of that row."""
        super().action_move(by)
        chosen = self.query_one(Listing).chosen
        self._meant = chosen.key if chosen else ""

    def _decides(self, typed: str) -> str:
        """Give the sentence by which what is typed decides on the row meant.

        It is a word for what is done, or the sentence itself, as the row proposes it.
        """
        record = self.desk.snapshot.by_id(self._meant) if typed else None
        piece = self._piece(record) if record else ""
        said = " ".join(typed.casefold().split())
        if record and self._names_it(typed, record.id):
            said, _ = verb_and_thing(typed)
        made = [(word, words.format(piece=piece)) for word, words in WORDS.items()]
        if not piece and isinstance(record, Deviation | Failure):
            made = [(word, f"{do.value}: {record.title}") for word, do in DONE.items()]
        elif not piece:
            return ""
        return next((one for word, one in made if said in (word, one.casefold())), "")

    def _names_it(self, typed: str, key: str) -> bool:
        """Tell whether what is typed says what is done with the thing of a row."""
        verb, thing = verb_and_thing(typed)
        record = self.desk.snapshot.by_id(key) if verb else None
        return record is not None and is_thing_of(self.desk.snapshot, record, thing)

    def choose(self, chosen: Line) -> None:
        """Open it; coming back leads here again. What decides on it is written."""
        typed = self.query_one(EntryLine).value
        said = self._decides(typed)
        if not said and self._names_it(typed, chosen.key):
            self._meant = chosen.key
            self.narrow(typed)
            self.tell(f"this row? Enter: {self._decides(typed)}", label="which")
        elif not said:
            self.show_record(chosen.key)
        elif job := self._job(said):
            self._decided.add(self._meant)
            self.query_one(EntryLine).put("")
            self.desk.write(job)
            self.tell(said, label="decided")
            self.narrow("")
        else:
            self.dismiss(said)

    def _job(self, said: str) -> Job | None:
        """Give the work that decides on the row meant; None: it is asked of first."""
        desk, record = self.desk, self.desk.snapshot.by_id(self._meant)
        if isinstance(record, Deviation | Failure) and not self._piece(record):
            do = Disposition(said.partition(": ")[0])
            return _of_no_piece(desk, record, do) if desk.is_open else None
        saying = self._settled(said)
        return saying.job(desk.snapshot) if saying else None

    def _settled(self, said: str) -> Saying | None:
        """Give the sentence as said of the row meant; None: it is asked of first."""
        desk, record = self.desk, self.desk.snapshot.by_id(self._meant)
        if not desk.is_open:
            return None
        line = understood(said, desk.words, desk.now(), desk.snapshot)
        faults = open_faults(desk.snapshot, line.facts)
        if isinstance(record, Deviation | Failure) and record in faults:
            line = answering(line, title_of(record))
        saying = Saying(line, desk.words, desk.build, desk.when())
        try:
            past = saying.waits(desk.snapshot, desk.advice.open)
            asks = saying.doubtful or past or saying.wants_blame(desk.snapshot)
        except LogbookError:
            return None  # the bench says why not
        return None if asks else saying

    def none_fits(self, typed: str) -> None:
        """Go back and say the sentence there, if it is one."""
        if self._sentence(typed):
            self.dismiss(typed.strip())
        else:
            super().none_fits(typed)


def _of_no_piece(desk: Desk, entry: Deviation | Failure, do: Disposition) -> Job:
    """Make the work that decides on an entry that names no piece."""
    now, build = desk.when(), desk.build

    def make(project: Project) -> Draft:
        own = project.snapshot.find(entry.build, Build)
        draft = Draft(project.snapshot, now, own or build)
        dispose(draft, entry, do)
        return draft

    return Job(f"{do.value}: {entry.title}", make)


def _build(record: Record) -> str:
    """Name the build a record is of, before its words."""
    build = getattr(record, "build", None)
    return f"{build.name} · " if isinstance(build, Ref) else ""


def _words_for(piece: str) -> str:
    return f"scrap {piece}; use {piece} as is; rework {piece}"
