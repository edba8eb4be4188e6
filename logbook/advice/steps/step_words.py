"""Steps drafted from what was done: plain form, process, place in the order."""

from __future__ import annotations

import re

from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

_CLOSING = re.compile(
    r"(?i)\b(?:(glu)(?:e|ed|ing)|(rivet)(?:ed|ted|ing|ting)?|(solder)(?:ed|ing)?|"
    r"(weld)(?:ed|ing)?|(braz)(?:e|ed|ing))\b(?!\s*(?:nut|joint|line|gun|iron|tool))"
)
_PROCESS = {
    "glu": "gluing", "rivet": "riveting", "solder": "soldering", "weld": "welding",
    "braz": "brazing",
}  # fmt: skip
BY_PAST = {
    "glued": "glue", "riveted": "rivet", "rivetted": "rivet", "soldered": "solder",
    "welded": "weld", "brazed": "braze", "drilled": "drill", "sawed": "saw",
    "sawn": "saw", "filed": "file", "folded": "fold", "bent": "bend",
    "screwed": "screw", "bolted": "bolt", "fitted": "fit", "printed": "print",
    "sanded": "sand", "painted": "paint", "pressed": "press", "tapped": "tap",
    "mounted": "mount", "put": "put", "cut": "cut", "milled": "mill",
    "turned": "turn", "crimped": "crimp", "wired": "wire", "deburred": "deburr",
    "oiled": "oil", "cleaned": "clean", "marked": "mark", "clamped": "clamp",
    "reamed": "ream", "countersunk": "countersink", "tightened": "tighten",
    "installed": "install", "assembled": "assemble", "planed": "plane",
    "routed": "route", "sealed": "seal", "taped": "tape", "ran": "run",
}  # fmt: skip
_TAIL = re.compile(
    r"\s+(?:(?:down\s+)?(?:to|at)\s+[\d.,].*|and\s+(?:it|they|now)\b.*|again\b.*|"
    r"(?:today|yesterday|tonight)\b.*|(?:took|in)\s+\d.*)$|\s*[,;:(].*$|\.\s.*$"
)


def process_of(title: str) -> str:
    """Give the process that closes for good, empty where the words name none."""
    found = _CLOSING.search(title)
    return _PROCESS[next(filter(None, found.groups())).casefold()] if found else ""


def drafted_step(
    draft: Draft, name: str, done: StepDone | None, before: Ref | None = None
) -> Step:
    """Give a step for something done, at the end of the order of work."""
    numbers = [step.number for step in draft.snapshot.all(Step)]
    numbers += [one.number for one in draft.new if isinstance(one, Step)]
    takes = tuple(ref for ref in (done.part, *done.about) if ref) if done else ()
    process = process_of(done.title) if done else ""
    before = before or _done_before(draft.snapshot, done)
    return Step(
        id=new_id(),
        title=name,
        when=draft.when,
        number=max(numbers, default=0) + 1,
        uses=tuple(dict.fromkeys(takes)),
        after=(before,) if before else (),
        closes=bool(done and (done.closes or process) and not done.undone),
        process=(process,) if process else (),
        time=done.time if done else None,
    )


def _done_before(snapshot: Snapshot, done: StepDone | None) -> Ref | None:
    """Give the step carried out last before this, on the same build."""
    if done is None:
        return None
    found = None
    for one in snapshot.all(StepDone):
        earlier = (one.when, one.id) < (done.when, done.id)
        if one.step and earlier and one.build == done.build and not one.undone:
            found = one.step
    return found


_WHEN = re.compile(
    r"(?i)^(?:(?:on|at|this|last|the|yesterday|today|then|now|in the|evening|morning|"
    r"afternoon|night|noon|quarter|half|past|to|of|about|around|o'clock|"
    r"mon|tues|wednes|thurs|fri|satur|sun|january|february|march|april|may|june|july|"
    r"august|september|october|november|december|one|two|three|four|five|six|seven|"
    r"eight|nine|ten|eleven|twelve|in)(?:day)?|[\d.:/-]+(?:st|nd|rd|th|am|pm|h)?|,)"
    r"(?:\s+|(?<=,)|,\s*)"
)
_WHO = re.compile(r"(?i)^(?:i|we)\s+(?:have\s+|then\s+|just\s+)?")


def _untimed(title: str) -> str:
    """Give a line from what was done on, without when and by whom it was done.

    Only where a word of work follows, so that no other line loses its beginning.
    """
    rest = title
    while found := _WHEN.match(rest):
        rest = rest[found.end() :]
    rest = _WHO.sub("", rest)
    return rest if rest.partition(" ")[0].casefold() in BY_PAST else title


def imperative(title: str) -> str:
    """Turn “glued the channel shut, took an hour” into “glue the channel shut”."""
    short = _TAIL.sub("", _untimed(title.strip())).rstrip(" .!")
    first, _, rest = short.partition(" ")
    word = BY_PAST.get(first.casefold())
    return f"{word} {rest}".strip() if word else short
