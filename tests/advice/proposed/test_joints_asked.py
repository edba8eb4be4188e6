"""What a joint lacks is asked: the thickness of a layer, the nut, nothing it has."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.advice.proposals import proposals
from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.design import Part
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Stock
from logbook.records.making.drafts import Draft
from tests.advice.proposed.together_by_hand import Bench


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
