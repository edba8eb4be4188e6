"""Whether a part that has a fault is made again, and which revision is to be taken.

Each revision says it of the one before; who holds an older one goes past several.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.advice.faults.drafted import Fault, fault_from
from logbook.advice.faults.failing import (
    better,
    brought_back,
    cure_of,
    in_service,
    own_faults,
    since,
    told_of,
)
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.same_fault import sameness
from logbook.advice.faults.trying import entries_of
from logbook.advice.faults.undrawn import undrawn
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.states.dispositions import DONE, disposition_of
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn, revisions_of, shown_label
from logbook.records.together.snapshot import Snapshot

_MENDED = {Disposition.REWORK, Disposition.REPAIR, Disposition.USE_AS_IS}

NOT_YET = "not yet: nothing on record has held"


def remake_words(
    snapshot: Snapshot, erratum: Erratum, held: Revision | None = None
) -> str:
    """Say whether to make the part again, for who holds `held`.

    As the revisions on the way to the one to take say, and what its builder did: who
    reads yes should know that the piece it was found on was reworked, not made again.
    Empty where nobody has said it; not yet where the fault came back in that one, or
    where it has the very files that are held.
    """
    now = fixed(snapshot, erratum)
    if now is not None and now.back:
        return NOT_YET
    said = _joined(_way(snapshot, erratum, held))
    if now is not None and said not in {"", "no"}:
        affected = [snapshot.find(ref, Revision) for ref in erratum.revisions]
        for one in (held,) if held else affected:
            if one and (same := undrawn(snapshot, now.revision, one)):
                return f"not yet: {same}"
    if said != "yes":
        return said
    if remade(snapshot, erratum) is not None:
        part = snapshot.find(erratum.part, Part)
        return f"yes, if your {part.title} has it" if part else said
    for entry in entries_of(snapshot, erratum):
        done = disposition_of(snapshot, entry)
        piece = snapshot.find(entry.piece, Piece)
        if done in _MENDED and piece is not None:
            return f"yes, if yours has it; {piece.title} itself was {DONE[done]}"
    return said


def remade(snapshot: Snapshot, erratum: Erratum) -> Part | None:
    """Give the part that is made again against a fault, where it is another than its.

    A lamp that comes wider stays; the seat that was drawn too narrow for it does not.
    """
    now = better(snapshot, erratum)
    part = part_of(snapshot, now) if now else None
    return None if part is snapshot.find(erratum.part, Part) else part


def older_pieces(snapshot: Snapshot, revision: Revision) -> str:
    """Say of each earlier revision whether a piece of it is made again to this one.

    Nearest first, those of which the same is said together; empty of a first one.
    """
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    before = line[: line.index(revision)] if revision in line else ()
    said: dict[str, list[str]] = {}
    for held in reversed(before):
        words = piece_again(snapshot, held, revision)
        said.setdefault(words, []).append(shown_label(held))
    return "; ".join(f"{' or '.join(names)}: {words}" for words, names in said.items())


def piece_again(snapshot: Snapshot, held: Revision, revision: Revision) -> str:
    """Say whether a piece of `held` is made again to a later revision.

    Not to one in which what it was to cure came back, nor to one that another takes
    the place of: then it is said to which. Another fault of its own is added.
    """
    stopped, but = _against(snapshot, revision)
    if stopped:
        return _rather(snapshot, held, revision) or stopped
    said = _joined(_past(snapshot, held, revision))
    if said not in {"", "no"} and (same := undrawn(snapshot, revision, held)):
        return f"not yet: {same}{but}"
    return f"{said or 'nobody has said'}{but}"


def _past(
    snapshot: Snapshot, held: Revision, revision: Revision
) -> tuple[Revision, ...]:
    """Give the revisions after the one held, up to this one; no withdrawn ones."""
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    past = line[line.index(held) + 1 : line.index(revision) + 1]
    return tuple(one for one in past if not is_withdrawn(snapshot, one))


def _rather(snapshot: Snapshot, held: Revision, revision: Revision) -> str:
    """Say to which other revision a piece is made again; empty where to none.

    To that which takes the place of this one; where a fault came back in this one, to
    one before it that cures another fault of what is held.
    """
    later = _in_its_place(snapshot, revision)
    if later is not None and not is_withdrawn(snapshot, revision):
        said = _joined(_past(snapshot, held, later))
        place = f"{later.title} takes the place of {revision.title}"
        return f"{said}: {place}" if said not in {"", "no"} else ""
    came = _came_back(snapshot, revision)
    before = [one for one in _past(snapshot, held, revision) if one is not revision]
    whole = [one for one in before if brought_back(snapshot, one) is None]
    serving = [one for one in whole if in_service(snapshot, one)]
    for one in reversed(serving or whole) if came else ():
        said = _joined(_past(snapshot, held, one))
        if said not in {"", "no"}:
            piece = in_service(snapshot, one)
            here = f" ({piece.title} of it is in service)" if piece else ""
            return f"{said}, to {one.title}{here}, not to {revision.title}: {came}"
    return ""


def _against(snapshot: Snapshot, revision: Revision) -> tuple[str, str]:
    """Say why no piece is made to a revision, else what to know of it before."""
    if is_withdrawn(snapshot, revision):
        return "no: it is withdrawn", ""
    own = own_faults(snapshot, revision)
    if not own:
        return "", ""
    cure = _in_its_place(snapshot, revision)
    if cure is not None:
        return f"no: {cure.title} takes its place", ""
    if came := _came_back(snapshot, revision):
        return f"not yet: {came}", ""
    return "", f"; but: {told_of(snapshot, own[-1])}"


def _in_its_place(snapshot: Snapshot, revision: Revision) -> Revision | None:
    """Give the revision of its own part that cures what is wrong with a revision.

    What another part's revision cures leaves this one where it is.
    """
    own = own_faults(snapshot, revision)
    cure = cure_of(snapshot, own[-1]) if own else None
    part = part_of(snapshot, cure) if cure else None
    return cure if part is part_of(snapshot, revision) else None


def _came_back(snapshot: Snapshot, revision: Revision) -> str:
    """Say what came back in a revision that was to cure it; empty where nothing did."""
    again = brought_back(snapshot, revision)
    if again is None:
        return ""
    cured = (snapshot.find(ref) for ref in revision.because)
    faults = [fault_from(snapshot, one) for one in cured if isinstance(one, Fault)]
    said = (sameness(snapshot, one, again) for one in faults)
    word = next(one.said for one in said if one.holds)
    return f"{word}: {told_of(snapshot, again)}"


def _way(
    snapshot: Snapshot, erratum: Erratum, held: Revision | None
) -> Sequence[Revision]:
    """Give the revisions from the one held to the one to take; else from the cure."""
    now = better(snapshot, erratum)
    part = part_of(snapshot, now) if now else None
    if now is None or part is None:
        return ()
    line = revisions_of(snapshot, part)
    cure = snapshot.find(erratum.fixed_by, Revision)
    known = held in line and now in line and line.index(held) < line.index(now)
    if known and held is not None:
        past = line[line.index(held) + 1 : line.index(now) + 1]
        return [one for one in past if not is_withdrawn(snapshot, one)]
    after = since(snapshot, cure) if cure else ()
    return after[: after.index(now) + 1] if now in after else (now,)


def _joined(way: Sequence[Revision]) -> str:
    """Put together what revisions say that follow each other: one yes decides."""
    said = {one.title: one.remake.strip(" .") for one in way}
    words = {text.casefold() for text in said.values()}
    if "yes" in words:
        return "yes"
    more = [text for text in said.values() if text and text.casefold() != "no"]
    more = [*more[:1], *(text.removeprefix("only if ") for text in more[1:])]
    unsaid = [title for title, text in said.items() if not text]
    if more or not unsaid:
        return ", or ".join(dict.fromkeys(more)) or ("no" if said else "")
    if words == {""}:
        return ""
    return f"nobody has said it of {', '.join(unsaid)}; for the others no"
