"""Values in a line: what was measured, what was wanted, and what merely held.

A number becomes a reading only where the words around it leave nothing else
it could be; words that stay unexplained are handed back, so that the caller
can ask instead of guessing.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from logbook.plain.figures import Sort, Word
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import Reading
from logbook.plain.vocabulary import spoken
from logbook.quantity import Quantity, quantity

_UNITS = {
    "angle": "°", "weak_angle": "°", "angle_or_length": "", "temperature": "°C",
    "mass": "", "torque": "N·m", "voltage": "V",
    "current": "A", "resistance": "Ω", "ratio": "%", "frequency": "Hz",
    "pressure": "", "force": "", "time": "",
}  # fmt: skip


_BY_UNIT = {
    "torque": "torque", "voltage": "voltage", "current": "current", "mass": "weight",
    "temperature": "temperature", "resistance": "resistance", "force": "force",
    "pressure": "pressure", "frequency": "frequency", "angle": "angle",
}  # fmt: skip
"""What a value is of, where only its unit tells: 0.4 N·m is a torque."""


@dataclass(slots=True)
class Values:
    """Every value found, the words that name it, and the words left over."""

    readings: list[Reading] = field(default_factory=list)
    wanted: list[Quantity] = field(default_factory=list)
    off: Quantity | None = None
    off_sense: str = ""
    conditions: list[Quantity] = field(default_factory=list)
    room: Quantity | None = None
    hours: Quantity | None = None
    minutes: Quantity | None = None
    material: str = ""
    instrument: str = ""
    guessed: list[Word] = field(default_factory=list)
    measures: list[Word] = field(default_factory=list)
    left_over: list[Word] = field(default_factory=list)
    unitless: str = ""


@dataclass(slots=True)
class _Walk:
    sentence: Sentence
    values: Values = field(default_factory=Values)
    buffer: list[Word] = field(default_factory=list)
    what: str = ""
    place: str = ""
    behind: str = ""
    unit_before: str = ""
    preposition: str = ""
    wanted: bool = False
    wanted_at: int = -9
    reason: bool = False

    def at(self, at: int) -> Word | None:
        return self.sentence.word(at)


def find_values(sentence: Sentence) -> Values:
    """Give every value of the line with its part in it."""
    walk = _Walk(sentence)
    set_so = sentence.settings()
    for at, word in enumerate(sentence.words):
        if word in set_so:
            continue
        if word.sort in (Sort.NUMBER, Sort.SIZE):
            _figure(walk, at, word)
        elif word.sort is Sort.TOLERANCE:
            continue
        else:
            _told(walk, at, word)
    _name_behind(walk)
    walk.values.left_over += [
        word for word in walk.buffer if not word.tags & _EXPLAINED and not word.name
    ]
    _warm_in_a_room(walk)
    names = sentence.lexicon.dimension_of
    walk.values.readings = [
        Reading(
            one.value,
            names.get(one.what.lower(), one.what)
            or _BY_UNIT.get(one.value.dimension, ""),
            one.place,
        )
        for one in walk.values.readings
    ]
    return walk.values


def _warm_in_a_room(walk: _Walk) -> None:
    """Take the 49 of “room 22, lamp face 49” for as warm as it says the room is."""
    values = walk.values
    length = any("measures:length" in word.tags for word in values.measures)
    heated = (
        values.hours
        or values.minutes
        or any("face" in one.what for one in values.readings)
    )
    if values.room is None or length or not heated:
        return
    read = walk.sentence.spans.get("readings", [])
    bare = all(not word.unit and word.whole is not None for word in read)
    if (
        read
        and bare
        and all(one.value.dimension == "length" for one in values.readings)
    ):
        values.readings = [
            Reading(
                quantity(one.value.value, "°C", one.value.step), one.what, one.place
            )
            for one in values.readings
        ]


def _name_behind(walk: _Walk) -> None:
    """Let a measure behind the value name it: got 178.55 for the opening."""
    readings = walk.values.readings
    named = [word for word in walk.buffer if "measures" in word.tags or word.name]
    if named and readings and not any(reading.what for reading in readings):
        _take_buffer(walk)
        walk.values.readings = [
            Reading(reading.value, walk.what, reading.place) for reading in readings
        ]


_WANTED = frozenset({"wanted", "wanted_after"})
_EXPLAINED = frozenset(
    {
        "measures", "structure", "place", "filler", "is", "wanted", "instrument",
        "material", "room", "condition", "off", "off_strong", "length_adjective",
        "measure", "article", "vague", "absent", "untried", "wanted_after",
        "ordinal", "pieces", "guess", "fastener", "negation", "attribution_piece",
        "attribution_drawing", "attribution_machine",
    }
)  # fmt: skip


def _told(walk: _Walk, at: int, word: Word) -> None:
    sentence, values = walk.sentence, walk.values
    if _taken_care_of(walk, at, word):
        return
    if word.name is not None and word.name.role != "place":
        _named(walk, word)
    elif word.sort is Sort.MARK and not word.tags:
        _stop(walk, at, word)
    elif word.sort is Sort.LABEL:
        walk.place = word.text
        sentence.note("place", word)
    elif "room" in word.tags and _figure_soon(walk, at):
        walk.preposition = "room"
    elif _wants_size(values, word) and _wants(walk, at):
        walk.wanted = True
        walk.preposition = ""
    elif word.name is not None or "place" in word.tags:
        _place(walk, at, word.name.thing if word.name else word.low)
        walk.preposition = ""
        sentence.note("place", word)
    elif "instrument" in word.tags:
        values.instrument = word.text
        sentence.note("instrument", word)
    elif "measures" in word.tags and "is" not in word.tags:
        _measure(walk, at, word)
    else:
        _other(walk, word)


def _taken_care_of(walk: _Walk, at: int, word: Word) -> bool:
    """Tell whether a word needs no more: told, of a reason, or a name put behind."""
    if _names_behind(walk, word):
        _name_last(walk, word)
        return True
    if at == pieces_counted(walk.sentence) or _came_otherwise(walk, word):
        return True
    if word.low == "where" and _wanted_behind(walk, at + 1):
        return True
    numbered = word.sort is Sort.LABEL and word.text[:1].isdigit()
    return _in_reason(walk, at, word) or word.sort is Sort.WHEN or numbered


def pieces_counted(sentence: Sentence) -> int:
    """Give where a count stands before parts with as many values, -1 where none does.

    Two legs 197.1 and 197.3: one value of each.
    """
    values = len(sentence.sorts(Sort.NUMBER))
    parts = sentence.named("part")
    for at in sentence.sorts(Sort.COUNT):
        here = at + 1 in parts or at + 2 in parts
        if here and sentence.words[at].whole == values > 1:
            return at
    return -1


def _in_reason(walk: _Walk, at: int, word: Word) -> bool:
    """Tell whether a word only gives the reason: because the 3.2 bit wanders."""
    if "because" in word.tags and at:
        walk.reason, walk.buffer, walk.preposition = True, [], ""
        return True
    following = walk.sentence.tags(at + 1)
    worked = any(tag.endswith(":ing") for tag in following)
    if word.low == "after" and walk.values.readings and worked:
        walk.reason = True  # What was done before it was measured.
    return walk.reason and word.sort is not Sort.MARK and not word.tags & _WANTED


def _stop(walk: _Walk, at: int, word: Word) -> None:
    """End a clause: what was said in it names no value of a part named later."""
    walk.preposition = ""
    if word.low in (",", ";"):
        walk.reason = False
    if word.low in (",", ";") and _tells_anew(walk, at + 1):
        walk.values.left_over += [
            one for one in walk.buffer if not one.tags & _EXPLAINED and not one.name
        ]
        walk.buffer = []


def _tells_anew(walk: _Walk, at: int) -> bool:
    """Tell whether the next clause names its own part and gives a value."""
    named = False
    while (word := walk.at(at)) is not None and word.low not in (",", ";"):
        named = named or (word.name is not None and word.name.role == "part")
        if named and word.sort in (Sort.NUMBER, Sort.SIZE):
            return True
        at += 1
    return False


def _place(walk: _Walk, at: int, place: str) -> None:
    """Give a place to the value before it (178.6 left) or to those that follow."""
    readings, words = walk.values.readings, walk.sentence.words
    back = at - 1
    while back >= 0 and (words[back].tags & _BETWEEN or words[back].low == "("):
        back -= 1
    figure = back >= 0 and words[back].sort in (Sort.NUMBER, Sort.SIZE)
    if figure and readings and not readings[-1].place and not walk.buffer:
        last = readings[-1]
        readings[-1] = Reading(last.value, last.what, place)
    else:
        walk.place = place


_BETWEEN = frozenset({"filler", "length_adjective", "off", "measures"})
"""What may stand between a value and its place: 1.8 warp at the front."""


def _figure_soon(walk: _Walk, at: int) -> bool:
    return any(
        one is not None and one.sort is Sort.NUMBER
        for one in (walk.at(at + 1), walk.at(at + 2))
    )


_CAME = frozenset({"came as", "arrived as", "came in as", "turned up as"})


def _came_otherwise(walk: _Walk, word: Word) -> bool:
    """See “cable 0.75 mm2 came as 0.5”: what was ordered, and what it is."""
    if word.low not in _CAME:
        return False
    readings, read = walk.values.readings, walk.sentence.spans.get("readings", [])
    if len(readings) == 1 and read:
        walk.values.wanted.append(readings[0].value)
        walk.unit_before = readings[0].value.unit
        walk.sentence.note("wanted", read.pop())
        readings.clear()
    walk.preposition = ""
    return True


def _other(walk: _Walk, word: Word) -> None:
    values = walk.values
    if word.tags & {"is"} and "condition" not in word.tags:
        walk.preposition = ""
        if "measures" in word.tags:
            walk.buffer.append(word)
    elif "condition" in word.tags:
        walk.preposition = word.low
    elif "material" in word.tags:
        before = walk.sentence.spans.get("material", [])
        joined = bool(before) and word.start - before[-1].end == 1
        if not values.material or joined:
            values.material = f"{values.material} {word.text}".strip()
        walk.preposition = ""
        walk.sentence.note("material", word)
    elif word.tags & {"structure", "fastener"} and not word.tags & {"adjective"}:
        if (walk.preposition and walk.buffer) or (
            walk.preposition
            and walk.preposition
            in (
                "across",
                "along",
                "under",
                "over",
            )
        ):
            walk.preposition = ""
        else:
            walk.buffer.append(word)
    elif word.tags & _EXPLAINED:
        return
    elif walk.preposition or word.sort is not Sort.WORD:
        values.left_over.append(word)
    else:
        walk.buffer.append(word)


def _names_behind(walk: _Walk, word: Word) -> bool:
    """See the across of “140 across and 32 thick”: it names what stands before it."""
    if word.low != "across" or not walk.values.readings:
        return False
    at = walk.sentence.words.index(word)
    before, following = walk.at(at - 1), walk.at(at + 1)
    figure = before is not None and before.sort in (Sort.NUMBER, Sort.SIZE)
    ends = following is None or following.low in ("and", ",", ";")
    return figure and ends


def _named(walk: _Walk, word: Word) -> None:
    walk.preposition = ""
    if word.name is not None and word.name.role == "characteristic":
        walk.buffer.append(word)
    elif word.name is not None and word.name.role == "instrument":
        walk.values.instrument = word.name.thing
        walk.sentence.note("instrument", word)


def _measure(walk: _Walk, at: int, word: Word) -> None:
    before = walk.at(at - 1) if at else None
    trailing = "length_adjective" in word.tags or "off" in word.tags
    if trailing and before is not None and before.sort in (Sort.NUMBER, Sort.SIZE):
        following = walk.at(at + 1)
        leads = following is not None and following.sort in (Sort.NUMBER, Sort.SIZE)
        if not (leads and walk.values.readings and walk.values.readings[-1].what):
            _name_last(walk, word)
            return
    if walk.values.readings and walk.preposition not in ("", "for"):
        return
    if not walk.buffer and _names_the_last(walk, at):
        walk.buffer.append(word)
        _name_behind(walk)
        return
    walk.buffer.append(word)


def _names_the_last(walk: _Walk, at: int) -> bool:
    """See the warp of “1.8 warp at the front”: no other figure is named by it."""
    before, following = walk.at(at - 1) if at else None, walk.at(at + 1)
    figure = before is not None and before.sort is Sort.NUMBER
    placed = following is not None and following.low in ("at", "on", "in", "at the")
    one = len(walk.values.readings) == 1 and not walk.values.readings[0].what
    return figure and placed and one


def _name_last(walk: _Walk, word: Word) -> None:
    """Let an adjective behind a value name it: 240.6 wide."""
    readings = walk.values.readings
    last = readings[-1] if readings else None
    if last and last.what and (side := _side_of(walk, last.what, word.low)):
        readings[-1] = Reading(last.value, side, last.place)
        walk.values.measures.append(word)
        walk.sentence.note("what", word)
    own = last is not None and (not last.what or last.what == walk.behind)
    if last and own and "length_adjective" in word.tags:
        readings[-1] = Reading(last.value, word.low, last.place)
        walk.what = walk.behind = word.low  # The next may be of it too.
        walk.values.measures.append(word)
        walk.sentence.note("what", word)


def _side_of(walk: _Walk, what: str, said: str) -> str:
    """Name the known dimension that “aperture … wide” is: the aperture width."""
    side = walk.sentence.lexicon.dimension_of.get(said, said)
    meant = (*spoken(what), *spoken(side))
    known = walk.sentence.vocabulary.characteristics.values()
    return next((one for row in known for one in row if spoken(one) == meant), "")


_SIDES = frozenset({"width", "height", "length", "depth", "thickness", "diameter"})


def _of_the_one_before(walk: _Walk, row: list[Word]) -> str:
    """Name the height of “aperture width 36.1, height 24.1”: it is the aperture's."""
    if len(row) != 1 or row[0].low not in _SIDES or not walk.values.readings:
        return ""
    if row[0].name is not None:
        return ""
    *head, side = spoken(walk.values.readings[-1].what) or ("",)
    if not head or side not in _SIDES or side == row[0].low:
        return ""
    called = " ".join(head)
    return _side_of(walk, called, row[0].low) or f"{called} {row[0].low}"


def _wants_size(values: Values, word: Word) -> bool:
    """Tell “drawn 6” and “6.35 thick, ordered 6” from other words."""
    told = "order_done" in word.tags or word.low in ("says", "say")
    ordered = told and bool(values.readings)
    return ordered or bool(word.tags & {"wanted", "wanted_after"})


def _wants(walk: _Walk, at: int) -> bool:
    """Tell whether a number follows within three words."""
    for ahead in (1, 2, 3):
        word = walk.at(at + ahead)
        stop = ahead == 1 and word is not None and word.low == "."
        if word is None or (
            word.sort is Sort.MARK and word.low not in ":=(" and not stop
        ):
            return False
        if word.sort in (Sort.NUMBER, Sort.SIZE):
            before = walk.at(at + ahead - 1)
            told = word.dimension != "time" and not word.dimension.startswith("money")
            return told and before is not None and "room" not in before.tags
    return False


def _figure(walk: _Walk, at: int, word: Word) -> None:
    values, sentence = walk.values, walk.sentence
    following, before = walk.at(at + 1), walk.at(at - 1) if at else None
    next_tags = following.tags if following is not None else frozenset()
    unit = _unit(walk, at)
    found = word.quantities(
        unit or _unit_before(walk, word) or sentence.vocabulary.unit
    )
    if not found or word.dimension.startswith(("money", "count")):
        values.left_over.append(word)
        return
    if _only_told(walk, at, word):
        return
    if values.readings and before is not None and "formerly" in before.tags:
        values.conditions += found
        sentence.note("conditions", word)
    elif word.dimension == "time" and not _timed(walk):
        _duration(values, sentence, word)
    elif _is_wanted(walk, at, following):
        values.wanted += found
        sentence.note("wanted", word)
        walk.wanted, walk.wanted_at = False, at
    elif walk.preposition == "room" or _in_room(walk, at) or _of_room(walk, at):
        values.room = _temperature(word, found[0])
        sentence.note("room", word)
        walk.preposition = ""
    elif _is_off(walk, at, next_tags, before) or _signed(walk, at, word):
        _off(walk, at, word, _unsigned(found[0]))
    elif (
        walk.preposition
        and "length_adjective" not in next_tags
        and not _held_value(walk, at)
    ):
        values.conditions += found
        sentence.note("conditions", word)
    elif next_tags & {"fastener", "material"} and not word.has_decimals:
        values.wanted += found
        sentence.note("wanted", word)
    else:
        _reading(walk, word, found, unit)


_TAKES_OFF = frozenset(
    {"took", "taken", "removed", "skimmed", "shaved", "filed", "planed", "sanded",
     "milled", "sawed", "sawn", "ground", "scraped", "turned", "trimmed", "taking",
     "removing", "skimming", "filing", "cut"}
)  # fmt: skip


def _changes(walk: _Walk, at: int, word: Word) -> bool:
    """Tell how much was taken off, or is to be, from a size: it is no reading."""
    before, following = walk.at(at - 1) if at else None, walk.at(at + 1)
    if before is None or word.sort is not Sort.NUMBER:
        return False
    if word.dimension not in ("", "length"):
        return False
    after = walk.at(at + 2)
    if before.low == "another" or _still_to_go(following, after):
        return True
    earlier = walk.sentence.words[max(0, at - 5) : at - 1]
    if before.low == "by":
        figure = bool(earlier) and earlier[-1].sort in (Sort.NUMBER, Sort.SIZE)
        how_far = any(one.tags & {"off", "off_strong", "is"} for one in earlier)
        worked = any(one.low in _TAKES_OFF for one in earlier)
        return worked and not figure and not how_far
    if before.low not in _TAKES_OFF or following is None:
        return False
    return following.low.split(" ")[0] in ("off", "from", "more", "away")


def _still_to_go(following: Word | None, after: Word | None) -> bool:
    """See the “to go” of what is left to take off."""
    return (
        following is not None
        and after is not None
        and following.low == "to"
        and after.low in ("go", "come off", "take off")
    )


def _only_told(walk: _Walk, at: int, word: Word) -> bool:
    """Tell a number that is nothing measured: the 3.2 bit of a reason, 0.8 strips."""
    following = walk.at(at + 1)
    if _changes(walk, at, word):
        walk.sentence.note("changed", word)
        return True
    if _is_limit(walk, at):
        return True
    if walk.reason:
        return not _is_wanted(walk, at, following)
    gives_way = following is not None and "fail:now" in following.tags
    return bool(walk.values.readings) and gives_way and not word.unit


_AT_MOST = frozenset({"max", "max.", "maximum", "at most", "no more than",
                      "not more than", "not over", "never over", "at least", "min",
                      "min.", "minimum", "not under", "no less than", "less than",
                      "more than"})  # fmt: skip
_OR_SO = frozenset({"max", "max.", "maximum", "at most", "tops", "or less", "or more",
                    "min.", "minimum", "at least"})  # fmt: skip


def _is_limit(walk: _Walk, at: int) -> bool:
    """See how far a value may go: tightened, not over 2 N·m; it is none measured."""
    before = " ".join(word.low for word in walk.sentence.words[max(0, at - 3) : at])
    after = " ".join(word.low for word in walk.sentence.words[at + 1 : at + 3])
    ended = any(f" {before}".endswith(f" {one}") for one in _AT_MOST)
    to = before.endswith(" to")
    return ended or (
        not to and any(f"{after} ".startswith(f"{one} ") for one in _OR_SO)
    )


def _unit_before(walk: _Walk, word: Word) -> str:
    """Give the unit of the torque before: “0.4 N·m, 0.8 strips” is two of them."""
    if not word.unit and walk.unit_before:
        return walk.unit_before
    if word.unit or walk.buffer or not walk.values.readings:
        return ""
    last = walk.values.readings[-1].value
    return last.unit if last.dimension == "torque" else ""


def _is_wanted(walk: _Walk, at: int, following: Word | None) -> bool:
    """Tell whether a value was drawn or wanted; “36 by 24” are wanted together."""
    before = walk.at(at - 1) if at else None
    joined = before is not None and before.low == "by" and walk.wanted_at == at - 2
    return (
        walk.wanted or joined or _wanted_behind(walk, at) or _has_tolerance(following)
    )


def _wanted_behind(walk: _Walk, at: int) -> bool:
    """Tell “180 nominal” from “178.6 nominal 180”."""
    following, after = walk.at(at + 1), walk.at(at + 2)
    if following is not None and following.low in ("is", "was", "were", "are"):
        following, after = after, walk.at(at + 3)  # where 179.7 was wanted
    if following is None or "wanted_after" not in following.tags:
        return False
    return after is None or after.sort not in (Sort.NUMBER, Sort.SIZE)


def _timed(walk: _Walk) -> bool:
    return any("measures:time" in word.tags for word in walk.buffer)


def _has_tolerance(following: Word | None) -> bool:
    return following is not None and following.sort is Sort.TOLERANCE


def _duration(values: Values, sentence: Sentence, word: Word) -> None:
    found = word.quantities("h")[0]
    at = sentence.words.index(word)
    following = sentence.word(at + 1)
    if following is not None and following.low in _WAITS:
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


def _in_room(walk: _Walk, at: int) -> bool:
    following = walk.at(at + 1)
    return (
        following is not None
        and "room" in following.tags
        and walk.at(at) is not None
        and (bool(walk.values.readings or walk.values.hours))
        and walk.sentence.words[at].dimension in ("", "temperature", "angle")
    )


def _of_room(walk: _Walk, at: int) -> bool:
    """See the warmth told right behind the room: the room was cold, 12 °C."""
    before = walk.sentence.words[:at]
    room = [place for place, word in enumerate(before) if "room" in word.tags]
    warmth = walk.sentence.words[at].dimension == "temperature"
    if not warmth or not room or walk.values.room is not None:
        return False
    between = before[room[-1] + 1 :]
    return len(between) < 5 and all(
        word.sort in (Sort.WORD, Sort.MARK)
        and word.name is None
        and "measures" not in word.tags
        for word in between
    )


def _temperature(word: Word, found: Quantity) -> Quantity:
    if word.dimension == "temperature":
        return found
    return quantity(found.value, "°C", found.step)


def _over_a_length(walk: _Walk, at: int, before: Word | None) -> bool:
    """Tell flatness 0.3 over the diagonal from width 0.3 over the drawing."""
    over, article, noun = walk.at(at + 1), walk.at(at + 2), walk.at(at + 3)
    named = before is not None and "measures" in before.tags
    led = over is not None and over.low == "over"
    if not (named and led) or article is None or "article" not in article.tags:
        return False
    wanted = frozenset({"wanted", "attribution_drawing", "drawing", "list_says"})
    return noun is not None and not noun.tags & wanted and noun.low not in _DRAWN


_DRAWN = frozenset({"drawing", "nominal", "size", "limit", "tolerance", "plan", "spec"})


def _is_off(
    walk: _Walk, at: int, next_tags: frozenset[str], before: Word | None
) -> bool:
    if "off_strong" in next_tags:
        if _felt(walk, at) or _over_a_length(walk, at, before):
            return False
        across = walk.at(at + 2)
        return across is None or across.sort not in (Sort.NUMBER, Sort.SIZE)
    if before is None:
        return False
    if "off_by" in before.tags and (
        " " in before.low
        or any("off" in word.tags for word in walk.sentence.words[max(0, at - 3) : at])
    ):
        return True
    return (
        "off_strong" in before.tags and not walk.values.readings and " " in before.low
    )


_SIGNS = {"+": "over", "-": "under"}


def _signed(walk: _Walk, at: int, word: Word) -> bool:
    """See “lid +0.5”: how far it is off, as no size has a sign."""
    before = walk.at(at - 1) if at else None
    figure = before is not None and before.sort in (Sort.NUMBER, Sort.SIZE)
    length = word.dimension in ("", "length") and not walk.values.readings
    return word.text[:1] in _SIGNS and length and not figure


def _unsigned(found: Quantity) -> Quantity:
    return quantity(abs(found.value), found.unit, found.step)


def _felt(walk: _Walk, at: int) -> bool:
    """Tell “hole 4.9 too tight”, a size and how it feels, from “0.5 too wide”."""
    sense = walk.at(at + 1)
    felt = sense is not None and sense.low in ("too tight", "too loose")
    named = bool(walk.buffer) and walk.buffer[-1].tags & {"measures", "structure"}
    return felt and bool(named)


def _off(walk: _Walk, at: int, word: Word, found: Quantity) -> None:
    values, sentence = walk.values, walk.sentence
    values.off = found
    sentence.note("off", word)
    for near in (at + 1, at - 1, at - 2):
        sense = walk.at(near) if near >= 0 else None
        if sense is not None and "off" in sense.tags:
            values.off_sense = sense.low
            sentence.note("off_sense", sense)
            break
    values.off_sense = values.off_sense or _SIGNS.get(word.text[:1], "")
    _take_buffer(walk)


def _held_value(walk: _Walk, at: int) -> bool:
    """Tell whether “at 178.3” is the value itself: nothing else is measured here."""
    others = [
        word
        for place, word in enumerate(walk.sentence.words)
        if place != at and word.sort in (Sort.NUMBER, Sort.SIZE)
    ]
    word = walk.sentence.words[at]
    measured = any("measures" in one.tags or one.name for one in walk.buffer)
    at_it = walk.preposition == "at" or (measured and not word.unit)
    return at_it and not others and word.has_decimals


def _reading(walk: _Walk, word: Word, found: tuple[Quantity, ...], unit: str) -> None:
    if walk.buffer:
        _take_buffer(walk)
    if not word.unit and unit == "" and _wants_unit(walk):
        walk.values.unitless = walk.what
    for value in found:
        walk.values.readings.append(Reading(value, walk.what, walk.place))
    walk.sentence.note("readings", word)
    walk.preposition = ""


def _wants_unit(walk: _Walk) -> bool:
    tags = {tag for word in walk.values.measures for tag in word.tags}
    asked = {"mass", "pressure", "force", "angle_or_length", "time"}
    return bool(tags & {f"measures:{one}" for one in asked}) and (
        "measures:length" not in tags
    )


def _take_buffer(walk: _Walk) -> None:
    """Make the words before a value its name."""
    values = walk.values
    row = [word for word in walk.buffer if not _is_verb(word)]
    named = [
        word
        for word in row
        if "measures" in word.tags or "structure" in word.tags or word.name
    ]
    unknown = [word for word in row if word not in named]
    values.guessed += unknown
    values.measures += named
    row = [*_before_it(walk, row), *row]
    if row:
        text = walk.sentence.text[row[0].start : row[-1].end]
        whole = not any(word.corrected for word in row) and all(
            (word.name is None or word.name.role != "part")
            and word.sort in (Sort.WORD, Sort.MARK)
            for word in walk.sentence.words
            if row[0].start <= word.start < row[-1].end
        )
        walk.what = text if whole else " ".join(word.low for word in row)
        known = [word.name.thing for word in row if word.name is not None]
        if len(known) == 1 and (len(row) == 1 or not whole or _has_tool(walk, row)):
            walk.what = known[0]
        walk.what = _of_the_one_before(walk, row) or walk.what
        walk.sentence.note("what", *row)
    walk.buffer = []


_INNER = frozenset({"inside", "outside"})


def _before_it(walk: _Walk, row: list[Word]) -> list[Word]:
    """Give the word right before a measure that belongs to its name: beech moisture."""
    if not row or "measures" not in row[0].tags or row[0].name is not None:
        return []
    at = walk.sentence.words.index(row[0]) - 1
    word = walk.at(at)
    if at < 0 or word is None or word.sort is not Sort.WORD or word.name is not None:
        return []
    stuff = "material" in word.tags and not walk.sentence.named("part")
    worked = word.low.endswith("ing") and bool(word.tags)  # Coating thickness.
    inner = (word.low in _INNER or worked) and "article" not in walk.sentence.tags(
        at - 1
    )
    return [word] if stuff or inner else []


def _has_tool(walk: _Walk, row: list[Word]) -> bool:
    """Tell whether an instrument stands among the words before a value."""
    return any(
        row[0].start <= word.start < row[-1].end and "instrument" in word.tags
        for word in walk.sentence.words
    )


def _is_verb(word: Word) -> bool:
    """Tell a verb form from a noun: “sawed” names no dimension."""
    if "measures" in word.tags or word.name is not None:
        return False
    if "plain_verb" in word.tags or word.low in ("too", "very", "still"):
        return True
    return any(tag.endswith((":past", ":ing", ":now")) for tag in word.tags)


def _unit(walk: _Walk, at: int) -> str:
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
                return _UNITS[tag.removeprefix("measures:")]
    return ""
