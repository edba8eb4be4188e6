"""Advice kept up to date equals advice worked out anew, whatever happens in between."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta

from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.advisor import Advisor, Told, advise
from logbook.advice.changes.impact_told import impact, impact_advice
from logbook.advice.faults.holding import held_by_build, holding_advice, standings
from logbook.advice.faults.verdicts import outcome
from logbook.advice.faults.verdicts_told import told
from logbook.advice.ground.advice import Advice, as_facts
from logbook.advice.pieces.completeness import build_whole, release_whole, whole_advice
from logbook.advice.pieces.conformity import inspected
from logbook.advice.pieces.conformity_told import piece_advice
from logbook.advice.pieces.counts import counts_advice
from logbook.advice.stops import stops
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds import assembling, design, happenings, made_public, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Blame, Disposition, Grade, State
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.revisions import revisions_of
from logbook.records.together.snapshot import Snapshot
from logbook.records.written.text import Parsed

START = datetime(2026, 3, 1, 9, 0, tzinfo=UTC)
PLACES = ("", "left", "right")
BUILD = workshop.Build(id="bu1d0000", title="build 1", when=START)
PARTS = tuple(
    design.Part(id=f"part000{n}", title=name, name=name, when=START, material="beech")
    for n, name in enumerate(("base", "bar"))
)
REVISIONS = tuple(
    design.Revision(
        id=f"rev0000{n}", title=f"{part.title} first issue", part=part.ref, label="-",
        when=START,
    )
    for n, part in enumerate(PARTS)
)  # fmt: skip


def q(text: str) -> Quantity:
    found = parse_quantity(text, "mm")
    assert isinstance(found, Quantity)
    return found


SIZES = tuple(
    design.Characteristic(
        id=f"size000{n}", title="width", name="width", part=part.ref, when=START,
        since=REVISIONS[n].ref, nominal=q(nominal), lower_limit=q(low),
        upper_limit=q(high), critical=bool(n),
    )
    for n, (part, nominal, low, high) in enumerate(
        zip(PARTS, ("180.0", "179.7"), ("179.5", "179.6"), ("180.5", "179.8"),
            strict=True)
    )
)  # fmt: skip
STEP = assembling.Step(id="step0000", title="fit the bar", when=START, closes=True)
GAP = assembling.Fit(
    id="gap00000", title="bar in base", formula="base.width - bar.width", when=START,
    lower_limit=q("0.1"), upper_limit=q("0.5"), made_last=SIZES[1].ref,
)  # fmt: skip
LINES = tuple(
    assembling.Line(
        id=f"ne00000{n}", title=part.title, part=part.ref, when=START, quantity=2,
        assembly=PARTS[0].ref if n else None,
    )
    for n, part in enumerate(PARTS)
)  # fmt: skip
RELEASE = made_public.Release(
    id="re1ease0", title="release 1.0", label="1.0", when=START,
    revisions=tuple(revision.ref for revision in REVISIONS),
)  # fmt: skip
GROUND: tuple[Record, ...] = (
    BUILD, *PARTS, *REVISIONS, *SIZES, STEP, GAP, *LINES, RELEASE,
)  # fmt: skip

readings = st.sampled_from(
    ["178.6", "179.7", "179.75", "180.0", "20 °C", "1/4 in", "18 ga steel", "2 h"]
)
which = st.integers(0, 1)


@st.composite
def something_happened(draw: st.DrawFn, number: int) -> Record:
    """Give something that happens: a piece, a reading, a fault, what became of it."""
    n = draw(which)
    kind = draw(st.sampled_from(sorted(_MAKERS)))
    made = _MAKERS[kind](draw, n, f"{kind[:4]}{number:04d}")
    return replace(made, when=START + timedelta(minutes=draw(st.integers(1, 9))))


def _piece_ref(draw: st.DrawFn, n: int) -> Ref:
    return Ref(f"{PARTS[n].title}-1", f"piec000{draw(st.integers(0, 4))}")


def _piece(draw: st.DrawFn, n: int, identity: str) -> Record:
    return workshop.Piece(
        id=f"piec000{draw(st.integers(0, 4))}", title=identity, part=PARTS[n].ref,
        revision=REVISIONS[n].ref, build=BUILD.ref, place=draw(st.sampled_from(PLACES)),
    )  # fmt: skip


def _run(draw: st.DrawFn, n: int, identity: str) -> Record:
    reading = happenings.Reading(
        id=f"r{identity[1:]}", at=START, what=SIZES[n].ref, value=q(draw(readings)),
        place=draw(st.sampled_from(PLACES)),
    )  # fmt: skip
    return happenings.Run(
        id=identity, title=identity, piece=_piece_ref(draw, n), readings=(reading,)
    )


def _deviation(draw: st.DrawFn, n: int, identity: str) -> Record:
    return happenings.Deviation(
        id=identity, title=identity, piece=_piece_ref(draw, n), build=BUILD.ref,
        characteristic=SIZES[n].ref, found=q(draw(readings)),
        disposition=draw(st.sampled_from([None, *Disposition])),
        met_by_others=draw(st.sampled_from(Blame)),
    )  # fmt: skip


def _failure(draw: st.DrawFn, n: int, identity: str) -> Record:
    cause = draw(st.sampled_from([None, happenings.Cause(said="wedged by the head")]))
    return happenings.Failure(
        id=identity, title="cracked", piece=_piece_ref(draw, n), part=PARTS[n].ref,
        cause=cause, cure=draw(st.sampled_from(["", "pan heads"])),
        disposition=draw(st.sampled_from([None, *Disposition])),
    )  # fmt: skip


def _disposal(draw: st.DrawFn, n: int, identity: str) -> Record:
    return happenings.Disposal(
        id=identity, title=identity, piece=_piece_ref(draw, n),
        disposition=draw(st.sampled_from(Disposition)),
    )  # fmt: skip


def _status(draw: st.DrawFn, n: int, identity: str) -> Record:
    of = draw(st.sampled_from([_piece_ref(draw, n), REVISIONS[n].ref]))
    state = draw(st.sampled_from(State))
    return happenings.Status(id=identity, title=identity, of=of, state=state)


def _override(draw: st.DrawFn, _n: int, identity: str) -> Record:
    hold = draw(st.sampled_from(["bar in base", "not yet", "cracked"]))
    return happenings.Override(id=identity, title=identity, hold=hold, build=BUILD.ref)


def _hold(draw: st.DrawFn, _n: int, identity: str) -> Record:
    grade = draw(st.sampled_from(Grade))
    return assembling.Hold(
        id=identity, title=identity, step=STEP.ref, because="not yet", grade=grade
    )


def _count(draw: st.DrawFn, n: int, identity: str) -> Record:
    used, scrapped = draw(which), draw(which)
    return happenings.Count(
        id=identity, title=identity, part=PARTS[n].ref, used=used, scrapped=scrapped
    )


def _revision(draw: st.DrawFn, n: int, identity: str) -> Record:
    change = design.Change(
        characteristic=SIZES[n].ref, becomes=q(draw(readings)),
        to_suit=draw(st.booleans()), withdrawn=draw(st.booleans()),
    )  # fmt: skip
    return design.Revision(
        id=identity, title=f"{PARTS[n].title} {identity}", part=PARTS[n].ref,
        label=identity, follows=REVISIONS[n].ref, changes=(change,),
        material=draw(st.sampled_from(["", "maple"])),
        remake=draw(st.sampled_from(["", "yes", "no", "only if it rattles"])),
    )  # fmt: skip


def _size(draw: st.DrawFn, n: int, _identity: str) -> Record:
    return replace(
        SIZES[n],
        title=draw(st.sampled_from(["width", "breadth"])),
        formerly=("width",),
        nominal=q(draw(readings)),
    )


_MAKERS = {
    "piece": _piece, "run0": _run, "deva": _deviation, "fa1ed": _failure,
    "disp": _disposal, "stat": _status, "over": _override, "h0dd": _hold,
    "size": _size, "c0nt": _count, "rev0": _revision,
}  # fmt: skip


@st.composite
def stories(draw: st.DrawFn) -> list[dict[str, Record]]:
    """Give the records as they stand after each of some changes."""
    held: dict[str, Record] = {record.id: record for record in GROUND}
    story = [dict(held)]
    for number in range(draw(st.integers(1, 6))):
        for at in range(draw(st.integers(1, 3))):
            record = draw(something_happened(number * 10 + at))
            held[record.id] = record
        if draw(st.booleans()):
            held.pop(draw(st.sampled_from(sorted(held))))
        story.append(dict(held))
    return story


def snap(records: dict[str, Record], order: int = 0) -> Snapshot:
    files = [
        (f"as-built/{r.id}.md", repr(r), Parsed(record=r)) for r in records.values()
    ]
    random.Random(order).shuffle(files)
    return make_snapshot(files)


def same(one: Told, other: Told) -> bool:
    facts = [list(map(as_facts, each.advice)) for each in (one, other)]
    return facts[0] == facts[1] and one.problems == other.problems


@settings(max_examples=40, deadline=None)
@given(stories())
def test_kept_up_to_date_equals_worked_out_anew(story: list[dict[str, Record]]) -> None:
    advisor = Advisor()
    for records in story:
        snapshot = snap(records)
        assert same(advisor.update(snapshot), advise(snapshot))


@settings(max_examples=25, deadline=None)
@given(stories(), st.integers(1, 99))
def test_the_order_of_reading_files_does_not_matter(
    story: list[dict[str, Record]], order: int
) -> None:
    one, other = (snap(story[-1], n) for n in (0, order))
    assert same(advise(one), advise(other))
    found = [stops(snapshot) for snapshot in (one, other)]
    facts = [list(map(as_facts, each.stops)) for each in found]
    assert facts[0] == facts[1]


@settings(max_examples=40, deadline=None)
@given(stories())
def test_nothing_on_record_stops_an_answer(story: list[dict[str, Record]]) -> None:
    snapshot = snap(story[-1])
    pieces = snapshot.all(workshop.Piece)
    said: list[Advice] = [piece_advice(inspected(snapshot, one)) for one in pieces]
    for build in snapshot.all(workshop.Build):
        said.append(whole_advice(build_whole(snapshot, build)))
        held = held_by_build(snapshot, build)
        said += holding_advice(snapshot, standings(snapshot, held, build))
    for release in snapshot.all(made_public.Release):
        said.append(whole_advice(release_whole(snapshot, release)))
    for failure in snapshot.all(happenings.Failure):
        said.append(told(outcome(snapshot, failure)))
    for part in snapshot.all(design.Part):
        for revision in (None, *revisions_of(snapshot, part)):
            said.append(impact_advice(impact(snapshot, part, revision)))
    said += counts_advice(snapshot)
    for advice in said:
        assert advice.statement
        assert advice.formula
        assert all(ref.id for ref in advice.inputs)
