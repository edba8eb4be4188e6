"""What went wrong, told by the state a thing is in or has come to: soggy, blotchy."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT, of_parts

WORDS = of_parts(
    "kite", "spine", "bellows", "puppet", "jaw", "hull", "keel", "saddle", "loom",
    "shuttle",
)  # fmt: skip


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("kite went soggy in the dew", "kite"),
        ("bellows came out lumpy, paste too thick", "bellows"),
        ("hull dried streaky on the port side", "hull"),
        ("saddle ended up lopsided", "saddle"),
        ("spine stayed tacky for a week", "spine"),
        ("shuttle gritty already", "shuttle"),
        ("keel patchy after the second coat", "keel"),
        ("jaw won't snap in, spigot too fat", "jaw"),
        ("chisel took a chunk out of the keel", "keel"),
        ("saddle wore thin in a season", "saddle"),
        ("puppet derails at the curtain", "puppet"),
        ("keel sank at the mast step", "keel"),
    ],
)
def test_what_it_has_come_to_is_a_failure(says: str, part: str) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert line.facts.part == part


@pytest.mark.parametrize(
    "says",
    [
        "a gritty paste cuts fastest on the keel",
        "hull dark blue next time",
        "dull black for the keel from now on",
        "keel slack 12 mm",
        "use the soggy felt for the bellows test only",
        "kite must not go limp in light wind",
        "the loom came out of the box straight",
        "oil the shuttle before it gets gritty",
    ],
)
def test_what_is_wished_measured_or_described_is_none(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.FAILURE), line


def test_a_thing_nobody_knows_is_made_of_what_is_told_first_only() -> None:
    told = understand("bezel won't snap on", PROJECT)
    assert (told.verdict, told.kind) == (Verdict.TAKEN, Kind.FAILURE)
    assert told.facts.part == "bezel"
