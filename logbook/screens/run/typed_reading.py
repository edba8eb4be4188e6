"""What a line typed in a measuring run says: readings, each at its place.

`86.42` is the value of the size the run stands at; `w 40.2` names a size, new
ones too; `w 40.2 =40 ±0.1`, or `w 40.2 drawn 40 ±0.1`, says how it is drawn;
`left 86.42`, `w left 86.42` or `@jig 86.42` names a place. Several numbers are
readings at several places, which are called 1, 2, 3 where nothing names them.
`/clamped` holds for all that follows, `/` ends it; `n` says that this one is not
measured.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass
from functools import cache

from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.words.lexicon import lexicon
from logbook.quantity import Absent, Quantity, parse_value
from logbook.records.sizes.limits import Drawn, parse_drawn

MORE_PLACES = frozenset({"start", "end"})
"""Places on a workpiece that name other things in a sentence."""

LONGEST_PLACE = 3
"""No place has more words than this."""

_DRAWN = re.compile(r"(?i)\s*=|(?:^|\s+)drawn(?:\s+as|\s*:)?\s+(?=[\d.])")
"""What stands between a reading and how its size is drawn."""

_NAMING_NUMBER = re.compile(r"[0-9]{1,2}")


class NoSize(BadInput):
    """Numbers that name no size, where the run stands at none."""


@dataclass(frozen=True, slots=True)
class Typed:
    """What a typed reading says; empty words mean: as where the run stands.

    It is `confirmed` where it looked like a slip and was said to be so.
    """

    value: Quantity | Absent | None
    what: str = ""
    place: str = ""
    state: str | None = None
    drawn: Drawn | None = None
    note: str = ""
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class Known:
    """What is known before a line is read: the sizes and places by name, the unit.

    `called` is what the piece and its part are called; `at_size` tells whether the run
    stands at a size.
    """

    unit: str
    sizes: Collection[str] = ()
    places: Collection[str] = ()
    called: Collection[str] = ()
    at_size: bool = False


@cache
def place_words() -> frozenset[str]:
    """Give the words that name a place wherever they stand before a number."""
    every = (one for several in lexicon().phrases.values() for one in several)
    return MORE_PLACES | {" ".join(words) for words, tags in every if "place" in tags}


def read_typed(text: str, known: Known) -> tuple[Typed, ...]:
    """Read one typed line of a run; several numbers are several readings.

    Raises:
        NoSize: they are readings of no size, and the run stands at none.
        BadInput: it is no reading; the sentence says what is accepted.
    """
    text = " ".join(text.split())
    if text.startswith("/"):
        return (Typed(None, state=text[1:].strip()),)
    unit, drawn = known.unit, None
    if (sign := _DRAWN.search(text)) is not None:
        typed, text, said = text, text[: sign.start()], text[sign.end() :]
        drawn = parse_drawn(said, unit)
        if not text:
            raise BadInput(
                f"“{typed}” says how a size is drawn and has no reading; "
                "accepted: both, w 40.2 =40 ±0.1"
            )
        if drawn.nominal is not None and not drawn.nominal.metal:
            unit = drawn.nominal.unit
    name, found = _split(_without_the_part(text.split(), known), known, unit)
    if not name and not known.at_size:
        raise NoSize(
            f"“{text}” names no size yet; accepted: a name and its value, w 40.2"
        )
    return tuple(Typed(value, name, place, drawn=drawn) for place, value in found)


def _without_the_part(words: list[str], known: Known) -> list[str]:
    """Leave out the part's own name before a size it has: bar length 179.6."""
    sizes = {size.casefold() for size in known.sizes}

    def names_a_size(rest: Sequence[str]) -> bool:
        return any(_named(rest[:end]) in sizes for end in range(1, len(rest)))

    for called in () if names_a_size(words) else known.called:
        own = len(called.split())
        if _named(words[:own]) == called.casefold() and names_a_size(words[own:]):
            return words[own:]
    return words


_Placed = tuple[str, Quantity | Absent]
_Found = list[_Placed]


def _split(words: list[str], known: Known, unit: str) -> tuple[str, _Found]:
    """Split a name from its readings: it ends where places and numbers begin."""
    sizes = {size.casefold() for size in known.sizes}
    if ahead := _place_before_a_name(words, known, sizes):
        what, taken = _split(words[ahead:], known, unit)
        place = " ".join(words[:ahead]).removeprefix("@")
        return what, [(at or place, value) for at, value in taken]
    lengths = range(len(words))
    for at in [*(n for n in reversed(lengths) if _named(words[:n]) in sizes), *lengths]:
        name, rest = words[:at], words[at:]
        if at and (_is_figure(name[0]) or name[-1].startswith("@")):
            continue
        if _named(name) not in sizes and name and _numbers_a_name(rest, unit):
            name, rest = [*name, rest[0]], rest[1:]
        found = list(_readings(rest, known, unit))
        if found:
            return " ".join(name), _at_places(found)
    raise _refusal(words, unit)


def _named(words: Sequence[str]) -> str:
    return " ".join(words).casefold()


def _is_figure(word: str) -> bool:
    return not any(sign.isalpha() for sign in word)


def _place_before_a_name(
    words: Sequence[str], known: Known, sizes: Collection[str]
) -> int:
    """Give how many words name a place before the size: @jig w 40.2, left w 40.2."""
    ahead = _place_at(words, 0, known.places) if len(words) > 1 else 0
    if ahead and words[0].startswith("@"):
        return ahead
    if any(_named(words[:end]) in sizes for end in range(1, len(words))):
        return 0
    ends = range(ahead + 1, len(words))
    return ahead if any(_named(words[ahead:end]) in sizes for end in ends) else 0


def _numbers_a_name(rest: Sequence[str], unit: str) -> bool:
    """Tell whether the first number belongs to a name that is new: hole 2 5.01."""
    if len(rest) != 2 or not _NAMING_NUMBER.fullmatch(rest[0]):
        return False
    return _value_at(rest, 0, unit)[0] == 1 and _value_at(rest, 1, unit)[0] == 1


def _readings(words: Sequence[str], known: Known, unit: str) -> Iterator[_Placed]:
    """Give each number with the place before it; nothing where another word stands."""
    found: list[_Placed] = []
    at, place = 0, ""
    while at < len(words):
        size = _place_at(words, at, known.places)
        if size:
            place = " ".join(words[at : at + size]).removeprefix("@")
            at += size
            continue
        size, value = _value_at(words, at, unit)
        if value is None:
            return
        found.append((place, value))
        at += size
    if found and found[-1][0] == place:  # else a place stands at the end
        yield from found


def _place_at(words: Sequence[str], at: int, places: Collection[str]) -> int:
    """Give how many words name a place here, something standing behind them."""
    if len(words[at]) > 1 and words[at].startswith("@"):
        return 1
    known = {place.casefold() for place in places if not _is_figure(place)}
    known |= place_words()
    for size in range(min(LONGEST_PLACE, len(words) - at - 1), 0, -1):
        if _named(words[at : at + size]) in known:
            return size
    return 0


def _value_at(
    words: Sequence[str], at: int, unit: str
) -> tuple[int, Quantity | Absent | None]:
    """Give the longest value that begins here, and how many words it takes."""
    if at == len(words) - 1 and words[at].casefold() == "n":
        return 1, Absent.NOT_MEASURED
    for end in range(len(words), at, -1):
        try:
            return end - at, parse_value(" ".join(words[at:end]), unit)
        except BadInput:
            continue
    return 0, None


def _at_places(found: _Found) -> _Found:
    """Call the places 1, 2, 3 where several numbers have none named."""
    if len(found) == 1 or any(place for place, _ in found):
        return found
    return [(str(n), value) for n, (_, value) in enumerate(found, 1)]


def _refusal(words: Sequence[str], unit: str) -> BadInput:
    """Give the sentence about the number that could not be read."""
    refusal: BadInput | None = None
    for at in range(len(words)):
        try:
            parse_value(" ".join(words[at:]), unit)
        except BadInput as error:
            if refusal is None or any(c.isdecimal() for c in words[at][:1]):
                refusal = error
    numbers = [word for word in words if word[:1].isdecimal()]
    if isinstance(refusal, NeedsAnswer) and len(numbers) > 1:
        return BadInput(str(refusal))
    return refusal or BadInput("nothing was typed; accepted: a number such as 86.42")
