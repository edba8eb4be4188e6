"""Known faults that look cured, though nobody has said what cures them.

A later revision of the part changed the size they are about, or did what was to be
done; or something that is to be used came on the list since. That it cures is its
author's to say: until he does, no page says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.faults.applies import applies
from logbook.advice.faults.doing import is_idle
from logbook.advice.faults.done_in import done_in
from logbook.advice.faults.failing import DROPPED, comes_again, spared
from logbook.advice.faults.headline import titled
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.trying import entries_of
from logbook.advice.pieces.counts import parts_list
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Change, Characteristic, Part, Revision
from logbook.records.kinds.happenings import Deviation
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.states.needed import needed_in
from logbook.records.together.likeness import single, stems
from logbook.records.together.once import once
from logbook.records.together.references import is_of, part_of
from logbook.records.together.revisions import (
    current_revision,
    is_withdrawn,
    revisions_of,
)
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, slots=True)
class LooksCured:
    """A known fault, the revision that may cure it, and what makes it look so."""

    fault: Erratum
    by: Revision
    why: str


@once
def looking_cured(snapshot: Snapshot) -> tuple[LooksCured, ...]:
    """Give each fault without a cure that looks cured, with the first that may do it.

    Not by a revision of which it is said that it has the fault, or that it has it not.
    """
    found = (
        _by_own_part(snapshot, fault) or _by_the_list(snapshot, fault)
        for fault in known_faults(snapshot)
        if fault.fixed_by is None and fault.status not in DROPPED
    )
    return tuple(one for one in found if one is not None)


def looks_cured(snapshot: Snapshot) -> Iterator[str]:
    """Say of each what makes it look cured, and the line that says that it is."""
    for one in looking_cured(snapshot):
        verb = f"logbook erratum {one.fault.id}"
        said = (
            f"{titled(snapshot, one.fault)}: looks cured, nobody has said so: "
            f'{one.why}; if that cures it: {verb} --fixed-by "{one.by.title}"'
        )
        if _of_its_part(snapshot, one):
            said += (
                f'; if it is still there: {verb} --revision "{one.by.title}"; if it is '
                f'gone for another reason: {verb} --not-revision "{one.by.title}"'
            )
        yield said


def _of_its_part(snapshot: Snapshot, one: LooksCured) -> bool:
    part = snapshot.find(one.fault.part, Part)
    return part is not None and part_of(snapshot, one.by) is part


# -- by a later revision of its part -----------------------------------------------


def _by_own_part(snapshot: Snapshot, fault: Erratum) -> LooksCured | None:
    for revision in _later(snapshot, fault):
        if why := _done(snapshot, fault, revision):
            return LooksCured(fault, revision, f"{revision.title} {why}")
    return None


def _later(snapshot: Snapshot, fault: Erratum) -> Iterator[Revision]:
    """Give the revisions after the last that is said to have it, oldest first."""
    part = snapshot.find(fault.part, Part)
    line = revisions_of(snapshot, part) if part else ()
    affected = [snapshot.find(ref, Revision) for ref in fault.revisions]
    last = max((line.index(one) for one in affected if one in line), default=len(line))
    for revision in line[last + 1 :]:
        known = spared(fault, revision) or comes_again(snapshot, fault, revision)
        if not known and not is_withdrawn(snapshot, revision):
            yield revision


def _done(snapshot: Snapshot, fault: Erratum, revision: Revision) -> str:
    """Say what a revision did that may cure a fault; empty where nothing looks so."""
    told = _words(snapshot, fault)
    for change in revision.changes:
        if _is_about(snapshot, fault, change, told):
            return _changed(change)
    if revision.changed and _meets(snapshot, fault, revision, told):
        return f"changed “{revision.changed}”"
    return ""


def _words(snapshot: Snapshot, fault: Erratum) -> frozenset[str]:
    """Give the words that tell of a fault and its cause; none that name its part."""
    causes = (entry.cause.said for entry in entries_of(snapshot, fault) if entry.cause)
    told = stems(" ".join((fault.title, fault.symptom, *causes)))
    return told - stems(fault.part.name if fault.part else "")


def _is_about(
    snapshot: Snapshot, fault: Erratum, change: Change, told: frozenset[str]
) -> bool:
    """Tell whether a change is of the size a fault was found on, or that it names."""
    item = snapshot.find(change.characteristic, Characteristic)
    if item is None:
        return False
    for entry in entries_of(snapshot, fault):
        named = entry.characteristic if isinstance(entry, Deviation) else None
        if named is not None:
            return snapshot.find(named, Characteristic) is item
    name = stems(item.title.replace("_", " "))
    return bool(name) and name <= told


def _changed(change: Change) -> str:
    name = change.characteristic.name.replace("_", " ")
    if change.to_suit:
        return f"has the {name} made to suit"
    if change.withdrawn:
        return f"draws no {name} any more"
    became = f" to {change.becomes}" if change.becomes else ""
    return f"changed the {name}{f' from {change.was}' if change.was else ''}{became}"


def _meets(
    snapshot: Snapshot, fault: Erratum, revision: Revision, told: frozenset[str]
) -> bool:
    """Tell whether a revision did what was to be done, or names what went wrong."""
    do = fault.do_this
    if not is_idle(do) and done_in(snapshot, do, fault.title, (revision,)):
        return True
    return bool(stems(f"{revision.changed} {revision.why}") & told)


# -- by what came on the list ------------------------------------------------------


def _by_the_list(snapshot: Snapshot, fault: Erratum) -> LooksCured | None:
    """Look for what is to be used, and is on the list since the last release with it.

    Of a part that is off the list by now it is said too.
    """
    part, do = snapshot.find(fault.part, Part), fault.do_this
    if part is None or is_idle(do):
        return None
    for other in _on_list(snapshot):
        revision = current_revision(snapshot, other)
        new = revision is not None and other.id not in _listed_before(snapshot, fault)
        if revision is None or not new or not _names(do, other, part):
            continue
        why = f"the list has {other.title} now, as “{do}” asks"
        if _is_off(snapshot, part):
            why = f"{part.title} is on the list no more, and {why}"
        return LooksCured(fault, revision, why)
    return None


def _on_list(snapshot: Snapshot) -> tuple[Part, ...]:
    """Give the parts of which the list has some now."""
    listed = parts_list(snapshot)[0]
    return tuple(one.part for one in listed if one.total + one.spare)


def _is_off(snapshot: Snapshot, part: Part) -> bool:
    """Tell whether a part was taken off the list: it has a line, with none of it."""
    lines = (line for line in snapshot.all(Line) if is_of(line.part, part))
    return any(lines) and part not in _on_list(snapshot)


def _listed_before(snapshot: Snapshot, fault: Erratum) -> frozenset[str]:
    """Give the ids of the parts the first release that has it needs."""
    having = (one for one in snapshot.all(Release) if applies(snapshot, fault, one))
    first = min(having, key=lambda one: (one.when, one.id), default=None)
    held = needed_in(snapshot, first) if first else ()
    return frozenset(one.part.id for one in held)


def _names(do: str, other: Part, part: Part) -> bool:
    """Tell whether an instruction names another part, by what sets it apart from this.

    “take M4x16” names the M4x16 screw, not the screw it is taken instead of.
    """
    said, own = set(single(do).split()), set(single(part.title).split())
    apart = set(single(other.title).split()) - own
    return bool(apart) and apart <= {word.strip(".,;:()“”") for word in said}
