"""The ways to what is known of a part: its screen, its next revision, its end."""

from __future__ import annotations

from logbook.records.kinds.design import Part
from logbook.screens.ruled.sheet import Sheet


def revise(sheet: Sheet) -> None:
    """Choose a part and revise it."""
    from logbook.screens.part.part import Parts

    def go(part_id: str | None) -> None:
        if part_id:
            revise_the_part(sheet, part_id)

    sheet.app.push_screen(Parts(sheet.desk, "revise which part?"), go)


def revise_the_part(sheet: Sheet, part_id: str, at: str = "") -> None:
    """Revise a part from its entries, beginning at a row of the form."""
    from logbook.screens.part.revise import Revise

    form = Revise(sheet.desk, part_id)
    form.begins_at = at
    sheet.app.push_screen(form)


def part(sheet: Sheet) -> None:
    """Choose a part and look at it."""
    from logbook.screens.part.part import Parts

    def go(part_id: str | None) -> None:
        if part_id:
            the_part(sheet, part_id)

    sheet.app.push_screen(Parts(sheet.desk, "look at which part?"), go)


def the_part(sheet: Sheet, part_id: str) -> None:
    """Look at a part: all that is known of it."""
    from logbook.screens.part.part import PartSheet

    sheet.app.push_screen(PartSheet(sheet.desk, part_id))


def no_part(sheet: Sheet, part_id: str) -> None:
    """Choose what becomes of a part that is none, another one, or withdrawn."""
    from logbook.screens.part.no_part import GOES, SAME, NoPart, Way, way_job

    if (part := sheet.desk.snapshot.by_id(part_id, Part)) is None:
        return

    def go(way: Way | None) -> None:
        if way is None:
            return
        if way.key == SAME:
            _second_name(sheet, part)
            return
        sheet.desk.write(way_job(sheet.desk, part, way))
        if way.key in GOES:
            _leave_part(sheet)

    sheet.app.push_screen(NoPart(sheet.desk, part), go)


def _second_name(sheet: Sheet, part: Part) -> None:
    """Choose which part one is under a second name."""
    from logbook.screens.part.part import Parts

    def go(other_id: str | None) -> None:
        if other_id:
            same_part(sheet, part.id, other_id)
            _leave_part(sheet)

    parts = Parts(sheet.desk, f"{part.title} is which part?")
    parts.but = part.id
    sheet.app.push_screen(parts, go)


def same_part(sheet: Sheet, part_id: str, other_id: str) -> None:
    """Make a part one with another."""
    from logbook.screens.part.no_part import same_job

    snapshot = sheet.desk.snapshot
    part, other = snapshot.by_id(part_id, Part), snapshot.by_id(other_id, Part)
    if part is not None and other is not None:
        sheet.desk.write(same_job(sheet.desk, part, other))


def _leave_part(sheet: Sheet) -> None:
    """Leave the screen of a part that is gone, if it is that."""
    from logbook.screens.part.part import PartSheet

    if isinstance(sheet, PartSheet):
        sheet.dismiss()
