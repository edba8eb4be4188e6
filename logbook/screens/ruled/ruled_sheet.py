"""What all screens have in common: the title band, the rows, the key strip."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.content import Content
from textual.css.query import NoMatches
from textual.message import Message
from textual.screen import Screen

from logbook.publish.sheet.boxes import SHEET
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.slips import Slip
from logbook.screens.ruled.band import BESIDE, Band
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.look import prose, sentence
from logbook.screens.ruled.rows import KeyStrip, Row
from logbook.screens.ruled.verbs import (
    BACK,
    BRING_BACK,
    BUILD,
    IN_FULL,
    LIGHT,
    Verb,
    bindings,
    shown_key,
)

GOES_ON = "Enter takes it, End goes on with it, typing begins anew"
"""What may be done with a line that came back by itself."""

CALM = frozenset((
    "on disk", "logged", "sorted", "taken", "taken back", "here again", "photo",
    "kept", "what if", "order", "with", "clock", "job sheet", "waits", "undecided",
    "out", "stands",
))  # fmt: skip
"""Words before a message of what was done, or is so; all others ask for care."""

BY_COLUMNS = [(0, "-narrow"), (80, "-wide"), (160, "-broad")]
BY_ROWS = [(0, "-low"), (24, "-middle"), (36, "-tall")]
"""From how much room on a screen is of which class."""


class RuledSheet(Screen[Any]):
    """A screen in the manner of the house, working on one desk."""

    VERBS: ClassVar[tuple[Verb, ...]] = (BACK, LIGHT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(VERBS)
    LETTERS: ClassVar[Mapping[str, str]] = {}
    """What single letters do here, where no line takes them."""
    HORIZONTAL_BREAKPOINTS = BY_COLUMNS
    VERTICAL_BREAKPOINTS = BY_ROWS

    def __init__(self, desk: Desk) -> None:
        """Work on this desk."""
        # Fitted from the first paint on: else all of it is styled and laid out twice.
        fitted = _class_of(BY_COLUMNS, desk.size.width)
        fitted += f" {_class_of(BY_ROWS, desk.size.height)}"
        super().__init__(classes=fitted)
        self.desk = desk
        self.key_in_full = ""

    def compose(self) -> ComposeResult:
        """Lay out the band, the body of the screen, the message and the keys."""
        yield Band()
        yield from self.body()
        yield Row("", id="message")
        yield KeyStrip("", classes="keys", markup=False)

    def body(self) -> ComposeResult:
        """Give what stands between the band and the keys."""
        yield from ()

    @property
    def heading(self) -> str:
        """What this screen is about, shown in the band after the build."""
        return ""

    @property
    def heading_short(self) -> str:
        """The same where there is no room for all of it and the project's name."""
        return self.heading

    @property
    def is_laid_out(self) -> bool:
        """Tell whether band and rows are there: not yet, or no more when leaving."""
        if not self.is_mounted:
            return False
        try:
            self.query_one("#band")
        except NoMatches:
            return False
        return True

    def on_mount(self) -> None:
        """Show band and keys at once."""
        self.show_band()
        self.show_keys()

    def show_band(self) -> None:
        """Show whose sheet this is: project, build, what is looked at; and git.

        Where there is no room for all, the step of the clock goes first, then with
        what one measures; the build and what is looked at are there always.
        """
        seen = self.desk.glance
        none = "no build yet" if seen.read or self.desk.refusal else "…"
        build = seen.build.title if seen.build else none
        if (day := self.desk.day) is not None:
            build += f" · of {day.at:%d %b}"
        project = seen.title or "logbook"
        long, short = self.desk.standing
        row = self._titled(build, self.heading_short, "other"), short
        for whose, standing in (
            (self._titled(build, self.heading, "another window", project), long),
            (self._titled(build, self.heading, "another window", project), short),
            (self._titled(build, self.heading, "other", project), short),
            (self._titled(build, self.heading_short, "other", project), short),
            (self._titled(build, self.heading, "another window"), short),
        ):
            if whose.cell_length + standing.cell_length <= self.size.width - BESIDE:
                row = whose, standing
                break
        self.query_one("#band", Band).show(*row)

    def _titled(
        self, build: str, heading: str, others: str, project: str = ""
    ) -> Content:
        """Give project, build, those in which `others` are, and what is looked at."""
        other = " and ".join(self.desk.standing_in.others)
        return sentence(
            "$project[reverse bold] $build [/][bold]$other[/]$heading",
            project=f"{project}  " if project else "",
            build=build,
            other=f" {others}: {other}" if other else "",
            heading=f" · {heading}" if heading else "",
        )

    def on_resize(self) -> None:
        """Say as much in the band as there is room for now."""
        if self.is_laid_out:
            self.show_band()

    def show_keys(self) -> None:
        """Show the keys that work here, as they are mapped."""
        key_of = self.mapped_keys()
        self.key_in_full = key_of(IN_FULL) if IN_FULL in self.VERBS else ""
        first: list[tuple[str, str]] = []
        more: list[tuple[str, str]] = []
        for verb in self.VERBS:
            if verb.told:
                continue
            (first if verb.in_strip else more).append((key_of(verb), verb.label))
        self.query_one(KeyStrip).tell(first, more)

    def told(self, message: Message) -> None:
        """Hear what the desk has done; screens that show more of it say so."""
        match message:
            case news.NotWritten():
                self.tell(message.reason, label="not taken")
            case news.Undone():
                self._say_undone(message)
            case news.Kept():
                self.tell(message.refusal, label="careful")
            case news.BegunElsewhere():
                key = self.mapped_keys()(BUILD)
                said = f"{message.build} was begun elsewhere; {key} goes on with it"
                self.tell(said, label="build")
            case news.Elsewhere() if message.builds:
                other = " and ".join(message.builds)
                here = self.desk.shown.name
                said = (
                    f"another window stands in {other}; what is typed here is of {here}"
                )
                self.tell_beside(said, label="build")
            case _:
                return

    def _say_undone(self, message: news.Undone) -> None:
        """Say what was taken back, with the key that brings it back; or what was."""
        said = message.refusal or message.subject
        if message.brought:
            self.tell(said, label="undo" if message.refusal else "here again")
            return
        if said.startswith(SHEET):
            said += "; its boxes are filled in again"
        if not message.refusal and BRING_BACK in self.VERBS:
            said += f"; {self.mapped_keys()(BRING_BACK)} brings it back"
        self.tell(said, label="undo" if message.refusal else "taken back")

    def tell(self, words: str, *, label: str = "") -> None:
        """Say one sentence beside the keys; an empty one takes it away.

        How it looks is found anew only where it differs from the one before: that
        takes longer than to draw it.
        """
        message = self.query_one("#message", Row)
        message.say(prose(words), label)
        if words:
            message.set_class(label in CALM, "-calm")
        message.display = bool(words)

    def tell_beside(self, words: str, *, label: str = "") -> None:
        """Say a sentence that was not asked for; it hides none that stands."""
        self.tell(words, label=label)

    def keep_soon(self, text: str, purpose: str) -> None:
        """Keep what stands in a line while it is typed, until it is taken."""
        self.desk.keeping.soon(text, purpose)

    @on(EntryLine.TooLong)
    def _too_long(self, event: EntryLine.TooLong) -> None:
        self.tell(
            f"{event.count:,} characters were pasted and not taken in; accepted: a "
            "line of up to 4,000, longer text in a record's prose",
            label="not pasted",
        )

    def offer_kept(self, purpose: str) -> str:
        """Put back what was typed in a line when it went away; give its purpose."""
        if not self.desk.is_open:
            return ""
        draft = self.desk.keeping.left_over(purpose)
        if draft is None:
            self.offer_elsewhere(purpose)
            return ""
        self.query_one(EntryLine).put(draft.text)
        when = f"{draft.when.astimezone():%d %b %H:%M}"
        self.tell(f"this was being typed here on {when}; {GOES_ON}", label="kept")
        return Slip.of(draft).purpose

    def offer_elsewhere(self, purpose: str) -> None:
        """Say what is being typed in another window, where it can be taken."""

    def keep_now(self, text: str, purpose: str) -> None:
        """Keep it at once, because the line goes away; nothing: let it go."""
        self.desk.keeping.now(text, purpose)

    def mapped_keys(self) -> Callable[[Verb], str]:
        """Give what tells the key of a verb as it is mapped now.

        Of several the first: the others are what some terminals send for it.
        """
        mapped: dict[str | None, str] = {}
        for key, active in self.active_bindings.items():
            mapped.setdefault(active.binding.id, key)
        return lambda verb: shown_key(mapped.get(verb.action, verb.key))


def _class_of(breakpoints: list[tuple[int, str]], room: int) -> str:
    """Give the class of a screen with so much room."""
    return [name for least, name in breakpoints if room >= least][-1]
