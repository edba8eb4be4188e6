"""A record deleted by hand is told by check, with what takes it or brings it back."""

from __future__ import annotations

import re

from tests.cli.shop import Shop


def told(shop: Shop) -> list[str]:
    found: list[str] = shop.asked("check")["deleted"]
    return found


def test_it_is_named_until_it_is_committed_or_back(shop: Shop) -> None:
    shop.logbook("note", "the bed cupped in winter")
    [file] = shop.records("notes")
    path = file.relative_to(shop.folder).as_posix()
    assert told(shop) == []
    file.unlink()
    [said] = told(shop)
    assert said.startswith(f"{path}: deleted by hand, git still has it")
    assert f"{path}: deleted by hand" in shop.logbook("check").out
    commands = re.findall(r"git [^;]+?(?=;| and |$)", said.partition("to have it")[2])
    back, goes = commands[0].split()[1:], commands[1].split()[1:]
    shop.git(*back)
    assert file.exists()
    assert told(shop) == []
    file.unlink()
    shop.git(*goes)
    shop.git("commit", "-q", "-m", "No such note")
    assert told(shop) == []


def test_what_is_taken_back_is_not_deleted_by_hand(shop: Shop) -> None:
    shop.logbook("note", "the bed cupped in winter")
    shop.logbook("undo")
    assert told(shop) == []
