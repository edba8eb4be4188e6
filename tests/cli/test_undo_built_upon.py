"""What a later entry of this clone has changed is not taken back, and it is named."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime

import pytest

from logbook.errors import ChangedMeanwhile, Refused
from logbook.project import Project
from logbook.records.kinds.happenings import Failure
from logbook.records.making.amends import amend_draft
from tests.cli.shop import Shop


def cracked(shop: Shop) -> Project:
    """Log a failure, and put its cure right afterwards."""
    shop.logbook("say", "--yes", "diffuser cracked at the corner screw")
    project = Project.open(shop.folder)
    [failure] = project.snapshot.all(Failure)
    now = datetime.now(UTC)
    draft = project.draft(now)
    amend_draft(draft, failure, replace(failure, cure="pan heads"))
    project.save(draft, "amend: diffuser cracked", now)
    return project


def test_the_later_entry_is_named_and_taking_it_back_first_goes(shop: Shop) -> None:
    project, now = cracked(shop), datetime.now(UTC)
    with pytest.raises(Refused) as refused:
        project.undo(now, lambda acts: acts[1])
    said = str(refused.value)
    assert said.startswith("“amend: diffuser cracked” came later and changed ")
    assert "someone else" not in said
    assert said.endswith("accepted: that one taken back first (logbook undo)")
    project.undo(now)
    project.undo(now)
    assert not project.snapshot.all(Failure)


def test_what_a_hand_changed_is_still_said_to_be_changed_by_another(
    shop: Shop,
) -> None:
    project = cracked(shop)
    [path] = (shop.folder / "as-built/failures").rglob("*.md")
    path.write_text(path.read_text("utf-8") + "\nBy hand.\n", "utf-8")
    with pytest.raises(ChangedMeanwhile, match="changed by someone else"):
        project.undo(datetime.now(UTC))
