"""What cannot be worked out is said by every verb that gives advice, exit code too."""

from __future__ import annotations

import pytest

from logbook.errors import ProblemsFound
from tests.cli.shop import Shop


@pytest.mark.parametrize("verb", ["joints", "gaps", "holds"])
def test_a_layer_of_no_known_thickness_is_said(shop: Shop, verb: str) -> None:
    shop.asked("part", "arm")
    shop.asked("joint", "arm to base", "M4x16", "--layer", "arm", "--nut", "plain")
    said = shop.logbook(verb)
    assert "no known thickness" in said.out
    assert said.code == ProblemsFound.exit_code
    assert "no known thickness" in shop.logbook(verb, "--json").out
