"""`logbook override`: go on past a hold, with the reason; private unless published."""

from __future__ import annotations

import argparse

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Override
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import OverrideReason

REASONS = {
    "fit": OverrideReason.FIT_BY_HAND,
    "cheap": OverrideReason.CHEAP,
    "checked": OverrideReason.CHECKED,
    "other": OverrideReason.OTHER,
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("hold", help="the hold that is passed, as it is shown")
    parser.add_argument("--reason", choices=sorted(REASONS), default="other")
    parser.add_argument("--because", default="", help="more, in your words")
    parser.add_argument("--step", default="", help="the step that goes on")
    parser.add_argument("--publish", action="store_true", help="tell rebuilders too")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the override.

    Raises:
        BadInput: no reason was given.
    """
    if args.reason == "other" and not args.because.strip():
        raise BadInput(
            "no reason was given; accepted: --because in your words, or --reason fit, "
            "cheap or checked"
        )
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    step = project.snapshot.lookup(args.step, Step).ref if args.step else None
    here = args.build or project.at_hand
    draft.add(
        Override(
            id=new_id(),
            title=f"went on: {args.hold}",
            when=draft.when,
            build=draft.build().ref if here else None,
            hold=args.hold,
            step=step,
            reason=REASONS[args.reason],
            because=args.because,
            published=args.publish,
        )
    )
    return terms.save(project, draft, f"override: {args.hold}", args)
