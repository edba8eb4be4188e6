"""The diary of the builder notes: no word twice, no word that only meant that day."""

from __future__ import annotations

import re

import pytest

from logbook.records.states.undated import of_no_day, undated
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


@pytest.mark.parametrize(
    ("typed", "printed"),
    [
        (
            "yesterday 16:00 put the lamp in, it lights",
            "16:00 put the lamp in, it lights",
        ),
        ("put the lamp in yesterday at 16:00, lit", "put the lamp in at 16:00, lit"),
        (
            "yesterday from 19:30 to 21:00 sat sanding",
            "from 19:30 to 21:00 sat sanding",
        ),
        (
            "sanded it last night at half past eight, took 1 h",
            "sanded it at half past eight, took 1 h",
        ),
        ("sawed the bar at 179.1 half an hour ago", "sawed the bar at 179.1"),
        ("this morning: cut the mask", "cut the mask"),
        ("glued it an hour and a half ago, PVA", "glued it, PVA"),
        ("the gate cracked today", "the gate cracked"),
        ("what sells today is 1/4 in plate", "what sells today is 1/4 in plate"),
        (
            "the glue from yesterday did not hold",
            "the glue from yesterday did not hold",
        ),
        ("folded the base 2 h ago", "folded the base"),
        ("this morning sawed the bar", "this morning sawed the bar"),
        ("put the lamp in, it lights now", "put the lamp in, it lights now"),
        ("sawed the bar at 178.45", "sawed the bar at 178.45"),
        ("folded on 2026-03-04", "folded on 2026-03-04"),
    ],
)
def test_words_that_count_days_back_are_left_out_and_no_others(
    typed: str, printed: str
) -> None:
    assert undated(typed) == printed


@pytest.mark.parametrize(
    ("typed", "headed"),
    [
        ("8 Nov 14:00 mask tore while I cut it", "mask tore while I cut it"),
        ("2026-11-03T18:40 the glue split", "the glue split"),
        ("2026-11-03 18:40: the glue split", "the glue split"),
        ("Nov 8, 2026, 14:00, mask tore", "mask tore"),
        ("on monday the base cracked", "the base cracked"),
        ("8.11.2026 at 9:05 mask length 118.9", "mask length 118.9"),
        ("yesterday 16:00 mask tore", "mask tore"),
        ("mask tore on 8 Nov 14:00", "mask tore"),
        ("mask tore, 8 November 2026", "mask tore"),
        ("9:15 to 9:35 the bit wandered", "9:15 to 9:35 the bit wandered"),
        ("8 Nov 9:15 - 9:35 bit wandered", "8 Nov 9:15 - 9:35 bit wandered"),
        ("8 may be too small for the bar", "8 may be too small for the bar"),
        ("3:20 print time is not enough", "3:20 print time is not enough"),
        ("the mask of 8 Nov tore", "the mask of 8 Nov tore"),
        ("slips since 8 Nov", "slips since 8 Nov"),
        ("8 Nov tore", "8 Nov tore"),
    ],
)
def test_a_heading_has_no_day_and_no_hour_it_was_typed_with(
    typed: str, headed: str
) -> None:
    assert of_no_day(typed) == headed


def test_a_published_fault_is_headed_by_what_happened(drawn: Stand) -> None:
    drawn.run("build", "build 1", "--when", "2025-03-01T08:00")
    said = "2025-03-02 14:00 base cracked at the fold, because the sheet is brittle"
    assert drawn.run("say", said, "--yes")[0] == 0
    told = drawn.run("notes", "--print")[1]
    heads = re.findall(r"(?i)^#.*base cracked.*$", told, re.MULTILINE)
    assert [one.lstrip("# ") for one in heads] == ["Base cracked at the fold"]


def test_under_its_day_a_line_drops_the_day_and_hour_it_was_typed_with(
    drawn: Stand,
) -> None:
    drawn.run("build", "build 1", "--when", "2025-03-01T08:00")
    assert drawn.run("say", "2025-03-02T14:00 folded the base", "--yes")[0] == 0
    told = drawn.run("notes", "--print")[1]
    assert "### 2025-03-02, build 1\n" in told
    assert "- Done: folded the base.\n" in told


def test_nothing_is_said_twice_in_a_line(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("say", "folded the base, 40 min", "--yes")
    drawn.run("note", "note: sanded the bed")
    why = "the opening moves every time"
    said = f"decided to make the bar last, because {why}"
    drawn.run("decision", said, "--because", why)
    text = drawn.run("notes", "--print")[1]
    assert "- Done: folded the base, 40 min.\n" in text
    assert "- Note: sanded the bed.\n" in text
    assert f"- Decided: to make the bar last, because {why}.\n" in text
    assert "Why:" not in text


def test_what_was_ordered_is_told_with_all_that_was_said_of_it(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    for line in (
        "ordered 10 bearings 688 ZZ, 14.50 euro, 2 were rough",
        "ordered 2 lamps",
        "bought 20 M3x6 pan head, they only had stainless",
        "bought 1 kg PETG black, 24.90 euro from the shop in town",
    ):
        assert drawn.run("say", line, "--yes")[0] == 0
    text = drawn.run("notes", "--print")[1]
    assert "- Ordered: 10 × bearings 688 ZZ; 14.50 euro, 2 were rough.\n" in text
    assert "- Ordered: 2 × lamp.\n" in text
    assert "- Bought: 20 × M3x6 pan head; they only had stainless.\n" in text
    assert "- Bought: 1 kg PETG black; 24.90 euro from the shop in town.\n" in text


def test_a_part_is_named_before_a_fault_only_where_its_line_does_not(
    drawn: Stand,
) -> None:
    drawn.run("build", "build 1")
    drawn.run("part", "upper leg")
    drawn.run("part", "sole plate left")
    for line in ("leg: insert pulled out", "The legs stick", "strands hung loose"):
        drawn.run("failure", "upper leg", line, "--met-by", "drawing")
    cause = ("--cause", "It was cold.", "--guessed", "--met-by", "drawing")
    drawn.run("failure", "sole plate left", "the sole plate split", *cause)
    short = drawn.run("notes", "--print")[1].partition("## Before you start")[0]
    assert "- Leg: insert pulled out." in short
    assert "- The legs stick." in short
    assert "- Upper leg: Strands hung loose." in short
    assert "- The sole plate split. It was cold (guessed)." in short


def test_pieces_of_which_the_same_is_said_are_told_together(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    for _ in range(4):
        drawn.run("piece", "crossbar")
    drawn.run("dispose", "crossbar-4", "scrap", "--because", "it fell")
    text = drawn.run("notes", "--print")[1]
    assert (
        "- Pieces: crossbar-1 to crossbar-3, 3 pieces (first issue, made); crossbar-4 "
        "(first issue, scrapped: it fell).\n"
    ) in text


def test_what_was_only_said_to_be_drawn_is_told_from_what_is(drawn: Stand) -> None:
    drawn.run("part", "collar", "--dimension", "thickness=6.35")
    drawn.run("build", "build 1")
    drawn.run("say", "--yes", "the collar plate came 8 mm thick instead of 6")
    text = drawn.run("notes", "--print")[1]
    wanted = "aid to be 6 mm, drawn 6.35 mm (collar first issue), became 8 mm"
    assert wanted in " ".join(text.split())


def test_a_page_gives_the_day_instead_of_words_that_count_back(stand: Stand) -> None:
    stand.run("build", "build 2")
    stand.run("say", "sawed the crossbar at 179.1 half an hour ago", "--yes")
    blame = ("--met-by", "drawing", "--do", "scrap")
    stand.run("failure", "diffuser", "diffuser rattles since today", *blame)
    stand.run("failure", "crossbar", "crossbar too soft, seen 2 days ago", *blame)
    for page in (("guide", "1.1"), ("errata", "1.1"), ("notes",)):
        text = stand.run(*page, "--print")[1]
        assert " ago" not in text
    day = f"{stand.now:%Y-%m-%d}"
    notes = stand.run("notes", "--print")[1]
    under = notes.partition(f"### {day}, build 2")[2].partition("\n###")[0]
    assert "- Done: sawed the crossbar at 179.1" in under


def test_a_step_done_undone_and_done_again_is_told_three_times(stand: Stand) -> None:
    stand.run("build", "build 2")
    for more in ((), ("--undone",), ()):
        code, said = stand.run("step", "Fit the crossbar", "--done", *more)
        assert code == 0, said
    diary = stand.run("notes", "--print")[1].partition("## What happened")[2]
    told = [one for one in diary.splitlines() if one.endswith(": Fit the crossbar.")]
    assert told == [
        "- Done: Fit the crossbar.",
        "- Taken apart again: Fit the crossbar.",
        "- Done: Fit the crossbar.",
    ]


def test_a_fault_that_was_taken_back_is_not_one_that_others_meet(stand: Stand) -> None:
    stand.run("failure", "base", "base rocks on the desk", "--met-by", "drawing")
    line = "- Base rocks on the desk."
    assert line in stand.run("notes", "--print")[1]
    code, said = stand.run("erratum", "base rocks on the desk", "--status", "withdrawn")
    assert code == 0, said
    notes = stand.run("notes", "--print")[1]
    assert line not in notes
    story = notes.partition("#### Base rocks on the desk")[2].partition("####")[0]
    assert "- **Would you meet it?** No: taken back as a known fault." in story
