"""How a part is to be made is decided in no word of deciding; what happens is not."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("lid", "tray", "mask", "bed", "hull", "trellis", "neck", "collar")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("tray gets a leather lining", "tray"),
        ("the lid gets eight screws, air leaked with four", "lid"),
        ("the hull gets sheathed, not painted", "hull"),
        ("trellis gets pinned rather than glued", "trellis"),
        ("no hem on the tray, roll the edge instead", "tray"),
        ("no varnish on the neck, oil it is", "neck"),
        ("no lacquer on the bed, film sticks to it", "bed"),
        ("mask in brass this time, card curls", "mask"),
        ("quartersawn for the bed this time", "bed"),
        ("one coat less on the hull next time", "hull"),
        ("six holes in the collar, four was too few", "collar"),
        ("eight screws on the lid, not six", "lid"),
        ("pan heads for the tray as well", "tray"),
        ("bend the tray cold, never with a flame", "tray"),
        ("ream the collar after plating, not before", "collar"),
        ("the mask gets a wider window", "mask"),
        ("five walls on the lid, infill stays", "lid"),
        ("print the lid upside down next time", "lid"),
    ],
)
def test_how_a_part_is_to_be_is_decided(says: str, part: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind.broad, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert (line.facts.part, line.facts.disposition) == (part, "")


@pytest.mark.parametrize(
    "says",
    [
        "the lid gets hot after an hour",
        "mask gets stuck in the tray",
        "lid gets a kink at the hinge",
        "glue takes two hours",
        "the lid gets louder every day",
        "the supplier gets the tray back, wrong colour",
        "no play in the neck, runs free",
        "no lid on the tray, dust got in",
        "no varnish on the neck yet",
        "no screws left for the lid",
        "fits this time",
        "lid closes this time",
        "the mask came out well this time",
        "next time glue before drilling",
        "dry the spool first next time",
        "screwed the lid on, with washers this time",
        "four screws in the lid, two stripped",
        "glue let go on the tray",
        "strain relief let the collar slip out",
        "mask lets 41 % through",
        "first coat only, second one tomorrow",
        "left side only, right is fine",
        "paint came off the hull, not degreased",
    ],
)
def test_what_only_came_about_was_chosen_by_nobody(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.kind is Kind.DECISION and line.verdict is Verdict.TAKEN)


def test_what_is_used_only_is_decided() -> None:
    for says in ("brass screws only, steel rusts", "walnut pegs only, no metal here"):
        line = understand(says, WORDS)
        assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
