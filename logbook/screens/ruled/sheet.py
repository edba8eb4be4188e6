"""What can be done from any screen: open another one, take back, change the build."""

from __future__ import annotations

from collections.abc import Callable, Collection
from typing import TYPE_CHECKING, Any, Protocol, cast

from textual import on

from logbook.errors import NoProject
from logbook.records.kinds.happenings import Entry
from logbook.records.together.whose_shop import built_by
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.desk.long_work import Stopped
from logbook.screens.desk.news import ToTakeBack
from logbook.screens.desk.taking_back import newest_of
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.ruled_sheet import RuledSheet
from logbook.screens.ruled.verbs import BUILD, LEAVE, PHOTO, STOP, UNDO
from logbook.store.acts.last import Act

if TYPE_CHECKING:  # loaded when a photo is linked
    from logbook.screens.desk.photo import NextPhoto

STILL_READING = "the records are still being read; again in a moment"


class KnowsWays(Protocol):
    """What the app is asked for: the way with a name, and which key this is."""

    keys_let_in: int

    def go(self, way: str, sheet: Sheet, *about: Any) -> None:
        """Go this way."""

    def note_where(self) -> None:
        """Note what the screens are in the middle of."""


class Sheet(RuledSheet):
    """A ruled sheet from which the others can be reached."""

    def __init__(self, desk: Desk) -> None:
        """Work on this desk."""
        super().__init__(desk)
        self._named: tuple[Act | None, int] = (None, 0)
        self._asked_at = 0
        self._photo: tuple[NextPhoto | None, int] = (None, 0)

    def go(self, way: str, *about: Any) -> None:
        """Go to another screen by the name of the way there, as `ways.py` has it."""
        cast("KnowsWays", self.app).go(way, self, *about)

    async def do(self, action: str | None) -> None:
        """Do what was chosen among the keys of this screen."""
        if action:
            await self.run_action(action)

    @property
    def in_the_middle(self) -> Midst | None:
        """What is under way here, to be gone back to after an interruption; or None."""
        return None

    def on_screen_resume(self) -> None:
        """Let it be noted at once what is under way."""
        cast("KnowsWays", self.app).note_where()

    # -- what can be done from anywhere ------------------------------------------

    def action_keys(self) -> None:
        """Show every key; the one chosen there is done here."""
        self.go("keys")

    def action_in_full(self) -> None:
        """Read in full what is cut here."""
        self.go("in_full")

    def action_find(self) -> None:
        """Search from here."""
        self.go("find")

    def show_record(self, record_id: str) -> None:
        """Open a record; a part opens with all that is known of it."""
        self.go("record", record_id)

    def action_measure(self) -> None:
        """Choose a piece and measure it."""
        self.go("measure")

    def action_grid(self) -> None:
        """Choose a part and measure all its pieces."""
        self.go("grid")

    def action_sums(self) -> None:
        """Choose a sum and work it out."""
        self.go("sums")

    def action_gaps(self) -> None:
        """Look at the gaps and joints."""
        self.go("gaps")

    def action_climate(self) -> None:
        """Look at what warmth and damp do to the parts."""
        self.go("climate")

    def action_steps(self) -> None:
        """Work through the order of work."""
        self.go("steps")

    def action_job_sheet(self) -> None:
        """Choose a printed job sheet and type it in."""
        if not self.desk.is_open:
            self.tell(self.not_read())
            return
        self.go("job_sheet")

    def action_revise(self) -> None:
        """Choose a part and revise it."""
        self.go("revise")

    def action_part(self) -> None:
        """Choose a part and look at it."""
        self.go("part")

    def not_open(self) -> str:
        """Say why there are no records; without a logbook, how to begin one."""
        refusal = self.desk.refusal
        if isinstance(refusal, NoProject) and refusal.below:
            return f"no logbook here; designs below: {', '.join(refusal.below)}"
        if isinstance(refusal, NoProject):
            return "no logbook here; `logbook start` makes one"
        if isinstance(self.desk.refusal, Stopped):
            return f"{self.desk.refusal}; {self.mapped_keys()(STOP)} reads them"
        return str(self.desk.refusal)

    def not_read(self) -> str:
        """Say why there are no records to choose among: not yet, or none at all."""
        return self.not_open() if self.desk.refusal is not None else STILL_READING

    @property
    def entry_meant(self) -> Entry | None:
        """The entry a photo or a move is of: the last, where no other is chosen."""
        return self.desk.last_entry

    def action_photo(self) -> None:
        """Link the newest photo to the last entry."""
        from logbook.screens.desk.photo import NextPhoto, photo_job

        entry = self.entry_meant
        if entry is None:
            self.tell("there is no entry yet to link a photo to", label="no photo")
            return
        now = cast("KnowsWays", self.app).keys_let_in
        before, at = self._photo
        chosen = before.offered if before is not None and now == at + 1 else None
        again = NextPhoto(self.mapped_keys()(PHOTO))
        self._photo = again, now
        self.desk.write(photo_job(self.desk, entry, again, chosen))

    def action_go_on(self) -> None:
        """Choose what waits and go on past it, with the reason."""
        if not self.desk.knows_waits:
            self.tell(self.not_read(), label="waits")
            return
        if not self.desk.glance.waits:
            self.tell("nothing waits", label="waits")
            return
        self.go("waits")

    def action_clock(self) -> None:
        """Start, pause or stop the clock on a step."""
        self.go("clock")

    def action_inbox(self) -> None:
        """Sort what the phone has put into its folder."""
        if not self.desk.is_open:
            self.tell(self.not_read())
            return
        self.go("inbox")

    def action_rebuild(self) -> None:
        """Say what you hold, and see which known faults apply to it."""
        self.go("rebuild")

    def action_release(self) -> None:
        """Look what a release would be, and put it out."""
        if not self.desk.is_open:
            self.tell(self.not_read())
            return
        self.go("release")

    def action_undo(self) -> None:
        """Take back what was logged last here, in the build shown."""
        now = cast("KnowsWays", self.app).keys_let_in
        act, at = self._named
        self._named, self._asked_at = (None, 0), now
        named = act if now == at + 1 else None
        self.desk.take_back(named, self.post_message)

    @on(ToTakeBack)
    def _say_what(self, message: ToTakeBack) -> None:
        """Say what the same key takes back, when it is the very next one."""
        act, key = message.act, self.mapped_keys()(UNDO)
        self._named = (act, self._asked_at)
        self.tell(
            f"{key} again takes back “{act.subject}” of {day(act.instant)}, which was "
            "not logged in this window; any other key keeps it",
            label="undo?",
        )

    def undo_only(self, nothing: str, ours: Callable[[], Collection[str]]) -> None:
        """Take back what touched one of these files last, else say that nothing did."""
        key = self.mapped_keys()(UNDO)
        nothing = f"{nothing}; {key} on the bench takes back the last entry"
        self.desk.undo_chosen(newest_of(ours, nothing))

    def action_bring_back(self) -> None:
        """Bring back what was taken back last in this window."""
        self.desk.bring_back()

    def action_next_build(self) -> None:
        """Go on with the next build."""
        builds = self.desk.glance.builds
        now = self.desk.glance.build
        if len(builds) < 2 or now is None:
            self.tell("there is no other build; `logbook build` starts one")
            return
        at = [build.id for build in builds].index(now.id)
        on = builds[(at + 1) % len(builds)]
        self.desk.go_on_with(on)
        key = self.mapped_keys()(BUILD)
        by = built_by(on, builds)
        here = f"{on.title} ({by})" if by else on.title
        self.tell(
            f"now {here}, no longer {now.title}; {key} goes on to the next",
            label="build",
        )

    def action_to_build(self) -> None:
        """Choose the build the last entry belongs to."""
        self.go("to_build")

    def action_stop(self) -> None:
        """Stop the work that takes long; what was there before stays.

        A reading that was stopped is begun again by the same key.
        """
        work = self.desk.works.stop()
        if isinstance(self.desk.refusal, Stopped):
            self.desk.read_again()
        elif work is not None:
            self.tell(f"stopped: {work.what}; all is as it was", label="stopped")
        elif self.desk.works.said is not None:
            key = self.mapped_keys()(LEAVE)
            self.tell(f"this cannot be stopped; {key} leaves, and loses nothing")
        else:
            self.tell("nothing takes long just now")

    def action_back(self) -> None:
        """Go back to the screen before."""
        self.dismiss()

    def action_light(self) -> None:
        """Change between slate and paper."""
        self.app.theme = "paper" if self.app.theme == "slate" else "slate"
