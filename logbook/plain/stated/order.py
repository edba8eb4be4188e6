"""A step, a hold and a gap with their options, and the record each comes to."""

from __future__ import annotations

import argparse
from collections.abc import Sequence
from dataclasses import replace

from logbook.errors import NotFound
from logbook.plain.stated.part_names import new_part
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Fit, Hold, Step
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Grade
from logbook.records.making.drafts import Draft
from logbook.records.making.gaps import stated_gap
from logbook.records.sizes.limits import parse_drawn
from logbook.records.together.snapshot import Snapshot


def step_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a step is told with."""
    parser.add_argument("name", help="the operation, “rivet the lid on”")
    parser.add_argument("--number", type=int, help="its place in the order of work")
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


def stated_step(draft: Draft, args: argparse.Namespace) -> Step:
    """Give the step, in the draft, or the one of this name as it is stated now.

    Without a number it comes last.

    Raises:
        BadInput: a name or a time cannot be.
        NotFound: an earlier step is none.
    """
    snapshot = draft.snapshot
    known = snapshot.named(args.name, Step)
    last = max((step.number for step in snapshot.all(Step)), default=0)
    number = known[0].number if known else last + 1

    def part(name: str) -> Ref:
        return new_part(draft, name, insist=getattr(args, "new", False)).ref

    step = Step(
        id=new_id(),
        title=args.name,
        when=draft.when,
        number=args.number if args.number is not None else number,
        makes=part(args.makes) if args.makes else None,
        uses=tuple(part(name) for name in args.uses),
        after=tuple(step_meant(snapshot, name).ref for name in args.after),
        closes=args.closes,
        inside=tuple(args.inside),
        tested=tuple(args.tested),
        clean=tuple(args.clean),
        tools=tuple(args.tool),
        substitutes=tuple(args.instead),
        process=tuple(args.process),
        set_to=tuple(args.set),
        accept=args.accept,
        time=_value(args.time, draft),
    )
    return draft.state(step)


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


def stated_hold(draft: Draft, args: argparse.Namespace) -> Hold:
    """Give the hold, in the draft.

    Raises:
        NotFound: no step, or several, are meant.
    """
    step = step_meant(draft.snapshot, args.step)
    hold = Hold(
        id=new_id(),
        title=f"{step.title}: {args.because}",
        when=draft.when,
        step=step.ref,
        grade=Grade(args.grade),
        until=args.until,
        because=args.because,
    )
    return draft.add(hold)


def gap_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare what a gap is told with."""
    parser.add_argument("name", help="what the gap is called")
    parser.add_argument("formula", help="base.opening - crossbar.length")
    parser.add_argument("--limits", help="0.1 to 0.5")
    parser.add_argument(
        "--last", default="", help="made last, to suit: crossbar.length"
    )
    parser.add_argument(
        "--one-instrument", action="store_true", help="reads both sides"
    )
    parser.add_argument("--setup-error", help="shared by what one setup made")
    parser.add_argument("--coating", help="thickness on one face")
    parser.add_argument("--coated-faces", type=int, default=0, help="faces in the gap")
    parser.add_argument("--chance", help="wanted chance of landing, 95 %%")
    parser.add_argument("--step", default="", help="the step it matters in")


def stated_fit(draft: Draft, args: argparse.Namespace) -> Fit:
    """Give the gap, in the draft, or the one of this name as it is stated now.

    Raises:
        BadInput: the formula, its limits or what is made last cannot be.
        NotFound: the step it matters in is none.
    """
    unit = draft.snapshot.project.unit
    wanted = parse_drawn(args.limits, unit) if args.limits else None
    gap = replace(
        stated_gap(draft, args.name, args.formula, wanted, args.last),
        one_instrument=args.one_instrument,
        setup_error=_value(args.setup_error, draft),
        coating=_value(args.coating, draft),
        coated_faces=args.coated_faces,
        chance=_value(args.chance, draft),
        step=step_meant(draft.snapshot, args.step).ref if args.step else None,
    )
    return draft.state(gap)


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
