"""`logbook count`: pieces really used, scrapped and left over in a build."""

from __future__ import annotations

import argparse

from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Count
from logbook.records.kinds.ids import new_id
from logbook.records.states.counted import counted_revision, counts_of
from logbook.records.together.names import folded
from logbook.records.together.revisions import revisions_of, shown_label


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("--used", type=int, default=0, help="pieces, not packs")
    parser.add_argument("--scrapped", type=int, default=0, help="pieces spoiled")
    parser.add_argument("--left", type=int, default=0, help="pieces left over")
    parser.add_argument("--revision", help="the revision they were made to")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the count; the last one of a build is what counts."""
    numbers = (args.used, args.scrapped, args.left)
    if min(numbers) < 0 or not any(numbers):
        raise BadInput(
            f"found {args.used} used, {args.scrapped} scrapped, {args.left} left; "
            "accepted: whole numbers from 0, one of them above 0"
        )
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.meant(project.snapshot, args.part, Part)
    made_to = _made_to(project, part, args.revision)
    draft.add(
        Count(
            id=new_id(),
            revision=made_to.ref if made_to else None,
            title=f"{part.title}: {args.used} used, {args.scrapped} scrapped, "
            f"{args.left} left over",
            when=draft.when,
            build=draft.build().ref,
            part=part.ref,
            used=args.used,
            scrapped=args.scrapped,
            spare=args.left,
        )
    )
    code = terms.save(project, draft, f"count: {part.title}", args)
    if not args.json and (missing := _unsaid(project, part)):
        print(missing)
    return code


def _unsaid(project: Project, part: Part) -> str:
    """Say that nobody can tell to which revision the pieces were made."""
    snapshot = project.snapshot
    counts = counts_of(snapshot, part)
    if not counts or counted_revision(snapshot, counts[-1]) is not None:
        return ""
    labels = ", ".join(map(shown_label, revisions_of(snapshot, part)))
    return (
        f"nobody has said to which revision they were made: count again with "
        f"--revision; accepted: {labels}"
    )


def _made_to(project: Project, part: Part, label: str | None) -> Revision | None:
    """Give the revision of the part that is called so: `A`, `rev A`, `first issue`.

    Raises:
        BadInput: the part has none called so.
    """
    if label is None:
        return None
    every = revisions_of(project.snapshot, part)
    for one in every:
        if folded(label) in map(folded, (one.label, shown_label(one), one.title)):
            return one
    accepted = ", ".join(map(shown_label, every))
    raise BadInput(f"{part.title} has no revision “{label}”; accepted: {accepted}")
