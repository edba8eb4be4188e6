"""A line that is being typed has one window, however fast another one is opened."""

from __future__ import annotations

import os
import signal
from collections.abc import Iterator
from functools import partial
from pathlib import Path

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.store.disk.own_places import state_folder
from tests.screens.conftest import logged
from tests.screens.in_a_pty import Pty, in_a_pty
from tests.screens.on_disk import lines_kept

LINE = "sanded the be"
F8 = "\x1b[19~"

END = "\x1b[F"
"""The key that goes on with a line that came back."""


@pytest.fixture
def first(shop: Path, own_state: Path) -> Iterator[Pty]:
    with in_a_pty(shop, own_state) as made:
        yield made


def typed(first: Pty, shop: Path) -> None:
    first.press(LINE)
    first.until(lambda: lines_kept(shop) == [LINE])


def titles(shop: Path) -> list[str]:
    return [record.title for record in Project.open(shop).snapshot]


def logged_as(shop: Path, title: str) -> bool:
    return title in titles(shop)


def test_a_window_opened_while_the_closed_one_still_lives_gets_the_line_once_it_is_free(
    first: Pty, shop: Path, own_state: Path
) -> None:
    typed(first, shop)
    first.send(signal.SIGSTOP)  # as one that has not come to it yet
    with in_a_pty(shop, own_state) as again:
        again.shows(f"process {first.process.pid}")
        again.shows("F8 takes it over")
        first.close()  # which wakes it, too
        again.shows(f"say › │ {LINE}")
        first.ended()
        assert lines_kept(shop) == [LINE]
        again.press(f"{END}d\r")
        again.until(lambda: lines_kept(shop) == [])
        again.until(lambda: f"{LINE}d" in titles(shop))


def test_a_window_that_waits_for_git_has_let_go_of_the_line(
    first: Pty, shop: Path, own_state: Path, tmp_path: Path
) -> None:
    go_on = tmp_path / "go-on"
    hook = shop / ".git/hooks/pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text(f"#!/bin/sh\nwhile [ ! -e '{go_on}' ]; do sleep 0.1; done\n")
    hook.chmod(0o755)
    first.press("oiled the bed\r")
    first.until(lambda: "oiled the bed" in titles(shop))
    typed(first, shop)
    first.close()
    with in_a_pty(shop, own_state, ready="say ›") as again:
        again.shows(f"say › │ {LINE}")
        go_on.touch()
        first.ended()
        again.press(f"{END}d")
        again.until(lambda: lines_kept(shop) == [f"{LINE}d"])


def test_the_line_of_a_window_that_is_open_is_taken_over_by_a_key(
    first: Pty, shop: Path, own_state: Path
) -> None:
    typed(first, shop)
    with in_a_pty(shop, own_state) as second:
        second.shows("F8 takes it over")
        second.press(F8)
        second.shows(f"say › │ {LINE}")
        first.shows("the line was taken over in another window")
        first.until(lambda: not first.glass.shows(LINE))
        second.press("d\r")
        first.press("oiled the bed")
        first.until(lambda: lines_kept(shop) == ["oiled the bed"])
        second.until(lambda: f"{LINE}d" in titles(shop))
    assert LINE not in titles(shop)


def test_two_windows_that_open_on_a_line_left_over_do_not_both_get_it(
    first: Pty, shop: Path, own_state: Path
) -> None:
    typed(first, shop)
    first.send(signal.SIGKILL)
    first.ended()
    with in_a_pty(shop, own_state) as one, in_a_pty(shop, own_state) as other:
        one.shows(f"say › │ {LINE}")
        other.shows("F8 takes it over")
        assert not other.glass.shows(f"say › │ {LINE}")
        assert len(lines_kept(shop)) == 1


def test_a_number_of_a_process_that_is_another_one_by_now_keeps_no_line_back(
    first: Pty, shop: Path, own_state: Path
) -> None:
    typed(first, shop)
    first.send(signal.SIGKILL)
    first.ended()
    # After a new start of the machine the number may be anybody's: this one's.
    windows = state_folder(shop) / "windows"
    left = windows / str(first.process.pid)

    left.rename(windows / str(os.getpid()))
    [draft] = (state_folder(shop) / "drafts").glob("*.txt")
    text = draft.read_text().replace(str(first.process.pid), str(os.getpid()))
    draft.write_text(text)
    with in_a_pty(shop, own_state) as again:
        again.shows(f"say › │ {LINE}")


def test_a_part_that_two_windows_name_at_the_same_moment_is_made_once(
    first: Pty, shop: Path, own_state: Path
) -> None:
    names = ("spacer", "hinge", "knob", "bracket")
    with in_a_pty(shop, own_state) as second:
        for name in names:
            for window, size in ((first, "40.2"), (second, "40.3")):
                window.press(f"{name} length {size}")
                window.shows(f"part {name} (new) · size length {size}")
            first.press("\r")
            second.press("\r")
            for window, size in ((first, "40.2"), (second, "40.3")):
                window.until(partial(logged_as, shop, f"{name} length {size}"))
    made = [one.title for one in Project.open(shop).snapshot.all(Part)]
    assert sorted(set(made) & set(names)) == sorted(names)
    assert len(made) == len(set(made))


def test_windows_that_stand_in_different_builds_say_so(
    first: Pty, shop: Path, own_state: Path
) -> None:
    first.shows("build 1")
    logged(shop, "build", "build 2")
    first.shows("build 2 was begun elsewhere; F4 goes on with it")
    with in_a_pty(shop, own_state) as second:
        second.shows("build 2  another window: build 1")
        first.shows("build 1  another window: build 2")
        first.press("\x1b[14~")
        second.until(lambda: not second.glass.shows("another window: "))
        first.until(lambda: not first.glass.shows("another window: "))
