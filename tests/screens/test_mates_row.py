"""What a revision fits with: “same” only where it can be, and no kerf."""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.part.revise_form import Form, mates_refused
from logbook.screens.part.revise_rows import hint_of
from tests.plain.judge import NOW
from tests.plain.records_of import world


def lid(*mates: str) -> tuple[Snapshot, Part]:
    """Give a lid whose first issue fits with these."""
    draft = Draft(world(()), NOW)
    part = draft.part("lid")
    draft.amend(replace(draft.revision(part), mates_with=mates))
    return world(draft.records), part


@pytest.mark.parametrize(("mates", "offered"), [((), False), (("base rev A",), True)])
def test_same_is_offered_only_where_the_one_before_says_it(
    mates: tuple[str, ...], offered: bool
) -> None:
    snapshot, part = lid(*mates)
    assert ("“same”" in hint_of(snapshot, part, "mates")) is offered


@pytest.mark.parametrize("typed", ["kerf 0.2", "nominal", "shrinkage 0.4 %"])
def test_what_a_file_allows_for_is_nothing_it_fits(typed: str) -> None:
    snapshot, part = lid()
    assert "what its files allow for" in mates_refused(
        snapshot, part, Form({"mates": typed})
    )


def test_another_part_is_taken() -> None:
    snapshot, part = lid()
    assert not mates_refused(snapshot, part, Form({"mates": "base first issue"}))
