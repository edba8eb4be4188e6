"""A gap as a builder can use it: measure first, then make the last part to suit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from logbook.errors import LogbookError
from logbook.publish.asbuilt import example
from logbook.publish.statements import limits_text
from logbook.quantity import Quantity, quantity
from logbook.records import model
from logbook.records.model import Characteristic, Fit, Part
from logbook.records.snapshot import Snapshot
from logbook.records.state import characteristics_of, current_revision
from logbook.shop.formula import Formula, Name, Node, Sum, read_formula


@dataclass(frozen=True, slots=True)
class GapView:
    """A gap: what to do, line by line, and what it came to in one build."""

    name: str
    says: tuple[str, ...]
    example: str


def gap_view(snapshot: Snapshot, gap: Fit) -> GapView:
    """Tell a gap: its limits, what is made last and to which size."""
    last = snapshot.find(gap.made_last, Characteristic)
    said = [f"The gap, {gap.formula}, has to be {limits_text(gap)}."]
    try:
        formula = read_formula(gap.formula)
    except LogbookError:
        return GapView(gap.title, tuple(said), "")
    if last is not None:
        said.append(_made_last(snapshot, gap, formula, last))
    return GapView(gap.title, tuple(said), "; ".join(_examples(snapshot, formula)))


def _made_last(
    snapshot: Snapshot, gap: Fit, formula: Formula, last: Characteristic
) -> str:
    part = snapshot.find(last.part, Part)
    what = f"{last.title} of the {part.title}" if part else last.title
    aim = middle(gap)
    others = [
        str(name) for name in formula.names if name_is(snapshot, name) is not last
    ]
    measure = f"Make everything else first and measure {', '.join(others)}."
    if aim is None:
        return f"{measure} Then make the {what} so that the gap keeps its limits."
    rest = _rest(snapshot, formula.root, last)
    if rest is None:
        return f"{measure} Then make the {what} so that the gap comes to {aim}."
    return (
        f"{measure} Then make the {what} = {rest} − {aim}, whatever the drawing says; "
        "of several places the smallest counts."
    )


def middle(gap: Fit) -> Quantity | None:
    """Give the middle of a gap's limits, in the unit and digits of the lower one."""
    low, high = gap.lower_limit, gap.upper_limit
    if low is None or high is None or low.metal or high.metal:
        return None
    middle_ = (low.value + high.to(low.unit)) / 2
    step = low.step or high.step or Fraction(1, 100)
    return quantity(middle_, low.unit, step if middle_ % step == 0 else step / 10)


def _rest(snapshot: Snapshot, root: Node, last: Characteristic) -> str | None:
    """Give the formula without the term made last, where that is subtracted once."""
    if not isinstance(root, Sum):
        return None
    made = [
        at
        for at, (sign, term) in enumerate(root.terms)
        if sign == -1 and isinstance(term, Name) and name_is(snapshot, term) is last
    ]
    left = [term for at, term in enumerate(root.terms) if at not in made]
    if len(made) != 1 or not all(isinstance(term, Name) for _, term in left):
        return None
    said = ""
    for sign, term in left:
        joined = " + " if sign > 0 else " − "
        said += (joined if said or sign < 0 else "") + str(term)
    return said.strip()


def name_is(snapshot: Snapshot, name: Name) -> Characteristic | None:
    """Give the dimension a name in a formula means."""
    for part in snapshot.all(Part):
        if name.part in {part.name, part.title.casefold()}:
            for item in characteristics_of(snapshot, part):
                if name.dimension in {item.name, item.title.casefold()}:
                    return item
    return None


def _examples(snapshot: Snapshot, formula: Formula) -> Iterator[str]:
    seen: list[model.Record] = []
    for name in formula.names:
        item = name_is(snapshot, name)
        part = snapshot.find(item.part, Part) if item else None
        if item is None or part is None or item in seen:
            continue
        seen.append(item)
        found = example(snapshot, part, item, current_revision(snapshot, part))
        if found:
            yield f"{part.title} {item.title} {found}"
