"""How sure the reading of a line is, told by what of the line it left unread.

Rules read the words they know. A line they were not written for shows it: the clause
that stays unread, the noun nobody knows where a part belongs, the verb that is not the
first, a figure no fact took. Such a line is asked about and not taken for what it says
to those who wrote the rules. Each sign was kept because, on lines no rule had seen, it
stood on wrong readings far oftener than on right ones.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from logbook.plain.choice import FIGURES
from logbook.plain.clauses import clauses
from logbook.plain.figures import Sort, Word
from logbook.plain.name_places import is_young
from logbook.plain.new_parts import which_part
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import (
    Doubt,
    Kind,
    Span,
    Understanding,
    Verdict,
)

WHY = "why it happened"
DONE_ABOUT = "what was done about it"
NEITHER = "neither"
A_NEW_SIZE = ", a new size"
"""What stands behind a name that is offered for a size the part does not have yet."""

_PLAIN = (Kind.NOTE, Kind.QUESTION)
_WORK = (Kind.STEP, Kind.JOINT)


@dataclass(frozen=True)
class _Reading:
    """A line, what was understood, and which of its words that was read in."""

    sentence: Sentence
    line: Understanding

    @cached_property
    def taken(self) -> tuple[Span, ...]:
        told = (self.line.told_by,) if self.line.told_by else ()
        return (*told, *(one for row in self.line.words.values() for one in row))

    def read(self, word: Word) -> bool:
        return any(word.start < one.end and one.start < word.end for one in self.taken)

    @cached_property
    def says(self) -> frozenset[int]:
        return frozenset(one.start for one in self.line.content)

    def unread(self, word: Word) -> bool:
        """Tell whether a word says something that no fact took."""
        return word.start in self.says and not self.read(word)

    def unknown(self, word: Word) -> bool:
        """Tell whether no list, name or unit knows a word that no fact took."""
        plain = word.sort is Sort.WORD and not word.tags and word.name is None
        return plain and self.unread(word)

    @cached_property
    def told_at(self) -> int:
        """Where the word stands that told the kind, -1 where none did."""
        told = self.line.told_by
        places = enumerate(self.sentence.words)
        at = (at for at, one in places if told and one.start <= told.start < one.end)
        return next(at, -1)

    def rows(self) -> Iterator[Sequence[Word]]:
        for start, end in clauses(self.sentence):
            yield self.sentence.words[start:end]

    def typed(self, words: Sequence[Word]) -> str:
        return self.sentence.text[words[0].start : words[-1].end]


def made_sure(sentence: Sentence, line: Understanding) -> Understanding:
    """Give the line, to be asked about first where it bears a sign of a misreading."""
    if line.verdict is not Verdict.TAKEN or line.kind in _PLAIN:
        return line
    reading = _Reading(sentence, line)
    for sign in _SIGNS:
        for doubt in sign(reading):
            return replace(line, doubts=(doubt, *line.doubts))
    return line


def _which_aside(said: str) -> Doubt:
    """Ask what a clause behind a failure tells: why it came, or what was done."""
    return Doubt("aside", f"“{said}”: which is it?", (WHY, DONE_ABOUT, NEITHER))


def _is_it(said: str) -> Doubt:
    question = f"“{said}”: is it so already, and only this?"
    return Doubt("kind", question, ("it is so", "only a note"))


def _no_clue(reading: _Reading) -> Iterator[Doubt]:
    """See a clause behind a failure that nothing was read in: glue squeeze-out."""
    facts = reading.line.facts
    if reading.line.kind is not Kind.FAILURE or facts.cure:
        return
    for row in [*reading.rows()][1:]:
        says = [word for word in row if word.start in reading.says]
        told = any(
            word.sort is not Sort.WORD
            or word.name is not None
            or word.tags & _TELLS_NO_MORE
            or reading.read(word)
            for word in row
        )
        if says and not told and not says[0].low.endswith("ly"):
            yield _which_aside(reading.typed(row))


_TELLS_NO_MORE = frozenset(
    {
        "mood",
        "ordinal",
        "as_is",
        "fit",
        "rework_sense",
        "order_done",
        "order_wish",
        "todo",
    }
)


def _of_which_part(reading: _Reading) -> Iterator[Doubt]:
    """See work or a failure of no part, where a noun nobody knows may be one."""
    line, words = reading.line, reading.sentence.words
    about = (Kind.FAILURE, Kind.STEP, Kind.DISPOSITION)
    if line.kind not in about or line.facts.part or reading.sentence.named("part"):
        return
    for at, word in enumerate(words):
        if word.low in (",", ";", ":"):
            return
        led = "article" in reading.sentence.tags(at - 1) if at else False
        stands = led or at < reading.told_at
        if stands and reading.unknown(word) and not word.low.endswith(_NO_NOUN):
            yield which_part((), (word.low,))


_NO_NOUN = ("s", "ly", "ed", "ing")


def _head_unread(reading: _Reading) -> Iterator[Doubt]:
    """See work told by a late word while nobody knows the first ones."""
    at, words = reading.told_at, reading.sentence.words
    if reading.line.kind is not Kind.STEP or at < 2:
        return
    before = [word for word in words[:at] if word.sort is not Sort.MARK]
    if any(word.name or word.low == ":" for word in words[: at + 1]):
        before = [] if not _apart(words, at) else before
    left = [word for word in before if reading.unread(word)]
    late = _apart(words, at) and any("structure" in word.tags for word in left)
    unknown = late or any(reading.unknown(word) for word in left)
    if len(before) > 1 and unknown and words[at - 1] is not left[-1]:
        yield _is_it(reading.typed(left))


def _apart(words: Sequence[Word], at: int) -> bool:
    """Tell whether the word stands in a later clause than the first."""
    return any(word.low in (",", ";") for word in words[:at])


def _also_fails(reading: _Reading) -> Iterator[Doubt]:
    """See work in a line whose unread words tell of a failure: rubs, leaks."""
    failing = {"fail:past", "fail:now", "defect"}
    if reading.line.kind in _WORK:
        for at, word in enumerate(reading.sentence.words):
            before = reading.sentence.words[at - 1].name if at else None
            first = before is not None and at < reading.told_at
            done = "make:past" in word.tags
            if word.tags & failing and (reading.unread(word) or (first and not done)):
                yield _is_it(word.text)


def _how_it_is(reading: _Reading) -> Iterator[Doubt]:
    """See work in a line that compares: mounted slides are thicker than strips."""
    if reading.line.kind not in _WORK:
        return
    for at, word in enumerate(reading.sentence.words):
        lows = set(word.low.split(" "))
        looks = lows & {"look", "looks"} and at < reading.told_at
        if ("than" in lows or looks) and at and not reading.read(word):
            yield _is_it(word.text)


def _new_by_the_way(reading: _Reading) -> Iterator[Doubt]:
    """See a name nobody knows made a part, where the project has its parts."""
    facts, sentence = reading.line.facts, reading.sentence
    words = sentence.vocabulary
    if not facts.part_is_new or facts.part in words.proposed:
        return
    last = facts.part.split(" ")[-1]
    ends = words.compounded(last)
    headed = " " in facts.part or reading.line.kind is not Kind.READING
    known = headed and (
        last in sentence.lexicon.names["heads"]
        or any(word.tags for word in sentence.words if word.low.startswith(last))
    )
    ends = ends or _shortened(reading, facts.part)
    if ends or not (known or is_young(sentence) or _leads_a_size(reading)):
        yield which_part(ends, (facts.part,))


_BEFORE_IT = frozenset({"in", "into", "inside", "through", "to", "onto", "on", "under"})


def _object_unknown(reading: _Reading) -> Iterator[Doubt]:
    """See work done to something nobody knows: put the driver inside the base."""
    line, sentence = reading.line, reading.sentence
    if line.kind is not Kind.STEP or reading.told_at < 0:
        return
    first = reading.told_at + 1
    while "article" in sentence.tags(first) or sentence.tags(first) == {"adjective"}:
        first += 1
    noun, behind = sentence.word(first), sentence.word(first + 1)
    if noun is None or not reading.unknown(noun) or noun.low.endswith(_NO_NOUN):
        return
    part = [at for at in sentence.named("part") if at > first]
    led = behind is not None and behind.low in _BEFORE_IT
    if not line.facts.part or (part and led):
        yield which_part((line.facts.part,) if line.facts.part else (), (noun.low,))


def _subject_unknown(reading: _Reading) -> Iterator[Doubt]:
    """See work on a channel nobody knows, told before a part: closed, cable inside."""
    line, sentence, at = reading.line, reading.sentence, reading.told_at
    if line.kind is not Kind.STEP or at < 1 or not line.facts.part:
        return
    noun = sentence.words[at - 1]
    plain = noun.name is None and noun.sort is Sort.WORD
    nameless = not noun.tags or "channel_nouns" in noun.tags
    first = min(sentence.named("part") + sentence.named("piece"), default=-1)
    if plain and nameless and reading.unread(noun) and first > at:
        yield which_part((line.facts.part,), (noun.low,))


def _came_out(reading: _Reading) -> Iterator[Doubt]:
    """See how work turned out, told with its noun: anodising came out blotchy."""
    at, words = reading.told_at, reading.sentence.words
    if (
        reading.line.kind is not Kind.STEP
        or at < 0
        or not words[at].low.endswith("ing")
    ):
        return
    following = reading.sentence.word(at + 1)
    if following is not None and (
        following.tags & {"is", "plain_verb"} or following.low in ("came", "came out")
    ):
        yield _is_it(reading.typed(words[at : at + 2]))


def _part_goes_on(reading: _Reading) -> Iterator[Doubt]:
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


def _says_more(reading: _Reading) -> Iterator[Doubt]:
    """See a size in whose clause a word stands that nobody knows, or an act."""
    line = reading.line
    if line.kind is not Kind.READING or line.facts.absent:
        return
    for row in reading.rows():
        if not any(word.sort in FIGURES and reading.read(word) for word in row):
            continue
        why = next((at for at, one in enumerate(row) if _leads_why(one)), None)
        for word in row[:why]:
            verb = any(tag.endswith((":past", ":ing", ":base")) for tag in word.tags)
            done = verb and not word.tags & _NAMES_TOO
            says = reading.unread(word) and (reading.unknown(word) or done)
            if says and not _aside(row, row.index(word)):
                yield _is_it(word.text)


def _aside(row: Sequence[Word], at: int) -> bool:
    """See the frame of “too long for the frame”, the put of “put the caliper on”."""
    before = [one.low for one in row[max(0, at - 2) : at]]
    behind = row[at + 1 : at + 3]
    return "for" in before or any("instrument" in one.tags for one in behind)


def _leads_why(word: Word) -> bool:
    """Tell whether what follows only says why or when it was measured."""
    when = word.low in ("after", "before", "since", "when", "while", "once")
    return when or "because" in word.tags


_NAMES_TOO = frozenset(
    {"structure", "measures", "fastener", "material", "adjective", "fit", "order_done"}
)


def _of_the_machine(reading: _Reading) -> Iterator[Doubt]:
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


def _shortened(reading: _Reading, said: str) -> tuple[str, ...]:
    """Give the parts a short word may stand for: xbar, diff."""
    if " " in said or len(said) > _SHORT or is_young(reading.sentence):
        return ()
    return tuple(
        name
        for name in reading.sentence.vocabulary.parts
        if name.casefold().startswith(said[:4]) or name.casefold()[-3:] == said[-3:]
    )


def _leads_a_size(reading: _Reading) -> bool:
    """Tell whether a plain word begins a size: “crossbar 179.7” names a part."""
    said = reading.line.said("part").casefold()
    first = [one for one in reading.sentence.words[:2] if "article" not in one.tags]
    leads = bool(first) and first[0].low == said and said.isalpha()
    plain = leads and not first[0].tags
    return reading.line.kind is Kind.READING and plain


def _place_unread(reading: _Reading) -> Iterator[Doubt]:
    """See “at the rear” that no fact took."""
    if reading.line.kind not in (Kind.FAILURE, Kind.READING, Kind.STEP):
        return
    words = reading.sentence.words
    for at, word in enumerate(words[:-1]):
        if not at or word.low not in _WHERE or reading.read(word):
            continue
        led = "article" in words[at + 1].tags
        noun = words[at + 2] if led and at + 2 < len(words) else words[at + 1]
        placed = noun.tags & {"place", "structure", "fastener"} or reading.unknown(noun)
        if noun.sort is Sort.WORD and placed and reading.unread(noun):
            yield _is_it(reading.typed((word, noun)))


_WHERE = frozenset({"at", "at the", "near", "near the"})


def _figure_unread(reading: _Reading) -> Iterator[Doubt]:
    """See a size in whose line another bare figure, or the measure, says nothing."""
    facts = reading.line.facts
    if reading.line.kind is not Kind.READING or facts.absent:
        return
    for at, word in enumerate(reading.sentence.words):
        if "because" in word.tags:
            return
        before = reading.sentence.words[at - 1].low if at else ""
        bare = word.sort is Sort.NUMBER and word.name is None and before != "by"
        following = reading.sentence.word(at + 1)
        sized = following is not None and following.sort in FIGURES
        measure = sized and bool(facts.off) and "measures" in word.tags
        if reading.unread(word) and (bare or measure):
            yield _is_it(word.text)


def _head_unheard(reading: _Reading) -> Iterator[Doubt]:
    """See a count or a size in a line that begins with an unread verb."""
    word, following = reading.sentence.word(0), reading.sentence.word(1)
    if word is None or following is None or word.sort is not Sort.WORD:
        return
    unread = reading.unread(word) and word.name is None
    verb = any(tag.endswith((":base", ":ing")) for tag in word.tags)
    doing = word.low.endswith("ing") and not word.tags
    told = reading.line.kind
    counts = told is Kind.COUNT and following.whole is not None and verb
    if unread and (counts or (told is Kind.READING and (verb or doing))):
        yield _is_it(word.text)


def _cure_or_cause(reading: _Reading) -> Iterator[Doubt]:
    """See what is taken for the cure and may be why: oiled one side only."""
    facts, spans = reading.line.facts, reading.line.words.get("cure", ())
    if reading.line.kind is not Kind.FAILURE or facts.cause or not spans:
        return
    start, end = spans[0].start, spans[-1].end
    row = [one for one in reading.sentence.words if start <= one.start < end]
    lows = {low for one in row for low in one.low.split(" ")}
    if lows & {"only", "too", "without", "wrong"} and not lows & _MENDS:
        yield _which_aside(reading.typed(row))


_MENDS = frozenset({"it", "them", "now", "again", "new", "instead", "another"})


def _end_of_a_known(reading: _Reading) -> Iterator[Doubt]:
    """See “the bar” in a line that is taken for another part than the crossbar."""
    facts, sentence = reading.line.facts, reading.sentence
    for at, word in enumerate(sentence.words):
        led = at > 0 and "article" in sentence.tags(at - 1)
        if not led or word.name is not None:
            continue
        ends = sentence.vocabulary.compounded(word.low)
        if ends and facts.part not in ends:
            own = (facts.part,) if facts.part else (word.low,)
            yield which_part(ends, own)


def _which_size(reading: _Reading) -> Iterator[Doubt]:
    """See a size whose name several sizes of the part share: aperture of the mask."""
    facts = reading.line.facts
    if reading.line.kind is not Kind.READING or not facts.what or not facts.readings:
        return
    known = reading.sentence.vocabulary.characteristics.get(facts.part, ())
    what = facts.what.casefold()
    longer = [name for name in known if name.casefold().startswith(f"{what} ")]
    if len(longer) > 1 and what not in {name.casefold() for name in known}:
        choices = (*longer, f"{facts.what}{A_NEW_SIZE}")
        yield Doubt("size", f"which {facts.what}?", choices)


def _cut_off(reading: _Reading) -> Iterator[Doubt]:
    """See a name that is only the end of what was typed: the d of i/d."""
    text = reading.sentence.text
    for fact in ("what", "part", "place", "where"):
        for span in reading.line.words.get(fact, ()):
            before, last = text[: span.start], text[span.start : span.end]
            if before.endswith(("/", "\\")) and before[-2:-1].isalpha():
                start = before.rfind(" ") + 1
                yield _is_it(text[start : span.start] + last)


_SIGNS: tuple[Callable[[_Reading], Iterator[Doubt]], ...] = (
    _which_size, _new_by_the_way, _object_unknown, _subject_unknown, _part_goes_on,
    _came_out, _says_more, _of_the_machine, _of_which_part, _also_fails, _head_unread,
    _how_it_is, _figure_unread, _head_unheard, _cut_off, _place_unread, _no_clue,
    _cure_or_cause, _end_of_a_known,
)  # fmt: skip
