"""What the page of known faults says, as data, for the tests of it."""

from __future__ import annotations

import json
from typing import Any

from logbook.records.kinds.made_public import Release
from tests.publish.stand import Stand

CRACK = "diffuser cracked at a corner screw"


def release_of(stand: Stand, label: str) -> Release:
    return stand.project.snapshot.lookup(f"release {label}", Release)


def as_data(stand: Stand, *words: str) -> dict[str, Any]:
    code, said = stand.run("errata", *words, "--json")
    assert code == 0
    found: dict[str, Any] = json.loads(said)
    return found
