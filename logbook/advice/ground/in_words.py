"""What of the design an entry's words name: the part, its line, the step meant.

For proposals: a line kept as a note says of itself neither part nor step.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.records.kinds.assembling import Line, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Entry
from logbook.records.together.references import part_of
from logbook.records.together.revisions import current_revision, is_withdrawn
from logbook.records.together.snapshot import Snapshot

_PAPER_OF = (
    r"\b(?:pictures?|photos?|drawings?|files?|mesh|models?|names?)\s+of\s+(?:the\s+)?"
)
_SHORTEST_STEM = 4
"""Letters of a verb that tell it again in another form: fold, folding."""


def part_told(snapshot: Snapshot, entry: Entry) -> Part | None:
    """Give the part an entry is of: on record, by its file, or the one it names.

    A material may name it too. Where several are named, the one whose paper is
    spoken of; otherwise none.
    """
    if (part := part_of(snapshot, entry)) is not None:
        return part
    words = entry.title.casefold()
    if (part := by_file(snapshot, words)) is not None:
        return part
    named = parts_in(snapshot, words) or _of_material(snapshot, words)
    if len(named) > 1:
        named = [one for one in named if _is_paper_of(words, one)]
    return named[0] if len(named) == 1 else None


def _of_material(snapshot: Snapshot, words: str) -> list[Part]:
    """Give the parts whose material words name, where it takes two words to name it."""
    return [
        one
        for one in snapshot.all(Part)
        if " " in one.material and re.search(_whole(one.material), words)
    ]


def parts_in(snapshot: Snapshot, words: str) -> list[Part]:
    """Give the parts that words name, the first named first, longer names first."""
    found: list[tuple[int, int, Part]] = []
    for part in snapshot.all(Part):
        for name in (part.title, *part.aliases):
            if hit := re.search(_whole(name), words.casefold()):
                found.append((*hit.span(), part))
                break
    inside = [
        one
        for one in found
        if not any(_holds(other, one) for other in found if other is not one)
    ]
    return [part for _, _, part in sorted(inside, key=lambda one: one[0])]


def _holds(outer: tuple[int, int, Part], inner: tuple[int, int, Part]) -> bool:
    """Tell whether a longer name holds a shorter one: base screw, base."""
    wider = outer[1] - outer[0] > inner[1] - inner[0]
    return wider and outer[0] <= inner[0] and inner[1] <= outer[1]


def _whole(name: str) -> str:
    return rf"(?<![\w-]){re.escape(name.casefold())}s?(?![\w-])"


def _is_paper_of(words: str, part: Part) -> bool:
    return re.search(_PAPER_OF + re.escape(part.title.casefold()), words) is not None


def by_file(snapshot: Snapshot, words: str) -> Part | None:
    """Give the one part whose design file words name: base.dxf."""
    words = words.casefold()
    found = []
    for part in snapshot.all(Part):
        revision = current_revision(snapshot, part)
        names = (
            [file.path.rpartition("/")[2] for file in revision.files]
            if revision
            else []
        )
        if any(re.search(_whole(name), words) for name in names):
            found.append(part)
    return found[0] if len(found) == 1 else None


def lines_of(snapshot: Snapshot, part: Part) -> list[Line]:
    """Give the lines of the parts list that list a part."""
    return [one for one in snapshot.all(Line) if snapshot.find(one.part) is part]


def step_for(snapshot: Snapshot, part: Part | None, words: str) -> Step | None:
    """Give the one step an entry is about: named, by part and verb, or by part alone.

    Of several steps of a part the one that makes it is meant.
    """
    steps = [one for one in snapshot.all(Step) if not is_withdrawn(snapshot, one)]
    said = [one for one in steps if one.title.casefold() in words.casefold()]
    if len(said) == 1:
        return said[0]
    if part is None:
        return None
    mine = [one for one in steps if _concerns(snapshot, one, part)]
    for few in (
        [one for one in mine if _same_verb(one.title, words)],
        mine,
        [one for one in mine if snapshot.find(one.makes) is part],
    ):
        if len(few) == 1:
            return few[0]
    return None


def _concerns(snapshot: Snapshot, step: Step, part: Part) -> bool:
    refs: Iterator[object] = (
        snapshot.find(ref) for ref in (*step.uses, step.makes) if ref
    )
    lines = lines_of(snapshot, part)
    return any(one is part or one in lines for one in refs)


def _same_verb(title: str, words: str) -> bool:
    """Tell whether words tell a step's own verb in some form: fold, folding, folded."""
    verb = title.split(maxsplit=1)[0].casefold()
    stem = verb.rstrip("e") if len(verb) > _SHORTEST_STEM else verb
    return re.search(rf"\b{re.escape(stem)}\w{{0,5}}\b", words.casefold()) is not None
