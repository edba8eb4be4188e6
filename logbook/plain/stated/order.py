"""A step, a hold and a gap with their options, and the record each comes to."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace

from logbook.errors import BadInput, NotFound
from logbook.plain.stated.part_names import new_part
from logbook.plain.stated.restated import given, without, without_option
from logbook.plain.stated.several_told import parts_told, things_told
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Fit, Hold, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.making.gaps import spelt, stated_gap
from logbook.records.sizes.limits import parse_drawn
from logbook.records.states.held_for import is_of_a_day
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot
from logbook.shop.chains.formula import read_formula

_OF_STEP = {
    "makes": ("makes",), "uses": ("uses",), "after": ("after",), "closes": ("closes",),
    "inside": ("inside",), "tested": ("tested",), "clean": ("clean",),
    "tool": ("tools",), "instead": ("substitutes",), "process": ("process",),
    "set": ("set_to",), "accept": ("accept",), "time": ("time",),
}  # fmt: skip
"""What may be taken away of a step: the option that tells it, and its facts."""

_OF_GAP = {
    "limits": ("lower_limit", "upper_limit"), "last": ("made_last",),
    "one-instrument": ("one_instrument",), "setup-error": ("setup_error",),
    "coating": ("coating", "coated_faces"), "chance": ("chance",), "step": ("step",),
}  # fmt: skip


def step_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a step is told with."""
    parser.add_argument("name", help="the operation, “rivet the lid on”")
    parser.add_argument(
        "--number", type=int, help="its place in the order of work; who has it moves on"
    )
    parser.add_argument("--makes", default="", help="the part it makes")
    parser.add_argument("--uses", action="append", default=[], help="a part it takes")
    parser.add_argument("--after", action="append", default=[], help="an earlier step")
    parser.add_argument("--closes", action="store_true", help="it cannot be undone")
    parser.add_argument("--inside", action="append", default=[], help="must be inside")
    parser.add_argument(
        "--tested", action="append", default=[], help="must work before"
    )
    parser.add_argument("--clean", action="append", default=[], help="must be clean")
    parser.add_argument("--tool", action="append", default=[], help="a tool for it")
    parser.add_argument(
        "--instead", action="append", default=[], help="does in its place"
    )
    parser.add_argument("--process", action="append", default=[], help="how: riveting")
    parser.add_argument(
        "--set",
        action="append",
        default=[],
        help="what is set for it, “drill 3.3 mm”; with --done as it was set, 3.3 mm",
    )
    parser.add_argument("--accept", default="", help="how to tell that it is right")
    parser.add_argument("--time", help="it takes, or took, 25 min")
    without_option(parser, _OF_STEP)


def stated_step(draft: Draft, args: argparse.Namespace) -> Step:
    """Give the step, in the draft; one of this name keeps what is not told of it.

    A new one without a number comes last; one put in at a used number moves those on
    that follow.

    Raises:
        BadInput: a name or a time cannot be.
        NotFound: an earlier step is none.
    """
    snapshot = draft.snapshot
    number = args.number
    if number is None and not snapshot.named(args.name, Step):
        number = 1 + max((step.number for step in snapshot.all(Step)), default=0)

    insist = getattr(args, "new", False)
    makes = new_part(draft, args.makes, insist=insist).ref if args.makes else None
    uses = parts_told(draft, "uses", args.uses, insist=insist)
    told = given(
        number=number,
        makes=makes,
        uses=tuple(part.ref for part in uses),
        after=tuple(step_meant(snapshot, name).ref for name in args.after),
        closes=args.closes,
        inside=things_told(args.inside),
        tested=things_told(args.tested),
        clean=things_told(args.clean),
        tools=tuple(args.tool),
        substitutes=tuple(args.instead),
        process=tuple(args.process),
        set_to=tuple(args.set),
        accept=args.accept,
        time=_value(args.time, draft),
    )
    told |= without(snapshot, Step, args.name, args, _OF_STEP, told)
    known = snapshot.named(args.name, Step)
    if args.number is not None and not (known and known[0].number == args.number):
        _make_room(draft, args.number, known[:1])
    return draft.state(Step, args.name, told)


def _make_room(draft: Draft, number: int, own: Sequence[Step]) -> None:
    """Move the step that has a number, and those right behind it, one on."""
    last = number
    for step in sorted(draft.snapshot.all(Step), key=lambda one: one.number):
        if step.number < number or step in own or is_withdrawn(draft.snapshot, step):
            continue
        if step.number > last:
            return
        last = step.number + 1
        draft.amend(replace(step, number=last))


def hold_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a hold is told with."""
    parser.add_argument("step", help="the step that waits: its name or its number")
    parser.add_argument("because", help="the reason")
    parser.add_argument("--until", default="", help="what lifts it")
    parser.add_argument(
        "--grade",
        choices=[grade.value for grade in Grade],
        default="wait",
        help="wait, check or remark",
    )


ONCE = (
    "a day comes once: it holds in this build and is not published; for whoever builds "
    "it say how long, as --until 12 h"
)


def stated_hold(draft: Draft, args: argparse.Namespace) -> Hold:
    """Give the hold, in the draft.

    Raises:
        NotFound: no step, or several, are meant.
    """
    step = step_meant(draft.snapshot, args.step)
    of_a_day = is_of_a_day(args.until) and bool(draft.snapshot.all(Build))
    hold = Hold(
        id=new_id(),
        title=f"{step.title}: {args.because}",
        when=draft.when,
        step=step.ref,
        grade=Grade(args.grade),
        until=args.until,
        because=args.because,
        build=draft.build().ref if of_a_day else None,
    )
    if of_a_day:
        draft.remarks.append(ONCE)
    return draft.add(hold)


def gap_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a gap is told with."""
    parser.add_argument("name", help="what the gap is called")
    parser.add_argument(
        "formula",
        nargs="?",
        default="",
        help="base.opening - crossbar.length; of a known gap only where it changes",
    )
    parser.add_argument("--limits", help="0.1 to 0.5")
    parser.add_argument(
        "--last", default="", help="made last, to suit: crossbar.length"
    )
    parser.add_argument(
        "--one-instrument", action="store_true", help="reads both sides"
    )
    parser.add_argument("--setup-error", help="shared by what one setup made")
    parser.add_argument("--coating", help="thickness on one face")
    parser.add_argument("--coated-faces", type=int, help="faces in the gap")
    parser.add_argument("--chance", help="wanted chance of landing, 95 %%")
    parser.add_argument("--step", default="", help="the step it matters in")
    without_option(parser, _OF_GAP)


def stated_fit(draft: Draft, args: argparse.Namespace) -> Fit:
    """Give the gap, in the draft; one of this name keeps what is not told of it.

    Raises:
        BadInput: the formula, its limits or what is made last cannot be.
        NotFound: the step it matters in is none.
    """
    snapshot = draft.snapshot
    known = snapshot.named(args.name, Fit)
    formula = args.formula or (known[0].formula if known else "")
    if not formula:
        raise BadInput(
            f"the gap “{args.name}” is not on record, and no formula is told; "
            "accepted: one, base.opening - crossbar.length"
        )
    wanted = parse_drawn(args.limits, snapshot.project.unit) if args.limits else None
    gap = stated_gap(draft, args.name, formula, wanted, args.last)
    told = given(
        formula=gap.formula,
        made_last=gap.made_last,
        one_instrument=args.one_instrument,
        setup_error=_value(args.setup_error, draft),
        coating=_value(args.coating, draft),
        coated_faces=args.coated_faces,
        chance=_value(args.chance, draft),
        step=step_meant(snapshot, args.step).ref if args.step else None,
    )
    if known and not args.last and not _stays_last(snapshot, known[0], formula):
        told["made_last"] = None
    if wanted:
        told |= {"lower_limit": gap.lower_limit, "upper_limit": gap.upper_limit}
    told |= without(snapshot, Fit, args.name, args, _OF_GAP, told)
    return draft.state(Fit, args.name, told)


def _stays_last(snapshot: Snapshot, gap: Fit, formula: str) -> bool:
    """Tell whether what a gap makes last is a dimension of a formula still."""
    size = snapshot.find(gap.made_last, Characteristic)
    part = snapshot.find(size.part, Part) if size else None
    if size is None or part is None:
        return True
    named = read_formula(spelt(snapshot, formula)).names
    return (part.name, size.name) in {(one.part, one.dimension) for one in named}


def step_meant(snapshot: Snapshot, words: str) -> Step:
    """Give the one step that is meant, by its name, its number or its id.

    Raises:
        NotFound: no step, or several, are meant.
    """
    numbered = [
        step
        for step in snapshot.all(Step)
        if words.strip() == str(step.number) and not snapshot.named(words, Step)
    ]
    if len(numbered) > 1:
        told = ", ".join(f"“{step.title}”" for step in numbered)
        raise NotFound(f"step {words.strip()} can be {told}; accepted: one of these")
    return numbered[0] if numbered else snapshot.lookup(words, Step)


def step_fits(step: Step, words: Sequence[str]) -> bool:
    """Tell whether a step may be meant: by words of its title, or by its number."""
    if len(words) == 1 and words[0].isdecimal():
        return int(words[0]) == step.number or words[0] in step.title.split()
    called = f"step {step.number} {step.title}".casefold()
    return all(word in called for word in words)


def _value(text: str | None, draft: Draft) -> Quantity | None:
    return parse_quantity(text, draft.snapshot.project.unit) if text else None
