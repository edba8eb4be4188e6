"""`logbook revise`: open the next revision of a part, with what changed and why."""

from __future__ import annotations

import argparse
import shlex
import sys
from collections.abc import Sequence
from dataclasses import replace

from logbook.advice.changes.file_units import with_units
from logbook.advice.changes.older_words import older_words
from logbook.advice.changes.unlisted import unlisted_in
from logbook.advice.faults.undrawn import unchanged_files
from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import Change, DesignFile, Part, Revision
from logbook.records.kinds.made_public import Release
from logbook.records.making.drafts import Draft
from logbook.records.making.revising import Revising, joined
from logbook.records.sizes.definition import dimension
from logbook.records.sizes.limits import parse_drawn
from logbook.store.designs.design_files import recorded_files


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("part", help="the part")
    parser.add_argument("--changed", default="", help="what changed")
    parser.add_argument("--why", default="", help="the reason")
    parser.add_argument("--because", action="append", default=[], help="an entry's id")
    parser.add_argument(
        "--dimension",
        action="append",
        default=[],
        help="new size, length=178.3 or length=178.3 ±0.1",
    )
    parser.add_argument(
        "--to-suit", action="append", default=[], help="no size any more: made to a gap"
    )
    parser.add_argument("--material", default="", help="where it is another one")
    parser.add_argument(
        "--compensated",
        default="",
        help="what its file allows for already, “kerf 0.18 mm”; “nominal”: for nothing",
    )
    parser.add_argument("--remake", default="", help="yes, no, or “only if …”")
    parser.add_argument(
        "--mates",
        action="append",
        default=[],
        help="what it fits; “same”: what the revision before fits",
    )
    parser.add_argument(
        "--file", action="append", default=[], help="a design file that defines it"
    )
    parser.add_argument(
        "--joins",
        action="append",
        default=[],
        help="a revision opened beside the newest: this has what that changed, too",
    )
    parser.add_argument(
        "--redrawn",
        action="store_true",
        help="no new revision: the newest takes its files as they are on disk now",
    )
    parser.add_argument("--label", default="", help="a label, where the next is not it")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the revision."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    part = names.meant(project.snapshot, args.part, Part)
    before = draft.revision(part)
    files = _files(project, before, args.file)
    if args.redrawn:
        _refuse_released(project, before)
        _refuse_changes(args)
        mates = tuple(args.mates) or before.mates_with
        draft.amend(replace(before, files=files, mates_with=mates))
        return terms.save(project, draft, f"redrawn: {before.title}", args)
    if args.label and args.label in [r.label for r in draft.revisions(part)]:
        raise BadInput(f"--label: {args.label} was used; accepted: a new one, or none")
    _refuse_nothing(args)
    changes = tuple(_change(draft, part, text) for text in args.dimension)
    changes += tuple(_to_suit(draft, part, name) for name in args.to_suit)
    others = [project.snapshot.lookup(one, Revision) for one in args.joins]
    joined(project.snapshot, before, others, changes, args.material)
    revision = Revising(
        changed=args.changed or _of_others(others),
        why=args.why,
        because=tuple(
            names.meant_of(project.snapshot, word, *names.REASONS).ref
            for word in args.because
        ),
        changes=changes,
        files=files,
        material=args.material,
        remake=args.remake,
        compensated=args.compensated.strip(),
        mates=tuple(args.mates),
        label=args.label,
        joins=tuple(one.ref for one in others),
    ).draft(draft, part)
    for path in unchanged_files(revision.files, before):
        if path in args.file:
            print(
                f"careful: {path} holds the same as {before.title} had: is the change "
                "in the file? Saved as told; once it is drawn: logbook revise "
                f"{shlex.quote(part.title)} --redrawn",
                file=sys.stderr,
            )
    code = terms.save(project, draft, f"revision: {revision.title}", args)
    snapshot = project.snapshot
    careful = (*unlisted_in(snapshot, (revision,)), *older_words(snapshot, (revision,)))
    for said in careful:
        print(f"careful: {said}", file=sys.stderr)
    return code


def _of_others(others: Sequence[Revision]) -> str:
    """Say what comes in with the revisions that are joined; empty without any."""
    said = (
        f"{one.title} ({one.changed})" if one.changed else one.title for one in others
    )
    names = " and ".join(said)
    return f"has what {names} changed, too" if names else ""


def _refuse_changes(args: argparse.Namespace) -> None:
    """Refuse with a file drawn anew what only a new revision can say."""
    for name in (
        "changed", "why", "because", "dimension", "to_suit", "material", "remake",
        "label", "compensated", "joins",
    ):  # fmt: skip
        if getattr(args, name):
            option = f"--{name.replace('_', '-')}"
            raise BadInput(
                f"--redrawn: found {option} beside it; accepted with it: --file and "
                f"--mates; {option} opens a new revision, without --redrawn"
            )


def _refuse_nothing(args: argparse.Namespace) -> None:
    """Refuse a revision of which nothing is said: nobody could tell it apart."""
    said = (
        args.changed, args.why, args.because, args.dimension, args.to_suit,
        args.material, args.remake, args.mates, args.file, args.label,
        args.compensated, args.joins,
    )  # fmt: skip
    if not any(said):
        raise BadInput(
            f"revise {args.part}: nothing was said of the revision; accepted: what "
            "changed, as in --changed “holes 9 mm in”"
        )


def _files(
    project: Project, before: Revision, named: list[str]
) -> tuple[DesignFile, ...]:
    """Give the files of a revision as they are on disk; a missing one stays known."""
    known = recorded_files(project.root)
    files = [known.get(file.path, file) for file in before.files]
    for path in named:
        if path not in known:
            raise BadInput(f"--file: {path} is no design file here; accepted: its path")
        if path not in [file.path for file in files]:
            files.append(known[path])
    return with_units(files, before.files)


def _refuse_released(project: Project, revision: Revision) -> None:
    """Refuse to redraw a released revision: what was published stays as it was."""
    for release in project.snapshot.all(Release):
        if revision.id in {ref.id for ref in release.revisions}:
            raise BadInput(
                f"{revision.title} was released in {release.label}; "
                "accepted: a new revision, without --redrawn"
            )


def _change(draft: Draft, part: Part, text: str) -> Change:
    name, sign, size = text.rpartition("=")
    if not sign:
        raise BadInput(
            f"--dimension: found “{text}”; accepted: name=size, length=178.3"
        )
    item = draft.characteristic(part, name.strip())
    was = dimension(draft.snapshot, draft.revision(part), item).nominal
    drawn = parse_drawn(size.strip(), draft.snapshot.project.unit)
    if drawn.nominal is None:
        raise BadInput(
            f"--dimension: found “{text}”; accepted: name=size with or without limits, "
            "length=178.3 ±0.1"
        )
    return Change(
        characteristic=item.ref,
        was=was,
        becomes=drawn.nominal,
        lower_limit=drawn.lower,
        upper_limit=drawn.upper,
    )


def _to_suit(draft: Draft, part: Part, name: str) -> Change:
    """Take the size of a dimension away, as it is made to suit from now on."""
    item = draft.characteristic(part, name.strip())
    was = dimension(draft.snapshot, draft.revision(part), item).nominal
    return Change(characteristic=item.ref, was=was, to_suit=True)
