"""Plain lines become records, shown first, asked about at most once."""

from __future__ import annotations

import io
from typing import Any

import pytest

from logbook.errors import BadInput, NeedsAnswer
from logbook.project import Project
from tests.cli.shop import Shop


def kinds(answer: Any) -> list[str]:
    return [record["kind"] for record in answer["records"]]


def test_a_reading_against_its_nominal_makes_everything_that_is_missing(
    shop: Shop,
) -> None:
    answer = shop.asked("say", "base opening 178.6 should be 180", "--yes")
    assert kinds(answer) == [
        "part", "revision", "build", "piece", "characteristic", "run", "deviation",
    ]  # fmt: skip
    by_kind = {record["kind"]: record for record in answer["records"]}
    assert by_kind["characteristic"]["nominal"] == "180 mm"
    assert by_kind["run"]["reading"][0]["value"] == "178.6 mm"
    assert by_kind["deviation"]["found"] == "178.6 mm"
    assert by_kind["deviation"]["met_by_others"] == "not known yet"
    assert shop.subjects()[0] == "reading: base opening 178.6 should be 180"


def test_a_wanted_size_is_kept_even_where_no_part_is_sure(shop: Shop) -> None:
    for part in ("a", "b", "c", "d", "e", "f", "g", "h", "i"):
        shop.asked("part", f"part {part}")
    answer = shop.asked(
        "say", "camera mount came out at 41.7, drawing says 42", "--yes"
    )
    text = "".join(
        (shop.folder / record["path"]).read_text("utf-8")
        for record in answer["records"]
    )
    assert "41.7" in text
    assert "42 mm" in text or "says 42" in text


def test_yesterday_at_four_is_when_it_was(shop: Shop) -> None:
    answer = shop.asked(
        "say", "yesterday 16:00 sawed the crossbar at 178.45", "--yes",
        "--when", "2026-03-08T09:00:00+01:00",
    )  # fmt: skip
    step = answer["records"][-1]
    assert step["kind"] == "step done"
    assert step["when"] == "2026-03-07T16:00:00+01:00"
    assert step["set_to"] == ["178.45 mm"]


def test_off_the_drawn_limits_is_a_deviation_without_being_told(shop: Shop) -> None:
    shop.asked("part", "base", "--dimension", "opening=180.0 ±1.2")
    assert kinds(shop.asked("say", "base opening 180.4", "--yes"))[-1] == "run"
    answer = shop.asked("say", "base opening 178.6", "--yes", "--met-by", "machine")
    assert kinds(answer) == ["run", "deviation"]
    assert answer["records"][-1]["wanted"] == "180.0 mm"
    assert answer["records"][-1]["met_by_others"] == "my machine"


def answering(monkeypatch: pytest.MonkeyPatch, *lines: str) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("".join(f"{x}\n" for x in lines)))


def test_what_was_understood_is_shown_and_the_one_question_asked(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "d")
    said = shop.logbook("say", "diffuser cracked at the corner screw")
    assert said.code == 0
    shown = said.out.splitlines()[0]
    assert "failure" in shown
    assert "diffuser" in shown
    assert "corner screw" in shown
    assert said.out.count("would another builder meet this?") == 1
    [path] = shop.records("failures")
    assert 'met_by_others = "the drawing"' in path.read_text("utf-8")


def test_no_means_nothing_is_saved(shop: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    head = shop.git("rev-parse", "HEAD")
    answering(monkeypatch, "n")
    said = shop.logbook("say", "base opening 178.6")
    assert "not taken" in said.out
    assert shop.git("rev-parse", "HEAD") == head


def test_nobody_there_to_answer_is_a_refusal_not_a_guess(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch)
    assert shop.logbook("say", "base opening 178.6").code == NeedsAnswer.exit_code
    assert shop.records("runs") == []


def test_a_number_with_two_meanings_is_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "base opening 1,234")
    assert said.code == 0, said.err
    [path] = shop.records("runs")
    assert 'value = "1.234 mm"' in path.read_text("utf-8")


def test_unanswered_with_yes_it_is_kept_as_a_note_word_for_word(shop: Shop) -> None:
    answer = shop.asked("say", "base opening 1,234", "--yes")
    assert kinds(answer)[-1] == "note"
    assert answer["records"][-1]["title"] == "base opening 1,234"


def test_json_without_yes_tells_and_saves_nothing(shop: Shop) -> None:
    head = shop.git("rev-parse", "HEAD")
    told = shop.asked("say", "gate sagged after two hours next to the lamp")
    assert (told["saved"], told["kind"]) == (False, "failure")
    assert "would another builder meet this?" in told["question"]
    assert shop.git("rev-parse", "HEAD") == head


def test_json_loses_no_reading_and_says_what_would_be_done(shop: Shop) -> None:
    told = shop.asked("say", "base opening left 178.6, right 178.7, only just")
    facts = [(one["fact"], one["is"]) for one in told["understood"]]
    assert [text for fact, text in facts if fact == "size"] == [
        "opening (left) 178.6 mm",
        "opening (right) 178.7 mm",
    ]
    assert not [fact for fact, _ in facts if fact.endswith(":")]
    assert told["would_be"].startswith(("taken", "asked"))
    kept = shop.asked("say", "swept the floor, fed the cat")
    assert kept["would_be"] == "kept as a note, word for word"


@pytest.mark.parametrize("key", ["1", "d", "the drawing"])
def test_the_keys_of_the_bench_answer_in_the_shell_too(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, key: str
) -> None:
    answering(monkeypatch, key)
    said = shop.logbook("say", "diffuser cracked at the corner screw")
    assert "1 the drawing is wrong / 2 only this piece / 3 my machine" in said.out
    [path] = shop.records("failures")
    assert 'met_by_others = "the drawing"' in path.read_text("utf-8")


def test_a_line_stopped_at_its_question_is_kept(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    def stopped(_: str) -> str:
        raise KeyboardInterrupt

    monkeypatch.setattr("builtins.input", stopped)
    said = shop.logbook("say", "diffuser cracked at the corner screw")
    assert said.code == 130
    assert "stopped (kept in logbook drafts)" in said.err
    [draft] = shop.asked("drafts")["drafts"]
    assert draft["text"].endswith("'diffuser cracked at the corner screw'")
    assert draft["for"] == "say, a question stood"


def test_a_kind_that_the_line_begins_with_stands_once_in_the_log(shop: Shop) -> None:
    assert shop.logbook("say", "note: the spool was open", "--yes").code == 0
    assert shop.subjects()[0] == "note: the spool was open"


def test_a_line_longer_than_the_terminal_is_broken_between_words(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("COLUMNS", "40")
    line = "upper bearing seat cracked because the press fit was much too tight there"
    answering(monkeypatch, "")
    monkeypatch.setattr("sys.stdout.isatty", lambda: True, raising=False)
    said = shop.logbook("say", line).out
    shown = said.partition("only in words")[0].splitlines()
    assert len(shown) > 1
    assert max(map(len, shown)) <= 40
    assert "much too tight there" in " ".join(" ".join(shown).split())


def test_a_plain_line_can_be_undone_at_once(shop: Shop) -> None:
    shop.asked("say", "diffuser cracked at the corner screw", "--yes")
    shop.asked("undo")
    assert shop.records("failures") == shop.records("parts") == []


@pytest.mark.parametrize(
    ("line", "kind"),
    [
        ("scrap diffuser 1", "disposal"),
        ("glued the channel shut", "step done"),
        ("going with screws for the lid, rivets were a mistake", "decision"),
        ("sent collar dxf to the waterjet place, 2 pieces, 38.50", "order"),
        ("remember to buy more 1/4 plate", "note"),
        ("not measured: bed thickness", "run"),
        ("leave the second base as is, nobody sees it", "disposal"),
    ],
)  # fmt: skip
def test_each_kind_of_line_finds_its_record(shop: Shop, line: str, kind: str) -> None:
    for part in ("diffuser", "lid", "collar", "bed", "base"):
        shop.asked("part", part)
    assert kinds(shop.asked("say", line, "--yes"))[-1] == kind


@pytest.mark.parametrize("line", ["[/]", "\x1b[31mred", "x" * 5000, "軸 Ø12 ±3°"])
def test_hostile_lines_are_notes_and_nothing_is_lost(shop: Shop, line: str) -> None:
    answer = shop.asked("say", "--yes", "--", line)
    note = answer["records"][-1]
    assert note["kind"] == "note"
    if line.isprintable():
        assert line in (note["title"], note["prose"])


# -- parts that nobody has made yet ------------------------------------------------


@pytest.fixture
def files(shop: Shop) -> Shop:
    """Put design files beside the logbook that are no parts yet."""
    for name in ("x-rail-bracket.stl", "GateSpring.stl", "102_camera_arm_B.dxf"):
        (shop.folder / name).write_text(f"solid {name}\n", "utf-8")
    return shop


def parts(answer: Any) -> list[str]:
    return [r["title"] for r in answer["records"] if r["kind"] == "part"]


def test_a_design_file_lends_its_name_and_becomes_the_part_on_first_use(
    files: Shop,
) -> None:
    answer = files.asked("say", "x rail bracket hole 5.3 should be 5", "--yes")
    assert parts(answer) == ["x-rail-bracket"]
    [revision] = [r for r in answer["records"] if r["kind"] == "revision"]
    assert [file["path"] for file in revision["file"]] == ["x-rail-bracket.stl"]
    assert len(revision["file"][0]["sha256"]) == 64
    again = files.asked("say", "x-rail bracket cracked at the hole", "--yes")
    assert parts(again) == []


def test_a_name_of_two_humps_and_one_with_number_and_mark_are_known(
    files: Shop,
) -> None:
    spring = files.asked("say", "gate spring snapped", "--yes")
    assert parts(spring) == ["GateSpring"]
    arm = files.asked("say", "camera arm 40.2 long", "--yes")
    assert parts(arm) == ["camera arm"]
    assert "B" in {r.get("label") for r in arm["records"]}


@pytest.mark.parametrize(
    "line",
    [
        "caliper battery dead",
        "arm came out 0.5 short",
        "cap",
        "glue had not dried so the frame slipped",
        "ordered two toothed belts",
        "nozzle clogged",
    ],
)
def test_taken_unasked_no_part_is_made_where_its_name_is_not_sure(
    files: Shop, line: str
) -> None:
    assert parts(files.asked("say", line, "--yes")) == []


def test_a_name_that_is_not_sure_is_asked_about_once(
    files: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    answering(monkeypatch, "1", "")
    said = files.logbook("say", "arm broke at the neck")
    assert said.code == 0, said.err
    assert "1 camera arm / 2 arm / 3 no part" in said.out
    [path] = files.records("failures")
    assert 'piece = "camera arm-1' in path.read_text("utf-8")


def test_a_failure_of_no_sure_part_stays_a_failure(files: Shop) -> None:
    answer = files.asked("say", "arm broke at the neck, glued it", "--yes")
    failure = answer["records"][-1]
    assert failure["kind"] == "failure"
    assert "part" not in failure
    assert failure["cure"] == "glued it"


def test_an_unknown_name_of_three_words_is_taken_whole(shop: Shop) -> None:
    answer = shop.asked("say", "tip rack cover 86.4 should be 86", "--yes")
    assert parts(answer) == ["tip rack cover"]
    assert answer["records"][-1]["wanted"] == "86 mm"


# -- wanted sizes, cures, moments --------------------------------------------------


@pytest.mark.parametrize(
    "said",
    [
        "model says 42", "drawing says 42", "supposed to be 42", "nominal 42",
        "instead of 42", "against 42 drawn", "42 in the model", "42 on paper",
    ],
)  # fmt: skip
def test_a_wanted_size_is_kept_however_it_is_said(shop: Shop, said: str) -> None:
    shop.asked("part", "camera mount")
    answer = shop.asked("say", f"camera mount came out at 41.7, {said}", "--yes")
    assert kinds(answer)[-1] == "deviation"
    assert answer["records"][-1]["wanted"] == "42 mm"
    assert answer["records"][-1]["found"] == "41.7 mm"


@pytest.mark.parametrize(
    "cure",
    [
        "drilled it out to 5.5 and it holds",
        "took M4x16 instead",
        "sanded it",
        "reprinted with 3 walls",
        "shimmed with 0.2 card",
    ],
)
def test_failure_cause_and_cure_are_told_apart(shop: Shop, cure: str) -> None:
    shop.asked("part", "gate")
    said = f"gate cracked at the hole because the screw was too tight, {cure}"
    failure = shop.asked("say", said, "--yes")["records"][-1]
    assert failure["kind"] == "failure"
    assert failure["cause"]["said"] == "the screw was too tight"
    assert failure["cure"] == cure


def test_an_hour_that_can_be_two_is_asked_about(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "lid")
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "yesterday around four riveted the lid")
    assert "1 16:00 / 2 04:00" in said.out
    [path] = shop.records("steps-done")
    assert "T16:00:00" in path.read_text("utf-8")


def test_when_is_told_as_a_line_tells_it(shop: Shop) -> None:
    answer = shop.asked("note", "dusted the bench", "--when", "yesterday 16:00")
    assert "T16:00:00" in answer["records"][-1]["when"]
    refused = shop.logbook("note", "dusted the bench", "--when", "yesterday at four")
    assert refused.code == 2
    assert "16:00 or 04:00" in refused.err
    refused = shop.logbook("note", "dusted the bench", "--when", "sometime")
    assert "found “sometime”" in refused.err


@pytest.mark.parametrize("spelled", ["two hours", "half an hour", "1h20", "2 h"])
def test_hours_spelled_in_words_are_read_from_the_record_again(
    shop: Shop, spelled: str
) -> None:
    shop.asked("part", "gate")
    shop.asked("say", "--yes", f"gate sagged at 58 °C after {spelled}")
    assert shop.asked("check")["problems"] == []


@pytest.mark.parametrize(
    "line",
    ["collar hole spacing 41 should be 40, scrap", "collar hole is 1 mm off, scrap"],
)
def test_what_is_scrapped_for_its_size_keeps_the_size_and_whose_fault_it_is(
    shop: Shop, line: str
) -> None:
    shop.asked("part", "collar")
    answer = shop.asked("say", "--yes", "--met-by", "drawing", line)
    deviation = answer["records"][-1]
    assert deviation["kind"] == "deviation"
    assert deviation["disposition"] == "scrap"
    assert deviation["met_by_others"] == "the drawing"
    assert deviation.get("found") == "41 mm" or deviation["off"] == "1 mm"


def test_check_says_what_settles_an_undecided_failure(shop: Shop) -> None:
    shop.asked("part", "gate")
    failure = shop.asked("say", "gate cracked", "--yes")["records"][-1]
    said = shop.logbook("check")
    assert f'logbook dispose {failure["id"]} "use as is"' in said.out
    shop.asked("dispose", failure["id"], "use as is")
    assert "logbook dispose" not in shop.logbook("check").out


@pytest.mark.parametrize(
    ("line", "why"),
    [
        ("length 12.3.4", "because “12.3.4” is no number"),
        ("camera arm 4o.1 long", "because “4o.1” is no number"),
    ],
)
def test_a_size_that_is_no_number_is_kept_as_a_note_and_says_why(
    files: Shop, line: str, why: str
) -> None:
    said = files.logbook("say", "--yes", line)
    assert said.out.startswith(f"note, kept as typed, {why}")
    assert len(said.out.strip().splitlines()) == 3
    assert len(files.records("notes")) == 1


def test_a_size_with_a_sign_behind_it_keeps_the_one_that_was_meant(
    shop: Shop, monkeypatch: pytest.MonkeyPatch
) -> None:
    shop.asked("part", "bar")
    answering(monkeypatch, "1", "")
    said = shop.logbook("say", "bar 40.2 -0.1")
    assert "“40.2 -0.1” is two numbers: which was measured?" in said.out
    [path] = shop.records("runs")
    assert path.read_text("utf-8").count("value = ") == 1
    assert 'value = "40.2 mm"' in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("said", "whose"),
    [
        ("only this piece", "this piece"),
        ("my mistake", "this piece"),
        ("drawing is wrong", "the drawing"),
    ],
)
@pytest.mark.parametrize("fact", ["gate cracked", "gate slot 35.9, drawn 35.5"])
def test_whose_fault_it_is_may_be_said_in_the_line(
    shop: Shop, fact: str, said: str, whose: str
) -> None:
    shop.asked("part", "gate")
    answer = shop.asked("say", f"{fact}, {said}", "--yes")
    assert answer["records"][-1]["kind"] in ("deviation", "failure")
    assert answer["records"][-1]["met_by_others"] == whose


def test_whose_fault_it_is_can_be_said_later(shop: Shop) -> None:
    answer = shop.asked("say", "diffuser cracked at the corner screw", "--yes")
    [failure] = [one for one in answer["records"] if one["kind"] == "failure"]
    told = f"logbook met {failure['id']} drawing"
    assert told in shop.logbook("check").out
    shop.asked("met", failure["id"], "drawing")
    [path] = shop.records("failures")
    assert 'met_by_others = "the drawing"' in path.read_text("utf-8")
    assert path.name.startswith(failure["id"])
    assert "logbook met" not in shop.logbook("check").out
    assert shop.logbook("erratum", failure["id"]).code == 0


def test_whose_fault_is_refused_of_what_has_none(shop: Shop) -> None:
    answer = shop.asked("note", "a long day")
    said = shop.logbook("met", answer["records"][-1]["id"], "machine")
    assert said.code == BadInput.exit_code
    assert "“a long day” has no fault to put down" in said.err


def test_whose_fault_told_of_a_note_is_not_dropped_without_a_word(shop: Shop) -> None:
    said = shop.logbook("say", "a long day", "--yes", "--met-by", "drawing")
    assert said.code == 0
    assert "--met-by drawing was not kept" in said.err
    kept = shop.logbook("say", "lamp went out", "--yes", "--met-by", "drawing")
    assert "was not kept" not in kept.err


def test_a_revision_is_opened_only_by_words_that_say_so(shop: Shop) -> None:
    shop.asked("part", "gate")
    shop.asked("say", "gate rev A: thicker wall", "--yes")
    opened = len(shop.records("revisions"))
    for line in (
        "gate marked rev A has a B embossed",
        "gate rev A fits base rev B too",
        "gate rev A: printed with 3 walls",
    ):
        shop.asked("say", line, "--yes")
        assert len(shop.records("revisions")) == opened, line
    shop.asked("say", "gate rev A withdrawn because it sags", "--yes")
    [path] = shop.records("statuses")
    assert 'because = "it sags"' in path.read_text("utf-8")


@pytest.mark.parametrize(
    ("line", "of"),
    [
        ("crossbar 178.3", ["length"]),
        ("crossbar 48 should be 50", ["size"]),
        ("crossbar 58 °C", ["temperature"]),
        ("crossbar hole spacing 48 should be 50, scrap", ["hole spacing"]),
    ],
)
def test_only_a_number_near_the_drawn_size_is_that_size(
    shop: Shop, line: str, of: list[str]
) -> None:
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1")
    answer = shop.asked("say", line, "--yes")
    runs = [one for one in answer["records"] if one["kind"] == "run"]
    named = [read["what"].rpartition(" ")[0] for run in runs for read in run["reading"]]
    assert named == of


@pytest.mark.parametrize("no", ["n", "no", "nope", "No"])
def test_only_a_yes_takes_a_line_and_what_is_no_answer_is_asked_again(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, no: str
) -> None:
    for line in ("base opening 180.1", "base cracked at the left bend"):
        said = iter(["clear", no])
        monkeypatch.setattr("builtins.input", lambda _, said=said: next(said))
        heard = shop.logbook("say", line)
        assert heard.code == 0, heard.err
        assert "found “clear”; accepted: " in heard.out
        assert "not taken; nothing was saved" in heard.out
    assert not list(Project.open(shop.folder).snapshot.entries)
    kept = [one["text"] for one in shop.asked("drafts")["drafts"]]
    assert {"base opening 180.1", "base cracked at the left bend"} <= {*kept}


@pytest.mark.parametrize(
    ("reason", "linked"),
    [
        ("", True),
        (", the opening is too wide", True),
        (", sole would not stick", False),
    ],
)
def test_what_is_scrapped_answers_only_a_fault_that_is_its_reason(
    shop: Shop, reason: str, linked: bool
) -> None:
    shop.asked("say", "base opening 181.6 should be 180", "--yes")
    said = shop.logbook("say", f"binned the base{reason}", "--yes")
    assert said.code == 0
    assert ("answers: base opening 181.6" in said.out) is linked
    [path] = shop.records("disposals")
    assert ("answers = " in path.read_text("utf-8")) is linked


def test_a_reading_says_on_which_of_several_pieces_it_is(shop: Shop) -> None:
    shop.asked("part", "crossbar")
    shop.asked("say", "two crossbars came out 179.5 and 179.7 long", "--yes")
    said = shop.logbook("say", "crossbar length 179.6", "--yes")
    assert "measured on crossbar-" in said.out


def test_a_line_that_begins_a_build_begins_it(shop: Shop) -> None:
    told = shop.asked("say", "start build 3 for slides")
    assert (told["kind"], told["saved"]) == ("build", False)
    answer = shop.asked("say", "start build 3 for slides", "--yes")
    assert kinds(answer) == ["build"]
    assert answer["records"][0]["purpose"] == "slides"
    assert shop.logbook("say", "start build 3", "--yes").code != 0
