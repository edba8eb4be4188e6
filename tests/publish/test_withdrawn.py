"""A withdrawn revision stands in guide, known faults and notes with its reason."""

from __future__ import annotations

import json

import pytest

from logbook.publish.errata.errata import errata_facts, write_errata
from logbook.publish.guide.guide import write_guide
from logbook.publish.notes.notes import write_notes
from logbook.records.kinds import design, happenings
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import State
from tests.publish.stand import Stand

WHY = "it warps beside the lamp"


@pytest.fixture
def warped(stand: Stand) -> Stand:
    """Give a stand whose diffuser, as first issued, was withdrawn."""
    draft = stand.begin()
    revision = draft.snapshot.lookup("diffuser first issue", design.Revision)
    draft.add(
        happenings.Status(
            id="57a70001",
            title="diffuser first issue is bad",
            when=draft.when,
            of=revision.ref,
            state=State.WITHDRAWN,
            because=WHY,
        )
    )
    stand.keep(draft, "withdraw the diffuser")
    return stand


def test_the_reason_stands_in_the_table_of_revisions_and_in_the_notes(
    warped: Stand,
) -> None:
    snapshot = warped.project.snapshot
    text = write_guide(snapshot, snapshot.lookup("release 1.1", Release))
    assert f"| diffuser first issue, withdrawn: {WHY} |" in text
    notes = write_notes(snapshot)
    assert f"first issue, withdrawn: {WHY}" in notes.replace("First", "first")


def test_the_page_of_known_faults_names_it_for_the_release_that_has_it(
    warped: Stand,
) -> None:
    snapshot = warped.project.snapshot
    first = snapshot.lookup("release 1.0", Release)
    text = write_errata(snapshot, (first,))
    assert "## Withdrawn, not to be made any more" in text
    assert f"- **Withdrawn**: diffuser first issue: {WHY}." in text
    assert json.loads(json.dumps(errata_facts(snapshot, (first,))))["withdrawn"] == [
        {
            "revision": "diffuser first issue",
            "day": f"{warped.now:%Y-%m-%d}",
            "because": WHY,
        }
    ]
    second = snapshot.lookup("release 1.1", Release)
    assert WHY not in write_errata(snapshot, (second,))
