"""The ways from one screen to another, each by its name.

Screens know one another by these names only: each is built on `Sheet`, and would
otherwise import those that are built on it. A screen is loaded when it is gone to.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from typing import TYPE_CHECKING, Any

from logbook.records.kinds.design import Part
from logbook.records.kinds.workshop import Build
from logbook.screens.part_ways import (
    no_part,
    part,
    revise,
    revise_the_part,
    same_part,
    the_part,
)
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.screens.ruled.sheet import Sheet
from logbook.store.typed.left_off import LeftOff

if TYPE_CHECKING:
    from logbook.screens.ruled.listing import Line


def keys(sheet: Sheet) -> None:
    """Show every key of a screen; the one chosen there is done on it."""
    from logbook.screens.ruled.keys_listed import Keys

    sheet.app.push_screen(Keys(sheet.desk, sheet), sheet.do)


def in_full(sheet: Sheet) -> None:
    """Read in full what is cut on a screen."""
    from logbook.screens.ruled.whole import Whole, cut_on

    if said := (*cut_on(sheet),):
        sheet.app.push_screen(Whole(sheet.desk, said))
    else:
        sheet.tell_beside("nothing is cut here", label="in full")


def find(sheet: Sheet) -> None:
    """Search."""
    from logbook.screens.find import Find

    sheet.app.push_screen(Find(sheet.desk, "find"))


def record(sheet: Sheet, record_id: str) -> None:
    """Open a record; a part opens with all that is known of it."""
    from logbook.screens.record.record import RecordSheet

    if sheet.desk.snapshot.by_id(record_id, Part):
        the_part(sheet, record_id)
    elif record_id in sheet.desk.snapshot:
        sheet.app.push_screen(RecordSheet(sheet.desk, record_id))


def measure(sheet: Sheet) -> None:
    """Choose a piece and measure it."""
    from logbook.screens.run.measure import Measure
    from logbook.screens.run.pieces import Pieces, size_of, subject_of

    def go(chosen: str | None) -> None:
        if chosen:
            subject = subject_of(chosen, sheet.desk.snapshot)
            first = size_of(chosen)
            sheet.app.push_screen(Measure(sheet.desk, [subject], first=first))

    sheet.app.push_screen(Pieces(sheet.desk, "measure what?"), go)


def grid(sheet: Sheet) -> None:
    """Choose a part and measure all its pieces."""
    from logbook.screens.run.batches import Batches, batch_of
    from logbook.screens.run.grid import Grid

    def go(chosen: str | None) -> None:
        if chosen:
            sheet.app.push_screen(Grid(sheet.desk, *batch_of(chosen)))

    sheet.app.push_screen(Batches(sheet.desk, "measure a batch of what?"), go)


def sums(sheet: Sheet) -> None:
    """Choose a sum and work it out."""
    from logbook.screens.sums.sums_listed import Sums

    def go(name: str | None) -> None:
        if name:
            the_sum(sheet, name)

    sheet.app.push_screen(Sums(sheet.desk, "shop sums"), go)


def the_sum(sheet: Sheet, name: str) -> None:
    """Work out the sum of this name."""
    from logbook.screens.sums.calculator import SumSheet

    sheet.app.push_screen(SumSheet(sheet.desk, name))


def gaps(sheet: Sheet, at: str = "") -> None:
    """Look at the gaps and joints, beginning at the one with this key."""
    from logbook.screens.gaps.gaps import Gaps

    looked_at = Gaps(sheet.desk)
    looked_at.begins_at = at
    sheet.app.push_screen(looked_at)


def climate(sheet: Sheet) -> None:
    """Look at what warmth and damp do to the parts."""
    from logbook.screens.gaps.climate import Climate

    sheet.app.push_screen(Climate(sheet.desk, "climate"))


def steps(sheet: Sheet) -> None:
    """Work through the order of work."""
    from logbook.screens.steps.steps import Steps

    sheet.app.push_screen(Steps(sheet.desk))


def job_sheet(sheet: Sheet, mark: str = "") -> None:
    """Choose a printed job sheet and type it in; that of a mark is not asked for."""
    from logbook.screens.steps.job_sheet import JobSheetTyped
    from logbook.screens.steps.job_sheets import Sheets

    def tell(said: str | None) -> None:
        sheet.tell(said or "", label="job sheet")

    def go(chosen: tuple[Any, str] | None) -> None:
        if chosen is not None:
            sheet.app.push_screen(JobSheetTyped(sheet.desk, *chosen), tell)

    sheet.app.push_screen(Sheets(sheet.desk, "type in which job sheet?", mark), go)


def waits(sheet: Sheet, holds: Collection[str] = ()) -> None:
    """Choose what waits, of these or of all, and go on past it with the reason."""
    from logbook.screens.steps.waits import Waits

    def tell(said: str | None) -> None:
        if said:
            sheet.tell(said, label="waits")

    sheet.app.push_screen(Waits(sheet.desk, "go on past what?", holds), tell)


def undecided(sheet: Sheet) -> None:
    """Choose what nobody has decided on, and open it; or say here what decides."""
    from logbook.screens.bench.saying_sheet import SayingSheet
    from logbook.screens.undecided import Undecided

    def say(words: str | None) -> None:
        if words and isinstance(sheet, SayingSheet):
            sheet.take_words(words)

    sheet.app.push_screen(Undecided(sheet.desk, "undecided"), say)


def clock(sheet: Sheet) -> None:
    """Start, pause or stop the clock on a step."""
    from logbook.screens.steps.timer import Timer

    def tell(short: str | None) -> None:
        if short:
            sheet.tell(short, label="clock")

    sheet.app.push_screen(Timer(sheet.desk), tell)


def inbox(sheet: Sheet) -> None:
    """Sort what the phone has put into its folder."""
    from logbook.screens.inbox.inbox import InboxSheet

    sheet.app.push_screen(InboxSheet(sheet.desk))


def rebuild(sheet: Sheet) -> None:
    """Say what you hold, and see which known faults apply to it."""
    from logbook.screens.rebuild.holds import Holds
    from logbook.screens.rebuild.rebuild import Rebuild

    def go(held: Line | None) -> None:
        if held is not None:
            sheet.app.push_screen(Rebuild(sheet.desk, held))

    sheet.app.push_screen(Holds(sheet.desk), go)


def release(sheet: Sheet, label: str = "") -> None:
    """Look what a release would be, put it out, and write its pages."""
    from logbook.screens.release.release_sheet import ReleaseSheet

    sheet.app.push_screen(ReleaseSheet(sheet.desk, label))


def to_build(sheet: Sheet) -> None:
    """Choose the build the last entry belongs to."""
    from logbook.screens.bench.builds import Builds
    from logbook.screens.desk.to_other_build import logged_with, move_job

    last = sheet.entry_meant
    if last is None:
        read = sheet.desk.glance.read
        sheet.tell("there is no entry to move yet" if read else sheet.not_read())
        return

    def move(build_id: str | None) -> None:
        if not build_id:
            return
        name = sheet.desk.snapshot[build_id].title
        if last.build and last.build.id == build_id:
            sheet.tell(f"“{last.title}” is of {name} already", label="not moved")
        else:
            sheet.desk.write(move_job(sheet.desk.snapshot, last, build_id, along))

    along = logged_with(sheet.desk, last)
    sheet.app.push_screen(Builds(sheet.desk, last, along), move)


def go_on_measuring(sheet: Sheet, *run: Any) -> None:
    """Go on with a run that was interrupted."""
    from logbook.screens.run.going_on import measuring

    sheet.app.push_screen(measuring(sheet.desk, *run))


def go_on_with_batch(sheet: Sheet, *batch: Any) -> None:
    """Go on with a batch that was interrupted."""
    from logbook.screens.run.going_on import batch_of

    if (gone_on := batch_of(sheet.desk, *batch)) is not None:
        sheet.app.push_screen(gone_on)


def go_on(sheet: Sheet, left: LeftOff) -> None:
    """Go back to what a window was in the middle of when it went away."""
    build = sheet.desk.snapshot.by_id(left.build, Build)
    if build is not None and build.id != sheet.desk.shown.id:
        sheet.desk.go_on_with(build)
    if (way := WAYS.get(left.way)) is not None:
        way(sheet, *left.about)
    there = sheet.app.screen
    if isinstance(there, EmptyingSheet) and there is not sheet:
        there.gone_back_to = True
    else:
        sheet.tell(f"{left.what}: that is not here any more", label="gone")


WAYS: Mapping[str, Callable[..., None]] = {
    way.__name__: way
    for way in (
        keys, in_full, find, record, measure, grid, sums, gaps, climate, steps,
        the_sum, job_sheet, go_on, go_on_measuring, go_on_with_batch,
        revise, revise_the_part, part, the_part, no_part, same_part, waits, clock,
        inbox, rebuild, to_build, undecided, release,
    )
}  # fmt: skip
"""Every way, by the name that `Sheet.go` is given."""
