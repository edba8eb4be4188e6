"""What can be done from any screen: open another one, take back, change the build."""

from __future__ import annotations

from collections.abc import Callable, Collection
from dataclasses import replace
from typing import Any

from logbook.errors import BadInput, Refused
from logbook.project import Project
from logbook.records.design import Part
from logbook.records.happenings import Entry
from logbook.records.making import Draft
from logbook.screens.amending import amend_draft
from logbook.screens.news import Job
from logbook.screens.ruled_sheet import RuledSheet
from logbook.screens.verbs import UNDO
from logbook.store.acts import Act

STILL_READING = "the records are still being read; again in a moment"


class Sheet(RuledSheet):
    """A ruled sheet from which the others can be reached."""

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

    def action_climate(self) -> None:
        """Look at what warmth and damp do to the parts."""
        from logbook.screens.climate import Climate

        self.app.push_screen(Climate(self.desk, "climate"))

    def action_steps(self) -> None:
        """Work through the order of work."""
        from logbook.screens.steps import Steps

        self.app.push_screen(Steps(self.desk))

    def action_job_sheet(self) -> None:
        """Choose a printed job sheet and type it in."""
        from logbook.screens.job_sheet import JobSheetTyped
        from logbook.screens.job_sheets import Sheets

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

        entry = self.desk.last_entry
        if entry is None:
            self.tell("there is no entry yet to link a photo to", label="no photo")
            return
        try:
            photo = newest_photo()
        except BadInput as refusal:
            self.tell(str(refusal), label="no photo")
            return
        self.desk.write(photo_job(self.desk, entry, photo))
        self.tell(f"{photo.name} → {entry.title}", label="photo")

    def action_go_on(self) -> None:
        """Choose what waits and go on past it, with the reason."""
        from logbook.screens.waits import Waits

        if not self.desk.knows_waits:
            self.tell(STILL_READING, label="waits")
            return
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
        from logbook.screens.holds import Holds
        from logbook.screens.listing import Line
        from logbook.screens.rebuild import Rebuild

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

        last = self.desk.last_entry
        if last is None:
            self.tell("there is no entry to move yet")
            return

        def move(build_id: str | None) -> None:
            if build_id:
                name = self.desk.snapshot[build_id].title
                self.desk.write(move_job(last, build_id, name))

        self.app.push_screen(Builds(self.desk, f"move “{last.title}” to"), move)

    def action_back(self) -> None:
        """Go back to the screen before."""
        self.dismiss()

    def action_light(self) -> None:
        """Change between slate and paper."""
        self.app.theme = "paper" if self.app.theme == "slate" else "slate"


def move_job(entry: Entry, build_id: str, name: str) -> Job:
    """Give the work that moves an entry to another build."""

    def make(project: Project) -> Draft:
        build = project.snapshot[build_id]
        draft = project.draft(entry.when)
        return amend_draft(draft, entry, replace(entry, build=build.ref))

    said = f"moved to {name}: {entry.title}"
    return Job(f"moved to another build: {entry.title}", make, said=said)
