"""`logbook impact`: what a change touches, and what it means for pieces made."""

from __future__ import annotations

import argparse
from typing import Any

from logbook.advice.changes.impact_told import (
    MAKER,
    Impact,
    change_words,
    impact,
    impact_advice,
    impact_lines,
    number_words,
)
from logbook.advice.changes.interchange import as_asked, with_revision
from logbook.advice.ground.advice import STANDING, as_facts
from logbook.cli import names, terms
from logbook.errors import BadInput
from logbook.records.kinds.design import Change, Part, Revision
from logbook.records.sizes.definition import characteristics_of
from logbook.records.sizes.limits import parse_drawn
from logbook.records.together.names import folded
from logbook.records.together.revisions import current_revision, revisions_of
from logbook.records.together.snapshot import Snapshot


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="the part, or one revision of it")
    parser.add_argument(
        "--dimension", action="append", default=[], help="what if: length=178.3 ±0.1"
    )
    parser.add_argument("--material", default="", help="what if it were made of this")
    parser.add_argument(
        "--any", action="store_true", help="of whatever change, not the newest revision"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say the impact; nothing is saved."""
    project = terms.opened(args)
    snapshot, part, revision = _meant(project.snapshot, args)
    found = impact(snapshot, part, revision)
    if args.json:
        terms.answer(advice=[as_facts(impact_advice(found))], **_facts(found))
        return 0
    print(change_words(found.change))
    for word, line in impact_lines(found):
        print(f"  {word:<9} {line}")
    print(f"  {'number':<9} {number_words(found.number)}")
    print(f"{MAKER}; {STANDING}")
    return 0


def _meant(
    snapshot: Snapshot, args: argparse.Namespace
) -> tuple[Snapshot, Part, Revision | None]:
    """Give the part and the revision meant, asked about ones taken as on record."""
    named = snapshot.named(args.name, Revision)
    if len(named) == 1:
        part = snapshot.find(named[0].part, Part)
        revision: Revision | None = named[0]
    else:
        part, revision = names.meant(snapshot, args.name, Part), None
    if part is None:
        raise BadInput(f"{args.name} is of no part on record; accepted: a part")
    line = revisions_of(snapshot, part)
    if args.dimension or args.material:
        before = revision or current_revision(snapshot, part)
        if before is None:
            raise BadInput(
                f"{part.title} has no revision; accepted: a part that has one"
            )
        changes = tuple(_change(snapshot, part, text) for text in args.dimension)
        asked = as_asked(before, changes, args.material)
        return with_revision(snapshot, asked), part, asked
    if revision is None and len(line) > 1 and not args.any:
        revision = current_revision(snapshot, part)
    return snapshot, part, revision


def _change(snapshot: Snapshot, part: Part, text: str) -> Change:
    name, sign, size = text.partition("=")
    held = characteristics_of(snapshot, part)
    found = [c for c in held if folded(name) in {folded(c.title), folded(c.name)}]
    if not sign or len(found) != 1:
        known = ", ".join(c.title for c in held) or f"{part.title} has none"
        raise BadInput(f"--dimension: found “{text}”; accepted: name=size, of {known}")
    drawn = parse_drawn(size, snapshot.project.unit)
    return Change(
        characteristic=found[0].ref,
        becomes=drawn.nominal,
        lower_limit=drawn.lower,
        upper_limit=drawn.upper,
    )


def _facts(found: Impact) -> dict[str, Any]:
    parts = found.touched
    return {
        "change": change_words(found.change),
        "gaps": [
            {"gap": one.fit.title, "now": one.now, "with_a_new_piece": one.then}
            for one in found.gaps
        ]
        or [{"gap": fit.title} for fit in parts.gaps],
        "joints": list(found.joints),
        "steps": [step.title for step in parts.steps],
        "lines": [line.title for line in parts.lines],
        "files": list(parts.files),
        "released": [
            {
                "release": release.label,
                "statements": [{"id": s.id, "says": s.says} for s in said],
            }
            for release, said in parts.released
        ],
        "pieces": [
            {
                "piece": str(one.piece.ref),
                "proposed": one.fate.value,
                "because": one.because,
            }
            for one in found.pieces
        ],
        "keeps_number": found.number.keeps,
        "number": number_words(found.number),
    }
