"""One reading of a line: kind, facts and doubts, with the names it seems to use."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.named.flaws_left import LEAVES
from logbook.plain.named.new_parts import find_new_part, find_next_layer
from logbook.plain.named.unnamed import Unnamed
from logbook.plain.sure.asides import bare
from logbook.plain.sure.coverage import content_of
from logbook.plain.sure.doubts import doubts_of, together
from logbook.plain.sure.of_parts import new_by_the_way
from logbook.plain.sure.unread import Unread
from logbook.plain.told.telling import told_as, told_in
from logbook.plain.understanding import Doubt, Facts, Kind, Span, Understanding
from logbook.plain.when.clock_spans import find_clock_span
from logbook.plain.when.moments import Moment, find_due, find_moment
from logbook.plain.words.cutting import wrong_number
from logbook.plain.words.figures import Sort
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import Sentence, read_sentence
from logbook.plain.words.vocabulary import Vocabulary


def read_with_names(sentence: Sentence, meant: Kind | None = None) -> Understanding:
    """Read a line with the names it seems to use, known or not."""
    understood = read_once(sentence, meant=meant)
    sentence = bare(sentence)
    unnamed = find_new_part(sentence)
    layer = find_next_layer(sentence)
    if unnamed is None and not layer:
        return understood
    return _with_new_part(sentence, understood, unnamed, meant)


def _with_new_part(
    sentence: Sentence,
    plain: Understanding,
    unnamed: Unnamed | None,
    meant: Kind | None,
) -> Understanding:
    """Read the line with the name it seems to use; doubt it where it is not sure."""
    line, words = sentence.text, sentence.vocabulary
    if unnamed is not None:
        words = words.with_part(unnamed.words, unnamed.part, unnamed.role)
    again = read_sentence(line, words)
    while layer := find_next_layer(again):
        words = words.with_part(layer)
        again = read_sentence(line, words)
    wider = read_once(again, sentence.vocabulary, meant)
    if wider.kind in (Kind.NOTE, Kind.QUESTION) or _praises(wider) or _drops(wider):
        return plain
    if wider.kind is Kind.ORDER is plain.kind and any(
        new_by_the_way(Unread(sentence, wider))
    ):
        return plain  # What is bought need be no part: its name is kept in words.
    if unnamed is None or unnamed.doubt is None:
        return wider
    return _asked_part(plain, wider, unnamed)


def _praises(line: Understanding) -> bool:
    """Tell whether a name is new by a remark only: paraffin is good enough."""
    kept = line.kind is Kind.DECISION and line.facts.disposition == "use as is"
    thing = line.facts.part in lexicon().names["things"]
    told = line.line[line.told_by.start : line.told_by.end] if line.told_by else ""
    left = told.lower() in LEAVES  # Leave the seam on the knob.
    return kept and line.facts.part_is_new and not (thing or left)


_DROPS = frozenset(
    {"drop", "dropping", "dropped", "skip", "skipping", "skipped", "cancel",
     "cancelled", "omit", "omitting", "scrap", "forget", "lose", "losing", "no"}
)  # fmt: skip


def _drops(line: Understanding) -> bool:
    """Tell whether a choice is of what is not made: dropping the second roller."""
    told = line.line[line.told_by.start :].lower().split() if line.told_by else []
    chosen = line.kind is Kind.DECISION and line.facts.part_is_new
    return chosen and bool(told) and (told[0] in _DROPS or told[:2] == ["leave", "out"])


_ABOUT_A_PART = (Kind.READING, Kind.FAILURE, Kind.DISPOSITION, Kind.REVISION, Kind.FIT)


def _asked_part(
    plain: Understanding, wider: Understanding, unnamed: Unnamed
) -> Understanding:
    """Ask which part is meant, where the kind of fact needs one or one is named."""
    if plain.kind is Kind.STOCK:
        return plain  # Steel plate as measured: stock is no part.
    asked = wider.kind in _ABOUT_A_PART or plain.facts.part or unnamed.placed
    asked = asked or plain.facts.closes or _told_first(plain, unnamed)
    if not asked or wider.kind is Kind.ORDER:
        return plain
    assert unnamed.doubt is not None
    rest = tuple(one for one in wider.doubts if one.about != "part")
    return replace(wider, doubts=(unnamed.doubt, *rest))


def _told_first(line: Understanding, unnamed: Unnamed) -> bool:
    """See the belt of “belt on and tensioned”, which the line begins with."""
    listed = lexicon().names["may_be_parts"]
    may_be = bool(listed.intersection(unnamed.words[-1:]))
    return may_be and line.line.lower().startswith(" ".join(unnamed.words))


def _is_due(moment: Moment, choice: Choice) -> bool:
    """Tell whether a moment to come is when something is due: ordered, in 10 days."""
    ahead = choice.kind is Kind.DECISION and moment.words[0].low == "in"
    return ahead or choice.kind is Kind.ORDER


def _told_later(sentence: Sentence, moment: Moment, choice: Choice) -> bool:
    """Tell whether what lies ahead is told in a clause behind that of work done."""
    done = sentence.tags(choice.at) & {"make:past", "close:past"}
    plain = not sentence.tags(choice.at) & {"make:base", "close:base"}
    if choice.kind is not Kind.STEP or choice.at < 0 or not (done and plain):
        return False
    start, end = sentence.words[choice.at].start, moment.words[0].start
    between = [one for one in sentence.words if start < one.start < end]
    stops = [at for at, one in enumerate(between) if one.low in (",", ";")]
    return bool(stops) and stops[-1] < len(between) - 1


def read_once(
    sentence: Sentence, known: Vocabulary | None = None, meant: Kind | None = None
) -> Understanding:
    """Read a line with known names only, as of a kind where that was said."""
    whole = sentence
    due = find_due(sentence)
    span = find_clock_span(sentence)
    moment = find_moment(sentence)
    sentence = bare(sentence)
    sentence, choice, facts = told_as(sentence, meant) if meant else told_in(sentence)
    known = known or sentence.vocabulary
    facts["part_is_new"] = bool(facts.get("part")) and facts["part"] not in known.parts
    if due is not None and choice.kind in (Kind.ORDER, Kind.DECISION):
        facts["due"] = due[0]
        sentence.note("due", *due[1])
    if moment is not None and moment.future and _is_due(moment, choice):
        if due is None:  # In 10 days: when it comes, not when it went.
            facts["due"] = moment.at.date()
            sentence.note("due", *moment.words)
        moment = None
    if moment is not None and moment.future and _told_later(sentence, moment, choice):
        moment = None  # Glued the box shut, clamps off tomorrow.
    if moment is not None and moment.future and choice.kind is Kind.NOTE:
        moment = None  # What is still to be done is noted now.
    if span is not None and not facts.get("minutes"):
        facts["minutes"] = span[0]
        sentence.note("minutes", *span[1])
    facts["changed"] = bool(sentence.spans.get("changed"))
    doubts = [*doubts_of(sentence, choice, moment, facts)]
    if moment is not None:
        facts["when"], facts["hour_said"] = moment.at, moment.exact
        sentence.note("when", *moment.words)
        facts["when_text"] = together(moment.words)
    return replace(_result(sentence, choice, facts, doubts), content=content_of(whole))


def _result(
    sentence: Sentence, choice: Choice, facts: dict[str, Any], doubts: list[Doubt]
) -> Understanding:
    spans = {
        fact: tuple(
            Span(word.start, word.end)
            for word in sorted(words, key=lambda word: word.start)
        )
        for fact, words in sentence.spans.items()
        if words and facts.get(fact)
    }
    told = sentence.words[choice.at] if choice.at >= 0 else None
    if told is not None and told.sort is not Sort.WORD:
        told = None
    return Understanding(
        sentence.text,
        choice.kind,
        choice.confidence,
        Facts(**facts),
        spans,
        tuple(doubts),
        _remark(sentence, choice),
        told_by=Span(told.start, told.end) if told else None,
    )


def _remark(sentence: Sentence, choice: Choice) -> str:
    """Say why what looks like a size is only a note."""
    about = sentence.has("measures") or sentence.named("part")
    if choice.kind is not Kind.NOTE or not about:
        return ""
    wrong = wrong_number(sentence.text)
    return f"“{wrong}” is no number" if wrong else ""
