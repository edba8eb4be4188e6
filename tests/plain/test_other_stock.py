"""Stock of another thickness, the right one not to be had, is out of the drawing."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Deviation, Run
from logbook.records.making.drafts import Draft
from tests.plain.judge import NOW, of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("collar", "diffuser", "base")


@pytest.mark.parametrize(
    ("says", "found", "wanted", "cause"),
    [
        (
            "used 1/4 in plate for the collar, the shop had no 6 mm",
            "1/4 in", "6 mm", "the shop had no 6 mm",
        ),
        (
            "collar plate 8 mm instead of 6 because the shop had no other",
            "8 mm", "6 mm", "the shop had no other",
        ),
        (
            "used 3 mm acrylic for the diffuser, they had no 4 mm",
            "3 mm", "4 mm", "they had no 4 mm",
        ),
        (
            "base from 2.5 mm sheet instead of 2.0 because the shop had no other",
            "2.5 mm", "2.0 mm", "the shop had no other",
        ),
        (
            "collar thickness 8 mm instead of 6, the shop had no other",
            "8 mm", "6 mm", "the shop had no other",
        ),
        (
            "collar is 8 mm thick instead of 6, it was all they had",
            "8 mm", "6 mm", "it was all they had",
        ),
    ],
)  # fmt: skip
def test_it_is_a_deviation_of_the_thickness_with_its_reason(
    says: str, found: str, wanted: str, cause: str
) -> None:
    line = understand(says, WORDS)
    assert line.verdict is Verdict.TAKEN
    records = drafted(line, world(known(WORDS)))
    [off] = [one for one in records if isinstance(one, Deviation)]
    assert (str(off.found), str(off.wanted)) == (found, wanted)
    assert off.cause is not None
    assert off.cause.said == cause
    made = [one.title for one in records if isinstance(one, Characteristic)]
    assert made == ["thickness"]


@pytest.mark.parametrize(
    "says",
    [
        "took 8 mm plate for the collar, the shop had no other",
        "took a thicker plate for the collar, 8 mm, the shop had no other",
        "collar came in 8 mm plate, the shop had no other",
        "collar made from 8 mm plate because they had nothing else",
    ],
)
def test_what_it_should_have_been_is_the_drawing_where_that_is_on_record(
    says: str,
) -> None:
    line = understand(says, WORDS)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    records = known(WORDS)
    [run] = [one for one in drafted(line, world(records)) if isinstance(one, Run)]
    assert [str(one.value) for one in run.readings] == ["8 mm"]
    sized = Draft(world(records), NOW)
    [collar] = sized.snapshot.named("collar", Part)
    sized.characteristic(collar, "thickness", parse_quantity("6 mm"))
    drawn = world((*records, *sized.records))
    [off] = [one for one in drafted(line, drawn) if isinstance(one, Deviation)]
    assert (str(off.found), str(off.wanted)) == ("8 mm", "6 mm")
    assert off.cause is not None


@pytest.mark.parametrize(
    "says",
    [
        "diffuser face 3.1 and the shop 6 mm",
        "we 4.2 mm on the collar",
        "took 1/4 in plate instead of 6 mm for the collar",
    ],
)
def test_who_has_or_makes_it_is_no_dimension(says: str) -> None:
    records = drafted(understand(says, WORDS), world(known(WORDS)))
    named = {one.title for one in records if isinstance(one, Characteristic)}
    assert named.isdisjoint({"the shop", "we", "they"})
