"""Each figure put where it belongs: a reading, wanted, off, a time, the room."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.understanding import Reading
from logbook.plain.values.how_far_off import SIGNS, is_off, signed
from logbook.plain.values.in_state import held_at, held_value
from logbook.plain.values.names import take_buffer
from logbook.plain.values.senses import (
    in_room,
    is_wanted,
    of_room,
    only_told,
    timed,
)
from logbook.plain.values.walk import UNITS, Values, Walk
from logbook.plain.words.figures import FIGURES, Word
from logbook.plain.words.priced import PRICE
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity, quantity


def take_figure(walk: Walk, at: int, word: Word) -> None:
    """Put one figure of the line where it belongs."""
    values, sentence = walk.values, walk.sentence
    following = walk.at(at + 1)
    unit = _of_the_range(walk, at) or _unit(walk, at)
    found = word.quantities(
        unit or _unit_before(walk, word) or sentence.vocabulary.unit
    )
    priced = word.dimension.startswith(("money", "count")) or PRICE in word.tags
    if not found or priced:
        values.left_over.append(word)
        return
    if only_told(walk, at, word):
        return
    if at and "formerly" in sentence.tags(at - 1) and _is_past(walk, at):
        values.conditions += found
        sentence.note("conditions", word)
    elif word.dimension == "time" and not timed(walk):
        _duration(values, sentence, word)
    elif is_wanted(walk, at, following) or _is_limit(walk, word):
        values.wanted += found
        sentence.note("wanted", word)
        walk.wanted, walk.wanted_at = False, at
    elif (
        walk.preposition == "room" or in_room(walk, at) or of_room(walk, at)
    ) and word.dimension in ("", "temperature", "angle"):
        values.room = _temperature(word, found[0])
        named = [at for at in sentence.tagged("room") if not sentence.words[at].name]
        said = sorted(named, key=lambda one: abs(one - at))[:1]
        sentence.note("room", word, *(sentence.words[one] for one in said))
        walk.preposition = ""
    else:
        _measured(walk, at, word, found, unit)


def _measured(
    walk: Walk, at: int, word: Word, found: tuple[Quantity, ...], unit: str
) -> None:
    """Put a figure that was measured: a reading, how far it is off, what held then."""
    values, sentence = walk.values, walk.sentence
    before, next_tags = walk.at(at - 1) if at else None, sentence.tags(at + 1)
    held = walk.preposition and "length_adjective" not in next_tags
    if is_off(walk, at, next_tags, before) or signed(walk, at, word):
        _off(walk, at, word, _unsigned(found[0]))
    elif held and not held_value(walk, at):
        values.conditions += found
        sentence.note("conditions", word)
        held_at(walk, at, word)
    elif (
        next_tags & {"fastener", "material"}
        and not word.has_decimals
        and not _of_holes(walk, at)
    ):
        values.wanted += found
        sentence.note("wanted", word)
    else:
        _reading(walk, word, found, unit)


def _is_past(walk: Walk, at: int) -> bool:
    """Tell what a size was from what it is: was 178.45; was 11.9, now 11.6."""
    later = walk.sentence.words[at + 1 :]
    now = any(one.low == "now" and two.sort in FIGURES for one, two in pairwise(later))
    return bool(walk.values.readings) or now


_HOLES = frozenset({"hole", "holes"})
_MADE = frozenset({"make:past", "take_back:past"})


def _of_holes(walk: Walk, at: int) -> bool:
    """Tell the 8 of “drilled 8 mm dowel holes”, which is bored, from a fastener's."""
    noun = walk.at(at + 2)
    bored = any(one.tags & _MADE for one in walk.sentence.words[:at])
    return bored and noun is not None and noun.low in _HOLES


def _unit_before(walk: Walk, word: Word) -> str:
    """Give the unit of the torque before: “0.4 N·m, 0.8 strips” is two of them."""
    if not word.unit and walk.unit_before:
        return walk.unit_before
    if not word.unit and _is_limit(walk, word):
        return walk.values.conditions[-1].unit  # Sheared at 4 Nm, spec was 3.5.
    if word.unit or walk.buffer or not walk.values.readings:
        return ""
    last = walk.values.readings[-1].value
    return last.unit if last.dimension == "torque" or last.unit in _SMALL else ""


def _is_limit(walk: Walk, word: Word) -> bool:
    """See the 3.5 of “sheared at 4 Nm, spec was 3.5”: what it had to stand."""
    words, held = walk.sentence.words, walk.values.conditions[-1:]
    at = words.index(word)
    led = any(one.low in walk.sentence.lexicon.clauses["limits"]
              for one in words[max(0, at - 3) : at])  # fmt: skip
    alike = not word.unit or any(one.dimension == word.dimension for one in held)
    return led and alike and any(one.dimension != "time" for one in held)


_SMALL = frozenset({"µm", "um"})
"""80 micron on the flat, 60 on the edge: the 60 are no millimetres."""


def _of_a_glue(sentence: Sentence, at: int) -> bool:
    """See the 10 min of “open time 10 min”: how long a glue lets one work, or sets."""
    led = [word.low for word in sentence.words[max(0, at - 4) : at]]
    while led and (led[-1] in ("is", "was", "of", "about", ":") or led[-1] == "="):
        led.pop()
    return " ".join(led).endswith(_TIMES_OF_GLUE)


_TIMES_OF_GLUE = (
    "open time", "pot life", "working time", "setting time", "set time", "closed time",
    "drying time", "cure time", "curing time", "assembly time", "clamp time",
)  # fmt: skip


def _duration(values: Values, sentence: Sentence, word: Word) -> None:
    found = word.quantities("h")[0]
    at = sentence.words.index(word)
    following = sentence.word(at + 1)
    waits = following is not None and following.low in _WAITS | _OF_EACH
    if waits or _of_a_glue(sentence, at):
        values.conditions.append(found)
    elif found.unit == "min":
        values.minutes = found
        sentence.note("minutes", word)
        if "h" in word.text:
            values.hours, values.minutes = found, None
            sentence.spans["hours"] = sentence.spans.pop("minutes")
    elif found.unit == "h":
        values.hours = found
        sentence.note("hours", word)
    else:
        values.conditions.append(found)
        sentence.note("conditions", word)


_WAITS = frozenset(
    {"apart", "later", "between", "before", "until", "till", "to cure", "to dry",
     "to set", "to harden", "cure", "curing", "drying", "in clamps"}
)  # fmt: skip
"""Behind a duration: how long to wait, and not how long it took."""
_OF_EACH = frozenset({"each", "apiece", "per", "a piece"})
"""Behind a duration of several things: not how long all of it took."""


def _temperature(word: Word, found: Quantity) -> Quantity:
    if word.dimension == "temperature":
        return found
    return quantity(found.value, "°C", found.step)


def _unsigned(found: Quantity) -> Quantity:
    if found.value >= 0 and found.text[:1] != "+":
        return found
    return quantity(abs(found.value), found.unit, found.step)


def _off(walk: Walk, at: int, word: Word, found: Quantity) -> None:
    values, sentence = walk.values, walk.sentence
    values.off = found
    sentence.note("off", word)
    before = walk.at(at - 1) if at else None
    out_of = before is not None and before.low.startswith("out of ")
    for near in (at - 1,) if out_of else (at + 1, at - 1, at - 2):
        sense = walk.at(near) if near >= 0 else None
        if sense is not None and "off" in sense.tags:
            values.off_sense = sense.low
            sentence.note("off_sense", sense)
            break
    values.off_sense = values.off_sense or SIGNS.get(word.text[:1], "")
    take_buffer(walk)


def _reading(walk: Walk, word: Word, found: tuple[Quantity, ...], unit: str) -> None:
    if walk.buffer:
        take_buffer(walk)
    elif _has_own_name(walk, word):
        walk.what = ""
    if not word.unit and unit == "" and _wants_unit(walk):
        walk.values.unitless = walk.what
    for value in _leg_and_angle(walk, word, found):
        walk.values.readings.append(Reading(value, walk.what, walk.place, walk.state))
    walk.sentence.note("readings", word)
    walk.preposition = ""


_ANGLES = frozenset({30, 45, 60})
_SLANTED = ("chamfer", "bevel")


def _leg_and_angle(
    walk: Walk, word: Word, found: tuple[Quantity, ...]
) -> tuple[Quantity, ...]:
    """Give the leg of “chamfer 0.5 x 45”, the wire of “4 x 0.5 mm2”: one size."""
    if word.dimension == "area" and len(found) > 1:
        return found[1:]
    near = walk.sentence.words.index(word)
    beside = (walk.what, *(one.low for one in (walk.at(near + 1),) if one))
    slanted = any(said.endswith(_SLANTED) for said in beside)
    pair = len(found) == len(word.amounts) == len(("leg", "angle"))
    return found[:1] if slanted and pair and found[1].value in _ANGLES else found


def _has_own_name(walk: Walk, word: Word) -> bool:
    """See the thick of “OD 40.1, 6.35 thick”: it is no second outer diameter."""
    following = walk.at(walk.sentence.words.index(word) + 1)
    names = walk.sentence.lexicon.dimension_of
    said = walk.what.casefold()
    sized = said in names or said in names.values() or said in _OTHER_SIZES
    return sized and following is not None and "length_adjective" in following.tags


_OTHER_SIZES = frozenset({"od", "id", "dia", "diameter", "radius", "bore"})


def _wants_unit(walk: Walk) -> bool:
    tags = {tag for word in walk.values.measures for tag in word.tags}
    asked = {"mass", "pressure", "force", "angle_or_length", "time"}
    return bool(tags & {f"measures:{one}" for one in asked}) and (
        "measures:length" not in tags
    )


def _of_the_range(walk: Walk, at: int) -> str:
    """Give the unit of the largest to the smallest: 120 to 180 mV, 4 to 5 in."""
    word, to, last = walk.sentence.words[at], walk.at(at + 1), walk.at(at + 2)
    if word.unit or to is None or last is None or not last.unit:
        return ""
    if last.dimension.startswith(("time", "money", "count")):
        return ""
    between = walk.at(at - 1) if at else None
    both = to.low == "and" and between is not None and between.low == "between"
    return last.unit if both or to.low in ("to", "-", "…", "...") else ""


def _unit(walk: Walk, at: int) -> str:
    """Give the unit a bare number has by what is measured, empty for the project's."""
    words = [*walk.buffer]
    following = walk.at(at + 1)
    if following is not None and following.tags & {"measures", "off"}:
        words.append(following)
    if not words:
        words = walk.values.measures[-2:]
    if any("measures:length" in word.tags for word in words):
        words = [word for word in words if "measures:weak_angle" not in word.tags]
    for word in reversed(words):
        for tag in word.tags:
            if tag.startswith("measures:") and "measures:length" not in word.tags:
                return UNITS[tag.removeprefix("measures:")]
    return ""
