"""What a value is called: the words before it, or the measure behind it."""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.values.walk import Walk
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.spoken import spoken


def name_behind(walk: Walk) -> None:
    """Let a measure behind the value name it: got 178.55 for the opening."""
    readings = walk.values.readings
    named = [word for word in walk.buffer if "measures" in word.tags or word.name]
    if named and readings and not any(reading.what for reading in readings):
        take_buffer(walk)
        walk.values.readings = [
            replace(reading, what=walk.what) for reading in readings
        ]


def names_behind(walk: Walk, word: Word) -> bool:
    """See the across of “140 across and 32 thick”: it names what stands before it."""
    if word.low not in ("across", "apart") or not walk.values.readings:
        return False
    at = walk.sentence.words.index(word)
    before, following = walk.at(at - 1), walk.at(at + 1)
    figure = before is not None and before.sort in (Sort.NUMBER, Sort.SIZE)
    ends = following is None or following.low in ("and", ",", ";")
    return figure and (ends or word.low == "apart")


def measure(walk: Walk, at: int, word: Word) -> None:
    """Take a word that names a measure, for the value before or behind it."""
    before = walk.at(at - 1) if at else None
    trailing = "length_adjective" in word.tags or "off" in word.tags
    if trailing and before is not None and before.sort in (Sort.NUMBER, Sort.SIZE):
        following = walk.at(at + 1)
        leads = following is not None and following.sort in (Sort.NUMBER, Sort.SIZE)
        leads = leads and "length_adjective" not in walk.sentence.tags(at + 2)
        if not (leads and walk.values.readings and walk.values.readings[-1].what):
            name_last(walk, word)
            return
    if walk.values.readings and walk.preposition not in ("", "for"):
        return
    if not walk.buffer and _names_the_last(walk, at):
        walk.buffer.append(word)
        name_behind(walk)
        return
    walk.buffer.append(word)


def _names_the_last(walk: Walk, at: int) -> bool:
    """See the warp of “1.8 warp at the front”: no other figure is named by it."""
    before, following = walk.at(at - 1) if at else None, walk.at(at + 1)
    figure = before is not None and before.sort is Sort.NUMBER
    placed = following is not None and following.low in ("at", "on", "in", "at the")
    one = len(walk.values.readings) == 1 and not walk.values.readings[0].what
    return figure and placed and one


def name_last(walk: Walk, word: Word) -> None:
    """Let an adjective behind a value name it: 240.6 wide."""
    readings = walk.values.readings
    last = readings[-1] if readings else None
    if last and last.what and "length_adjective" in word.tags:
        names = walk.sentence.lexicon.dimension_of
        walk.sides[len(readings) - 1] = names.get(word.low, word.low)
    if last and last.what and (side := _side_of(walk, last.what, word.low)):
        readings[-1] = replace(last, what=side)
        walk.values.measures.append(word)
        walk.sentence.note("what", word)
    own = last is not None and (not last.what or last.what == walk.behind)
    if last and last.what in _PLACES and not last.place and word.low == "thick":
        last = replace(last, place=last.what)  # Sides 18.4 thick: where, and no size.
        own = True
    if last and own and "length_adjective" in word.tags:
        called = last.place if last.place in _PLACES else ""
        readings[-1] = replace(last, what=word.low)
        if len(readings) > 1 and readings[-2].what == called and _from_to(walk, word):
            readings[-2] = replace(readings[-2], what=word.low, place=last.place)
        elif not called:
            _name_alike(walk, word)
        walk.what = walk.behind = word.low  # The next may be of it too.
        walk.values.measures.append(word)
        walk.sentence.note("what", word)


_NEAR = 1.1


def _name_alike(walk: Walk, word: Word) -> None:
    """Name all of “0.78, 0.79 and 0.81 thick”: values alike that have no name."""
    readings = walk.values.readings
    last = readings[-1].value
    for at in range(len(readings) - 2, -1, -1):
        one = readings[at]
        same = one.value.dimension == last.dimension and one.value.unit == last.unit
        if one.what or one.place or one.state or not same or not last.value:
            return
        if not 1 / _NEAR < one.value.value / last.value < _NEAR:
            return
        readings[at] = replace(one, what=word.low)


def _from_to(walk: Walk, word: Word) -> bool:
    """See “4.4 to 4.6 wide”: the widths go from the one to the other."""
    at = walk.sentence.words.index(word)
    first, to = walk.at(at - 3) if at > 2 else None, walk.at(at - 2)
    figure = first is not None and first.sort is Sort.NUMBER
    return figure and to is not None and to.low == "to"


_PLACES = frozenset({"side", "sides", "edges", "walls"})


def _side_of(walk: Walk, what: str, said: str) -> str:
    """Name the known dimension that “aperture … wide” is: the aperture width."""
    side = walk.sentence.lexicon.dimension_of.get(said, said)
    meant = (*spoken(what), *spoken(side))
    known = walk.sentence.vocabulary.characteristics.values()
    return next((one for row in known for one in row if spoken(one) == meant), "")


_SIDES = frozenset({"width", "height", "length", "depth", "thickness", "diameter"})


def _of_the_one_before(walk: Walk, row: list[Word]) -> str:
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


def take_buffer(walk: Walk) -> None:
    """Make the words before a value its name."""
    values = walk.values
    no_names = walk.sentence.lexicon.clauses["no_size_names"]
    row = [word for word in walk.buffer if not _is_verb(word, no_names)]
    if all(word.tags & {"preposition", "rework_sense"} for word in row):
        row = []  # The gate beside the lamp, 51 C: no size is called beside.
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


def _before_it(walk: Walk, row: list[Word]) -> list[Word]:
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


def _has_tool(walk: Walk, row: list[Word]) -> bool:
    """Tell whether an instrument stands among the words before a value."""
    return any(
        row[0].start <= word.start < row[-1].end and "instrument" in word.tags
        for word in walk.sentence.words
    )


def _is_verb(word: Word, no_names: frozenset[str]) -> bool:
    """Tell a verb or an adverb from a noun: “sawed”, “somewhere” name no dimension."""
    if word.tags & {"measures", "structure", "fastener"} or word.name is not None:
        return False  # Slots 4.4 wide: nothing is slotted.
    if "plain_verb" in word.tags or word.low in no_names:
        return True
    return any(tag.endswith((":past", ":ing", ":now")) for tag in word.tags)
