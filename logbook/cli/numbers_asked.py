"""How many of a part one unit takes, asked at a terminal before a release goes out."""

from __future__ import annotations

import argparse
from collections.abc import Iterator, Sequence

from logbook.advice.changes.uncounted import Uncounted, uncounted
from logbook.cli import terms
from logbook.project import Project
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.ids import new_id

_NO_MORE = "n"


def ask_numbers(
    project: Project, revisions: Sequence[Revision], args: argparse.Namespace
) -> bool:
    """Ask it of every part that is on no line, and put what is answered on the list.

    It is told whether anything was.
    """
    said = tuple(_answered(tuple(uncounted(project.snapshot, revisions))))
    if not said:
        return False
    draft = project.draft(terms.moment(args))
    for part, number in said:
        title = f"{part.title} in the whole"
        line = Line(
            id=new_id(), title=title, when=draft.when, part=part.ref, quantity=number
        )
        draft.add(line)
    subject = "list: " + ", ".join(f"{number} × {part.title}" for part, number in said)
    project.save(draft, subject, terms.moment(args))
    return True


def _answered(asked: Sequence[Uncounted]) -> Iterator[tuple[Part, int]]:
    """Ask one after the other; nothing leaves one unsaid, `n` all that are left."""
    for at, one in enumerate(asked, 1):
        took = f" ({one.took})" if one.took else ""
        left = ", n: leave all of them unsaid" if at < len(asked) else ""
        while said := terms.ask(
            f"how many of {one.part.title} does one unit take? nobody has said{took}  "
            f"[a number / Enter: leave it unsaid{left}] "
        ):
            if said.isdecimal() and int(said) > 0:
                yield one.part, int(said)
                break
            if said.casefold() == _NO_MORE:
                return
            print(f"found “{said}”; accepted: a whole number from 1, or Enter")
