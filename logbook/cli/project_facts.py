"""`logbook project`: what holds for the whole design."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from logbook.cli import terms
from logbook.errors import BadInput
from logbook.plain.stated.restated import both_said, without, without_option
from logbook.records.kinds.design import Climate, DesignFile, Project
from logbook.records.making.drafts import Draft
from logbook.records.written.text import write_record
from logbook.store.designs.design_files import recorded_files

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
FILES = {
    "no-part": "a design file that is no part and goes with none, assembled.stl",
    "part-after-all": "a design file of which that was said, and is so no more",
}
_OF_PROJECT: dict[str, tuple[str, ...]] = {
    **{name.replace("_", "-"): (name,) for name in WORDS},
    **dict.fromkeys(ROOM, ()),
    "chance": ("target_chance",),
}
"""What may be taken away: the option that tells it, and its fact."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    for name, purpose in (*WORDS.items(), *ROOM.items()):
        parser.add_argument(
            f"--{name.replace('_', '-')}", help=purpose.replace("%", "%%")
        )
    parser.add_argument("--chance", help="chance of landing that is wanted, 95 %%")
    for name, purpose in FILES.items():
        parser.add_argument(f"--{name}", action="append", default=[], help=purpose)
    without_option(parser, _OF_PROJECT)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Amend the project's facts, or show them."""
    project = terms.opened(args)
    draft = project.draft(terms.moment(args))
    known = project.snapshot.project
    changed = _changed(args, draft, known)
    if args.no_part or args.part_after_all:
        files = _not_parts(args, known, recorded_files(project.root))
        changed = replace(changed, not_parts=files)
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
    if args.chance:
        more["target_chance"] = terms.value(args.chance, draft)
    more |= without(draft.snapshot, Project, known.title, args, _OF_PROJECT, more)
    if room := _room(args, draft):
        climate = replace(known.climate or Climate(), **room)
        more["climate"] = None if climate == Climate() else climate
    return replace(known, **more)


def _room(args: argparse.Namespace, draft: Draft) -> dict[str, Any]:
    """Give what is told of the rooms it stands in, and what is taken away of it.

    Raises:
        BadInput: the same is told and taken away.
    """
    told: dict[str, Any] = {
        name: terms.value(getattr(args, name), draft)
        for name in ROOM
        if getattr(args, name)
    }
    for name in ROOM.keys() & {*args.without}:
        if name in told:
            raise BadInput(both_said(name))
        told[name] = None
    return told


def _not_parts(
    args: argparse.Namespace, known: Project, on_disk: Mapping[str, DesignFile]
) -> tuple[str, ...]:
    """Give the design files that are no part, as they are said to be now.

    Raises:
        BadInput: one of them is no design file here, or nothing was said of it.
    """
    for option, paths, held in (
        ("no-part", args.no_part, on_disk),
        ("part-after-all", args.part_after_all, known.not_parts),
    ):
        for path in paths:
            if path not in held:
                accepted = ", ".join(sorted(held)[:6]) or "none, there is none"
                raise BadInput(f"--{option}: found “{path}”; accepted: {accepted}")
    kept = [path for path in known.not_parts if path not in args.part_after_all]
    return tuple(dict.fromkeys((*kept, *args.no_part)))
