"""A line that goes past what waits: asked once, never silent."""

from __future__ import annotations

import io

import pytest

from tests.cli.shop import Shop
from tests.cli.typed import Terminal

WAITS = "“close the lid” waits: cable goes in first"
LINES = (
    "close the lid",
    "riveted the lid on",
    "fitted the lid",
    "put the lid on",
    "lid is on",
    "mounted the lid with 4 screws",
    "clsoed the lid",
)


def lid(shop: Shop) -> None:
    shop.asked("part", "lid")
    shop.asked("step", "put the cable in its channel", "--uses", "cable")
    shop.asked(
        "step", "close the lid", "--closes", "--inside", "cable", "--uses", "lid"
    )


def said(shop: Shop, monkeypatch: pytest.MonkeyPatch, line: str, answers: str) -> str:
    monkeypatch.setattr("sys.stdin", io.StringIO(answers))
    heard = shop.logbook("say", line)
    assert heard.code == 0
    return heard.out


def holds(shop: Shop, *words: str) -> list[str]:
    return [one["says"] for one in shop.asked("holds", *words)["advice"]]


def text(shop: Shop, folder: str) -> str:
    return "".join(path.read_text("utf-8") for path in shop.records(folder))


@pytest.mark.parametrize("line", LINES)
def test_a_step_that_waits_is_asked_about_before_it_is_logged(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, line: str
) -> None:
    lid(shop)
    out = said(shop, monkeypatch, line, "1\n2\nn\n")
    assert WAITS in out
    assert "1 of 1  inside: cable – is it in?" in out
    assert "fitted by hand" not in out
    assert "1 it was done all the same / 2 not done yet" in out
    [override] = shop.records("overrides")
    assert "checked already" in override.read_text("utf-8")
    assert "close the lid" in override.read_text("utf-8")
    assert len(shop.records("steps-done")) == 1
    assert not [one for one in holds(shop) if "close the lid" in one]
    assert [one for one in holds(shop, "--all") if "gone past" in one]


@pytest.mark.parametrize("answer", ["2\n", "\n"])
def test_a_step_not_done_yet_is_not_taken(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, answer: str
) -> None:
    lid(shop)
    out = said(shop, monkeypatch, "riveted the lid on", answer)
    assert "not taken; nothing was saved" in out
    assert not shop.records("notes")
    assert [one for one in holds(shop) if one.startswith(WAITS)]


def test_a_reason_may_be_typed(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    lid(shop)
    said(shop, monkeypatch, "riveted the lid on", "1\ncable was laid at the fair\nn\n")
    assert 'because = "cable was laid at the fair"' in text(shop, "overrides")


def test_enter_alone_is_no_reason(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    lid(shop)
    out = said(shop, monkeypatch, "riveted the lid on", "1\n\n")
    assert "no reason given, so it is not done yet" in out
    assert not shop.records("overrides")
    assert not shop.records("steps-done")


def test_what_is_told_unasked_is_logged_and_says_what_it_went_past(shop: Shop) -> None:
    lid(shop)
    heard = shop.logbook("say", "riveted the lid on", "--yes")
    assert heard.err.startswith(f"gone past: {WAITS}")
    assert "kept: step done" in heard.out
    assert [one for one in holds(shop) if one.startswith("gone past: “close the lid”")]


def test_a_script_is_told_how_to_say_why_or_says_it_at_once(shop: Shop) -> None:
    lid(shop)
    heard = shop.logbook("step", "close the lid", "--done")
    assert f"gone past: {WAITS}" in heard.err
    hint = "logbook override 'close the lid' --step 'close the lid' --because"
    assert hint in " ".join(heard.err.split())
    assert not shop.records("overrides")


def test_the_reason_may_come_with_the_step_done(shop: Shop) -> None:
    lid(shop)
    why = "the cable goes in by the slot"
    heard = shop.logbook("step", "close the lid", "--done", "--because", why)
    assert heard.code == 0
    assert "gone past" not in heard.err
    assert f'because = "{why}"' in text(shop, "overrides")
    assert len(shop.records("steps-done")) == 1


def test_work_logged_before_its_step_was_written_is_named_with_it(shop: Shop) -> None:
    shop.logbook("say", "yesterday 10:30 glued the foot into the base", "--yes")
    heard = shop.logbook(
        "step", "glue the foot into the base", "--closes", "--uses", "foot"
    )
    told = " ".join(heard.err.split())
    assert "glued the foot into the base” was logged before this step" in told
    command = told.partition("logbook ")[2]
    assert "--done --when " in command
    when = command.partition("--when ")[2]
    done = shop.logbook("step", "glue the foot into the base", "--done", "--when", when)
    assert done.code == 0
    assert "T10:30" in when
    assert not [one for one in holds(shop) if one.startswith("before “glue")]
    assert "was logged before" not in shop.logbook("step", "paint the base").err


def test_making_the_piece_a_gap_waits_for_is_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.asked("part", "crossbar", "--dimension", "length=178.8 ±0.1")
    shop.asked(
        "gap", "crossbar in base", "base.opening - crossbar.length",
        "--limits", "0.2 to 1.2", "--last", "crossbar.length",
    )  # fmt: skip
    [wait] = [one for one in holds(shop) if "waits until base opening" in one]
    out = said(shop, monkeypatch, "sawed the crossbar at 178.45", "1\n1\n")
    assert wait in out
    assert "will fit by hand" in text(shop, "overrides")
    assert not [one for one in holds(shop) if "waits until base opening" in one]


def test_a_size_made_last_to_suit_is_no_fault_of_its_drawing(shop: Shop) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1")
    shop.logbook("say", "crossbar length 178.6", "--yes")
    assert "wanted" in text(shop, "deviations")
    shop.asked(
        "gap", "crossbar in base", "base.opening - crossbar.length",
        "--limits", "0.2 to 1.2", "--last", "crossbar.length",
    )  # fmt: skip
    before = text(shop, "deviations")
    shop.logbook("say", "crossbar length 178.3", "--yes")
    assert text(shop, "deviations") == before


def test_work_that_nothing_waits_for_is_not_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    lid(shop)
    assert "waits" not in said(shop, monkeypatch, "sanded the lid", "\n")


def test_an_act_is_the_one_open_step_of_its_part_and_verb(shop: Shop) -> None:
    for part in ("base", "crossbar"):
        shop.asked("part", part)
    shop.asked("step", "fold base", "--makes", "base")
    shop.asked("step", "cut crossbar", "--makes", "crossbar")
    assert "; step: fold base" in shop.logbook("say", "bent the base", "--yes").out
    assert "; step:" not in shop.logbook("say", "drilled the crossbar", "--yes").out
    heard = shop.logbook("say", "sawed the crossbar", "--yes")
    assert "; step: cut crossbar" in heard.out
    assert "; step:" not in shop.logbook("say", "sawed the crossbar", "--yes").out


def test_an_act_that_could_be_two_steps_is_neither(shop: Shop) -> None:
    shop.asked("part", "base")
    shop.asked("step", "fold the long edge", "--makes", "base")
    shop.asked("step", "fold the short edge", "--makes", "base")
    assert "; step:" not in shop.logbook("say", "folded the base", "--yes").out


@pytest.mark.parametrize(
    ("line", "read"),
    [
        ("filed the crossbar to 178.3", ["178.3 mm"]),
        ("planed the crossbar to 178.3", ["178.3 mm"]),
        ("filed the crossbar to 12", []),
        ("sawed the crossbar at 178.45", []),
    ],
)
def test_a_size_that_a_part_was_brought_to_is_a_reading(
    shop: Shop, line: str, read: list[str]
) -> None:
    shop.asked("part", "crossbar", "--dimension", "length=178.8 ±0.6")
    records = shop.asked("say", line, "--yes")["records"]
    runs = [record for record in records if record["kind"] == "run"]
    assert [one["value"] for run in runs for one in run["reading"]] == read


def screwed(shop: Shop) -> None:
    shop.asked("part", "lid")
    shop.asked(
        "step", "screw the lid on", "--closes", "--uses", "lid", "--inside", "cable",
        "--tested", "the lamp lights",
    )  # fmt: skip


def test_a_line_that_closes_asks_for_its_ticks_and_keeps_them(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    screwed(shop)
    out = said(shop, monkeypatch, "screwed the lid on", "y\ny\n")
    assert "1 of 2  inside: cable – is it in?" in out
    [done] = shop.records("steps-done")
    assert 'inside = ["cable"]' in done.read_text("utf-8")
    assert 'tested = ["the lamp lights"]' in done.read_text("utf-8")


def test_what_was_not_ticked_is_asked_about_and_not_taken(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    screwed(shop)
    out = said(shop, monkeypatch, "screwed the lid on", "y\nn\n2\n")
    assert "not ticked: tested: the lamp lights" in out
    assert "not taken; nothing was saved" in out
    assert not shop.records("steps-done")


def test_closed_unseen_it_is_gone_past_with_a_reason(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    screwed(shop)
    said(shop, monkeypatch, "screwed the lid on", "y\nn\n1\nno lamp here\n")
    assert 'because = "no lamp here"' in text(shop, "overrides")
    assert "tested" not in text(shop, "steps-done")
    assert not [one for one in holds(shop) if "screw the lid on" in one]


@pytest.mark.parametrize(
    "words",
    [
        ("say", "screwed the lid on", "--yes"),
        ("say", "screwed the lid on", "--yes", "--json"),
        ("step", "screw the lid on", "--done"),
    ],
)
def test_unasked_no_tick_is_invented_and_what_is_missing_is_said(
    shop: Shop, words: tuple[str, ...]
) -> None:
    screwed(shop)
    heard = shop.logbook(*words)
    assert heard.code == 0
    assert "not ticked: inside: cable · tested: the lamp lights" in heard.err
    assert "inside" not in text(shop, "steps-done")
    [still] = [one for one in holds(shop) if "screw the lid on" in one]
    assert "is done, and not ticked: inside: cable" in still


def test_ticked_in_the_shell_nothing_is_said_of_it(shop: Shop) -> None:
    screwed(shop)
    heard = shop.logbook(
        "step", "screw the lid on", "--done", "--inside", "cable",
        "--tested", "The lamp lights",
    )  # fmt: skip
    assert heard.err == ""
    assert not [one for one in holds(shop) if "screw the lid on" in one]


def test_the_exact_verb_asks_at_a_terminal_as_a_line_does(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    screwed(shop)
    monkeypatch.setattr("sys.stdin", Terminal("y\nn\n2\n"))
    heard = shop.logbook("step", "screw the lid on", "--done")
    assert heard.code != 0
    assert "not ticked: tested: the lamp lights" in heard.out
    assert "“screw the lid on” is not done yet; nothing was saved" in heard.err
    assert not shop.records("steps-done")
    monkeypatch.setattr("sys.stdin", Terminal("y\nn\n1\nno lamp here\n"))
    assert shop.logbook("step", "screw the lid on", "--done").code == 0
    assert 'because = "no lamp here"' in text(shop, "overrides")
    assert 'inside = ["cable"]' in text(shop, "steps-done")


@pytest.mark.parametrize(
    ("line", "apart"),
    [
        ("took the lid off again", True),
        ("unscrewed the lid", True),
        ("removed the lid", True),
        ("drilled the lid off", True),
        ("opened the lid again", True),
        ("drilled the screws out and opened the lid", True),
        ("opened the lid again to fish the cable out", True),
        ("removed the burrs from the lid", False),
        ("sanded the lid", False),
    ],
)
def test_a_lid_that_is_taken_off_again_is_to_be_screwed_on_again(
    shop: Shop, line: str, apart: bool
) -> None:
    screwed(shop)
    seen = ("--inside", "cable", "--tested", "the lamp lights")
    shop.asked("step", "screw the lid on", "--done", *seen)
    assert not holds(shop)
    shop.asked("say", line, "--yes")
    assert not shop.records("disposals")
    still = [one for one in holds(shop) if "before “screw the lid on” closes" in one]
    assert bool(still) is apart


def test_what_was_never_done_is_not_taken_apart(shop: Shop) -> None:
    screwed(shop)
    said = shop.logbook("say", "removed the lid", "--yes")
    assert "taken apart" not in said.out
    assert "undone" not in text(shop, "steps-done")


def test_what_is_removed_first_does_not_hide_the_step_that_is_done(shop: Shop) -> None:
    shop.asked("part", "foot")
    shop.asked("step", "glue the foot on", "--uses", "foot")
    said = shop.logbook("say", "removed the burrs and glued the foot on", "--yes")
    assert "; step: glue the foot on" in said.out
