"""What was made of the design files that were found, told when a logbook begins."""

from __future__ import annotations

import shlex
from collections.abc import Collection, Iterator, Sequence

from logbook.counting import first_few, so_many
from logbook.publish.release.unfiled import RELEASED, TIES
from logbook.store.designs.design_files import DesignFile
from logbook.store.designs.part_names import ProposedPart

ENDINGS = ".dxf, .stl, .step, .3mf, .kicad_pcb and the like"
"""Examples of the design files that make a part each."""
_MOST = 6
_TABLES = (".csv", ".tsv")
TIED = f"a file is tied to a part: {TIES} ({RELEASED})"


def told(
    files: Sequence[DesignFile],
    proposed: Sequence[ProposedPart],
    taken: Collection[ProposedPart],
) -> Iterator[str]:
    """Say how many there are, which drawings may be a part's, what was passed over."""
    if not files:
        yield (
            f"no design file was found here; a part comes of each {ENDINGS}; parts "
            "come by themselves as you log, too"
        )
        return
    shaped = [part for part in proposed if not part.only_drawn]
    yield (
        f"design files looked at: {len(files)}; "
        f"{so_many(shaped, 'part')} from {ENDINGS}"
    )
    lone = [part for part in proposed if part.only_drawn and part not in taken]
    if lone:
        yield (
            f"a drawing alone may be a part or none: {first_few(_paths(lone), _MOST)}; "
            f"it becomes one once a line names it, as “{lone[0].title} length 178.6 "
            "should be 180”"
        )
    of_parts = set(_paths(proposed))
    passed = [f for f in files if of_parts.isdisjoint(f.paths)]
    if passed:
        names = first_few([f"{one.path} ({one.kind})" for one in passed], _MOST)
        yield f"passed over, no part by itself: {names}"
        tables = [one.path for one in passed if one.path.lower().endswith(_TABLES)]
        for path in tables[:1]:
            yield f"a parts list is read by: logbook lines {shlex.quote(path)}"
    if lone or passed:
        yield f"{TIED}; files of other endings, such as .md, are not looked at"


def _paths(parts: Sequence[ProposedPart]) -> list[str]:
    return [path for part in parts for path in part.paths]
