"""Signs that what a line tells is of another thing than the part it was put to."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.named.given_back import bought_so
from logbook.plain.named.unnamed import which_part
from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.understanding import Doubt
from logbook.plain.words.figures import FIGURES, Sort, Word

_NEAR = frozenset({"at", "at the", "near", "near the", "beside"})
_FOR_IT = frozenset({"for", "for the"})
_LIES = frozenset({"in", "in the", "on", "on the", "under", "against"})
_SAYS_LITTLE = frozenset({"never_part", "filler"})
_THINGS = frozenset({"channel_nouns", "not_bench"})


def told_of_another(reading: Unread) -> Iterator[Doubt]:
    """See “channel 0.5 too shallow for the cable”: told of what lies there only."""
    line, sentence = reading.line, reading.sentence
    spans = [
        at for at, one in enumerate(sentence.words) if reading.of_fact(one, "part")
    ]
    led = spans[0] - 1 if spans else 0
    while led > 0 and "article" in sentence.tags(led):
        led -= 1
    told = sentence.words[led].low
    if led < 1 or told not in _NEAR | _FOR_IT | _LIES:
        return
    for_it = told in _FOR_IT or (told in _NEAR and line.facts.part_is_new)
    for word in sentence.words[:led]:
        if word.sort in FIGURES or word.sort is Sort.MARK:
            return
        thing = not word.tags - _SAYS_LITTLE or bool(word.tags & _THINGS)
        noun = word.sort is Sort.WORD and word.name is None
        other = (thing and reading.unread(word)) or (
            for_it and (thing or "structure" in word.tags)
        )
        if noun and other:
            yield which_part((word.low,), (line.facts.part,))


def _part_at(reading: Unread, at: int) -> str:
    """Give the other part that is named at a place, an article before it or not."""
    at += 1 if "article" in reading.sentence.tags(at) else 0
    word = reading.sentence.word(at)
    return _other(reading, word) if word is not None else ""


def _other(reading: Unread, word: Word) -> str:
    named = word.name is not None and word.name.role in ("part", "piece")
    thing = (word.name.owner or word.name.thing) if named and word.name else ""
    return "" if thing == reading.line.facts.part else thing


def is_in_the_other(reading: Unread) -> Iterator[Doubt]:
    """See “lamp hole in the base 12.2”: the hole for it is the base's."""
    words, part = reading.sentence.words, reading.line.facts.part
    openings = reading.sentence.lexicon.names["openings"]
    for at, word in enumerate(words[:-2]):
        own = word.name is not None and word.name.thing == part
        made = words[at + 1].low in openings and words[at + 1].name is None
        lies = words[at + 2].low.split(" ")[0] in ("in", "on", "of")
        if own and made and lies and (other := _part_at(reading, at + 3)):
            yield which_part((other,), (part,))


def told_before_it(reading: Unread) -> Iterator[Doubt]:
    """See “lid off: 41 C on the lamp”: the part was told before what was read."""
    part = reading.line.facts.part
    row: list[Word] = []
    for word in reading.sentence.words:
        if word.sort is Sort.MARK and word.low in ",;:.":
            row = []
            continue
        row.append(word)
    if any(reading.of_fact(word, "readings") for word in row) and part:
        named = [word for word in row if word.name is not None]
        others = [one for word in named if (one := _other(reading, word))]
        if others and len(others) == len(named):
            yield which_part(others, (part,))


_WORKS = (":past", ":now", ":base", ":ing")
_PLAIN = frozenset({"adjective", "ordinal", "article", "preposition", "material"})


def part_of_a_longer_name(reading: Unread) -> Iterator[Doubt]:
    """See “case door binds” made a door: a word before it belongs to it."""
    words, facts = reading.sentence.words, reading.line.facts
    named = [at for at, one in enumerate(words) if reading.of_fact(one, "part")]
    known = facts.part in reading.sentence.vocabulary.proposed
    if not named or not named[0] or not facts.part_is_new or known:
        return
    run: list[str] = []
    for word in reversed(words[: named[0]]):
        worked = any(tag.endswith(_WORKS) for tag in word.tags)
        noun = word.sort is Sort.WORD and word.name is None and not worked
        if not (noun and reading.unread(word)) or word.tags & _PLAIN:
            break
        if word.low.endswith(" the"):
            break  # Off the door.
        run.insert(0, word.low)
    if run:
        yield which_part((" ".join([*run, facts.part]),), (facts.part,))


_BOTH_FAIL = ("rub", "foul", "hit", "jam", "bind", "bound", "collide", "clash")


def did_it_to(reading: Unread) -> Iterator[Doubt]:
    """See “lamp melted the gate”: it was done to the gate."""
    told = reading.told_at
    word = reading.sentence.words[told]
    both = word.low.startswith(_BOTH_FAIL)
    before = reading.sentence.words[: max(told, 0)]
    led = any(one.name or reading.of_fact(one, "part") for one in before)
    done = told > 0 and "fail:past" in word.tags and not both and led
    if done and reading.line.facts.part:
        other = _part_at(reading, told + 1) or _thing_at(reading, told + 1)
        yield from [which_part((other,), (reading.line.facts.part,))] if other else []


def _thing_at(reading: Unread, at: int) -> str:
    """Give the pin of “the key sheared the pin”, where nobody named it a part."""
    noun, led = reading.sentence.word(at + 1), "article" in reading.sentence.tags(at)
    made = noun is not None and noun.tags & {"fastener", "structure"}
    return noun.low if led and noun and made and reading.unread(noun) else ""


_OTHER_SIDE = {
    "left": "right", "right": "left", "top": "bottom", "bottom": "top",
    "front": "back", "back": "front", "upper": "lower", "lower": "upper",
    "inner": "outer", "outer": "inner",
}  # fmt: skip


def of_the_other_side(reading: Unread) -> Iterator[Doubt]:
    """See “right upright 300.2, left 299.8” where there is a left upright too."""
    side, _, rest = reading.line.facts.part.partition(" ")
    words, opposite = reading.sentence.vocabulary, _OTHER_SIDE.get(side, "")
    other = f"{opposite} {rest}"
    there = bool(opposite) and (other in words.parts or other in words.proposed)
    for one in reading.line.facts.readings if there else ():
        if one.place == opposite:
            yield is_it(one.place)


def of_which_of_a_kind(reading: Unread) -> Iterator[Doubt]:
    """See “upright flange 12.4” where there are two uprights and no such part."""
    facts, words = reading.line.facts, reading.sentence.vocabulary
    first, _, rest = facts.part.partition(" ")
    known = (*words.parts, *words.proposed)
    ends = tuple(name for name in known if name.endswith(f" {first}"))
    if facts.part_is_new and rest and ends and facts.part not in known:
        yield which_part(ends, (facts.part,))


def so_many_of_them(reading: Unread) -> Iterator[Doubt]:
    """See “cable clip 2 of 6 snapped”: the second, or two of the six."""
    words = reading.sentence.words
    for at in reading.sentence.named("piece"):
        behind = words[at + 1 : at + 3]
        counted = len(behind) > 1 and behind[1].whole is not None
        if counted and behind[0].low == "of" and words[at].text[-1:].isdigit():
            yield is_it(reading.typed((words[at], behind[1])))


def of_which_stuff(reading: Unread) -> Iterator[Doubt]:
    """See “glass 1.9 thick”: a material alone is no part, and may be what it is called.

    It would be on record of nothing; a sheet is stock, and so is what has a moisture.
    """
    facts, sentence = reading.line.facts, reading.sentence
    if facts.part or facts.piece or facts.others or facts.stock:
        return
    if bought_so(sentence):
        return
    first = 1 if "article" in sentence.tags(0) else 0
    word = sentence.word(first)
    if word is None or word.name is not None or "stock_form" in word.tags:
        return
    sized = all(one.value.dimension == "length" for one in facts.readings)
    if "material" in word.tags and sized:
        yield which_part((), (word.low,))
