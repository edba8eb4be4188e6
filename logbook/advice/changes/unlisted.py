"""Fasteners that a revision names and that stand on no list: nobody would buy them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.together.references import is_of, part_of
from logbook.records.together.snapshot import Snapshot

_NAMED = re.compile(
    r"(?i)(?<!\bno )(?<!\bnot )(?<!\bwithout )(?<!\binstead of )"
    r"\b(washers?|rivet nuts?|nuts?|threaded inserts?|inserts?|dowels?|"
    r"M\d+(?:[.,]\d+)?\s?[x×]\s?\d+)\b"
)


def unlisted(snapshot: Snapshot, revision: Revision) -> tuple[str, ...]:
    """Give the fasteners that the change of a revision names and no list has.

    Where joints of its part are on record one of them has to have it, else a line of
    the parts list.
    """
    part = part_of(snapshot, revision)
    if part is None:
        return ()
    words = dict.fromkeys(_NAMED.findall(revision.changed))
    if not words:
        return ()
    joints = [
        joint
        for joint in snapshot.all(Joint)
        if any(layer.part and is_of(layer.part, part) for layer in joint.layers)
    ]
    known = [_of_joint(snapshot, one) for one in joints] or [*_of_lines(snapshot)]
    said = _plain(" ".join(known))
    return tuple(word for word in words if _plain(word).rstrip("s") not in said)


def unlisted_in(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Say it of each of these revisions."""
    for revision in revisions:
        if missing := unlisted(snapshot, revision):
            yield (
                f"{revision.title} names {' and '.join(missing)}, but neither a joint "
                f"of the {revision.part.name} nor the list has it: who builds it buys "
                "none; put it in with: logbook joint, or logbook line"
            )


def _of_joint(snapshot: Snapshot, joint: Joint) -> str:
    layers = (snapshot.find(layer.part, Part) for layer in joint.layers if layer.part)
    said = [part.title for part in layers if part]
    return " ".join([joint.fastener, joint.nut, *said])


def _of_lines(snapshot: Snapshot) -> Iterator[str]:
    for line in snapshot.all(Line):
        part = snapshot.find(line.part, Part)
        yield f"{part.title if part else ''} {line.title}"


def _plain(words: str) -> str:
    return re.sub(r"\s*[x×]\s*(?=\d)", "x", words.casefold())
