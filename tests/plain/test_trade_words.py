"""Words of many trades: what was done to a part, and what went wrong with it.

Names of faults: welds ISO 6520-1, paint films ISO 4628, wood EN 844 (from memory);
the rest common practice, no source.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("stool", "seat", "frame", "handle", "shade", "flex", "casing")


@pytest.mark.parametrize(
    "says",
    [
        "parted off the handle",
        "trepanned the handle blank",
        "tigged the frame along the inside seam",
        "descaled the frame in citric acid",
        "kerfed the seat and steam-bent it",
        "denibbed the seat after the first coat",
        "rubbed oil into the seat",
        "spread glue on the seat",
        "topstitched the seat",
        "overlocked the shade",
        "glazed the casing",
        "trowelled the casing flat",
        "heatsinked the shade",
        "butt-spliced the flex",
        "lagged the casing",
        "threadlocked the handle",
        "peeled the film off the shade",
    ],
)
def test_work_of_a_trade_is_work_done(says: str) -> None:
    line = understand(says, WORDS)
    assert line.verdict is Verdict.TAKEN, line
    assert line.kind is Kind.STEP


@pytest.mark.parametrize(
    "says",
    [
        "porosity in the frame weld",
        "blowholes in the casing",
        "burn-through at the frame corner",
        "cold lap along the frame weld",
        "pinholes in the seat varnish",
        "fish eyes all over the seat",
        "seat varnish blushed, too humid",
        "paint bled under the tape on the casing",
        "checks opened in the seat overnight",
        "worm holes in the seat",
        "sink marks on the casing",
        "strings all through the shade",
        "blobs on the handle face",
        "chatter marks on the handle",
        "dross along the frame edge",
        "drill skated across the frame",
        "router kicked back and gouged the seat",
        "seat seam puckered",
        "shade flickers when the flex moves",
        "shade whistles on half power",
        "solder bridge on the shade board",
        "casing judders at low speed",
        "handle slid down the frame overnight",
        "stain took unevenly on the seat",
        "vice marks all over the handle",
    ],
)
def test_what_went_wrong_in_a_trade_has_failed(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.FAILURE, line
    assert line.verdict in (Verdict.TAKEN, Verdict.ASKED)


@pytest.mark.parametrize(
    "says",
    [
        "no porosity in the frame weld this time",
        "blobs gone with less retraction",
        "scratches on the seat don't matter",
        "filled the pinholes in the casing",
        "handle slid onto the frame, fits",
        "strings for the shade",
        "paint all over the casing",
    ],
)
def test_what_is_gone_meant_or_mended_is_no_failure(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.FAILURE), line


@pytest.mark.parametrize(
    "says",
    [
        "tapered end of the handle 7.98",
        "glazed seat 612 g",
        "flared end of the flex 4.2",
        "recessed face of the casing 2.1 deep",
    ],
)
def test_what_only_describes_what_was_measured_is_no_work(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.STEP), line


@pytest.mark.parametrize(
    "says",
    [
        "rumbles of thunder outside",
        "bread burned while i soldered",
        "storm snapped the washing line",
        "gloves split",
    ],
)
def test_what_befell_nothing_of_the_bench_is_no_failure(says: str) -> None:
    line = understand(says, WORDS)
    assert not (line.verdict is Verdict.TAKEN and line.kind is Kind.FAILURE), line


@pytest.mark.parametrize(
    "who",
    ["glazier", "polisher", "anodiser", "upholsterer", "etcher", "dealer", "seller",
     "stockist", "tanner", "saw doctor"],
)  # fmt: skip
def test_who_works_or_sells_is_never_a_part(who: str) -> None:
    for says in (f"{who} lost the seat", f"rang the {who}", f"seat to the {who}"):
        assert not understand(says, WORDS).facts.part_is_new, says
