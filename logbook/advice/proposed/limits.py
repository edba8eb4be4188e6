"""Which size is free, within which limits, for the line of the parts list.

“The thickness is not critical, 3 to 5 mm works” ends the question of everybody who
cannot get the size that is named.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from logbook.advice.ground.in_words import lines_of, part_told
from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Decision, Entry, Note
from logbook.records.making.drafts import Draft
from logbook.records.together.names import folded
from logbook.records.together.snapshot import Snapshot

_FREE = re.compile(
    r"(?i)\b(?:not critical|uncritical|(?:does|do)(?: not|n[’']t) matter|"
    r"anything (?:from|between)|any\w* (?:thickness|width|length|size|thing)|"
    r"(?:can|may) be|works?|will do|either will do)\b"
)
_UNCRITICAL = re.compile(
    r"(?i)\b(?:(?:is|are) (?:not critical|uncritical)|"
    r"(?:does|do)(?: not|n[’']t) matter)\b"
)
_RANGE = re.compile(
    r"(?i)\b(?P<low>\d[\d.,/]*)\s*(?P<first>[^\W\d]{1,3}|\"|%)?\s*"
    r"(?:to|[-–]|up to|and)\s*"
    r"(?P<high>\d[\d.,/]*)\s*(?P<unit>[^\W\d]{1,3}\b|\"|%|°C)?"
)
_SIZE = re.compile(
    r"(?i)\b(?:thickness|thick|width|wide|length|long|height|high|diameter|grade|"
    r"colour|color|hardness|value|size|gauge)\b"
)
_NOUN = {"thick": "thickness", "wide": "width", "long": "length", "high": "height"}
_NOT_FREE = re.compile(
    r"(?i)\b(?:not|never|no longer|hours?|days?|minutes?|times|pieces)\b"
)
_ACCEPTS = "“yes”, or the limits, as “3 to 5 mm works”"


def limits(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose what was said to be free to the one line of its part."""
    told: tuple[Note | Decision, ...] = (*snapshot.all(Note), *snapshot.all(Decision))
    for entry in told:
        words = _said(entry.title)
        part = part_told(snapshot, entry) if words else None
        lines = lines_of(snapshot, part) if part else []
        if part is None or len(lines) != 1:
            continue
        if folded(words) not in folded(lines[0].critical):
            yield _proposal(entry, part, lines[0], words)


def _said(title: str) -> str:
    """Say which size may be what; empty where the words leave nothing free."""
    size, span = _SIZE.search(title), _RANGE.search(title)
    noun = _NOUN.get(size[0].casefold(), size[0].casefold()) if size else ""
    if span is not None and _FREE.search(title):
        rest = _UNCRITICAL.sub("", title)
        unit = span["unit"] or span["first"] or ""
        if _NOT_FREE.search(rest) or not (unit or noun):
            return ""
        return f"{noun} {span['low']} to {span['high']} {unit}".strip() + " works"
    return f"{noun} not critical" if noun and _UNCRITICAL.search(title) else ""


def _proposal(entry: Entry, part: Part, line: Line, words: str) -> Proposal:
    def take(draft: Draft, answer: str) -> None:
        said = words if is_yes(answer) else answer.strip()
        if not said:
            raise not_accepted("what is free", answer, _ACCEPTS)
        draft.amend(
            replace(line, critical="; ".join(filter(None, (line.critical, said))))
        )

    return Proposal(
        key=f"limits {entry.id}",
        topic="list",
        about=entry.ref,
        question=f"tell every builder of the {part.title}: “{words}”?",
        buys="its line of the parts list says what else will do",
        accepts=_ACCEPTS,
        inputs=(entry.ref, line.ref),
        take=take,
    )
