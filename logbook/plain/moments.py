"""When it happened: yesterday 16:00, this morning, 2 h ago, on the 14th, 2026-03-14.

A day without a time is told at noon, a part of the day at its usual hour, and
never later than now; the words are kept, so nothing pretends to be exacter.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date, datetime, time, timedelta

from logbook.plain.clock_spans import is_done, is_hour
from logbook.plain.figures import Sort, Word
from logbook.plain.lexicon import NO_TAGS
from logbook.plain.ordered import UNDERWAY
from logbook.plain.sentence import Sentence, read_sentence
from logbook.plain.vocabulary import Vocabulary

_PARTS_OF_DAY = {
    "time:morning": 9,
    "time:noon": 12,
    "time:afternoon": 15,
    "time:evening": 19,
    "time:night": 22,
    "time:tonight": 20,
}
_AGO = {"h": "hours", "min": "minutes", "d": "days"}


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
    for at in sentence.tagged("due"):
        for start in (at + 1, at + 2):
            day, size = _day(sentence, start, ahead=True)
            if day is not None:
                words = tuple(sentence.words[at : start + size])
                _mark(words)
                return day, words
    if any(word.low in UNDERWAY for word in sentence.words):
        for at, word in enumerate(sentence.words):
            day, size = _named_day(
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
            _mark(words)
            return Moment(now, words, future=True)
    return None


def _alone(sentence: Sentence, at: int) -> bool:
    """Tell whether “in 3 days” begins or ends the line."""
    return at == 0 or at + 2 >= len(sentence.words)


def _day_and_time(sentence: Sentence) -> Moment | None:
    day, size, start = None, 0, 0
    for start in range(len(sentence.words)):
        day, size = _day(sentence, start, ahead=False)
        if day is not None:
            break
    clock, clock_word = _clock(sentence, start + size if day else None)
    part = next(iter(sentence.tagged(*_PARTS_OF_DAY)), None)
    if day is None and part is not None and not _day_part_counts(sentence, part):
        part = None
    words = list(sentence.words[start : start + size]) if day else []
    hour = _noon_or(part, sentence)
    if clock is not None and clock_word is not None:
        words.append(clock_word)
        hour = clock
    elif part is not None and sentence.words[part] not in words:
        words.append(sentence.words[part])
    hours, hour_words = (
        _bare_hour(sentence, start, size) if day else _spoken_today(sentence)
    )
    hours = _in_part_of_day(sentence, hours)
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


def _spoken_today(sentence: Sentence) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours that are past of “at half past eight”, told without a day."""
    now = sentence.vocabulary.now
    hours, words = _leading_hour(sentence, 0)
    if words and sentence.tags(1) == NO_TAGS and _is_told(sentence, 1):
        past = tuple(hour for hour in hours if hour <= f"{now:%H:%M}")
        return past or hours[:1], words
    for at in range(1, len(sentence.words) - 2):
        spoken = _spoken_hour(sentence, at)
        if spoken is None or sentence.words[at - 1].low not in _HOUR_LEADS:
            continue
        hours, words = spoken
        past = tuple(hour for hour in hours if hour <= f"{now:%H:%M}")
        return (past, words) if past else ((), ())
    return (), ()


_HALVES = {
    "time:last_night": (17, 24), "time:night": (17, 24), "time:tonight": (17, 24),
    "time:evening": (16, 24), "time:afternoon": (12, 20), "time:morning": (4, 13),
}  # fmt: skip
"""Between which hours a part of the day lies, as it is spoken of."""


def _in_part_of_day(sentence: Sentence, hours: tuple[str, ...]) -> tuple[str, ...]:
    """Leave the hours that the part of the day told beside them allows."""
    for tag, (first, last) in _HALVES.items():
        if sentence.has(tag):
            near = tuple(hour for hour in hours if first <= int(hour[:2]) < last)
            return near or hours
    return hours


_AFTER_A_DAY = frozenset(
    {
        "at",
        "in",
        "from",
        "by",
        "around",
        "i",
        "we",
        "it",
        "the",
        "a",
        "and",
        "to",
        "put",
    }
)
_HOUR_LEADS = frozenset({"at", "@", "around", "about", "ca", "circa", "roughly"})


def _bare_hour(
    sentence: Sentence, start: int, size: int
) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours that “around four” beside a day can be, the likelier first."""
    leading = _leading_hour(sentence, start + size)
    if leading[1]:
        return leading
    near = range(max(0, start - 4), min(len(sentence.words) - 1, start + size + 3))
    for at in near:
        if spoken := _spoken_hour(sentence, at):
            return spoken
    for at in near:
        word, number = sentence.words[at], sentence.words[at + 1]
        whole = number.whole or sentence.lexicon.numbers.get(number.low, 0)
        led = word.low in _HOUR_LEADS
        if not led or not whole or number.unit or number.has_decimals:
            continue
        following = sentence.word(at + 2)
        ended = following is None or (
            following.low not in ("and", "to") and following.sort is not Sort.NUMBER
        )
        if not ended or not 0 < whole < 24:
            continue
        first = at - 1 if at and sentence.words[at - 1].low in _HOUR_LEADS else at
        words = tuple(sentence.words[first : at + 2])
        if whole > 12:
            return (f"{whole:02d}:00",), words
        return _likelier_first([whole % 12 * 60, whole % 12 * 60 + 720]), words
    return (), ()


def _leading_hour(
    sentence: Sentence, at: int
) -> tuple[tuple[str, ...], tuple[Word, ...]]:
    """Give the hours of a bare number that stands for one: yesterday 9 glued it."""
    word, following = sentence.word(at), sentence.word(at + 1)
    if word is None or following is None or not is_hour(word):
        return (), ()
    if not (_is_told(sentence, at + 1) or is_done(following)):
        return (), ()
    whole = word.whole or 0
    if whole > 12:
        return (f"{whole % 24:02d}:00",), (word,)
    return _likelier_first([whole % 12 * 60, whole % 12 * 60 + 720]), (word,)


def _is_told(sentence: Sentence, at: int) -> bool:
    """Tell whether a word is already taken for the end of a span of hours."""
    word = sentence.word(at)
    return word is not None and word.sort is Sort.WHEN


_QUARTERS = {"half": 30, "quarter": 15}


def _spoken_hour(
    sentence: Sentence, at: int
) -> tuple[tuple[str, ...], tuple[Word, ...]] | None:
    """Give the hours that “half past three” can be, the likelier first."""
    told, joint, last = (sentence.word(at + step) for step in range(3))
    if told is None or joint is None or last is None:
        return None
    minutes = _QUARTERS.get(told.low) or sentence.lexicon.numbers.get(told.low)
    minutes = minutes or (told.whole if told.low.isdigit() else None)
    hour = sentence.lexicon.numbers.get(last.low) or last.whole
    if joint.low not in ("past", "to") or not minutes or not hour or last.unit:
        return None
    if joint.low == "to" and told.low not in _QUARTERS and not told.low.isalpha():
        return None
    if not (minutes < 60 and 0 < hour <= 12):
        return None
    start = (hour % 12) * 60 + (minutes if joint.low == "past" else -minutes)
    first = at - 1 if at and sentence.words[at - 1].low in _HOUR_LEADS else at
    return _likelier_first([start % 720, start % 720 + 720]), tuple(
        sentence.words[first : at + 3]
    )


def _likelier_first(minutes: list[int]) -> tuple[str, ...]:
    ordered = sorted(minutes, key=lambda told: not _FIRST * 60 <= told < _LAST * 60)
    return tuple(f"{told // 60:02d}:{told % 60:02d}" for told in ordered)


_FIRST, _LAST = 7, 19
"""Between these hours most work at a bench is done (common practice, no source)."""


def _settle(
    sentence: Sentence,
    day: date | None,
    hour: time,
    words: tuple[Word, ...],
    *,
    exact: bool,
) -> Moment:
    now = sentence.vocabulary.now
    today = now.date()
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


def _clock(
    sentence: Sentence, after_day: int | None
) -> tuple[time | None, Word | None]:
    for at in sentence.sorts(Sort.CLOCK):
        word = sentence.words[at]
        before = sentence.word(at - 1) if at else None
        led = before is not None and before.low in ("at", "@", "from", "around")
        ends = at in (0, len(sentence.words) - 1)
        near = after_day is not None and -2 <= at - after_day <= 1
        only = after_day is not None and len(sentence.sorts(Sort.CLOCK)) == 1
        alone = len(sentence.sorts(Sort.CLOCK)) == 1 and not _times(before)
        if led or ends or near or only or alone or _begins_a_span(sentence, at):
            return _read_clock(word.low), word
    return None, None


def _times(before: Word | None) -> bool:
    """Tell the 3:20 of “print time 3:20” from an hour of the day."""
    if before is None:
        return False
    spent = before.low in ("took", "takes", "for", "in", "time", "after", "ratio")
    return spent or bool(before.tags & {"measures:time"})


def _begins_a_span(sentence: Sentence, at: int) -> bool:
    """See the 9:15 of “9:15 to 9:35”, whose other words are taken already."""
    following = sentence.word(at + 1)
    if following is None or following.sort is not Sort.WHEN:
        return False
    return following.low in ("to", "-", "till", "until")


def _read_clock(text: str) -> time | None:
    match = re.match(r"(\d{1,2})(?::(\d\d))?\s*([ap]m)?", text)
    if not match:
        return None
    hour, minute = int(match[1]), int(match[2] or 0)
    if match[3] == "pm" and hour < 12:
        hour += 12
    if match[3] == "am" and hour == 12:
        hour = 0
    return time(hour, minute) if hour < 24 else None


def _day(sentence: Sentence, at: int, *, ahead: bool) -> tuple[date | None, int]:
    """Give the day told at a place and how many words tell it."""
    word = sentence.word(at)
    if word is None or word.sort is Sort.WHEN:
        return None, 0
    today = sentence.vocabulary.now.date()
    for tag, days in (
        ("time:today", 0), ("time:yesterday", -1), ("time:tomorrow", 1),
        ("time:before_yesterday", -2), ("time:last_week", -7),
    ):  # fmt: skip
        if tag in word.tags:
            return today + timedelta(days), 1
    if "time:last_night" in word.tags:
        return today - timedelta(1), 1
    if word.sort is Sort.DATE:
        return _written(word.low), 1
    led = _led(word)
    if led or ahead:
        for skip in (0, 1, 2) if led else (0,):
            told, size = _named_day(sentence, at + skip, today, ahead=ahead)
            if told is not None:
                return told, size + skip
        return None, 0
    told, size = _named_day(sentence, at, today, ahead=False)
    full = told is not None and (size == 2 or len(word.low) > 5)
    return (told, size) if full else (None, 0)


def _led(word: Word) -> bool:
    return bool(word.tags & {"time:on", "time:last", "time:next"})


def _written(text: str) -> date | None:
    numbers = [int(number) for number in re.findall(r"\d+", text)[:3]]
    if "." in text and len(text) <= 10:
        numbers.reverse()
    try:
        return date(*numbers)
    except ValueError:
        return None


def _named_day(
    sentence: Sentence, at: int, today: date, *, ahead: bool
) -> tuple[date | None, int]:
    word = sentence.word(at)
    if word is None or word.sort is Sort.WHEN:
        return None, 0
    known = sentence.lexicon
    before = sentence.word(at - 1) if at else None
    any_such = before is not None and before.low in ("a", "every", "each")
    if word.low in known.weekdays and not word.name and not any_such:
        if not ahead and not _is_past(sentence, at):
            return None, 0
        return _weekday(known.weekdays[word.low], today, ahead=ahead), 1
    following = sentence.word(at + 1)
    third = sentence.word(at + 2)
    if following is not None and following.low == "of" and third is not None:
        following, extra = third, 1
    else:
        extra = 0
    number = (
        word.whole if word.sort in (Sort.NUMBER, Sort.ORDINAL, Sort.COUNT) else None
    )
    if following is not None:
        if number and following.low in known.months:
            return _in_year(
                number, known.months[following.low], today, ahead
            ), 2 + extra
        if word.low in known.months and following.whole and not extra:
            return _in_year(following.whole, known.months[word.low], today, ahead), 2
    if number and word.sort is Sort.ORDINAL and word.low[:1].isdigit():
        if _counts_a_thing(sentence, at):
            return None, 0
        return _in_month(number, today, ahead=ahead), 1
    return None, 0


def _counts_a_thing(sentence: Sentence, at: int) -> bool:
    """Tell “on the 2nd belt” from “on the 2nd sawed the bar” and “on the 2nd, …”."""
    following = sentence.word(at + 1)
    if following is None or not following.low[:1].isalpha():
        return False
    done = any(tag.endswith(":past") for tag in following.tags)
    plain = following.sort not in (Sort.NUMBER, Sort.WHEN, Sort.DATE)
    return plain and not done and following.low not in _AFTER_A_DAY


def _is_past(sentence: Sentence, at: int) -> bool:
    """Tell whether a weekday is one that was: “last”, or something is told as done."""
    before = sentence.word(at - 1) if at else None
    if before is not None and before.tags & {"time:last", "time:next"}:
        return "time:last" in before.tags
    return any(tag.endswith(":past") for word in sentence.words for tag in word.tags)


def _weekday(weekday: int, today: date, *, ahead: bool) -> date:
    if ahead:
        return today + timedelta((weekday - today.weekday() - 1) % 7 + 1)
    return today - timedelta((today.weekday() - weekday - 1) % 7 + 1)


def _in_year(day: int, month: int, today: date, ahead: bool) -> date | None:  # noqa: FBT001
    for year in (today.year, today.year + (1 if ahead else -1)):
        try:
            told = date(year, month, day)
        except ValueError:
            continue
        if told == today or (told > today) == ahead:
            return told
    return None


def _in_month(day: int, today: date, *, ahead: bool) -> date | None:
    month, year = today.month, today.year
    for _ in range(3):
        try:
            told = date(year, month, day)
        except ValueError:
            told = None
        if told is not None and (told == today or (told > today) == ahead):
            return told
        month += 1 if ahead else -1
        if month in (0, 13):
            month, year = (12, year - 1) if month == 0 else (1, year + 1)
    return None
