"""What a verb says anew of a record that its name stands for: the rest stays."""

from __future__ import annotations

import argparse
from collections.abc import Mapping
from dataclasses import MISSING, fields
from typing import Any

from logbook.errors import BadInput, NotFound
from logbook.records.kinds.record import Record
from logbook.records.together.snapshot import Snapshot


def without_option(
    parser: argparse.ArgumentParser, names: Mapping[str, tuple[str, ...]]
) -> None:
    """Declare the option that takes a fact away, told by the option that states it."""
    parser.add_argument(
        "--without",
        action="append",
        default=[],
        type=lambda word: word.strip().casefold().replace(" ", "-"),
        choices=list(names),
        help="it has none of these any more, “" + next(iter(names)) + "”; else what is "
        "not said stays",
    )


def given(**facts: Any) -> dict[str, Any]:
    """Give the facts that were said; none, empty and not ticked say nothing."""
    return {
        name: value
        for name, value in facts.items()
        if value is not None and value is not False and value not in ("", ())
    }


def without(
    snapshot: Snapshot,
    cls: type[Record],
    name: str,
    args: argparse.Namespace,
    names: Mapping[str, tuple[str, ...]],
    told: Mapping[str, Any],
) -> dict[str, Any]:
    """Give the facts that `--without` takes away, each as where it was never said.

    Raises:
        NotFound: nothing has the name yet, so there is nothing to take away.
        BadInput: the same fact is said and taken away.
    """
    if args.without and not snapshot.named(name, cls):
        raise NotFound(
            f"--without {args.without[0]}: nothing is on record as “{name}” yet; "
            "accepted: a name on record"
        )
    emptied: dict[str, Any] = {}
    for word in args.without:
        for field in names[word]:
            if field in told:
                raise BadInput(both_said(word))
            emptied[field] = _unsaid(cls, field)
    return emptied


def both_said(word: str) -> str:
    """Say that one fact is told and taken away in one line."""
    taken = f"taken away by --without {word}"
    return f"--{word} is told, and {taken}; accepted: one of the two"


def _unsaid(cls: type[Record], name: str) -> Any:
    """Give what a field holds where nothing was said of it."""
    field = next(one for one in fields(cls) if one.name == name)
    if field.default_factory is not MISSING:
        return field.default_factory()
    return field.default
