"""One verdict of a reading, whichever door is asked: bench, page, conformity.

All sizes are invented. The lid's width is drawn 20.0 ±0.1 mm; the caliper named has
U 0.04 mm. Where no instrument is named nobody said how well it was read.
"""

from __future__ import annotations

import json

import pytest

from logbook.records.kinds.happenings import Run
from logbook.screens.desk.last_value import last_value
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")

IN, OUT, CLOSE = "within", "off drawing", "too close to call"
WORD = {IN: "accept", OUT: "reject", CLOSE: CLOSE}
ON_PAGE = {
    IN: "within the limits",
    OUT: "outside the limits",
    CLOSE: "too close to a limit to call",
}


@pytest.mark.parametrize(
    ("value", "read_with", "critical", "verdict"),
    [
        ("20.08", "", False, IN),
        ("20.12", "", False, OUT),
        ("20.08", "caliper", False, CLOSE),
        ("20.12", "caliper", False, CLOSE),
        ("20.05", "caliper", False, IN),
        ("20.08", "", True, CLOSE),  # a guard band takes a caliper where none is named
        ("20.05", "", True, IN),
        ("20.15", "", True, OUT),
    ],
)
def test_bench_page_and_conformity_give_one_verdict(
    stand: Stand, value: str, read_with: str, verdict: str, *, critical: bool
) -> None:
    marked = ("--critical", "width") if critical else ()
    told(stand, "part", "lid", "--dimension", "width=20.0 ±0.1", *marked)
    told(stand, "instrument", "caliper", "--uncertainty", "0.04 mm")
    with_it = ("--with", read_with) if read_with else ()
    told(stand, "measure", "lid", "width", value, *with_it)
    told(stand, "release", "1.2", "--anyway")

    snapshot = stand.project.snapshot
    last = last_value(snapshot, snapshot.all(Run))
    assert last is not None
    assert last.verdict == verdict

    said = stand.look("conformity", "lid-1", "--json")[1]
    [piece] = json.loads(said)["pieces"]
    assert piece["verdict"] == WORD[verdict]

    guide = stand.look("guide", "1.2", "--print")[1]
    row = next(x for x in guide.splitlines() if f"{value} mm, " in x)
    assert ON_PAGE[verdict] in row
    notes = stand.look("notes", "--print")[1]
    assert f"| {value} mm | {verdict} |" in notes
