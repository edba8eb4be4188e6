from __future__ import annotations

import itertools
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Piece
from logbook.screens.run.codes import LONGEST, codes, piece_codes
from logbook.screens.run.measure import Measure
from logbook.screens.run.pieces import Pieces
from tests.screens.bench_keys import Bench, bench, project
from tests.screens.conftest import logged


@pytest.fixture
def drawn(shop: Path) -> Path:
    """The base with limits on its opening, at two places."""
    logged(shop, "part", "bar")
    logged(shop, "measure", "bar", "length", "40.02", "--nominal", "40.0 mm")
    amend(shop)
    return shop


def amend(folder: Path) -> None:
    """Draw limits and places, as an editor of the file would."""
    [path] = [
        p for p in (folder / "as-built/dimensions").rglob("*.md") if "length" in p.name
    ]
    text = path.read_text("utf-8")
    more = (
        'lower_limit = "39.9 mm"\nupper_limit = "40.1 mm"\nplaces = ["left", "right"]\n'
    )
    path.write_text(text.replace("```\n", f"{more}```\n", 1), "utf-8")


async def measuring(at: Bench, piece: str) -> None:
    await at.press("f3")
    await at.type(piece)
    await at.press("enter")
    await at.pilot.pause()
    assert isinstance(at.app.screen, Measure)


async def test_a_first_run_makes_the_list_and_the_piece(shop: Path) -> None:
    async with bench(shop) as at:
        await measuring(at, "cam")
        await at.type("w 40.2")
        await at.press("enter")
        await at.type("bore 8.01 =8 +0.02 0")
        await at.press("enter")
        await at.settle()
        assert "w" in at.seen
        assert "8.01 mm" in at.seen
    snapshot = project(shop).snapshot
    [piece] = [p for p in snapshot.all(Piece) if p.title == "cam-1"]
    run = snapshot.all(Run)[-1]
    assert run.piece == piece.ref
    assert [(r.what.name, str(r.value)) for r in run.readings] == [
        ("w", "40.2 mm"),
        ("bore", "8.01 mm"),
    ]


async def test_a_later_run_walks_the_list_with_a_number_and_enter(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        assert "39.9 mm" in at.seen
        assert "40.1 mm" in at.seen
        await at.press(*"40", "full_stop", *"01", "enter", *"39", "full_stop", "9", "5")
        await at.pilot.pause()
        assert "WITHIN" in at.seen
        await at.press("enter")
        await at.settle()
    run = project(drawn).snapshot.all(Run)[-1]
    assert [(r.place, str(r.value)) for r in run.readings] == [
        ("left", "40.01 mm"),
        ("right", "39.95 mm"),
    ]


async def test_each_reading_is_on_disk_before_the_next(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        assert len(project(drawn).snapshot.all(Run)[-1].readings) == 1
        assert project(drawn).waiting() != ()
        await at.say("40.02")
        assert len(project(drawn).snapshot.all(Run)[-1].readings) == 2
        await at.press("escape")
        await at.settle()
        assert project(drawn).waiting() == ()


async def test_the_arrow_goes_back_and_a_repeat_is_added(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.press("up")
        await at.say("40.03")
        assert "40.01 mm  40.03 mm" in at.seen
    run = project(drawn).snapshot.all(Run)[-1]
    assert [r.place for r in run.readings] == ["left", "left"]


async def test_a_new_place_and_a_state_can_be_typed(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.type("/clamped")
        await at.press("enter")
        await at.say("@middle 40.0")
        await at.say("n")
    run = project(drawn).snapshot.all(Run)[-1]
    first, second = run.readings
    assert (first.place, first.state, str(first.value)) == (
        "middle",
        "clamped",
        "40.0 mm",
    )
    assert str(second.value) == "not measured"


async def test_off_drawing_leads_by_one_key_to_a_deviation_and_its_question(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        assert "off drawing" in at.seen
        await at.press("f6")
        await at.pilot.pause()
        assert "length 40.4 mm: would another builder meet this?" in at.words
        await at.press("d")
        await at.settle()
    deviation = project(drawn).snapshot.all(Deviation)[-1]
    assert deviation.met_by_others is Blame.DRAWING
    assert (str(deviation.wanted), str(deviation.found)) == ("40.0 mm", "40.4 mm")
    assert deviation.place == "left"


async def test_a_number_typed_while_a_question_stands_is_a_reading_and_no_answer(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f6")
        await at.say("41.01")
        await at.press("up")
        await at.say("40,001")
        assert "a 40.001" in at.seen
        await at.say("40.02")
    [_, deviation] = project(drawn).snapshot.all(Deviation)
    assert deviation.met_by_others is Blame.UNKNOWN
    assert str(deviation.found) == "40.4 mm"
    values = [str(one.value) for one in project(drawn).snapshot.all(Run)[-1].readings]
    assert values == ["40.4 mm", "41.01 mm", "40.02 mm"]


async def test_a_reading_is_logged_as_a_deviation_once(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f6", "d", "f6")
        assert "is logged already" in at.words
        assert "would another builder" not in at.words
        await at.settle()
        await at.press("f6")
        assert "is logged already" in at.words
    assert len(project(drawn).snapshot.all(Deviation)) == 2


@pytest.mark.parametrize(
    ("typed", "meant"),
    [("401.2", "40.12 mm"), ("4.012", "40.12 mm"), ("0.4012", "40.12 mm"),
     ("1.578", "1.578 in"), ("43", ""), ("33", "")],
)  # fmt: skip
async def test_a_slip_is_asked_about_before_it_is_taken(
    drawn: Path, typed: str, meant: str
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say(typed)
        assert ("as typed" in at.words) == bool(meant)
        assert meant in at.words
        taken = len(project(drawn).snapshot.all(Run)[-1].readings)
        if meant:
            await at.press("m")
            await at.settle()
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert str(reading.value) == (meant or f"{typed} mm")
    assert not reading.confirmed
    assert taken == 1  # an earlier run's, while the question stands


async def test_a_slip_said_to_be_so_is_kept_so_and_not_asked_again(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("401.2")
        await at.press("t")
        await at.settle()
        await at.say("401.5")
        assert "as typed" not in at.words
    first, second = project(drawn).snapshot.all(Run)[-1].readings
    assert (str(first.value), first.confirmed) == ("401.2 mm", True)
    assert (second.place, str(second.value)) == ("right", "401.5 mm")


async def test_the_next_number_typed_takes_the_place_of_a_slip(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("401.2")
        await at.say("40.12")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert (reading.place, str(reading.value)) == ("left", "40.12 mm")


async def test_the_instrument_is_seen_beside_a_place_and_says_when_it_changes(
    drawn: Path,
) -> None:
    logged(drawn, "instrument", "300 mm caliper", "--uncertainty", "0.04 mm")
    logged(drawn, "measure", "bar", "length", "right=40", "--with", "300 mm caliper")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.type("40.4")
        assert "OFF DRAWING" in at.seen
        assert "at left" in at.seen
        assert "measuring bar-1 · 300 mm caliper" in at.seen
        await at.press("f7", "down", "enter")
        assert "measuring bar-1 · no instrument" in at.seen
        await at.press("f7")
        assert "in hand" in at.seen
        await at.type("cal")
        assert "±0.04 mm" in at.seen
        await at.press("enter")
        assert "measuring bar-1 · 300 mm caliper" in at.seen
        assert "300 mm caliper, ±0.04 mm" in at.words
        assert at.line.value == "40.4"


async def test_a_stray_key_changes_no_instrument_and_takes_no_number_away(
    drawn: Path,
) -> None:
    logged(drawn, "instrument", "300 mm caliper", "--uncertainty", "0.04 mm")
    logged(drawn, "measure", "bar", "length", "right=40", "--with", "300 mm caliper")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.press("f7")
        await at.type("40.01")
        await at.press("enter")
        assert "no instrument is called so" in at.words
        await at.press("escape")
        await at.say("40.01")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert reading.instrument is not None
    assert reading.instrument.name == "300 mm caliper"


async def test_what_was_never_drawn_takes_the_kind_it_was_read_in(shop: Path) -> None:
    logged(shop, "part", "gate")
    logged(shop, "measure", "gate", "face", "58 °C")
    async with bench(shop) as at:
        await measuring(at, "gate")
        await at.say("52 kg")
        assert "is a mass" in at.words
        assert "was read 58 °C before" in at.words
        assert at.line.value == "52 kg"


async def test_a_refused_line_is_not_what_the_key_takes_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.02")
        await at.say("52 kg")
        await at.press("f8")
        await at.settle()
        assert "“52 kg” was not taken, it stands only on the line" in at.words
        [reading] = project(drawn).snapshot.all(Run)[-1].readings
        assert str(reading.value) == "40.02 mm"
        await at.press("f8")
        await at.settle()
    assert len(project(drawn).snapshot.all(Run)) == 2


async def test_the_size_taken_back_is_the_one_typed_next(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f8")
        await at.settle()
        await at.say("40.1")
    [reading] = project(drawn).snapshot.all(Run)[-1].readings
    assert (reading.place, str(reading.value)) == ("left", "40.1 mm")


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("40.1.2", "two decimal marks"),
        ("40 N", "is a force"),
        ("-40.1", "is negative"),
        ("3/0 in", "divides by zero"),
        ("4o.1", "is not a unit known here"),
        ("w", "does not begin with a number"),
    ],
)
async def test_what_is_no_reading_is_refused_beside_the_line(
    drawn: Path, typed: str, sentence: str
) -> None:
    async with bench(drawn, (120, 40)) as at:
        await measuring(at, "bar")
        await at.type(typed)
        await at.press("enter")
        await at.pilot.pause()
        assert sentence in at.seen
        assert at.line.value == typed
        assert at.line.has_focus


async def test_undo_takes_the_last_reading_back(drawn: Path) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.01")
        await at.say("40.09")
        await at.press("f8")
        await at.settle()
        assert "40.09 mm" not in at.seen.replace("measured bar-1: length 40.09 mm", "")
    run = project(drawn).snapshot.all(Run)[-1]
    assert [str(r.value) for r in run.readings] == ["40.01 mm"]


# -- three letters ---------------------------------------------------------------

NOUNS = ("base", "bar", "bracket", "bed", "gate", "lid", "mask", "collar", "arm", "cam")


def test_three_hundred_pieces_each_have_a_code_of_at_most_three_letters() -> None:
    parts = codes(NOUNS)
    pieces = [
        (f"{noun}-{n}", parts[noun], n)
        for n, noun in itertools.product(range(1, 31), NOUNS)
    ]
    found = piece_codes(pieces)
    assert len(found) == len({*found.values(), *parts.values()}) - len(parts) == 300
    assert max(map(len, (*found.values(), *parts.values()))) <= LONGEST
    assert (parts["base"], found["base-17"]) == ("b", "b17")


@given(
    st.lists(st.tuples(st.integers(0, 9), st.integers(1, 40)), max_size=60),
    st.integers(0, 60),
    st.integers(0, 10),
)
def test_a_code_stays_what_it_is_whatever_is_made_later(
    made: list[tuple[int, int]], then: int, known: int
) -> None:
    before = codes(NOUNS[:known])
    after = codes(NOUNS)
    assert {noun: after[noun] for noun in before} == before
    pieces = [(f"{at} {n}", after[NOUNS[noun]], n) for at, (noun, n) in enumerate(made)]
    early = piece_codes(pieces[:then])
    late = piece_codes(pieces)
    assert {one: late[one] for one in early} == early


@given(st.lists(st.text(max_size=12), unique=True, max_size=300))
def test_codes_never_mean_two_things(names: list[str]) -> None:
    found = codes(names)
    assert len(found) == len(names)
    assert len(set(found.values())) == len(names)


async def test_any_of_three_hundred_pieces_is_chosen_by_its_code(shop: Path) -> None:
    at_project = project(shop)
    draft = at_project.draft(at_project.snapshot.entries[-1].when)
    for noun in NOUNS:
        part = draft.new_part(noun) if noun != "base" else draft.part(noun)
        for number in range(2, 32):
            draft.new_piece(part, number)
    at_project.save(draft, "three hundred pieces", draft.when)
    async with bench(shop) as at:
        await at.press("f3")
        wanted = "gate-17"
        await at.pilot.pause()
        pieces = at.app.screen
        assert isinstance(pieces, Pieces)
        [line] = [line for line in pieces.lines("") if line.words == wanted]
        assert len(line.label) <= LONGEST
        await at.type(line.label)
        await at.press("enter")
        await at.pilot.pause()
        assert "measuring gate-17" in at.seen
    assert len(project(shop).snapshot.all(Part)) == len(NOUNS)


async def codes_shown(shop: Path) -> dict[str, str]:
    async with bench(shop) as at:
        await at.press("f3")
        await at.settle()
        pieces = at.app.screen
        assert isinstance(pieces, Pieces)
        return {line.words: line.label for line in pieces.lines("")}


async def test_a_code_learned_once_means_the_same_part_in_every_build(
    drawn: Path,
) -> None:
    before = await codes_shown(drawn)
    assert before == {"base-1": "b", "bar-1": "ba"}
    for line in ("bracket width 20.1", "collar bore 30.1"):
        logged(drawn, "say", line, "--yes")
    logged(drawn, "build", "build 2")
    for line in ("bar length 40.01", "bracket width 20.1"):
        logged(drawn, "say", line, "--yes")
    logged(drawn, "piece", "bar")
    async with bench(drawn) as at:
        await at.press("f3")
        await at.settle()
        await at.type("ba")
        await at.press("enter")
        await at.settle()
        assert "measuring bar-" in at.seen
    assert await codes_shown(drawn) == {
        "bar-2": "ba2", "bar-3": "ba3", "bracket-2": "br", "base": "b", "collar": "c",
    }  # fmt: skip


async def test_a_reading_near_a_limit_is_judged_by_its_instrument(drawn: Path) -> None:
    logged(drawn, "instrument", "caliper", "--uncertainty", "0.04 mm")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.08")
        assert "too close to call" not in at.seen
        await at.press("f7", "down", "enter")
        assert "caliper, ±0.04 mm" in at.seen
        await at.say("40.08")
        assert "too close to call" in at.seen
    readings = project(drawn).snapshot.all(Run)[-1].readings
    assert [r.instrument.name if r.instrument else "" for r in readings] == [
        "",
        "caliper",
    ]


async def test_the_instrument_in_hand_stays_and_reads_only_its_own_kind(
    drawn: Path,
) -> None:
    logged(drawn, "instrument", "caliper", "--uncertainty", "0.04 mm")
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.press("f7", "down", "enter")
        await at.say("40.0")
        await at.press("escape")
        await measuring(at, "bar")
        await at.say("face 58 °C")
        await at.say("w 12.0")
    readings = project(drawn).snapshot.all(Run)[-1].readings
    assert [r.instrument.name if r.instrument else "" for r in readings] == [
        "",
        "caliper",
    ]


async def test_what_the_general_tolerance_holds_is_judged_and_said_to_be_by_it(
    shop: Path,
) -> None:
    logged(shop, "project", "--tolerance", "ISO 2768-c")
    logged(shop, "part", "bed", "--dimension", "width=240")
    logged(shop, "instrument", "caliper", "--uncertainty", "0.1 mm")
    async with bench(shop) as at:
        await measuring(at, "bed")
        await at.press("f7", "down", "enter")
        for typed, said in (
            ("240.5", "WITHIN"),
            ("241.15", "TOO CLOSE"),
            ("242", "OFF"),
        ):
            await at.type(typed)
            wanted = f" {said} "
            await at.until(lambda wanted=wanted: wanted in at.seen)  # type: ignore[misc]
            assert "238.8 mm" in at.seen
            assert "241.2 mm by ISO 2768-c" in at.seen
            for _ in typed:
                await at.press("backspace")
        await at.type("240.5")
        await at.press("enter")
        assert "is off drawing" not in at.seen
        await at.type("width 242")
        await at.press("enter")
        assert "is off drawing: F6 logs it" in " ".join(at.seen.split())
        await at.press("f6", "p")
        await at.settle()
    made = project(shop).snapshot.all(Deviation)[-1]
    assert (str(made.wanted), str(made.found)) == ("240 mm", "242 mm")


async def test_a_place_read_again_says_which_deviation_stands_there_undecided(
    drawn: Path,
) -> None:
    async with bench(drawn) as at:
        await measuring(at, "bar")
        await at.say("40.4")
        await at.press("f6", "p")
        await at.settle()
        await at.press("up")
        await at.say("40.05")
        assert "the deviation 40.4 mm at left stands, undecided" in at.words
        await at.say("40.02")
        assert "stands, undecided" not in at.words, "that is another place"
        await at.press("escape")
        await at.say("use bar-1 as is")
        await measuring(at, "bar-1")
        await at.say("40.06")
        assert "stands, undecided" not in at.words, "it was decided on"
