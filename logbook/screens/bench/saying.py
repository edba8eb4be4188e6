"""A typed line on its way to records: understood at each key, asked about once."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field
from datetime import datetime
from functools import partial
from pathlib import Path

from textual.content import Content

from logbook.advice.faults.by_number import page_meant
from logbook.advice.faults.warned_of import warned_of
from logbook.advice.ground.advice import Advice
from logbook.advice.steps.going_past import GoingPast, going_past
from logbook.advice.steps.passing import passing
from logbook.errors import BadInput
from logbook.plain.answers.answering import answered
from logbook.plain.answers.held import held_to_records
from logbook.plain.answers.whose import which_fits
from logbook.plain.drafts.drafting import piece_of
from logbook.plain.drafts.entries import draft_line, wants_blame
from logbook.plain.drafts.remarks import remarks
from logbook.plain.lines import understand
from logbook.plain.shown import describe
from logbook.plain.sure.coverage import recorded_as
from logbook.plain.understanding import Facts, Kind, Understanding, Verdict, as_note
from logbook.plain.words.vocabulary import Vocabulary
from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.pieces import pieces_of
from logbook.records.together.once import once
from logbook.records.together.snapshot import Snapshot
from logbook.screens.desk.news import Job
from logbook.screens.ruled.look import sentence
from logbook.store.designs.proposals import make_proposed


def understood(
    line: str,
    words: Vocabulary,
    now: datetime,
    snapshot: Snapshot,
    build: Build | None = None,
) -> Understanding:
    """Understand a line as it stands, at this instant, among these records.

    The number of a known fault is that of the page of the release the build is made by.
    """
    if abs((now - words.now).total_seconds()) > 1:
        words = words.at(now)
    page = partial(page_meant, snapshot, build)
    return held_to_records(understand(line, words), snapshot, page=page, build=build)


def marked(line: Understanding) -> list[tuple[int, int]]:
    """Give the stretches of a line that were understood as facts."""
    if line.verdict is Verdict.KEPT:
        return []
    return [(span.start, span.end) for spans in line.words.values() for span in spans]


def piece_meant(
    line: Understanding, snapshot: Snapshot, build: Build | None, now: datetime
) -> str:
    """Name the piece a line goes to that names none, where that is not plain.

    A reading, where a build has several; a fault too, where it puts one on record.
    """
    facts, kind = line.facts, recorded_as(line)
    parts = snapshot.named(facts.part, Part) if facts.part else ()
    of_one = line.verdict is Verdict.TAKEN and kind in _OF_ONE_PIECE
    if not of_one or len(parts) != 1 or _names_pieces(facts):
        return ""
    named = snapshot.named(facts.build, Build) if facts.build else ()
    meant = named[0] if len(named) == 1 else build
    if meant is None:
        return ""
    if not facts.revision and _has_none(snapshot, parts[0], meant):
        return f"{_newest(snapshot, parts[0], meant)} (new)"
    if kind is not Kind.READING or not _has_several(snapshot, parts[0], meant):
        return ""
    if not facts.revision:
        return _newest(snapshot, parts[0], meant)
    piece = piece_of(Draft(snapshot, facts.when or now, meant), facts)
    return piece.title if piece else ""


_OF_ONE_PIECE = (Kind.READING, Kind.FAILURE, Kind.DISPOSITION)


def _names_pieces(facts: Facts) -> bool:
    return bool(facts.piece or facts.pieces or facts.so_many)


@once
def _has_several(snapshot: Snapshot, part: Part, build: Build) -> bool:
    """Tell whether a build has several pieces of a part: asked at every letter."""
    of = [one.build for one in pieces_of(snapshot, part)]
    return sum(one is None or one.id == build.id for one in of) > 1


@once
def _has_none(snapshot: Snapshot, part: Part, build: Build) -> bool:
    """Tell whether no piece of a part is in a build: asked at every letter."""
    return not any(Draft(snapshot, build.when, build).pieces_here(part))


@once
def _newest(snapshot: Snapshot, part: Part, build: Build) -> str:
    """Name the piece that is meant where none is named: asked at every letter."""
    return Draft(snapshot, build.when, build).piece(part, None).title


_TOUCHES = (Kind.STEP, Kind.ORDER, Kind.JOINT)


def careful(
    line: Understanding, snapshot: Snapshot, build: Build | None, now: datetime
) -> str:
    """Say which known faults a line touches while it is typed; else nothing."""
    by_release = build is not None and build.release is not None
    if not by_release or line.kind not in _TOUCHES or line.verdict is not Verdict.TAKEN:
        return ""
    try:
        draft = draft_line(Draft(snapshot, line.facts.when or now, build), line)
    except BadInput:
        return ""
    return " · ".join(one.says for one in warned_of(draft))


def shown(line: Understanding, piece: str = "", warned: str = "") -> Content:
    """Say what was understood: the kind, then each fact with its shop word.

    `piece` is the one it goes to though the line names none, `warned` what is known
    against it.
    """
    (_, kind), *facts = describe(line)
    if piece:
        at = next((at for at, (is_of, _) in enumerate(facts, 1) if is_of == "part"), 0)
        facts.insert(at, ("piece", piece))
    made = [sentence("[$mark][b]$kind[/b][/]", kind=kind)]
    for label, text in facts:
        if label == "to be asked":
            made.append(sentence("[$alarm]asks: $text[/]", text=text))
        else:
            made.append(sentence("[$quiet]$label[/] $text", label=label, text=text))
    if warned:
        made.append(sentence("[$alarm]$text[/]", text=warned))
    return Content(" · ").join(made)


@dataclass(slots=True)
class Saying:
    """A line being taken: as understood, and what was answered so far."""

    line: Understanding
    words: Vocabulary
    build: Build | None
    now: datetime
    blame: Blame | None = None
    past: GoingPast | None = None
    asked: set[str] = field(default_factory=set)

    @property
    def doubtful(self) -> bool:
        """Tell whether the line must be asked about before it is taken."""
        return self.line.verdict is Verdict.ASKED

    def answer(self, words: str, snapshot: Snapshot) -> None:
        """Take the answer to the doubt; no words keep the line as a note."""
        doubt = self.line.question
        assert doubt is not None
        if words or doubt.spares:
            self.asked.add(doubt.question)
            line = answered(self.line, doubt, words, self.words)
            page = partial(page_meant, snapshot, self.build)
            self.line = held_to_records(line, snapshot, self.asked, page, self.build)
        else:
            self.line = as_note(self.line)

    def goes_past(self, snapshot: Snapshot, advice: Iterable[Advice]) -> GoingPast:
        """Give what this goes past, with what was answered about it so far.

        Raises:
            BadInput: the line cannot become a record.
        """
        if self.past is None:
            self.past = going_past(self._drafted(snapshot), advice)
        return self.past

    def waits(self, snapshot: Snapshot, advice: Iterable[Advice]) -> bool:
        """Tell whether this would still go past what waits, as the records are by now.

        Raises:
            BadInput: the line cannot become a record.
        """
        return bool(passing(self._drafted(snapshot), advice))

    def wants_blame(self, snapshot: Snapshot) -> bool:
        """Draft it once: tell whether whose fault it is stays open.

        Raises:
            BadInput: the line cannot become a record.
        """
        if self.blame is not None:
            return False
        return wants_blame(self._drafted(snapshot))

    def which_fits(self, snapshot: Snapshot) -> str:
        """Say which answer fits where it is asked whose fault it is."""
        return which_fits(self.line, snapshot)

    def remark(self, snapshot: Snapshot) -> str:
        """Say what the line does beyond its words: pieces implied, sizes contradicted.

        Raises:
            BadInput: the line cannot become a record.
        """
        return " · ".join(remarks(self._drafted(snapshot)))

    def _drafted(self, snapshot: Snapshot, root: Path | None = None) -> Draft:
        """Draft it; with the project's folder, design files come to their part."""
        named = self.line.facts.build
        build = snapshot.lookup(named, Build) if named else self.build
        when = self.line.facts.when or self.now
        draft = Draft(snapshot, when, build)
        if root is not None and self.line.verdict is Verdict.TAKEN:
            facts = self.line.facts
            make_proposed(draft, root, (facts.part, *facts.others, *facts.layers))
        draft_line(draft, self.line, self.blame)
        if self.past is not None:
            self.past.put(draft)
        return draft

    def drafted(self, project: Project) -> Draft:
        """Draft the line on the records as they are, new parts with their files."""
        return self._drafted(project.snapshot, project.root)

    def job(self, snapshot: Snapshot) -> Job:
        """Give the work that writes it, on the records as they are then.

        What is not made of it though it was typed is said once it is on disk.
        """
        draft = self._drafted(snapshot)
        why_not = " · ".join(draft.remarks)
        line = self.line.line
        said = f"{line} · {why_not}" if why_not else ""
        return Job(f"{self.line.tells}: {line}", self.drafted, typed=line, said=said)
