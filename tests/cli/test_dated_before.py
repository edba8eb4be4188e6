"""What is dated before its build began is taken, and it is said."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop

SAID = "dated 13 Mar 10:00, before build 2 began (14 Mar 09:00)"


@pytest.fixture
def begun(shop: Shop) -> Shop:
    shop.asked("part", "crossbar", "--when", "2026-03-10T08:00")
    shop.asked("build", "build 1", "--when", "2026-03-10T09:00")
    shop.asked("build", "build 2", "--when", "2026-03-14T09:00")
    return shop


@pytest.mark.parametrize(
    "words",
    [
        ("step", "sawed the crossbar", "--done"),
        ("measure", "crossbar", "length", "178.4"),
        ("note", "sawed the crossbar"),
        ("say", "--yes", "sawed the crossbar"),
    ],
)
def test_it_is_said_once_and_taken(begun: Shop, words: tuple[str, ...]) -> None:
    said = begun.logbook(*words, "--when", "2026-03-13T10:00")
    assert said.code == 0, said.err
    assert (said.out + said.err).count(SAID) == 1


def test_nothing_is_said_of_a_day_within_the_build(begun: Shop) -> None:
    said = begun.logbook("note", "sawed it", "--when", "2026-03-14T10:00")
    assert "dated" not in said.out + said.err


def test_the_first_line_of_a_project_begins_its_build(shop: Shop) -> None:
    said = shop.logbook("say", "--yes", "crossbar length 178.4 yesterday")
    assert "dated" not in said.out + said.err


def test_a_revision_dated_before_the_first_issue_is_the_one_that_is_released(
    shop: Shop,
) -> None:
    def drawn(as_now: str) -> None:
        (shop.folder / "cover.dxf").write_text(as_now, "utf-8")
        shop.git("add", "cover.dxf")
        shop.git("commit", "-qm", "draw")

    drawn("120 long")
    shop.asked("part", "cover", "--when", "2026-03-14T09:00")
    shop.asked("revise", "cover", "--file", "cover.dxf", "--redrawn")
    shop.asked("release", "1.0", "--when", "2026-03-14T10:00")
    drawn("121 long")
    changed = ("--file", "cover.dxf", "--changed", "kerf", "--when", "2026-03-02T10:00")
    shop.asked("revise", "cover", *changed)
    assert shop.asked("release", "1.1", "--check")["unsettled"] == []
    shop.asked("release", "1.1", "--when", "2026-03-15T10:00")
    shop.asked("guide", "1.1")
    [page] = shop.folder.glob("as-built/published/1.1/guide.md")
    assert "rev A, untried (this release)" in page.read_text("utf-8")
