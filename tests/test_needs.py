"""A missing program skips a test by its reason, and fails it in CI."""

from __future__ import annotations

import pytest

from tests.needs import ALL_TESTS, insist, needs


def test_a_missing_program_skips_with_its_name(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> None:
    request.node.add_marker(needs("sh", "no-such-program-anywhere"))
    monkeypatch.delenv(ALL_TESTS, raising=False)
    with pytest.raises(pytest.skip.Exception, match="needs no-such-program-anywhere,"):
        insist(request.node)


def test_in_ci_a_missing_program_is_a_failure(
    request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch
) -> None:
    request.node.add_marker(needs("no-such-program-anywhere"))
    monkeypatch.setenv(ALL_TESTS, "1")
    with pytest.raises(pytest.fail.Exception, match="no-such-program-anywhere"):
        insist(request.node)


def test_a_program_that_is_there_lets_the_test_run(
    request: pytest.FixtureRequest,
) -> None:
    request.node.add_marker(needs("sh"))
    insist(request.node)
