"""What sets apart the pieces that met a failure is on its page, as far as recorded.

The scene is the copy stand; its failures and settings are invented.
"""

from __future__ import annotations

import pytest

from logbook.advice.faults.apart import differences
from logbook.advice.faults.sizes_apart import sizes_apart
from logbook.quantity import parse_quantity
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

CHIP = "diffuser chipped at its edge"


def pieces(stand: Stand, speed: str) -> None:
    """Make a second and a third diffuser of rev A, the third at this speed."""
    told(stand, "machine", "router table", "--process", "milling")
    told(stand, "build", "build 2")
    for number, rate in (("3", "8000 rpm"), ("4", speed)):
        made = ("--number", number, "--on", "router table")
        told(stand, "piece", "diffuser", *made, "--set", f"speed={rate}")


def page(stand: Stand, *, blame: str) -> str:
    told(stand, "failure", "diffuser", CHIP, "--piece", "4", "--met-by", blame)
    return stand.run("errata", "1.1", "--print")[1]


def test_pieces_that_differ_only_in_how_they_were_made_say_in_what(
    stand: Stand,
) -> None:
    pieces(stand, "24000 rpm")
    said = page(stand, blame="drawing")
    [line] = [one for one in said.splitlines() if "Which had it" in one]
    assert "Diffuser-4 (build 2) had it, " in line
    assert "diffuser-3 (build 2)" in line
    assert "What differs: speed 24000 rpm, not 8000 rpm." in line
    assert "The same as far as recorded: revision, " in line
    assert "So few prove nothing" in line


def test_pieces_alike_in_all_that_is_known_say_so_also_where_nobody_knows_whose(
    stand: Stand,
) -> None:
    pieces(stand, "8000 rpm")
    said = page(stand, blame="unknown").partition("## Seen on the bench")[2]
    assert "Diffuser-4 (build 2) had it, " in said
    assert "What differs" not in said
    assert "The same as far as recorded: revision, " in said
    guide = stand.run("guide", "1.1", "--print")[1]
    assert "Diffuser-4 (build 2) had it, " in guide.partition("## May be wrong")[2]
    notes = stand.run("notes", "--print")[1]
    assert "- **Which had it, and which not**: Diffuser-4 (build 2) had it, " in notes


def test_a_piece_nobody_saw_in_use_is_not_said_to_be_without_it(stand: Stand) -> None:
    pieces(stand, "8000 rpm")
    told(
        stand, "measure", "diffuser", "face", "51 °C", "--after", "2 h", "--piece", "3"
    )
    told(stand, "piece", "diffuser", "--number", "5")
    [line] = [
        one for one in page(stand, blame="drawing").splitlines() if "had it," in one
    ]
    assert "diffuser-3 (build 2) not, of " in line
    assert "diffuser-5 (build 2) nobody has said." in line


def test_a_piece_said_to_be_still_good_is_one_that_was_seen(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser", "--number", "3")
    told(stand, "build", "build 3")
    told(stand, "piece", "diffuser", "--number", "4")
    told(stand, "status", "diffuser-3", "still good")
    said = page(stand, blame="drawing")
    [line] = [one for one in said.splitlines() if "Which had it" in one]
    assert "diffuser-3 (build 2) not" in line
    assert "of diffuser-3" not in line


def test_a_setting_is_said_only_of_the_pieces_it_is_on_record_of(stand: Stand) -> None:
    told(stand, "build", "build 2")
    made = ("--number", "3", "--set", "speed=8000 rpm")
    told(stand, "piece", "diffuser", *made)
    told(stand, "piece", "diffuser", "--number", "5")
    told(stand, "piece", "diffuser", "--number", "4")
    line = page(stand, blame="drawing")
    assert "On record only of diffuser-3 (build 2): speed 8000 rpm." in line


def test_a_size_read_on_both_sides_is_told_where_all_of_one_are_beyond(
    stand: Stand,
) -> None:
    pieces(stand, "8000 rpm")
    for piece, size in (("3", "4.02"), ("4", "3.71")):
        told(stand, "measure", "diffuser", "plate", size, "--piece", piece)
    assert "What differs: plate 3.71 mm, not 4.02 mm." in page(stand, blame="drawing")


@pytest.mark.parametrize(
    ("failed", "sound", "apart"),
    [
        ("124 °F", "51 °C", False),
        ("1 5/32 in", "29.37 mm", False),
        ("29.37 mm", "1 5/32 in", False),
        ("0.2 cm", "2 mm", False),
        ("136 °F", "51 °C", True),
        ("2 in", "50 mm", True),
        ("178.6 mm", "178.7 mm", True),
    ],
)
def test_sizes_in_two_units_are_compared_as_sizes(
    failed: str, sound: str, *, apart: bool
) -> None:
    # 1 in is 25.4 mm, and 0 °C 32 °F, by definition (NIST SP 811, 2008, appendix B).
    assert sizes_apart(parse_quantity(failed), parse_quantity(sound)) is apart


def test_one_size_typed_in_two_units_sets_no_piece_apart(stand: Stand) -> None:
    pieces(stand, "8000 rpm")
    for piece, size in (("3", "29.37"), ("4", "1 5/32 in")):
        told(stand, "measure", "diffuser", "plate", size, "--piece", piece)
    assert "What differs" not in page(stand, blame="drawing")


def test_one_setting_typed_in_two_units_sets_no_piece_apart() -> None:
    failed, sound = [{"setting nozzle": "0.4 mm"}], [{"setting nozzle": "0.04 cm"}]
    assert differences(failed, sound) == ()
    assert differences(failed, [{"setting nozzle": "0.6 mm"}])


def test_where_every_piece_failed_nothing_is_compared(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "base", "base rocks", "--met-by", "drawing")
    told(stand, "failure", "base", "base rocks", "--piece", "1", "--met-by", "drawing")
    assert "Which had it" not in stand.run("errata", "1.1", "--print")[1]
