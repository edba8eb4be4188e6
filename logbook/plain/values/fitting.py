"""What the rest of a line tells of its values: where, in which unit, of what.

A value is read where it stands; a place told last, a neighbour with its unit, a room's
warmth may tell more of it.
"""

from __future__ import annotations

from dataclasses import replace

from logbook.plain.understanding import Reading
from logbook.plain.values.walk import Walk
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.quantity import quantity

_BY_UNIT = {
    "torque": "torque", "voltage": "voltage", "current": "current", "mass": "weight",
    "temperature": "temperature", "resistance": "resistance", "force": "force",
    "pressure": "pressure", "frequency": "frequency", "angle": "angle",
    "power": "power", "sound level": "noise", "illuminance": "illuminance",
    "speed": "speed", "rotation": "speed",
}  # fmt: skip
"""What a value is of, where only its unit tells: 0.4 N·m is a torque."""


def fit_to_the_rest(walk: Walk) -> None:
    """Give the values found what the rest of the line tells of them."""
    _of_several_sides(walk)
    _placed_first(walk)
    _placed_last(walk)
    _warm_in_a_room(walk)
    _in_the_unit_beside(walk)
    _like_the_others(walk)
    names = walk.sentence.lexicon.dimension_of
    walk.values.readings = [
        replace(
            one,
            what=_weighed(walk, one)
            or _fitting(one, names.get(one.what.lower(), one.what))
            or _warm_at(walk, one)
            or _BY_UNIT.get(one.value.dimension, ""),
        )
        for one in walk.values.readings
    ]


_LENGTHS = frozenset({"length", "width", "height", "thickness", "depth", "diameter"})


def _fitting(one: Reading, what: str) -> str:
    """Give the name of a value unless it can be none: a long run of 54 °C."""
    return "" if what in _LENGTHS and one.value.dimension == "temperature" else what


def _of_several_sides(walk: Walk) -> None:
    """Name the width and the depth of “slot 4.4 wide, 12 deep”: no two of one size."""
    readings, sides = walk.values.readings, walk.sides
    names = [one.what for one in readings]
    for at in range(len(readings) - 2, -1, -1):
        if at + 1 in sides and at not in sides and _are_near(*readings[at : at + 2]):
            sides[at] = sides[at + 1]  # 4.4 to 4.6 wide.
    known = walk.sentence.vocabulary.characteristics.values()
    own = {name.casefold() for row in known for name in row}
    for at, side in sides.items():
        told = {sides.get(one) for one, name in enumerate(names) if name == names[at]}
        other = side in _NOT_ACROSS and names[at].casefold() not in own
        if len(told) > 1 or other:
            named = names[at].removesuffix(f" {side}")
            several = named.endswith("s") and not named.endswith("ss")
            named = named[:-1] if several else named  # Holes 10 deep: hole depth.
            readings[at] = replace(readings[at], what=f"{named} {side}")


_NOT_ACROSS = frozenset({"depth", "length", "height", "spacing"})
"""What the bare size of a slot or a hole never is: it is how wide that is."""
_NEAR = 1.1


def _are_near(one: Reading, other: Reading) -> bool:
    """Tell whether two values may be of one dimension of one thing."""
    alike = one.what == other.what and one.value.unit == other.value.unit
    return (
        alike
        and bool(other.value.value)
        and (1 / _NEAR < one.value.value / other.value.value < _NEAR)
    )


def _weighed(walk: Walk, one: Reading) -> str:
    """Name what was weighed by no word but that: weighed it dry, 186 g."""
    told = any(word.low.startswith("weigh") for word in walk.sentence.words)
    return "weight" if told and one.value.dimension == "mass" else ""


_LED = ("at the ", "on the ", "near the ", "@ the ")


def _placed_first(walk: Walk) -> None:
    """Take what stands before all values for their place, where they have none.

    “At the top edge: 178.62 front left” has one of its own: then it is a state.
    """
    readings = walk.values.readings
    for at, one in enumerate(readings):
        if one.state.startswith(_LED) and not one.place:
            readings[at] = replace(one, place=one.state.split(" the ", 1)[1], state="")
            walk.sentence.note("place", *walk.sentence.spans.pop("state", []))


_PLACED = frozenset({"place", "structure", "article", "ordinal"})


def _placed_last(walk: Walk) -> None:
    """Give a value the place told last: flange 14.2, right-hand side; opening top left.

    Only one value, which has no place of its own.
    """
    values, words = walk.values, walk.sentence.words
    rows = [*clauses(walk.sentence)]
    if not rows or len(values.readings) != 1 or values.readings[0].place:
        return
    start, end = rows[-1]
    row = words[start:end]
    alone = start > 0 and len(row) > 1 and "structure" in row[-1].tags
    if not alone:
        while row and not row[0].tags & {"place"}:
            row = row[1:]
    plain = all(
        word.sort is Sort.WORD and word.name is None and word.tags & _PLACED
        for word in (row[1:] if alone else row)
    )
    if not row or not plain or row[0].name is not None or row[0].sort is not Sort.WORD:
        return
    if len(row) == 1 and row[0].low in ("left", "right", "inside", "outside"):
        return  # 0.15 clearance left; the file is right.
    if any(tag.endswith(":past") for word in row for tag in word.tags):
        return
    value = values.readings[0]
    placed = walk.sentence.text[row[0].start : row[-1].end]
    values.readings[0] = replace(value, place=placed)
    walk.sentence.spans["place"] = [*row]


_FAR = 4
_ACROSS = _LENGTHS | {"across"}


def _in_the_unit_beside(walk: Walk) -> None:
    """Take the 7.065 of “left 7.062 in, right 7.065” for inches, as beside it.

    Only of the size that was read in another unit than the project's, near to that,
    and where all that tell a unit tell the same.
    """
    values = walk.values
    bare, typed = set(), set()
    for word in walk.sentence.spans.get("readings", []):
        if word.sort is Sort.NUMBER and not word.unit:
            bare |= {one.text for one in word.quantities(walk.sentence.vocabulary.unit)}
        elif word.dimension == "length":
            typed.add(word.unit)
    told = [one for one in values.readings if one.value.unit in typed]
    if len(typed) != 1 or not told or not bare:
        return
    [unit] = typed

    def beside(one: Reading) -> bool:
        as_beside = replace(one, value=quantity(one.value.value, unit, one.value.step))
        known = one.value.text in bare and one.value.dimension == "length"
        return known and any(_are_near(other, as_beside) for other in told)

    values.readings = [
        replace(one, value=quantity(one.value.value, unit, one.value.step))
        if beside(one)
        else one
        for one in values.readings
    ]


def _like_the_others(walk: Walk) -> None:
    """Take the 24.1 of “23.6 V under load, 24.1 idle” for what its neighbour is."""
    values, read = walk.values, walk.sentence.spans.get("readings", [])
    typed = [one.value for one in values.readings if one.value.dimension != "length"]
    if not typed or len({one.unit for one in typed}) > 1 or len(typed) == len(read):
        return
    if any("measures:length" in word.tags for word in values.measures):
        return
    bare = {
        value.value
        for word in read
        if word.sort is Sort.NUMBER and not word.unit
        for value in word.quantities("mm")
    }
    like, unit = float(typed[0].value), typed[0].unit
    values.readings = [
        replace(one, value=quantity(one.value.value, unit, one.value.step))
        if one.value.dimension == "length"
        and one.what not in _ACROSS
        and one.value.value in bare
        and like / _FAR < float(one.value.value) < like * _FAR
        else one
        for one in values.readings
    ]


def _warm_in_a_room(walk: Walk) -> None:
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
    timed = bool(values.hours or values.minutes)
    bare = all(not word.unit and (timed or word.whole is not None) for word in read)
    if (
        read
        and bare
        and all(one.value.dimension == "length" for one in values.readings)
    ):
        values.readings = [
            replace(one, value=quantity(one.value.value, "°C", one.value.step))
            for one in values.readings
        ]


def _warm_at(walk: Walk, one: Reading) -> str:
    """Give the face of “61 °C @ face”, where nothing else names what is so warm."""
    words = walk.sentence.words
    for at, word in enumerate(words[:-2]):
        warm = word.dimension == "temperature" == one.value.dimension
        led = words[at + 1].low in ("@", "at", "at the", "on the")
        noun = at + 3 if "article" in walk.sentence.tags(at + 2) else at + 2
        what = walk.sentence.word(noun)
        if warm and led and what is not None and what.name is None:
            told = "structure" in what.tags and one.value.text == word.text
            walk.sentence.note("what", *([what] if told else []))
            return what.low if told else ""
    return ""
