"""A hold, a step or a gap stated at the bench is no work: the key for it is said."""

from __future__ import annotations

import pytest

from logbook.screens.bench.in_the_shell import in_the_shell
from tests.plain.records_of import world


@pytest.mark.parametrize(
    ("line", "key"),
    [
        ("hold: do not screw the lid on before the base is painted", "Ctrl-N"),
        ("hold 2: the glue is not dry", "Ctrl-N"),
        ("step bend the brackets --closes", "Ctrl-N"),
        ("step solder the led strip; after 2", "Ctrl-N"),
        ("step solder the led strip; uses base; after 2, 3", "Ctrl-N"),
        (
            "logbook gap bar: base.opening - crossbar.length --limits 0.1 to 0.5",
            "Ctrl-B",
        ),
    ],
)
def test_where_it_is_typed_is_said(line: str, key: str) -> None:
    assert in_the_shell(line, world(())).startswith(f"{key} takes it")


@pytest.mark.parametrize(
    "line",
    [
        "step 2 done; after 2 h it held",
        "stepped on the lid; inside all is well",
        "step solder the strip; after 2 h it held",
        "step 6: done.",
        "held the lid: it slipped",
        "gap 0.3",
        "step 2 done - at last",
    ],
)
def test_what_happened_is_still_told(line: str) -> None:
    assert in_the_shell(line, world(())) == ""
