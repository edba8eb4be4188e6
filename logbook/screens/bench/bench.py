"""The bench: where you were, what is open, the last value, and the line to type on."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.errors import NoProject
from logbook.screens.bench.beginning import begun_by
from logbook.screens.bench.chosen_row import ChosenRow
from logbook.screens.bench.in_full import InFull, Middle
from logbook.screens.bench.kept_words import kept_words
from logbook.screens.bench.standing import LOOKING, Standing
from logbook.screens.desk import news
from logbook.screens.desk.consequence import Aftermath
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.glance import Glance
from logbook.screens.desk.long_work import Stopped
from logbook.screens.desk.slips import BENCH
from logbook.screens.ruled import verbs
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.newest import BEGIN, READING, Newest, no_logbook
from logbook.screens.ruled.rows import Row
from logbook.screens.ruled.ruled_sheet import GOES_ON

TAKE = verbs.Verb(
    "take",
    "take it",
    "enter",
    "Take the line, or open the entry the arrow stands at; else go on with what was "
    "left off.",
)
UP = verbs.Verb("earlier", "list", "up", "Choose an earlier entry.", in_strip=False)
DOWN = verbs.Verb("later", "later", "down", "Choose a later entry.", in_strip=False)
CLEAR = verbs.Verb("clear", "clear", "escape", "Empty the line.", in_strip=False)


class Bench(ChosenRow):
    """The first screen; the line is always ready."""

    CSS_PATH = Path(__file__).parent / "bench.tcss"
    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TAKE, UP, DOWN, verbs.KEYS, verbs.FIND, verbs.MEASURE, verbs.BUILD, verbs.UNDO,
        verbs.GO_ON, verbs.ANSWER, verbs.GRID, verbs.CLOCK, verbs.PHOTO, verbs.MOVE,
        verbs.SUMS, verbs.PART, verbs.GAPS, verbs.CLIMATE, verbs.STEPS, verbs.REVISE,
        verbs.INBOX, verbs.REBUILD, verbs.SHEET, verbs.RELEASE, verbs.NEW_BUILD,
        verbs.UNDECIDED, verbs.BRING_BACK, verbs.IN_FULL, verbs.LIGHT, CLEAR,
        verbs.LEAVE, verbs.STOP,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])

    def __init__(self, desk: Desk, glimpsed: Sequence[Line] = ()) -> None:
        """Work on this desk; these rows are shown until the records are read."""
        super().__init__(desk)
        self._glimpsed = glimpsed
        self._kept_as = BENCH
        self._offered = False
        self._aftermath = Aftermath()

    def body(self) -> ComposeResult:
        """Lay the sheet out: what stands open above, what happened, the line."""
        yield Standing(id="standing-open")
        yield Middle(id="middle")
        yield Row("understood", id="understood")
        yield Row(
            "say ›", EntryLine("what happened, in plain words", id="line"), id="say"
        )

    def on_mount(self) -> None:
        """Start with the line ready."""
        super().on_mount()
        self.line.focus()
        self.show_glance(self.desk.glance)
        self.query_one(Newest).glimpse(self._glimpsed)
        self.watch(self, "virtual_size", self._cut_message, init=False)

    def tell(self, words: str, *, label: str = "") -> None:
        """Say one sentence beside the keys, in the rows there are."""
        said = self.query_one("#message .said")
        if said.styles.inline.has_rule("max_height"):
            said.styles.max_height = None
        self.remove_class("-tight")
        super().tell(words, label=label)

    def _cut_message(self) -> None:
        """Leave the message only rows that push no key and no line off the screen."""
        said, over = self.query_one("#message .said"), self.max_scroll_y
        if not over or not self.query_one("#message").display:
            return
        if said.size.height > 1:
            said.styles.max_height = max(said.size.height - over, 1)
        else:  # the value read last stands in the list as well
            self.add_class("-tight")

    # -- what the desk tells -----------------------------------------------------

    def told(self, message: Message) -> None:
        """Show what the desk has done."""
        match message:
            case news.Opened():
                self._offer()
                self._say_which_build(message.build)
                self.show_entries()
            case news.Looked():
                self.show_glance(message.glance)
                self.understand()
            case news.BroughtUp():
                self.show_offer(message)
            case news.Advised():
                self.show_glance(self.desk.glance)
                self.let_go_of_question()
                self._say_what_it_means(message)
            case news.Written():
                self._written(message)
            case news.NotWritten():
                self._give_back(message)
            case news.ReadAgain():
                self.tell("")
                self.show_glance(self.desk.glance)
            case news.NotOpened():
                stopped = isinstance(message.refusal, Stopped)
                said = self.not_open() if stopped else str(message.refusal)
                self.tell(said, label="not open")
                self.show_glance(self.desk.glance)
            case _:
                super().told(message)

    def _written(self, message: news.Written) -> None:
        """Say what is on disk; a build that was begun is the one gone on with."""
        self.forget_emptied()
        self.show_entries()
        records, open_before = message.saved.records, self.desk.glance.faults
        said = message.job.told or kept_words(records, open_before, self.desk.snapshot)
        said = " · ".join(filter(None, (said, message.also)))
        self.tell(said, label="on disk")
        self._aftermath.expect(said, records, self.desk.advice)
        if begun := begun_by(records):
            self.desk.go_on_with(begun)

    def _say_what_it_means(self, message: news.Advised) -> None:
        """Say what was just taken means, and which waits are over by it."""
        over = " · ".join(message.over.values())
        means = self._aftermath.of(message.snapshot, message.told, over)
        if means:
            self.tell(means, label="waits" if means == over else "on disk")

    def _give_back(self, message: news.NotWritten) -> None:
        """Put a refused line back where it was typed; behind the next one it waits.

        What was typed on another screen is given back there.
        """
        self.show_entries()
        if not self.has_sent(message.job):
            pass
        elif not self.line.value:
            self.line.put(message.job.typed)
        elif message.job.typed:
            self.waiting.append(message.job.typed)
        self.tell(message.reason, label="not taken")

    def _offer(self) -> None:
        """Put back what was being typed when an earlier screen went away."""
        if self._offered or self.line.value:
            return
        self._offered = True
        draft = self.desk.keeping.left_over()
        if draft is None:
            self.offer_elsewhere(BENCH)
        else:
            self.put_kept(draft.text, unasked=True)
            self.put_there_unasked()
            when = f"{draft.when.astimezone():%d %b %H:%M}"
            said = f"this was being typed on {when}; {GOES_ON}, Esc clears it"
            self.tell(said, label="kept")

    def _say_which_build(self, why: str) -> None:
        """Say why this window stands in another build than one may think."""
        if why:
            key, new = map(self.mapped_keys(), (verbs.BUILD, verbs.NEW_BUILD))
            said = f"{why}; {key} changes the build, {new} begins a new one"
            self.tell_beside(said, label="build")

    def offer_let_go(self, purpose: str) -> None:
        """Offer a line another window has let go, where nothing was typed meanwhile."""
        del purpose
        self._offered = False
        self._offer()

    def show_glance(self, seen: Glance) -> None:
        """Show where the work stands."""
        self.show_band()
        reading = "nothing yet" if self.desk.is_open else READING
        standing = self.query_one(Standing)
        standing.looking = LOOKING
        if self.desk.refusal is not None:
            reading, standing.looking = self.not_open(), ""
        advised = self.desk.knows_waits
        key = self.mapped_keys()(verbs.UNDECIDED)
        standing.show(seen, reading, advised=advised, lists=key)
        none = "nothing" if seen.read and advised else standing.looking
        self.query_one(InFull).tell(seen, none, key)
        self.show_entries()

    def show_band(self) -> None:
        """Show besides whose build this is, and what is not gone on with yet."""
        super().show_band()
        standing, desk, key_of = self.query_one(Standing), self.desk, self.mapped_keys()
        here = desk.shown
        others = here.id in desk.standing_in.others_builds
        keys = key_of(verbs.NEW_BUILD), key_of(verbs.REBUILD)
        standing.show_whose(here.name if others else "", *keys)
        left_off, words = desk.standing_in.left_off, ""
        if (left := left_off.offered) is not None and desk.glance.read:
            other = desk.called_if_other(left.build)
            words = f" goes on{f' in {other}' if other else ''}: {left.what}"
            words += f" ({left.at.astimezone():%d %b %H:%M})"
        standing.show_left_off("Enter", words, left_off.count - 1)

    def show_entries(self) -> None:
        """Show the newest entries of the build, before them those of earlier ones."""
        newest = self.query_one(Newest)
        newest.nothing = BEGIN if self.desk.glance.read else (Line("", "", READING),)
        if self.desk.refusal is not None:
            no_project = isinstance(self.desk.refusal, NoProject)
            newest.nothing = no_logbook(self.desk.refusal) if no_project else ()
        build = self.desk.build or self.desk.glance.build
        listed, before = self.desk.listed, self.desk.listed_before
        newest.show(listed, self.desk.pending, build, before, self.desk.called)

    # -- the line ----------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        if not self.line.as_put:
            self.tell_of_waiting()
        self.understand()
        if self.line.value:
            self.let_go_of_row()
        self.keep_soon(self.line.value, BENCH)

    # -- the lists ---------------------------------------------------------------

    def action_undecided(self) -> None:
        """Show what nobody has decided on; a question comes first."""
        if self._is_asked():
            return
        if not self.desk.knows_waits:
            self.tell(self.not_read(), label="undecided")
        elif not self.desk.glance.open_ones:
            self.tell("nothing is undecided", label="undecided")
        else:
            self.go("undecided")

    def action_clear(self) -> None:
        """Empty the line, or let go of the chosen entry."""
        if self.one_too_many():
            return
        if not self.line.value and not self.chooses and self.end_day():
            self.understand()
            return
        self.let_go_of_row()
        self.empty(BENCH)
