"""Whether a build or a release is complete: pieces, readings, decisions, trials.

Of a build: the pieces it has, those the list asks for and it lacks, dimensions
nobody measured, faults nobody decided on. Of a release: which of its revisions
nobody has made yet, and how their pieces came out in whatever build.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from logbook.advice.ground.advice import Advice
from logbook.advice.pieces.again import lacking, there
from logbook.advice.pieces.conformity import UNDECIDED, Inspected, inspected
from logbook.advice.pieces.conformity_told import SOURCES
from logbook.advice.pieces.counts import parts_list
from logbook.advice.pieces.judging import Rule, Word
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Grade, Source
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.states.needed import needed_in
from logbook.records.states.pieces import pieces_of
from logbook.records.states.tried import verdict_of
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot
from logbook.shop.answers import Result

_FORMULA = "each piece by its own rows; the worst of them is said of the whole"


@dataclass(frozen=True, slots=True)
class Whole:
    """A build or a release with its pieces; scrapped pieces are left aside.

    `missing` names parts with how many pieces are lacking, `other` the pieces of
    another revision than the one that is meant, `untried` the revisions nobody
    made.
    """

    about: Ref
    pieces: tuple[Inspected, ...]
    missing: tuple[tuple[Part, int], ...]
    other: tuple[tuple[Piece, Revision], ...]
    untried: tuple[Revision, ...]

    @property
    def faults(self) -> tuple[Ref, ...]:
        """Deviations and failures of its pieces that nobody decided on."""
        return tuple(ref for piece in self.pieces for ref in piece.faults)

    @property
    def word(self) -> Word:
        """Say the worst of its pieces."""
        said = {piece.word for piece in self.pieces}
        order = (Word.REJECT, Word.CLOSE, Word.UNMEASURED, Word.ACCEPT)
        return next((word for word in order if word in said), Word.NO_LIMITS)


def build_whole(snapshot: Snapshot, build: Build, rule: Rule | None = None) -> Whole:
    """Look at a build: what it has, and what it still lacks against the list."""
    release = snapshot.find(build.release, Release)
    meant = {r.part.id: r for r in revisions_in(snapshot, release)} if release else {}
    found, missing, other = [], [], []
    for listed in parts_list(snapshot)[0]:
        if listed.part.source is Source.BOUGHT:
            continue
        here = len(there(snapshot, listed.part, build))
        if count := lacking(listed.total, build, here):
            missing.append((listed.part, count))
    for part in snapshot.all(Part):
        for piece in _pieces(snapshot, part, build, rule):
            if not piece.there:
                continue
            found.append(piece)
            wanted = meant.get(part.id)
            if wanted and piece.revision and piece.revision is not wanted:
                other.append((piece.piece, wanted))
    return Whole(build.ref, tuple(found), tuple(missing), tuple(other), ())


def release_whole(
    snapshot: Snapshot, release: Release, rule: Rule | None = None
) -> Whole:
    """Look at a release: pieces of its revisions, and revisions nobody has made."""
    found: list[Inspected] = []
    untried = []
    for revision in needed_in(snapshot, release):
        part = snapshot.find(revision.part, Part)
        if part is None or part.source is Source.BOUGHT:
            continue
        if verdict_of(snapshot, revision) == "untried":
            untried.append(revision)
        every = _pieces(snapshot, part, None, rule)
        found += [one for one in every if one.revision is revision and one.there]
    return Whole(release.ref, tuple(found), (), (), tuple(untried))


def _pieces(
    snapshot: Snapshot, part: Part, build: Build | None, rule: Rule | None
) -> Iterator[Inspected]:
    for piece in pieces_of(snapshot, part):
        if build is None or snapshot.find(piece.build) is build:
            yield inspected(snapshot, piece, rule)


# -- what is said of it ----------------------------------------------------------


def whole_advice(whole: Whole) -> Advice:
    """Say how a build or a release stands, as one piece of advice."""
    counted = {
        word: [p for p in whole.pieces if p.word is word]
        for word in (Word.ACCEPT, Word.REJECT, Word.CLOSE, Word.UNMEASURED)
    }
    missing = sum(count for _, count in whole.missing)
    return Advice(
        key=f"conformity {whole.about.id}",
        topic="conformity",
        grade=Grade.REMARK,
        about=whole.about,
        statement=f"{whole.about.name}: {'; '.join(_words(whole, counted.items()))}",
        numbers=(
            Result("pieces", len(whole.pieces), "", 0, "on record and not scrapped"),
            *(
                Result(word.name.lower(), len(pieces), "", 0, f"pieces: {word.value}")
                for word, pieces in counted.items()
            ),
            Result("missing", missing, "", 0, "pieces on the list, not there"),
            Result("untried", len(whole.untried), "", 0, "revisions nobody has made"),
            Result("undecided", len(whole.faults), "", 0, "deviations and failures"),
        ),
        inputs=_inputs(whole),
        formula=_FORMULA,
        sources=SOURCES,
        changes=("a piece, a reading, a disposition",),
    )


def _words(
    whole: Whole, counted: Iterable[tuple[Word, Sequence[Inspected]]]
) -> Iterator[str]:
    if not whole.pieces:
        yield "no piece of it is on record"
    for word, pieces in counted:
        if pieces:
            yield f"{word.value}: {_titles(pieces)}"
    if whole.missing:
        titles = (f"{count} × {part.title}" for part, count in whole.missing)
        yield f"on the list and not there: {', '.join(titles)}"
    for piece, wanted in whole.other:
        yield f"{piece.title} was not made from {wanted.title}"
    if whole.untried:
        yield f"untried: {', '.join(revision.title for revision in whole.untried)}"
    if whole.faults:
        yield f"{UNDECIDED}: {', '.join(ref.name for ref in whole.faults)}"


def _titles(pieces: Sequence[Inspected]) -> str:
    return ", ".join(one.piece.title + _decided(one) for one in pieces)


def _decided(one: Inspected) -> str:
    said = dict.fromkeys(row.decided for row in one.of(Word.REJECT) if row.decided)
    return f" ({', '.join(said)})" if said else ""


def _inputs(whole: Whole) -> tuple[Ref, ...]:
    refs = [whole.about]
    for piece in whole.pieces:
        refs += piece.inputs
    refs += [revision.ref for revision in whole.untried]
    refs += [part.ref for part, _ in whole.missing]
    return tuple(dict.fromkeys(refs))
