"""The parts list of a release: what to make and to get, how many, what instead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace

from logbook.publish.parts.asbuilt import example
from logbook.publish.parts.counted_told import counted
from logbook.publish.release.readback import SaidLine, read_joint, read_line
from logbook.publish.release.released import Mark, Released
from logbook.records.kinds import assembling
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.words import Source
from logbook.records.sizes.definition import NO_LIMITS, dimension
from logbook.records.states.practice import is_practice
from logbook.records.states.statements import Form
from logbook.records.states.tried import tried_words
from logbook.records.states.wanted import only_wanted
from logbook.records.together.revisions import shown_label

GROUPS = {
    Source.MADE: "Make",
    Source.SERVICE: "Have made",
    Source.BOUGHT: "Buy",
}


@dataclass(frozen=True, slots=True)
class LineView:
    """A line of the parts list, in words; `total` where several lines add up."""

    name: str
    revision: str
    pieces: str
    what: str
    used: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class Listed:
    """A line with its part, as released, and the statement it was read from."""

    said: SaidLine
    part: Part | None
    statement: Statement

    @property
    def name(self) -> str:
        """Give the name of the part."""
        return self.part.title if self.part else self.said.name

    @property
    def dropped(self) -> bool:
        """Tell whether the line says that none is needed."""
        return self.said.quantity == 0 and not self.said.spare


def listed(released: Released) -> tuple[Listed, ...]:
    """Give the lines of a release as they were released, without test pieces."""
    snapshot = released.snapshot
    found = []
    for statement in released.of(Form.LINE):
        record = snapshot.find(statement.of)
        ref = record.part if isinstance(record, assembling.Line) else statement.of
        part = snapshot.find(ref, Part)
        if part is not None and is_practice(snapshot, part):
            continue
        said = read_line(statement.says)
        live = released.live(statement)
        if isinstance(live, assembling.Line):
            said = replace(said, substitutes=live.substitutes)
        found.append(Listed(said, part, statement))
    return tuple(found)


def groups(
    released: Released, lines: tuple[Listed, ...]
) -> tuple[tuple[str, tuple[LineView, ...]], ...]:
    """Give the lines that are needed, by what is to be done: make, have made, buy."""
    needed = [line for line in lines if not line.dropped]
    made = []
    for source, words in GROUPS.items():
        views = tuple(
            _view(released, line, lines)
            for line in needed
            if (line.said.source or Source.MADE) is source
        )
        if views:
            made.append((words, views))
    return tuple(made)


def not_needed(
    released: Released, lines: tuple[Listed, ...]
) -> tuple[tuple[str, str], ...]:
    """Give the parts that are listed as not needed, with what the list says of it.

    And with the files that lie there for them, which nobody has to make.
    """
    return tuple(
        (
            line.name,
            "; ".join(filter(None, (line.said.bought_as, _its(released, line)))),
        )
        for line in lines
        if line.dropped
    )


def _its(released: Released, line: Listed) -> str:
    revision = released.revision(line.part) if line.part else None
    return ", ".join(file.path for file in revision.files) if revision else ""


def _view(released: Released, line: Listed, lines: tuple[Listed, ...]) -> LineView:
    said, part = line.said, line.part
    revision = released.revision(part) if part else None
    label = ""
    if part and revision and said.source is not Source.BOUGHT:
        tried = tried_words(released.snapshot, revision)
        label = f"{shown_label(revision)}, {tried}"
    bought = said.source is Source.BOUGHT
    if bought and revision and revision.follows:
        label = shown_label(revision)
    thick = "" if bought else _thick(released, part)
    material = ", ".join(filter(None, (said.material, thick)))
    more = _bought_by(released, part, revision) if bought else ()
    what = "; ".join(filter(None, (said.bought_as, material, *more)))
    if said.critical:
        what = f"{what}; matters: {said.critical}".removeprefix("; ")
    return LineView(
        name=line.name,
        revision=label,
        pieces=pieces_words(released, line, lines),
        what=what,
        used=counted(released.snapshot, part, revision) if part else "",
        marks=released.marked(line.statement.id),
    )


def _bought_by(
    released: Released, part: Part | None, revision: Revision | None
) -> Iterator[str]:
    """Say what is bought beside the words of its line: what is new, sizes drawn."""
    if new := new_in(revision):
        yield new
    if part and (sizes := ", ".join(_sizes(released, part))):
        yield sizes
    if part and (read := ", ".join(_read(released, part, revision))):
        yield f"measured: {read}"


def new_in(revision: Revision | None) -> str:
    """Say what is new in a revision; its line's words may be older. Empty of none."""
    if revision is None or not revision.follows or not revision.changed:
        return ""
    return f"new in {shown_label(revision)}: {revision.changed}"


def _read(released: Released, part: Part, revision: Revision | None) -> Iterator[str]:
    """Give what was read of a part that no drawing has: it tells the right one."""
    for statement in released.of(Form.DIMENSION):
        item = released.snapshot.find(statement.of, Characteristic)
        of_it = item is not None and released.snapshot.find(item.part) is part
        if item is not None and of_it and item.nominal is None:
            found = example(released.snapshot, part, item, revision)
            if found:
                yield f"{item.title} {found}"


def _sizes(released: Released, part: Part) -> Iterator[str]:
    """Give the sizes of a part as released, as `bore 6.0 mm`; none only wanted."""
    for statement in released.of(Form.DIMENSION):
        item = released.snapshot.find(statement.of, Characteristic)
        if item is None or released.snapshot.find(item.part) is not part:
            continue
        size = statement.says.partition(": ")[2].removesuffix(f", {NO_LIMITS}")
        if size[:1].isdigit() and not _undrawn(released, part, item):
            yield f"{item.title} {size}"


def _undrawn(released: Released, part: Part, item: Characteristic) -> bool:
    """Tell whether a size was only wanted, and no revision up to this draws it."""
    drawn = dimension(released.snapshot, released.revision(part), item)
    return drawn.nominal == item.nominal and only_wanted(released.snapshot, item)


def _thick(released: Released, part: Part | None) -> str:
    """Give the drawn thickness of a part whose list line has none: it is bought by it.

    Empty where the part itself has one, or the drawing gives no size.
    """
    if part is None or part.thickness is not None:
        return ""
    sizes = _sizes(released, part)
    return next((one for one in sizes if one.casefold().startswith("thickness ")), "")


def pieces_words(released: Released, line: Listed, lines: tuple[Listed, ...]) -> str:
    """Say how many pieces one unit takes: per assembly and in all, spares apart."""
    said = line.said
    if said.quantity is None:
        return _in_joints(released, line)
    words = str(said.quantity)
    if said.amount:
        words = said.amount if said.quantity == 1 else f"{words} × {said.amount}"
    if said.into:
        words += f" in each {said.into}"
    if said.places:
        words += f" ({', '.join(said.places)})"
    if said.spare:
        words += f" + {said.spare} spare"
    same = [one for one in lines if one.name == line.name]
    if said.into or len(same) > 1:
        words += f"; {in_all(line.name, lines)} in all"
    return words


def in_all(
    name: str, lines: Iterable[Listed], above: frozenset[str] = frozenset()
) -> int:
    """Count the pieces of a part in one unit, through the assemblies it is in.

    An assembly that is on no line, or in itself, counts once.
    """
    every = tuple(lines)
    total = 0
    for line in every:
        if line.name != name or line.said.quantity is None:
            continue
        into = line.said.into
        held = into and into not in above and any(one.name == into for one in every)
        times = in_all(into, every, above | {name}) if held else 1
        total += line.said.quantity * times
    return total


def _in_joints(released: Released, line: Listed) -> str:
    """Say what the joints tell of a part of which nobody said how many a unit takes.

    What is bought is counted with each screw it lies under. A part that is made has
    several screws through one piece: only what one of them goes through is known.
    """
    if line.part is None:
        return "not stated"
    each, most = 0, 0
    for statement in released.of(Form.JOINT):
        said = read_joint(statement.says)
        names = said.layers.split(", ")
        same = sum(is_layer(layer, line.part.title) for layer in names)
        each += int(said.number or 1) * same
        most = max(most, same)
    if not most:
        return "not stated"
    if line.said.source is Source.BOUGHT:
        return f"{each}, counted from the joints"
    return f"at least {most}; nobody said how many"


def is_layer(layer: str, name: str) -> bool:
    """Tell whether a layer, `washer 0.8 mm`, is of the part called so."""
    left = layer.removeprefix(name)
    return left != layer and (not left or left.lstrip()[:1].isdigit())
