"""A plain line typed at the bench, understood: `understand` is the way in.

Rules only: figures, units, the project's own words and word lists. Where the
kind is doubtful the line is asked about or kept as a note, never guessed.
"""

from __future__ import annotations

import unicodedata
from dataclasses import replace
from typing import Any

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.choosing import choose
from logbook.plain.named.named_steps import of_named_step
from logbook.plain.named.new_parts import Unnamed, find_new_part, find_next_layer
from logbook.plain.sure.asides import bare
from logbook.plain.sure.certainty import made_sure
from logbook.plain.sure.coverage import content_of
from logbook.plain.sure.doubts import doubts_of, together
from logbook.plain.sure.second_opinion import believed, of_no_part, weighed
from logbook.plain.told.facts import gather
from logbook.plain.told.part import part_of
from logbook.plain.understanding import (
    SURE_ENOUGH,
    Doubt,
    Facts,
    Kind,
    Span,
    Understanding,
)
from logbook.plain.values.readings import find_values
from logbook.plain.when.clock_spans import find_clock_span
from logbook.plain.when.moments import find_due, find_moment
from logbook.plain.words.clauses import (
    find_cure,
    reworks,
    without,
    without_plan,
    without_reason,
    without_remark,
)
from logbook.plain.words.cutting import wrong_number
from logbook.plain.words.figures import Sort
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import Sentence, read_sentence
from logbook.plain.words.spread import spread
from logbook.plain.words.vocabulary import Vocabulary, spoken

LONGEST_LINE = 400
"""A longer line is prose and kept as a note."""

MOST_WORDS = 80
"""A line of more words is prose too."""


def understand(line: str, vocabulary: Vocabulary) -> Understanding:
    """Understand one line; never raises, whatever the text is."""
    if len(line) > LONGEST_LINE or not _ordinary(line):
        return Understanding(line, Kind.NOTE, 0.3)
    named = [step for step in vocabulary.steps if spoken(step) == spoken(line)]
    if named and not line.rstrip().endswith("?"):
        span = Span(0, len(line))
        return Understanding(
            line, Kind.STEP, 0.95, Facts(step=named[0]), {"step": (span,)}
        )
    single = " ".join(line.split())
    if single != line:  # Two blanks say no more than one.
        return spread(understand(single, vocabulary), line)
    sentence = read_sentence(line, vocabulary)
    if not sentence.words or len(sentence.words) > MOST_WORDS:
        return Understanding(line, Kind.NOTE, 0.3)
    read = made_sure(bare(sentence), believed(sentence, _named(sentence)))

    def read_as(kind: Kind | None) -> Understanding:
        if kind is None:
            plain = _read(read_sentence(line, vocabulary))
            plain = plain if plain.kind is read.kind else read
            return made_sure(bare(sentence), of_no_part(plain))
        return made_sure(bare(sentence), understand_as(line, kind, vocabulary))

    of_step = of_named_step(read, vocabulary.steps)
    return of_step if of_step is not read else weighed(sentence, read, read_as)


def understand_as(line: str, kind: Kind, vocabulary: Vocabulary) -> Understanding:
    """Understand one line as of a kind that was said; what is doubtful stays so."""
    words = " ".join(line.split())
    understood = _named(read_sentence(words, vocabulary), kind)
    return understood if words == line else spread(understood, line)


def _named(sentence: Sentence, meant: Kind | None = None) -> Understanding:
    """Read a line with the names it seems to use, known or not."""
    understood = _read(sentence, meant=meant)
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
        words = words.with_part(unnamed.words, unnamed.part)
    again = read_sentence(line, words)
    while layer := find_next_layer(again):
        words = words.with_part(layer)
        again = read_sentence(line, words)
    wider = _read(again, sentence.vocabulary, meant)
    if wider.kind in (Kind.NOTE, Kind.QUESTION) or _praises(wider) or _drops(wider):
        return plain
    if unnamed is None or unnamed.doubt is None:
        return wider
    return _asked_part(plain, wider, unnamed)


def _praises(line: Understanding) -> bool:
    """Tell whether a name is new by a remark only: paraffin is good enough."""
    kept = line.kind is Kind.DECISION and line.facts.disposition == "use as is"
    thing = line.facts.part in lexicon().names["things"]
    return kept and line.facts.part_is_new and not thing


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
    if not asked or wider.kind is Kind.ORDER:
        return plain
    assert unnamed.doubt is not None
    rest = tuple(one for one in wider.doubts if one.about != "part")
    return replace(wider, doubts=(unnamed.doubt, *rest))


def _read(
    sentence: Sentence, known: Vocabulary | None = None, meant: Kind | None = None
) -> Understanding:
    whole = sentence
    due = find_due(sentence)
    span = find_clock_span(sentence)
    moment = find_moment(sentence)
    sentence = bare(sentence)
    sentence, choice, facts = _told_as(sentence, meant) if meant else _told(sentence)
    known = known or sentence.vocabulary
    facts["part_is_new"] = bool(facts.get("part")) and facts["part"] not in known.parts
    if due is not None and choice.kind in (Kind.ORDER, Kind.DECISION):
        facts["due"] = due[0]
        sentence.note("due", *due[1])
    if moment is not None and moment.future and choice.kind is Kind.ORDER:
        moment = None  # When it comes back, not when it went.
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


def _told_as(sentence: Sentence, kind: Kind) -> tuple[Sentence, Choice, dict[str, Any]]:
    """Give the facts of a line whose kind was said."""
    values, choice = find_values(sentence), Choice(kind, 1.0)
    return sentence, choice, gather(sentence, values, choice)


def _told(sentence: Sentence) -> tuple[Sentence, Choice, dict[str, Any]]:
    """Give the kind of the line and its facts, its cure and remarks set apart."""
    cured = _cured(sentence)
    if cured is not None:
        return cured
    values = find_values(sentence)
    choice = choose(sentence, values)
    if choice.kind is Kind.FAILURE and (values.off or values.wanted):
        off = _size_with_reason(sentence)
        if off is not None:
            return off
    if choice.kind is Kind.STEP and (measured := _made_and_measured(sentence, choice)):
        return measured
    unsure = choice.kind is Kind.NOTE or choice.confidence < SURE_ENOUGH
    shorter = (without_remark(sentence) or without_plan(sentence)) if unsure else None
    if shorter is not None:
        fewer = find_values(shorter)
        plain = choose(shorter, fewer)
        if plain.kind is Kind.READING and plain.confidence >= SURE_ENOUGH:
            return shorter, plain, gather(shorter, fewer, plain)
    return sentence, choice, gather(sentence, values, choice)


_MEASURES = frozenset({"measures", "reads", "measured"})


def _made_and_measured(
    sentence: Sentence, made: Choice
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read what was measured of what was made: printed at 215 and it measures 74.4."""
    for at, word in enumerate(sentence.words[1:-1], 1):
        led = {one.low for one in sentence.words[max(0, at - 2) : at]}
        if word.low not in _MEASURES or not led & {"and", "and it", "it", "now"}:
            continue
        rest = replace(sentence, words=sentence.words[at:], spans={})
        values = find_values(rest)
        if not values.readings:
            return None
        choice = Choice(Kind.READING, 0.85, made.at)
        facts = gather(rest, values, replace(choice, at=0)) | part_of(sentence)
        told = {one: sentence.spans.get(one, []) for one in ("part", "piece")}
        whole = replace(sentence, spans=rest.spans | told)
        return whole, choice, facts
    return None


def _size_with_reason(
    sentence: Sentence,
) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read a size that is off, where only the last clause tells of a failure."""
    shorter = without_reason(sentence)
    if shorter is None:
        return None
    values = find_values(shorter)
    plain = choose(shorter, values)
    sure = plain.confidence >= SURE_ENOUGH and plain.doubt is None
    if plain.kind is not Kind.READING or not sure:
        return None
    return shorter, plain, gather(shorter, values, plain)


_NAMES_A_CURE = frozenset({"cure", "cure is", "cure was", "fix", "fix is", "fix was",
                           "remedy", "fixed by", "cured by", "solved by"})  # fmt: skip
"""What only says that a cure follows."""


def _cured(sentence: Sentence) -> tuple[Sentence, Choice, dict[str, Any]] | None:
    """Read a failure, or a size that is off, that is followed by its cure."""
    found = find_cure(sentence)
    if found is None:
        return None
    start, end = found
    rest = without(sentence, start, end)
    values = find_values(rest)
    choice = choose(rest, values)
    off = choice.kind is Kind.READING and (values.wanted or values.off)
    if choice.confidence < SURE_ENOUGH or choice.doubt is not None:
        return None
    if choice.kind is not Kind.FAILURE and not off:
        return None
    if choice.kind is Kind.FAILURE and choice.at >= start:
        return None  # What was done before it failed cured nothing.
    facts = gather(rest, values, choice)
    named = sentence.words[start].low in _NAMES_A_CURE and start + 1 < end
    start += 1 if named else 0
    words = sentence.words[start:end]
    facts["cure"] = sentence.text[words[0].start : words[-1].end]
    rest.spans["cure"] = list(words)
    done = reworks(sentence, start)
    if done and not facts.get("disposition"):
        facts["disposition"] = done
        rest.spans["disposition"] = [words[0]]
    if not facts.get("part"):
        facts.update(part_of(sentence))
        rest.spans["part"] = sentence.spans.get("part", [])
    return rest, choice, facts


def _ordinary(line: str) -> bool:
    """Tell whether the line holds only text of one line, without control signs."""
    if line.isascii():
        return line.isprintable() or not any(
            c != "\t" for c in line if c < " " or c == "\x7f"
        )
    return not any(
        unicodedata.category(sign) in ("Cc", "Cf", "Zl", "Zp", "Cs") and sign != "\t"
        for sign in line
    )


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
