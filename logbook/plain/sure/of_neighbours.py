"""Signs in what stands right beside a measured value: it is of something else."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.wanting import wanted_of
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.states import STATE


def how_far_it_went(reading: Unread) -> Iterator[Doubt]:
    """See “bed moved 0.8”, “rubs at the back by 0.2”: so far it went, and no size.

    A failing verb in the clause of the value tells so wherever it stands.
    """
    named = any(one.what for one in reading.line.facts.readings)
    for at, word in reading.values:
        before = reading.sentence.words[at - 1] if at else word
        went = any(tag.endswith((":past", ":now")) for tag in before.tags)
        length = word.dimension in ("", "length") and not named
        if went and length and reading.unread(before):
            yield is_it(reading.typed((before, word)))
    for row in reading.rows():
        read = any(reading.of_fact(word, "readings") for word in row)
        for word in row if read else ():
            if word.low.split(" ")[0] in _UNTIL:
                break
            if "fail:now" in word.tags and not reading.read(word):
                yield is_it(word.text)


_UNTIL = frozenset({"before", "until", "till", "when", "while", "once", "if"})


_NO_NOUN = frozenset({"length_adjective", "off", "measures", "is"})


def of_no_size(reading: Unread) -> Iterator[Doubt]:
    """See the 2 of “draws 12 V, 2 open”, “12 wide, 2 wasted”: a count, and no size.

    So it is behind a stop, beside a value with its unit or beside work.
    """
    readings = reading.line.facts.readings
    lengths = all(one.value.dimension == "length" for one in readings)
    if lengths and reading.line.kind is Kind.READING:
        return
    worked = reading.line.kind is not Kind.READING
    nameless = [one.value for one in readings if worked or not one.what]
    for at, word in reading.values:
        before, following = reading.sentence.word(at - 1), reading.sentence.word(at + 1)
        bare = word.whole is not None and not word.unit
        apart = at > 0 and before is not None and before.sort is Sort.MARK
        sized = any(word.whole == one.value for one in nameless)
        if following is None or not (bare and apart and sized):
            continue
        counted = not worked or not following.tags & _NO_NOUN
        if following.sort is Sort.WORD and counted:
            yield is_it(reading.typed((word, following)))


_WITH_UNITS = frozenset(
    {"voltage", "current", "power", "temperature", "mass", "force", "pressure",
     "frequency", "torque", "resistance"}
)  # fmt: skip


def of_which_unit(reading: Unread) -> Iterator[Doubt]:
    """See the 0.42 of “at 50 % 0.21 A, 100 % 0.42”: hardly a length beside amperes."""
    nameless = [
        one.value
        for one in reading.line.facts.readings
        if not one.what and one.value.dimension == "length"
    ]
    others = {word.unit for word in reading.sentence.words
              if word.dimension in _WITH_UNITS}  # fmt: skip
    for _, word in reading.values if others and nameless else ():
        if not word.unit and word.quantities("mm")[0] in nameless:
            choices = (*sorted(others), reading.sentence.vocabulary.unit)
            yield Doubt("unit", f"{word.text}: in which unit?", choices)


def named_after_all(reading: Unread) -> Iterator[Doubt]:
    """See “pocket 18 by 22, flap 2 short”: the flap is told of behind the values."""
    words = reading.sentence.words
    named = [at for at, one in enumerate(words) if reading.of_fact(one, "part")]
    last = max((at for at, _ in reading.values), default=-1)
    behind = words[named[0] :] if named and 0 <= last < named[0] else []
    between = words[last : named[0]] if behind else []
    stop = any(one.low in (",", ";") for one in between)
    told = any(one.sort in FIGURES for one in behind) or len(behind) >= _A_CLAUSE
    if stop and told:
        yield is_it(reading.line.said("part"))


_A_CLAUSE = 3
"""So many words tell something by themselves: spacer takes it up."""


_ANOTHER = frozenset({"other", "others", "the other", "another"})


def of_another_one(reading: Unread) -> Iterator[Doubt]:
    """See “leg 40.2, other 39.8”, “old base 178.6, new base 180.1”: of two pieces."""
    for one in reading.line.facts.readings:
        if one.what.lower() in _ANOTHER:
            yield is_it(one.what)
    named: set[str] = set()
    for word, following in pairwise(reading.sentence.words):
        if word.name is not None and word.name.role == "part":
            if following.sort in FIGURES and word.name.thing in named:
                yield is_it(reading.typed((word, following)))
            if following.sort in FIGURES:
                named.add(word.name.thing)


def named_behind_it(reading: Unread) -> Iterator[Doubt]:
    """See “PETG at 235, 60 fan”: the fan would be new, and is how it was set."""
    for at, word in reading.values if reading.line.facts.part_is_new else ():
        following = reading.sentence.word(at + 1)
        if following and not word.unit and reading.of_fact(following, "part"):
            yield is_it(reading.typed((word, following)))


def called_across_a_stop(reading: Unread) -> Iterator[Doubt]:
    """See a size called “iron, tip”, or by what is told behind its clause."""
    facts, words = reading.line.facts, reading.sentence.words
    for one in facts.readings:
        if "," in one.what:
            yield is_it(one.what)
    naming = [word for word in words if reading.of_fact(word, "what")]
    guessed = not any(word.name or word.tags & _NAMES for word in naming)
    if len(facts.readings) == 1 and guessed and naming and reading.values:
        value = reading.values[0][1]
        between = reading.sentence.text[value.end : naming[0].start]
        if "," in between:
            yield is_it(reading.typed(naming))


_NAMES = frozenset({"measures", "structure", "material"})


def of_the_next_piece(reading: Unread) -> Iterator[Doubt]:
    """See the second of “first mask 24.2 high second 24.1”: of another piece."""
    for at, word in reading.values if reading.line.facts.piece else ():
        before = reading.sentence.words[at - 1] if at else word
        if "ordinal" in before.tags and not reading.read(before):
            yield is_it(reading.typed((before, word)))


def in_whose_state(reading: Unread) -> Iterator[Doubt]:
    """See “3.31 V under load 3.28”: one of the two was read so."""
    words = reading.sentence.words
    states = [at for at, word in enumerate(words) if STATE in word.tags]
    figures = [one for one in reading.values if STATE not in one[1].tags]
    if len(states) != 1 or len(reading.line.facts.readings) != len(figures):
        return
    [at] = states
    both = words[at - 1 : at] + words[at + 1 : at + 2]
    if len(both) > 1 and all(one.sort in FIGURES for one in both):
        yield is_it(reading.typed((words[at], both[1])))


_LENGTHS = frozenset({"length", "width", "height", "thickness", "depth", "diameter"})


def deep_as_what(reading: Unread) -> Iterator[Doubt]:
    """See “clamp marks, 0.2 deep”, “24 wide 36 high”: called by the word before it."""
    names = reading.sentence.lexicon.dimension_of
    naming = [one for one in reading.sentence.words if reading.of_fact(one, "what")]
    worked = any(tag.endswith(":base") for one in naming for tag in one.tags)
    known = any(one.name or one.tags & _NAMES for one in naming)
    for at, word in reading.values:
        adjective = reading.sentence.word(at + 1)
        if adjective is None or "length_adjective" not in adjective.tags:
            continue
        own = names.get(adjective.low)
        values = word.quantities(reading.sentence.vocabulary.unit)
        other = any(
            one.what in _LENGTHS and one.value in values and one.what != own
            for one in reading.line.facts.readings
        )
        if reading.unread(adjective) and (other or (worked and not known)):
            yield is_it(adjective.text)


def wanted_of_none(reading: Unread) -> Iterator[Doubt]:
    """See a size that was wanted, and is of none that was measured."""
    facts = reading.line.facts
    rows = range(len(facts.readings))
    if facts.wanted and rows and not any(wanted_of(reading.line, at) for at in rows):
        yield is_it(reading.line.said("wanted"))


_NEAR_TO = 5


def off_there_too(reading: Unread) -> Iterator[Doubt]:
    """See “0.6 over at the far end, 0.2 at the near”: off by both."""
    facts, words = reading.line.facts, reading.sentence.words
    if facts.off is None or facts.off.metal:
        return
    told = [one for one in words if one.sort in FIGURES and reading.of_fact(one, "off")]
    if len(told) > 1:
        yield is_it(told[-1].text)
    for one in facts.readings:
        alike = one.value.dimension == facts.off.dimension and not one.value.metal
        if alike and one.value.to(facts.off.unit) < _NEAR_TO * facts.off.value:
            yield is_it(one.value.text)


def times_unread(reading: Unread) -> Iterator[Doubt]:
    """See the x 20 of “40 OD x 20 ID” that no size was read in."""
    for word in reading.sentence.words:
        if word.sort is Sort.TIMES and reading.unread(word):
            yield is_it(word.text)


def how_warm(reading: Unread) -> Iterator[Doubt]:
    """See the 58 of “3 h at 24 V, 58 on the lamp”: hardly a length."""
    facts = reading.line.facts
    nameless = [one.value for one in facts.readings if not one.what]
    warmed = facts.hours or facts.minutes or facts.room
    for _, word in reading.values if warmed else ():
        bare = word.whole is not None and not word.unit
        if bare and any(one.dimension == "length" for one in nameless):
            choices = ("°C", reading.sentence.vocabulary.unit)
            yield Doubt("unit", f"{word.text}: in which unit?", choices)


def as_a_condition(reading: Unread) -> Iterator[Doubt]:
    """See “0.44 A without, with 0.43”: the second value was read as what held then."""
    words = reading.sentence.words
    for at, word in enumerate(words if reading.values else ()):
        beside = {*reading.sentence.tags(at + 1)}
        beside |= reading.sentence.tags(at - 1) if at else frozenset()
        bare = word.has_decimals and not word.unit and word.sort in FIGURES
        told = reading.of_fact(word, "conditions") and not beside & _SAY_WHICH
        if bare and told:
            yield is_it(word.text)


_SAY_WHICH = frozenset({"formerly", "material", "fastener"})


def less_than_drawn(reading: Unread) -> Iterator[Doubt]:
    """See “weighs 40 g less than drawn”, “0.3 heavy”: so much it is off, not all."""
    for at, word in reading.values:
        following = reading.sentence.word(at + 1)
        if following is None:
            continue
        off = "off" in following.tags and "length_adjective" not in following.tags
        less = following.low.split(" ")[0] in ("less", "more")
        if less or (off and reading.unread(following)):
            yield is_it(reading.typed((word, following)))


_LIMITS = frozenset({"under", "below", "above", "beyond"})


def only_a_limit(reading: Unread) -> Iterator[Doubt]:
    """See “gap under 0.05 everywhere”, “R 47 ohm measured 46.2”: no two readings."""
    words, values = reading.sentence.words, [at for at, _ in reading.values]
    for at in values:
        before = words[at - 1] if at else words[at]
        if before.low in _LIMITS:
            yield is_it(reading.typed((before, words[at])))
        if "measure:past" in before.tags and at - 2 in values:
            yield is_it(reading.typed(words[at - 2 : at + 1]))


def at_another_time(reading: Unread) -> Iterator[Doubt]:
    """See “178.6 on friday, 178.4 now”: the same size, read at two times."""
    days, readings = reading.sentence.lexicon.weekdays, reading.line.facts.readings
    alike = len(readings) > 1 and len({one.what for one in readings}) == 1
    for word in reading.sentence.words if alike else ():
        if word.low in days and not reading.read(word):
            yield is_it(word.text)
