"""Small bought things that a change or a cure names and no list has.

Nobody would buy them: who builds it reads the list. Washer and washers are one.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from logbook.records.kinds.assembling import Joint, Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.sizes.definition import characteristics_of
from logbook.records.together.likeness import single
from logbook.records.together.references import is_of, part_of
from logbook.records.together.snapshot import Snapshot

_THINGS = (
    "washer", "rivet nut", "nut", "threaded insert", "insert", "dowel", "spacer",
    "standoff", "grommet", "shim", "spring", "magnet", "gasket", "o-ring", "bush",
    "bushing", "felt pad", "rubber foot", "cable tie", "foam tape",
)  # fmt: skip
_FORMS = "|".join(f"{one}(?:e?s)?" for one in _THINGS)
_NAMED = re.compile(
    r"(?i)(?<!\bno )(?<!\bnot )(?<!\bwithout )(?<!\binstead of )"
    rf"\b({_FORMS}|rubber feet|M\d+(?:[.,]\d+)?\s?[x×]\s?\d+)\b"
)


def unlisted(snapshot: Snapshot, revision: Revision) -> tuple[str, ...]:
    """Give the small things that the change of a revision names and no list has."""
    part = part_of(snapshot, revision)
    return not_listed(snapshot, part, revision.changed) if part else ()


def not_listed(snapshot: Snapshot, part: Part, words: str) -> tuple[str, ...]:
    """Give the small things that words about a part name and no list has.

    A joint of the part has it, or a line of the parts list. What is a size of the part,
    the bushing of a switch, is none.
    """
    named = dict.fromkeys(_NAMED.findall(_without_sizes(snapshot, part, words)))
    if not named:
        return ()
    joints = [
        joint
        for joint in snapshot.all(Joint)
        if any(layer.part and is_of(layer.part, part) for layer in joint.layers)
    ]
    known = (*(_of_joint(snapshot, one) for one in joints), *_of_lines(snapshot))
    said = single(" ".join(known))
    return tuple(word for word in named if single(word) not in said)


def _without_sizes(snapshot: Snapshot, part: Part, words: str) -> str:
    """Give words without the names of the sizes a part has."""
    names = [re.escape(one.title) for one in characteristics_of(snapshot, part)]
    if not names:
        return words
    return re.sub(rf"(?i)\b(?:{'|'.join(names)})\b", " ", words)


def unlisted_in(snapshot: Snapshot, revisions: Iterable[Revision]) -> Iterator[str]:
    """Say it of each of these revisions."""
    for revision in revisions:
        if missing := unlisted(snapshot, revision):
            yield nobody_buys(f"{revision.title} names", missing, revision.part.name)


def nobody_buys(what: str, missing: Iterable[str], part: str) -> str:
    """Say that something names things for a part that are on no list."""
    return (
        f"{what} {' and '.join(missing)}, but neither a joint of the {part} nor the "
        "list has it: who builds it buys none; put it in with: logbook joint, or "
        "logbook line"
    )


def _of_joint(snapshot: Snapshot, joint: Joint) -> str:
    layers = (snapshot.find(layer.part, Part) for layer in joint.layers if layer.part)
    said = [part.title for part in layers if part]
    return " ".join([joint.fastener, joint.nut, *said])


def _of_lines(snapshot: Snapshot) -> Iterator[str]:
    for line in snapshot.all(Line):
        part = snapshot.find(line.part, Part)
        yield f"{part.title if part else ''} {line.title}"
