"""Putting a release out: what would be frozen, what is against it, and its pages.

Nothing is saved before the question is answered. The tag comes last; where git cannot
take the release yet, the same label again sets it.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import ClassVar

from textual import on
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.errors import LogbookError
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.desk.news import Job
from logbook.screens.release.readied import (
    Pages,
    Readied,
    next_label,
    pages_of,
    readied,
    release_job,
    tag_it,
    write_pages,
)
from logbook.screens.release.release_rows import rows_of, said_of
from logbook.screens.ruled import verbs
from logbook.screens.ruled.asked import AskingSheet
from logbook.screens.ruled.asking import Answer, Question
from logbook.screens.ruled.facing import MOVES, Facing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say

PUT_OUT = verbs.Verb("put_out", "put it out", "enter", "Ask, then save and tag it.")
WRITE = verbs.Verb(
    "write_pages", "write pages", "ctrl+s", "Write every page that is out of date."
)
YES = "yes"


class ReleaseSheet(Facing, AskingSheet):
    """What a release would be, and the pages there are."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        PUT_OUT, WRITE, *MOVES, verbs.BACK, *verbs.EVERYWHERE,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "looking what would go out …"
    ASKS = "the label it goes out under, such as 1.0"
    MARGIN_WORD = "release ›"
    KEEPS = False

    @dataclass
    class Found(Message):
        """What a release of a label would be, or why there is none."""

        label: str
        ready: Readied | None = None
        refusal: str = ""

    @dataclass
    class Paged(Message):
        """The pages as they are by now, or why they are not known."""

        pages: Pages | None
        refusal: str = ""

    @dataclass
    class Done(Message):
        """What was done in a thread, said as one sentence, with its margin word."""

        said: str
        label: str
        out: bool = False
        """Whether a release is out now: the line goes on to the next label."""

    def __init__(self, desk: Desk, label: str = "") -> None:
        """Look what a release would be; of the next label where none is named."""
        super().__init__(desk)
        self._label = label
        self._ready: Readied | None = None
        self._pages: Pages | None = None
        self._sent: Job | None = None

    @property
    def heading(self) -> str:
        """Say what is looked at."""
        return "release and pages"

    WAY = "release"

    @property
    def about_here(self) -> tuple[str, ...]:
        """The label that is typed: it is kept nowhere else."""
        return (self.line.value.strip(),)

    @property
    def in_the_middle(self) -> Midst | None:
        """The label, while it is not the one that comes next anyway."""
        typed = self.line.value.strip()
        proposed = next_label(self.desk.snapshot)
        return self._midst(self.heading, typed) if typed not in ("", proposed) else None

    def on_mount(self) -> None:
        """Begin with the next label, and look at once."""
        super().on_mount()
        if self._label:
            self.line.put(self._label)
        else:
            self.line.propose(next_label(self.desk.snapshot))
            said = "what is typed takes its place, End goes on with it"
            self.tell(said, label="comes next")
        self._look()

    # -- looking -----------------------------------------------------------------

    def _look(self, *, pages: bool = True) -> None:
        label = self.line.value.strip()
        if label:
            self._behind(lambda: self._found(label), self._not_found(label))
        if pages:
            self._behind(lambda: self.Paged(pages_of(self.desk)), self._not_paged)

    def _behind(
        self, work: Callable[[], Message], refused: Callable[[str], Message]
    ) -> None:
        """Do work in a thread; what it gives, or how it was refused, comes back."""

        def done() -> None:
            try:
                self.post_message(work())
            except LogbookError as refusal:
                self.post_message(refused(str(refusal)))

        self.desk.run(done, "release")

    def _found(self, label: str) -> Message:
        return self.Found(label, readied(self.desk, label))

    def _not_found(self, label: str) -> Callable[[str], Message]:
        return lambda refusal: self.Found(label, refusal=refusal)

    def _not_paged(self, refusal: str) -> Message:
        return self.Paged(None, refusal)

    @on(Found)
    def _show_found(self, message: Found) -> None:
        if message.label != self.line.value.strip():
            return
        self._ready = message.ready
        if message.refusal:
            self.tell(message.refusal, label="not so")
        self.show()

    @on(Paged)
    def _show_pages(self, message: Paged) -> None:
        self._pages = message.pages
        if message.refusal:
            self.tell(message.refusal, label="pages")
        self.show()

    @on(Done)
    def _say_done(self, message: Done) -> None:
        self.tell(message.said, label=message.label)
        self.desk.commit()
        if message.out:
            self.line.propose(next_label(self.desk.project.snapshot))
        self._look()

    def told(self, message: Message) -> None:
        """Follow what is saved: the tag comes behind it."""
        match message:
            case news.Written() if message.job is self._sent:
                self._tag()
            case news.NotWritten() if message.job is self._sent:
                self.tell(message.reason, label="not taken")
            case news.Looked():
                self.show_band()
                self._look(pages=False)
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    def lines(self) -> Sequence[Line]:
        """Give what is against it first, then what goes out, then the pages."""
        return [*rows_of(self._ready, self._pages)]

    def known(self, key: str) -> Sequence[Say]:
        """Give the row in full."""
        return said_of(self._ready, self._pages, key)

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        """Look anew for another label: what was shown was of the one before."""
        typed = self.line.value.strip()
        if self._ready is not None and typed != self._ready.release.label:
            self._ready = None
        if not self.line.as_put:
            self.tell("")
        self._look(pages=False)
        self.show()

    # -- putting it out ----------------------------------------------------------

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        ready = self._ready
        if not self.line.value.strip():
            self.tell("type the label it goes out under, such as 1.0", label="label")
        elif ready is None:
            self._look(pages=False)
        elif ready.waiting:
            self._tag()
        else:
            self.ask(_question(ready), self._answered_so)

    def action_put_out(self) -> None:
        """Ask, then put it out, as Enter does."""
        self._enter()

    def _answered_so(self, answer: Answer) -> None:
        if answer.words != YES or self._ready is None:
            self.tell("nothing was saved", label="not out")
            return
        self._sent = release_job(self.desk, self._ready)
        self.desk.write(self._sent)

    def _tag(self) -> None:
        ready = self._ready
        if ready is None:
            return
        label = ready.release.label

        def tagged() -> Message:
            said = tag_it(self.desk, ready.release)
            return self.Done(
                f"release {label} is out, {said}; {ready.tried}", "out", out=True
            )

        self._behind(tagged, lambda refusal: self.Done(refusal, "no tag yet"))

    def action_write_pages(self) -> None:
        """Write what is out of date of the pages."""
        pages = self._pages
        if pages is None:
            self.tell("the pages are still being worked out", label="pages")
        elif not pages.behind:
            self.tell("every page is as it would be written now", label="pages")
        else:
            self._behind(
                lambda: self.Done(_written(write_pages(self.desk, pages)), "on disk"),
                lambda refusal: self.Done(refusal, "not written"),
            )


def _written(names: Sequence[str]) -> str:
    return f"written: {', '.join(names)}, in as-built/"


def _question(ready: Readied) -> Question:
    """Ask whether it goes out as it is."""
    label, open_ones = ready.release.label, len(ready.hindered.unsettled)
    words = f"put release {label} out so? its tag stays, no key takes it back"
    key, rest = "put it out", "not yet"
    if ready.whose:
        words = f"the design is another's; put release {label} of it out all the same?"
    if open_ones:
        things = "1 thing is" if open_ones == 1 else f"{open_ones} things are"
        words = f"{things} not settled; put release {label} out all the same?"
        if ready.whose:
            words = f"the design is another's, and {words}"
        key, rest = "all the same", "settle first"
    return Question(words, {"1": (key, YES), "2": (rest, "")}, rest, about="release")
