"""What is offered to faults, list and steps, and the entries that offer nothing."""

from __future__ import annotations

import pytest

from logbook.records.making.told_settings import settings_in
from tests.cli.shop import Shop

BEFORE, AFTER = "2026-03-01T09:00", "2026-03-07T09:00"


@pytest.fixture
def built(shop: Shop) -> Shop:
    """The stand with a lid and a bed on its list, released once."""
    for words in (
        ("part", "bed", "--material", "beech", "--thickness", "18 mm"),
        ("part", "lid", "--process", "riveting"),
        ("line", "bed", "1"),
        ("line", "rivet", "4"),
        ("line", "base", "1"),
        ("step", "rivet the lid on", "--uses", "lid"),
        ("release", "1.0"),
    ):
        assert shop.logbook(*words, "--when", BEFORE).code == 0
    return shop


def asks(shop: Shop, line: str) -> list[str]:
    shop.asked("say", "--yes", "--when", AFTER, "--later", line)
    return [one["asks"] for one in shop.asked("offered")["offered"]]


@pytest.mark.parametrize(
    "line",
    [
        "remember to oil the file",
        "list of what to buy tomorrow",
        "the lid looks good",
        "took two hours for the lid",
        "measured the lid again, all fine",
        "needed help with the lid",
        "needed a second pair of hands for the lid",
        "18 mm beech board measures 18.0",
        "12 mm beech board measures 11.8",
        "used it instead of the bed",
        "used an 8 mm spacer instead of 7.5 mm under the lid",
        "lid holes miss the base holes, drilled out by 0.2",
        "put the long screws into the drawer",
        "filed the lid down",
        "two layers of paint on the lid",
    ],
)
def test_plain_entries_offer_nothing(built: Shop, line: str) -> None:
    assert asks(built, line) == []


def test_nothing_was_published_so_nothing_can_be_told_wrongly(shop: Shop) -> None:
    assert asks(shop, "list says base, the file is called tray") == []


def test_what_was_logged_before_the_release_is_no_fault_of_it(built: Shop) -> None:
    line = "list says lid, the file is called cover"
    built.asked("say", "--yes", "--when", "2026-02-27T09:00", "--later", line)
    assert built.asked("offered")["offered"] == []


def test_the_fault_carries_part_revision_release_and_what_to_do(built: Shop) -> None:
    [asked] = asks(built, "list says lid, the file is called cover")
    assert "does release 1.0 tell this wrongly?" in asked
    took = built.asked(
        "offered", "take", "list says lid, the file is called cover", "cut the cover"
    )
    [fault] = took["records"]
    assert fault["kind"] == "erratum"
    assert fault["part"].startswith("lid ")
    assert fault["releases"] == ["1.0"]
    assert len(fault["revisions"]) == 1
    assert (fault["severity"], fault["do_this"]) == ("document", "cut the cover")
    assert built.asked("offered")["offered"] == []


@pytest.mark.parametrize(
    "line",
    [
        "M4x16 reaches 6.1 mm into a 6 mm slot",
        "the list says 8 rivets, it takes 4",
    ],
)
def test_what_goes_against_paper_or_its_screws_can_be_a_known_fault(
    built: Shop, line: str
) -> None:
    [asked] = asks(built, line)
    assert "does release 1.0 tell this wrongly?" in asked


def test_what_can_hurt_somebody_is_a_fault_of_safety(built: Shop) -> None:
    [asked] = asks(built, "lid edge cuts fingers")
    assert "guard against this" in asked
    [mark] = [one["id"] for one in built.asked("offered")["offered"]]
    [fault] = built.asked("offered", "take", mark, "break the edge")["records"]
    assert fault["severity"] == "safety"


@pytest.mark.parametrize(
    ("answer", "critical"),
    [
        ("cut the slots to it", "sold as 18 mm, measured 17.5 mm: cut the slots to it"),
        ("nothing", "sold as 18 mm, measured 17.5 mm; either will do"),
    ],
)
def test_stock_that_is_another_size_says_whether_it_matters(
    built: Shop, answer: str, critical: str
) -> None:
    [asked] = asks(built, "18 mm beech board measures 17.5")
    assert asked.endswith("what follows for the bed?")
    [mark] = [one["id"] for one in built.asked("offered")["offered"]]
    part, line = built.asked("offered", "take", mark, answer)["records"]
    assert part["stock"]
    assert line["critical"] == critical
    assert built.asked("offered")["offered"] == []


def test_a_count_that_differs_is_offered_to_the_list(built: Shop) -> None:
    built.asked("count", "rivet", "--used", "6", "--when", AFTER)
    [one] = built.asked("offered")["offered"]
    assert one["asks"].startswith("6 × rivet went in, the list says 4")
    [line] = built.asked("offered", "take", one["id"], "yes")["records"]
    assert line["quantity"] == 6
    assert built.asked("offered")["offered"] == []


def test_tools_go_to_the_one_step_that_takes_the_part(built: Shop) -> None:
    [asked] = asks(built, "needed a rivet tool and a 2 mm hex key for the lid")
    assert asked == "does “rivet the lid on” need rivet tool and 2 mm hex key?"
    [mark] = [one["id"] for one in built.asked("offered")["offered"]]
    [step] = built.asked("offered", "take", mark, "yes")["records"]
    assert step["tools"] == ["rivet tool", "2 mm hex key"]
    assert built.asked("offered")["offered"] == []


@pytest.mark.parametrize(
    ("line", "told"),
    [
        (
            "printed it in PETG, 4 walls, 45 % infill, flat side down, no supports",
            {"material": "PETG", "walls": "4", "infill": "45 %",
             "lying on": "flat side", "supports": "none"},
        ),
        (
            "printed the gate in PETG, 0.28 layers, 4 walls, nozzle 250",
            {"material": "PETG", "walls": "4", "layers": "0.28",
             "nozzle temperature": "250"},
        ),
        (
            "PETG 0.2 layers 40% infill nozzle 240C",
            {"infill": "40%", "layers": "0.2", "nozzle temperature": "240C"},
        ),
        (
            "printed it, 235 nozzle, 80 bed, 0.2 layers, 4 walls",
            {"walls": "4", "layers": "0.2", "nozzle temperature": "235",
             "bed temperature": "80"},
        ),
        ("0.2 mm layers, 0.4 nozzle", {"layers": "0.2 mm", "nozzle": "0.4"}),
        ("cut it in 2 passes at 80 % power", {"passes": "2", "power": "80 %"}),
        ("filed the lid down", {}),
        ("lay it face down", {}),
    ],
)  # fmt: skip
def test_settings_are_read_by_name(line: str, told: dict[str, str]) -> None:
    assert settings_in(line) == told


def test_told_settings_go_to_the_piece(built: Shop) -> None:
    built.asked("part", "gate", "--process", "3D printing")
    asked = asks(built, "printed the gate in PETG, 4 walls, 45 % infill, no supports")
    assert "made with material PETG, walls 4, infill 45 %, supports none?" in asked[0]
    [mark] = [one["id"] for one in built.asked("offered")["offered"]]
    piece = built.asked("offered", "take", mark, "yes")["records"][-1]
    assert piece["settings"]["infill"] == "45 %"
    assert built.asked("offered")["offered"] == []
