"""Lines as short as they are typed: what stays, what comes, what it does if touched."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("stool", "seat", "drawer", "handle", "shade", "flex")


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("shade flickers if i move the flex", Kind.FAILURE),
        ("drawer creaks if we load it", Kind.FAILURE),
        ("brim won't come off the handle", Kind.FAILURE),
        ("raft won't let go of the shade", Kind.FAILURE),
        ("stool wont hold, creeps down with a heavy sitter", Kind.FAILURE),
        ("10 m of flex coming monday, 18.50", Kind.ORDER),
        ("3 sheets of ply on the way, 44.00, arriving thursday", Kind.ORDER),
        ("seat to the upholsterer, 2 pcs, 60.00, ready on the 9th", Kind.ORDER),
        ("handle gone to the chromer, 12.00", Kind.ORDER),
        ("binning both handles, cut the wrong way", Kind.DISPOSITION),
        ("drawer planed down to 401.5 so it slides now", Kind.DISPOSITION),
        ("handle bored out to 13/32 so it clears now", Kind.DISPOSITION),
        ("drawer keeps jamming", Kind.FAILURE),
        ("seat keeps popping off", Kind.FAILURE),
        ("skimmed the handle end", Kind.STEP),
        ("knocked the burrs off the handle", Kind.STEP),
        ("handle 2 mm thinner next time", Kind.DECISION),
        ("next seat 18 mm thick, not 20", Kind.DECISION),
        ("drawer in white ply, grey shows every scratch", Kind.DECISION),
        ("leather from the tannery, 26.50", Kind.ORDER),
    ],
)
def test_a_short_line_is_taken_for_what_it_tells(says: str, kind: Kind) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, kind), line
    assert line.facts.readings == () or kind in (Kind.DISPOSITION, Kind.DECISION)


@pytest.mark.parametrize(
    "says",
    [
        "keep the knot in the seat, i like it",
        "leave the hammer marks on the handle",
        "keeping the stain on the seat, nobody looks there",
        "handle leans a bit, let it be",
        "drawer rubs a little, can live with it",
    ],
)
def test_a_blemish_one_lives_with_is_used_as_it_is(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.DECISION), line
    assert line.facts.disposition == "use as is"


@pytest.mark.parametrize(
    ("says", "count"),
    [
        ("ordered 50 m3 washers, 4.20, due friday", 50),
        ("bought 20 m3 nuts, 1.80", 20),
        ("ordered 30 m2 pan head screws, 2.40", 30),
    ],
)
def test_a_thread_in_small_letters_is_no_volume(says: str, count: int) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.ORDER
    assert line.facts.quantity == count


@pytest.mark.parametrize(
    "says",
    ["next seat 18.2", "seat 2 mm longer next time i guess", "next drawer is cut"],
)
def test_a_next_one_with_its_size_or_a_guess_is_not_decided(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.DECISION), line


@pytest.mark.parametrize(
    "says",
    [
        "flex would fray if i moved it daily",
        "keep the handle on the left",
        "let it be known the seat is nice",
        "sheets of ply are dear",
        "the 10 m of flex lasted a year",
        "keeps falling asleep, the dog",
        "leather from the tannery smells nice",
    ],
)
def test_what_only_looks_like_it_is_not_taken(says: str) -> None:
    line = understand(says, WORDS)
    wrong = (Kind.FAILURE, Kind.DISPOSITION, Kind.ORDER)
    assert not (line.verdict is Verdict.TAKEN and line.kind in wrong), line
    assert line.facts.disposition != "use as is"
