"""What is typed that is no verb, or asks for a screen where none can be drawn."""

from __future__ import annotations

import pytest

from logbook.cli import main
from logbook.errors import BadInput
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
