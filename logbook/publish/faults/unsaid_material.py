"""Known faults of parts of which nobody said what they are made of.

What is told to be done against such a fault is warned of for every material it may be:
“if it is aluminium …, if it is acrylic …”. Whoever has to read all that may miss the
one line that counts.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Iterator

from logbook.advice.faults.doing import do_now
from logbook.counting import first_few
from logbook.publish.release.statements import stuff
from logbook.publish.signals import of_instruction
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.revisions import current_revision
from logbook.records.together.snapshot import Snapshot

_MOST = 3


def unsaid_materials(snapshot: Snapshot, faults: Iterable[Erratum]) -> Iterator[str]:
    """Say of which parts the material is asked for, and the line that tells it."""
    asked: dict[str, dict[str, None]] = {}
    parts: dict[str, Part] = {}
    for fault in faults:
        part = snapshot.find(fault.part, Part)
        if part is None:
            continue
        made_of = stuff(snapshot, part, current_revision(snapshot, part))
        for one in of_instruction([do_now(snapshot, fault)], made_of):
            if one.of_unsaid:
                parts[part.id] = part
                asked.setdefault(part.id, {})[one.hangs_on] = None
    for key, kinds in asked.items():
        part = parts[key]
        yield (
            f"{part.title}: nobody has said what it is made of, so what to do about "
            f"its known faults warns with “if it is {first_few([*kinds], _MOST)}”; "
            f'say it: logbook part {shlex.quote(part.name)} --material "…"'
        )
