"""When it happened: yesterday 16:00, this morning, 2 h ago, on the 14th, 2026-03-14.

A day without a time is told at noon, a part of the day at its usual hour, and
never later than now; the words are kept, so nothing pretends to be exacter.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from logbook.errors import BadInput
from logbook.plain.when.days import UNDERWAY, day_at, named_day, so_long_ahead
from logbook.plain.when.hours import (
    bare_hour,
    clock_in,
    hour_within,
    in_part_of_day,
    spoken_today,
)
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence, read_sentence
from logbook.plain.words.vocabulary import Vocabulary

_PARTS_OF_DAY = {
    "time:morning": 9,
    "time:noon": 12,
    "time:afternoon": 15,
    "time:evening": 19,
    "time:night": 22,
    "time:tonight": 20,
}


_AGO = {"h": "hours", "min": "minutes"}
_AHEAD = {"h": "hours", "d": "days"}


@dataclass(frozen=True, slots=True)
class Moment:
    """An instant with its words; `future` when it lies ahead of now.

    `hours` are the two that an hour told without its half of the day can be; `exact`
    where the hour was said at all.
    """

    at: datetime
    words: tuple[Word, ...]
    future: bool = False
    hours: tuple[str, ...] = ()
    exact: bool = True


def find_due(sentence: Sentence) -> tuple[date, tuple[Word, ...]] | None:
    """Give the day something is due, looking ahead from now; its words are marked."""
    away = sentence.has("order_done", "outside_work")
    ready = [at for at, one in enumerate(sentence.words) if one.low == "ready" and away]
    for at in (*sentence.tagged("due"), *ready):
        apart = sentence.word(at + 1)
        for start in () if apart and apart.low == "," else (at + 1, at + 2):
            day, size = day_at(sentence, start, ahead=True)
            if day is not None:
                words = tuple(sentence.words[at : start + size])
                _mark(words)
                words[0].tags |= {"due"}  # That is what leads to the day still.
                return day, words
    if (found := so_long_ahead(sentence, at_the_end=away)) is not None:
        _mark(found[1])
        return found
    if any(word.low in UNDERWAY for word in sentence.words):
        for at, word in enumerate(sentence.words):
            day, size = named_day(
                sentence, at, sentence.vocabulary.now.date(), ahead=True
            )
            if day is not None and word.sort is not Sort.COUNT:
                words = tuple(sentence.words[at : at + size])
                _mark(words)
                return day, words
    return None


def read_moment(text: str, now: datetime) -> datetime | str:
    """Read a text that tells a moment and nothing else; what is wrong otherwise."""
    sentence = read_sentence(text, Vocabulary(now=now))
    moment = find_moment(sentence)
    rest = [word.text for word in sentence.words if word.sort is not Sort.WHEN]
    if moment is None or [word for word in rest if word not in (",", "at", "on")]:
        return f"found “{text}”"
    if moment.hours:
        return f"“{text}” can be {' or '.join(moment.hours)}"
    return moment.at


def instant_typed(typed: str, now: datetime) -> datetime:
    """Read an instant typed by itself, in ISO form or as it is said, up to now.

    Raises:
        BadInput: it is none, or still to come.
    """
    try:
        when = datetime.fromisoformat(typed)
    except ValueError:
        found = read_moment(typed, now)
        if not isinstance(found, datetime):
            raise BadInput(
                f"“{typed}” is no date and time; accepted: 2026-03-14T16:00, or "
                "“yesterday 16:00”, “2 h ago”, “monday”"
            ) from None
        when = found
    when = when if when.tzinfo else when.astimezone()
    if when > now:
        raise BadInput(f"{typed} lies in the future; accepted: up to now")
    return when


def find_moment(sentence: Sentence) -> Moment | None:
    """Give when it happened, if the line says so; the words used are marked."""
    return _ago(sentence) or _day_and_time(sentence)


def _mark(words: tuple[Word, ...]) -> None:
    for word in words:
        word.sort = Sort.WHEN
        word.tags = frozenset({"filler"})
        word.amounts = ()


def _ago(sentence: Sentence) -> Moment | None:
    now = sentence.vocabulary.now
    for at in sentence.tagged("time:ago"):
        amount = sentence.word(at - 1)
        if at and amount is not None and amount.dimension == "time":
            found = amount.quantities("h")
            if found and found[0].unit in _AGO and found[0].value < 10000:
                span = timedelta(**{_AGO[found[0].unit]: float(found[0].value)})
                words = (amount, sentence.words[at])
                _mark(words)
                return Moment(now - span, words)
    for at in sentence.tagged("time:in_future"):
        amount = sentence.word(at + 1)
        if amount is not None and amount.unit in ("d", "h") and _alone(sentence, at):
            words = (sentence.words[at], amount)
            span = timedelta(
                **{_AHEAD[amount.unit]: float(amount.quantities("h")[0].value)}
            )
            _mark(words)
            return Moment(now + span, words, future=True)
    return None


def _alone(sentence: Sentence, at: int) -> bool:
    """Tell whether “in 3 days” begins or ends the line."""
    return at == 0 or at + 2 >= len(sentence.words)


def _day_and_time(sentence: Sentence) -> Moment | None:
    day, size, start = _day_told(sentence)
    today = sentence.vocabulary.now.date()
    clock, clock_word = clock_in(sentence, start + size if day else None)
    part = next(iter(sentence.tagged(*_PARTS_OF_DAY)), None)
    if day is None and part is not None and not _day_part_counts(sentence, part):
        part = None
    words = list(sentence.words[start : start + size]) if day else []
    hour = _noon_or(part, sentence)
    dates = [word for word in words if word.sort is Sort.DATE]
    within = hour_within(dates[0]) if dates else None
    if within is not None:
        clock = hour = within
    elif clock is not None and clock_word is not None:
        words.append(clock_word)
        hour = clock
    elif part is not None and sentence.words[part] not in words:
        words.append(sentence.words[part])
    hours, hour_words = (
        bare_hour(sentence, start, size) if day else spoken_today(sentence)
    )
    hours = in_part_of_day(sentence, hours)
    if day is not None and (clock or hour_words) and _is_named(sentence, words, today):
        day = today  # An hour still to come is asked about; none of last week is meant.
        hours = _passed(sentence, hours) or hours
    if clock is None and hour_words:
        words += [word for word in hour_words if word not in words]
        hour = time.fromisoformat(hours[0])
        if len(hours) > 1:
            return replace(
                _settle(sentence, day, time(12), tuple(words), exact=False), hours=hours
            )
    if not words:
        return None
    exact = clock is not None or bool(hour_words)
    return _settle(sentence, day, hour, tuple(words), exact=exact)


def _day_told(sentence: Sentence) -> tuple[date | None, int, int]:
    """Give the first day told, how many words tell it, and where they begin.

    One that is written goes before those only named: Sat 7.11.
    """
    today = sentence.vocabulary.now.date()
    for at in sentence.sorts(Sort.DATE):
        day, size = named_day(sentence, at, today, ahead=False)
        if day is not None:
            named = sentence.word(at - 1) if at else None
            weekday = named is not None and named.low in sentence.lexicon.weekdays
            return day, size + weekday, at - weekday
    for start in range(len(sentence.words)):
        day, size = day_at(sentence, start, ahead=False)
        if day is not None:
            return day, size, start
    return None, 0, 0


def _is_named(sentence: Sentence, words: list[Word], today: date) -> bool:
    """Tell whether a day is told by the weekday of today, and not as the last one."""
    weekdays = sentence.lexicon.weekdays
    last = any("time:last" in word.tags for word in words)
    return not last and any(weekdays.get(w.low) == today.weekday() for w in words)


def _passed(sentence: Sentence, hours: tuple[str, ...]) -> tuple[str, ...]:
    """Give those of the hours that have passed today."""
    now = sentence.vocabulary.now
    day = now.date()
    return tuple(
        one
        for one in hours
        if datetime.combine(day, time.fromisoformat(one), now.tzinfo) <= now
    )


def _settle(
    sentence: Sentence,
    day: date | None,
    hour: time,
    words: tuple[Word, ...],
    *,
    exact: bool,
) -> Moment:
    now, said = sentence.vocabulary.now, sentence.vocabulary.day
    today = now.date()
    if day is None and said is not None:
        day = said.at.date()
    at = datetime.combine(day or today, hour, now.tzinfo)
    future = at > now
    if future and (day or today) == today and not exact:
        at, future = now, False
    _mark(words)
    return Moment(at, words, future, exact=exact)


def _noon_or(part: int | None, sentence: Sentence) -> time:
    if part is None:
        return time(12)
    tags = sentence.words[part].tags
    return time(next(hour for tag, hour in _PARTS_OF_DAY.items() if tag in tags))


def _day_part_counts(sentence: Sentence, at: int) -> bool:
    word = sentence.words[at]
    return " " in word.low or at == 0
