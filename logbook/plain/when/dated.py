"""A line without the words of its day: what it tells is the same on any day.

They are taken out before the rest is read, wherever they stand, so that no rule has to
look past them: “12.11. drilled the holes” is “drilled the holes”, on the twelfth.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime

from logbook.plain.understanding import Doubt, Kind, Span, Understanding, Verdict
from logbook.plain.when.clock_spans import find_clock_span
from logbook.plain.when.days import gone_by
from logbook.plain.when.moments import Moment, find_due, find_moment
from logbook.plain.words.cutting import plain_signs
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence, read_sentence
from logbook.plain.words.spread import spread
from logbook.plain.words.vocabulary import Vocabulary
from logbook.plain.words.written_days import MEASURE
from logbook.quantity import Quantity

Read = Callable[[str], Understanding]

_LED = re.compile(
    r"(?i)(?:\b(?:(?:on|at|since|from|in|around|about|am)(?:\s+the)?|@)\s*|[(\[]\s*)$"
)
_BOUND = re.compile(r"(?i)\b(?:until|till|by|before|after|for|to)(?:\s+the)?\s*$")
"""What a day behind it is not the day of: until monday, after yesterday."""


@dataclass(frozen=True, slots=True)
class Dated:
    """A line whose day is set apart; `rest` has blanks in the place of its words."""

    line: str
    rest: str
    moment: Moment
    now: datetime
    minutes: Quantity | None = None
    took: tuple[Word, ...] = ()

    def told(self, read: Read) -> Understanding:
        """Give what the rest tells, on that day."""
        rest = spread(read(" ".join(self.rest.split())), self.rest)
        moment = self.moment
        words = {**rest.words, "when": _spans(moment.words)}
        facts = replace(
            rest.facts,
            when=moment.at,
            hour_said=moment.exact,
            when_text=" ".join(word.text for word in moment.words),
        )
        if self.minutes is not None and not facts.minutes:
            facts = replace(facts, minutes=self.minutes)
            words["minutes"] = _spans(self.took)
        doubts = [one for one in rest.doubts if one.about not in ("when", "hour")]
        if rest.kind is not Kind.NOTE:
            doubts = [*self._which_day(), *doubts, *self._which_hour()]
        told = replace(
            rest,
            line=self.line,
            rest=self.rest,
            facts=facts,
            words=words,
            doubts=tuple(doubts),
        )
        return self._or_a_size(told, read)

    def _which_day(self) -> list[Doubt]:
        """Ask of 5/11/2026; not where the other day, 11 May, would still be to come."""
        return [
            Doubt("day", f"“{word.text}” can be two days: which?", word.asks)
            for word in self.moment.words
            if word.asks and self._has_been(word.asks[1])
        ]

    def _has_been(self, day: str) -> bool:
        told = datetime.strptime(day, "%d %B %Y").replace(tzinfo=self.now.tzinfo)
        return told <= self.now

    def _which_hour(self) -> list[Doubt]:
        said = " ".join(word.text for word in self.moment.words)
        hours = self.moment.hours
        return [Doubt("hour", f"“{said}”: at which hour?", hours)] if hours else []

    def _or_a_size(self, told: Understanding, read: Read) -> Understanding:
        """Ask of “24.11. 16.30 opening” whether that is an hour or the one size."""
        dotted = [w for w in self.moment.words if re.fullmatch(r"\d\d?\.\d\d", w.text)]
        if not dotted or (told.verdict is Verdict.TAKEN and told.kind is not Kind.NOTE):
            return told
        hour, unit = dotted[0], "mm"
        sized = f"{self.line[: hour.end]} {unit}{self.line[hour.end :]}"
        measured = read(" ".join(sized.split()))
        if measured.kind is not Kind.READING or not measured.facts.readings:
            return told
        choices = (hour.text.replace(".", ":"), f"{hour.text} {unit}")
        return _asking(told, f"“{hour.text}”: an hour, or {choices[1]}?", choices)


def day_apart(line: str, vocabulary: Vocabulary) -> Dated | None:
    """Give the line without its day; None where none is told, or one to come."""
    sentence = read_sentence(line, vocabulary)
    find_due(sentence)  # The day on which something is due stays in the line.
    span = find_clock_span(sentence)
    moment = find_moment(sentence)
    if moment is None or moment.future or _is_bound(sentence, moment):
        return None
    if sentence.sorts(Sort.CLOCK, Sort.DATE):
        return None  # Of two times the other one tells something too.
    minutes, took = span or (None, ())
    words = sorted({*map(_place, moment.words), *map(_place, took)})
    rest = line
    for start, end in reversed(words):
        rest = _without(rest, start, end)
    if not any(sign.isalnum() for sign in rest):
        return None
    return Dated(line, rest, moment, vocabulary.now, minutes, took)


def day_alone(line: str, vocabulary: Vocabulary) -> Moment | None:
    """Give the day of a line that tells only a day that was: 12.11., yesterday."""
    sentence = read_sentence(line, vocabulary)
    moment = find_moment(sentence)
    if moment is None or moment.future or moment.hours:
        return None
    hour_only = all(re.fullmatch(r"\d\d?[:.]\d\d", word.text) for word in moment.words)
    if hour_only and vocabulary.day is None:
        return None
    rest = line
    for start, end in reversed([_place(word) for word in moment.words]):
        rest = _without(rest, start, end)
    asks = any(word.asks for word in moment.words)
    return None if asks or any(sign.isalnum() for sign in rest) else moment


def _place(word: Word) -> tuple[int, int]:
    return word.start, word.end


def _spans(words: tuple[Word, ...]) -> tuple[Span, ...]:
    return tuple(
        Span(word.start, word.end) for word in sorted(words, key=lambda one: one.start)
    )


def _is_bound(sentence: Sentence, moment: Moment) -> bool:
    first = min(word.start for word in moment.words)
    return _BOUND.search(sentence.text[:first]) is not None


def _without(line: str, start: int, end: int) -> str:
    """Blank words with what leads to them, and with the marks they stand between."""
    while led := _LED.search(line[:start]):
        start = led.start()
    behind = re.match(r"\s*[)\]]", line[end:])
    end += behind.end() if behind and "(" not in line[:start] else 0
    before = line[:start].rstrip()
    stop = re.match(r"\s*[,:;.-]+(?=\s|\Z)", line[end:])
    ends = not line[end:].strip(" .!")
    if stop and (not before or before[-1] in ",;:" or ends):
        end += stop.end()
    elif ends and before and before[-1] in ",;-":
        start = len(before) - 1
    return line[:start] + " " * (end - start) + line[end:]


# -- what may be a day ---------------------------------------------------------------

_HEAD = re.compile(
    rf"(?i)(?P<day>(?P<d>\d\d?)\.(?P<m>\d\d?))\s+(?!{MEASURE})(?=[^\W\d])"
)
_END = re.compile(
    r"(?i).*(?:[^\W\d]{2}\s|[^,\d]\d+(?:\.\d+)?[,;]?\s)(?<!\bto\s)(?<!\bat\s)(?<!\bof\s)(?<!\bby\s)(?<!\bis\s)(?<!\bwas\s)"
    r"(?P<day>(?P<d>\d\d?)\.(?P<m>\d\d?))\.\Z"
)
_HALF_A_YEAR = 183
"""So far back a page is still typed in; what is older is hardly meant."""


def may_be_day(line: str, vocabulary: Vocabulary, read: Read) -> Understanding | None:
    """Ask of “7.11 sockel height 41.8” whether 7.11 is a day; None where it is none.

    It is only where the rest tells something by itself, so that it lacks no number, or
    where it stands behind another: “41.8, 24.11.”
    """
    match = _HEAD.match(plain_signs(line)) or _END.match(plain_signs(line))
    day = match and gone_by(int(match["d"]), int(match["m"]), vocabulary.now.date())
    if not match or not day or (vocabulary.now.date() - day).days > _HALF_A_YEAR:
        return None
    start, end = match.span("day")
    blanks = line[:start] + " " * (end - start) + line[end:].rstrip(".")
    rest = replace(spread(read(" ".join(blanks.split())), blanks), line=line)
    ends = not line[end:].strip(".")
    in_a_row = ends and line[:start].rstrip(" ,;")[-1:].isdigit()
    if not in_a_row and not _stands_without(rest, ends=ends):
        return None
    choices = (f"{day.day} {day:%B}", f"{match['day']} {vocabulary.unit}")
    question = f"“{match['day']}”: {choices[0]}, or {choices[1]}?"
    return _asking(rest, question, choices)


def _stands_without(rest: Understanding, *, ends: bool) -> bool:
    """Tell whether a line tells something without the figure it begins or ends with."""
    if rest.kind in (Kind.NOTE, Kind.QUESTION) or rest.verdict is Verdict.KEPT:
        return False
    return rest.kind is not Kind.READING or (bool(rest.facts.readings) and not ends)


def _asking(
    line: Understanding, question: str, choices: tuple[str, ...]
) -> Understanding:
    doubt = Doubt("day", question, choices)
    return replace(line, doubts=(doubt, *line.doubts))


def on_day_said(line: Understanding, vocabulary: Vocabulary) -> Understanding:
    """Give a line that tells no day on the one said once for all that is typed."""
    day = vocabulary.day
    if day is None or line.facts.when is not None or line.amends is not None:
        return line
    if any(doubt.about == "when" for doubt in line.doubts):
        return line
    when = day.instant(vocabulary.now)
    return replace(line, facts=replace(line.facts, when=when, hour_said=day.exact))
