"""Revisions of a part told in a line: rev A: 178.3."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.orders import gone_out
from logbook.plain.kinds.verbs import first_past
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.revised_to import revising_at
from logbook.plain.words.sentence import Sentence, parts_named


def revision_label(sentence: Sentence) -> int | None:
    """Give where a revision is named."""
    for at, word in enumerate(sentence.words):
        if word.sort is Sort.LABEL and "revision" in word.tags:
            return at
        code = word.low
        if word.sort is Sort.CODE and code[:1] in "vr" and code.lstrip("rev").isdigit():
            return at
        if "revision" in word.tags and " " in word.low:
            return at
    return None


def revised(sentence: Sentence, values: Values) -> Choice | None:
    """See a revision of a part told: crossbar rev A: 178.3."""
    at = revision_label(sentence)
    if not parts_named(sentence):
        return None
    told = _brought_to(sentence, values, at)
    if told is not None or at is None:
        return told
    if _withdrawn(sentence):
        return Choice(Kind.REVISION, 0.85, at)
    if sentence.has("untried") and not sentence.sorts(*FIGURES):
        return Choice(Kind.NOTE, 0.9, at)  # that follows from the pieces made
    headed = _headed(sentence, at, ":")
    if sentence.has("fail") and not headed:
        return None
    gone = sentence.has("order_done", "scrap") or gone_out(sentence) is not None
    if gone or first_past(sentence) == 0:
        return None  # Lid dxf v3 out to the cutter, 5 pcs, 71.00.
    labels = [word for word in sentence.words if word.sort is Sort.LABEL]
    if not headed and len([one for one in labels if "revision" in one.tags]) > 1:
        return Choice(Kind.NOTE, 0.9, at)
    if headed or _says_it_opens(sentence, at):
        return Choice(Kind.REVISION, 0.85, at)
    if _of_a_piece(sentence, at) and values.readings:
        return None  # Base 3 rev A: opening 180.2, which is measured on it.
    return Choice(Kind.REVISION, 0.5, at, _new_or_told(sentence, values, at))


def _brought_to(sentence: Sentence, values: Values, at: int | None) -> Choice | None:
    """See “revised the foot to B”; without its label, that is asked."""
    revising = revising_at(sentence.words)
    if revising is None or sentence.has("todo", "negation"):
        return None
    if at is not None:
        return Choice(Kind.REVISION, 0.85, at)
    if not values.readings:
        return None
    return Choice(Kind.REVISION, 0.5, revising, _revised_or_measured())


def _of_a_piece(sentence: Sentence, at: int) -> bool:
    """Tell whether a revision is named right behind a piece, which is of it."""
    before = sentence.words[at - 1].name if at else None
    return before is not None and before.role == "piece"


def _withdrawn(sentence: Sentence) -> bool:
    """See “rev A withdrawn because it sags”; not “rev A is not withdrawn”."""
    for at in sentence.tagged("withdrawn"):
        before = {tag for word in sentence.words[:at] for tag in word.tags}
        return not before & {"negation", "hypothetical", "because"}
    return False


def _says_it_opens(sentence: Sentence, at: int) -> bool:
    """See a revision opened in so many words: now rev B, rev B because, new rev.

    Its name alone opens nothing: “gate marked rev C” is an old one, or a stamp.
    """
    word, following = sentence.words[at], sentence.word(at + 1)
    if sentence.has("todo", "negation", "make:past", "close:past", "fit"):
        return False
    if " " in word.low and (word.sort is not Sort.LABEL or word.low[:4] == "new "):
        return True
    if following is not None and "because" in following.tags:
        return True
    listed = bool(sentence.sorts(*FIGURES)) and not sentence.has("is", "measure")
    if _headed(sentence, at, ",") and listed:
        return True
    led = [one for one in sentence.words[max(0, at - 2) : at] if one.name is None]
    return any("opens_revision" in one.tags for one in led)


def _new_or_told(sentence: Sentence, values: Values, at: int) -> Doubt:
    label = sentence.words[at].text
    measured = ("measured",) if values.readings else ()
    question = f"“{label}”: does this open it, or only tell of it?"
    return Doubt("kind", question, ("it is new", *measured, "only a note"))


def _revised_or_measured() -> Doubt:
    """Ask of “revised the foot, bore 13.05”, which says nothing of a label."""
    question = "does this open a new revision with that size, or was it measured?"
    return Doubt("kind", question, ("it is new", "measured", "only a note"))


def _headed(sentence: Sentence, at: int, sign: str) -> bool:
    """See a revision named first, with a stop: crossbar rev A: it binds."""
    end = sentence.words[at].end
    return at <= 2 and sentence.text[end:].lstrip().startswith(sign)
