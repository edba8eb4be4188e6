"""`logbook search`: found by word and by value, newest first, from files alone."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from tests.cli.shop import Shop


@pytest.fixture
def stand(shop: Shop) -> Shop:
    """A shop with a few entries, in the order in which they happened."""
    for words in (
        ("note", "Upright sawn at 86.420 mm", "--when", "2026-03-13T09:00"),
        ("note", "Second upright came out at 86,42", "--when", "2026-03-13T10:00"),
        ("note", "Stock is 4.7625 mm thick", "--when", "2026-03-13T11:00"),
        ("note", "Held with M3x8", "--part", "diffuser", "--when", "2026-03-14T09:00"),
        ("note", "M30 would be far too big", "--when", "2026-03-14T10:00"),
        ("failure", "diffuser", "Crack at an M3 screw", "--when", "2026-03-14T23:59"),
    ):
        assert shop.logbook(*words, "--later").code == 0
    return shop


def titles(shop: Shop, *words: str) -> list[str]:
    return [line["title"] for line in shop.asked("search", *words)["found"]]


def index(shop: Shop) -> Path:
    [place] = (shop.folder / ".git").rglob("index.sqlite")
    return place


@pytest.mark.parametrize(
    ("words", "found"),
    [
        (["86.42"], ["Second upright came out at 86,42", "Upright sawn at 86.420 mm"]),
        (["upright", "86.42 mm", "sawn"], ["Upright sawn at 86.420 mm"]),
        (["3/16", "in"], ["Stock is 4.7625 mm thick"]),
        (['3/16"'], ["Stock is 4.7625 mm thick"]),
        (["M3", "--kind", "note"], ["Held with M3x8"]),
        (["m3"], ["Crack at an M3 screw", "Held with M3x8"]),
        (["m3", "--part", "Diffuser"], ["Crack at an M3 screw", "Held with M3x8"]),
        (["m3", "--until", "2026-03-14T12:00"], ["Held with M3x8"]),
        (["m3", "--since", "2026-03-14T12:00"], ["Crack at an M3 screw"]),
        (["m3", "--until", "2026-03-14"], ["Crack at an M3 screw", "Held with M3x8"]),
        (["m3", "--until", "2026-03-13"], []),
        (["m3", "--until", "14.3.2026"], ["Crack at an M3 screw", "Held with M3x8"]),
        (["m3", "--since", "15 mar 2026"], []),
        (["-0.7 mm"], []),
    ],
    ids=" ".join,
)
def test_words_by_their_beginning_and_sizes_by_value(
    stand: Shop, words: list[str], found: list[str]
) -> None:
    assert titles(stand, *words) == found


@pytest.mark.parametrize("day", ["2026-03-14", "14.3.2026", "14 mar 2026"])
def test_a_day_finds_what_happened_on_it(stand: Shop, day: str) -> None:
    found = titles(stand, day)
    assert {"Crack at an M3 screw", "Held with M3x8"} <= {*found}
    assert titles(stand, "1.3.2026") == []


def test_a_hit_names_day_kind_id_and_file(stand: Shop) -> None:
    [line] = stand.logbook("search", "crack").out.splitlines()
    assert line.startswith("2026-03-14 23:59  failure: Crack at an M3 screw  [")
    path = line.split()[-1]
    assert (stand.folder / path).is_file()


def test_only_entries_of_one_build_are_asked_for(stand: Shop) -> None:
    stand.asked("build", "Build two")
    stand.asked("note", "Upright again", "--build", "Build two")
    assert titles(stand, "upright", "--build", "build two") == ["Upright again"]


def test_without_words_the_newest_are_listed_and_more_is_said(stand: Shop) -> None:
    said = stand.logbook("search", "--kind", "note", "--most", "2")
    first, second, more = said.out.splitlines()
    assert "M30 would be far too big" in first
    assert "Held with M3x8" in second
    assert more == "more answer; --most 4 shows twice as many"
    assert stand.asked("search", "--kind", "note", "--most", "2")["more"] is True
    assert stand.asked("search", "--kind", "note", "--most", "5")["more"] is False


def test_ranked_puts_the_best_answer_before_the_newest(stand: Shop) -> None:
    later = ("--prose", "then the sled was used again, in the evening")
    stand.asked("note", "Sled squared", "--when", "2026-03-15T08:00")
    stand.asked("note", "Swept up", *later, "--when", "2026-03-15T09:00")
    assert titles(stand, "sled") == ["Swept up", "Sled squared"]
    assert titles(stand, "sled", "--ranked") == ["Sled squared", "Swept up"]


def test_what_an_editor_or_a_pull_changed_is_found_at_the_next_search(
    stand: Shop,
) -> None:
    assert titles(stand, "sawn") == ["Upright sawn at 86.420 mm"]
    [file] = [f for f in stand.records("notes") if "sawn" in f.read_text("utf-8")]
    file.write_text(file.read_text("utf-8").replace("sawn", "milled"), "utf-8")
    assert titles(stand, "sawn") == []
    assert titles(stand, "milled") == ["Upright milled at 86.420 mm"]
    file.unlink()
    assert titles(stand, "milled") == []


@pytest.mark.parametrize("damage", ["missing", "no database", "a table gone"])
def test_a_lost_or_damaged_index_is_made_anew_without_asking(
    stand: Shop, damage: str
) -> None:
    before = titles(stand, "m3")
    place = index(stand)
    if damage == "missing":
        place.unlink()
    elif damage == "no database":
        place.write_bytes(b"no database " * 900)
    else:
        with sqlite3.connect(place) as db:
            db.execute("DROP TABLE record")
    said = stand.logbook("search", "--json", "m3")
    assert [line["title"] for line in said.json["found"]] == before
    assert said.err == ""


def test_the_index_is_in_the_git_directory_and_never_committed(stand: Shop) -> None:
    titles(stand, "m3")
    assert ".git" in index(stand).parts
    assert "sqlite" not in stand.git("status", "--porcelain", "--ignored")


def test_nothing_found_repeats_what_was_asked(stand: Shop) -> None:
    said = stand.logbook("search", "zinc", "--kind", "failure")
    assert (said.code, said.err) == (0, "")
    assert said.out == "nothing on record answers “zinc” --kind failure\n"


@pytest.mark.parametrize(
    ("words", "code", "said"),
    [
        (["--part", "nix"], 5, "no part is called “nix”; accepted: diffuser"),
        (["--build", "nix"], 5, "no build is called “nix”"),
        (["--kind", "nix"], 2, "--kind: found “nix”; accepted: project, part"),
        (["--since", "soon"], 2, "--since: found “soon”; accepted: a day"),
        (["--until", "9999-12-31"], 2, "--until: found “9999-12-31”"),
        (["--most", "0"], 2, "--most: found 0; accepted: 1 or more"),
    ],
)
def test_what_is_not_understood_gets_one_sentence(
    stand: Shop, words: list[str], code: int, said: str
) -> None:
    answer = stand.logbook("search", "m3", *words)
    assert answer.code == code
    assert said in answer.err
    assert answer.err.count("\n") == 1


def test_of_two_parts_with_one_name_the_ids_are_named(stand: Shop) -> None:
    [file] = [f for f in stand.records("parts") if "diffuser" in f.name]
    text = file.read_text("utf-8")
    [own] = [line for line in text.splitlines() if line.startswith("id =")]
    twin = file.with_name("7k2m9qzd-diffuser.md")
    twin.write_text(text.replace(own, 'id = "7k2m9qzd"'), "utf-8")
    answer = stand.logbook("search", "m3", "--part", "diffuser")
    assert answer.code == 5
    assert "diffuser 7k2m9qzd" in answer.err
    assert titles(stand, "m3", "--part", "7k2m") == []
