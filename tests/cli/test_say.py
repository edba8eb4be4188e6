"""Plain lines become records, shown first, asked about at most once."""

from __future__ import annotations

import pytest

from logbook.errors import NeedsAnswer
from logbook.project import Project
from logbook.records.kinds.happenings import Failure
from tests.cli.shop import Shop
from tests.cli.typed import answering, kinds


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


def test_with_nobody_to_ask_a_doubtful_line_is_shown_as_the_note_it_becomes(
    shop: Shop,
) -> None:
    said = shop.logbook("say", "gate wall 1.2 to 1.6", "--yes")
    assert said.code == 0
    assert said.out.splitlines()[0].startswith("note, kept as typed")
    assert "measured ·" not in said.out
    assert said.err.startswith("kept as a note, not sure: ")
    assert len(shop.records("notes")) == 1


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


def test_a_program_reads_each_fact_by_its_name_and_figures_as_numbers(
    shop: Shop,
) -> None:
    warm = shop.asked("say", "lamp face 58 C after 2 h, room 22")["facts"]
    assert warm["part"] == "lamp"
    [read] = warm["readings"]
    assert (read["what"], read["value"]["value"], read["value"]["unit"]) == (
        "face", 58, "°C",
    )  # fmt: skip
    assert (warm["room"]["value"], warm["hours"]["value"]) == (22, 2)
    bought = shop.asked("say", "ordered 6 lids from the cutter, 38.50, due 2026-04-14")
    assert bought["facts"]["quantity"] == 6
    assert bought["facts"]["price_text"] == "38.50"
    assert bought["facts"]["due"] == "2026-04-14"
    failed = shop.asked("say", "diffuser cracked, screw too tight")["facts"]
    assert failed["cause"] == {"said": "screw too tight"}
    inch = shop.asked("say", '3 13/32" base opening')["facts"]["readings"]
    assert inch[0]["value"] == {"text": '3 13/32"', "value": 3.40625, "unit": "in"}


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


@pytest.mark.parametrize("no", ["n", "no", "nope", "No"])
def test_only_a_yes_takes_a_line_and_what_is_no_answer_is_asked_again(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, no: str
) -> None:
    for line in ("base opening 180.1", "base cracked at the left bend"):
        said = iter(["clear", no])
        monkeypatch.setattr("builtins.input", lambda _, said=said: next(said))
        heard = shop.logbook("say", line)
        assert heard.code == 0, heard.err
        assert "“clear” does not answer this; accepted: " in heard.out
        assert "not taken; nothing was saved" in heard.out
    assert not list(Project.open(shop.folder).snapshot.entries)
    kept = [one["text"] for one in shop.asked("drafts")["drafts"]]
    assert {"base opening 180.1", "base cracked at the left bend"} <= {*kept}


def test_a_line_that_begins_a_build_begins_it(shop: Shop) -> None:
    told = shop.asked("say", "start build 3 for slides")
    assert (told["kind"], told["saved"]) == ("build", False)
    answer = shop.asked("say", "start build 3 for slides", "--yes")
    assert kinds(answer) == ["build"]
    assert answer["records"][0]["purpose"] == "slides"
    assert shop.logbook("say", "start build 3", "--yes").code != 0


@pytest.mark.parametrize("asked", [True, False])
def test_a_tail_nobody_can_place_makes_no_note_of_a_failure(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, *, asked: bool
) -> None:
    answering(monkeypatch, "", "")
    line = "base tore at the foot hole, 12 mm from the bend, with the washer"
    said = shop.logbook("say", line, *(() if asked else ("--yes",)))
    assert ("Enter: neither" in said.out) is asked
    [failure] = Project.open(shop.folder).snapshot.all(Failure)
    assert (failure.title, failure.cause, failure.cure) == (line, None, "")
