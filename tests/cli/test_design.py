"""Verbs that describe the design and what is done with pieces."""

from __future__ import annotations

from pathlib import Path

import pytest

from logbook.cli.demo import load_script
from logbook.errors import BadInput
from tests.cli.shop import Shop


def test_a_joint_keeps_its_layers_from_head_to_nut(shop: Shop) -> None:
    made = shop.asked(
        "joint", "collar to base", "M4x16", "--layer", "washer=0.8 mm",
        "--layer", "collar=6.35 ±0.05", "--layer", "base", "--nut-height", "5.0 mm",
        "--nut", "thin self-locking", "--number", "4",
    )["records"][-1]  # fmt: skip
    layers = [
        (" ".join(x["part"].split()[:-1]), x.get("thickness"), x.get("upper_limit"))
        for x in made["layer"]
    ]
    assert layers == [
        ("washer", "0.8 mm", None),
        ("collar", "6.35 mm", "6.40 mm"),
        ("base", None, None),
    ]
    amended = shop.asked("joint", "collar to base", "M4x20", "--layer", "washer=0.8 mm")
    assert amended["records"][-1]["id"] == made["id"]
    assert len(shop.asked("history", "collar to base")["commits"]) == 2


def test_a_gap_reads_its_formula_and_makes_the_dimensions_it_names(shop: Shop) -> None:
    made = shop.asked(
        "gap", "bar in opening", "base.opening - crossbar.length",
        "--limits", "0.1 to 0.5", "--last", "crossbar.length", "--one-instrument",
    )["records"]  # fmt: skip
    gap = made[-1]
    assert (gap["lower_limit"], gap["upper_limit"]) == ("0.1 mm", "0.5 mm")
    assert gap["made_last"].startswith("length ")
    assert [r["title"] for r in made if r["kind"] == "characteristic"] == [
        "opening",
        "length",
    ]


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["base.opening -", "--limits", "0.1 to 0.5"], "formula"),
        (["__import__('os')"], "accepted"),
        (["base.opening - bar.length", "--last", "lid.width"], "lid.width"),
        (["base.opening - bar.length", "--limits", "0.5 to 0.1"], "backwards"),
    ],
)
def test_a_wrong_gap_is_refused_in_one_sentence(
    shop: Shop, words: list[str], said: str
) -> None:
    answer = shop.logbook("gap", "g", *words)
    assert answer.code == BadInput.exit_code
    assert said in answer.err
    assert shop.records("gaps") == []


def test_steps_are_numbered_in_order_and_what_was_done_refers_to_them(
    shop: Shop,
) -> None:
    shop.asked("step", "put the cable in its channel", "--uses", "cable")
    made = shop.asked(
        "step", "screw the lid on", "--closes", "--inside", "cable",
        "--after", "put the cable in its channel", "--tested", "lamp lights",
    )["records"][-1]  # fmt: skip
    assert made["number"] == 2
    done = shop.asked("step", "screw the lid on", "--done", "--time", "25 min")
    entry = done["records"][-1]
    assert entry["kind"] == "step done"
    assert entry["closes"] is True
    assert entry["step"].endswith(made["id"])


def test_hold_override_and_question_are_kept(shop: Shop) -> None:
    shop.asked("step", "screw the lid on", "--closes")
    hold = shop.asked("hold", "screw the lid on", "no cable yet", "--until", "cable in")
    assert hold["records"][-1]["grade"] == "wait"
    passed = shop.asked("override", "no cable yet", "--reason", "checked")
    assert passed["records"][-1]["reason"] == "checked already"
    asked = shop.asked("question", "How long is the bar really?", "--part", "crossbar")
    answer = shop.asked("measure", "crossbar", "length", "178.3")["records"][-1]
    shop.asked("question", asked["records"][-1]["id"], "--answer", answer["id"])
    assert answer["id"] in shop.records("questions")[0].read_text("utf-8")


def test_a_disposition_answers_its_deviation(shop: Shop) -> None:
    shop.asked("deviation", "base", "narrow", "--found", "178.6", "--wanted", "180")
    assert len(shop.asked("check")["undecided"]) == 1
    shop.asked("dispose", "narrow", "use as is", "--because", "bar made to suit")
    assert shop.asked("check")["undecided"] == []


def test_a_list_line_is_amended_not_doubled(shop: Shop) -> None:
    shop.asked("line", "M3 insert", "8", "--spare", "2", "--bought-as", "pack of 50")
    shop.asked("line", "M3 insert", "6")
    [path] = shop.records("list")
    assert "quantity = 6" in path.read_text("utf-8")
    assert shop.logbook("line", "M3 insert", "-1").code == BadInput.exit_code


def test_a_photo_enters_git_clean_and_is_linked(shop: Shop, tmp_path: Path) -> None:
    entry = shop.asked("failure", "diffuser", "cracked")["records"][-1]
    raw = tmp_path / "IMG_1.jpg"
    raw.write_bytes(load_script().photo("diffuser crack"))
    shop.git("config", "status.showUntrackedFiles", "no")
    made = shop.asked("photo", "cracked", str(raw), "--caption", "the crack")
    assert made["records"][-1]["id"] == entry["id"]
    link = made["records"][-1]["photo"][0]
    stored = (shop.folder / link["path"]).read_bytes()
    assert b"SN-12345" not in stored
    objects = shop.git("cat-file", "--batch-all-objects", "--batch-check").splitlines()
    for line in objects:
        name, kind, _ = line.split()
        if kind == "blob":
            assert "SN-12345" not in shop.git_bytes("cat-file", "blob", name)
    bad = tmp_path / "x.jpg"
    bad.write_bytes(b"not a photo")
    assert shop.logbook("photo", "cracked", str(bad)).code == BadInput.exit_code


def test_history_lists_the_commits_of_a_record(shop: Shop) -> None:
    shop.asked("part", "base")
    shop.asked("part", "base", "--material", "5052")
    commits = shop.asked("history", "base")["commits"]
    assert [c["subject"] for c in commits] == ["part amended: base", "part new: base"]
