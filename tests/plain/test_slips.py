"""Slips of one letter in words of the bench, and words that are none."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.plain.words.sentence import read_sentence
from tests.plain.judge import of_parts

WORDS = of_parts("stool", "apron", "hinge")


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("glud teh apron on", Kind.STEP),
        ("sannded adn oiled the stool", Kind.STEP),
        ("stool leg crakced wiht the frist screw", Kind.FAILURE),
        ("hinge 2 went inot the bin, worng hole", Kind.DISPOSITION),
        ("ordred 4 hinges, 12.00, here tomorow", Kind.ORDER),
        ("from now on the apron is polywod, not solid", Kind.DECISION),
        ("collectd 2 hinges at the shop", Kind.ORDER),
        ("the hinge brok aftr a week", Kind.FAILURE),
    ],
)
def test_a_line_with_slips_is_read_as_meant(says: str, kind: Kind) -> None:
    line = understand(says, WORDS)
    assert line.kind.broad is kind, line
    assert line.verdict is Verdict.TAKEN


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("drileld", "drilled"), ("becasue", "because"), ("betwen", "between"),
     ("alumniium", "aluminium"), ("throgh", "through"), ("wird", "wired"),
     ("screwd", "screwed"), ("tommorrow", "tomorrow"), ("washher", "washer")],
)  # fmt: skip
def test_one_letter_too_few_too_many_or_turned_is_put_right(
    typed: str, meant: str
) -> None:
    words = read_sentence(f"{typed} stool", WORDS).words
    assert words[0].low == meant


@pytest.mark.parametrize(
    "word",
    ["standing", "bring", "sells", "having", "saved", "shared", "sorted", "space",
     "sized", "thinned", "panes", "tapers", "trough", "strain", "tuned",
     "plaster", "field", "score", "savings"],
)  # fmt: skip
def test_an_english_word_near_one_of_the_bench_is_no_slip(word: str) -> None:
    words = read_sentence(f"{word} stool", WORDS).words
    assert (words[0].low, words[0].corrected) == (word, False)


@pytest.mark.parametrize(
    "says",
    [
        "who sells brass hinges",
        "sorted the screws by length",
        "having coffee, stool can wait",
        "saved the drawing under a new name",
        "bring the hinge home",
    ],
)
def test_what_only_looks_like_work_or_a_failure_is_not_taken_for_it(says: str) -> None:
    line = understand(says, WORDS)
    wrong = (Kind.FAILURE, Kind.DISPOSITION, Kind.ORDER)
    assert not (line.verdict is Verdict.TAKEN and line.kind in wrong)
