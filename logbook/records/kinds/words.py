"""The closed word lists of records: each value is the word that stands in the file."""

from __future__ import annotations

from enum import StrEnum


class Blame(StrEnum):
    """Whose fact a deviation or failure is (would another builder meet it?)."""

    DRAWING = "the drawing"
    PIECE = "this piece"
    MACHINE = "my machine"
    UNKNOWN = "not known yet"


BLAME_TYPED = {
    Blame.DRAWING: ("1", "d", "drawing", "the drawing", "the drawing is wrong"),
    Blame.PIECE: ("2", "p", "piece", "this piece", "only this piece"),
    Blame.MACHINE: ("3", "m", "machine", "my machine", "my machine does this"),
    Blame.UNKNOWN: ("unknown", "not known", "not known yet"),
}
"""What may be typed for each where it is asked, its key first."""


class Disposition(StrEnum):
    """What is done with a nonconforming piece (AS9100 8.7 words)."""

    USE_AS_IS = "use as is"
    REWORK = "rework"
    REPAIR = "repair"
    SCRAP = "scrap"
    RETURN = "return"


class CauseStatus(StrEnum):
    """How sure a cause is: said as a fact, said to be a guess, or proven."""

    SAID = "said"
    GUESSED = "guessed"
    PROVEN = "proven"


class Source(StrEnum):
    """Where pieces of a part come from."""

    MADE = "made"
    BOUGHT = "bought"
    SERVICE = "made by a service"


class State(StrEnum):
    """What a status entry says of a piece; of a known fault that it was not met."""

    ORDERED = "ordered"
    SENT_OUT = "sent out"
    RECEIVED = "received"
    IN_WORK = "in work"
    MADE = "made"
    FITTED = "fitted"
    SPARE = "spare"
    REWORKED = "reworked"
    TAKEN_OUT = "taken out"
    SCRAPPED = "scrapped"
    LOST = "lost"
    WITHDRAWN = "withdrawn"
    CONFIRMED = "still good"
    NOT_MET = "not met"


class Grade(StrEnum):
    """How strongly a hold speaks, by the cost of being wrong."""

    WAIT = "wait"
    CHECK = "check"
    REMARK = "remark"


class OverrideReason(StrEnum):
    """Why a hold was passed."""

    FIT_BY_HAND = "will fit by hand"
    CHEAP = "cheap"
    CHECKED = "checked already"
    OTHER = "other"


class Severity(StrEnum):
    """How serious a known fault is, most serious first; not known goes before paper."""

    SAFETY = "safety"
    DAMAGE = "damage"
    FUNCTION = "function"
    FIT = "fit"
    UNKNOWN = "not known"
    DOCUMENT = "document"


class WayRound(StrEnum):
    """Whether an earlier release can be built in spite of a known fault."""

    AVAILABLE = "available"
    PARTIAL = "partial"
    NONE = "none"
    UNKNOWN = "not known"


class ErratumStatus(StrEnum):
    """How far a known fault has come."""

    REPORTED = "reported"
    CONFIRMED = "confirmed"
    WAY_ROUND = "way round published"
    FIXED = "fixed"
    VERIFIED = "verified"
    REJECTED = "rejected"
    WITHDRAWN = "withdrawn"


class Trim(StrEnum):
    """Which way a dimension can still be brought to size by hand."""

    SMALLER = "smaller"
    LARGER = "larger"
    NEITHER = "neither"
