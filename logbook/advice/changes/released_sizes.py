"""Sizes that are amended though a release says them as they were."""

from __future__ import annotations

import shlex
from collections.abc import Iterator

from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.made_public import Release
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import Dimension, drawn_text
from logbook.records.states.statements import Form
from logbook.records.together.snapshot import Snapshot


def released_otherwise(draft: Draft) -> Iterator[str]:
    """Say of each drafted change of a drawn size which releases keep the old one.

    The revision they froze is drawn anew by it; who wants a new revision is told how.
    """
    for item in draft.amended:
        if not isinstance(item, Characteristic) or item.id not in draft.snapshot:
            continue
        before = draft.snapshot.lookup(item.id, Characteristic)
        was, now = drawn_as(before), drawn_as(item)
        held = [*_saying(draft.snapshot, item, was)] if was != now else []
        if held:
            last = " and ".join(filter(None, (", ".join(held[:-1]), held[-1])))
            says, its = ("says", "its") if len(held) == 1 else ("say", "their")
            yield (
                f"{last} {says} {item.part.name} {item.title}: {was}, and {its} pages "
                "go on saying it; of a drawing that changed: logbook revise "
                f"{shlex.quote(item.part.name)} --dimension "
                f"{shlex.quote(item.title + '=…')}"
            )


def _saying(snapshot: Snapshot, item: Characteristic, was: str) -> Iterator[str]:
    """Give the releases that say a size as it was."""
    for release in snapshot.all(Release):
        for one in release.statements:
            if one.form == Form.DIMENSION and one.of.id == item.id:
                text = one.says.partition(": ")[2]
                if text == was:
                    yield release.title


def drawn_as(item: Characteristic) -> str:
    """Give a dimension's size and limits in words, as its record has them."""
    plain = Dimension(item, item.nominal, item.lower_limit, item.upper_limit)
    return drawn_text(plain)
