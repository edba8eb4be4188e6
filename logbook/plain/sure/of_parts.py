"""Signs that a line is about another part than it was read as."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from logbook.plain.named.all_of_a_line import NO_NOUN, befell_it, was_worked_on
from logbook.plain.named.more_of_them import more_wanted_at
from logbook.plain.named.name_places import is_young
from logbook.plain.named.names import name_run
from logbook.plain.named.unnamed import which_part
from logbook.plain.sure.unread import Unread, is_it
from logbook.plain.understanding import (
    Doubt,
    Kind,
)
from logbook.plain.words.figures import Sort
from logbook.plain.words.spoken import spoken


def of_which_part(reading: Unread) -> Iterator[Doubt]:
    """See work or a failure of no part, where a noun nobody knows may be one."""
    line, words = reading.line, reading.sentence.words
    about = (Kind.FAILURE, Kind.STEP, Kind.DISPOSITION)
    if line.kind not in about or line.facts.part or reading.sentence.named("part"):
        return
    for at, word in enumerate(words):
        if word.low in (",", ";", ":"):
            return
        before = words[at - 1] if at else word
        led = at > 0 and ("article" in before.tags or before.low.endswith(" the"))
        stands = led or at < reading.told_at
        name = [words[one].low for one in name_run(reading.sentence, at) or [at]]
        if stands and reading.unknown(word) and not name[-1].endswith(NO_NOUN):
            yield which_part((), (" ".join(name),))


def next_of_unknown(reading: Unread) -> Iterator[Doubt]:
    """See the roof of “next roof gets a 30 mm overhang”, where nobody knows a roof."""
    words, line = reading.sentence.words, reading.line
    if line.kind is not Kind.DECISION or line.facts.part or len(words) < len("abc"):
        return
    gets = "plain_verb" in words[2].tags
    if words[0].low == "next" and gets and reading.unknown(words[1]):
        yield which_part((), (words[1].low,))


def new_by_the_way(reading: Unread) -> Iterator[Doubt]:
    """See a name nobody knows made a part, where the project has its parts."""
    facts, sentence = reading.line.facts, reading.sentence
    words = sentence.vocabulary
    if not facts.part_is_new or facts.part in words.proposed:
        return
    last = facts.part.split(" ")[-1]
    names = sentence.lexicon.names
    thing = facts.part in names["things"] | names["sized"]
    volts = any(one.value.dimension == "voltage" for one in facts.readings)
    many = reading.line.kind is Kind.READING and _said_of_many(reading)
    if thing and not volts and not many and not words.compounded(last):
        return
    ends = words.compounded(last)
    headed = " " in facts.part or reading.line.kind is not Kind.READING
    known = (
        not many
        and headed
        and (
            last in sentence.lexicon.names["heads"]
            or last in sentence.lexicon.names["things"]
            or any(word.tags for word in sentence.words if word.low.startswith(last))
        )
    )
    ends = ends or _shortened(reading, facts.part)
    ends = ends or tuple(one for one in words.parts if _much_alike(facts.part, one))
    leads = _leads_a_size(reading) and not many
    kind, told = reading.line.kind, reading.told_at
    failed = kind is Kind.FAILURE and befell_it(sentence, facts.part, told)
    alone = known or is_young(sentence) or leads or failed
    alone = alone or more_wanted_at(sentence) is not None
    alone = alone or was_worked_on(sentence, facts.part)
    if ends or not alone:
        yield which_part(ends, (facts.part,))


def _said_of_many(reading: Unread) -> bool:
    """See “uprights lean 0.3”: what stands on a known part has names of its own."""
    said = reading.line.said("part")
    many = said.casefold() != reading.line.facts.part and " " not in said
    return (
        many and len(reading.line.facts.readings) < 2 and not is_young(reading.sentence)
    )


_MOSTLY = 0.75
_LONG_ENOUGH = 5


def _much_alike(said: str, part: str) -> bool:
    """See “difuserr” for diffuser: more than one slip, but most of its letters."""
    name = part.casefold()
    common = (Counter(said) & Counter(name)).total()
    longest = max(len(said), len(name))
    word = longest >= _LONG_ENOUGH and " " not in said
    return word and said[:1] == name[:1] and common >= _MOSTLY * longest


_BEFORE_IT = frozenset({"in", "into", "inside", "through", "to", "onto", "on", "under"})


def object_unknown(reading: Unread) -> Iterator[Doubt]:
    """See work done to something nobody knows: put the driver inside the base."""
    line, sentence = reading.line, reading.sentence
    if line.kind is not Kind.STEP or reading.told_at < 0:
        return
    first = reading.told_at + 1
    while "article" in sentence.tags(first) or sentence.tags(first) == {"adjective"}:
        first += 1
    noun, behind = sentence.word(first), sentence.word(first + 1)
    if noun is None or not reading.unknown(noun) or noun.low.endswith(NO_NOUN):
        return
    part = [at for at in sentence.named("part") if at > first]
    led = behind is not None and behind.low in _BEFORE_IT
    if not line.facts.part or (part and led):
        yield which_part((line.facts.part,) if line.facts.part else (), (noun.low,))


def subject_unknown(reading: Unread) -> Iterator[Doubt]:
    """See work on a channel nobody knows, told before a part: closed, cable inside."""
    line, sentence, at = reading.line, reading.sentence, reading.told_at
    if line.kind is not Kind.STEP or at < 1 or not line.facts.part:
        return
    noun = sentence.words[at - 1]
    plain = noun.name is None and noun.sort is Sort.WORD
    nameless = not noun.tags or "channel_nouns" in noun.tags
    nameless = nameless and "tool" not in sentence.tags(at - 2)  # Vise jaws marked it.
    first = min(sentence.named("part") + sentence.named("piece"), default=-1)
    if plain and nameless and reading.unread(noun) and first > at:
        yield which_part((line.facts.part,), (noun.low,))


def part_goes_on(reading: Unread) -> Iterator[Doubt]:
    """See the lamp board where only the lamp is known, told to do something."""
    facts, sentence = reading.line.facts, reading.sentence
    heads = sentence.lexicon.names["heads"]
    for at in sentence.named("part"):
        word, behind, after = (sentence.word(at + step) for step in range(3))
        if word is None or behind is None or after is None or word.low.endswith("'s"):
            continue
        goes_on = behind.low in heads and "stock_form" in behind.tags
        told = any(tag.endswith((":now", ":past")) for tag in after.tags)
        if goes_on and told and facts.part == word.low:
            yield which_part((facts.part,), (f"{facts.part} {behind.low}",))


def of_another_name(reading: Unread) -> Iterator[Doubt]:
    """See “2ml tube rack top” read as the one rack top: more names have those words.

    Words around a name that are no part of it, and stand with it in the name of
    another part.
    """
    facts, sentence = reading.line.facts, reading.sentence
    for at in sentence.named("part"):
        word = sentence.words[at]
        if word.name is None or word.name.thing != facts.part:
            continue
        said = {*spoken(word.text)}
        beside = {*_beside(reading, at, -1), *_beside(reading, at, 1)}
        beside -= {*spoken(facts.part)}
        found = sentence.vocabulary.having(said, beside) if beside else ()
        others = [name for name in found if name != facts.part]
        if others:
            yield which_part(others[:3], (facts.part,))


def of_turned_name(reading: Unread) -> Iterator[Doubt]:
    """See words of the names of parts, in another order, where no part was read."""
    facts, sentence = reading.line.facts, reading.sentence
    if facts.part or sentence.named("part"):
        return
    for at in range(len(sentence.words)):
        run = [*_beside(reading, at - 1, 1)]
        found = sentence.vocabulary.having({*run}) if len({*run}) > 1 else ()
        if found and sum(len(word) > 1 for word in run) > 1:
            yield which_part(found[:4])


def _beside(reading: Unread, at: int, step: int) -> Iterator[str]:
    """Go through the words on one side of a name that names of parts have too."""
    words, known = reading.sentence.words, reading.sentence.vocabulary
    at += step
    while 0 <= at < len(words):
        word = words[at]
        one = "".join(word.text.lower().split())
        plain = word.sort in (Sort.WORD, Sort.NUMBER, Sort.CODE)
        placed = any(
            one.start <= word.start < one.end
            for fact in ("place", "where")
            for one in reading.line.words.get(fact, ())
        )
        if not plain or word.name is not None or placed or not known.titled(one):
            return
        yield one
        at += step


def of_the_machine(reading: Unread) -> Iterator[Doubt]:
    """See the bed of a printer in a line of prints: it may be no part of ours."""
    sentence, names = reading.sentence, reading.sentence.lexicon.names
    said = {one for word in sentence.words for one in (word.low, *word.low.split(" "))}
    if not said & names["printing"]:
        return
    for at in sentence.named("part"):
        word, before = sentence.words[at], sentence.words[max(0, at - 2) : at]
        led = {one for near in before for one in near.low.split(" ")}
        behind = sentence.word(at + 1)
        warm = behind is not None and behind.dimension == "temperature"
        own = word.low in names["of_machines"] and reading.line.facts.part
        if own and (warm or led & {"off", "to", "on", "from"}):
            yield which_part((reading.line.facts.part,))


_SHORT = 5


def _shortened(reading: Unread, said: str) -> tuple[str, ...]:
    """Give the parts a short word may stand for: xbar, diff."""
    if " " in said or len(said) > _SHORT or is_young(reading.sentence):
        return ()
    return tuple(
        name
        for name in reading.sentence.vocabulary.parts
        if name.casefold().startswith(said[:4]) or name.casefold()[-3:] == said[-3:]
    )


def _leads_a_size(reading: Unread) -> bool:
    """Tell whether a plain word begins a size: “crossbar 179.7” names a part."""
    said = reading.line.said("part").casefold()
    first = [one for one in reading.sentence.words[:2] if "article" not in one.tags]
    leads = bool(first) and first[0].low == said and said.isalpha()
    plain = leads and not first[0].tags
    return reading.line.kind is Kind.READING and plain


def end_of_a_known(reading: Unread) -> Iterator[Doubt]:
    """See “the bar” in a line that is taken for another part than the crossbar."""
    facts, sentence = reading.line.facts, reading.sentence
    for at, word in enumerate(sentence.words):
        led = at > 0 and "article" in sentence.tags(at - 1)
        if word.low == "while" and facts.part:
            return  # While the bar is chucked: told by the way.
        if not led or word.name is not None:
            continue
        ends = sentence.vocabulary.compounded(word.low)
        if ends and facts.part not in ends:
            own = (facts.part,) if facts.part else (word.low,)
            yield which_part(ends, own)


def stock_of_part(reading: Unread) -> Iterator[Doubt]:
    """See the foot of “foot plate is 4 mm aluminium”: of it, and not of all stock."""
    known = reading.sentence.vocabulary
    facts = reading.line.facts
    if reading.line.kind is not Kind.STOCK or facts.part or facts.remaining:
        return
    for word, behind in pairwise(reading.sentence.words):
        stuff = behind.tags & {"material", "stock_form"}
        if (
            word.sort is Sort.WORD
            and word.name is None
            and stuff
            and not word.tags - {"structure"}
        ):
            parts = known.containing((word.low,))
            if parts:
                yield which_part(parts, (word.low,))


def cut_off(reading: Unread) -> Iterator[Doubt]:
    """See a name that is only the end of what was typed: the d of i/d."""
    text = reading.sentence.text
    for fact in ("what", "part", "place", "where"):
        for span in reading.line.words.get(fact, ()):
            before, last = text[: span.start], text[span.start : span.end]
            if fact == "part" and text[span.end : span.end + 1] == ".":
                continue  # A file, with its folder: models/1009_lid.dxf.
            if before.endswith(("/", "\\")) and before[-2:-1].isalpha():
                start = before.rfind(" ") + 1
                yield is_it(text[start : span.start] + last)
