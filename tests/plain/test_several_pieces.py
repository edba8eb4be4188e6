"""What a line tells of several pieces goes on record of each, and of no other."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest

from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.shown import in_one_line
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.happenings import Disposal, Entry, Failure, Run
from logbook.records.kinds.ids import new_id
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import drafted, known, world

WORDS = Vocabulary(
    now=NOW,
    parts={"upper leg": (), "upright": (), "gate": (), "M4 screw": ()},
    characteristics={"upper leg": ("length",)},
)


def with_pieces(*says: str) -> Snapshot:
    """Give a project after these lines."""
    records = known(WORDS)
    for one in says:
        records = (*records, *drafted(understand(one, WORDS), world(records)))
    return world(records)


def of_pieces(line: Understanding, snapshot: Snapshot) -> list[str]:
    """Give the pieces that the entries of a line are of."""
    draft = draft_line(Draft(snapshot, NOW + timedelta(hours=1)), line)
    entries = [one for one in draft.new if isinstance(one, Entry)]
    named = [getattr(one, "piece", None) for one in entries]
    return [one.name for one in named if one]


def held(says: str, snapshot: Snapshot) -> Understanding:
    return held_to_records(understand(says, WORDS), snapshot)


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("both legs 402", Kind.READING),
        ("both upper legs came out 402 long", Kind.READING),
        ("scrapped both upper legs", Kind.DISPOSITION),
        ("both upper legs cracked", Kind.FAILURE),
        ("filed both upper legs to 401.5", Kind.STEP),
        ("upper legs 1 and 2 came out 402", Kind.READING),
        ("upper leg 1 and upper leg 2 cracked", Kind.FAILURE),
        ("two upper legs cracked", Kind.FAILURE),
        ("scrapped two of the three upper legs", Kind.DISPOSITION),
        ("2 of the upper legs cracked", Kind.FAILURE),
    ],
)
def test_what_is_told_of_both_is_kept_of_each(says: str, kind: Kind) -> None:
    snapshot = with_pieces("upper leg 1 length 400.2")
    line = held(says, snapshot)
    assert line.kind is kind
    assert {*of_pieces(line, snapshot)} == {"upper leg-1", "upper leg-2"}


def test_as_many_values_as_pieces_are_one_of_each() -> None:
    snapshot = world(known(WORDS))
    for says in (
        "both upper legs 402 and 403",
        "upper legs 1 and 2: 402, 403",
        "upper leg 1 402, upper leg 2 403",
        "upper legs 1, 2: 402, 403",
    ):
        draft = draft_line(Draft(snapshot, NOW), held(says, snapshot))
        runs = [one for one in draft.new if isinstance(one, Run)]
        assert [
            (run.piece and run.piece.name, [str(one.value) for one in run.readings])
            for run in runs
        ] == [("upper leg-1", ["402 mm"]), ("upper leg-2", ["403 mm"])]


def test_each_is_all_there_are_and_is_asked_where_that_is_one() -> None:
    two = with_pieces("upright 1 width 99.9", "upright 2 width 99.9")
    line = held("each upright 99.8", two)
    assert line.verdict is Verdict.TAKEN
    assert of_pieces(line, two) == ["upright-1", "upright-2"]
    none = world(known(WORDS))
    line = held("each upright 99.8", none)
    assert line.question is not None
    assert line.question.question == "each upright: how many were measured?"
    for said, count in (("4", 4), ("only one", 1), ("", 1)):
        told = answered(line, line.question, said, WORDS)
        assert told.verdict is Verdict.TAKEN
        assert len(of_pieces(told, none)) == count


def test_both_of_three_is_asked() -> None:
    three = with_pieces(*(f"upper leg {n} length 400.2" for n in (1, 2, 3)))
    line = held("both upper legs 402", three)
    assert line.question is not None
    assert line.question.choices == (
        "upper leg-2, upper leg-3",
        "upper leg-1, upper leg-3",
        "upper leg-1, upper leg-2",
        "only a note",
    )
    for said in ("1 and 3", "upper leg-1 and upper leg-3", "upper leg-1, upper leg-3"):
        told = answered(line, line.question, said, WORDS)
        assert of_pieces(told, three) == ["upper leg-1", "upper leg-3"]
    assert (
        in_one_line(told) == "measured · upper leg · upper leg 1, upper leg 3 · 402 mm"
    )


def test_scrapped_ones_are_not_among_both() -> None:
    gates = [f"gate {n} width 40.{n}" for n in (1, 2, 3)]
    snapshot = with_pieces(*gates, "scrapped gate 1")
    assert of_pieces(held("both gates sagged", snapshot), snapshot) == [
        "gate-2",
        "gate-3",
    ]


@pytest.mark.parametrize(
    "says",
    [
        "both ends of the upper leg 402",
        "not all gates sagged",
        "one of the gates sagged",
        "none of the gates sagged",
        "cut 6 uprights 320 long",
        "all screws of the gate snapped",
    ],
)
def test_what_is_no_count_of_pieces_is_none(says: str) -> None:
    assert understand(says, WORDS).facts.so_many == 0


def test_bought_things_are_not_told_apart() -> None:
    snapshot = world(known(replace(WORDS, parts={"gate": ()})))
    draft = draft_line(Draft(snapshot, NOW), held("both M4 screws snapped", snapshot))
    assert len([one for one in draft.new if isinstance(one, Failure)]) == 1
    assert not [one for one in draft.new if isinstance(one, Disposal)]


def test_values_of_several_pieces_are_never_all_of_the_first() -> None:
    line = understand("gate 1 40.1 left, gate 2 40.3 left", WORDS)
    assert line.verdict is Verdict.ASKED


@pytest.mark.parametrize("says", ["one gate sagged", "scrapped one gate"])
def test_one_of_them_is_not_the_first_of_them(says: str) -> None:
    assert understand(says, WORDS).facts.piece == ""


@pytest.mark.parametrize("says", ["gates 1-3 sagged", "gates 1 to 3 sagged"])
def test_pieces_from_one_to_another_are_each_of_them(says: str) -> None:
    assert understand(says, WORDS).facts.pieces == (1, 2, 3)


def with_a_list_of(part: str, quantity: int, *says: str) -> Snapshot:
    """Give a project whose unit needs so many of a part, after these lines."""
    records = known(WORDS)
    for one in says:
        records = (*records, *drafted(understand(one, WORDS), world(records)))
    draft = Draft(world(records), NOW)
    line = Line(
        id=new_id(),
        title=part,
        part=draft.part(part).ref,
        quantity=quantity,
        when=NOW,
    )
    return world((*records, line))


def made_in_turn(*says: str) -> Snapshot:
    """Give a project in which these lines were typed an hour after each other."""
    records = known(WORDS)
    for hour, one in enumerate(says):
        draft = Draft(world(records), NOW + timedelta(hours=hour))
        records = (*records, *draft_line(draft, understand(one, WORDS)).records)
    return world(records)


THREE = [f"upper leg {number} length 40{number}" for number in (1, 2, 3)]


@pytest.mark.parametrize(
    "says",
    [
        "upper leg cracked at the foot",
        "the upper leg split while I drilled it",
        "one of the upper legs snapped",
        "scrapped an upper leg",
    ],
)
def test_which_of_several_alike_it_befell_is_asked(says: str) -> None:
    snapshot = with_a_list_of("upper leg", 4, *THREE)
    line = held(says, snapshot)
    assert line.question is not None
    assert line.question.question == "which upper leg? this build has 1, 2, 3"
    assert line.question.choices[:2] == ("upper leg-3", "upper leg-2")
    for said in ("upper leg-2", "2"):
        told = answered(line, line.question, said, WORDS)
        assert of_pieces(told, snapshot) == ["upper leg-2"]
        assert "upper leg 2" in in_one_line(told)


@pytest.mark.parametrize(
    "says", ["one of the upper legs cracked", "cracked one of our upper legs"]
)
def test_one_of_them_is_asked_whatever_the_list_says(says: str) -> None:
    line = held(says, made_in_turn(*THREE))
    assert line.question is not None
    assert line.question.about == "which pieces"


@pytest.mark.parametrize(
    "says",
    [
        "the upper leg cracked at the foot",
        "upper leg 2 cracked",
        "third upper leg cracked",
        "upper leg length 402",
        "oiled the upper leg",
    ],
)
def test_the_newest_of_what_is_needed_once_is_meant_unasked(says: str) -> None:
    line = held(says, made_in_turn(*THREE))
    assert line.question is None or line.question.about != "which pieces"


@pytest.mark.parametrize(
    "says",
    [
        "both upper legs weighed: left 41.2 g, right 41.0",
        "both upper legs: front 402, rear 403",
        "two upper legs 402 left and 403 right",
    ],
)
def test_as_many_sides_as_pieces_are_asked_whether_they_are_the_pieces(
    says: str,
) -> None:
    snapshot = with_pieces("upper leg 1 length 400.2")
    line = held(says, snapshot)
    assert line.question is not None
    assert line.question.about == "sides"
    one_of_each, places_of_each, _ = line.question.choices
    apart = answered(line, line.question, one_of_each, WORDS)
    draft = draft_line(Draft(snapshot, NOW), apart)
    runs = [one for one in draft.new if isinstance(one, Run)]
    assert [len(run.readings) for run in runs] == [1, 1]
    assert len({run.piece.id for run in runs if run.piece}) == len(runs)
    every = answered(line, line.question, places_of_each, WORDS)
    draft = draft_line(Draft(snapshot, NOW), every)
    assert [len(one.readings) for one in draft.new if isinstance(one, Run)] == [2, 2]


@pytest.mark.parametrize(
    "says", ["both upper legs 402", "upper leg left 402, right 403"]
)
def test_places_of_one_piece_and_one_value_of_both_are_not(says: str) -> None:
    line = held(says, with_pieces("upper leg 1 length 400.2"))
    assert line.verdict is Verdict.TAKEN
