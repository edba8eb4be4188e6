"""A build by an older release proposes no change of what is drawn by now."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop


@pytest.fixture
def drawn(shop: Shop) -> Shop:
    """A joint with M4x16 in release 1.0, M4x20 in 1.1, and an order of work."""
    for part in ("collar", "base"):
        shop.asked("part", part)
    layers = ("--layer", "collar=6 mm", "--layer", "base=2 mm")
    shop.asked("joint", "collar to base", "M4x16", *layers)
    shop.asked("step", "fit the collar", "--uses", "collar")
    shop.asked("release", "1.0", "--anyway", "--when", "2026-03-01T10:00")
    shop.asked("joint", "collar to base", "M4x20")
    shop.asked("release", "1.1", "--anyway", "--when", "2026-04-01T10:00")
    return shop


DONE = ("fitted the collar with M4x16", "cut the base", "sanded the base", "oiled it")


def offered(shop: Shop, release: str) -> str:
    shop.asked("build", "shed", *(("--of", release) if release else ()))
    for line in DONE:
        assert shop.logbook("say", "--yes", line).code == 0
    return shop.logbook("offered").out


def test_what_an_older_release_says_is_not_proposed_for_the_joint(drawn: Shop) -> None:
    told = offered(drawn, "1.0")
    assert "M4x16 was fitted" not in told
    assert "the order of work" not in told


def test_what_was_fitted_by_the_newest_is_asked_about(drawn: Shop) -> None:
    assert "M4x16 was fitted: should the joint" in offered(drawn, "1.1")
