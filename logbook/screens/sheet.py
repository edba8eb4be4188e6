"""What all screens have in common: the title band, the rows, the key strip."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Any, ClassVar

from textual import on
from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Horizontal
from textual.message import Message
from textual.screen import Screen
from textual.timer import Timer
from textual.widgets import Static

from logbook.errors import BadInput, Refused
from logbook.project import Project
from logbook.records.making import Draft
from logbook.records.model import Entry, Part
from logbook.screens import desk as news
from logbook.screens.amending import amend_draft
from logbook.screens.desk import Desk, Job
from logbook.screens.entry_line import EntryLine
from logbook.screens.look import prose, sentence
from logbook.screens.rows import KeyStrip, Row, put
from logbook.screens.verbs import BACK, LIGHT, UNDO, Verb, bindings, shown_key
from logbook.store.acts import Act

STILL_READING = "the records are still being read; again in a moment"
KEEP_AFTER_S = 0.4
"""Rest of the keys after which what stands in a line is kept on disk."""


class Sheet(Screen[Any]):
    """A screen in the manner of the house, working on one desk."""

    VERBS: ClassVar[tuple[Verb, ...]] = (BACK, LIGHT)
    BINDINGS: ClassVar[list[BindingType]] = bindings(VERBS)
    HORIZONTAL_BREAKPOINTS = [(0, "-narrow"), (80, "-wide")]  # noqa: RUF012
    VERTICAL_BREAKPOINTS = [(0, "-low"), (24, "-middle"), (36, "-tall")]  # noqa: RUF012

    def __init__(self, desk: Desk) -> None:
        """Work on this desk."""
        super().__init__()
        self.desk = desk
        self._keeping: Timer | None = None

    def compose(self) -> ComposeResult:
        """Lay out the band, the body of the screen, the message and the keys."""
        with Horizontal(id="band"):
            yield Static("", id="whose", markup=False)
            yield Static("", id="standing", markup=False)
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
    def is_laid_out(self) -> bool:
        """Tell whether band and rows are there: not yet, or no more when leaving."""
        return self.is_mounted and bool(self.query("#whose"))

    def on_mount(self) -> None:
        """Show band and keys at once."""
        self.show_band()
        self.show_keys()

    def show_band(self) -> None:
        """Show whose sheet this is: project, build, what is looked at; and git."""
        seen = self.desk.glance
        build = seen.build.title if seen.build else "no build yet"
        heading = f" · {self.heading}" if self.heading else ""
        title = sentence(
            "$project  [reverse bold] $build [/]$heading",
            project=seen.title or "logbook",
            build=build,
            heading=heading,
        )
        put(self.query_one("#whose", Static), title)
        put(self.query_one("#standing", Static), self.desk.standing)

    def show_keys(self) -> None:
        """Show the keys that work here, as they are mapped."""
        key_of = self.mapped_keys()
        first: list[tuple[str, str]] = []
        more: list[tuple[str, str]] = []
        for verb in self.VERBS:
            (first if verb.in_strip else more).append((key_of(verb), verb.label))
        self.query_one(KeyStrip).tell(first, more)

    def told(self, message: Message) -> None:
        """Hear what the desk has done; screens that show more of it say so."""
        match message:
            case news.NotWritten():
                self.tell(message.reason, label="not taken")
            case news.Undone():
                label = "undo" if message.refusal else "taken back"
                self.tell(message.refusal or message.subject, label=label)
            case news.Kept():
                self.tell(message.refusal, label="careful")
            case _:
                return

    def tell(self, words: str, *, label: str = "") -> None:
        """Say one sentence beside the keys; an empty one takes it away."""
        self.query_one("#message", Row).say(prose(words), label)
        self.query_one("#message", Row).set_class(bool(words), "-said")

    def keep_soon(self, text: str, purpose: str) -> None:
        """Keep what stands in a line once the keys rest, until it is taken."""
        if self._keeping is not None:
            self._keeping.stop()
        self._keeping = self.set_timer(
            KEEP_AFTER_S, lambda: self.desk.keep(text, purpose)
        )

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
        draft = self.desk.left_over(purpose)
        if draft is None:
            return ""
        self.query_one(EntryLine).put(draft.text)
        when = f"{draft.when.astimezone():%d %b %H:%M}"
        self.tell(f"this was being typed here on {when}", label="kept")
        return draft.for_what

    def keep_now(self, text: str, purpose: str) -> None:
        """Keep it at once, because the line goes away; nothing: let it go."""
        if self._keeping is not None:
            self._keeping.stop()
        self.desk.keep(text, purpose)

    def mapped_keys(self) -> Callable[[Verb], str]:
        """Give what tells the key of a verb as it is mapped now."""
        mapped = {
            active.binding.id: key for key, active in self.active_bindings.items()
        }
        return lambda verb: shown_key(mapped.get(verb.action, verb.key))

    # -- what can be done from anywhere ------------------------------------------

    def action_keys(self) -> None:
        """Show every key; the one chosen there is done here."""
        from logbook.screens.choosing import Keys

        self.app.push_screen(Keys(self.desk, self), self._do)

    async def _do(self, action: str | None) -> None:
        if action:
            await self.run_action(action)

    def action_find(self) -> None:
        """Search from here."""
        from logbook.screens.find import Find

        self.app.push_screen(Find(self.desk, "find"))

    def show_record(self, record_id: str) -> None:
        """Open a record; a part opens with all that is known of it."""
        from logbook.screens.record import RecordSheet

        stored = self.desk.snapshot.stored.get(record_id)
        if stored is not None and isinstance(stored.record, Part):
            self.show_part(record_id)
        elif stored is not None:
            self.app.push_screen(RecordSheet(self.desk, record_id))

    def action_measure(self) -> None:
        """Choose a piece and measure it."""
        from logbook.screens.measure import Measure
        from logbook.screens.pieces import Pieces, subject_of

        def go(chosen: str | None) -> None:
            if chosen:
                snapshot = self.desk.snapshot
                subject = subject_of(chosen, snapshot)
                self.app.push_screen(Measure(self.desk, [subject]))

        self.app.push_screen(Pieces(self.desk, "measure what?"), go)

    def action_grid(self) -> None:
        """Choose a part and measure all its pieces."""
        from logbook.screens.grid import Batches, Grid

        def go(part_id: str | None) -> None:
            if part_id:
                self.app.push_screen(Grid(self.desk, part_id))

        self.app.push_screen(Batches(self.desk, "measure a batch of what?"), go)

    def action_sums(self) -> None:
        """Choose a sum and work it out."""
        from logbook.screens.calculator import Sums, SumSheet

        def go(name: str | None) -> None:
            if name:
                self.app.push_screen(SumSheet(self.desk, name))

        self.app.push_screen(Sums(self.desk, "shop sums"), go)

    def action_gaps(self) -> None:
        """Look at the gaps and joints."""
        from logbook.screens.gaps import Gaps

        self.app.push_screen(Gaps(self.desk))

    def action_steps(self) -> None:
        """Work through the order of work."""
        from logbook.screens.steps import Steps

        self.app.push_screen(Steps(self.desk))

    def action_job_sheet(self) -> None:
        """Choose a printed job sheet and type it in."""
        from logbook.screens.job_sheet import JobSheetTyped, Sheets

        if not self.desk.is_open:
            self.tell(STILL_READING)
            return

        def tell(said: str | None) -> None:
            self.tell(said or "", label="job sheet")

        def go(chosen: tuple[Any, str] | None) -> None:
            if chosen is not None:
                self.app.push_screen(JobSheetTyped(self.desk, *chosen), tell)

        self.app.push_screen(Sheets(self.desk, "type in which job sheet?"), go)

    def action_revise(self) -> None:
        """Choose a part and revise it."""
        from logbook.screens.part import Parts

        self.app.push_screen(Parts(self.desk, "revise which part?"), self.revise)

    def revise(self, part_id: str | None) -> None:
        """Revise a part from its entries."""
        from logbook.screens.revise import Revise

        if part_id:
            self.app.push_screen(Revise(self.desk, part_id))

    def action_part(self) -> None:
        """Choose a part and look at it."""
        from logbook.screens.part import Parts

        self.app.push_screen(Parts(self.desk, "look at which part?"), self.show_part)

    def show_part(self, part_id: str | None) -> None:
        """Open a part."""
        from logbook.screens.part import PartSheet

        if part_id:
            self.app.push_screen(PartSheet(self.desk, part_id))

    def action_photo(self) -> None:
        """Link the newest photo to the last entry."""
        from logbook.screens.photo import newest_photo, photo_job

        if not self.desk.entries:
            self.tell("there is no entry yet to link a photo to", label="no photo")
            return
        try:
            photo = newest_photo()
        except BadInput as refusal:
            self.tell(str(refusal), label="no photo")
            return
        entry = self.desk.entries[-1]
        self.desk.write(photo_job(self.desk, entry, photo))
        self.tell(f"{photo.name} → {entry.title}", label="photo")

    def action_go_on(self) -> None:
        """Choose what waits and go on past it, with the reason."""
        from logbook.screens.waits import Waits

        if not self.desk.glance.waits:
            self.tell("nothing waits", label="waits")
            return
        self.app.push_screen(Waits(self.desk, "go on past what?"))

    def action_clock(self) -> None:
        """Start, pause or stop the clock on a step."""
        from logbook.screens.timer import Timer

        def tell(short: str | None) -> None:
            self.tell(short or "", label="clock")

        self.app.push_screen(Timer(self.desk), tell)

    def action_inbox(self) -> None:
        """Sort what the phone has put into its folder."""
        from logbook.screens.inbox import InboxSheet

        if not self.desk.is_open:
            self.tell(STILL_READING)
            return
        self.app.push_screen(InboxSheet(self.desk))

    def action_rebuild(self) -> None:
        """Say what you hold, and see which known faults apply to it."""
        from logbook.screens.listing import Line
        from logbook.screens.rebuild import Holds, Rebuild

        def go(held: Line | None) -> None:
            if held is not None:
                self.app.push_screen(Rebuild(self.desk, held))

        self.app.push_screen(Holds(self.desk), go)

    def action_undo(self) -> None:
        """Take back what was logged last."""
        self.desk.undo()

    def undo_only(self, nothing: str, ours: Callable[[], Collection[str]]) -> None:
        """Take the last act back if it touched one of these files, else say why not."""
        self.desk.undo(self.only_ours(nothing, ours))

    def only_ours(
        self, nothing: str, ours: Callable[[], Collection[str]]
    ) -> Callable[[Act], None]:
        """Give what refuses every act that touched none of these files.

        `ours` is asked once everything before the key is written; `nothing` is said
        where there is none of them.
        """
        key = self.mapped_keys()(UNDO)

        def meant(act: Act) -> None:
            paths = ours()
            if not paths:
                raise Refused(
                    f"{nothing}; {key} on the bench takes back the last entry"
                )
            if not any(touched.path in paths for touched in act.files):
                raise Refused(
                    f"the last entry is another one, “{act.subject}”; "
                    f"{key} on the bench takes it back"
                )

        return meant

    def action_next_build(self) -> None:
        """Go on with the next build."""
        builds = self.desk.glance.builds
        now = self.desk.glance.build
        if len(builds) < 2 or now is None:
            self.tell("there is no other build; `logbook build` starts one")
            return
        at = [build.id for build in builds].index(now.id)
        self.desk.go_on_with(builds[(at + 1) % len(builds)])

    def action_to_build(self) -> None:
        """Choose the build the last entry belongs to."""
        from logbook.screens.choosing import Builds

        entries = self.desk.entries
        if not entries:
            self.tell("there is no entry to move yet")
            return
        last = entries[-1]

        def move(build_id: str | None) -> None:
            if build_id:
                self.desk.write(move_job(last, build_id))

        self.app.push_screen(Builds(self.desk, f"move “{last.title}” to"), move)

    def action_back(self) -> None:
        """Go back to the screen before."""
        self.dismiss()

    def action_light(self) -> None:
        """Change between slate and paper."""
        self.app.theme = "paper" if self.app.theme == "slate" else "slate"


def move_job(entry: Entry, build_id: str) -> Job:
    """Give the work that moves an entry to another build."""

    def make(project: Project) -> Draft:
        build = project.snapshot[build_id]
        draft = project.draft(entry.when)
        return amend_draft(draft, entry, replace(entry, build=build.ref))

    return Job(f"moved to another build: {entry.title}", make)
