"""What every entry drafted from a line needs: its piece, part, build and blame."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from typing import TypeVar

from logbook.plain.answers.which_revision import piece_number
from logbook.plain.sure.held import says_held
from logbook.plain.understanding import Facts, Kind, Understanding
from logbook.quantity import Quantity
from logbook.records.kinds.design import Characteristic, Part, Revision
from logbook.records.kinds.happenings import Cause, Entry, Note, Status
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.words import Blame, CauseStatus, Disposition, State
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft
from logbook.records.making.not_met import Known, say_not_met
from logbook.records.states.pieces import pieces_of
from logbook.records.written.text import TYPED

E = TypeVar("E", bound=Entry)


def blame_of(facts: Facts) -> Blame:
    """Give whom the fault concerns, not known where nothing was said."""
    said = facts.met_by_others.removeprefix("only ")
    return Blame(said) if said else Blame.UNKNOWN


def disposition_of(facts: Facts) -> Disposition | None:
    """Give what is done with the piece, where it was said."""
    return Disposition(facts.disposition) if facts.disposition else None


def cause_of(facts: Facts) -> Cause | None:
    """Give the cause, as sure as it was said."""
    if facts.cause is None:
        return None
    return Cause(said=facts.cause.said, status=CauseStatus(facts.cause.status))


def piece_of(draft: Draft, facts: Facts) -> Piece | None:
    """Give the piece that is meant, made where there is none."""
    if not facts.part:
        return None
    part = draft.part(facts.part)
    number = piece_number(facts)
    said = {one.label: one for one in draft.revisions(part)}.get(facts.revision)
    if said is not None and number is None:
        return _newest_of(draft, part, said)
    piece = draft.piece(part, number)
    if said is not None and piece in draft.new:
        return draft.amend(replace(piece, revision=said.ref))
    if facts.revision and piece.revision and piece.revision.id != (said and said.id):
        of = f"{piece.title} is of {piece.revision.name}"
        draft.remarks.append(f"“rev {facts.revision}” is in words only: {of}")
    return piece


def _newest_of(draft: Draft, part: Part, revision: Revision) -> Piece:
    """Give the newest piece of a revision, of this build first; made where none is."""
    for piece in (*draft.pieces_here(part), *reversed(pieces_of(draft.snapshot, part))):
        if piece.revision and piece.revision.id == revision.id:
            return piece
    return next_of(draft, part, revision)


def next_of(draft: Draft, part: Part, revision: Revision) -> Piece:
    """Make one more piece of a part, to this revision of it."""
    return draft.amend(replace(draft.next_piece(part), revision=revision.ref))


def _about(draft: Draft, facts: Facts) -> tuple[Ref, ...]:
    return tuple(draft.part(name).ref for name in facts.others if name != facts.part)


_SAYS_ITS_KIND = {
    Kind.NOTE: re.compile(r"(?i)^note\s*[:–—-]\s*(?=\S)"),
    Kind.DECISION: re.compile(
        r"(?i)^(?:(?:i|we)\s+)?decided\s*(?::|\b(?:to|on|that)\b)\s*(?=\S)"
    ),
}
"""What a line may begin with that its kind says already: note: …, decided to …."""


def titled(line: Understanding) -> str:
    """Give the title of what a line is kept as: the line, without its kind.

    It is given whole: what it is added to keeps in its prose what is cut off it.
    """
    says = _SAYS_ITS_KIND.get(line.kind)
    return says.sub("", line.line.strip(), count=1) if says else line.line


def _beside(line: Understanding) -> Iterator[str]:
    """Give what is kept below the title: how it was typed, which one was fitted."""
    if line.typed:
        yield f"{TYPED}{line.typed.strip()}"
    if line.facts.fitted:
        yield f"Fitted: {line.facts.fitted}."


def make_entry(
    draft: Draft, cls: type[E], line: Understanding, title: str = "", **facts: object
) -> E:
    """Make an entry with what every entry has; its title is the line, or is given."""
    return draft.add(
        cls(
            id=new_id(),
            title=title or titled(line),
            prose="\n\n".join(_beside(line)),
            when=draft.when,
            build=draft.build().ref,
            about=_about(draft, line.facts),
            **facts,  # type: ignore[arg-type]
        )
    )


def part_ref(draft: Draft, facts: Facts) -> Ref | None:
    """Refer to the part of the line, made where it is new."""
    return draft.part(facts.part).ref if facts.part else None


_GOES_IN = re.compile(r"(?i)\b(?:goes?|slides|drops)\s+(?:in|into|inside)\b")


def _goes_into(draft: Draft, line: Understanding) -> tuple[Ref, ...]:
    """Refer to the parts that the part of a note is said to go into."""
    if not line.facts.part or not _GOES_IN.search(line.line):
        return ()
    names = (line.facts.part, *line.facts.others)
    known = [draft.snapshot.named(name, Part) for name in names]
    told = [parts[0] for parts in known if len(parts) == 1]
    if len(told) < 2:
        return ()
    sized = {item.part.id for item in draft.snapshot.all(Characteristic)}
    bare = [part.title for part in told if part.id not in sized]
    if bare:
        draft.remarks.append(
            f"how much room there is cannot be asked yet: no size of {bare[0]} is on "
            f"record; accepted: one, as {bare[0]} thickness 18.2"
        )
    return tuple(part.ref for part in told[1:])


def _still_good(draft: Draft, facts: Facts) -> None:
    """Say of the piece that is known that it is still good; of none that is new."""
    piece = next(draft.pieces_here(draft.part(facts.part)), None)
    if piece is None or facts.piece:
        return
    draft.remarks.append(f"{piece.title} still good")
    _say_of(draft, piece, State.CONFIRMED)


def _say_of(
    draft: Draft, piece: Piece, state: State, after: Quantity | None = None
) -> None:
    """Say of a piece what became of it, after so long in use where that was told."""
    told = f" after {after}" if after else ""
    draft.add(
        Status(
            id=new_id(),
            title=f"{piece.title} {state.value}{told}",
            when=draft.when,
            build=draft.build().ref,
            of=piece.ref,
            state=state,
            after=after,
        )
    )


def draft_note(draft: Draft, line: Understanding) -> Draft:
    """Keep the line as a note, about its part where that is known.

    One that says a known fault does not occur says so of that fault too.
    """
    fault = (
        draft.snapshot.find(Ref("", line.facts.answers)) if line.facts.answers else None
    )
    if isinstance(fault, Known):
        say_not_met(draft, fault)
    known = line.facts.part and not line.facts.part_is_new
    part = part_ref(draft, line.facts) if known else None
    facts, number = line.facts, piece_number(line.facts)
    if known and facts.became_of and number:
        piece = draft.piece(draft.part(facts.part), number)
        _say_of(draft, piece, State(facts.became_of), facts.hours or facts.minutes)
    elif known and says_held(line.line):
        _still_good(draft, line.facts)
    draft.add(
        Note(
            id=new_id(),
            title=titled(line),
            when=draft.when,
            build=draft.build().ref,
            part=part,
            about=_goes_into(draft, line) if part else (),
        )
    )
    return draft
