"""`logbook project`: what holds for the whole design."""

from __future__ import annotations

import argparse
from dataclasses import replace
from typing import Any

from logbook.cli import terms
from logbook.records.kinds.design import Climate, Project
from logbook.records.making.drafts import Draft
from logbook.records.written.text import write_record

WORDS = {
    "tolerance": "general tolerance the drawings invoke, ISO 2768-c, or none",
    "licence": "SPDX expression, CERN-OHL-W-2.0",
    "published_at": "where the design is published",
    "intended_use": "what it is for, and what not",
}
ROOM = {
    "coldest": "coldest room it stands in, 15 °C",
    "hottest": "hottest room, 35 °C",
    "driest": "driest air, 30 %",
    "dampest": "dampest air, 65 %",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    for name, purpose in (*WORDS.items(), *ROOM.items()):
        parser.add_argument(
            f"--{name.replace('_', '-')}", help=purpose.replace("%", "%%")
        )
    parser.add_argument("--chance", help="chance of landing that is wanted, 95 %%")
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Amend the project's facts, or show them."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    known = project.snapshot.project
    changed = _changed(args, draft, known)
    if changed == known:
        if args.json:
            terms.answer(record=terms.facts(project, known))
        else:
            print(write_record(known), end="")
        return 0
    draft.amend(changed)
    return terms.save(project, draft, f"project: {known.title}", args)


def _changed(args: argparse.Namespace, draft: Draft, known: Project) -> Project:
    more: dict[str, Any] = {
        name: getattr(args, name) for name in WORDS if getattr(args, name) is not None
    }
    room = {
        name: terms.value(getattr(args, name), draft)
        for name in ROOM
        if getattr(args, name)
    }
    if room:
        more["climate"] = replace(known.climate or Climate(), **room)
    if args.chance:
        more["target_chance"] = terms.value(args.chance, draft)
    return replace(known, **more)
