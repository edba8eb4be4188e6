"""A joint drawn otherwise since is told with what the release of the build says."""

from __future__ import annotations

import pytest

from tests.cli.shop import Shop


@pytest.fixture
def drawn(shop: Shop) -> Shop:
    """A joint with M4x16 in release 1.0, M4x20 in 1.1; another is the same in both."""
    for part in ("collar", "lid"):
        shop.asked("part", part)
    for name, part in (("collar to base", "collar"), ("lid to base", "lid")):
        layers = ("--layer", f"{part}=6 mm", "--layer", "base=2 mm", "--nut", "plain")
        shop.asked("joint", name, "M4x16", *layers)
    shop.asked("release", "1.0", "--anyway", "--when", "2026-03-01T10:00")
    shop.asked("joint", "collar to base", "M4x20")
    shop.asked("release", "1.1", "--anyway", "--when", "2026-04-01T10:00")
    return shop


@pytest.mark.parametrize(
    ("release", "says"),
    [
        ("1.0", "release 1.0, which shed-1 is made by, says: 1 × M4x16, plain nut"),
        ("1.1", ""),
    ],
)
def test_it_is_told_in_a_build_by_that_release(
    drawn: Shop, release: str, says: str
) -> None:
    drawn.asked("build", "shed-1", "--of", release)
    told = {one["about"].split(" to ")[0]: one["assumed"]
            for one in drawn.asked("joints")["advice"]}  # fmt: skip
    then = [line for line in told["collar"] if "is made by" in line]
    assert then == [] if not says else then[0].startswith(says)
    assert not any("is made by" in line for line in told["lid"])
