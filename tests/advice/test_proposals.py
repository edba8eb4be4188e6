"""The rules of proposals: a likely mate is seen, and nothing else is cried about."""

from __future__ import annotations

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.advice.proposals import brought_up, offered, proposals
from logbook.advice.proposed.proposal import MARK_LENGTH, Proposal, decline
from logbook.advice.steps.step_words import imperative
from logbook.errors import BadInput, NotFound
from logbook.quantity import parse_quantity, quantity
from logbook.records.kinds.assembling import Fit, Joint, Layer, Line, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import (
    Decision,
    Disposal,
    Note,
    Reading,
    Run,
    StepDone,
)
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Build, Piece, Stock
from logbook.records.making.drafts import Draft
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.snapshot import Snapshot, Stored
from logbook.records.written.text import Parsed

NOON = datetime(2026, 3, 7, 12, tzinfo=UTC)


class Bench:
    """Records put together by hand, as an editor would."""

    def __init__(self) -> None:
        self.records: list[Record] = []

    @property
    def now(self) -> datetime:
        return NOON + timedelta(minutes=len(self.records))

    def put(self, record: Record) -> Record:
        self.records.append(record)
        return record

    def part(self, name: str, **facts: object) -> Part:
        part = Part(id=new_id(), title=name, name=name, when=self.now, **facts)  # type: ignore[arg-type]
        self.put(part)
        return part

    def size(
        self, part: Part, name: str, read: str = "", drawn: str = ""
    ) -> Characteristic:
        what = Characteristic(
            id=new_id(), title=name, name=name.replace(" ", "_"), part=part.ref,
            when=self.now, nominal=parse_quantity(drawn, "mm") if drawn else None,
        )  # fmt: skip
        self.put(what)
        if read:
            reading = Reading(
                id=new_id(), at=self.now, what=what.ref,
                value=parse_quantity(read, "mm"),
            )  # fmt: skip
            title = f"{part.title} {name} {read}"
            run = Run(
                id=new_id(), title=title, when=self.now, part=part.ref,
                readings=(reading,),
            )  # fmt: skip
            self.put(run)
        return what

    def snapshot(self) -> Snapshot:
        files = [(f"{one.id}.md", "0" * 64, Parsed(one, ())) for one in self.records]
        found = make_snapshot(files)
        assert found.problems == ()
        return found

    def asked(self, topic: str = "") -> list[str]:
        every = proposals(self.snapshot())
        return [one.question for one in every if topic in {"", one.topic}]


@pytest.fixture
def bench() -> Bench:
    return Bench()


# -- gaps ------------------------------------------------------------------------


def test_one_inside_and_one_outside_size_nearly_equal_are_a_likely_mate(
    bench: Bench,
) -> None:
    bench.size(bench.part("base"), "opening", "178.6", drawn="180.0")
    assert bench.asked() == []
    bench.size(bench.part("crossbar"), "length", "179.7")
    assert bench.asked() == [
        "does the crossbar go into the base's opening? with how much room?"
    ]


@pytest.mark.parametrize(
    ("outer", "read", "inner", "other"),
    [
        ("length", "178.6", "length", "179.7"),
        ("opening", "178.6", "opening", "179.7"),
        ("opening", "178.6", "length", "150.0"),
        ("opening", "178.6", "length", "181.0"),
        ("opening", "178.6", "diameter", "178.6"),
        ("slot width", "4.0", "thickness", "4.0"),
        ("hole inset", "40.0", "length", "40.0"),
        ("slot depth", "20.0", "width", "20.0"),
        ("aperture width", "36.0", "width", "36.0"),
    ],
    ids=" ".join,
)
def test_what_is_no_likely_mate_is_let_be(
    bench: Bench, outer: str, read: str, inner: str, other: str
) -> None:
    bench.size(bench.part("base"), outer, read)
    bench.size(bench.part("crossbar"), inner, other)
    assert bench.asked() == []


def test_sizes_nobody_measured_suggest_nothing(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", drawn="180.0")
    bench.size(bench.part("crossbar"), "length", drawn="179.7")
    assert bench.asked() == []


def test_where_two_parts_could_be_the_mate_neither_is_proposed(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bench.size(bench.part("crossbar"), "length", "178.3")
    bench.size(bench.part("shelf"), "width", "178.4")
    assert bench.asked() == []


def test_what_is_named_together_is_seen_where_sizes_alone_say_too_little(
    bench: Bench,
) -> None:
    base, mask = bench.part("base"), bench.part("mask")
    bench.size(base, "mask slot", "0.55")
    bench.size(mask, "thickness", "0.53")
    assert "mask go into the base's mask slot" in bench.asked()[0]


def test_a_step_that_takes_both_decides_between_two_candidates(bench: Bench) -> None:
    base, bar = bench.part("base"), bench.part("crossbar")
    bench.size(base, "opening", "178.6")
    bench.size(bar, "length", "178.3")
    bench.size(bench.part("shelf"), "width", "178.4")
    uses = (base.ref, bar.ref)
    bench.put(Step(id=new_id(), title="fit the bar", when=bench.now, uses=uses))
    [asked] = bench.asked("gap")
    assert "does the crossbar go" in asked


def test_parts_a_gap_speaks_of_already_are_not_asked_about(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bench.size(bench.part("crossbar"), "length", "179.7")
    fit = Fit(
        id=new_id(), title="bar", when=bench.now,
        formula="base.opening - crossbar.length",
    )  # fmt: skip
    bench.put(fit)
    assert bench.asked() == []


@pytest.mark.parametrize(
    ("answer", "last"),
    [
        ("0.1 to 0.5", ""),
        ("0.1 to 0.5, made last", "crossbar"),
        ("0.1 to 0.5 mm, crossbar made last", "crossbar"),
        ("0.1 to 0.5; the base is made last", "base"),
        ("0.1…0.5, cut last", "crossbar"),
    ],
)
def test_the_room_and_what_is_made_last_are_read_from_one_answer(
    bench: Bench, answer: str, last: str
) -> None:
    opening = bench.size(bench.part("base"), "opening", "178.6")
    length = bench.size(bench.part("crossbar"), "length", "179.7")
    snapshot = bench.snapshot()
    draft = Draft(snapshot, bench.now)
    proposals(snapshot)[0].take(draft, answer)
    [fit] = draft.new
    assert isinstance(fit, Fit)
    assert (str(fit.lower_limit), str(fit.upper_limit)) == ("0.1 mm", "0.5 mm")
    meant = {"crossbar": length.ref, "base": opening.ref}.get(last)
    assert fit.made_last == meant


def big_project(seed: int) -> Bench:
    """Give seventy parts with four measured sizes each, drawn at random."""
    chance, bench = random.Random(seed), Bench()
    names = (
        "length", "width", "thickness", "height", "opening", "slot width", "bore",
        "hole inset", "diameter",
    )  # fmt: skip
    for number in range(70):
        part = bench.part(f"piece{chr(97 + number // 26)}{chr(97 + number % 26)}")
        for name in chance.sample(names, 4):
            scale = 5 if name in {"thickness", "slot width", "bore"} else 100
            size = chance.uniform(0.5 * scale, 3 * scale)
            bench.size(part, name, f"{size:.2f}")
    return bench


@pytest.mark.parametrize("seed", range(5))
def test_seventy_parts_with_many_sizes_give_a_handful_of_questions(seed: int) -> None:
    bench = big_project(seed)
    # 280 sizes, some 60 openings and bores: chance alone must not fill a list.
    assert len(bench.asked()) <= 3


# -- joints ----------------------------------------------------------------------


def joint_through(bench: Bench, title: str, *parts: Part) -> Joint:
    joint = Joint(
        id=new_id(), title=title, when=bench.now, fastener="M4x16",
        layers=tuple(Layer(part=part.ref) for part in parts),
    )  # fmt: skip
    bench.put(joint)
    return joint


def test_layers_take_their_thickness_from_part_drawing_and_stock(bench: Bench) -> None:
    sheet = Stock(
        id=new_id(), title="2 mm sheet", when=bench.now,
        bought_as=parse_quantity("2 mm"), measured=parse_quantity("1.97 mm"),
    )  # fmt: skip
    bench.put(sheet)
    base = bench.part("base", stock=sheet.ref)
    collar = bench.part("collar")
    bench.size(collar, "thickness", drawn="6.0")
    diffuser = bench.part("diffuser", thickness=parse_quantity("4 mm"))
    washer = bench.part("washer")
    joint_through(bench, "M4x16 locknut", diffuser, collar, base, washer)
    [asked] = bench.asked()
    # A normal M4 washer is 0.8 mm thick (ISO 7089).
    assert "diffuser 4 mm, collar 6.0 mm, base 1.97 mm, washer 0.8 mm" in asked
    assert asked.endswith("is that the joint?")


@pytest.mark.parametrize(
    ("title", "said"),
    [
        ("M4x16 locknut through base", "(ISO 7040)"),
        ("M4x16 and a thin self-locking nut", "(DIN 985)"),
        ("M4x16 with a thin nut", "(ISO 4035)"),
        ("M4x16 nut through base", "(ISO 4032)"),
        ("M4x16 din 985 through base", "(DIN 985)"),
        ("M4x16 into a rivet nut", "which nut holds it"),
        ("M4x16 through base", "which nut holds it"),
    ],
)
def test_the_nut_is_taken_from_its_words_and_said_by_its_standard(
    bench: Bench, title: str, said: str
) -> None:
    joint_through(bench, title, bench.part("base", thickness=parse_quantity("2 mm")))
    assert said in bench.asked()[0]


def test_two_joints_of_the_same_screw_and_parts_are_told_apart(bench: Bench) -> None:
    base = bench.part("base", thickness=parse_quantity("2 mm"))
    for title in ("M4x16 in the middle", "M4x16 at the edge"):
        joint_through(bench, title, base)
    middle, edge = sorted(bench.asked(), reverse=True)
    assert middle.startswith("M4x16 in the middle: M4x16 through base")
    assert edge.startswith("M4x16 at the edge: M4x16 through base")


def test_what_is_no_metric_screw_is_left_to_the_check(bench: Bench) -> None:
    base = bench.part("base", thickness=parse_quantity("2 mm"))
    joint = joint_through(bench, "through base", base)
    bench.records[-1] = replace(joint, fastener="a bolt")
    assert bench.asked() == []


@pytest.mark.parametrize("answer", ["wood", "base", "base two", "99", "nut of brass x"])
def test_an_answer_about_a_joint_that_is_none_is_refused_in_one_sentence(
    bench: Bench, answer: str
) -> None:
    base, collar = bench.part("base"), bench.part("collar")
    joint_through(bench, "M4x16 locknut", collar, base)
    snapshot = bench.snapshot()
    [one] = proposals(snapshot)
    draft = Draft(snapshot, bench.now)
    if answer.startswith("nut"):
        one.take(draft, answer)
        assert isinstance(draft.amended[0], Joint)
        return
    with pytest.raises(BadInput, match="accepted: "):
        one.take(draft, answer)


# -- steps -----------------------------------------------------------------------


def done(bench: Bench, title: str, part: Part | None = None, **facts: object) -> None:
    entry = StepDone(
        id=new_id(), title=title, when=bench.now, part=part.ref if part else None,
        **facts,  # type: ignore[arg-type]
    )  # fmt: skip
    bench.put(entry)


@pytest.mark.parametrize(
    "line",
    ["glued the channel", "riveted the lid on", "soldered the leads", "welded the leg"],
)
def test_what_cannot_be_undone_asks_what_must_be_inside(
    bench: Bench, line: str
) -> None:
    done(bench, line)
    assert "cannot be undone: what must be inside" in bench.asked()[0]


@pytest.mark.parametrize(
    "line",
    ["screwed the lid on", "fitted the rivet nuts", "filed the glue line", "sawed it"],
)
def test_what_comes_apart_again_asks_nothing(bench: Bench, line: str) -> None:
    done(bench, line)
    assert bench.asked() == []


def test_a_step_that_says_what_is_inside_is_not_asked_about(bench: Bench) -> None:
    step = Step(
        id=new_id(), title="rivet the lid on", when=bench.now, closes=True,
        inside=("cable",),
    )  # fmt: skip
    bench.put(step)
    done(bench, "rivet the lid on", step=step.ref, closes=True)
    assert bench.asked() == []


def test_the_same_work_on_the_next_build_is_not_asked_about_again(
    bench: Bench,
) -> None:
    lid = bench.part("lid")
    for build in ("build 1", "build 2"):
        made = Build(id=new_id(), title=build, when=bench.now)
        bench.put(made)
        done(bench, "riveted the lid on", lid, build=made.ref)
    assert len(bench.asked()) == 1


@pytest.mark.parametrize(
    ("said", "step"),
    [
        ("glued the channel shut", "glue the channel shut"),
        ("sawed the crossbar at 178.45", "saw the crossbar"),
        ("Riveted the lid on, took 20 min", "rivet the lid on"),
        ("drilled the holes 9 mm in and it fits", "drill the holes 9 mm in"),
        ("lid is on", "lid is on"),
        ("put the cable in its channel", "put the cable in its channel"),
        (
            "On 24 November at quarter past seven in the evening I riveted it on.",
            "rivet it on",
        ),
        ("yesterday 18:40 we drilled the base", "drill the base"),
        ("On the lid I found a crack", "On the lid I found a crack"),
    ],
)
def test_an_entry_gives_its_step_the_plain_form(said: str, step: str) -> None:
    assert imperative(said) == step


# -- all of them -----------------------------------------------------------------


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


def test_one_that_was_declined_stays_away(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    snapshot = bench.snapshot()
    draft = Draft(snapshot, bench.now)
    decline(draft, proposals(snapshot)[0])
    bench.put(draft.new[0])
    assert bench.asked() == []


def test_only_what_the_entry_brought_up_is_asked_about(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    before = bench.snapshot()
    bench.put(Note(id=new_id(), title="remember the wide jaw", when=bench.now))
    assert brought_up(before, bench.snapshot()) is None
    done(bench, "glued the channel")
    asked = brought_up(before, bench.snapshot())
    assert asked is not None
    assert "glue the channel" in asked.question
    assert brought_up(bench.snapshot(), bench.snapshot()) is None


def test_a_proposal_is_meant_by_mark_beginning_or_name(bench: Bench) -> None:
    done(bench, "riveted the lid on")
    done(bench, "glued the channel")
    snapshot = bench.snapshot()
    first, second = proposals(snapshot)
    assert len(first.mark) == MARK_LENGTH
    assert offered(snapshot, first.mark.upper()) == first
    assert offered(snapshot, second.mark[:4]) == second
    assert offered(snapshot, "Riveted the lid on") == first
    with pytest.raises(NotFound, match="accepted: "):
        offered(snapshot, "nothing of the sort")


@settings(max_examples=60, deadline=None)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["opening", "length", "bore", "diameter", "slot", "size"]),
            st.integers(1, 400_00),
        ),
        max_size=12,
    )
)
def test_at_most_one_proposal_for_two_parts_and_the_order_of_files_is_none(
    sizes: list[tuple[str, int]],
) -> None:
    bench = Bench()
    for at, (name, hundredths) in enumerate(sizes):
        part = bench.part(f"p{chr(97 + at)}x")
        size = quantity(Fraction(hundredths, 100), "mm", Fraction(1, 100))
        bench.size(part, name, str(size))
    found = proposals(bench.snapshot())
    pairs = [frozenset(one.key.split()[1:]) for one in found]
    assert len(pairs) == len(set(pairs))
    stored = bench.snapshot().stored
    backward: dict[str, Stored] = dict(reversed(list(stored.items())))
    assert proposals(Snapshot(backward)) == found


def test_a_reference_by_name_alone_is_followed_too(bench: Bench) -> None:
    bench.size(bench.part("base"), "opening", "178.6")
    bar = bench.part("crossbar")
    what = Characteristic(
        id=new_id(), title="length", part=Ref("crossbar"), when=bench.now,
        nominal=parse_quantity("179.7 mm"),
    )  # fmt: skip
    bench.put(what)
    assert bar.title in bench.asked()[0]


@pytest.mark.parametrize(
    ("answer", "subject"),
    [
        ("y", "size: does bar-2 read 179.1 mm? yes"),
        ("179.2", "size: does bar-2 read 179.1 mm? 179.2"),
        ("179.2 at the left", "size: 179.2 at the left"),
        ("no", "not wanted: does bar-2 read 179.1 mm?"),
        ("not wanted", "not wanted: does bar-2 read 179.1 mm?"),
    ],
)
def test_what_was_answered_is_told_in_git_by_more_than_a_yes(
    answer: str, subject: str
) -> None:
    asked = Proposal(
        key="as cut 0d0d0d0d",
        topic="size",
        about=Ref("bar-2", "0p0p0p0p"),
        question="does bar-2 read 179.1 mm?",
        buys="",
        accepts="yes",
        inputs=(),
        take=lambda _, __: None,
    )
    assert asked.subject(answer) == subject
