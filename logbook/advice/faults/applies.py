"""Which known faults apply: to a release, a revision, files by their hash, a build."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.drafted import Fault, affected_revision, same_size
from logbook.advice.faults.failing import (
    DROPPED,
    NO_CURE,
    comes_again,
    own_faults,
    reopened,
    spared,
    told_of,
)
from logbook.advice.faults.hardware import hardware_of
from logbook.advice.faults.headline import headline
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.named import (
    named_statements,
    says_the_same,
    step_changed,
    told_first,
)
from logbook.advice.faults.not_held import way_round
from logbook.advice.faults.same_fault import sameness
from logbook.advice.faults.trying import cure_words, entries_of, is_unmade
from logbook.advice.faults.undrawn import undrawn
from logbook.advice.faults.unplaced import is_unplaced
from logbook.records.kinds import design, happenings
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Blame, WayRound
from logbook.records.states.needed import needed_in, not_needed_in
from logbook.records.states.statements import Form, identity, statement_id
from logbook.records.together.once import once
from logbook.records.together.revisions import line_to, revisions_in, revisions_of
from logbook.records.together.snapshot import Snapshot


@once
def faults_in(snapshot: Snapshot, release: Release) -> tuple[Erratum, ...]:
    """Give the known faults that apply to a release, gravest first."""
    return tuple(f for f in known_faults(snapshot) if applies(snapshot, f, release))


def applies(snapshot: Snapshot, erratum: Erratum, release: Release) -> bool:
    """Tell whether a release has a fault: it holds a revision that has it, no cure.

    One that came after a cure that did not hold counts until somebody says it is cured.

    A later revision than the cure cures it too, and so does a list that has none of the
    part. A fault of no revision stays in later releases while what it names says the
    same.
    """
    if erratum.status in DROPPED:
        return False
    if spared(erratum, release):
        return False
    if cured_in(snapshot, erratum, release):
        return False
    if erratum.part and erratum.part.id in not_needed_in(snapshot, release):
        return False
    held = needed_in(snapshot, release)
    said = [standing(snapshot, erratum, revision) for revision in held]
    if any(may_have(words) for words in said):
        return True
    if any(spared(erratum, revision) for revision in held):
        return False
    if release.label in erratum.releases:
        return True
    before = None if erratum.revisions else told_first(snapshot, erratum, release)
    return before is not None and says_the_same(snapshot, erratum, before, release)


@once
def cured_in(snapshot: Snapshot, erratum: Erratum, release: Release) -> str:
    """Say how a revision of a release cures a fault; empty where none does.

    It may be that of another part: a seat is drawn wider for a lamp that comes wider.
    """
    held = revisions_in(snapshot, release)
    said = (standing(snapshot, erratum, revision) for revision in held)
    return next((words for words in said if words.startswith(FIXED)), "")


def undecided(snapshot: Snapshot, erratum: Erratum, release: Release) -> bool:
    """Tell whether nobody said if a release still has a fault that came before it."""
    if applies(snapshot, erratum, release) or erratum.status in DROPPED:
        return False
    if spared(erratum, release) or cured_in(snapshot, erratum, release):
        return False
    if erratum.part and erratum.part.id in not_needed_in(snapshot, release):
        return False
    if is_unplaced(erratum):
        return True
    held = {revision.part.id: revision for revision in revisions_in(snapshot, release)}
    revision = held.get(erratum.part.id) if erratum.part else None
    if revision and standing(snapshot, erratum, revision) == NOT_KNOWN:
        return True
    before = told_first(snapshot, erratum, release)
    if erratum.revisions or erratum.fixed_by or before is None:
        return False
    named = named_statements(snapshot, erratum, before)
    return not named or step_changed(named, before, release)


@once
def undecided_in(snapshot: Snapshot, release: Release) -> tuple[Erratum, ...]:
    """Give the faults of which nobody said whether this release still has them.

    It holds a later revision than the affected one, or the fault names nothing that
    could have changed, and no revision is named as the cure.
    """
    return tuple(f for f in known_faults(snapshot) if undecided(snapshot, f, release))


NOT_AFFECTED = "not affected"
NOT_KNOWN = "not known"
FIXED = f"{NOT_AFFECTED}: fixed"
NOT_FIXED = "not fixed:"
WORDS = {
    WayRound.AVAILABLE: "way round available",
    WayRound.PARTIAL: "way round in part",
    WayRound.NONE: "no way round that has held",
    WayRound.UNKNOWN: "way round not known",
}


def has_it(words: str) -> bool:
    """Tell whether a revision that stands so to a fault has it."""
    return words in WORDS.values() or words.startswith(NOT_FIXED)


def may_have(words: str) -> bool:
    """Tell whether a revision has it, or came after one in which it came back."""
    return has_it(words) or words.startswith(f"{NOT_KNOWN}: ")


@once
def standing(snapshot: Snapshot, erratum: Erratum, revision: Revision) -> str:
    """Say in words how a revision stands to a fault."""
    affected = [snapshot.find(ref, Revision) for ref in erratum.revisions]
    if erratum.status in DROPPED:
        return NOT_AFFECTED
    if revision in affected:
        return WORDS[way_round(snapshot, erratum)]
    if spared(erratum, revision):
        return NOT_AFFECTED
    cure = snapshot.find(erratum.fixed_by, Revision)
    part = snapshot.find(revision.part, design.Part)
    line = list(revisions_of(snapshot, part) if part else ())
    known = [one for one in affected if one in line]
    if revision not in line:
        return NOT_AFFECTED
    if cure is not None and cure in line_to(snapshot, revision):
        return _cured(snapshot, erratum, revision)
    if not known:
        return NOT_AFFECTED
    first = min(known, key=line.index)
    if line.index(revision) > line.index(first):
        again = comes_again(snapshot, erratum, revision)
        if again is not None and again.met_by_others is Blame.DRAWING:
            return _back(snapshot, erratum, again)
        return NOT_KNOWN
    return _before(snapshot, erratum, revision, first)


def _before(
    snapshot: Snapshot, erratum: Erratum, revision: Revision, first: Revision
) -> str:
    """Say how a revision stands that came before the first with the fault.

    Not affected where its author left it out, or where the size is drawn otherwise.
    """
    for entry in entries_of(snapshot, erratum):
        named = (
            entry.characteristic if isinstance(entry, happenings.Deviation) else None
        )
        item = snapshot.find(named, design.Characteristic)
        if item is None or same_size(snapshot, item, revision, first) is not False:
            return NOT_KNOWN
    return NOT_AFFECTED


def _cured(snapshot: Snapshot, erratum: Erratum, revision: Revision) -> str:
    """Say how a revision stands that cures it or came later.

    Another fault than the one it cures is no sign that this one is still there.
    """
    again = comes_again(snapshot, erratum, revision)
    if again is not None and again.met_by_others is Blame.UNKNOWN:
        return NOT_KNOWN
    if again is not None:
        return _back(snapshot, erratum, again)
    if (before := reopened(snapshot, erratum, revision)) is not None:
        back = back_in(snapshot, erratum, before)
        return (
            f"{NOT_KNOWN}: {back}, and nobody has said that {revision.title} cures it"
        )
    own = own_faults(snapshot, revision)
    if own:
        return f"{FIXED}, but faulty otherwise: {headline(snapshot, own[-1])}"
    tried = cure_words(snapshot, revision, entries_of(snapshot, erratum))
    tried = "untried" if is_unmade(tried) else tried
    same = undrawn(snapshot, revision)
    return f"{FIXED}, {tried}{f', but {same}' if same else ''}"


def _back(snapshot: Snapshot, erratum: Erratum, again: Fault) -> str:
    """Say that it came back in a revision that was to cure it."""
    said, told = sameness(snapshot, erratum, again).said, told_of(snapshot, again)
    if way_round(snapshot, erratum) is WayRound.AVAILABLE:
        told = told.replace(NO_CURE, WORDS[WayRound.AVAILABLE])
    return f"{NOT_FIXED} {said}: {told}"


def back_in(snapshot: Snapshot, erratum: Erratum, again: Fault) -> str:
    """Say in which revision a fault came back, or seems to."""
    found = affected_revision(snapshot, again)
    where = f" in {found.title}" if found else ""
    return f"{sameness(snapshot, erratum, again).said}{where}"


def marks(snapshot: Snapshot, release: Release) -> dict[str, tuple[Erratum, ...]]:
    """Give, for each statement of a release that is wrong, the faults that say so."""
    found: dict[str, list[Erratum]] = {}
    for erratum in faults_in(snapshot, release):
        named = named_statements(snapshot, erratum, release)
        files = _files_with_it(snapshot, erratum, release)
        bought = _hardware(snapshot, erratum, release)
        for one in dict.fromkeys((*named, *files, *bought)):
            found.setdefault(one, []).append(erratum)
    return {one: tuple(faults) for one, faults in found.items()}


def _hardware(snapshot: Snapshot, erratum: Erratum, release: Release) -> Iterator[str]:
    """Give the ids of what is gone with a fault in the next release without it."""
    later = (one for one in snapshot.all(Release) if one.when > release.when)
    cured = (one for one in later if not applies(snapshot, erratum, one))
    first = min(cured, key=lambda one: (one.when, one.id), default=None)
    if first is not None and cured_in(snapshot, erratum, first):
        yield from hardware_of(snapshot, erratum, release, first)


def _files_with_it(
    snapshot: Snapshot, erratum: Erratum, release: Release
) -> Iterator[str]:
    """Give the ids of the files of a release that have a fault found in another's.

    What it was found in is named by its own file; that of a revision it came back in,
    or that was said to have it too, is as wrong.
    """
    named = {identity(one) for one in erratum.statements}
    affected = (snapshot.find(ref, Revision) for ref in erratum.revisions)
    if not any(named & set(_files_of(one)) for one in affected if one):
        return
    for revision in revisions_in(snapshot, release):
        if has_it(standing(snapshot, erratum, revision)):
            yield from _files_of(revision)


def _files_of(revision: Revision) -> Iterator[str]:
    for file in revision.files:
        yield statement_id(Form.FILE, revision.ref, file.path)
