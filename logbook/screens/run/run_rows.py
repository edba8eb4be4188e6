"""How a measuring run is shown: a row for each size, the value, what may be typed."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from logbook.quantity import Quantity
from logbook.records.together.snapshot import Snapshot
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.rows import LABEL_ROOM
from logbook.screens.run.in_hand import can_read
from logbook.screens.run.run_state import RunState
from logbook.screens.run.slot_history import earlier, had_words
from logbook.screens.run.slots import Slot
from logbook.screens.run.value_shown import ValueShown

EXAMPLE = "178.6"
"""A number where nothing is known of the size that is typed."""


def rows_of_run(
    run: RunState,
    snapshot: Snapshot,
    label_of: Callable[[Slot], str],
    *,
    beside: bool = False,
) -> list[Line]:
    """Give a row for each size; names too long for the margin stand beside it.

    What other pieces read is left to what stands `beside` the rows, if anything does;
    in a batch each stands in its own row, and not in those of all others.
    """
    slots = run.walk.slots
    names = [label_of(slot) for slot in slots]
    width = max((len(name) for name in names), default=0)
    width = width if width > LABEL_ROOM else 0
    places = max((len(slot.place) for slot in slots), default=0)
    batch = len(run.walk.takings) > 1
    found = []
    for at, (slot, name) in enumerate(zip(slots, names, strict=True)):
        had = "" if beside or batch else had_words(snapshot, slot)
        said, place = _said(run, snapshot, slot, had), slot.place.ljust(places)
        if width:
            known = f"{name.ljust(width)}  {place}".rstrip()
            found.append(Line(str(at), str(at + 1), said, known))
        else:
            found.append(Line(str(at), name, said, place))
    found.append(Line(str(len(slots)), "+", "another: its name and value, w 40.2"))
    return found


def _said(run: RunState, snapshot: Snapshot, slot: Slot, had: str) -> str:
    """Say what a size read: in this run, before it, else what another piece `had`."""
    taken, before = run.taken(slot), earlier(snapshot, slot)
    if taken:
        values = "  ".join(str(reading.value) for reading in taken)
        said = f"{values}  {taken[-1].note or run.judged(slot, taken[-1])}"
    elif before is not None:
        said = f"before: {before.value}"
    else:
        said = f"not measured{had}"
    if doubted := run.doubted.get(slot.where):
        text, why = doubted
        said = f"{said}  {text} not taken" if taken else f"{text} not taken: {why}"
    return said


def asked_at(run: RunState) -> str:
    """Say what may be typed where the run stands."""
    slot, held = run.walk.slot, f" {run.held}" if run.held else ""
    if slot is None:
        return f"a size and its value: w 40.2{held}"
    at = f" at {slot.place}" if slot.place else ""
    last, drawn = run.last_value(slot), slot.drawn.nominal if slot.drawn else None
    last = last or drawn or run.read_elsewhere(slot)
    like = _as_typed(last) if last else EXAMPLE
    return f"{slot.what}{at}{held}: {like}, or left {like} to name its place"


def _as_typed(value: Quantity) -> str:
    """Give a value as it may be typed here: a plain number needs no unit."""
    first, _, more = value.text.partition(" ")
    return value.text if value.metal or "/" in more else first


def show_value(shown: ValueShown, run: RunState, typed: Quantity | None) -> None:
    """Show what is typed, else what was read last."""
    slot = run.walk.slot
    if slot is None and typed is None:
        slot = run.read_last()
    if slot is None:
        shown.show_number("", typed)
        return
    value = typed or run.last_value(slot)
    beside = (
        f"at {slot.place}" if slot.place else "",
        _not_with(run, value),
        slot.what if len(slot.what) > LABEL_ROOM else "",
    )
    said = run.judged(slot, value) if value else "not measured"
    when = "before" if value and not typed and not run.taken(slot) else ""
    shown.only_wanted = run.only_wanted(slot)
    shown.show(slot.what, slot.drawn, value, said, beside, when)


def _not_with(run: RunState, value: Quantity | None) -> str:
    """Say that a value is of a kind the instrument named above does not read."""
    tool = run.instrument
    other = tool is not None and value is not None and not can_read(tool, value)
    return f"not with {tool.title}" if tool and other else ""


def several_words(slots: Sequence[Slot]) -> str:
    """Say that several numbers are several readings, and where each was taken."""
    places = ", ".join(slot.place or "no place" for slot in slots)
    return (
        f"{len(slots)} readings of {slots[0].what}, none averaged, at: {places} "
        "(left 178.6 names a place)"
    )
