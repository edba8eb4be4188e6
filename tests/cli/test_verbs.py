"""Every exact verb: what it saves, what it answers, how it refuses."""

from __future__ import annotations

import hashlib

import pytest

from logbook.cli import main
from logbook.cli.verbs import VERBS
from logbook.errors import (
    BadInput,
    ChangedMeanwhile,
    LogbookError,
    NeedsAnswer,
    NoProject,
    NotFound,
    ProblemsFound,
    Refused,
)
from logbook.records.written.text import read_record
from tests.cli.shop import Shop


def test_each_failure_has_its_own_exit_code() -> None:
    kinds = (
        LogbookError, BadInput, NeedsAnswer, NoProject, NotFound, ChangedMeanwhile,
        Refused, ProblemsFound,
    )  # fmt: skip
    assert len({kind.exit_code for kind in kinds}) == len(kinds)


@pytest.mark.parametrize("verb", [v for v in VERBS if v != "open"])
def test_every_verb_explains_itself(
    verb: str, capsys: pytest.CaptureFixture[str]
) -> None:
    with pytest.raises(SystemExit) as leaving:
        main([verb, "--help"])
    assert leaving.value.code == 0
    out = capsys.readouterr().out
    assert out.startswith(f"usage: logbook {verb}")
    assert out.count("\n") > 5


def test_a_note_is_saved_committed_and_read_back(shop: Shop) -> None:
    answer = shop.asked("note", "M3 pan heads look better", "--part", "diffuser")
    note = next(r for r in answer["records"] if r["kind"] == "note")
    parsed = read_record((shop.folder / note["path"]).read_bytes(), note["path"])
    assert parsed.record is not None
    assert parsed.record.title == "M3 pan heads look better"
    assert answer["committed"] == 1
    assert shop.subjects()[0] == "note: M3 pan heads look better"
    assert shop.git("status", "--porcelain") == ""


def test_the_first_entry_makes_part_revision_build_and_piece(shop: Shop) -> None:
    made = shop.asked("measure", "base", "opening", "178.60", "--nominal", "180.0")
    kinds = [record["kind"] for record in made["records"]]
    assert kinds == ["part", "revision", "characteristic", "build", "piece", "run"]
    again = shop.asked("measure", "base", "opening", "178.65")
    assert [record["kind"] for record in again["records"]] == ["run"]


def test_readings_keep_their_digits_places_and_unit(shop: Shop) -> None:
    made = shop.asked(
        "measure", "base", "opening", "front left=178,60", "back=7 1/32 in",
        "right=not measured", "--nominal", "180.0",
    )  # fmt: skip
    run = made["records"][-1]
    got = [(r.get("place"), r["value"]) for r in run["reading"]]
    assert got == [
        ("front left", "178,60 mm"),
        ("back", "7 1/32 in"),
        ("right", "not measured"),
    ]


def test_a_failure_carries_cause_cure_conditions_and_whose_it_is(shop: Shop) -> None:
    made = shop.asked(
        "failure", "gate", "sagged beside the lamp", "--cause", "PLA softens",
        "--proven", "--cure", "PETG", "--temperature", "58 C", "--room", "22 °C",
        "--after", "2 h", "--met-by", "drawing", "--do", "scrap",
    )["records"][-1]  # fmt: skip
    assert made["cause"] == {"said": "PLA softens", "status": "proven"}
    assert made["conditions"] == {
        "temperature": "58 C",
        "room": "22 °C",
        "after": "2 h",
    }
    assert (made["cure"], made["met_by_others"]) == ("PETG", "the drawing")
    assert "scrapped" in shop.logbook("show", "gate").out


def test_a_revision_follows_with_the_next_letter_and_its_changes(shop: Shop) -> None:
    shop.asked("measure", "crossbar", "length", "178.3", "--nominal", "179.7")
    made = shop.asked("revise", "crossbar", "--dimension", "length=178.3", "--why", "x")
    revision = made["records"][-1]
    assert revision["label"] == "A"
    assert revision["change"][0]["was"] == "179.7 mm"
    assert revision["change"][0]["becomes"] == "178.3 mm"
    shown = shop.logbook("show", "crossbar").out
    assert "rev A: untried" in shown
    assert "length: 178.3 mm" in shown
    assert (
        shop.asked("revise", "crossbar", "--why", "it binds")["records"][-1]["label"]
        == "B"
    )
    assert shop.logbook("revise", "crossbar", "--label", "A").code == BadInput.exit_code


def test_a_changed_size_takes_its_limits_along(shop: Shop) -> None:
    shop.asked("part", "crossbar", "--dimension", "length=179.7 ±0.1")
    shop.asked("revise", "crossbar", "--dimension", "length=178.3")
    shown = shop.logbook("show", "crossbar").out
    assert "length: 179.7 mm (179.6 mm to 179.8 mm)" in shown
    assert "length: 178.3 mm (178.2 mm to 178.4 mm)" in shown


def test_a_redrawn_file_is_taken_in_until_the_revision_is_released(shop: Shop) -> None:
    drawing = shop.folder / "bar.dxf"
    drawing.write_text("0\nEOF\n", "utf-8")
    shop.asked("part", "bar")
    shop.asked("revise", "bar", "--file", "bar.dxf")
    drawing.write_text("999\nredrawn\n0\nEOF\n", "utf-8")
    shop.git("add", "bar.dxf")
    shop.git("commit", "-q", "-m", "redrawn")
    taken = shop.asked("revise", "bar", "--redrawn")["records"][-1]
    digest = hashlib.sha256(drawing.read_bytes()).hexdigest()
    assert taken["label"] == "A"
    assert taken["file"][0]["sha256"] == digest
    shop.asked("release", "1.0")
    answer = shop.logbook("revise", "bar", "--redrawn")
    assert answer.code == BadInput.exit_code
    assert "was released in 1.0" in answer.err


def test_undo_takes_the_last_entry_back_with_a_new_commit(shop: Shop) -> None:
    shop.asked("note", "first")
    shop.asked("note", "second")
    before = shop.git("rev-parse", "HEAD")
    assert shop.asked("undo")["undone"] == "note: second"
    assert shop.subjects()[:2] == ["undo: note: second", "note: second"]
    assert shop.git("merge-base", "--is-ancestor", before, "HEAD") == ""
    assert len(shop.records("notes")) == 1
    assert shop.asked("undo")["undone"] == "note: first"
    assert shop.records("notes") == []


def test_undo_brings_an_amended_record_back_as_it_was(shop: Shop) -> None:
    shop.asked("part", "base")
    [path] = shop.records("parts")
    before = path.read_bytes()
    shop.asked("part", "base", "--material", "5052")
    assert b"5052" in path.read_bytes()
    shop.asked("undo")
    assert path.read_bytes() == before
    assert shop.git("status", "--porcelain") == ""


def test_undo_does_not_touch_what_was_edited_since(shop: Shop) -> None:
    made = shop.asked("note", "first")["records"][-1]
    path = shop.folder / made["path"]
    path.write_text(path.read_text("utf-8") + "\nMore, by hand.\n", "utf-8")
    assert shop.logbook("undo").code == ChangedMeanwhile.exit_code
    assert "More, by hand." in path.read_text("utf-8")


def test_a_record_corrected_by_hand_is_told_as_that_by_its_commit(shop: Shop) -> None:
    made = shop.asked("note", "first")["records"][-1]
    path = shop.folder / made["path"]
    path.write_text(path.read_text("utf-8") + "\nMore, by hand.\n", "utf-8")
    shop.asked("note", "second")
    assert shop.subjects()[:2] == ["edited by hand, note: first", "note: second"]
    path.write_bytes(path.read_bytes().replace(b"More", b"Still more"))
    shop.asked("commit")
    assert shop.subjects()[0] == "edited by hand, note: first"


def test_undo_before_git_took_it_leaves_no_trace(shop: Shop) -> None:
    head = shop.git("rev-parse", "HEAD")
    shop.asked("note", "too quick", "--later")
    shop.asked("undo")
    assert shop.git("rev-parse", "HEAD") == head
    assert shop.git("status", "--porcelain") == ""
    assert shop.records("notes") == []


def test_a_record_the_user_removed_is_left_to_the_user(shop: Shop) -> None:
    made = shop.asked("note", "first")["records"][-1]
    (shop.folder / made["path"]).unlink()
    shop.asked("note", "second")
    assert shop.git("status", "--porcelain").strip() == f"D {made['path']}"


def test_what_git_clean_took_away_is_told(shop: Shop) -> None:
    shop.asked("note", "kept")
    (shop.folder / ".git/MERGE_HEAD").write_text(shop.git("rev-parse", "HEAD") + "\n")
    assert shop.asked("note", "waits")["waiting"] == 1
    (shop.folder / ".git/MERGE_HEAD").unlink()
    shop.git("clean", "-qfd")
    said = shop.logbook("check")
    assert said.code == ProblemsFound.exit_code
    assert "logbook commit --bring-back brings it back" in said.out


def test_later_leaves_it_waiting_and_commit_takes_each_act_by_itself(
    shop: Shop,
) -> None:
    head = shop.git("rev-parse", "HEAD")
    for text in ("one", "two", "three"):
        shop.asked("note", text, "--later")
    assert shop.git("rev-parse", "HEAD") == head
    assert len(shop.asked("check")["waiting"]) == 4  # three notes and the build
    assert shop.asked("commit")["committed"] == 3
    assert shop.subjects()[:3] == ["note: three", "note: two", "note: one"]


def test_what_the_user_staged_stays_staged(shop: Shop) -> None:
    (shop.folder / "drawing.dxf").write_text("0\nEOF\n", "utf-8")
    shop.git("add", "drawing.dxf")
    shop.asked("note", "at the bench")
    assert shop.git("diff", "--cached", "--name-only") == "drawing.dxf"
    assert "drawing.dxf" not in shop.git("show", "--name-only", "--format=", "HEAD")


def test_a_merge_in_progress_makes_entries_wait_and_says_so(shop: Shop) -> None:
    shop.asked("note", "before")
    shop.git("checkout", "-q", "-b", "other")
    (shop.folder / "a.txt").write_text("other\n", "utf-8")
    shop.git("add", "a.txt")
    shop.git("commit", "-q", "-m", "other")
    shop.git("checkout", "-q", "main")
    shop.git("merge", "-q", "--no-commit", "--no-ff", "other")
    answer = shop.asked("note", "while merging")
    assert answer["waiting"] == 1
    assert "merge is in progress" in answer["git"]
    shop.git("commit", "-q", "-m", "merged")
    assert shop.asked("commit")["committed"] == 1


REFUSED = [
    (["note", "x", "--when", "2999-01-01"], BadInput, "future"),
    (["note", "x", "--when", "sometime"], BadInput, "“sometime”"),
    (["measure", "base", "w", "1,234"], NeedsAnswer, "1.234 or 1234"),
    (["measure", "base", "w", "18 ga"], NeedsAnswer, "18 ga steel"),
    (["measure", "base", "w", "5 furlongs"], BadInput, "furlongs"),
    (["measure", "base", "w", "left="], BadInput, "no value after ="),
    (["measure", "base", "w", "8.6.4"], BadInput, "two decimal marks"),
    (["measure", "base", "w", "3/0 in"], BadInput, "zero"),
    (["show", "nothing such"], NotFound, "nothing such"),
    (["revise", "nothing such"], NotFound, "nothing such"),
    (["undo", "--what"], BadInput, "--what"),
    (["sing"], BadInput, "“sing”"),
]


@pytest.mark.parametrize(("words", "kind", "said"), REFUSED)
def test_bad_input_is_one_sentence_with_its_exit_code(
    shop: Shop, words: list[str], kind: type[LogbookError], said: str
) -> None:
    before = shop.git("rev-parse", "HEAD")
    answer = shop.logbook(*words)
    assert answer.code == kind.exit_code
    assert said in answer.err
    assert len(answer.err.strip().splitlines()) == 1
    assert shop.git("rev-parse", "HEAD") == before
    assert shop.git("status", "--porcelain") == ""


def test_a_reading_of_another_kind_of_unit_is_refused(shop: Shop) -> None:
    shop.asked("measure", "base", "opening", "178.6", "--nominal", "180.0")
    answer = shop.logbook("measure", "base", "opening", "12.4 kg")
    assert answer.code == BadInput.exit_code
    assert (
        "“12.4 kg” is a mass; opening is drawn 180.0 mm; accepted: a length"
        in answer.err
    )


def test_undo_passes_over_pages_that_were_written(shop: Shop) -> None:
    shop.asked("note", "the entry")
    shop.asked("notes")
    assert shop.asked("undo")["undone"] == "note: the entry"


def test_what_was_refused_at_the_bench_is_kept_word_for_word(shop: Shop) -> None:
    shop.logbook("measure", "base", "w", "1,234")
    shop.logbook("note", "the crossbar", "--when", "2999-01-01")
    kept = shop.asked("drafts")["drafts"]
    texts = sorted(one["text"] for one in kept)
    assert len(texts) == 2
    assert texts[0].endswith("base w 1,234")
    assert texts[1].endswith("'the crossbar' --when 2999-01-01")
    assert shop.asked("drafts", "--drop")["dropped"] is True
    assert shop.asked("drafts")["drafts"] == []


def test_outside_a_project_the_way_in_is_named(empty: Shop) -> None:
    answer = empty.logbook("note", "x")
    assert answer.code == NoProject.exit_code
    assert "logbook start" in answer.err


def test_errors_come_as_json_where_json_was_asked_for(shop: Shop) -> None:
    answer = shop.logbook("show", "nothing such", "--json")
    assert answer.json["code"] == NotFound.exit_code


def test_check_lists_problems_by_line_and_ends_with_its_code(shop: Shop) -> None:
    shop.asked("note", "fine")
    made = shop.asked("failure", "gate", "sagged")["records"][-1]
    path = shop.folder / made["path"]
    text = path.read_text("utf-8").replace("not known yet", "me")
    path.write_text(text, "utf-8")
    line = text.splitlines().index('met_by_others = "me"') + 1
    answer = shop.logbook("check")
    assert answer.code == ProblemsFound.exit_code
    assert f"{made['path']}:{line}: met_by_others: found “me”" in answer.out
    assert "undecided: sagged" in answer.out


def test_a_title_longer_than_a_line_is_kept_whole_in_the_prose(shop: Shop) -> None:
    long = "the lamp flickers when the lid is pressed " * 12
    made = shop.asked("note", long.strip())["records"][-1]
    assert len(made["title"]) <= 200
    assert long.strip() in made["prose"]


@pytest.mark.parametrize(
    "words",
    [
        ("say", ""),
        ("say", "  ", "--yes"),
        ("note", ""),
        ("decision", " "),
        ("failure", "bar", ""),
        ("deviation", "bar", ""),
        ("question", ""),
        ("revise", "bar"),
    ],
)
def test_nothing_said_is_refused_and_nothing_is_made(
    shop: Shop, words: tuple[str, ...]
) -> None:
    shop.asked("part", "bar")
    before = shop.subjects()
    said = shop.logbook(*words)
    assert said.code == BadInput.exit_code
    assert "nothing was said" in said.err
    assert "; accepted: " in said.err
    assert shop.subjects() == before


@pytest.mark.parametrize(
    "words",
    [
        ("inbox", "--again", "scan.jpg"),
        ("sheet", "--enter", "nothing"),
        ("undo", "--when", "never"),
        ("show", "diffusor"),
        ("note",),
    ],
)
def test_what_only_looks_leaves_nothing_among_the_drafts(
    shop: Shop, words: tuple[str, ...]
) -> None:
    said = shop.logbook(*words)
    assert said.code
    assert "kept in logbook drafts" not in said.err
    assert shop.asked("drafts")["drafts"] == []


@pytest.mark.parametrize(
    "words",
    [
        ("note", "bed sanded", "--when", "2999-01-01"),
        ("revise", "diffuser", "--why", "it cracked at the second screw"),
        ("hold", "fold the base", "the sheet is not here"),
    ],
)
def test_what_was_to_be_put_on_record_is_kept_when_it_is_refused(
    shop: Shop, words: tuple[str, ...]
) -> None:
    assert "kept in logbook drafts" in shop.logbook(*words).err
    [one] = shop.asked("drafts")["drafts"]
    assert words[-1] in one["text"]
