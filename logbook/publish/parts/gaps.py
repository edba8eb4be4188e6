"""A gap as a builder can use it: measure first, then make the last part to suit."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import NamedTuple

from logbook.advice.ground.naming import formula_of, meant
from logbook.decimal_text import plain_number
from logbook.errors import BadInput
from logbook.publish.parts.asbuilt import example
from logbook.publish.release.statements import limits_text
from logbook.quantity import Quantity, quantity
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.words import Source
from logbook.records.kinds.workshop import Build
from logbook.records.together.references import is_of
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import Formula, Name, Node, Sum
from logbook.shop.chains.suit import HALFWAY_FROM


@dataclass(frozen=True, slots=True)
class GapView:
    """A gap: what to do, line by line, and what its sizes became in one build."""

    name: str
    says: tuple[str, ...]
    example: tuple[str, ...]
    build: str = ""


def gap_view(snapshot: Snapshot, gap: Fit) -> GapView:
    """Tell a gap: its limits, what is made last and to which size."""
    last = snapshot.find(gap.made_last, Characteristic)
    said = [f"The gap has to be {limits_text(gap)}: {gap_words(snapshot, gap)}."]
    formula = _formula(gap)
    if formula is None:
        return GapView(gap.title, tuple(said), ())
    if last is not None:
        said += _made_last(snapshot, gap, formula, last)
    build, sizes = _example(snapshot, formula)
    return GapView(gap.title, tuple(said), sizes, build)


def made_to_suit(snapshot: Snapshot, item: Characteristic) -> Fit | None:
    """Give the gap that a dimension is made last for, to suit."""
    for gap in snapshot.all(Fit):
        if snapshot.find(gap.made_last) is item:
            return gap
    return None


def suited_words(snapshot: Snapshot, gap: Fit) -> str:
    """Say to which size what is made last is made, in measured sizes."""
    formula, last = _formula(gap), snapshot.find(gap.made_last, Characteristic)
    rest = _rest(snapshot, formula.root, last) if formula and last else None
    aim = middle(gap)
    if rest is None or aim is None:
        return f"{_SO_THAT} the gap “{gap.title}” comes to {limits_text(gap)}"
    return f"measured {rest.said} {'+' if rest.around else '−'} {aim}"


def made_so(what: str, rule: str) -> str:
    """Say of `what` by which rule it is made, in one clause: “length = measured …”."""
    return f"{what} {rule}" if rule.startswith(_SO_THAT) else f"{what} = {rule}"


_SO_THAT = "so that"
"""How a rule begins that is no size to put behind “=”."""


def gap_words(snapshot: Snapshot, gap: Fit) -> str:
    """Say what a gap is between, in the names of parts and dimensions."""
    formula = _formula(gap)
    words = _terms(snapshot, formula.root) if formula else None
    return words or gap.formula


def _formula(gap: Fit) -> Formula | None:
    try:
        return formula_of(gap.formula)
    except BadInput:
        return None


def _made_last(
    snapshot: Snapshot, gap: Fit, formula: Formula, last: Characteristic
) -> Iterator[str]:
    part = snapshot.find(last.part, Part)
    what = f"the {last.title} of the {part.title}" if part else f"the {last.title}"
    others = [
        _name(snapshot, name)
        for name in formula.names
        if _meant(snapshot, name) is not last
    ]
    if others:
        first = _made_first(snapshot, formula, last)
        before = f"Make {_listed(first)} first. " if first else ""
        yield f"{before}Measure {_listed(others)}."
    made = made_so(what, suited_words(snapshot, gap))
    places = _places(snapshot, gap, formula, last)
    yield f"Then make {made}, whatever the drawing says. {places}"


def _made_first(
    snapshot: Snapshot, formula: Formula, last: Characteristic
) -> list[str]:
    """Give the other parts of a gap that are made; what is bought is at hand as it is.

    Of several gaps each has its own last part: “everything else” cannot be of them all.
    """
    parts = [snapshot.find(item.part, Part) for item in _sizes(snapshot, formula)]
    made = [part for part in parts if part and part.source is not Source.BOUGHT]
    return [part.title for part in made if not is_of(last.part, part)]


def rule_words(snapshot: Snapshot, gap: Fit) -> str:
    """Say to which size what is made last is made, and which of several places counts.

    What one builder did once may not do where places differ more than his did.
    """
    formula, last = _formula(gap), snapshot.find(gap.made_last, Characteristic)
    said = suited_words(snapshot, gap)
    if formula is None or last is None:
        return said
    places = _places(snapshot, gap, formula, last)
    return f"{said}; {places[:1].lower()}{places[1:].rstrip('.')}"


def _places(
    snapshot: Snapshot, gap: Fit, formula: Formula, last: Characteristic
) -> str:
    """Say which of several places counts, as the bench reckons it.

    Where the places differ little the smallest alone is the middle of the gap; halfway
    keeps the limits up to the whole room. What goes around is its mirror image, from
    the largest.
    """
    room, rest = _room(gap), _rest(snapshot, formula.root, last)
    if room is None or rest is None:
        return "Of several places the tightest counts."
    unit = gap.lower_limit.unit if gap.lower_limit else ""
    apart = _rounded_down(room * HALFWAY_FROM, _step(gap))
    return (
        f"Of several places the {'largest' if rest.around else 'smallest'} counts; "
        f"where they differ by {plain_number(apart)} {unit} or more, take halfway "
        "between the smallest and the largest instead; where by more than "
        f"{plain_number(room)} {unit}, no one size suits: put right what was measured."
    )


def _rounded_down(value: Fraction, step: Fraction) -> Fraction:
    """Give a value in whole steps, or in tenths of one where it is only a few."""
    fine = step if value >= _FEW * step else step / 10
    return value // fine * fine


_FEW = 3
"""Steps of the limits from which on what is taken from them needs no finer ones."""


def _step(gap: Fit) -> Fraction:
    """Give the finest step a gap's limits are given in."""
    steps = [one.step for one in (gap.lower_limit, gap.upper_limit) if one and one.step]
    return min(steps, default=Fraction(1, 100))


def _listed(names: list[str]) -> str:
    return ", ".join(f"the {name}" for name in dict.fromkeys(names))


def middle(gap: Fit) -> Quantity | None:
    """Give the middle of a gap's limits, in the unit and digits of the lower one."""
    low, high = gap.lower_limit, gap.upper_limit
    if low is None or high is None or low.metal or high.metal:
        return None
    middle_ = (low.value + high.to(low.unit)) / 2
    step = low.step or high.step or Fraction(1, 100)
    return quantity(middle_, low.unit, step if middle_ % step == 0 else step / 10)


def _room(gap: Fit) -> Fraction | None:
    """Give how far apart a gap's limits are, in the unit of the lower one."""
    low, high = gap.lower_limit, gap.upper_limit
    if low is None or high is None or low.metal or high.metal:
        return None
    return high.to(low.unit) - low.value


class _Rest(NamedTuple):
    """What is measured for a size made last: in words, and whether it goes inside."""

    said: str
    around: bool


def _rest(snapshot: Snapshot, root: Node, last: Characteristic) -> _Rest | None:
    """Give the formula without the term made last, where that stands in it once.

    What is taken off the others goes into them; that they are taken off goes around.
    """
    if not isinstance(root, Sum):
        return None
    made = [
        at
        for at, (_, term) in enumerate(root.terms)
        if isinstance(term, Name) and _meant(snapshot, term) is last
    ]
    if len(made) != 1:
        return None
    around = root.terms[made[0]][0] > 0
    left = [term for at, term in enumerate(root.terms) if at not in made]
    if around:
        turned = [(-sign, term) for sign, term in left]
        left = sorted(turned, key=lambda one: one[0], reverse=True)
    said = _terms(snapshot, Sum(tuple(left)))
    return _Rest(said, around) if said else None


def _terms(snapshot: Snapshot, root: Node) -> str | None:
    """Say a sum of names in words; None for what is no such sum."""
    if not isinstance(root, Sum):
        return None
    said = ""
    for sign, term in root.terms:
        if not isinstance(term, Name):
            return None
        joined = " + " if sign > 0 else " − "
        said += (joined if said or sign < 0 else "") + _name(snapshot, term)
    return said.strip()


def _name(snapshot: Snapshot, name: Name) -> str:
    item = _meant(snapshot, name)
    part = snapshot.find(item.part, Part) if item else None
    if item is None or part is None:
        return str(name)
    place = f", {name.place.replace('_', ' ')}" if name.place else ""
    return f"{item.title} of the {part.title}{place}"


def _meant(snapshot: Snapshot, name: Name) -> Characteristic | None:
    try:
        return meant(snapshot, name).what
    except BadInput:
        return None


def _sizes(snapshot: Snapshot, formula: Formula) -> Iterator[Characteristic]:
    for name in formula.names:
        item = _meant(snapshot, name)
        if item is not None and snapshot.find(item.part, Part) is not None:
            yield item


def _became(snapshot: Snapshot, item: Characteristic, build: Build) -> str:
    part = snapshot.find(item.part, Part)
    current = current_revision(snapshot, part) if part else None
    return example(snapshot, part, item, current, build=build) if part else ""


def _of_part(snapshot: Snapshot, item: Characteristic) -> str:
    part = snapshot.find(item.part, Part)
    return f"{item.title} of the {part.title}" if part else item.title


def _example(snapshot: Snapshot, formula: Formula) -> tuple[str, tuple[str, ...]]:
    """Give the newest build that has most sizes of a gap, and what each became there.

    Sizes of two builds together would come to a gap that nobody has.
    """
    sizes = {item.id: item for item in _sizes(snapshot, formula)}.values()
    best: tuple[str, tuple[str, ...]] = ("", ())
    most = 0
    for build in reversed(snapshot.all(Build)):
        told = [_became(snapshot, item, build) for item in sizes]
        if (count := sum(map(bool, told))) > most:
            most = count
            said = (
                f"{_of_part(snapshot, item)}: {became or 'not measured'}"
                for item, became in zip(sizes, told, strict=True)
            )
            best = build.title, tuple(said)
    return best
