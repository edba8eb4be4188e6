"""What `logbook settle` does of two revisions, or two releases, of one label."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator

from logbook.advice.changes.branched import branched
from logbook.cli import terms
from logbook.errors import BadInput
from logbook.project import Project
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Release
from logbook.records.making.drafts import Draft
from logbook.records.making.one_label import (
    Contest,
    Labelled,
    called_anew,
    contests,
    exchanged,
    faults_led_on,
    releases_of,
    tag_anew,
)
from logbook.records.together.snapshot import Snapshot
from logbook.store.acts.released import tagged, without_tag
from logbook.store.acts.whose_tag import sent_out, wrongly_tagged
from logbook.store.git.repository import Repository


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare how it is said which of two of one label keeps it."""
    parser.add_argument(
        "--keeps-label",
        action="append",
        default=[],
        metavar="ID",
        help="this release or revision keeps its label, the other gets the next",
    )


def relabelled(project: Project, args: argparse.Namespace) -> list[str]:
    """Give what nobody else has another label; what went out only as told.

    Raises:
        BadInput: what is to keep its label is neither a release nor a revision.
    """
    said = {_meant(project.snapshot, words).id for words in args.keeps_label}
    done = _turned_round(project, args, said)
    asked: set[str] = set()
    while contest := next(_open(project, said, asked), None):
        if contest.kept is None:
            asked.add(contest.older.id)
            if kept := _asked(project, contest, args):
                said.add(kept)
            continue
        done += _called_anew(project, contest, args)
    return done


def left_to_say(project: Project) -> Iterator[str]:
    """Say of which labels nobody has said who keeps them, and what tags ask for."""
    for contest in contests(project.snapshot, (), _out(project)):
        if contest.kept is None:
            yield from _open_words(project, contest)
    yield from branched(project.snapshot)
    where = (project.snapshot, project.root, project.repository)
    yield from without_tag(*where)
    yield from wrongly_tagged(*where)


def _open(project: Project, said: set[str], asked: set[str]) -> Iterator[Contest]:
    """Give what can be decided, and what can still be asked."""
    for one in contests(project.snapshot, said, _out(project)):
        if one.kept is not None or one.older.id not in asked:
            yield one


def _out(project: Project) -> frozenset[str]:
    return sent_out(project.snapshot, project.root, project.repository)


def _called_anew(
    project: Project, contest: Contest, args: argparse.Namespace
) -> list[str]:
    gives, kept = contest.gives_way, contest.kept
    assert gives is not None
    snapshot, repository = project.snapshot, project.repository
    anew = called_anew(
        snapshot, gives, lambda label: _tag_stands(repository, gives, label)
    )
    draft = project.draft(terms.moment(args))
    draft.amend(anew)
    done = [f"{gives.title} is now {anew.title}  [{gives.id}]{_why(contest)}"]
    if isinstance(anew, Release) and isinstance(kept, Release):
        done[0] = (
            f"release {kept.label} is now {anew.title}  [{gives.id}]{_why(contest)}"
        )
        done += _faults_led_on(draft, anew, kept)
    elif isinstance(gives, Revision):
        done += _went_out_as(snapshot, gives)
    project.save(draft, f"settle: {anew.title}", terms.moment(args))
    return done


def _tag_stands(repository: Repository, one: Labelled, label: str) -> bool:
    return isinstance(one, Release) and tagged(repository, tag_anew(one, label))


def _why(contest: Contest) -> str:
    return f": {contest.why}" if contest.why else ""


def _faults_led_on(draft: Draft, anew: Release, kept: Release) -> Iterator[str]:
    for fault in faults_led_on(draft.snapshot, anew, kept, kept.label):
        draft.amend(fault)
        yield f"  {fault.title}  [{fault.id}]: of {', '.join(fault.releases)}"


def _went_out_as(snapshot: Snapshot, revision: Revision) -> Iterator[str]:
    """Say under which label a revision went out that is called otherwise now."""
    if held := releases_of(snapshot, revision):
        labels = " and ".join(one.label for one in held)
        yield (
            f"  it went out as {revision.title} in {labels}: what was frozen there "
            "says so still; tell whoever holds it"
        )


def _turned_round(
    project: Project, args: argparse.Namespace, said: set[str]
) -> list[str]:
    """Let a release have back the label that another has now; each gets the other's."""
    done = []
    for release in project.snapshot.all(Release):
        others = [
            one
            for one in project.snapshot.all(Release)
            if one.title in release.formerly and one.title != release.title
        ]
        if release.id not in said or len(others) != 1:
            continue
        draft = project.draft(terms.moment(args))
        both = exchanged(release, others[0])
        for one in both:
            draft.amend(one)
        subject = f"settle: {both[0].title}, {both[1].title}"
        project.save(draft, subject, terms.moment(args))
        done += [f"{one.formerly[-1]} is now {one.title}  [{one.id}]" for one in both]
    return done


def _meant(snapshot: Snapshot, words: str) -> Labelled:
    found = snapshot.lookup(words)
    if isinstance(found, Release | Revision):
        return found
    raise BadInput(
        f"--keeps-label: “{words}” is neither a release nor a revision; accepted: the "
        "id of one"
    )


def _open_words(project: Project, contest: Contest) -> Iterator[str]:
    name = _name(contest)
    anew = called_anew(project.snapshot, contest.later, lambda _: False).title
    yield (
        f"{name} is two, made apart, and both went out: one keeps the label, the other "
        f"becomes {anew}; nothing is changed until you say which:"
    )
    for one in (contest.older, contest.later):
        yield f"  logbook settle --keeps-label {one.id}    {_told(project, one)}"


def _name(contest: Contest) -> str:
    older = contest.older
    return f"release {older.label}" if isinstance(older, Release) else older.title


def _told(project: Project, one: Labelled) -> str:
    """Tell a release or revision apart from the other of its label."""
    day = f"{one.when.astimezone():%Y-%m-%d %H:%M}"
    if isinstance(one, Revision):
        held = ", ".join(each.label for each in releases_of(project.snapshot, one))
        where = f", in release {held}" if held else ""
        return f"{day}{where}: {one.changed or one.why or 'nobody said what changed'}"
    said = one.summary or ", ".join(ref.name for ref in one.revisions)
    where = "in a branch of others" if one.id in _out(project) else "in no other branch"
    return f"{day}, {where} that this clone knows: {said}"


def _asked(project: Project, contest: Contest, args: argparse.Namespace) -> str | None:
    """Ask at a terminal which keeps its label; None where nobody says."""
    if args.json or not sys.stdin.isatty():
        return None
    both = (contest.older, contest.later)
    print(f"{_name(contest)} is two, made apart, and both went out:")
    for key, one in enumerate(both, 1):
        print(f"  {key}  {one.id}, {_told(project, one)}")
    keys = {"1": both[0].id, "2": both[1].id, "": ""}
    answer = terms.ask_key("which keeps the label?  1 / 2 / Enter: later ", keys)
    return answer or None
