"""All records at one moment: names, revisions, pieces, whatever the order of files."""

from __future__ import annotations

import random
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from logbook.errors import NotFound
from logbook.quantity import parse_quantity
from logbook.records.kinds import design, happenings, workshop
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Disposition, State
from logbook.records.sizes.definition import definition
from logbook.records.states.dispositions import undisposed
from logbook.records.states.pieces import piece_state, readings_of
from logbook.records.states.tried import verdict_of
from logbook.records.together.from_files import make_snapshot
from logbook.records.together.references import part_of
from logbook.records.together.revisions import current_revision, revisions_of
from logbook.records.together.snapshot import Snapshot
from logbook.records.together.succession import next_snapshot
from logbook.records.written.text import Parsed, read_record
from tests.records.strategies import NOON


def snap(*records: Record) -> Snapshot:
    return make_snapshot([(f"{r.id}.md", "", Parsed(r)) for r in records])


BAR = design.Part(
    id="bar00001", title="crossbar", aliases=("beam",), formerly=("strut",)
)
HUB = design.Part(id="hub00001", title="hub")
REVS = tuple(
    design.Revision(
        id=f"rev0000{n}", title=f"crossbar {label}", part=BAR.ref, label=label,
        when=NOON + timedelta(hours=n), changes=changes,
    )
    for n, label, changes in (
        (1, "-", ()),
        (2, "A", (design.Change(
            characteristic=Ref("length", "chr00001"), becomes=parse_quantity("180 mm")
        ),)),
        (3, "B", (design.Change(
            characteristic=Ref("length", "chr00001"), withdrawn=True
        ),)),
    )
)  # fmt: skip
LENGTH = design.Characteristic(
    id="chr00001", title="length", part=BAR.ref, nominal=parse_quantity("178 mm"),
    lower_limit=parse_quantity("177 mm"),
)  # fmt: skip
PIECE = workshop.Piece(
    id="pce00001", title="crossbar 1", part=BAR.ref, revision=REVS[1].ref
)
BASE = (BAR, HUB, *REVS, LENGTH, PIECE)


@pytest.mark.parametrize("words", ["crossbar", "CROSSBAR", "beam", "strut", "bar0"])
def test_a_part_is_found_by_any_of_its_names(words: str) -> None:
    assert snap(*BASE).lookup(words, design.Part) is BAR


def test_a_name_of_several_lists_them_all() -> None:
    other = design.Part(id="bar00002", title="Crossbar")
    found = snap(BAR, other)
    with pytest.raises(NotFound, match=r"bar00001.*bar00002"):
        found.lookup("crossbar")
    [problem] = found.problems
    assert "bar00001.md" in str(problem)
    assert "bar00002.md" in str(problem)


def test_one_id_in_two_files_names_both() -> None:
    found = make_snapshot([("b.md", "", Parsed(BAR)), ("a.md", "", Parsed(HUB)),
                           ("c.md", "", Parsed(BAR))])  # fmt: skip
    [problem] = found.problems
    assert str(problem).startswith("c.md")
    assert "b.md" in str(problem)


def test_a_newer_format_opens_read_only() -> None:
    newer = design.Project(id="prj00001", title="stand", format=99)
    assert snap(newer).read_only
    assert not snap(design.Project(id="prj00001", title="stand")).read_only


PROJECT = '# Stand\n\n```toml\nid = "pr000001"\nkind = "project"\n{}\n```\n'


@pytest.mark.parametrize(
    ("facts", "line", "said"),
    [
        ('format = 1\nunit = "furlong"', 7, "found “furlong”; accepted: mm or in"),
        ('format = 1\nunit = "kg"', 7, "unit: found “kg”; accepted: mm or in"),
        ("unit = 25.4", 6, "unit: found 25.4; accepted: words in quotes"),
        ('format = "2"\nunit = "in"', 6, "format: found “2”; accepted: a whole number"),
        ("format = 0", 6, "format: found 0; accepted: the number of a format, 1"),
        ('<<<<<<< a\nunit = "in"\n=======\n>>>>>>> b', 6, "found a merge conflict"),
        ("unit = ", 6, "TOML 1.0"),
    ],
)
def test_nothing_is_logged_while_the_unit_that_is_meant_is_not_known(
    facts: str, line: int, said: str
) -> None:
    path = "as-built/project.md"
    unsure = read_record(PROJECT.format(facts).encode(), path)
    files = {path: ("", unsure), "as-built/parts/2601/bar00001-x.md": ("", Parsed(BAR))}
    found = make_snapshot((at, *read) for at, read in files.items())
    assert found.read_only.startswith(f"{path}:{line}: ")
    assert said in found.read_only
    mended = read_record(PROJECT.format('unit = "in"').encode(), path)
    later = next_snapshot(found, files, {**files, path: ("1", mended)}, [path])
    assert (later.read_only, later.project.unit) == ("", "in")
    again = next_snapshot(later, {**files, path: ("1", mended)}, files, [path])
    assert again.read_only == found.read_only


def test_a_reference_to_nothing_is_named() -> None:
    piece = workshop.Piece(id="pce00009", title="x 1", part=Ref("x", "gone0000"))
    [problem] = snap(piece).problems
    assert "x gone0000" in str(problem)


def test_revisions_change_what_is_defined() -> None:
    found = snap(*BASE)
    sizes = [[str(d.nominal) for d in definition(found, r)] for r in REVS]
    assert sizes == [["178 mm"], ["180 mm"], []]
    # The tolerance stays what it was: the limit moves along with its nominal.
    assert definition(found, REVS[1])[0].lower == parse_quantity("179 mm")
    assert [verdict_of(found, r) for r in REVS] == ["untried", "tried", "untried"]


def test_a_withdrawn_revision_is_not_current() -> None:
    said = happenings.Status(
        id="sta00001", title="s", of=REVS[2].ref, state=State.WITHDRAWN
    )
    assert current_revision(snap(*BASE), BAR) is REVS[2]
    found = snap(*BASE, said)
    assert current_revision(found, BAR) is REVS[1]
    assert verdict_of(found, REVS[2]) == "withdrawn"


def events() -> tuple[Record, ...]:
    fault = happenings.Deviation(
        id="dev00001", title="d", piece=PIECE.ref, when=NOON + timedelta(hours=5)
    )
    return (
        fault,
        happenings.Status(id="sta00001", title="s", of=PIECE.ref, state=State.SENT_OUT,
                          when=NOON + timedelta(hours=6)),
        happenings.Disposal(id="dsp00001", title="x", piece=PIECE.ref,
                            answers=fault.ref, disposition=Disposition.SCRAP,
                            when=NOON + timedelta(hours=7)),
        happenings.Failure(id="fai00001", title="f", piece=PIECE.ref,
                           when=NOON + timedelta(hours=8)),
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(10))
def test_the_order_of_files_does_not_matter(seed: int) -> None:
    records = [*BASE, *events()]
    random.Random(seed).shuffle(records)
    found = snap(*records)
    assert not found.problems
    assert piece_state(found, PIECE) is State.SCRAPPED
    assert [f.id for f in undisposed(found)] == ["fai00001"]
    assert current_revision(found, BAR) is REVS[2]
    assert [r.id for r in found.mentions(PIECE)] == [r.id for r in events()]


def test_the_last_entry_decides_the_state_of_a_piece() -> None:
    states = [piece_state(snap(*BASE, *events()[:n]), PIECE) for n in range(4)]
    assert states == [State.MADE, State.MADE, State.SENT_OUT, State.SCRAPPED]


def test_readings_come_in_the_order_they_were_taken() -> None:
    runs = [
        happenings.Run(id=f"run0000{n}", title="r", piece=PIECE.ref, readings=(
            happenings.Reading(id=f"rdg0000{n}", at=NOON + timedelta(hours=hour),
                          what=LENGTH.ref, value=parse_quantity(f"{n} mm")),
        ))
        for n, hour in ((1, 9), (2, 3), (3, 6))
    ]  # fmt: skip
    taken = readings_of(snap(*BASE, *runs), PIECE, LENGTH)
    assert [one.value for one in taken] == [2, 3, 1]
    assert readings_of(snap(*BASE, *runs), PIECE, design.Characteristic(
        id="chr00002", title="width", part=BAR.ref)) == ()  # fmt: skip


def test_references_in_a_circle_end() -> None:
    itself = Ref("Round", "2abcdefg")
    note = happenings.Note(id="2abcdefg", title="Round", when=NOON, about=(itself,))
    made = make_snapshot([("as-built/notes/n.md", "", Parsed(note))])
    assert part_of(made, note) is None


@pytest.mark.parametrize("ids", ["1234", "4321", "2413"])
def test_revisions_of_one_instant_come_in_the_order_they_follow(ids: str) -> None:
    made: list[design.Revision] = []
    for label, number in zip("-ABC", ids, strict=True):
        made.append(
            design.Revision(
                id=f"rev1000{number}", title=f"hub {label}", part=HUB.ref, label=label,
                when=NOON, follows=made[-1].ref if made else None,
            )
        )  # fmt: skip
    found = snap(HUB, *made)
    assert "".join(r.label for r in revisions_of(found, HUB)) == "-ABC"
    assert current_revision(found, HUB) is made[-1]


@given(
    days=st.lists(st.integers(0, 9), min_size=1, max_size=8),
    before=st.lists(st.integers(0, 7), min_size=8, max_size=8),
    names=st.permutations(range(8)),
)
def test_a_revision_is_never_older_than_the_one_it_follows(
    days: list[int], before: list[int], names: list[int]
) -> None:
    made: list[design.Revision] = []
    for at, day in enumerate(days):
        follows = made[before[at]].ref if before[at] < at else None
        made.append(
            design.Revision(
                id=f"rev1000{names[at]}", title=f"hub {at}", part=HUB.ref,
                label=str(at), when=NOON + timedelta(days=day), follows=follows,
            )
        )  # fmt: skip
    found = snap(HUB, *made)
    line = revisions_of(found, HUB)
    assert {one.id for one in line} == {one.id for one in made}
    place = {one.id: at for at, one in enumerate(line)}
    for one in made:
        assert one.follows is None or place[one.follows.id] < place[one.id]
    if all(one.follows is None for one in made):
        assert [one.when for one in line] == sorted(one.when for one in made)


def test_revisions_that_follow_each_other_in_a_circle_go_by_time() -> None:
    refs = [Ref("hub 1", "rev10001"), Ref("hub 2", "rev10002")]
    made = [
        design.Revision(
            id=own.id, title=own.name, part=HUB.ref, label=own.name, follows=other,
            when=NOON + timedelta(hours=at),
        )
        for at, (own, other) in enumerate(zip(refs, reversed(refs), strict=True))
    ]  # fmt: skip
    found = snap(HUB, *made)
    assert list(revisions_of(found, HUB)) == made
