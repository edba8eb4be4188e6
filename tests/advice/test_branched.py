"""Revisions opened beside each other: neither has what the other changed."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.advice.changes.branched import branched, ends_of
from logbook.advice.faults.applies import FIXED, NOT_KNOWN, standing
from logbook.advice.faults.failing import changed_up_to
from logbook.advice.faults.held_newest import newer_words
from logbook.advice.faults.holding import Held
from logbook.advice.ground.material import material_of
from logbook.publish.release.statements import stuff
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Change, Part, Revision
from logbook.records.kinds.happenings import Status
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import State
from logbook.records.sizes.definition import dimension
from logbook.records.together.revisions import line_to
from tests.advice.world import World


class Gate(World):
    """A gate whose rev A was followed by a rev B and a rev C in two clones."""

    def __post_init__(self) -> None:
        super().__post_init__()
        self.gate = self.part("gate", material="PLA")
        self.wall = self.dimension(self.gate, "wall", "2 mm")
        self.first = self.revision("-")
        self.a = self.revision("A", self.first, changed="air gap of 2 mm")
        wider = Change(
            characteristic=self.wall.ref,
            was=parse_quantity("2 mm"),
            becomes=parse_quantity("4 mm"),
        )
        self.b = self.revision(
            "B", self.a, changed="ABS", material="ABS", changes=(wider,)
        )
        self.c = self.revision("C", self.a, changed="corner rounded")

    def revision(
        self, label: str, follows: Revision | None = None, **facts: object
    ) -> Revision:
        made = Revision(
            title=f"gate rev {label}",
            part=self.gate.ref,
            label=label,
            follows=follows.ref if follows else None,
            **self.about(),
            **facts,  # type: ignore[arg-type]
        )
        return self.add(made)

    def fault(self, found_on: Revision, fixed_by: Revision) -> Erratum:
        made = Erratum(
            title="gate sagged",
            part=self.gate.ref,
            revisions=(found_on.ref,),
            fixed_by=fixed_by.ref,
            **self.about(),
        )
        return self.add(made)


@pytest.fixture
def world() -> Gate:
    return Gate()


def known(world: Gate, one: Revision) -> Revision:
    return world.snapshot().lookup(one.id, Revision)


def test_a_revision_has_what_led_to_it_and_nothing_of_the_one_beside_it(
    world: Gate,
) -> None:
    snapshot = world.snapshot()
    c = snapshot.lookup(world.c.id, Revision)
    assert [one.label for one in line_to(snapshot, c)] == ["-", "A", "C"]
    assert str(dimension(snapshot, c, world.wall).nominal) == "2 mm"
    assert stuff(snapshot, world.gate, c) == "PLA"
    assert material_of(snapshot, world.gate) == "PLA"
    b = snapshot.lookup(world.b.id, Revision)
    assert str(dimension(snapshot, b, world.wall).nominal) == "4 mm"
    assert stuff(snapshot, world.gate, b) == "ABS"


def test_a_cure_is_no_cure_of_the_revision_beside_it(world: Gate) -> None:
    fault = world.fault(world.a, world.b)
    snapshot = world.snapshot()
    cured, beside = (snapshot.lookup(one.id, Revision) for one in (world.b, world.c))
    assert standing(snapshot, fault, cured).startswith(FIXED)
    assert standing(snapshot, fault, beside) == NOT_KNOWN


def test_what_was_changed_up_to_a_revision_leaves_out_the_one_beside_it(
    world: Gate,
) -> None:
    fault = world.fault(world.first, world.a)
    snapshot = world.snapshot()
    c = snapshot.lookup(world.c.id, Revision)
    said = changed_up_to(snapshot, fault, c)
    assert said == "air gap of 2 mm; corner rounded"


def test_who_holds_the_one_beside_the_newest_hears_what_that_lacks(
    world: Gate,
) -> None:
    snapshot = world.snapshot()
    b = snapshot.lookup(world.b.id, Revision)
    said = newer_words(snapshot, Held((b,), "mine.stl"))
    assert "newer: gate rev C (corner rounded), without what gate rev B has" in said
    a = snapshot.lookup(world.a.id, Revision)
    assert "again? nobody has said: gate rev C does not have what gate rev B ch" in said
    assert "without" not in newer_words(snapshot, Held((a,), "mine.stl"))


def test_two_ends_are_named_with_what_ends_it_until_one_is_withdrawn(
    world: Gate,
) -> None:
    [said] = branched(world.snapshot())
    assert "gate rev C, opened last, to which the next is made, does not have" in said
    assert "logbook revise gate --joins 'gate rev B'" in said
    assert said.endswith("logbook status 'gate rev B' withdrawn")
    world.add(
        Status(
            title="gate rev B withdrawn",
            of=world.b.ref,
            state=State.WITHDRAWN,
            **world.about(),
        )
    )
    assert not [*branched(world.snapshot())]


def test_one_that_joins_the_other_has_what_both_changed_and_is_the_only_end(
    world: Gate,
) -> None:
    d = world.revision("D", world.c, joins=(world.b.ref,))
    fault = world.fault(world.a, world.b)
    snapshot = world.snapshot()
    found = snapshot.lookup(d.id, Revision)
    assert [one.label for one in line_to(snapshot, found)] == ["-", "A", "B", "C", "D"]
    assert str(dimension(snapshot, found, world.wall).nominal) == "4 mm"
    assert stuff(snapshot, world.gate, found) == "ABS"
    assert standing(snapshot, fault, found).startswith(FIXED)
    assert ends_of(snapshot, snapshot.lookup(world.gate.id, Part)) == (found,)
    assert not [*branched(snapshot)]


def test_what_follows_one_that_joins_has_it_too_and_a_circle_ends(world: Gate) -> None:
    d = world.revision("D", world.c, joins=(world.b.ref,))
    e = world.revision("E", d)
    snapshot = world.snapshot()
    assert known(world, world.b) in line_to(snapshot, known(world, e))
    world.add(replace(known(world, world.b), joins=(e.ref,)))
    snapshot = world.snapshot()
    assert line_to(snapshot, known(world, e))[-1].label == "E"


def test_of_two_with_one_label_it_is_asked_first_which_keeps_it(world: Gate) -> None:
    world.add(replace(world.c, title="gate rev B", label="B"))
    assert not [*branched(world.snapshot())]


def test_one_that_follows_none_is_taken_to_follow_the_one_before(world: Gate) -> None:
    world.add(
        Revision(title="gate rev D", part=world.gate.ref, label="D", **world.about())
    )
    snapshot = world.snapshot()
    assert [one.label for one in ends_of(snapshot, world.gate)] == ["B", "D"]
