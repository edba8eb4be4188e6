"""Signs that a size is not all that a line tells, or is none."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.plain.sure.unread import A_NEW_SIZE, Unread, is_it
from logbook.plain.understanding import (
    Doubt,
    Kind,
)
from logbook.plain.words.figures import FIGURES, Sort, Word


def says_more(reading: Unread) -> Iterator[Doubt]:
    """See a size in whose clause a word stands that nobody knows, or an act."""
    line = reading.line
    if line.kind is not Kind.READING or line.facts.absent:
        return
    no_names = reading.sentence.lexicon.clauses["no_size_names"]
    for row in reading.rows():
        if not any(word.sort in FIGURES and reading.read(word) for word in row):
            continue
        why = next((at for at, one in enumerate(row) if _leads_why(one)), None)
        for word in row[:why]:
            verb = any(tag.endswith((":past", ":ing", ":base")) for tag in word.tags)
            done = verb and not word.tags & _NAMES_TOO
            says = reading.unread(word) and (reading.unknown(word) or done)
            says = says and word.low not in no_names  # Mostly 1.2.
            at = row.index(word)
            if says and not _aside(row, at) and not _keeps(row, at):
                yield is_it(word.text)


_KEEPS = frozenset({"held", "holds", "stayed", "stays", "settled", "peaked", "stood"})


def _keeps(row: Sequence[Word], at: int) -> bool:
    """See the held of “held at 2.1 bar for 30 min”: it kept the value it tells."""
    behind = row[at + 1 : at + 3]
    if behind and behind[0].low in ("at", "@"):
        behind = behind[1:]
    return row[at].low in _KEEPS and bool(behind) and behind[0].sort in FIGURES


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


def place_unread(reading: Unread) -> Iterator[Doubt]:
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
            yield is_it(reading.typed((word, noun)))


_WHERE = frozenset({"at", "at the", "near", "near the"})


def figure_unread(reading: Unread) -> Iterator[Doubt]:
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
        made_at = before == "at" and any(
            "hot_verb" in one.tags for one in reading.sentence.words[:at]
        )
        if reading.unread(word) and (bare or measure) and not made_at:
            yield is_it(word.text)  # Printed at 215: how it was made, no size.


def head_unheard(reading: Unread) -> Iterator[Doubt]:
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
        yield is_it(word.text)


def numbers_a_thing(reading: Unread) -> Iterator[Doubt]:
    """See the 1 of “drawer 1 width 400.5”, which says which of them it is."""
    words, facts = reading.sentence.words, reading.line.facts
    if reading.line.kind is not Kind.READING or facts.piece or facts.pieces:
        return
    rows = zip(words, words[1:], words[2:], words[3:], strict=False)
    for noun, number, size, value in rows:
        small = number.whole is not None and not number.unit and number.whole <= _MANY
        sized = "measures" in size.tags and value.sort in FIGURES
        named = noun.sort is Sort.WORD and "is" not in noun.tags
        named = named and "measures" not in noun.tags and number.sort is Sort.NUMBER
        if small and sized and named and reading.read(number):
            yield is_it(reading.typed((noun, number)))


_MANY = 12
"""So many of one thing are numbered; a higher number may be a size."""


def named_by_a_guess(reading: Unread) -> Iterator[Doubt]:
    """See two sizes between which a word stands that nobody knows: 86.4 suold be 86."""
    if reading.line.kind is not Kind.READING or len(reading.line.facts.readings) < 2:
        return
    words, before = reading.sentence.words, -1
    for at, word in enumerate(words):
        if word.low in (",", ";", "/"):
            before = -1
        if word.sort not in FIGURES:
            continue
        between = words[before + 1 : at] if before >= 0 else []
        strange = [one for one in between if one.sort is Sort.WORD and not one.tags]
        if strange and all(one.name is None for one in strange):
            yield is_it(strange[0].text)
        before = at


def than_another(reading: Unread) -> Iterator[Doubt]:
    """See “2 wider than the base”: told against another thing, and not the drawing."""
    if reading.line.kind is not Kind.READING or reading.line.facts.off is None:
        return
    words = reading.sentence.words
    for at, word in enumerate(words[:-1]):
        behind = [one.low for one in words[at + 1 : at + 4]]
        told = " ".join(behind).removeprefix("the ").split(" ")
        if word.low == "than" and told[0] not in _AS_DRAWN:
            yield is_it(reading.typed(words[at:]))


_AS_DRAWN = frozenset(
    {"drawn", "drawing", "it", "i", "planned", "nominal", "wanted", "needed", "plan",
     "specified", "spec", "ordered", "expected", "in", "on", "model", "file", "sketch",
     "listed", "asked", "they", "we", "design", "designed", "intended", "should", "cad",
     "required", "print", "meant", "supposed", "what", "said", "list", "dxf", "limit"}
)  # fmt: skip
"""Behind than: what the size should be."""


def named_across_a_stop(reading: Unread) -> Iterator[Doubt]:
    """See “goes to B: wall 2.6”, of which no size is called so."""
    for one in reading.line.facts.readings:
        if ":" in one.what and reading.line.kind is Kind.READING:
            yield is_it(one.what.partition(":")[0])


def which_size(reading: Unread) -> Iterator[Doubt]:
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
