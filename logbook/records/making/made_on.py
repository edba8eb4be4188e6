"""Which machine a line says a piece was made on, and what a machine does."""

from __future__ import annotations

import re

from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.workshop import Machine
from logbook.records.together.snapshot import Snapshot

_WORDS = re.compile(r"[^\W\d_]{3,}")


def does(machine: Machine, process: str) -> bool:
    """Tell whether a machine does a process: folding does hand folding."""
    own = {*_WORDS.findall(machine.process.casefold())}
    return bool(own & {*_WORDS.findall(process.casefold())})


def machine_told(snapshot: Snapshot, line: str, part: Part) -> Machine | None:
    """Give the machine a line says a part was made on, where it does such work."""
    items = (one for one in snapshot.all(Characteristic) if one.part.id == part.id)
    done = [each.process for one in items for each in one.made_by]
    done += part.process
    for machine in snapshot.all(Machine):
        name = r"\s+".join(map(re.escape, machine.title.split()))
        led = rf"(?i)\b(?:on|with|at|in)\s+(?:(?:the|my|our|a)\s+)?{name}\b"
        if re.search(led, line) and any(does(machine, one) for one in done):
            return machine
    return None
