"""A line held to all that is on record: to the sizes of its part, and to its faults."""

from __future__ import annotations

from collections.abc import Collection

from logbook.plain.answers.by_release import held_to_release
from logbook.plain.answers.given_up import held_to_given_up
from logbook.plain.answers.known_faults import held_to_faults
from logbook.plain.answers.known_readings import held_to_readings
from logbook.plain.answers.known_sizes import held_to_sizes
from logbook.plain.answers.known_words import held_to_words
from logbook.plain.answers.not_met import held_to_not_met
from logbook.plain.answers.not_so import held_to_not_so
from logbook.plain.answers.of_which_build import held_to_its_build
from logbook.plain.answers.said_of_piece import held_to_said_of_piece
from logbook.plain.answers.size_or_amount import held_to_amount
from logbook.plain.answers.untold import held_to_untold
from logbook.plain.answers.which_it import held_to_it
from logbook.plain.answers.which_pieces import held_to_pieces
from logbook.plain.answers.which_revision import held_to_revision
from logbook.plain.understanding import Kind, Understanding
from logbook.plain.words.spread import gathered, put_back
from logbook.records.kinds.workshop import Build
from logbook.records.making.by_number import Page
from logbook.records.together.snapshot import Snapshot


def held_to_records(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str] = (),
    page: Page | None = None,
    build: Build | None = None,
) -> Understanding:
    """Give the line with what the records leave to be asked before it is taken.

    What was `answered` is not asked again. `page` gives the page of known faults that
    the number of one is read on; `build` is the one at hand.
    """
    return put_back(_held(gathered(line), snapshot, answered, page, build), line)


def _held(
    line: Understanding,
    snapshot: Snapshot,
    answered: Collection[str],
    page: Page | None,
    build: Build | None,
) -> Understanding:
    if line.amends is not None:
        return line
    line = held_to_release(line, snapshot)
    line = held_to_not_met(line, snapshot, page)
    if line.facts.release or (line.kind is Kind.NOTE and line.facts.answers):
        return line
    line = held_to_said_of_piece(line, snapshot, answered, build)
    if line.facts.became_of:
        return line
    line = held_to_given_up(line, snapshot, answered, build)
    line = held_to_readings(line, snapshot, answered)
    if line.amends is not None:
        return line
    line = held_to_revision(line, snapshot, answered)
    if line.amends is not None:
        return line
    line = held_to_not_so(line, snapshot, answered)
    if line.amends is not None:
        return line
    line = held_to_words(line, snapshot, answered)
    line = held_to_untold(line, snapshot, answered)
    line = held_to_it(line, snapshot, answered)
    line = held_to_amount(line, snapshot, answered)
    line = held_to_sizes(line, snapshot, answered)
    line = held_to_pieces(line, snapshot, answered)
    line = held_to_its_build(line, snapshot, answered, build)
    return held_to_faults(line, snapshot, answered)
