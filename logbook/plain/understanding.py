"""What one plain line was understood to say: its kind, its facts, and the doubts."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from enum import StrEnum
from typing import ClassVar

from logbook.quantity import Absent, Quantity
from logbook.records.kinds.record import Record


class Kind(StrEnum):
    """The kinds of bench fact a line can tell."""

    READING = "reading"
    STOCK = "stock"
    DRAWN = "drawn"
    FIT = "fit"
    FAILURE = "failure"
    DECISION = "decision"
    REVISION = "revision"
    SUBSTITUTION = "substitution"
    DISPOSITION = "disposition"
    STEP = "step"
    JOINT = "joint"
    ORDER = "order"
    COUNT = "count"
    QUESTION = "question"
    NOTE = "note"

    @property
    def broad(self) -> Kind:
        """The kind of entry that carries this fact where no finer record exists."""
        return _BROAD.get(self, self)


_BROAD = {
    Kind.STOCK: Kind.READING,
    Kind.DRAWN: Kind.NOTE,
    Kind.FIT: Kind.READING,
    Kind.REVISION: Kind.DECISION,
    Kind.SUBSTITUTION: Kind.DECISION,
    Kind.JOINT: Kind.STEP,
    Kind.COUNT: Kind.NOTE,
    Kind.QUESTION: Kind.NOTE,
}


CALLED: Mapping[Kind, str] = {
    Kind.READING: "something measured",
    Kind.FAILURE: "something failed",
    Kind.DECISION: "something decided",
    Kind.DISPOSITION: "what is done with a piece",
    Kind.STEP: "work done",
    Kind.ORDER: "something ordered",
}
"""What a kind is called where it is asked for."""


class Verdict(StrEnum):
    """What to do with the line: take it, ask first, or keep it as a note."""

    TAKEN = "taken"
    ASKED = "asked"
    KEPT = "kept as a note"


SURE_ENOUGH = 0.7
"""From this confidence on a line is taken; below it is asked about or kept."""

NO_PART = "no part"
"""The answer that a line is about no part."""


@dataclass(frozen=True, slots=True)
class Span:
    """Where in the line a fact was read, as character positions."""

    start: int
    end: int


@dataclass(frozen=True, slots=True)
class Reading:
    """One measured or set value; `what` and `place` may be empty.

    `state` is in which state it was read: cold, painted, with the lid on.
    `piece` is the number of the piece, where a line measures several of them. It is
    `confirmed` where it looked like a slip and was said to be so.
    """

    value: Quantity
    what: str = ""
    place: str = ""
    state: str = ""
    piece: int = 0
    confirmed: bool = False


@dataclass(frozen=True, slots=True)
class DrawnSize:
    """A dimension as drawn: its name, nominal and limits as one text."""

    what: str
    size: str


@dataclass(frozen=True, slots=True)
class Beside:
    """Work told in one line with a failure: rework before it, or made `ANEW` for it."""

    did: str
    said: str
    ANEW: ClassVar = "made anew"


@dataclass(frozen=True, slots=True)
class Bought:
    """One more thing that a line says was ordered: how many, of what, which part."""

    item: str
    quantity: int | None = None
    part: str = ""


@dataclass(frozen=True, slots=True)
class Doubt:
    """A question about the line with its plain answers.

    Where `needed`, the line is not taken before it is answered. `unit` is that of a
    number typed as the answer, where the one that was typed cannot be meant. A `faint`
    one is passed over where the words of the line speak strongly for its kind.
    """

    about: str
    question: str
    choices: tuple[str, ...] = ()
    needed: bool = True
    unit: str = ""
    faint: bool = False

    @property
    def spares(self) -> bool:
        """Tell whether the line stands unanswered too, its last answer being none."""
        return self.about in _SPARES


_SPARES = frozenset({"answers", "aside", "pieces", "it"})
"""Beside what a line tells: what it answers, its tail, how many, which part “it” is."""


@dataclass(frozen=True, slots=True)
class Cause:
    """Why it happened, and how sure that is: said, guessed or proven."""

    said: str
    status: str = "said"


@dataclass(frozen=True, slots=True, kw_only=True)
class Facts:
    """The facts of a line; what was not said is empty, False or None.

    `became` is what work brought the one reading to. `off` is how far a size is out and
    `off_sense` in which sense (“too wide”); `conditions` are values that held while
    measuring; `when` carries its offset and `when_text` says how exactly it was told;
    `hour_said` is False where its hour is only assumed. `fitted` is which of several
    fasteners was, as answered; `changed` tells that an amount was taken off, which
    stays in words; `answers` which open fault what is done with a piece was said to
    answer. `pieces` are the numbers of those a line tells of, where it names several;
    `so_many` how many it tells of by their count only, -1 of each there is.
    `quantity` is `counted_as` used or left over, `left` is left besides, `remaining` of
    a length. By `release` the build goes on. A note says what `became_of` its piece.
    """

    part: str = ""
    part_is_new: bool = False
    others: tuple[str, ...] = ()
    piece: str = ""
    pieces: tuple[int, ...] = ()
    so_many: int = 0
    build: str = ""
    machine: str = ""
    stock: str = ""
    step: str = ""
    place: str = ""
    where: str = ""
    what: str = ""
    readings: tuple[Reading, ...] = ()
    became: Quantity | None = None
    absent: Absent | None = None
    wanted: tuple[Quantity, ...] = ()
    drawn: tuple[DrawnSize, ...] = ()
    thickness: Quantity | None = None
    off: Quantity | None = None
    off_sense: str = ""
    conditions: tuple[Quantity, ...] = ()
    instrument: str = ""
    instrument_known: bool = False
    room: Quantity | None = None
    hours: Quantity | None = None
    minutes: Quantity | None = None
    cause: Cause | None = None
    cure: str = ""
    beside: Beside | None = None
    disposition: str = ""
    met_by_others: str = ""
    closes: bool = False
    inside: bool = False
    undone: bool = False
    item: str = ""
    quantity: int | None = None
    besides: tuple[Bought, ...] = ()
    listed: int | None = None
    counted: str = ""
    counted_as: str = ""
    left: int | None = None
    remaining: Quantity | None = None
    price: Quantity | None = None
    price_text: str = ""
    due: date | None = None
    material: str = ""
    fastener: str = ""
    fitted: str = ""
    layers: tuple[str, ...] = ()
    instead_of: str = ""
    revision: str = ""
    release: str = ""
    withdrawn: bool = False
    feels: str = ""
    when: datetime | None = None
    when_text: str = ""
    hour_said: bool = True
    changed: bool = False
    answers: str = ""
    became_of: str = ""


@dataclass(frozen=True, slots=True)
class Understanding:
    """One line as understood: `words` gives for each fact where it was read.

    `filled` is the line with answers put into it, where that was read instead, `typed`
    how it was typed before a value was put right, `rest` the line with blanks in place
    of its day. `remark` says why what looks like more is a note. `content` is where
    words stand that say something, `told_by` the one that told the kind. `amends` is a
    record, and as it is to be: the line tells no fact of its own.
    """

    line: str
    kind: Kind
    confidence: float
    facts: Facts = field(default_factory=Facts)
    words: Mapping[str, tuple[Span, ...]] = field(default_factory=dict)
    doubts: tuple[Doubt, ...] = ()
    remark: str = ""
    content: tuple[Span, ...] = ()
    told_by: Span | None = None
    filled: str = ""
    typed: str = ""
    rest: str = ""
    amends: tuple[Record, Record] | None = None

    @property
    def verdict(self) -> Verdict:
        """Whether the line may be taken, must be asked about, or is kept as a note."""
        if any(doubt.needed for doubt in self.doubts):
            return Verdict.ASKED
        if self.confidence >= SURE_ENOUGH:
            return Verdict.TAKEN
        return Verdict.KEPT

    @property
    def tells(self) -> str:
        """What the line tells, in one word: its kind, or that an entry was wrong."""
        return self.kind.value if self.amends is None else "correction"

    @property
    def question(self) -> Doubt | None:
        """The one thing to ask: what is needed first, else what would be worth it."""
        for doubt in self.doubts:
            if doubt.needed:
                return doubt
        return self.doubts[0] if self.doubts else None

    def said(self, fact: str) -> str:
        """Give the words of the line in which a fact was read."""
        spans = self.words.get(fact, ())
        return " … ".join(self.line[one.start : one.end] for one in spans)


def as_note(line: Understanding) -> Understanding:
    """Give the line to be kept as a note, with nothing left to ask."""
    ahead = any(one.about == "when" for one in line.doubts)  # Nobody was there yet.
    facts = replace(line.facts, when=None) if ahead else line.facts
    noted = replace(line, kind=Kind.NOTE, facts=facts, confidence=0.0)
    return replace(noted, doubts=(), amends=None)
