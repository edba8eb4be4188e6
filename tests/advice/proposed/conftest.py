"""Records put together by hand, for the tests of what entries bring up."""

from __future__ import annotations

import pytest

from tests.advice.proposed.together_by_hand import Bench


@pytest.fixture
def bench() -> Bench:
    return Bench()
