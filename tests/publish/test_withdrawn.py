"""A withdrawn revision stands in guide, known faults and notes with its reason."""

from __future__ import annotations

import json

import pytest

from logbook.publish.errata.errata import errata_facts, readme_line, write_errata
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


def test_who_begins_is_told_first_which_part_not_to_make_and_which_is_left(
    stand: Stand,
) -> None:
    code, said = stand.run(
        "status", "diffuser rev A", "withdrawn", "--because", "the holes run out"
    )
    assert code == 0, said
    snapshot = stand.project.snapshot
    newest = snapshot.lookup("release 1.1", Release)
    guide = write_guide(snapshot, newest)
    begun = guide[guide.index("**Nothing begun yet?**") :]
    first = begun.split("\n- ")[1]
    assert first.startswith("**Do not make diffuser rev A**: withdrawn on ")
    assert "the holes run out; the newest that is not withdrawn is diffuser first" in (
        first
    )
    assert "of release 1.0, with a known fault: " in first
    made = guide[guide.index("### Diffuser") :]
    assert "> **WITHDRAWN** Do not make it: withdrawn on " in made[: made.index("- **")]
    step = guide[guide.index("## Steps") :]
    assert "> **WITHDRAWN** Diffuser: withdrawn on " in step


def test_who_holds_an_older_release_is_not_sent_to_what_was_withdrawn_since(
    stand: Stand,
) -> None:
    why = "the edges are too short"
    revised = ("--changed", "lower edge", "--why", "it caught", "--remake", "no")
    assert stand.run("revise", "base", *revised)[0] == 0
    code, said = stand.run("release", "1.2")
    assert code == 0, said
    stand.run("status", "base rev A", "withdrawn", "--because", why)
    snapshot = stand.project.snapshot
    held = snapshot.lookup("release 1.1", Release)
    text = write_errata(snapshot, (held,))
    assert "; withdrawn since: base rev A." in text
    assert "Stop making by this release" not in text
    assert "- Base: no: base rev A is withdrawn. Withdrawn on " in text
    assert "withdrawn is base first issue, of release 1.1" in text


def test_a_withdrawn_release_says_so_first_and_sends_to_the_one_that_is_left(
    stand: Stand,
) -> None:
    why = ("withdrawn", "--because", "two files are of another design")
    code, said = stand.run("status", "release 1.1", *why)
    assert code == 0, said
    snapshot = stand.project.snapshot
    first, second = (snapshot.lookup(f"release {n}", Release) for n in ("1.0", "1.1"))
    for page in (write_guide(snapshot, second), write_errata(snapshot, (second,))):
        head = page.split("\n\n")[1]
        assert head.startswith("> **WITHDRAWN** This release was withdrawn on ")
        assert "two files are of another design. Make nothing by it; take" in head
        assert "[release 1.0](../1.0/guide.md)" in head
        assert "Begin nothing by this release: it was withdrawn on " in page
    older = write_errata(snapshot, (first,))
    assert "NEWER RELEASE" not in older
    assert "Take this release, there is no newer one" in older
    assert readme_line(snapshot, second, "x").startswith(
        "**Release 1.1 was withdrawn on "
    )
    code, said = stand.run("build", "shed", "--of", "1.1")
    assert code == 0
    assert "release 1.1 was withdrawn on" in said
    assert stand.run("status", "release 1.1", "still good")[0] == 2
    code, said = stand.run("errata", "--files", str(stand.bench.top))
    assert "release 1.1 was withdrawn on " in said
