"""No two published pages say against each other what is known of a fault or revision.

Over invented histories: how many faults a release has; what is kept and what is made
again; whether a revision was tried; which fault is fixed where.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from hypothesis import example, given, settings

from logbook.publish.errata.errata import readme_line, write_errata
from logbook.publish.guide.guide import write_guide
from logbook.publish.notes.notes import write_notes
from logbook.records.kinds.made_public import Release
from tests.publish.histories import Act, History, acts


@dataclass
class Pages:
    """All pages of a history, each as its lines; those of a release by its label."""

    labels: list[str]
    notes: str
    guide: dict[str, str]
    errata: dict[str, str]
    readme: dict[str, str]


def pages(rows: list[Act]) -> Pages:
    history = History()
    history.play(rows)
    snapshot = history.snapshot()
    assert not snapshot.problems
    every = snapshot.all(Release)
    return Pages(
        [one.label for one in every],
        write_notes(snapshot),
        {one.label: write_guide(snapshot, one) for one in every},
        {one.label: write_errata(snapshot, (one,)) for one in every},
        {one.label: readme_line(snapshot, one, "x.md") for one in every},
    )


def section(page: str, heading: str) -> str:
    """Give a section of a page by its heading; empty where there is none."""
    found = re.search(
        rf"(?ms)^(#+) {re.escape(heading)}.*?\n(.*?)(?=^#{{1,2}} |\Z)", page
    )
    return found[2] if found else ""


def number(words: str) -> int:
    """Give how many known faults a sentence tells of."""
    found = re.search(r"(\d+) known fault", words)
    return int(found[1]) if found else 0


def class_of(words: str) -> str:
    """Give an answer to “make it again?” as yes, no, or something in between."""
    said = words.strip("* ").casefold()
    if said.startswith("yes"):
        return "yes"
    return "no" if said.startswith(("no.", "no;", "no:", "not needed")) else "open"


# -- how many ------------------------------------------------------------------------


def a_release_has_as_many_faults_on_each_page(told: Pages) -> None:
    for at, label in enumerate(told.labels):
        page = told.errata[label]
        count = number(re.search(r"(?m)^- Release .*$", page)[0])  # type: ignore[index]
        details = re.findall(r"(?m)^### \d+\. ", section(page, "Each fault"))
        listed = section(told.guide[label], "Known faults of this release")
        assert len(re.findall(r"> \*\*KNOWN FAULT \d+\*\*", listed)) == count
        assert len(details) == count
        assert number(told.readme[label]) == count
        affected = [
            row for row in table(page) if row[at + 1].startswith("**affected**")
        ]
        assert len(affected) == count
        for older in told.labels[:at]:
            if label == told.labels[-1]:
                newer = re.search(r"> \*\*NEWER RELEASE\*\*.*", told.errata[older])
                assert newer
                assert number(newer[0]) == count


def table(page: str) -> Iterator[list[str]]:
    """Give the rows of the table of faults and releases, cell by cell."""
    for line in section(page, "Which release has which fault").splitlines():
        if line.startswith("| ") and not line.startswith("| known"):
            yield [cell.strip() for cell in line.strip("|").split(" | ")]


# -- keep it, or make it again ---------------------------------------------------------


def what_is_to_be_kept_is_nowhere_to_be_made_again(told: Pages) -> None:
    for label in told.labels:
        page = told.errata[label]
        kept = re.search(r"- Keep what you have made of (.*): unchanged\.", page)
        keep = kept[1].split(", ") if kept else []
        answers = dict(to_do(page))
        for part in keep:
            assert answers.get(part, "") != "yes", (label, part)
        newest = told.guide[told.labels[-1]]
        since = section(newest, f"If you come from release {label}")
        same = re.search(r"- \*\*Unchanged\*\*: (.*); what was made", since)
        if kept:
            assert same
            assert same[1].split(", ") == keep


def to_do(page: str) -> Iterator[tuple[str, str]]:
    """Give each part with the answer whether one that is made is made again."""
    part = ""
    for line in section(page, "What to do").splitlines():
        if found := re.match(r"- \*\*(.*?)\*\*", line):
            part = found[1].casefold()
        elif found := re.match(
            r"  - (?:Make|Replace).* again\?|.*\? \*\*(.*?)\*\*", line
        ):
            yield part, class_of(line.partition("? **")[2].partition("**")[0])


def a_part_made_again_against_a_fault_is_made_again_by_its_revisions(
    told: Pages,
) -> None:
    for label in told.labels[:-1]:
        page = told.errata[label]
        changed = dict(
            re.findall(r"(?m)^  - (\w+): (.*)$", page.partition("## What")[0])
        )
        again = section(
            told.guide[told.labels[-1]], f"If you come from release {label}"
        )
        for part, said in to_do(page):
            words = changed.get(part.capitalize(), "")
            if said == "yes" and words:
                assert class_of(words) == "yes", (label, part, words)
            if words:
                assert f"{part}: {words.rstrip('.')}" in again


# -- tried, or not ---------------------------------------------------------------------


def a_revision_is_tried_on_every_page_or_on_none(told: Pages) -> None:
    verdicts: dict[str, set[str]] = {}
    for label in told.labels:
        for part, rev, verdict in re.findall(
            r"(?m)^\| (\w+), (rev \w+|first issue), (tried|untried)", told.guide[label]
        ):
            verdicts.setdefault(f"{part} {rev}", set()).add(verdict)
        for rev, verdict in re.findall(
            r"(\w+ rev \w+) \([^()]*\), in releases? [^;]*; (tried|untried)",
            told.errata[label],
        ):
            verdicts.setdefault(rev, set()).add(verdict)
        for rev, verdict in re.findall(
            r"(?m)^\| (\w+ rev \w+), (tried|untried)", told.guide[label]
        ):
            verdicts.setdefault(rev, set()).add(verdict)
    for part, story in re.findall(r"(?ms)^### (\w+)\n(.*?)(?=^##|\Z)", told.notes):
        for rev, verdict in re.findall(
            r"(?m)^- (Rev \w+|First issue), (tried|untried)", story
        ):
            name = f"{part.casefold()} {rev[0].lower()}{rev[1:]}"
            verdicts.setdefault(name, set()).add(verdict)
    assert {rev: said for rev, said in verdicts.items() if len(said) > 1} == {}


def what_nobody_has_made_is_not_said_to_be_tried(told: Pages) -> None:
    for label in told.labels:
        head = told.guide[label].partition("## Before you start")[0]
        unmade = re.search(r"- Nobody has made yet: (.*)\.", head)
        newest = told.guide[told.labels[-1]]
        tried = re.findall(r"(?m)^\| (\w+), (rev \w+|first issue), tried", newest)
        for name in unmade[1].split(", ") if unmade else ():
            assert name not in {f"{part} {rev}" for part, rev in tried}
            assert "**Tried**: build" not in newest


def a_fix_is_as_tried_in_the_table_as_where_it_is_told(told: Pages) -> None:
    newest = told.labels[-1]
    for label in told.labels:
        page = told.errata[label]
        fixes = {
            int(n): text
            for n, text in re.findall(
                r"(?ms)^### (\d+)\. .*?^- \*\*Fixed by\*\*: (.*?)$", page
            )
        }
        for row in table(page):
            place = re.match(r"(\d+)\. ", row[0])
            stands = re.match(r"not affected: fixed, (tried|untried)", row[-1])
            fix = fixes.get(int(place[1]), "") if place else ""
            held = re.search(r"in releases? ([^;]*); (tried|untried)", fix)
            if stands and held and newest in re.findall(r"[\d.]+\d", held[1]):
                assert held[2] == stands[1], (row, fix)
            if row[-1].startswith("**affected**") and held:
                assert newest not in re.findall(r"[\d.]+\d", held[1]), (row, fix)


def a_cure_that_helped_is_nowhere_said_to_be_untried(told: Pages) -> None:
    for title, story in re.findall(r"(?ms)^#### (.*?)\n(.*?)(?=^#|\Z)", told.notes):
        for page in told.errata.values():
            for said in re.findall(
                rf"(?ms)^### \d+\. {re.escape(title)}\n(.*?)(?=^#|\Z)", page
            ):
                if re.search(r"\*\*What helped\*\*: (?!nothing is on)", story):
                    assert "not tried yet" not in said
                    assert "no cure is on record" not in said
                if "not tried yet" in story and "Do this now" in said:
                    assert "helped" not in said.partition("\n- **Aff")[0]


def what_was_made_is_nowhere_said_to_be_unmade(told: Pages) -> None:
    newest = told.guide[told.labels[-1]]
    unmade = re.search(r"- Nobody has made yet: (.*)\.", newest)
    for name in unmade[1].split(", ") if unmade else ():
        part, _, rev = name.partition(" ")
        story = re.search(
            rf"(?ms)^### {part.capitalize()}\n(.*?)(?=^## |^### |\Z)", told.notes
        )
        pieces = re.search(r"(?m)^- Pieces: (.*)$", story[1]) if story else None
        assert not pieces or f"({rev}, " not in pieces[1], (name, pieces)


def what_must_not_be_used_is_nowhere_to_be_kept(told: Pages) -> None:
    for label in told.labels:
        page, guide = told.errata[label], told.guide[label]
        stops = re.findall(r"> \*\*STOP\*\* (.*)", page.partition("## What to do")[0])
        listed = section(guide, "Known faults of this release")
        counted = re.search(r"(?m)^- Release .*, (\d+) with \*\*STOP", page)
        assert len(stops) == (int(counted[1]) if counted else 0)
        assert sorted(stops) == sorted(re.findall(r"> \*\*STOP\*\* (.*)", listed))
        kept = re.search(r"- Keep what you have made of (.*): unchanged\.", page)
        for part in kept[1].split(", ") if kept else ():
            assert not any(f"Do not use the {part} " in one for one in stops)


CHECKS = (
    a_release_has_as_many_faults_on_each_page,
    what_is_to_be_kept_is_nowhere_to_be_made_again,
    a_part_made_again_against_a_fault_is_made_again_by_its_revisions,
    a_revision_is_tried_on_every_page_or_on_none,
    what_nobody_has_made_is_not_said_to_be_tried,
    a_fix_is_as_tried_in_the_table_as_where_it_is_told,
    a_cure_that_helped_is_nowhere_said_to_be_untried,
    what_was_made_is_nowhere_said_to_be_unmade,
    what_must_not_be_used_is_nowhere_to_be_kept,
)


_YES_AND_ONLY_IF: list[Act] = [
    ("fail", 1, 9),
    ("release", 0, 0),
    ("fault", 0, 2),
    ("revise", 1, 3),
]
"""The fault says yes of making it again, the revision after it only if it binds."""


_FIXED_AND_UNTRIED: list[Act] = [("fail", 1, 1), ("revise", 1, 3), ("fault", 0, 11)]
"""A plate that must not be used is corrected, and nobody has made the new one."""


@settings(max_examples=60, deadline=None)
@given(acts)
@example(_YES_AND_ONLY_IF)
@example(_FIXED_AND_UNTRIED)
def test_no_page_speaks_against_another(rows: list[Act]) -> None:
    told = pages(rows)
    for check in CHECKS:
        check(told)
