"""Known faults told to who holds a revision, some files or a build; all invented."""

from __future__ import annotations

from typing import Any

import pytest

from tests.cli.shop import Shop

SAG = "gate sagged beside the lamp"


@pytest.fixture
def stand(shop: Shop) -> Shop:
    """Release 1.0 with a gate that sags, revision A that does not, in 1.1."""
    drawn(shop, "gate", "first", "--when", "2026-02-01T09:00")
    drawn(shop, "mask", "only", "--when", "2026-02-01T09:01")
    commit(shop)
    shop.asked("release", "1.0", "--when", "2026-02-02T09:00")
    shop.asked("build", "build 1", "--of", "1.0", "--when", "2026-02-03T09:00")
    shop.asked(
        "failure", "gate", SAG, "--met-by", "drawing", "--do", "scrap",
        "--cure", "print it in PETG", "--when", "2026-03-01T09:00",
    )  # fmt: skip
    (shop.folder / "gate.dxf").write_text("999\nsecond\n0\nEOF\n", "utf-8")
    commit(shop)
    shop.asked(
        "revise", "gate", "--changed", "PETG", "--because", SAG, "--remake", "yes",
        "--when", "2026-03-02T09:00",
    )  # fmt: skip
    shop.asked("override", "crossbar in base", "--reason", "fit")
    shop.asked("release", "1.1")
    return shop


def drawn(shop: Shop, name: str, says: str, *more: str) -> None:
    path = f"{name}.dxf"
    (shop.folder / path).write_text(f"999\n{says}\n0\nEOF\n", "utf-8")
    shop.asked("part", name, *more)
    shop.asked("revise", name, "--file", path, "--redrawn")


def commit(shop: Shop) -> None:
    shop.git("add", "*.dxf")
    shop.git("commit", "-q", "-m", "Draw")


def told(shop: Shop, *words: str) -> dict[str, Any]:
    answer: dict[str, Any] = shop.asked("errata", *words)
    return answer


def test_who_holds_a_revision_learns_what_to_do_and_where_it_is_fixed(
    stand: Shop,
) -> None:
    [first] = told(stand, "--revision", "gate first issue")["advice"]
    assert first["grade"] == "check"
    assert "gate first issue has it" in first["says"]
    assert "do this now: print it in PETG" in first["says"]
    assert "fixed in gate rev A, release 1.1, remake: yes" in first["says"]
    [second] = told(stand, "--revision", "gate rev A")["advice"]
    assert second["grade"] == "remark"
    assert "not affected: fixed, untried" in second["says"]
    assert told(stand, "--revision", "mask first issue")["advice"] == []


def test_files_are_known_by_their_content_wherever_they_lie(stand: Shop) -> None:
    old = stand.folder / "download.dxf"
    old.write_bytes(stand.git("show", "as-built/1.0:gate.dxf").encode() + b"\n")
    [advice] = told(stand, "--files", str(old))["advice"]
    assert "is gate first issue, which has it" in advice["says"]
    # Line ends that git or a mail program changed make no other file.
    old.write_bytes(old.read_bytes().replace(b"\n", b"\r\n"))
    assert len(told(stand, "--files", str(old))["advice"]) == 1
    now = str(stand.folder / "gate.dxf")
    assert told(stand, "--files", now)["advice"][0]["grade"] == "remark"


def test_a_file_that_is_nobodys_is_said_to_be_unknown(stand: Shop) -> None:
    other = stand.folder / "other.dxf"
    other.write_text("something else", "utf-8")
    answer = told(stand, "--files", str(other))
    assert answer["unknown"] == [str(other)]
    assert answer["advice"] == []
    assert stand.logbook("errata", "--files", "nowhere.dxf").code == 2


def test_a_file_two_revisions_share_does_not_decide(stand: Shop) -> None:
    stand.asked("revise", "gate", "--changed", "as rev A", "--why", "text only")
    [advice] = told(stand, "--files", str(stand.folder / "gate.dxf"))["advice"]
    assert "gate rev A or gate rev B" in advice["says"]


def test_a_file_frozen_under_another_revision_is_of_the_one_drawn_so(
    stand: Shop,
) -> None:
    path = stand.folder / "gate.dxf"
    path.write_text("999\nthird\n0\nEOF\n", "utf-8")
    commit(stand)
    stand.asked("release", "1.2", "--anyway")
    [advice] = told(stand, "--files", str(path))["advice"]
    assert "gate.dxf is gate rev A," in advice["says"]
    stand.asked("revise", "gate", "--file", "gate.dxf", "--changed", "thicker")
    [advice] = told(stand, "--files", str(path))["advice"]
    assert "gate.dxf is gate rev B" in advice["says"]


def test_a_build_is_told_by_its_pieces_and_else_by_its_release(stand: Shop) -> None:
    build = told(stand, "--build", "build 1")
    assert {one["what"] for one in build["held"]} >= {"the gate of release 1.0"}
    [advice] = build["advice"]
    assert (
        "the gate of release 1.0 is gate first issue, which has it" in (advice["says"])
    )
    stand.asked("piece", "gate", "--build", "build 1")
    [advice] = told(stand, "--build", "build 1")["advice"]
    assert advice["grade"] == "remark"


def test_what_must_not_be_used_waits(stand: Shop) -> None:
    stand.asked("erratum", SAG, "--stop-using-until", "a gate of PETG is in its place")
    [advice] = told(stand, "--revision", "gate first issue")["advice"]
    assert advice["grade"] == "wait"
    assert "do not use it until a gate of PETG is in its place" in advice["says"]


def test_a_piece_made_to_suit_has_no_fault_of_a_length_drawn_too_long(
    shop: Shop,
) -> None:
    shop.asked("build", "build 1", "--when", "2026-02-02T08:00")
    shop.asked("measure", "base", "opening", "178.6", "--when", "2026-02-02T09:00")
    shop.asked(
        "deviation", "crossbar", "too long as drawn", "--dimension", "length",
        "--wanted", "179.7", "--found", "178.3", "--met-by", "drawing",
        "--do", "use as is", "--when", "2026-02-02T09:01",
    )  # fmt: skip
    shop.asked("release", "1.0", "--anyway", "--when", "2026-02-02T10:00")
    shop.asked("build", "shed-1", "--of", "1.0", "--when", "2026-02-03T08:00")
    shop.asked("measure", "base", "opening", "179.4", "--when", "2026-02-03T09:00")
    for length, grade, said in (
        ("179.1", "remark", "not affected: it was made to suit, and its gap is within"),
        ("179.6", "check", "which has it"),  # it does not go in
    ):
        shop.asked("measure", "crossbar", "length", length)
        [advice] = told(shop, "--build", "shed-1")["advice"]
        assert advice["grade"] == grade
        assert said in advice["says"]
    # Who holds the drawing alone has it all the same.
    [advice] = told(shop, "--revision", "crossbar first issue")["advice"]
    assert "crossbar first issue has it" in advice["says"]
