"""A plain line typed at the bench, understood: `understand` is the way in.

Rules only: figures, units, the project's own words and word lists. Where the
kind is doubtful the line is asked about or kept as a note, never guessed.
"""

from __future__ import annotations

import unicodedata
from dataclasses import replace

from logbook.plain.named.named_steps import begins_with_step, of_named_step
from logbook.plain.named.told_alone import part_told_alone
from logbook.plain.one_reading import read_once, read_with_names
from logbook.plain.sure.asides import bare
from logbook.plain.sure.certainty import made_sure
from logbook.plain.sure.held_to_values import held_to_its_values
from logbook.plain.sure.likely import weights
from logbook.plain.sure.second_opinion import believed, of_no_part, weighed
from logbook.plain.told.beside_size import Read, read_apart
from logbook.plain.understanding import Facts, Kind, Span, Understanding
from logbook.plain.when.dated import day_apart, may_be_day, on_day_said
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import read_sentence
from logbook.plain.words.spoken import spoken
from logbook.plain.words.spread import spread
from logbook.plain.words.vocabulary import Vocabulary

LONGEST_LINE = 400
"""A longer line is prose and kept as a note."""

MOST_WORDS = 80
"""A line of more words is prose too."""


def prepare() -> None:
    """Read the word lists and the learned table now, where no key waits for them."""
    lexicon()
    weights()


def understand(line: str, vocabulary: Vocabulary) -> Understanding:
    """Understand one line; never raises, whatever the text is.

    Where it tells no day it is of the one the vocabulary says, if any.
    """
    return on_day_said(_understood(line, vocabulary), vocabulary)


def _understood(line: str, vocabulary: Vocabulary) -> Understanding:
    if len(line) > LONGEST_LINE or not _ordinary(line):
        return Understanding(line, Kind.NOTE, 0.3)
    single = " ".join(line.split())
    if single != line:  # Two blanks say no more than one.
        return spread(understand(single, vocabulary), line)

    def read(words: str) -> Understanding:
        return understand(words, vocabulary)

    if dated := day_apart(line, vocabulary):
        return dated.told(read)
    return may_be_day(line, vocabulary, read) or _read(line, vocabulary, read)


def _read(line: str, vocabulary: Vocabulary, read_rest: Read) -> Understanding:
    """Read one line that tells no day by itself."""
    alone = _step_alone(line, vocabulary) or part_told_alone(line, vocabulary)
    if alone is not None:
        return alone
    apart = read_apart(line, read_rest)
    if apart is not None:
        return apart
    sentence = read_sentence(line, vocabulary)
    if not sentence.words or len(sentence.words) > MOST_WORDS:
        return Understanding(line, Kind.NOTE, 0.3)
    read = made_sure(bare(sentence), believed(sentence, read_with_names(sentence)))

    def read_as(kind: Kind | None) -> Understanding:
        if kind is None:
            plain = read_once(read_sentence(line, vocabulary))
            plain = plain if plain.kind is read.kind else read
            return made_sure(bare(sentence), of_no_part(plain))
        return made_sure(bare(sentence), understand_as(line, kind, vocabulary))

    if sized := begins_with_step(line, vocabulary.steps):
        plain = understand(line, replace(vocabulary, steps=()))
        if plain.kind is Kind.STEP:
            return replace(plain, facts=replace(plain.facts, step=sized))
    of_step = of_named_step(read, vocabulary.steps, vocabulary.numbered)
    told = of_step if of_step is not read else weighed(sentence, read, read_as)
    return held_to_its_values(bare(sentence), told)


def _step_alone(line: str, vocabulary: Vocabulary) -> Understanding | None:
    """Give the step whose title is the whole line, done; None where there is none."""
    named = [step for step in vocabulary.steps if spoken(step) == spoken(line)]
    if not named or line.rstrip().endswith("?"):
        return None
    words = {"step": (Span(0, len(line)),)}
    return Understanding(line, Kind.STEP, 0.95, Facts(step=named[0]), words)


def understand_as(line: str, kind: Kind, vocabulary: Vocabulary) -> Understanding:
    """Understand one line as of a kind that was said; what is doubtful stays so."""
    return on_day_said(_understood_as(line, kind, vocabulary), vocabulary)


def _understood_as(line: str, kind: Kind, vocabulary: Vocabulary) -> Understanding:
    words = " ".join(line.split())

    def read(rest: str) -> Understanding:
        return understand_as(rest, kind, vocabulary)

    if dated := day_apart(words, vocabulary):
        told = dated.told(read)
        return told if words == line else spread(told, line)
    apart = read_apart(words, read)
    if apart is not None:
        return apart if words == line else spread(apart, line)
    understood = read_with_names(read_sentence(words, vocabulary), kind)
    return understood if words == line else spread(understood, line)


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
