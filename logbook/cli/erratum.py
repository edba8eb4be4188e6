"""`logbook erratum`: save a known fault drafted from an entry, or change one."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import replace
from datetime import date
from typing import Any

from logbook.advice.faults.drafted import Fault, revision_then, saved_from
from logbook.advice.faults.named import with_name
from logbook.advice.faults.trying import entries_of
from logbook.cli import names, terms
from logbook.cli.fault_called import numbered_fault
from logbook.errors import BadInput, NotFound
from logbook.project import Project
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame, ErratumStatus, Severity, WayRound
from logbook.records.making.not_met import Known, say_not_met
from logbook.records.states.statements import identity
from logbook.records.together.same_faults import kept_fault, saved_faults
from logbook.records.together.snapshot import Snapshot

_TEXTS = {
    "title": "its title",
    "how_to_tell": "how a holder tells that a part is affected",
    "symptom": "what is seen",
    "consequence": "what follows",
    "do_this": "what to do now",
    "side_effects": "what the way round costs",
    "stop_using_until": "do not use it until …",
    "remake": "whether one that is made is made again: no, yes, only if …",
}
_WORDS: Mapping[str, type[Severity | WayRound | ErratumStatus]] = {
    "severity": Severity,
    "way_round": WayRound,
    "status": ErratumStatus,
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "what",
        help="an entry, a known fault, or “fault 2” of the page; with --part a new one",
    )
    for name, purpose in _TEXTS.items():
        parser.add_argument(f"--{name.replace('_', '-')}", help=purpose)
    for name, words in _WORDS.items():
        choices = [word.value for word in words]
        parser.add_argument(f"--{name.replace('_', '-')}", choices=choices)
    parser.add_argument("--fixed-by", help="the revision that cures it")
    parser.add_argument("--part", default="", help="the part, for a fault from scratch")
    for name in ("revision", "release", "statement", "entry"):
        parser.add_argument(
            f"--{name}", action="append", default=[], help=f"one more {name} affected"
        )
    for name in ("revision", "release"):
        parser.add_argument(
            f"--not-{name}", action="append", default=[], help=f"a {name} without it"
        )
    parser.add_argument(
        "--not-met", action="store_true", help="it does not occur in this build"
    )
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Save the known fault."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args), args.build)
    if args.not_met:
        fault = _called(project, args)
        if fault is None:
            raise NotFound(f"no known fault is called “{args.what}”")
        status = say_not_met(draft, fault)
        return terms.save(project, draft, status.title, args)
    before = _meant(project, args)
    after = _changed(project, before, args)
    if before.id in project.snapshot:
        draft.amend(after)
    else:
        draft.add(replace(after, when=draft.when))
    return terms.save(project, draft, f"known fault: {after.title}", args)


def _meant(project: Project, args: argparse.Namespace) -> Erratum:
    """Give the fault meant: saved, drafted from an entry, or a new one of a part."""
    snapshot = project.snapshot
    found = _called(project, args)
    if isinstance(found, Erratum):
        return kept_fault(snapshot, found)
    if found is not None:
        saved = saved_faults(snapshot)
        covering = [e for e in saved if any(r.id == found.id for r in e.from_entries)]
        return covering[-1] if covering else _from_entry(found, project)
    if not args.part:
        raise NotFound(
            f"no deviation, failure or known fault is called “{args.what}”; "
            "accepted: its id or title, or --part for a new fault"
        )
    part = names.meant(snapshot, args.part, Part)
    return Erratum(id=new_id(), title=args.what, part=part.ref)


def _called(project: Project, args: argparse.Namespace) -> Known | None:
    """Give the fault that is named: by its number on a page, else as on record."""
    by_number = numbered_fault(project, args, args.what)
    return by_number or _one_of(project, args.what)


def _one_of(project: Project, words: str) -> Erratum | Fault | None:
    """Give the saved fault called so, else the one entry, else None.

    Raises:
        NotFound: several entries are called so.
    """
    snapshot = project.snapshot
    saved = snapshot.named(words, Erratum)
    entries: tuple[Fault, ...] = (
        *snapshot.named(words, Deviation),
        *snapshot.named(words, Failure),
    )
    if len(saved) == 1:
        return saved[0]
    if len(entries) > 1:
        which = ", ".join(f"{one.title} {one.id}" for one in entries)
        raise NotFound(f"“{words}” can mean {which}; accepted: one of these ids")
    if len(entries) == 1:
        return entries[0]
    try:
        other = snapshot.lookup(words)
    except NotFound:
        return None
    return other if isinstance(other, Erratum | Deviation | Failure) else None


def _from_entry(entry: Fault, project: Project) -> Erratum:
    if entry.met_by_others is not Blame.DRAWING:
        raise BadInput(
            f"“{entry.title}” is put down to {entry.met_by_others.value}; accepted: an "
            "entry whose fault is the drawing's (amend met_by_others first)"
        )
    return saved_from(project.snapshot, entry, new_id())


def _changed(project: Project, before: Erratum, args: argparse.Namespace) -> Erratum:
    snapshot = project.snapshot
    given = vars(args)
    changes: dict[str, Any] = {
        name: given[name] for name in _TEXTS if given[name] is not None
    }
    for name, words in _WORDS.items():
        if given[name] is not None:
            changes[name] = words(given[name])
    if args.fixed_by is not None:
        changes["fixed_by"] = snapshot.lookup(args.fixed_by, Revision).ref
    entries = tuple(
        names.meant_of(snapshot, word, *names.REASONS).ref for word in args.entry
    )
    changes |= _concerns(snapshot, before, args)
    held = {identity(one) for one in before.statements}
    more = tuple(
        with_name(snapshot, one) for one in args.statement if identity(one) not in held
    )
    changes["statements"] = _with(before.statements, more)
    changes["from_entries"] = _with(before.from_entries, entries)
    if args.part:
        part = names.meant(snapshot, args.part, Part)
        changes["part"] = part.ref
        if before.from_entries and not changes["revisions"]:
            changes["revisions"] = _found_on(snapshot, part, before)
    return _dated(before, replace(before, **changes), terms.moment(args).date())


def _dated(before: Erratum, after: Erratum, day: date) -> Erratum:
    """Give it with the day its words were written: one entry more changes none."""
    same = replace(after, from_entries=before.from_entries) == before
    return after if same and before.published else replace(after, published=day)


def _concerns(
    snapshot: Snapshot, before: Erratum, args: argparse.Namespace
) -> dict[str, Any]:
    """Give which revisions and releases have it and which have not, the newest word.

    Raises:
        BadInput: the same is said to have it and not to have it.
    """
    having = [snapshot.lookup(word, Revision) for word in args.revision]
    within = [snapshot.lookup(word, Release) for word in args.release]
    spared: list[Revision | Release] = [
        *(snapshot.lookup(word, Revision) for word in args.not_revision),
        *(snapshot.lookup(word, Release) for word in args.not_release),
    ]
    without = {one.id for one in spared}
    said = {one.id for one in (*having, *within)}
    for one in (*having, *within):
        if one.id in without:
            raise BadInput(
                f"{one.title} is said to have the fault and not to have it; "
                "accepted: one of the two"
            )
    not_affected = _with(before.not_affected, tuple(one.ref for one in spared))
    revisions = _with(before.revisions, tuple(one.ref for one in having))
    releases = _with(before.releases, tuple(one.label for one in within))
    cleared = {
        one.label
        for one in snapshot.all(Release)
        if without & {one.id, *(ref.id for ref in one.revisions)}
    } - {one.label for one in within}
    return {
        "revisions": tuple(ref for ref in revisions if ref.id not in without),
        "releases": tuple(label for label in releases if label not in cleared),
        "not_affected": tuple(ref for ref in not_affected if ref.id not in said),
    }


def _found_on(snapshot: Snapshot, part: Part, before: Erratum) -> tuple[Ref, ...]:
    """Give the revisions of a part that a fault's entries must have been found on."""
    then = (
        revision_then(snapshot, part, entry) for entry in entries_of(snapshot, before)
    )
    return tuple(dict.fromkeys(one.ref for one in then if one))


def _with(held: tuple[Any, ...], more: tuple[Any, ...]) -> tuple[Any, ...]:
    return tuple(dict.fromkeys((*held, *more)))
