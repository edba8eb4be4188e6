"""Which kind of bench fact a line tells, by the word that gives it away.

The first rule that fits decides; each says how sure it is and at which word.
Where two kinds are equally likely the rule raises a doubt instead.
"""

from __future__ import annotations

from collections.abc import Callable

from logbook.plain.kinds.amounts import amount_told
from logbook.plain.kinds.blame import attributed
from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.chosen_plainly import chosen_plainly
from logbook.plain.kinds.decisions import decided
from logbook.plain.kinds.dispositions import disposed, repairs
from logbook.plain.kinds.drawn import drawn
from logbook.plain.kinds.goes_in import goes_in
from logbook.plain.kinds.grounded import grounded
from logbook.plain.kinds.how_to import told_how_to
from logbook.plain.kinds.joints import counted, joint_made
from logbook.plain.kinds.left_be import left_be, may_stay
from logbook.plain.kinds.lies_inside import lies_inside
from logbook.plain.kinds.mishaps import failed
from logbook.plain.kinds.of_releases import for_a_release_at
from logbook.plain.kinds.orders import ordered, to_be_fetched
from logbook.plain.kinds.papers import of_papers
from logbook.plain.kinds.revisions import revised
from logbook.plain.kinds.sizes import (
    fit_felt,
    reading,
    said_absent,
    stock_measured,
    weighed,
)
from logbook.plain.kinds.substitutions import substituted
from logbook.plain.kinds.verbs import first_past, refused
from logbook.plain.kinds.work import step_done
from logbook.plain.named.given_back import given_back
from logbook.plain.named.more_of_them import more_wanted_at
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.machine_set import begins_with_settings, runs_hot
from logbook.plain.words.sentence import Sentence, parts_named


def choose(sentence: Sentence, values: Values) -> Choice:
    """Choose the kind of a line."""
    for rule in _RULES:
        choice = rule(sentence, values)
        if choice is not None:
            return grounded(sentence, choice)
    return Choice(Kind.NOTE, 0.3)


def _question(sentence: Sentence, _: Values) -> Choice | None:
    if not sentence.words:
        return None
    last = sentence.words[-1]
    if last.low == "?":
        return Choice(Kind.QUESTION, 0.95)
    if sentence.text[sentence.words[0].start :].lower().startswith(_UNSURE):
        return Choice(Kind.QUESTION, 0.9, 0)
    first, second = sentence.tags(0), sentence.tags(1)
    asked = sentence.word(1)
    if "question" in first and asked is not None and asked.low == "you":
        return Choice(Kind.QUESTION, 0.85)
    if "question_always" in first and not _tells_a_size(sentence):
        return Choice(Kind.QUESTION, 0.85)
    named = sentence.word(1)
    subject = "article" in second or (named is not None and named.name is not None)
    number = named is not None and named.sort in FIGURES and "have" not in first
    if sentence.words[0].low == "did" and "article" in second:
        return None  # Did the edges with a file: done, where no sign asks.
    if _let_make(sentence):
        return None
    if "question" in first and (subject or number) and "drawing" not in second:
        return Choice(Kind.QUESTION, 0.85)
    return None


def _tells_a_size(sentence: Sentence) -> bool:
    """See “where I sanded it, the diffuser is only 3.9 thick”, which asks nothing."""
    rows = [*clauses(sentence)]
    start = rows[-1][0] if len(rows) > 1 else len(sentence.words)
    told = any("is" in sentence.tags(at) for at in range(start, len(sentence.words)))
    exact = any(sentence.words[at].has_decimals for at in sentence.sorts(*FIGURES))
    return told and exact


def _let_make(sentence: Sentence) -> bool:
    """See “have the laser shop make 8 masks”, which asks nothing."""
    if not sentence.words or sentence.words[0].low not in ("have", "get", "let"):
        return False
    for at in sentence.tagged("make:base"):
        plain = not sentence.tags(at) & {"make:past"}
        if plain and at > 1 and sentence.tags(at - 1) & {"outside_work", "others_did"}:
            return True
    return False


_UNSURE = ("not sure ", "i am not sure ", "i'm not sure ", "im not sure ", "unsure ",
           "no idea ", "i wonder ", "wondering ", "don't know ",
           "dont know ")  # fmt: skip


_BETTER = frozenset(
    {"better", "easier", "nicer", "worse", "cleaner", "best", "easiest"}
)


def _how_it_goes(sentence: Sentence, _: Values) -> Choice | None:
    """See how things go in general: spiral taps clear the chips better in alu."""
    better = [at for at, word in enumerate(sentence.words) if word.low in _BETTER]
    past = any(tag.endswith(":past") for word in sentence.words for tag in word.tags)
    named = any(word.name is not None for word in sentence.words)
    if (
        not better
        or past
        or named
        or sentence.sorts(*FIGURES)
        or sentence.has("decide")
    ):
        return None
    return Choice(Kind.NOTE, 0.85, better[0])


def _more_of_them(sentence: Sentence, _: Values) -> Choice | None:
    """See that more of a thing are to be made: print 2 spare gates."""
    at = more_wanted_at(sentence)
    return None if at is None else Choice(Kind.DECISION, 0.88, at)


def _chosen_plainly(sentence: Sentence, _: Values) -> Choice | None:
    """See how a part is to be made, in no word of deciding: shelves get a lipping."""
    at = chosen_plainly(sentence)
    return None if at is None else Choice(Kind.DECISION, 0.85, at)


def _mended(sentence: Sentence, _: Values) -> Choice | None:
    """See “fixed the chipped holder with filler”: its chip was told by the way."""
    fixed = sentence.words[0].low == "fixed" and repairs(sentence)
    return Choice(Kind.DISPOSITION, 0.88, 0) if fixed else None


def _given_back(sentence: Sentence, _: Values) -> Choice | None:
    """See what goes back to who sold or made it, whatever is wrong with it.

    Where a part failed and was sent back, that is a failure and what is done.
    """
    given = given_back(sentence)
    if given is None or (not given.what and parts_named(sentence)):
        return None
    return Choice(Kind.DISPOSITION, 0.88, given.at)


_LEFT_OUT = frozenset({"leave it out", "leave them out", "leaving it out"})


def _intention(sentence: Sentence, _: Values) -> Choice | None:
    """See what is still to be done, wished or warned of: a note."""
    left_out = any(word.low in _LEFT_OUT for word in sentence.words)
    chosen = left_out or may_stay(sentence) or for_a_release_at(sentence) is not None
    found = [] if chosen or refused(sentence) else sentence.tagged("todo")
    wishes = (at for at in found if not _told_before(sentence, at))
    for at in wishes:
        word = sentence.words[at]
        if "wanted" in word.tags and at > 0:
            continue
        if "structure" in word.tags and not _headed(sentence, at):
            continue
        if "hypothetical" in word.tags and at > 0 and not _modal(sentence, at):
            continue
        if at == 0 or "needs" in word.low or "need" in word.low or _modal(sentence, at):
            if word.low.startswith("need") and first_past(sentence) == 0:
                continue
            if "guess" in word.tags and sentence.has("fail", "defect"):
                continue
            return Choice(Kind.NOTE, 0.9, at)
    return None


def _of_a_machine(sentence: Sentence, _: Values) -> Choice | None:
    """See how a machine ran, which is no size: nozzle at 245, feed 600."""
    ran = runs_hot(sentence) or begins_with_settings(sentence)
    return Choice(Kind.NOTE, 0.9, 0) if ran else None


def _told_before(sentence: Sentence, at: int) -> bool:
    """See a size of a part told in an earlier clause: lamp 58 C, I could touch it.

    No need for it is no wish either.
    """
    if at > 0 and sentence.words[at - 1].low == "no":
        return True
    rows = list(clauses(sentence))
    if not rows or rows[0][1] > at:
        return False
    first = sentence.words[slice(*rows[0])]
    if any(word.tags & {"attribution_drawing"} for word in first):
        return True
    named = any(word.name is not None or "measures" in word.tags for word in first)
    wish = any("todo" in word.tags for word in first)
    return named and not wish and any(word.sort in FIGURES for word in first)


def _headed(sentence: Sentence, at: int) -> bool:
    """Tell “tip: use wax” from “tip rack cover”."""
    following = sentence.word(at + 1)
    return following is not None and following.low in (":", "-", ",")


def _modal(sentence: Sentence, at: int) -> bool:
    word = sentence.words[at]
    past = first_past(sentence)
    early = at <= 2 or ((past is None or past > at) and not sentence.has("fail:past"))
    return early and word.low.split(" ")[0] in _MODALS


_MODALS = frozenset({"might", "could", "may", "should", "must", "can", "would"})


_RULES: tuple[Callable[[Sentence, Values], Choice | None], ...] = (
    _question,
    _more_of_them,
    _intention,
    to_be_fetched,
    _how_it_goes,
    told_how_to,
    of_papers,
    said_absent,
    weighed,
    goes_in,
    revised,
    left_be,
    _given_back,
    _mended,
    _chosen_plainly,
    failed,
    attributed,
    substituted,
    decided,
    disposed,
    ordered,
    joint_made,
    amount_told,
    counted,
    stock_measured,
    lies_inside,
    step_done,
    _of_a_machine,
    drawn,
    fit_felt,
    reading,
)
