"""What the entries suggest is asked once, taken by an answer, refused for good."""

from __future__ import annotations

import io
from typing import Any

import pytest

from tests.cli.shop import Said, Shop

WHEN = "2026-03-07T10:{:02d}"
ROOM = "how much room"


@pytest.fixture
def parts(shop: Shop) -> Shop:
    for part in ("base", "crossbar", "lid", "gate", "cable"):
        shop.asked("part", part)
    shop.asked("part", "collar", "--thickness", "6.0 mm")
    return shop


class Talk:
    """A bench that answers: each line of an answer stands for one question."""

    def __init__(self, shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
        self.shop, self._patch, self._minute = shop, monkeypatch, 0

    def say(self, line: str, *answers: str) -> Said:
        self._minute += 1
        typed = io.StringIO("".join(f"{one}\n" for one in answers))
        self._patch.setattr("sys.stdin", typed)
        said = self.shop.logbook(
            "say", line, "--later", "--when", WHEN.format(self._minute)
        )
        assert said.code == 0, said.err
        assert typed.read() == "", "an answer was left over"
        return said


@pytest.fixture
def talk(parts: Shop, monkeypatch: pytest.MonkeyPatch) -> Talk:
    return Talk(parts, monkeypatch)


def offered(shop: Shop) -> list[dict[str, Any]]:
    found: list[dict[str, Any]] = shop.asked("offered")["offered"]
    return found


def only(shop: Shop, kind: str) -> str:
    [path] = shop.records(kind)
    return path.read_text("utf-8")


# -- a gap -----------------------------------------------------------------------


def test_a_bar_beside_an_opening_asks_once_for_the_room_and_becomes_a_gap(
    talk: Talk,
) -> None:
    talk.say("base opening 178.6 should be 180", "m")
    said = talk.say("crossbar 179.7", "", "0.1 to 0.5, made last")
    assert said.out.count(ROOM) == 1
    assert "does the crossbar go into the base's opening?" in said.out
    assert "then the crossbar gets a size to make it to" in said.out
    gap = only(talk.shop, "gaps")
    assert 'formula = "base.opening - crossbar.size"' in gap
    assert 'lower_limit = "0.1 mm"' in gap
    assert 'made_last = "size ' in gap
    assert ROOM not in talk.say("crossbar 179.6", "").out
    [told] = talk.shop.asked("gaps")["advice"]
    assert "goes in only by force" in told["says"]


def test_a_question_left_open_is_not_asked_again_but_stands_in_the_list(
    talk: Talk,
) -> None:
    talk.say("base opening 178.6 should be 180", "m")
    assert ROOM in talk.say("crossbar 179.7", "", "").out
    assert ROOM not in talk.say("crossbar 179.6", "").out
    [one] = offered(talk.shop)
    assert (one["topic"], ROOM in one["asks"]) == ("gap", True)
    assert talk.shop.logbook("offered", "take", one["id"], "0.1 to 0.5").code == 0
    assert "made_last" not in only(talk.shop, "gaps")
    assert offered(talk.shop) == []


def test_what_was_refused_is_a_small_record_and_never_offered_again(
    talk: Talk,
) -> None:
    talk.say("base opening 178.6 should be 180", "m")
    talk.say("crossbar 179.7", "", "n")
    assert 'kind = "declined"' in only(talk.shop, "declined")
    assert offered(talk.shop) == []
    assert ROOM not in talk.say("base opening 178.7", "").out
    assert talk.shop.logbook("notes").code == 0
    published = [
        path
        for path in (talk.shop.folder / "as-built").rglob("*.md")
        if "not wanted" in path.read_text("utf-8")
    ]
    assert published == talk.shop.records("declined")
    assert talk.shop.logbook("check").code == 0


@pytest.mark.parametrize("answer", ["some", "0.3", "0.5 to 0.1", "0.1 to x"])
def test_an_answer_that_is_none_leaves_the_entry_and_the_offer(
    talk: Talk, answer: str
) -> None:
    talk.say("base opening 178.6 should be 180", "m")
    said = talk.say("crossbar 179.7", "", answer)
    assert "accepted: " in said.err
    assert "It stays offered" in said.err
    assert len(talk.shop.records("runs")) == 2
    assert talk.shop.records("gaps") == []
    assert [one["topic"] for one in offered(talk.shop)] == ["gap"]


def test_nobody_there_to_answer_harms_nothing(talk: Talk) -> None:
    talk.say("base opening 178.6 should be 180", "m")
    assert ROOM in talk.say("crossbar 179.7", "").out
    assert len(talk.shop.records("runs")) == 2


def test_with_yes_nothing_is_asked_or_taken_only_mentioned_in_a_line(
    parts: Shop,
) -> None:
    parts.asked("say", "--yes", "base opening 178.6 should be 180")
    said = parts.logbook("say", "--yes", "--later", "crossbar 179.7")
    [line] = [one for one in said.out.splitlines() if ROOM in one]
    assert line.startswith("could be answered (logbook offered): ")
    assert parts.records("gaps") == parts.records("declined") == []


def test_json_stays_json_and_the_list_is_json_too(parts: Shop) -> None:
    parts.asked("say", "--yes", "base opening 178.6 should be 180")
    parts.asked("say", "--yes", "crossbar 179.7")
    [one] = offered(parts)
    assert set(one) == {
        "id", "key", "topic", "about", "asks", "buys", "accepts", "inputs",
    }  # fmt: skip
    answer = parts.asked("offered", "take", one["id"], "0.1 to 0.5, base made last")
    [record] = answer["records"]
    assert record["kind"] == "fit"
    assert record["made_last"].startswith("opening ")


def test_who_names_nothing_that_is_offered_hears_what_is(parts: Shop) -> None:
    said = parts.logbook("offered", "take", "zzzzz", "yes")
    assert said.code == 5
    assert "accepted: nothing is offered now" in said.err
    assert parts.logbook("offered", "take").code == 2
    assert parts.logbook("offered").out == "nothing is offered now\n"


# -- a joint ---------------------------------------------------------------------


def test_a_locknut_through_two_parts_asks_only_for_what_is_not_known(
    talk: Talk,
) -> None:
    said = talk.say(
        "M4x16 locknut through collar and base", "", "thin self-locking, base 2.0"
    )
    assert "collar 6.0 mm, base (thickness not known)" in said.out
    assert "(ISO 7040), up to 6 mm high" in said.out
    assert said.out.count("how thick is base?") == 1
    joint = only(talk.shop, "joints")
    assert 'nut = "thin self-locking"' in joint
    assert joint.count("thickness = ") == 2
    [told] = talk.shop.asked("joints")["advice"]
    figures = {one["name"]: one["value"] for one in told["numbers"]}
    assert figures["grip"] == pytest.approx(8.0)
    # Arithmetic on DIN 985 (M4: 5.0 mm high): 16 − 8.0 − 5.0.
    assert figures["through"] == pytest.approx(3.0)
    assert offered(talk.shop) == []


def test_a_thickness_that_is_not_measured_is_said_and_not_asked_again(
    talk: Talk,
) -> None:
    talk.say("M4x16 locknut through collar and base", "", "yes, not measured")
    assert 'nut = "self-locking"' in only(talk.shop, "joints")
    assert 'value = "not measured"' in only(talk.shop, "runs")
    assert offered(talk.shop) == []


def test_the_screw_that_was_fitted_is_offered_to_the_joint(talk: Talk) -> None:
    talk.say("M4x16 locknut through collar and base", "", "yes, base 2.0")
    said = talk.say("fitted the collar with M4x20", "", "yes")
    assert "M4x20 was fitted" in said.out
    assert 'fastener = "M4x20"' in only(talk.shop, "joints")
    assert offered(talk.shop) == []


def test_a_screw_without_a_joint_begins_one(talk: Talk) -> None:
    said = talk.say(
        "fitted the collar with M4x20", "", "base 2.0, thin self-locking nut"
    )
    assert "what does M4x20 go through beside the collar" in said.out
    joint = only(talk.shop, "joints")
    assert joint.startswith("# collar to base, M4x20")
    assert 'thickness = "6.0 mm"' in joint
    assert 'thickness = "2.0 mm"' in joint


# -- steps -----------------------------------------------------------------------


def test_what_is_riveted_asks_what_must_be_inside_and_holds_the_next_build(
    talk: Talk,
) -> None:
    said = talk.say("riveted the lid on", "", "cable, lamp tested")
    assert "“rivet the lid on” cannot be undone" in said.out
    assert talk.shop.asked("holds")["advice"] == []
    talk.shop.asked("build", "build 2")
    [hold] = talk.shop.asked("holds")["advice"]
    assert "before “rivet the lid on” closes" in hold["says"]
    assert "inside: cable · tested: lamp" in hold["says"]
    again = talk.say("riveted the lid on", "y", "y")
    assert "cannot be undone" not in again.out


def test_drilled_out_again_asks_what_should_have_been_inside(talk: Talk) -> None:
    talk.say("riveted the lid on", "", "")
    said = talk.say("drilled the lid out again, cable was still outside", "", "cable")
    assert said.out.count("what should have been inside before") == 1
    step = only(talk.shop, "steps")
    assert step.startswith("# rivet the lid on")
    assert 'inside = ["cable"]' in step
    assert "closes = true" in step
    assert offered(talk.shop) == []


def test_nothing_inside_is_an_answer_and_is_not_asked_again(talk: Talk) -> None:
    talk.say("glued the lid shut", "", "nothing")
    assert "closes = true" in only(talk.shop, "steps")
    assert offered(talk.shop) == []
    assert "came apart again" in talk.say("drilled the lid out again", "", "cable").out


def test_the_work_of_a_build_becomes_the_order_of_work(talk: Talk) -> None:
    talk.say("folded the base", "")
    assert "order of work" not in talk.say("sawed the crossbar at 178.45", "").out
    said = talk.say("fitted the crossbar, took 20 min", "", "yes")
    assert "order of work" in said.out
    steps = {
        path.read_text("utf-8").splitlines()[0][2:]: path.read_text("utf-8")
        for path in talk.shop.records("steps")
    }
    assert sorted(steps) == ["fit the crossbar", "fold the base", "saw the crossbar"]
    assert "number = 3" in steps["fit the crossbar"]
    assert 'after = ["saw the crossbar ' in steps["fit the crossbar"]
    done = [path.read_text("utf-8") for path in talk.shop.records("steps-done")]
    assert all("\nstep = " in text for text in done)


# -- conditions ------------------------------------------------------------------


def test_a_bare_temperature_asks_for_room_hours_and_place(parts: Shop) -> None:
    parts.asked("failure", "gate", "gate sagged", "--temperature", "58 °C")
    [one] = offered(parts)
    assert "how warm was the room, after how long, read where?" in one["asks"]
    parts.asked("offered", "take", "gate sagged", "22 °C, 2 h, at the window")
    text = only(parts, "failures")
    assert 'room = "22 °C"' in text
    assert 'after = "2 h"' in text
    assert 'place = "at the window"' in text
    assert offered(parts) == []


def test_a_sag_told_at_a_temperature_asks_before_another_builder_has_to(
    talk: Talk,
) -> None:
    said = talk.say("gate sagged at 58 °C", "d", "room 22 °C and after 2 h")
    assert "gate: 58 °C — how warm was the room" in said.out
    text = only(talk.shop, "failures")
    assert 'temperature = "58 °C"' in text
    assert 'room = "22 °C"' in text
    assert 'after = "2 h"' in text


def conditions(shop: Shop) -> list[str]:
    return [one["asks"] for one in offered(shop) if one["topic"] == "conditions"]


@pytest.fixture
def warm(talk: Talk) -> Talk:
    """Have a gate of a plastic that softens with heat."""
    talk.shop.asked("part", "gate", "--material", "PLA")
    return talk


def test_a_temperature_measured_on_a_plastic_asks_for_what_it_lacks_in_one_question(
    warm: Talk,
) -> None:
    said = warm.say("gate face 58 °C", "", "room 22 °C, 2 h")
    assert "gate: 58 °C — how warm was the room, after how long?" in said.out
    text = only(warm.shop, "runs")
    assert 'room = "22 °C"' in text
    assert 'after = "2 h"' in text
    assert conditions(warm.shop) == []


def test_what_a_part_felt_on_one_day_is_one_question_whatever_told_it(
    warm: Talk,
) -> None:
    warm.say("gate sagged at 58 °C", "d", "")
    said = warm.say("gate face 57.5 °C", "", "22 °C, 2 h, at the window")
    asks = "gate: 58 °C, 57.5 °C — how warm was the room, after how long, read where?"
    assert asks in said.out
    assert 'room = "22 °C"' in only(warm.shop, "failures")
    assert 'place = "at the window"' in only(warm.shop, "failures")
    assert 'room = "22 °C"' in only(warm.shop, "runs")
    assert 'place = "at the window"' not in only(warm.shop, "runs"), "it is its face"
    assert conditions(warm.shop) == []


def test_what_was_refused_for_one_day_is_not_asked_for_in_parts(warm: Talk) -> None:
    warm.say("gate sagged at 58 °C", "d", "")
    warm.say("gate face 57.5 °C", "", "n")
    assert conditions(warm.shop) == []


def test_a_temperature_that_was_told_again_in_full_is_not_asked_about(
    warm: Talk,
) -> None:
    warm.say("gate face 58 °C", "", "")
    assert len(conditions(warm.shop)) == 1
    warm.say("gate face 58 °C after 2 h in a 22 °C room", "")
    assert conditions(warm.shop) == []


def test_a_temperature_of_what_does_not_soften_is_not_asked_about(warm: Talk) -> None:
    warm.shop.asked("part", "base", "--material", "5052-H32")
    warm.say("base face 58 °C", "")
    assert conditions(warm.shop) == []


def test_a_temperature_told_with_room_and_hours_asks_nothing(talk: Talk) -> None:
    said = talk.say("gate sagged, 58 °C after two hours in a 22 °C room", "d")
    assert "how warm" not in said.out
    assert offered(talk.shop) == []
