"""Every tool of a release in one list: what it is for, and what can stand in for it.

To what the steps name comes what was really used: what joints were tightened with, the
machines pieces were made on, the instruments they were measured with.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass

from logbook.publish.release.readback import SaidStep
from logbook.publish.release.released import Released
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Joint, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Run
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Instrument, Machine, Piece
from logbook.records.states.pieces import pieces_of
from logbook.records.states.practice import is_practice
from logbook.records.states.statements import Form
from logbook.records.together.names import folded
from logbook.records.together.references import part_of


@dataclass(frozen=True, slots=True)
class ToolView:
    """A tool with what it is for and what can stand in, tried or not; in words."""

    name: str
    use: str
    instead: str


def tools_used(
    released: Released, steps: Mapping[int, SaidStep]
) -> tuple[ToolView, ...]:
    """Give the tools of the steps, by number, then what only builds used."""
    used = _in_steps(steps)
    known = {folded(name): name for name in used}
    more = (
        *_tightened(released),
        *_machines(released),
        *_not_named(released),
        *_instruments(released),
    )
    for name, takes, what in more:
        full = f"{name} ({takes})" if takes else name
        uses, _ = used.setdefault(known.get(folded(name), full), ([], []))
        uses.append(what)
    return tuple(
        ToolView(name, "; ".join(uses), "; ".join(dict.fromkeys(instead)))
        for name, (uses, instead) in used.items()
    )


def _in_steps(
    steps: Mapping[int, SaidStep],
) -> dict[str, tuple[list[str], list[str]]]:
    """Give for each tool in which steps it is used, and what stands in there.

    Where a step has several tools, nobody said for which of them something stands in.
    """
    numbers: dict[str, list[int]] = defaultdict(list)
    instead: dict[str, list[str]] = defaultdict(list)
    for number, said in steps.items():
        tools = said.of("tools")
        for tool in tools:
            numbers[tool].append(number)
            if len(tools) == 1:
                instead[tool] += said.of("instead")
    found = {
        tool: ([f"{'step' if len(at) == 1 else 'steps'} {', '.join(map(str, at))}"],
               instead[tool])
        for tool, at in numbers.items()
    }  # fmt: skip
    for number, said in steps.items():
        tools = said.of("tools")
        if len(tools) != 1 and said.of("instead"):
            name = f"one of {', '.join(tools)}" if tools else "not named"
            found[name] = ([f"step {number}"], [*said.of("instead")])
    return found


def _tightened(released: Released) -> Iterator[tuple[str, str, str]]:
    """Give each tool joints of the release were tightened with, and which."""
    used: dict[str, list[str]] = defaultdict(list)
    for statement in released.of(Form.JOINT):
        joint = released.live(statement)
        if isinstance(joint, Joint) and joint.torque_with:
            used[joint.torque_with].append(joint.title)
    for tool, names in used.items():
        yield tool, "", f"tightened: {_once(names)}"


def _machines(released: Released) -> Iterator[tuple[str, str, str]]:
    """Give each machine pieces of the release were made on, what it takes, for what."""
    snapshot = released.snapshot
    made: dict[str, tuple[Machine, list[str]]] = {}
    for piece in snapshot.all(Piece):
        machine, part = snapshot.find(piece.machine, Machine), part_of(snapshot, piece)
        if machine and part and part in released.needed:
            made.setdefault(machine.id, (machine, []))[1].append(part.title)
    for machine, names in made.values():
        yield machine.title, _size("takes ", machine.bed), f"made: {_once(names)}"


def without_tool(released: Released) -> tuple[str, ...]:
    """Name the parts made here of which neither a tool nor a machine is on record."""
    bare = _bare(released)
    return tuple(f"{part.title} ({', '.join(part.process)})" for part in bare)


def _not_named(released: Released) -> Iterator[tuple[str, str, str]]:
    """Give each process of such parts, and which they are."""
    made: dict[str, list[str]] = defaultdict(list)
    for part in _bare(released):
        for process in part.process:
            made[process].append(part.title)
    for process, names in made.items():
        yield f"for {process}: which, nobody has said", "", f"made: {_once(names)}"


def _bare(released: Released) -> Iterator[Part]:
    snapshot = released.snapshot
    worked = {
        ref.id
        for statement in released.of(Form.STEP)
        if (step := snapshot.find(statement.of, Step)) and step.tools
        for ref in (*filter(None, (step.makes,)), *step.uses)
    }
    for part in released.needed:
        here = part.source is Source.MADE and not is_practice(snapshot, part)
        on_one = any(piece.machine for piece in pieces_of(snapshot, part))
        if here and part.process and part.id not in worked and not on_one:
            yield part


def _instruments(released: Released) -> Iterator[tuple[str, str, str]]:
    """Give each instrument the release was measured with, its range, and for what."""
    snapshot = released.snapshot
    read: dict[str, tuple[Instrument, list[str]]] = {}
    for run in snapshot.all(Run):
        tool, part = snapshot.find(run.instrument, Instrument), part_of(snapshot, run)
        if tool and part and part in released.needed:
            sizes = _once(reading.what.name for reading in run.readings)
            told = f"{part.title} ({sizes})" if sizes else part.title
            read.setdefault(tool.id, (tool, []))[1].append(told)
    for tool, names in read.values():
        yield tool.title, _range(tool), f"measured: {_once(names)}"


def _range(tool: Instrument) -> str:
    """Give the range of an instrument, where its name does not tell it."""
    ends = [str(one) for one in tool.range]
    if not ends or folded(ends[-1]) in folded(tool.title):
        return ""
    return " to ".join(ends)


def _size(lead: str, sides: Iterable[Quantity]) -> str:
    said = " × ".join(map(str, sides))
    return f"{lead}{said}" if said else ""


def _once(names: Iterable[str]) -> str:
    return ", ".join(dict.fromkeys(filter(None, names)))
