"""A line that puts words on record right: the screws were M3x8, not M2.5x8."""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import fields, replace
from itertools import islice
from typing import Any

from logbook.plain.answers.amended import PUT_RIGHT, asked_to_amend
from logbook.plain.sure.unread import PUTS_RIGHT, SO_OR_NOTE
from logbook.plain.understanding import Doubt, Kind, Understanding, Verdict
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Cause, Entry, Order
from logbook.records.together.snapshot import Snapshot

_END = r"\s*(?=$|[,;!]|\.(?:\s|$)|\band\b)"
_THE = r"(?:(?:an?|the|of|for|as)\s+)*"
_DENIED = (
    re.compile(rf"(?i)\b(?P<so>[^,;:]+?),?\s+not\s+{_THE}(?P<was>[^,;]+?){_END}"),
    re.compile(
        rf"(?i)\bnot\s+{_THE}(?P<was>[^,;]+?),?\s+but\s+{_THE}(?P<so>[^,;]+?){_END}"
    ),
    re.compile(
        r"(?i)\b(?:i|we)\s+(?:had\s+)?(?:wrote|written|logged|typed|noted|entered|said)"
        rf"\s+{_THE}(?P<was>[^,;]+?)[,;]?\s+(?:but\s+)?(?:it|they|that|those)?\s*"
        rf"(?:is|was|are|were|should be|should have been)\s+{_THE}(?P<so>[^,;]+?){_END}"
    ),
)
"""What is so, and what was said before: the one denied, the other put instead."""
_MEANT = re.compile(
    r"(?i)\b(?:meant|mean|was|were|wasn't|weren't|wrote|logged|typed|but)\b"
)
_COPULA = re.compile(
    rf"(?i)^.*\b(?:is|was|are|were|meant|mean|should be|should read)\s+{_THE}"
)
_ONLY_DENIES = re.compile(
    r"(?i)\b(?:is|was|are|were|be|been|am|has|have|had|do|does|did|can|could|will|would|"
    r"should|may|might|must|still|why|but|and|or|if|it|i|we)$"
)
"""What ends before a “not” that denies what is told: the lamp was not on."""
_LITTLE = frozenset({
    "on", "off", "in", "out", "up", "down", "it", "so", "yet", "there", "here", "too",
    "very", "much", "all", "any", "one", "that", "this",
})  # fmt: skip
"""Words that stand in many an entry, and say nothing of which is meant."""
_LEADS = re.compile(
    r"(?i)^(?:at|on|in|by|from|with|to|under|along|after|before)\s+(?:the\s+)?"
)
_CODE = re.compile(r"\d")
_LOOKED_AT = 1000
"""So many of the newest entries are looked at: it is done at every letter typed."""


def held_to_words(
    line: Understanding, snapshot: Snapshot, answered: Collection[str] = ()
) -> Understanding:
    """Give the line, asked first where what it denies stands in an entry on record.

    The newest entry that says it is the one to put right, of the newest thousand. What
    was `answered` is not asked again.
    """
    if line.amends is not None or not _may_correct(line):
        return line
    for was, so in _pairs(line.line):
        if _names_part(was, snapshot):
            continue  # Of which part an entry is, more than its words tell.
        found = _newest(snapshot, was, so)
        if found is None:
            continue
        entry, after = found
        question = (
            f"“{was}” is on record, in “{entry.title}” {entry.id}: "
            f"put “{so}” there instead?"
        )
        if question in answered:
            return line
        note = SO_OR_NOTE if line.verdict is Verdict.TAKEN else SO_OR_NOTE[1:]
        doubt = Doubt("amend", question, (PUT_RIGHT, *note))
        return asked_to_amend(line, doubt, entry, after)
    return line


def _newest(snapshot: Snapshot, was: str, so: str) -> tuple[Entry, Entry] | None:
    """Give the newest entry that says it, as it is and as it is to be.

    Of several told at once it is the one of which it says the most.
    """
    found: list[tuple[int, Entry, Entry]] = []
    for entry in islice(reversed(snapshot.entries), _LOOKED_AT):
        if found and entry.when != found[0][1].when:
            break
        after = with_words(entry, was, so)
        if after != entry:
            found.append((_changes(entry, after), entry, after))
    most = max(found, key=lambda one: one[0], default=None)
    return most[1:] if most else None


def _changes(entry: Entry, after: Entry) -> int:
    names = [field.name for field in fields(entry)]
    return sum(getattr(entry, name) != getattr(after, name) for name in names)


def _may_correct(line: Understanding) -> bool:
    """Tell whether the line says that it corrects, or tells no fact but how it was."""
    if any(PUTS_RIGHT in doubt.question for doubt in line.doubts):
        return True
    plain = line.verdict is Verdict.KEPT or line.kind is Kind.DECISION
    return plain and bool(_MEANT.search(line.line))


def _names_part(said: str, snapshot: Snapshot) -> bool:
    """Tell whether words are a name of a part, or in one."""
    name = f" {said.casefold()} "
    return any(name in f" {part.title.casefold()} " for part in snapshot.all(Part))


def _pairs(line: str) -> Iterator[tuple[str, str]]:
    """Give what was said, and what is to stand there, as the line may mean it."""
    for told in _DENIED:
        for match in told.finditer(line):
            was, so = match["was"].strip(), match["so"].strip()
            if _ONLY_DENIES.search(so) or was.casefold() in _LITTLE:
                continue
            for one in _spelled(was):
                if (other := _instead(one, so)) and other.casefold() != one.casefold():
                    yield one, other


def _spelled(was: str) -> Iterator[str]:
    """Give what is denied in full, then its first word: M2.5x8 screws, M2.5x8."""
    yield was
    first, *rest = was.split(" ")
    if rest and (_CODE.search(first) or len(rest) == 1):
        yield first


def _instead(was: str, so: str) -> str:
    """Give the words that are meant instead, of the like of those that are denied."""
    if " " in was:
        lead = _LEADS.match(was)
        led = [
            one.start()
            for one in re.finditer(r"\b\w", so)
            if _LEADS.match(so[one.start() :])
        ]
        return so[led[-1] :] if lead and led else _COPULA.sub("", so)
    words = so.split(" ")
    if _CODE.search(was):
        alike = [one for one in words if _CODE.search(one)]
        return alike[-1] if alike else ""
    said = _COPULA.sub("", so)
    return said if " " not in said else words[-1]


def with_words(entry: Entry, was: str, so: str) -> Entry:
    """Give the entry with other words wherever it says these.

    A count of what was ordered is put right with its words; another figure is a
    quantity with a field of its own and stays.
    """
    changed: dict[str, Any] = {
        field.name: new
        for field in fields(entry)
        if field.name != "id"
        for old in (getattr(entry, field.name),)
        for new in (_with(old, was, so),)
        if new != old
    }
    if counted := _COUNTED.match(was):
        other = _COUNTED.match(so)
        ordered = isinstance(entry, Order) and entry.quantity == int(counted[0])
        if not ordered or other is None:
            return entry
        changed["quantity"] = int(other[0])
    elif was[:1].isdigit():
        return entry
    return replace(entry, **changed) if "title" in changed else entry


_COUNTED = re.compile(r"\d+(?=$|\s+[^\W\d]{3,})")
"""How many there are; a unit has fewer letters than what is counted."""


def _with(value: object, was: str, so: str) -> object:
    if isinstance(value, Cause):
        return replace(value, said=str(_with(value.said, was, so)))
    if type(value) is not str:
        return value
    if value and value == _LEADS.sub("", was):
        return _LEADS.sub("", so)  # Where it was stands there without its “at the”.
    said = rf"(?i)(?<![\w.,]){re.escape(was)}(?![\w]|[.,]\d)"
    return re.sub(said, lambda _: so, value)
