"""What to do about a known fault as things stand now: its author's words, or better.

Every page that gives an instruction gives it from here.
"""

from __future__ import annotations

import re

from logbook.advice.faults.drafted import AS_IT_IS, Fault, drafted
from logbook.advice.faults.failing import comes_again, own_faults
from logbook.advice.faults.fixing import Fixed, fixed, releases_named, serving
from logbook.advice.faults.headline import headline
from logbook.advice.faults.helped import (
    FAILED_OTHERWISE,
    HELPED,
    LABELS,
    NOT_TRIED,
    helped,
    helped_with,
)
from logbook.advice.faults.not_held import not_held, was_done, written_since
from logbook.advice.faults.only_drawn import is_only_drawn
from logbook.advice.faults.reworked_so import as_reworked
from logbook.advice.faults.trying import entries_of
from logbook.records.kinds.design import Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.snapshot import Snapshot

MAKE_IT = "make it to"
"""The words an instruction begins with that names the revision to make."""
NO_CURE = "no cure on record has held yet"
NOTHING_DRAWN = "nothing drawn has cured it yet"
MEANWHILE = "Meanwhile"

_HOLDS = {
    HELPED: "",
    NOT_TRIED: " (not tried yet)",
    FAILED_OTHERWISE: " (done, and its piece failed otherwise)",
}
_DOUBTED = " (nobody has said that it holds)"


def do_now(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say what to do about a fault: as its author wrote, or to make the newer fix.

    Where what was written makes a revision that turned out faulty itself, and a later
    one takes its place, that comes first, and of the other it is said what came of it.
    It stands as written where it names the revision to take. Where the fault came back
    in the newest fix, no instruction is left but what was written since.
    """
    now, made = fixed(snapshot, erratum), snapshot.find(erratum.fixed_by, Revision)
    if now is None:
        return _undrawn(snapshot, erratum)
    if now.back:
        return _not_held(snapshot, erratum, now)
    own = own_faults(snapshot, made) if made else ()
    if made is None or now.revision is made or not own:
        only_drawn = is_only_drawn(snapshot, erratum, now.revision)
        written = "" if only_drawn else erratum.do_this
        return written or _as_drawn(snapshot, erratum, now)
    name = now.revision.title
    if folded(name) in folded(erratum.do_this):
        return erratum.do_this
    held = f"of {releases_named(now.releases)}" if now.releases else "(not released)"
    changed = f": {now.changed.rstrip('. ')}" if now.changed else ""
    first = "; ".join(filter(None, (f"{MAKE_IT} {name} {held}{changed}", now.but)))
    which = f"{made.title}, which is faulty itself: {headline(snapshot, own[-1])}"
    if not erratum.do_this:
        return f"{first}; not to {which}"
    older = f"{first}. The older instruction (“{erratum.do_this}”)"
    if not _CASES.search(erratum.do_this):
        return f"{older} made {which}"
    return (
        f"{older} was written for {which}; of the cases in it where nothing is made "
        "anew nobody has said otherwise"
    )


def _as_drawn(snapshot: Snapshot, erratum: Erratum, now: Fixed) -> str:
    """Say to do as the revision that fixes it draws it; to take what is another part.

    Where nobody wrote what to do: that there is nothing to do would be wrong.
    """
    part = part_of(snapshot, now.revision)
    if part is not None and (erratum.part is None or part.id != erratum.part.id):
        return f"take the {now.revision.title if now.changed else part.title}"
    held = f"of {releases_named(now.releases)}" if now.releases else "(not released)"
    changed = f": {now.changed.rstrip('. ')}" if now.changed else ""
    return f"{MAKE_IT} {now.revision.title} {held}{changed}"


_CASES = re.compile(r"[^;:]:\s[^;]+;\s[^;:]+:\s")
"""An instruction that tells cases apart: “riveted: drill it out; not yet: screw it”."""


def _undrawn(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say what to do where no revision fixes it, and whether that is known to hold.

    What was done and did not hold is no instruction any more, but for what was named
    when it came back.
    """
    do = _still_so(snapshot, erratum) or _as_reworked(snapshot, erratum)
    back = not_held(snapshot, erratum)
    if back is not None:
        entry, again, same = back
        what = f"“{entry.cure}” was done, and {same.said}: {headline(snapshot, again)}"
        return f"{NO_CURE}: {what}{_named_since(snapshot, again)}"
    if not do or do.startswith(AS_IT_IS):
        return do
    label = helped_with(snapshot, erratum, None)
    return f"{do.rstrip('. ')}{_HOLDS.get(label, _DOUBTED)}"


def _still_so(snapshot: Snapshot, erratum: Erratum) -> str:
    """Give what is written; not to use it as a piece was that was not left so."""
    if not erratum.do_this.startswith(f"{AS_IT_IS}, as was done"):
        return erratum.do_this
    entries = entries_of(snapshot, erratum)
    now = [drafted(snapshot, one).do_this for one in entries]
    return now[0] if now else erratum.do_this


def _as_reworked(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say to do as was done with a piece it was found on; empty where nothing was."""
    done = (as_reworked(snapshot, one) for one in entries_of(snapshot, erratum))
    return next(filter(None, done), "")


def is_idle(do: str) -> bool:
    """Tell whether an instruction leaves nothing to be done to a piece that is made."""
    if do.startswith((NO_CURE, NOTHING_DRAWN)):
        asks = (_then(f"{one}: ") for one in (*LABELS, MEANWHILE))
        return not any(one in do for one in asks)
    return not do or do.startswith(AS_IT_IS)


def _named_since(snapshot: Snapshot, again: Fault) -> str:
    """Give what was named as a cure when it came back, and whether that helped."""
    return _then(f"{helped(snapshot, again)}: {again.cure}") if again.cure else ""


def _not_held(snapshot: Snapshot, erratum: Erratum, now: Fixed) -> str:
    """Say that nothing holds, what was tried, and what was named since.

    Else what its author wrote knowing it. What nobody did is still to be tried.
    """
    again = comes_again(snapshot, erratum, now.revision)
    if again and written_since(snapshot, erratum, again, now.revision):
        return erratum.do_this
    what = f"“{erratum.do_this}”" if erratum.do_this else "what was to cure it"
    held = releases_named(now.releases) or "not released"
    if not was_done(snapshot, erratum, now.revision):
        changed = f"{now.changed.rstrip('. ')}; " if now.changed else ""
        label = helped_with(snapshot, erratum, None)
        return (
            f"{NOTHING_DRAWN}: {now.revision.title} ({changed}{held}) "
            f"was to, and {now.back}. {MEANWHILE}: {erratum.do_this} ({label})"
            f"{_then(serving(snapshot, now.revision))}"
        )
    since_named = _named_since(snapshot, again) if again else ""
    return (
        f"{NO_CURE}: {what} was done in {now.revision.title} "
        f"({held}), and {now.back}{since_named}"
        f"{_then(serving(snapshot, now.revision))}"
    )


def _then(said: str) -> str:
    """Give words as one more sentence; nothing of none."""
    return f". {said[:1].upper()}{said[1:]}" if said else ""
