"""Steps, holds, gaps and joints typed on a line: read as in the shell, or refused."""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.errors import BadInput, LogbookError
from logbook.plain.stated.said_back import said_back
from logbook.plain.stated.typed_line import (
    EXAMPLES,
    begins_with,
    read_stated,
    told_behind,
)
from logbook.records.kinds.assembling import Fit, Hold, Joint, Step
from logbook.records.kinds.design import Project
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW
from tests.plain.records_of import world


@pytest.fixture
def stand() -> Snapshot:
    """A base, a crossbar and a shelf board with sizes, and two steps."""
    draft = Draft(world(()), NOW)
    draft.add(Project(id=new_id(), title="a project", when=NOW))
    draft.characteristic(draft.part("base"), "opening")
    draft.characteristic(draft.part("crossbar"), "length")
    draft.characteristic(draft.part("shelf board"), "board thickness")
    for number, title in ((1, "fold the base"), (2, "rivet the lid on")):
        draft.add(Step(id=new_id(), title=title, number=number, when=NOW))
    return world(draft.records)


def put(line: str, snapshot: Snapshot) -> tuple[Record, tuple[str, ...]]:
    stated = read_stated(line, snapshot)
    assert stated is not None
    draft = Draft(snapshot, NOW + timedelta(hours=1))
    record = stated.put(draft)
    return record, said_back(draft, record)


@pytest.mark.parametrize(
    "line",
    [
        'step "bend the brackets" --closes --inside "the long cable" --inside lamp',
        "step bend the brackets --inside the long cable --inside lamp --closes",
        "step 3: bend the brackets --closes --inside=“the long cable” --inside lamp",
        "logbook step --closes bend the brackets --inside the long cable --inside lamp",
        "step bend the brackets; closes; inside the long cable; inside lamp",
        'step "bend the brackets" ; Closes; inside: the long cable;inside lamp',
    ],
)
def test_a_step_is_read_with_quotes_or_without(line: str, stand: Snapshot) -> None:
    step, said = put(line, stand)
    assert isinstance(step, Step)
    assert (step.title, step.number, step.closes) == ("bend the brackets", 3, True)
    assert step.inside == ("the long cable", "lamp")
    assert said == (
        "step 3: bend the brackets", "closes", "must be inside: the long cable, lamp",
    )  # fmt: skip


@pytest.mark.parametrize(
    "line",
    [
        'hold "rivet the lid on" "the cable is not in" --until tomorrow',
        "hold rivet the lid on: the cable is not in --until tomorrow",
        "hold rivet the lid on the cable is not in --until tomorrow",
        "hold 2: the cable is not in --until tomorrow",
        "hold 2: the cable is not in; until tomorrow",
        "hold 2 the cable is not in --until tomorrow",
    ],
)
def test_a_hold_names_its_step_by_name_or_number(line: str, stand: Snapshot) -> None:
    hold, said = put(line, stand)
    assert isinstance(hold, Hold)
    assert (hold.step.name, hold.because, hold.until) == (
        "rivet the lid on", "the cable is not in", "tomorrow",
    )  # fmt: skip
    assert said[0] == "wait before step 2, rivet the lid on"


@pytest.mark.parametrize(
    "line",
    [
        "gap bar in the opening: base.opening - crossbar.length",
        "gap bar in the opening base.opening - crossbar.length",
        'gap "bar in the opening" "base.opening - crossbar.length"',
    ],
)
def test_a_gap_is_read_with_its_limits(line: str, stand: Snapshot) -> None:
    options = "--limits 0.1 to 0.5 --last crossbar.length"
    gap, said = put(f"{line} {options}", stand)
    assert isinstance(gap, Fit)
    assert gap.title == "bar in the opening"
    assert gap.formula == "base.opening - crossbar.length"
    assert said[2] == "0.1 mm to 0.5 mm"
    assert gap.made_last is not None


@pytest.mark.parametrize(
    "line",
    [
        'joint "bar to base" M4x16 --layer crossbar=2 --layer base --nut thin',
        "joint bar to base: M4x16 --layer crossbar=2 --layer base --nut thin",
        "joint bar to base M4x16; layer crossbar=2; layer: base; nut thin",
        "logbook joint bar to base: M4x16; layer crossbar = 2; layer base; nut thin",
    ],
)
def test_a_joint_is_read_layer_by_layer(line: str, stand: Snapshot) -> None:
    joint, said = put(line, stand)
    assert isinstance(joint, Joint)
    assert (joint.title, joint.fastener, joint.nut) == ("bar to base", "M4x16", "thin")
    assert [layer.part.name for layer in joint.layers] == ["crossbar", "base"]
    assert str(joint.layers[0].thickness).startswith("2 ")
    assert said[2].startswith("from the head on through crossbar 2 ")


def test_a_semicolon_parts_off_only_what_may_be_told(stand: Snapshot) -> None:
    hold, _ = put("hold 2: the glue is wet; the lid is off; until tomorrow", stand)
    assert isinstance(hold, Hold)
    assert (hold.because, hold.until) == ("the glue is wet; the lid is off", "tomorrow")
    step, _ = put('step "glue; closes; wipe" ; insidelid; closes', stand)
    assert isinstance(step, Step)
    assert (step.title, step.inside) == ("glue; closes; wipe ; insidelid", ())
    assert step.closes
    gap, _ = put(
        "gap bar in it: base.opening - crossbar.length; one instrument; chance 95 %",
        stand,
    )
    assert isinstance(gap, Fit)
    assert gap.one_instrument
    assert str(gap.chance) == "95 %"


@pytest.mark.parametrize("verb", EXAMPLES)
def test_what_may_be_told_behind_is_said_in_words(verb: str) -> None:
    said = ", ".join(told_behind(verb))
    assert "--" not in said
    assert said.count("(") == said.count(")") > 1


def test_a_part_of_two_words_is_named_as_it_is_called(stand: Snapshot) -> None:
    line = (
        "gap board in it: base.opening - Shelf board.board thickness "
        "--last shelf board.board thickness"
    )
    gap, said = put(line, stand)
    assert isinstance(gap, Fit)
    assert gap.formula == "base.opening - shelf_board.board_thickness"
    assert not [one for one in said if one.startswith("new ")]
    assert gap.made_last is not None


def test_what_is_made_and_what_is_replaced_is_said(stand: Snapshot) -> None:
    _, said = put("step fold the base --makes hood", stand)
    assert said[0] == "step 1: fold the base"
    assert "new part “hood”" in said
    assert "of the one on record changes makes: not told → hood" in said


def test_a_step_put_in_at_a_used_number_moves_those_behind_it_on(
    stand: Snapshot,
) -> None:
    stated = read_stated("step 1: cut the sheet; makes base", stand)
    assert stated is not None
    draft = Draft(stand, NOW + timedelta(hours=1))
    record = stated.put(draft)
    now = {one.title: one.number for one in draft.records if isinstance(one, Step)}
    assert now == {"cut the sheet": 1, "fold the base": 2, "rivet the lid on": 3}
    told = "the 2 steps from “fold the base” on move on by one"
    assert told in said_back(draft, record)


def test_only_as_many_move_on_as_there_is_no_room_for(stand: Snapshot) -> None:
    late = Step(id=new_id(), title="glue the feet on", number=5, when=NOW)
    both = world((*stand, late))
    draft = Draft(both, NOW + timedelta(hours=1))
    stated = read_stated("step 2: paint it", both)
    assert stated is not None
    record = stated.put(draft)
    assert "“rivet the lid on” becomes step 3" in said_back(draft, record)
    moved = [one for one in draft.amended if isinstance(one, Step)]
    assert [(one.title, one.number) for one in moved] == [("rivet the lid on", 3)]
    # Told again at the place it has, a step moves none.
    draft = Draft(both, NOW + timedelta(hours=1))
    stated = read_stated("step 2: rivet the lid on; closes", both)
    assert stated is not None
    stated.put(draft)
    assert len(draft.amended) == 1


def test_what_is_not_told_again_stays(stand: Snapshot) -> None:
    first, _ = put("step rivet the lid on; closes; inside cable", stand)
    step, said = put("step 8: rivet the lid on; without inside", world((first,)))
    assert isinstance(step, Step)
    assert (step.number, step.closes, step.inside) == (8, True, ())
    changes = "number: 2 → 8, inside: cable → taken away"
    assert said[-1] == f"of the one on record changes {changes}"
    joint, _ = put("joint bar to base M4x16; layer crossbar=2; tap drill 3.3", stand)
    again, said = put("joint bar to base; without tap drill", world((joint,)))
    assert isinstance(again, Joint)
    assert (again.fastener, again.tap_drill) == ("M4x16", None)
    with pytest.raises(LogbookError, match="accepted: as"):
        put("joint bar to base; without room", world((joint,)))


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("step --closes", "no operation is named"),
        ("step 2 rivet the lid on", "a colon behind the place"),
        ("step fold the base done", "Enter at its row"),
        ("step fold the base --makes", "--makes says nothing yet"),
        ("step fold the base --done", "--done is not told of a step"),
        ('step "fold the base', "stands open"),
        ("step glue it --uses crosbar", "crossbar"),
        ("step glue it --after 9", "no step is called “9”"),
        ("hold", "which step waits"),
        ("hold the lid, it is wet", "which step waits"),
        ("hold lid: it is wet", "rivet the lid on"),
        ("hold 7: it is wet", "no step is called “7”"),
        ("gap bar in the opening", "over which dimensions"),
        ("gap bar: base.opening - ", "accepted"),
        ("gap bar: base.opening --limits soon", "soon"),
    ],
)
def test_what_cannot_be_is_refused_in_one_sentence(
    line: str, why: str, stand: Snapshot
) -> None:
    with pytest.raises(LogbookError, match=r"(?s).") as refused:
        put(line, stand)
    assert why in str(refused.value)
    assert "\n" not in str(refused.value)


@pytest.mark.parametrize("line", ["stepped on it", "opening 178.9", "25 min", "step "])
def test_other_lines_are_none_of_them(line: str, stand: Snapshot) -> None:
    assert not begins_with(line, ("step", "hold", "gap"))
    assert not line.strip() or line == "step " or read_stated(line, stand) is None


@pytest.mark.parametrize("verb", EXAMPLES)
def test_the_examples_are_taken(verb: str, stand: Snapshot) -> None:
    record, _ = put(EXAMPLES[verb], stand)
    assert record.title


@pytest.mark.parametrize(
    "told",
    ["base, crossbar", "base and crossbar", "base, and crossbar", "crossbar & base"],
)
def test_parts_told_in_one_row_are_each_used(told: str, stand: Snapshot) -> None:
    step, said = put(f"step screw it together; uses {told}", stand)
    assert isinstance(step, Step)
    assert {one.name for one in step.uses} == {"base", "crossbar"}
    assert not [one for one in said if one.startswith("new part")]


def test_a_row_with_a_name_on_no_record_is_asked_about(stand: Snapshot) -> None:
    with pytest.raises(
        BadInput, match="no part is called “hood”; accepted: one by one"
    ):
        put("step screw it together; uses base, hood", stand)
    step, said = put("step screw it together; uses base; uses hood", stand)
    assert isinstance(step, Step)
    assert [one.name for one in step.uses] == ["base", "hood"]
    assert "new part “hood”" in said


def test_a_part_whose_name_has_and_in_it_is_one(stand: Snapshot) -> None:
    draft = Draft(stand, NOW)
    draft.part("nut and bolt")
    step, _ = put("step fit it; uses nut and bolt", world((*stand, *draft.records)))
    assert isinstance(step, Step)
    assert [one.name for one in step.uses] == ["nut and bolt"]


@pytest.mark.parametrize("option", ["inside", "tested", "clean"])
def test_things_told_in_one_row_are_ticked_each_by_itself(
    option: str, stand: Snapshot
) -> None:
    step, _ = put(f"step close the lid; closes; {option} fan cable, light strip", stand)
    assert getattr(step, option) == ("fan cable", "light strip")


def test_a_sentence_with_a_comma_is_one_thing_to_tick(stand: Snapshot) -> None:
    line = "step close the lid; tested the lamp lights, and stays lit for an hour"
    step, _ = put(line, stand)
    assert isinstance(step, Step)
    assert step.tested == ("the lamp lights, and stays lit for an hour",)


def test_what_a_step_uses_is_taken_away_or_told_anew(stand: Snapshot) -> None:
    first, _ = put("step screw it together; uses base, crossbar", stand)
    with_it = world((*stand, first))
    without, _ = put("step screw it together; without uses", with_it)
    anew, _ = put("step screw it together; uses crossbar", with_it)
    assert isinstance(without, Step)
    assert isinstance(anew, Step)
    assert not without.uses
    assert [one.name for one in anew.uses] == ["crossbar"]


def test_a_refusal_names_what_to_type_as_it_is_typed_on_a_line(stand: Snapshot) -> None:
    with pytest.raises(BadInput) as refused:
        put("step screw it on; uses base and knob", stand)
    assert str(refused.value).endswith("which makes what is new: uses base; uses knob")
    assert "--" not in str(refused.value)
