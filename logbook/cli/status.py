"""`logbook status`: what became of a piece, a revision, a part or a release."""

from __future__ import annotations

import argparse
from collections.abc import Sequence

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Status
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import State
from logbook.records.kinds.workshop import Piece

STATES = [state.value for state in State if state is not State.NOT_MET]
OF_REVISIONS = (State.WITHDRAWN, State.CONFIRMED)
OF_RELEASES = (State.WITHDRAWN,)
OF_PIECES = tuple(
    state for state in State if state not in {State.WITHDRAWN, State.NOT_MET}
)


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "of", help="the piece or the revision; a part or a release, to withdraw it"
    )
    parser.add_argument("state", choices=STATES, help="what it is now")
    parser.add_argument("--after", help="time in use, 40 h")
    parser.add_argument("--place", default="", help="where it is now")
    parser.add_argument("--because", "--why", default="", help="the reason")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the status."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    state = State(args.state)
    found = names.meant(project.snapshot, args.of)
    if not isinstance(found, Piece | Revision | Part | Release):
        what = "a piece, a revision, a part or a release"
        raise BadInput(f"“{args.of}” is none of these; accepted: {what}")
    own = _states_of(found)
    if state not in own:
        raise BadInput(
            f"{found.title} is never “{args.state}”; accepted: {', '.join(own)}"
        )
    here = args.build or project.at_hand
    after = terms.value(args.after, draft) if args.after else None
    if after is not None and after.dimension != "time":
        raise BadInput(f"--after: found {after}; accepted: a time, such as 40 h")
    draft.add(
        Status(
            id=new_id(),
            title=f"{found.title} {args.state}" + (f" after {after}" if after else ""),
            when=draft.when,
            build=draft.build().ref if here else None,
            of=found.ref,
            state=state,
            place=args.place,
            because=args.because,
            after=after,
        )
    )
    return terms.save(project, draft, f"{args.state}: {found.title}", args)


def _states_of(found: Piece | Revision | Part | Release) -> Sequence[State]:
    if isinstance(found, Piece):
        return OF_PIECES
    return OF_RELEASES if isinstance(found, Release) else OF_REVISIONS
