"""`logbook release`: freeze what is published under a label, and tag it."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Sequence
from dataclasses import replace

from logbook.advice.faults.unsaid import unsaid
from logbook.cli import terms
from logbook.cli.numbers_asked import ask_numbers
from logbook.cli.pages import stale_of
from logbook.counting import so_many
from logbook.errors import Refused
from logbook.project import Project
from logbook.publish.faults.carried import unchanged, warned
from logbook.publish.guide.control import shapes_of
from logbook.publish.guide.unanswered import HEADING, unanswered
from logbook.publish.release.frozen import (
    Hindered,
    check_label,
    chosen_revisions,
    freeze,
    hindrances,
)
from logbook.publish.release.tagging import set_tag, untagged
from logbook.publish.release.trials import tried_words
from logbook.publish.release.whose_design import whose_design
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.together.revisions import revisions_in


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("label", help="its label, such as 1.0")
    parser.add_argument(
        "--revision",
        action="append",
        default=[],
        help="take this revision of its part, not the current one",
    )
    parser.add_argument("--summary", default="", help="what it is, in one sentence")
    parser.add_argument(
        "--anyway", action="store_true", help="in spite of what is not settled"
    )
    parser.add_argument(
        "--of-another",
        action="store_true",
        help="release it though another person released this design so far",
    )
    parser.add_argument("--check", action="store_true", help="look only, save nothing")
    parser.add_argument("--when", help="when it was released, as 2026-03-14T16:00")
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Freeze, save and tag a release; a label that waits for its tag is tagged."""
    project = terms.opened(args)
    label = check_label(args.label)
    waiting = untagged(project.snapshot, project.root, project.repository, label)
    if waiting is not None:
        return _finish(project, waiting, args)
    revisions = chosen_revisions(project.snapshot, args.revision)
    found = hindrances(
        project.snapshot, project.root, project.repository, revisions, project.at_hand
    )
    made = _frozen(project, label, revisions, args)
    asked = _asked(project, made)
    whose = _whose(project, args)
    warnings = (
        *filter(None, (whose,)),
        *warned(project.snapshot, made),
        *found.unfiled,
    )
    if args.check or (found.unsettled and not args.anyway):
        return _refuse_or_list(args, found, warnings, asked)
    if whose and not sys.stdin.isatty():
        raise Refused(f"{whose}; accepted, if it is meant: --of-another")
    if not args.json:
        _tell_before(args, warnings, whose, asked)
    if _can_ask(args) and ask_numbers(project, revisions, args):
        made = _frozen(project, label, revisions, args)
    draft = project.draft(terms.moment(args))
    made = draft.add(replace(made, commit=project.repository.head() or ""))
    project.save(draft, f"release {label}", terms.moment(args))
    passed = (*found.passed, *found.unsettled)
    return _finish(project, made, args, passed, warnings)


def _frozen(
    project: Project,
    label: str,
    revisions: tuple[Revision, ...],
    args: argparse.Namespace,
) -> Release:
    when = terms.moment(args)
    return freeze(project.snapshot, project.root, label, revisions, when, args.summary)


def _can_ask(args: argparse.Namespace) -> bool:
    return not (args.anyway or args.json) and sys.stdin.isatty()


def _whose(project: Project, args: argparse.Namespace) -> str:
    """Say whose design it is, where that is to be asked."""
    if args.of_another:
        return ""
    return whose_design(project.snapshot, project.root, project.repository)


def _asked(project: Project, made: Release) -> tuple[str, ...]:
    """Give what builders will ask of it that nobody has said."""
    shapes = shapes_of(project.snapshot, project.root, project.repository, made)
    return tuple(unanswered(project.snapshot, made, shapes))


def _tell_before(
    args: argparse.Namespace, warnings: Sequence[str], whose: str, asked: Sequence[str]
) -> None:
    """Tell what goes out with a release while it can still be left; ask where one can.

    Raises:
        Refused: it is not to go out so.
    """
    _print_told(warnings, asked)
    if not whose and not (warnings and _can_ask(args)):
        return
    keys = {"": "", "y": "yes", "n": ""}
    if not terms.ask_key(f"release {args.label} so?  [y: yes / Enter: no] ", keys):
        raise Refused(
            f"release {args.label} was not made, as answered; nothing was saved; "
            "accepted: settle what stands above, then the same again"
        )


def _print_told(warnings: Sequence[str], asked: Sequence[str]) -> None:
    for line in warnings:
        print(line)
    if asked:
        print(HEADING)
    for line in asked:
        print(terms.folded(f"  {line}"))


def _refuse_or_list(
    args: argparse.Namespace,
    found: Hindered,
    remarks: Sequence[str],
    asked: Sequence[str],
) -> int:
    unsettled = found.unsettled
    if args.check:
        if args.json:
            terms.answer(
                unsettled=list(unsettled),
                passed=list(found.passed),
                remarks=list(remarks),
                builders_ask=list(asked),
            )
        else:
            clear = "nothing hinders this release" + (", but know that" * bool(remarks))
            print("\n".join(unsettled) or clear)
            passed = (f"gone past: {one}" for one in found.passed)
            _print_told((*passed, *remarks), asked)
        return Refused.exit_code if unsettled else 0
    listed = "\n  ".join(unsettled)
    raise Refused(
        f"release {args.label} was not made, {len(unsettled)} "
        f"{'thing is' if len(unsettled) == 1 else 'things are'} not settled:\n  "
        f"{listed}\naccepted: settle them, logbook override with the reason, or "
        "--anyway"
    )


def _finish(
    project: Project,
    release: Release,
    args: argparse.Namespace,
    passed: tuple[str, ...] = (),
    warnings: tuple[str, ...] = (),
) -> int:
    outcome = terms.committed(project)
    path = project.snapshot.path(release)
    if not project.taken(path):
        raise Refused(
            f"release {release.label} is saved in {path} but not tagged: "
            f"{outcome['git']}; accepted: logbook release {release.label} again, later"
        )
    said = tried_words(project.snapshot, release)
    set_tag(project.snapshot, project.repository, release)
    held = revisions_in(project.snapshot, release)
    same = list(unchanged(project.snapshot, release))
    asked = [one for one in unsaid(project.snapshot) if one not in warnings]
    stale = stale_of(project)
    if args.json:
        terms.answer(
            release=terms.facts(project, release),
            tried=said,
            passed=list(passed),
            carried=[*warnings, *same],
            unsaid=asked,
            stale=stale,
            **outcome,
        )
        return 0
    for line in passed:
        print(f"passed over: {line}")
    print(
        f"release {release.label}: {so_many(held, 'revision')}, "
        f"{so_many(release.files, 'file')}, "
        f"{so_many(release.statements, 'statement')}  [{release.id}]  {path}"
    )
    for line in same:
        print(terms.folded(line))
    print("\n".join((said, f"tag {release.tag}", outcome["git"], *asked, *stale)))
    return 0
