"""A long line is kept to its last word, whatever it becomes, and printed so."""

from __future__ import annotations

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.words.vocabulary import Vocabulary
from logbook.publish.notes.diary import days
from logbook.publish.parts.fault_story import faults_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.states.read_now import told_now
from logbook.records.written.text import LONGEST_TITLE, read_record, write_record
from tests.plain.judge import NOW, PROJECT
from tests.plain.records_of import world

TAIL = (
    ", as I saw when I looked at it again in the evening with my brother, who had come "
    "over from the other side of the village with the long caliper that hangs beside "
    "the door of his shed where the old lathe stood, so zanzibar is innocent"
)
LINES = (
    "bed width 240.3 mm",
    "base opening 178.6 mm should be 180 mm",
    "the gate cracked at the hinge side because the screw was too long",
    "decided to use pan heads on the diffuser",
    "diffuser rev A: oversize holes 9 mm in",
    "scrap the crossbar",
    "sanded the bed, 20 min",
    "ordered 20 rivet nuts",
    "note: the bench is cold",
    "why does the lamp flicker?",
    "bought 6 mm plate for the collar, measures 6.35",
    "used 4 of the collar",
    "xyzzy plugh",
)


def drafted(says: str) -> Draft:
    words = Vocabulary(now=NOW, parts=PROJECT.parts)
    return draft_line(Draft(world([]), NOW), understand(says, words))


def words_of(record: Record) -> str:
    read = read_record(write_record(record).encode(), "r.md").record
    assert read is not None
    assert len(read.title) <= LONGEST_TITLE
    return f"{read.title} {read.prose}"


@pytest.mark.parametrize("begins", LINES)
def test_the_last_word_of_a_long_line_is_in_every_entry_it_becomes(begins: str) -> None:
    entries = [one for one in drafted(begins + TAIL).new if isinstance(one, Entry)]
    assert entries
    for entry in entries:
        assert "zanzibar is innocent" in words_of(entry), type(entry).__name__


def test_the_change_of_a_revision_is_kept_to_its_last_word() -> None:
    made = drafted(f"diffuser rev B: oversize holes 9 mm in{TAIL}").new
    assert [one for one in made if isinstance(one, Revision)]
    for one in made:
        if isinstance(one, Revision) and one.changed:
            assert one.changed.endswith("zanzibar is innocent")


@pytest.mark.parametrize("begins", LINES)
def test_the_diary_prints_a_long_line_to_its_last_word(begins: str) -> None:
    printed = [
        line
        for day in days(world(drafted(begins + TAIL).records))
        for _, line in day.lines
    ]
    assert any("zanzibar is innocent" in line for line in printed), printed


def test_a_long_failure_stands_once_in_full_in_the_notes() -> None:
    [fault] = faults_of(world(drafted(LINES[2] + TAIL).records))
    told = f"{fault.title} {fault.prose}"
    assert told.count("zanzibar is innocent") == 1


def test_a_value_put_right_in_a_cut_title_is_right_in_the_whole_of_it() -> None:
    draft = drafted(LINES[0] + TAIL)
    [run] = [one for one in draft.new if isinstance(one, Entry)]
    text = write_record(run).replace("240.3 mm", "240.55 mm", 1)
    text = text.replace('value = "240.3 mm"', 'value = "240.55 mm"')
    again = read_record(text.encode(), "r.md").record
    assert isinstance(again, Entry)
    once = write_record(again)
    assert once.count("zanzibar") == 1, "written again, it is not put in twice"
    others = [one for one in draft.records if one.id != run.id]
    said = told_now(world([*others, again]), again)
    assert said.startswith("bed width 240.55 mm")
    assert said.endswith("zanzibar is innocent")
