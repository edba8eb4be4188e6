"""Whether a piece of an earlier revision is made again to a later one.

The guide and the notes say it of every revision, nearest first.
"""

from __future__ import annotations

from logbook.advice.faults.applies import has_it, standing
from logbook.advice.faults.drafted import Fault, fault_from
from logbook.advice.faults.failing import (
    brought_back,
    cure_of,
    in_service,
    own_faults,
    reopened,
    told_of,
)
from logbook.advice.faults.fixing import fixed
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.making_again import NOBODY_SAID, again_words, is_no
from logbook.advice.faults.remake_disputed import decided, way_to
from logbook.advice.faults.remaking import joined_words
from logbook.advice.faults.same_fault import sameness
from logbook.advice.faults.undrawn import undrawn
from logbook.records.kinds.design import Revision
from logbook.records.together.references import part_of
from logbook.records.together.revisions import (
    is_withdrawn,
    line_to,
    revisions_of,
    shown_label,
)
from logbook.records.together.snapshot import Snapshot


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

    Not to one in which what it was to cure came back, unless it cures another fault
    that is held, nor to one that another takes the place of: then it is said to which.
    Another fault of its own is added. Of one that was opened beside what is held it is
    said what it lacks: what its author said of the one before both is no word on that.
    """
    stopped, but = _against(snapshot, revision)
    if stopped:
        rather = _rather(snapshot, held, revision)
        return rather or _all_the_same(snapshot, held, revision) or stopped
    if held not in line_to(snapshot, revision):
        has = f"what {held.title} changed" + f" ({held.changed})" * bool(held.changed)
        return f"nobody has said: {revision.title} does not have {has}{but}"
    said = decided(snapshot, held, revision)
    if said not in {"", "no"} and (same := undrawn(snapshot, revision, held)):
        return f"not yet: {same}{but}"
    return f"{said or 'nobody has said'}{but}"


def _all_the_same(snapshot: Snapshot, held: Revision, revision: Revision) -> str:
    """Say against which fault a piece is made again where another came back.

    The page of known faults says it to who holds the same; empty where against none.
    """
    came = _came_back(snapshot, revision)
    for fault in known_faults(snapshot) if came else ():
        now = fixed(snapshot, fault)
        if now is None or now.revision is not revision or now.back:
            continue
        if has_it(standing(snapshot, fault, held)):
            said = again_words(snapshot, fault, held)
            if not is_no(said) and not said.startswith(("not yet", NOBODY_SAID)):
                return f"{said}, against “{fault.title}”; but {came}"
    return ""


def _rather(snapshot: Snapshot, held: Revision, revision: Revision) -> str:
    """Say to which other revision a piece is made again; empty where to none.

    To that which takes the place of this one; where a fault came back in this one, to
    one before it that cures another fault of what is held.
    """
    later = _in_its_place(snapshot, revision)
    if later is not None and not is_withdrawn(snapshot, revision):
        said = joined_words(way_to(snapshot, held, later))
        place = f"{later.title} takes the place of {revision.title}"
        return f"{said}: {place}" if said not in {"", "no"} else ""
    came = _came_back(snapshot, revision)
    before = [one for one in way_to(snapshot, held, revision) if one is not revision]
    whole = [one for one in before if brought_back(snapshot, one) is None]
    serving = [one for one in whole if in_service(snapshot, one)]
    for one in reversed(serving or whole) if came else ():
        said = joined_words(way_to(snapshot, held, one))
        if said not in {"", "no"}:
            piece = in_service(snapshot, one)
            here = f" ({piece.title} of it is in service)" if piece else ""
            return f"{said}, to {one.title}{here}, not to {revision.title}: {came}"
    return ""


def _against(snapshot: Snapshot, revision: Revision) -> tuple[str, str]:
    """Say why no piece is made to a revision, else what to know of it before."""
    if is_withdrawn(snapshot, revision):
        return f"no: {revision.title} is withdrawn", ""
    own = own_faults(snapshot, revision)
    if not own:
        return "", _still_open(snapshot, revision)
    cure = _in_its_place(snapshot, revision)
    if cure is not None:
        return f"no: {cure.title} takes its place", ""
    if came := _came_back(snapshot, revision):
        return f"not yet: {came}", ""
    return "", f"; but: {told_of(snapshot, own[-1])}"


def _still_open(snapshot: Snapshot, revision: Revision) -> str:
    """Say of a fault that came back that nobody said that this revision cures it."""
    for fault in known_faults(snapshot):
        if reopened(snapshot, fault, revision) is not None:
            said = f"that {revision.title} cures “{fault.title}”, which came back"
            return f"; but: nobody has said {said}"
    return ""


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
