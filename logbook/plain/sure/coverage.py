"""What of a line its records keep in fields of their own, and what only in its words.

Every record keeps the whole line; what no fact took is said beside the facts, so
that nothing typed goes unread without a word.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from logbook.plain.sure.made_several import made_several
from logbook.plain.sure.sizes_told import sizes_told
from logbook.plain.understanding import Facts, Kind, Span, Understanding, Verdict
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import Sentence
from logbook.shop.fastening.screws import is_screw

_ALWAYS = frozenset(
    {"part", "piece", "pieces", "so_many", "build", "when", "what", "place", "fitted"}
)  # fmt: skip
_SIZES = frozenset(
    {"readings", "absent", "wanted", "off", "off_sense", "instrument", "room", "hours",
     "minutes", "met_by_others", "disposition", "cure", "became", "revision"}
)  # fmt: skip
_CHOSEN = frozenset(
    {"others", "cause", "instead_of", "met_by_others", "disposition", "release"}
)  # fmt: skip
_KEPT: dict[Kind, frozenset[str]] = {
    Kind.READING: _SIZES | {"others", "cause", "drawn"},
    Kind.STOCK: frozenset({"material", "stock", "readings", "wanted", "remaining"}),
    Kind.DRAWN: frozenset({"drawn", "material", "thickness"}),
    Kind.FIT: frozenset(),
    Kind.FAILURE: frozenset(
        {"others", "where", "cause", "cure", "beside", "disposition", "met_by_others",
         "room", "hours", "minutes", "step", "revision"}
    ),
    Kind.DECISION: _CHOSEN,
    Kind.REVISION: frozenset({"others", "cause", "revision", "readings", "withdrawn"}),
    Kind.SUBSTITUTION: _CHOSEN,
    Kind.DISPOSITION: _SIZES | {"others", "cause"},
    Kind.STEP: frozenset(
        {"others", "step", "hours", "minutes", "readings", "closes", "inside", "undone",
         "revision"}
    ),
    Kind.JOINT: frozenset({"fastener", "layers", "quantity"}),
    Kind.ORDER: frozenset({"others", "item", "quantity", "besides", "price", "due"}),
    Kind.COUNT: frozenset({"others", "quantity", "counted", "left"}),
    Kind.QUESTION: frozenset(),
    Kind.NOTE: frozenset(),
}  # fmt: skip
"""The facts that records of each kind keep in a field of their own."""

AS_TYPED = frozenset({Kind.NOTE, Kind.QUESTION, Kind.FIT})
"""Kinds that are nothing but their words, and are said to be."""

_EMPTY = frozenset(
    {
        "article", "preposition", "joiner", "filler", "is", "generic", "plain_verb",
        "because", "guess", "measure", "wanted", "wanted_after", "condition", "room",
        "really", "really_sure", "vague", "question", "proven", "cure", "due",
        "able", "formerly", "off_by", "list_says", "instead",
    }
)  # fmt: skip
"""Words with these tags carry nothing by themselves."""
_CARRIES = frozenset(
    {
        "structure", "fastener", "material", "tool", "instrument", "measures",
        "negation", "negative", "make:past", "close:past", "fail:past", "repair:past",
        "rework:past", "take_back:past", "scrap", "order_done",
    }
)  # fmt: skip
_WORTH_SAYING = 70
"""Letters of what is left that are said in full; the record has all of it."""


def content_of(sentence: Sentence) -> tuple[Span, ...]:
    """Give where words stand that say something, in their order."""
    return tuple(
        Span(word.start, word.end)
        for at, word in enumerate(sentence.words)
        if _says(word) or _refuses(sentence, at)
    )


def _refuses(sentence: Sentence, at: int) -> bool:
    """See the stick of “would not stick” and the seat of “the seat”: they say it."""
    told = frozenset({"negative", "negation", "article"})
    return at > 0 and bool("able" in sentence.tags(at) and sentence.tags(at - 1) & told)


def _says(word: Word) -> bool:
    if word.sort in (Sort.MARK, Sort.WHEN, Sort.CLOCK, Sort.DATE):
        return False
    if word.sort is not Sort.WORD or word.name is not None:
        return True
    if word.tags & _CARRIES:
        return True
    return not word.tags & _EMPTY


def recorded_as(line: Understanding) -> Kind:
    """Give the kind of record: a joint without a screw that can be one is a step.

    A count of what is named nowhere, or is missing, is a note.
    """
    if line.kind is Kind.JOINT and not is_screw(line.facts.fastener):
        return Kind.STEP
    if line.kind is Kind.COUNT and not _counts(line.facts):
        return Kind.NOTE
    return line.kind


def _counts(facts: Facts) -> bool:
    named = bool(facts.counted or facts.part) and facts.quantity is not None
    return named and bool(facts.counted_as)


def kept(line: Understanding, fact: str) -> bool:
    """Tell whether the records of the line keep this fact in a field of its own."""
    if line.verdict is Verdict.KEPT:
        return False
    kind = recorded_as(line)
    if kind is Kind.STEP and fact == "quantity":
        return made_several(line) > 0
    if kind is Kind.DISPOSITION and fact == "readings":
        return bool(line.facts.part and sizes_told(line))
    if fact in _UNLESS and not _UNLESS[fact](kind, line.facts):
        return False
    return fact in _ALWAYS or fact in _KEPT[kind]


def _deviates(facts: Facts) -> bool:
    """Tell whether the line itself says that a size is not as drawn."""
    if facts.became is not None:
        return True
    paired = len(facts.wanted) in (1, len(facts.readings))
    return paired if facts.readings else bool(facts.off or facts.wanted)


def _cured(kind: Kind, facts: Facts) -> bool:
    if kind is Kind.READING:
        return _deviates(facts)
    if kind in (Kind.DECISION, Kind.SUBSTITUTION):
        return bool(facts.part)
    return True


def _one_size(kind: Kind, facts: Facts) -> bool:
    return kind is not Kind.STOCK or len(facts.readings) == 1


def _wanted(kind: Kind, facts: Facts) -> bool:
    if kind is Kind.DISPOSITION and not facts.part:
        return False
    return len(facts.wanted) == 1 if kind is Kind.STOCK else _deviates(facts)


def _of_piece(kind: Kind, facts: Facts) -> bool:
    chosen = kind in (Kind.DECISION, Kind.SUBSTITUTION)
    pieceless = (*AS_TYPED, Kind.REVISION, Kind.ORDER, Kind.COUNT, Kind.JOINT)
    return bool(facts.disposition) if chosen else kind not in pieceless


def tells_of_each(kind: Kind, facts: Facts) -> bool:
    """Tell whether what is said of several pieces is kept of each by itself."""
    if kind is Kind.STEP:
        return bool(facts.readings)
    chosen = kind in (Kind.DECISION, Kind.SUBSTITUTION) and facts.disposition
    return kind in (Kind.READING, Kind.FAILURE, Kind.DISPOSITION) or bool(chosen)


def _of_part(kind: Kind, facts: Facts) -> bool:
    if kind is Kind.COUNT:
        return not facts.counted or facts.counted == facts.part
    return not (kind in AS_TYPED and facts.part_is_new)


def _measured(kind: Kind, facts: Facts) -> bool:
    timed = kind is not Kind.READING or bool(facts.readings)
    run = kind is not Kind.REVISION  # A changed size is at no place of a piece.
    return timed and run and "readings" in _KEPT[kind]


_UNLESS: dict[str, Callable[[Kind, Facts], bool]] = {
    "part": _of_part,
    "piece": _of_piece,
    "pieces": tells_of_each,
    "so_many": tells_of_each,
    "readings": _one_size,
    "wanted": _wanted,
    "drawn": lambda _, facts: bool(facts.part),
    "fitted": lambda kind, _: kind is not Kind.JOINT,
    "off": lambda _, facts: not facts.readings,
    "off_sense": lambda _, facts: not facts.readings,
    "instrument": lambda _, facts: facts.instrument_known,
    "cure": _cured,
    "cause": lambda kind, facts: kind is not Kind.READING or _deviates(facts),
    "disposition": _cured,
    "price": lambda _, facts: facts.price is not None and not facts.besides,
    "what": lambda kind, facts: bool(
        "readings" in _KEPT[kind] and (facts.readings or facts.absent)
    ),
    "place": lambda kind, facts: (
        kind is Kind.FAILURE
        or _measured(kind, facts)
        or (kind is Kind.READING and bool(facts.off))
    ),
    "hours": lambda kind, facts: kind is not Kind.READING or bool(facts.readings),
    "minutes": lambda kind, facts: kind is not Kind.READING or bool(facts.readings),
}
"""What more must hold for a fact to stand in a field."""


def left_in_words(line: Understanding) -> str:
    """Give what no fact took, as it was typed: `nozzle 240C, predrilled 3mm`."""
    if line.verdict is Verdict.KEPT or line.kind in AS_TYPED:
        return ""
    taken = [
        *([line.told_by] if line.told_by else []),
        *(
            span
            for fact, spans in line.words.items()
            if kept(line, fact)
            for span in spans
        ),
    ]
    left = [one for one in line.content if not _overlaps(one, taken)]
    runs = [line.line[one.start : one.end] for one in _runs(line.line, left, taken)]
    return _short(runs)


_OF_A_PART = (Kind.READING, Kind.STEP, Kind.FAILURE)


def unmade_stock(line: Understanding, left: str) -> str:
    """Give the board or plate left in words where a part is wanted and none is told."""
    if line.facts.part or recorded_as(line) not in _OF_A_PART:
        return ""
    said = left.lower()
    return said if said in lexicon().names["of_stock"] else ""


def _overlaps(one: Span, others: Sequence[Span]) -> bool:
    return any(one.start < other.end and other.start < one.end for other in others)


def _runs(line: str, left: Sequence[Span], taken: Sequence[Span]) -> Iterator[Span]:
    """Join words with only function words between them, within their clause."""
    held: Span | None = None
    for one in left:
        if held is not None:
            between = Span(held.end, one.start)
            stops = any(mark in line[held.end : one.start] for mark in (", ", ";"))
            if not stops and not _overlaps(between, taken):
                held = Span(held.start, one.end)
                continue
            yield held
        held = one
    if held is not None:
        yield held


def _short(runs: Sequence[str]) -> str:
    said = ""
    for run in runs:
        longer = f"{said}, {run}" if said else run
        if said and len(longer) > _WORTH_SAYING:
            return f"{said} …"
        said = longer
    return said
