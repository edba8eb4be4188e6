"""What becomes of a piece: where it went, and what was done with it, told first."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Disposal, Run
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("shelf", "hinge", "seat", "hook", "drawer front", "pulley")


@pytest.mark.parametrize(
    "says",
    [
        "shelf went on the firewood pile",
        "hook landed in the scrap bucket",
        "the drawer front ended up in the stove",
        "pulley 2 straight into the rubbish",
        "threw the seat on the bonfire",
        "hinge went in teh trash",
        "shelf is too twisted to use and goes in the offcut box",
        "into the scrap bin with hinge 3",
        "the bad hook is in the bin",
        "cracked pulley went in the scrap",
        "old shelf is on the firewood pile now",
    ],
)
def test_what_went_where_waste_goes_is_scrapped(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert line.facts.disposition == "scrap"


@pytest.mark.parametrize(
    "says",
    [
        "found the hinge in the scrap bucket",
        "cut the hook from the offcuts",
        "the scrap bin is full",
        "shelf for the stove",
        "seat goes in the fire door",
    ],
)
def test_what_only_lay_there_or_is_for_it_is_not(says: str) -> None:
    line = understand(says, WORDS)
    scrapped = line.facts.disposition == "scrap"
    assert not (line.verdict is Verdict.TAKEN and scrapped)


@pytest.mark.parametrize(
    ("says", "done"),
    [
        ("Reworked the shelf: pins drilled out, holes plugged, edge planed.", "rework"),
        ("Repaired the seat: crack opened, glued, clamped, sanded.", "repair"),
        ("Scrapped hook 2, opened by 3 under the load.", "scrap"),
        ("scrapped the hinge, pin bent by 0.5 beside the knuckle", "scrap"),
        (
            "I reworked the drawer front, old holes filled and new ones drilled",
            "rework",
        ),
        ("sent the pulley back to the turner, bore off centre", "return"),
    ],
)
def test_what_was_done_with_a_piece_told_first_is_that_whatever_follows(
    says: str, done: str
) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DISPOSITION, Verdict.TAKEN)
    assert (line.facts.disposition, line.facts.readings) == (done, ())


@pytest.mark.parametrize(
    "says", ["Repaired the seat but it creaks", "reworked the hinge, but it binds"]
)
def test_what_failed_all_the_same_failed_after_that_work(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.FAILURE
    assert line.facts.beside is not None


@pytest.mark.parametrize(
    "says",
    [
        "sent the pulley out for plating, back on the 19th",
        "scrap the idea of a drawer",
        "rejected the brass hinge idea",
    ],
)
def test_what_goes_out_or_is_only_an_idea_is_not_done_with_a_piece(says: str) -> None:
    line = understand(says, WORDS)
    taken = line.verdict is Verdict.TAKEN
    assert not (taken and line.kind is Kind.DISPOSITION)


@pytest.mark.parametrize(
    "says",
    [
        "The dent in the seat may stay, it is at the back.",
        "The drip in the lacquer on shelf 2 can stay, nobody looks there.",
        "the saw mark on the drawer front may stay",
        "The knot in the shelf could stay, it is sound.",
    ],
)
def test_what_a_part_has_may_stay(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert line.facts.disposition == "use as is"


@pytest.mark.parametrize(
    "says",
    ["the seat may stay wet for a while", "may need a longer hinge", "shelf may warp"],
)
def test_a_may_of_something_else_is_a_note(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.NOTE or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "says",
    [
        "went back to the old pulley, new one slips",
        "went back to the old hook",
        "we went back to the first hinge, the second one rattles",
        "going back to the old seat, the new one is too wide",
        "went back to the original shelf",
        "have gone back to the previous drawer front, it runs freer",
    ],
)
def test_who_goes_back_to_an_older_piece_returns_none(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is not Kind.DISPOSITION
    assert line.facts.disposition != "return"


@pytest.mark.parametrize(
    "says",
    [
        "hinge went back to the shop",
        "sent the pulley back to the old supplier",
        "the seat goes back to the supplier",
    ],
)
def test_what_goes_back_to_its_maker_is_returned(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.facts.disposition) == (Kind.DISPOSITION, "return")


@pytest.mark.parametrize(
    "says",
    [
        "smoothed the drawer front with 600 grit, glides now",
        "polished the pulley with 1000 grit, runs free now",
        "dressed the hinge with a stone, closes now",
        "burnished the hook, drops in now",
    ],
)
def test_what_was_smoothed_until_it_goes_is_reworked(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.facts.disposition) == (Kind.DISPOSITION, "rework")


@pytest.mark.parametrize(
    "says",
    [
        "polished the pulley, 20 min",
        "smoothed the shelf with 240",
        "recut the hook from fresh plate",
        "burnished the seat, looks nice",
    ],
)
def test_what_was_only_smoothed_or_made_anew_is_work(says: str) -> None:
    assert understand(says, WORDS).kind is Kind.STEP


@pytest.mark.parametrize(
    ("says", "sizes"),
    [
        ("shimmed the hook up 0.5 with card", []),
        ("shimmed the shelf 0.3 and it sits level", []),
        ("returned the 24 V pulley to the shop", []),
        ("filed the hook down to 178.3 and it fits", ["178.3 mm"]),
        ("shimmed the pulley to 6.6", ["6.6 mm"]),
        ("scrapped the hinge, 59.6", ["59.6 mm"]),
        ("hinge 59.6, scrapped", ["59.6 mm"]),
        ("reworked the seat, opening now 180.1", ["180.1 mm"]),
    ],
)
def test_by_how_much_a_piece_was_worked_is_no_reading_of_it(
    says: str, sizes: list[str]
) -> None:
    made = drafted(understand(says, WORDS), world(known(WORDS)))
    runs = [one for one in made if isinstance(one, Run)]
    read = [str(one.value) for run in runs for one in run.readings]
    assert read == sizes
    assert any(isinstance(one, Disposal) for one in made)
