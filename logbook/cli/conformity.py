"""`logbook conformity`: what was made against its drawing: a piece, build, release."""

from __future__ import annotations

import argparse

from logbook.advice.ground.advice import STANDING, Advice, as_facts
from logbook.advice.pieces.completeness import build_whole, release_whole, whole_advice
from logbook.advice.pieces.conformity import Inspected, inspected
from logbook.advice.pieces.conformity_told import form_three, piece_advice
from logbook.advice.pieces.judging import Rule, Word
from logbook.cli import terms
from logbook.errors import BadInput
from logbook.records.kinds.design import Part
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.pieces import pieces_of
from logbook.records.together.snapshot import Snapshot

_SHORT = {
    "characteristic_number": "no.",
    "reference_location": "where",
    "characteristic_designator": "class",
    "requirement": "requirement",
    "results": "results",
    "nonconformance_number": "nonconf.",
    "additional_data": "remarks",
}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "name", nargs="?", default="", help="a piece, build or release; else this build"
    )
    parser.add_argument(
        "--guard", action="store_true", help="guard bands for all (ISO 14253-1)"
    )
    parser.add_argument(
        "--chance", help="accept from this conformance probability on (JCGM 106), 95 %%"
    )
    parser.add_argument(
        "--rows", action="store_true", help="first-article rows of each piece"
    )
    terms.place(parser)


def run(args: argparse.Namespace) -> int:
    """Say how it stands; nothing is saved."""
    project = terms.opened(args)
    snapshot = project.snapshot
    rule = Rule(args.guard, _chance(args.chance))
    named = args.name or project.at_hand
    whole, pieces = _meant(snapshot, named, rule)
    if args.json:
        terms.answer(
            advice=[as_facts(one) for one in whole],
            pieces=[_facts(one) for one in pieces],
        )
        return 0
    for one in whole:
        print(one.statement)
    for piece in pieces:
        if args.rows or not whole or piece.word not in {Word.ACCEPT, Word.NO_LIMITS}:
            _tell(piece, rows=args.rows or not whole)
    print(STANDING)
    return 0


def _tell(piece: Inspected, *, rows: bool) -> None:
    told = piece_advice(piece)
    print(told.statement)
    if rows:
        for line in (*_table(piece), *told.assumed):
            print(f"    {line}")


def _meant(
    snapshot: Snapshot, name: str | Build | None, rule: Rule
) -> tuple[tuple[Advice, ...], tuple[Inspected, ...]]:
    """Give what is said of the whole that is meant, and its pieces."""
    found = snapshot.lookup(name) if isinstance(name, str) else name
    if isinstance(found, Piece):
        return (), (inspected(snapshot, found, rule),)
    if isinstance(found, Part):
        own = pieces_of(snapshot, found)
        return (), tuple(inspected(snapshot, piece, rule) for piece in own)
    if isinstance(found, Build):
        whole = build_whole(snapshot, found, rule)
    elif isinstance(found, Release):
        whole = release_whole(snapshot, found, rule)
    else:
        said = f"“{name}” is none of these" if name else "there is no build yet"
        raise BadInput(f"{said}; accepted: a piece, a build, a release or a part")
    return (whole_advice(whole),), whole.pieces


def _chance(text: str | None) -> float | None:
    if text is None:
        return None
    try:
        wanted = float(text.replace("%", "").strip()) / 100
    except ValueError:
        wanted = 0.0
    if not 0.5 <= wanted < 1:
        raise BadInput(f"--chance: found “{text}”; accepted: from 50 % to below 100 %")
    return wanted


def _facts(piece: Inspected) -> dict[str, object]:
    return {
        **as_facts(piece_advice(piece)),
        "verdict": piece.word.value,
        "rows": [form_three(row) for row in piece.rows],
    }


def _table(piece: Inspected) -> list[str]:
    """Lay the rows out in columns as wide as what stands in them."""
    rows = [form_three(row) for row in piece.rows]
    if not rows:
        return []
    cells = [list(_SHORT.values())]
    cells += [[str(row[name]) for name in _SHORT] for row in rows]
    wide = [max(len(line[at]) for line in cells) for at in range(len(_SHORT))]
    return [
        "  ".join(
            text.ljust(width)
            for text, width in zip(line, wide, strict=True)
            if width > 0
        ).rstrip()
        for line in cells
    ]
