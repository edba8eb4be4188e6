"""Starting a logbook: only `as-built/` is added, parts are proposed."""

from __future__ import annotations

import hashlib
from pathlib import Path

import pytest

from logbook.errors import BadInput, Refused
from tests.cli.shop import Shop
from tests.store.test_shapes import binary_stl


def contents(folder: Path) -> dict[str, str]:
    return {
        path.relative_to(folder).as_posix(): hashlib.sha256(
            path.read_bytes()
        ).hexdigest()
        for path in folder.rglob("*")
        if path.is_file() and ".git/" not in path.as_posix()
    }


def drawn(shop: Shop) -> None:
    (shop.folder / "base.dxf").write_bytes(b"  0\r\nEOF\r\n")
    (shop.folder / "old base.dxf").write_bytes(b"  0\r\nEOF\r\n")
    (shop.folder / "gate v2.stl").write_bytes(b"solid x\nendsolid x\n")
    (shop.folder / "README.md").write_text("hello\n", "utf-8")
    shop.git("add", "-A")
    shop.git("commit", "-q", "-m", "drawings")


def test_existing_files_stay_as_they_are_and_only_as_built_is_added(
    empty: Shop,
) -> None:
    drawn(empty)
    before = contents(empty.folder)
    answer = empty.asked("start", "--name", "Stand", "--unit", "in", "--yes")
    after = contents(empty.folder)
    assert before.items() <= after.items()
    assert all(p.startswith("as-built/") for p in after.keys() - before.keys())
    assert answer["parts"] == ["base", "gate"]
    assert empty.subjects() == ["start the logbook of Stand", "drawings"]
    assert empty.git("status", "--porcelain") == ""


def test_a_proposed_part_knows_its_files_by_content(empty: Shop) -> None:
    drawn(empty)
    empty.asked("start", "--yes")
    record = empty.asked("show", "base first issue")["record"]
    raw = b"  0\r\nEOF\r\n"
    assert record["file"] == [
        {
            "path": "base.dxf",
            "sha256": hashlib.sha256(raw).hexdigest(),
            "text_sha256": hashlib.sha256(raw.replace(b"\r\n", b"\n")).hexdigest(),
        }
    ]
    assert empty.asked("show", "gate")["mentioned_by"][0]["label"] == "v2"


def test_without_yes_nothing_is_taken_but_it_is_proposed(empty: Shop) -> None:
    drawn(empty)
    answer = empty.asked("start")
    assert (answer["parts"], answer["proposed"]) == ([], ["base", "gate"])


def test_what_is_passed_over_and_why_is_told_with_the_verb_that_ties_it(
    empty: Shop,
) -> None:
    for name in ("crossbar.svg", "parts.csv", "logo.svg", "base.dxf"):
        (empty.folder / name).write_text(name, "utf-8")
    said = empty.logbook("start", "--yes").out
    assert "1 of 1 part taken" in said
    assert "design files looked at: 4; 1 part from .dxf, .stl" in said
    assert "a drawing alone may be a part or none: crossbar.svg;" in said
    assert "no part by itself: logo.svg (drawing), parts.csv (list)" in said
    assert "logbook revise PART --file PATH --redrawn (once its revision is" in said
    tied = ("revise", "base", "--file", "logo.svg", "--redrawn")
    assert empty.logbook(*tied).code == 0


def test_where_no_design_file_is_the_kinds_that_make_a_part_are_named(
    empty: Shop,
) -> None:
    (empty.folder / "stand.md").write_text("a stand\n", "utf-8")
    said = empty.logbook("start", "--yes").out
    assert "no design file was found here; a part comes of each .dxf, .stl" in said


def test_a_line_that_names_a_drawing_makes_it_the_file_of_the_part(
    empty: Shop,
) -> None:
    (empty.folder / "board.svg").write_text("<svg/>", "utf-8")
    empty.asked("start", "--yes")
    line = "yesterday 17:00 sawed the board at 600.4"
    made = empty.asked("say", line, "--yes")["records"]
    assert [r["title"] for r in made if r["kind"] == "part"] == ["board"]
    [first] = [r for r in made if r["kind"] == "revision"]
    assert [file["path"] for file in first["file"]] == ["board.svg"]


def test_parts_that_were_left_are_taken_afterwards(empty: Shop) -> None:
    drawn(empty)
    left = empty.asked("start")["proposed"]
    assert "--yes" in empty.logbook("start").err
    assert empty.asked("start", "--yes")["parts"] == left
    assert "accepted: another folder" in empty.logbook("start", "--yes").err


def test_an_ignored_folder_is_warned_about(empty: Shop) -> None:
    (empty.folder / ".gitignore").write_text("as-built/\n", "utf-8")
    empty.git("add", ".gitignore")
    empty.git("commit", "-q", "-m", "ignore it")
    said = empty.logbook("start")
    assert said.code == 0
    assert "ignored by git" in said.out


def test_a_second_start_and_a_folder_without_git_are_refused(
    shop: Shop, tmp_path_factory: pytest.TempPathFactory
) -> None:
    assert shop.logbook("start").code == BadInput.exit_code
    elsewhere = tmp_path_factory.mktemp("elsewhere")
    shop.folder = elsewhere
    said = shop.logbook("start")
    assert said.code == Refused.exit_code
    assert "git init" in said.err


ODD = (
    "Größe Ä 日本.stl", "-rf.stl", '"quoted".stl', "[markup].stl", "new\nline.stl",
    "esc\x1b[31mred.stl", "Base.stl", "base.stl", "deep/in a/folder/arm v2.stl",
)  # fmt: skip


def test_whatever_files_are_called_each_is_offered_and_none_is_touched(
    empty: Shop,
) -> None:
    for number, name in enumerate(ODD):
        place = empty.folder / name
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_text(f"solid {number}\n", "utf-8")
    pointer = f"oid sha256:{'7' * 64}\nsize 12\n"
    large = f"version https://git-lfs.github.com/spec/v1\n{pointer}"
    (empty.folder / "large.step").write_text(large, "utf-8")
    (empty.folder / "linked.stl").symlink_to("base.stl")
    (empty.folder / "loop").symlink_to(".")
    (empty.folder / "empty-submodule").mkdir()
    before = contents(empty.folder)
    said = empty.logbook("start", "--yes")
    assert (said.code, said.err) == (0, "")
    assert "design files looked at: 10; 9 parts" in said.out
    assert "note: base: Base.stl and base.stl differ: taken as one revision" in said.out
    after = contents(empty.folder)
    assert {path: after[path] for path in before} == before
    check = empty.logbook("check")
    assert (check.code, " 0 problems" in check.out) == (0, True)
    named = [
        file["path"]
        for place in empty.records("revisions")
        for file in empty.asked("show", place.name[:8])["record"]["file"]
    ]
    assert sorted(named) == sorted([*ODD, "large.step"])
    assert empty.asked("show", "large first issue")["record"]["file"][0]["sha256"] == (
        "7" * 64
    )


def test_the_folder_of_git_itself_is_refused(empty: Shop) -> None:
    empty.folder = empty.folder / ".git"
    said = empty.logbook("start")
    assert said.code == BadInput.exit_code
    assert "is git's own; accepted: " in said.err
    assert not (empty.folder / "as-built").exists()


@pytest.mark.parametrize("way", ["link", "dangling link", "file"])
def test_what_is_in_the_way_of_the_folder_is_named_and_stays(
    shop: Shop, way: str
) -> None:
    inner = shop.folder / "lamp"
    inner.mkdir()
    held = inner / "as-built"
    if way == "file":
        held.write_text("mine\n")
    else:
        held.symlink_to(shop.folder / ("as-built" if way == "link" else "nowhere"))
    shop.folder = inner
    said = shop.logbook("start")
    assert said.code == Refused.exit_code
    assert ("in the way" if way == "file" else "is a link to elsewhere") in said.err
    assert held.is_file() if way == "file" else held.is_symlink()


def test_the_nearest_project_upward_wins(shop: Shop) -> None:
    inner = shop.folder / "designs" / "lamp"
    (inner / "deep").mkdir(parents=True)
    outer, shop.folder = shop.folder, inner
    shop.asked("start", "--name", "Lamp")
    shop.folder = inner / "deep"
    shop.asked("note", "inner note")
    shop.folder = outer
    shop.asked("note", "outer note")
    assert [p.name[9:] for p in (inner / "as-built/notes").rglob("*.md")] == [
        "inner-note.md"
    ]
    assert len(shop.records("notes")) == 1
    newest = ["note: outer note", "designs/lamp: note: inner note"]
    assert shop.subjects()[:2] == newest


def test_the_unit_is_used_where_a_line_names_none(empty: Shop) -> None:
    empty.asked("start", "--unit", "in")
    made = empty.asked("measure", "plate", "thickness", "0.25")["records"][-1]
    assert made["reading"][0]["value"] == "0.25 in"


def test_files_of_two_parts_that_hold_the_same_are_told(empty: Shop) -> None:
    for name, says in (("left", "solid a"), ("right", "solid a"), ("lid", "solid b")):
        (empty.folder / f"{name}.stl").write_text(says)
    empty.git("add", ".")
    empty.git("commit", "-qm", "draw")
    said = empty.logbook("start", "--yes").out
    assert "note: left: right.stl has the same content: taken as one part" in said
    assert empty.logbook("check").out.count("hold the same") == 0
    shop_words = ("revise", "lid", "--file", "right.stl", "--changed", "turned round")
    assert empty.logbook(*shop_words).code == 0
    said = empty.logbook("check").out
    assert said.count("hold the same") + said.count("made from one file") == 1
    assert "left first issue and lid rev A" in said
    code = empty.logbook("release", "1.0", "--anyway")
    assert "left first issue and lid rev A" in code.out


def test_a_shape_too_small_for_its_unit_is_told(empty: Shop) -> None:
    corners = ((0.0, 0.0, 0.0), (0.032, 0.0165, 0.0), (0.032, 0.0, 0.032))
    for name, larger in (("foot", 1), ("gate", 1000)):
        grown = [tuple(larger * one for one in corner) for corner in corners]
        (empty.folder / f"{name}.stl").write_bytes(binary_stl(grown))
    said = empty.logbook("start", "--yes")
    assert (
        "note: foot.stl (0.032 × 0.0165 × 0.032) is less than 1 mm across if drawn in "
        "mm, and names no unit: drawn in metres?"
    ) in said.out
    assert "gate.stl (" not in said.out


def test_a_model_in_metres_goes_out_with_the_size_it_would_have(empty: Shop) -> None:
    corners = ((0.0, 0.0, 0.0), (0.032, 0.0165, 0.0), (0.032, 0.0, 0.032))
    (empty.folder / "foot.stl").write_bytes(binary_stl(corners))
    empty.logbook("start", "--yes")
    empty.logbook("part", "foot", "--material", "PETG")
    empty.git("add", "-A")
    empty.git("commit", "-qm", "draw")
    assert (
        "foot.stl (0.032 × 0.0165 × 0.032) is less than 1 mm across if drawn in mm, "
        "and names no unit: drawn in metres? Rebuilders cannot tell: draw it in mm, "
        "then logbook revise PART --redrawn"
    ) in empty.asked("release", "1.0", "--check")["remarks"][0]
    assert empty.logbook("release", "1.0", "--anyway").code == 0
    guide = empty.logbook("guide", "1.0", "--print").out
    assert "0.0 × 0.0" not in guide
    assert (
        "0.032 × 0.0165 × 0.032 overall; the file names no unit and is too small to be "
        "in mm: 32.0 × 16.5 × 32.0 mm if it is drawn in metres"
    ) in guide
    assert "32.0 × 16.5 × 32.0 mm if its file is in metres" in guide
