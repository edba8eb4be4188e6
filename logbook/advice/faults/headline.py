"""The head of a line that tells of a fault: what happened, without cause and cure.

What was typed stays in the record as it is; a page that gives cause and cure in places
of their own need not say them twice, and a heading is read at a glance. A cause or a
cure that was amended since stands in its own place too, not as it was typed first.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.faults.held_words import tells_of_outcome
from logbook.advice.faults.told_as_done import is_told_done, says_to_what
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Deviation, Failure
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition
from logbook.records.states.read_now import told_now
from logbook.records.states.undated import of_no_day
from logbook.records.together.likeness import stems
from logbook.records.together.snapshot import Snapshot

_LEAD = re.compile(
    r"(?i)[\s,;:.–-]*(?:\b(?:because(?: of)?|since|as|due to|caused by|for|so|and|"
    r"then|fixed by|cured by|fix|cure|by|with|probably|maybe|perhaps|i think)\b"
    r"[\s,;:.–-]*)*$"
)
"""What joins a clause to the one before it, and is left over where it is cut off."""

_SHORTEST = 2
"""Words a heading has at least; a shorter one would not say what happened."""


_LEFT = 2
"""Words of the rest that may be in neither cause nor cure: “next time”."""

_EDGE = re.compile(r"^[\s,;:.–-]+|[\s,;:.–-]+$")
_JOINT = re.compile(r"(?i)[;,.:–]\s+|\s+(?=because\b|so\b)")


def headline(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Give the title of a fault up to where its cause or its cure begins.

    Where the rest says more than these two, it stays. A size in it is what its reading
    says now; of the day and the hour it was told with there is nothing in it. Where one
    line tells of several, what this one is about stands behind it.
    """
    head, apart = _head(snapshot, entry), _told_apart(snapshot, entry)
    return f"{head}: {apart}" if apart else head


def _told_apart(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Name what one of several deviations of a line is about; empty of one alone."""
    if not isinstance(entry, Deviation):
        return ""
    piece, item = snapshot.find(entry.piece), snapshot.find(entry.characteristic)
    for shared, told in ((piece, "characteristic"), (item, "piece"), (item, "place")):
        alike = [
            one
            for one in (snapshot.mentions(shared, Deviation) if shared else ())
            if one.title == entry.title and one.when == entry.when
        ]
        names = [_name(getattr(one, told)) for one in alike]
        if len(alike) > 1 and len(set(names)) == len(names):
            return _name(getattr(entry, told))
    return ""


def _name(of: Ref | str | None) -> str:
    return of.name if isinstance(of, Ref) else of or ""


def _head(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    title = of_no_day(told_now(snapshot, entry))
    cause = entry.cause.said if entry.cause else ""
    low = title.casefold()
    if len(low) != len(title):
        return title
    cut = min((at for at in _starts(low, cause, entry.cure) if at > 0), default=0)
    if cause and not _LEAD.sub("", title[:cut]):
        return _after_cause(title, cause)
    if not cut:
        return title
    head = _LEAD.sub("", title[:cut])
    came = " ".join(_outcomes(title[cut:], entry.cure))
    more = stems(title[cut:]) - stems(f"{cause} {entry.cure} {came}")
    return head if len(head.split()) >= _SHORTEST and len(more) <= _LEFT else title


def _after_cause(title: str, cause: str) -> str:
    """Give what stands behind a cause that begins the line; else the whole line."""
    at = title.casefold().find(cause.casefold())
    head = title[at + len(cause) :].lstrip(" ,;:.–-") if at >= 0 else ""
    return head if len(head.split()) >= _SHORTEST else title


def said_with(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Give what a line says beyond its headline that no field of the entry holds."""
    return ", ".join(_said_beside(snapshot, entry))


def seen_with(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Give of that what tells of the fault, not of the work or what came of it."""
    other = {*came_of_cure(snapshot, entry), worked_in_line(snapshot, entry)}
    said = _said_beside(snapshot, entry)
    return ", ".join(one for one in said if one not in other)


def worked_in_line(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Give the work a line tells that was rework or repair, and named no cure.

    The last of what it tells as done: what went before may be how it came about.
    """
    if entry.cure or entry.disposition not in {Disposition.REWORK, Disposition.REPAIR}:
        return ""
    said = _said_beside(snapshot, entry)
    done = [one for one in said if is_told_done(one) and says_to_what(one)]
    return done[-1] if done else ""


def came_of_cure(snapshot: Snapshot, entry: Failure | Deviation) -> tuple[str, ...]:
    """Give what a line says behind its cure of what came of it: “held for an hour”."""
    return _outcomes(of_no_day(told_now(snapshot, entry)), entry.cure)


def _outcomes(line: str, cure: str) -> tuple[str, ...]:
    """Give the clauses behind a cure that say that it held."""
    at = line.casefold().find(cure.casefold()) if cure else -1
    if at < 0:
        return ()
    behind = (_EDGE.sub("", one) for one in _JOINT.split(line[at + len(cure) :]))
    return tuple(one for one in behind if tells_of_outcome(one))


def _said_beside(snapshot: Snapshot, entry: Failure | Deviation) -> tuple[str, ...]:
    title, head = of_no_day(told_now(snapshot, entry)), _head(snapshot, entry)
    if head == title or not title.startswith(head):
        return ()
    cause = entry.cause.said if entry.cause else ""
    known = stems(f"{cause} {entry.cure} {getattr(entry, 'where', '')}")
    rest = (
        _EDGE.sub("", _LEAD.sub("", one)) for one in _JOINT.split(title[len(head) :])
    )
    told = {one.casefold() for one in (cause, entry.cure) if one}
    return tuple(
        one
        for one in rest
        if one
        and not stems(one) <= known
        and not any(known in one.casefold() for known in told)
    )


def _starts(title: str, *told: str) -> Iterator[int]:
    """Give where in a line a cause or a cure begins, or one much like it."""
    for said in filter(None, told):
        at = title.find(said.casefold())
        if at >= 0:
            yield at
            continue
        for joint in _JOINT.finditer(title):
            rest = _JOINT.split(title[joint.end() :])[0]
            words = stems(rest)
            if len(words) > 1 and 2 * len(words & stems(said)) > len(words):
                yield joint.end()


def line_now(snapshot: Snapshot, entry: Failure | Deviation) -> str:
    """Give a fault's line; with its cause and cure as they are now, where amended."""
    line, head = of_no_day(told_now(snapshot, entry)), _head(snapshot, entry)
    cause = entry.cause.said if entry.cause else ""
    told = [one for one in (cause, entry.cure) if one]
    if head == line or all(one.casefold() in line.casefold() for one in told):
        return line
    because = f", because {cause}" if cause else ""
    cure = f"; cure: {entry.cure}" if entry.cure else ""
    return f"{head}{because}{cure}"


def titled(snapshot: Snapshot, erratum: Erratum) -> str:
    """Give the title of a known fault: that of its entry without cause and cure."""
    for ref in erratum.from_entries:
        entry = snapshot.find(ref)
        same = isinstance(entry, Failure | Deviation) and entry.title == erratum.title
        if isinstance(entry, Failure | Deviation) and same:
            return headline(snapshot, entry)
    return of_no_day(erratum.title)


def reason(snapshot: Snapshot, revision: Revision) -> str:
    """Give why a revision was opened: of the fault it cures, only what happened."""
    for ref in revision.because:
        entry = snapshot.find(ref)
        if isinstance(entry, Failure | Deviation) and entry.title == revision.why:
            return headline(snapshot, entry)
    return of_no_day(revision.why)
