"""What is typed that is no verb, or asks for a screen where none can be drawn."""

from __future__ import annotations

import json

import pytest

from logbook.cli import main
from logbook.errors import BadInput, Refused
from tests.cli.shop import Shop


def test_a_slip_in_a_verb_names_the_one_that_may_be_meant(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["sya", "base opening 178.6"]) == BadInput.exit_code
    said = capsys.readouterr().err
    assert "“sya” is no verb of the logbook; accepted: say" in said


def test_a_line_without_its_verb_is_given_back_with_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["bed", "split", "along", "the", "grain"]) == BadInput.exit_code
    assert "say “bed split along the grain”" in capsys.readouterr().err


def test_the_screen_is_not_drawn_into_a_file(
    shop: Shop, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(shop.folder)
    assert main([]) == BadInput.exit_code
    assert "drawn at a terminal, and this is none" in capsys.readouterr().err


def test_what_the_disk_refuses_is_one_sentence(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert main(["demo", "/proc/nowhere/stand"]) == Refused.exit_code
    said = capsys.readouterr().err
    assert said.startswith("logbook: /proc/nowhere")
    assert said.endswith("accepted: a place that can be read and written\n")
    assert main(["demo", "/proc/nowhere/stand", "--json"]) == Refused.exit_code
    assert json.loads(capsys.readouterr().out)["code"] == Refused.exit_code


def test_a_slip_in_the_folder_leads_to_no_other_project(shop: Shop) -> None:
    (shop.folder / "lamp").mkdir()
    missed = str(shop.folder / "lampp")
    shop.folder = shop.folder / "lamp"
    assert shop.logbook("note", "filed", "--in", missed).code == BadInput.exit_code
    assert shop.logbook("note", "filed").code == 0
    assert shop.subjects()[0] == "note: filed"
