"""Values in a line: what was measured, what was wanted, and what merely held.

The words are gone through one by one; a number becomes a reading only where they
leave nothing else it could be. Words that stay unexplained are handed back, so that
the caller can ask instead of guessing.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.values.figures import take_figure
from logbook.plain.values.fitting import fit_to_the_rest
from logbook.plain.values.in_state import take_state
from logbook.plain.values.names import measure, name_behind, name_last, names_behind
from logbook.plain.values.senses import (
    has_to_be,
    wanted_behind,
    wants,
    wants_size,
)
from logbook.plain.values.walk import Values, Walk
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.smallest_to_largest import leads_from
from logbook.plain.words.states import STATE


def find_values(sentence: Sentence) -> Values:
    """Give every value of the line with its part in it."""
    walk = Walk(sentence)
    set_so = sentence.settings()
    for at, word in enumerate(sentence.words):
        if word in set_so:
            continue
        if word.sort in (Sort.NUMBER, Sort.SIZE):
            take_figure(walk, at, word)
        elif word.sort is Sort.TOLERANCE:
            continue
        else:
            _told(walk, at, word)
    name_behind(walk)
    walk.values.left_over += [
        word for word in walk.buffer if not word.tags & _EXPLAINED and not word.name
    ]
    fit_to_the_rest(walk)
    return walk.values


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


def _told(walk: Walk, at: int, word: Word) -> None:
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
    elif has_to_be(walk, at) or (wants_size(values, word) and wants(walk, at)):
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
        measure(walk, at, word)
    else:
        _other(walk, word)


def _taken_care_of(walk: Walk, at: int, word: Word) -> bool:
    """Tell whether a word needs no more: told, of a reason, or a name put behind."""
    if STATE in word.tags:
        take_state(walk, at, word)
        return True
    if names_behind(walk, word):
        name_last(walk, word)
        return True
    if at == pieces_counted(walk.sentence) or _came_otherwise(walk, word):
        return True
    if leads_from(walk.sentence, at):
        walk.sentence.note("readings", word)
        return True
    if word.low == "where" and wanted_behind(walk, at + 1):
        return True
    if word.low in _NEWEST and (named := walk.at(at + 1)) and named.name is not None:
        return True  # The last bracket: which one it is, and no size.
    numbered = word.sort is Sort.LABEL and (
        word.text[:1].isdigit()
        or "revision" in word.tags
        or word.low.startswith(("release ", "version "))
    )
    return _in_reason(walk, at, word) or word.sort is Sort.WHEN or numbered


_NEWEST = frozenset({"last", "latest", "newest"})


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


def _in_reason(walk: Walk, at: int, word: Word) -> bool:
    """Tell whether a word only gives the reason: because the 3.2 bit wanders."""
    if "because" in word.tags and at:
        walk.reason, walk.buffer, walk.preposition = True, [], ""
        return True
    following = walk.sentence.tags(at + 1)
    worked = any(tag.endswith(":ing") for tag in following)
    if word.low == "after" and walk.values.readings and worked:
        walk.reason = True  # What was done before it was measured.
    return walk.reason and word.sort is not Sort.MARK and not word.tags & _WANTED


def _stop(walk: Walk, at: int, word: Word) -> None:
    """End a clause: what was said in it names no value of a part named later."""
    walk.preposition = ""
    if word.low in (",", ";"):
        walk.reason = False
    if not walk.values.readings and _describes_work(walk, at):
        walk.place = ""
    named = any("measures" in one.tags for one in walk.buffer)
    if named and not walk.values.readings and walk.sentence.tags(0) & {"measures"}:
        return  # Hole spacing, lid: 39.95.
    if word.low in (",", ";") and _tells_anew(walk, at + 1):
        walk.values.left_over += [
            one for one in walk.buffer if not one.tags & _EXPLAINED and not one.name
        ]
        walk.buffer = []


def _describes_work(walk: Walk, at: int) -> bool:
    """Tell whether a place only says which thing was worked on: the corner brackets."""
    words = walk.sentence.words[:at]
    worked = any(one.tags & {"make:past", "close:past"} for one in words[:2])
    places = [one for one, word in enumerate(words) if "place" in word.tags]
    if not worked or not places:
        return False
    before = words[places[-1] - 2 : places[-1]] if places[-1] > 1 else words[:1]
    return not any("locative" in one.tags for one in before)


def _tells_anew(walk: Walk, at: int) -> bool:
    """Tell whether the next clause names its own part and gives a value."""
    named = False
    while (word := walk.at(at)) is not None and word.low not in (",", ";"):
        named = named or (word.name is not None and word.name.role == "part")
        if named and word.sort in (Sort.NUMBER, Sort.SIZE):
            return True
        at += 1
    return False


def _place(walk: Walk, at: int, place: str) -> None:
    """Give a place to the value before it (178.6 left) or to those that follow."""
    readings, words = walk.values.readings, walk.sentence.words
    back = at - 1
    while back >= 0 and (words[back].tags & _BETWEEN or words[back].low == "("):
        back -= 1
    figure = back >= 0 and words[back].sort in (Sort.NUMBER, Sort.SIZE)
    if figure and readings and not readings[-1].place and not walk.buffer:
        last = readings[-1]
        readings[-1] = replace(last, place=place)
    else:
        walk.place = place
        if walk.values.readings and walk.state.startswith(("at the ", "on the ")):
            walk.state = ""  # At the toe 2.85, middle 2.95: the next has its own.


_BETWEEN = frozenset({"filler", "length_adjective", "off", "measures"})
"""What may stand between a value and its place: 1.8 warp at the front."""


def _figure_soon(walk: Walk, at: int) -> bool:
    return any(
        one is not None and one.sort is Sort.NUMBER
        for one in (walk.at(at + 1), walk.at(at + 2))
    )


_CAME = frozenset({"came as", "arrived as", "came in as", "turned up as"})


def _came_otherwise(walk: Walk, word: Word) -> bool:
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


_WHO = frozenset({"they", "we", "he", "she", "i", "you", "somebody", "nobody"})
"""Who has, makes or sells something: no dimension."""


def _names_nothing(walk: Walk, word: Word) -> bool:
    """Tell whether a word is no name of a size: behind a with, a mark, the shop."""
    who = "others_did" in word.tags or word.low in _WHO
    return bool(walk.preposition) or word.sort is not Sort.WORD or who


_BESIDE = frozenset({"over", "under", "behind", "above", "below", "between", "around"})


def _lies_there(walk: Walk) -> bool:
    """See the drawer of “gap over the drawer 1.9”: it only tells where the gap is."""
    measured = any("measures" in word.tags for word in walk.buffer)
    told = measured and walk.preposition in _BESIDE
    walk.preposition = "" if told else walk.preposition
    return told


def _other(walk: Walk, word: Word) -> None:
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
    elif word.tags & _EXPLAINED or _lies_there(walk):
        return
    elif _names_nothing(walk, word):
        values.left_over.append(word)
    else:
        walk.buffer.append(word)


def _named(walk: Walk, word: Word) -> None:
    walk.preposition = ""
    if word.name is not None and word.name.role == "characteristic":
        walk.buffer.append(word)
    elif word.name is not None and word.name.role == "instrument":
        walk.values.instrument = word.name.thing
        walk.sentence.note("instrument", word)
