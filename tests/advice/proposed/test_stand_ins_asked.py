"""What was used instead, and how a piece was made, is asked of the thing it is."""

from __future__ import annotations

import pytest

from logbook.records.kinds.assembling import Line, Step
from logbook.records.kinds.happenings import (
    Decision,
    Disposal,
)
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from tests.advice.proposed.together_by_hand import Bench, done


@pytest.mark.parametrize(
    ("line", "asked"),
    [
        ("used 1/4 in plate instead of 6 mm", "can 1/4 in plate stand in for the lid?"),
        ("Use brass for the lid instead of aluminium", "can brass stand in for the"),
        ("decided to use black plate for the lid instead of paint", ""),
        ("From now on the lid is cut from 0.5 mm brass instead of card", ""),
        ("we used it instead of the other", ""),
    ],
)
def test_only_a_thing_that_takes_the_parts_place_is_asked_about(
    bench: Bench, line: str, asked: str
) -> None:
    lid = bench.part("lid", material="aluminium 5052-H32")
    bench.put(Line(id=new_id(), title="lid", part=lid.ref, quantity=1, when=bench.now))
    entry = Decision(id=new_id(), title=line, part=lid.ref, when=bench.now)
    bench.put(entry)
    found = bench.asked("list")
    assert [one[: len(asked)] for one in found] == ([asked] if asked else [])


@pytest.mark.parametrize(
    ("line", "part", "asked"),
    [
        ("used M2.5 screws instead of M3 in the lid", "lid", "M2.5 screws|M3x6 screw"),
        ("M2.5x10 used instead of M3 on the plate", "plate", "M2.5x10|M3 pan head"),
        ("took M2.5 instead of M3x6", "", "M2.5|M3x6 screw"),
        ("took M2.5 instead of M3", "", ""),
        ("used M5x16 instead of M4x16 on the plate", "plate", ""),
    ],
)
def test_a_fastener_stands_in_for_the_one_given_up_and_never_for_its_part(
    bench: Bench, line: str, part: str, asked: str
) -> None:
    parts = {name: bench.part(name) for name in ("lid", "plate")}
    for title, of in (("M3x6 screw", "lid"), ("M3 pan head", "plate")):
        screw = bench.part(title)
        bench.put(
            Line(id=new_id(), title=title, part=screw.ref, quantity=4, when=bench.now)
        )
        bench.put(
            Line(id=new_id(), title=of, part=parts[of].ref, quantity=1, when=bench.now)
        )
        uses = (parts[of].ref, screw.ref)
        bench.put(Step(id=new_id(), title=f"screw {of}", uses=uses, when=bench.now))
    told = parts[part].ref if part else None
    bench.put(Decision(id=new_id(), title=line, part=told, when=bench.now))
    what, _, of = asked.partition("|")
    expected = [f"can {what} stand in for the {of}? what came of it?"] if asked else []
    assert bench.asked("list") == expected


@pytest.mark.parametrize("gone", [True, False])
def test_settings_are_asked_of_a_piece_that_is_here(
    bench: Bench, *, gone: bool
) -> None:
    foot = bench.part("foot")
    pieces = [
        bench.put(
            Piece(
                id=new_id(), title=f"foot-{n}", number=n, part=foot.ref, when=bench.now
            )
        )
        for n in (1, 2)
    ]
    if gone:
        away = Disposal(
            id=new_id(), title="scrap: foot-2", piece=pieces[1].ref, when=bench.now,
            disposition=Disposition.SCRAP,
        )  # fmt: skip
        bench.put(away)
    done(bench, "printed the foot with nozzle 0.6 mm", foot)
    [asked] = bench.asked("piece")
    assert asked.startswith(f"was foot-{1 if gone else 2} made with")
