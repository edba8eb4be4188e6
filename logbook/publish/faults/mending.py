"""What mends a known fault: the revision to take, its files, and what to know of it."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.advice.changes.fitting import fits_words
from logbook.advice.faults.came_of_it import came_of_it
from logbook.advice.faults.doing import MAKE_IT, do_now
from logbook.advice.faults.failing import told_of
from logbook.advice.faults.fixing import Fixed, fixed
from logbook.advice.faults.having import having
from logbook.advice.faults.helped import mended_so
from logbook.advice.faults.making_again import again_words
from logbook.advice.faults.not_held import was_done
from logbook.advice.faults.remaking import remade
from logbook.publish.faults.fix_files import FixFile, fix_files, fix_guide
from logbook.publish.faults.stands import Stands, instead
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.kinds.words import Source
from logbook.records.states.needed import dropped_since
from logbook.records.together.names import folded
from logbook.records.together.references import part_of
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot


@dataclass(frozen=True, kw_only=True)
class Mending:
    """Whether to make a part again, to what, from which file; each may be empty.

    `made` is the part that is made again, where that is another than the fault's; it
    `gets` that where it is bought.
    `beside` is how that stands to the instruction; `fix` says which revision cures it
    and how, `fixed_in` where it is and whether it was tried, `but` what stands against
    it, `instead` what came of the instruction, and what to take where it has not held.
    """

    remake: str
    made: str = ""
    gets: bool = False
    take: str = ""
    beside: str = ""
    files: tuple[FixFile, ...] = ()
    guide: str = ""
    fix: str = ""
    fixed_in: str = ""
    fits_with: str = ""
    but: str = ""
    instead: str = ""


def mending(
    snapshot: Snapshot,
    erratum: Erratum,
    table: tuple[Stands, ...],
    release: Release | None,
) -> Mending:
    """Say what mends a fault; of one release, to who holds that."""
    now = fixed(snapshot, erratum)
    remake = again_words(snapshot, erratum, _held(snapshot, now, release))
    if now is None:
        without = _without(snapshot, erratum)
        return Mending(remake=remake, fix=without, fixed_in=without)
    as_written = do_now(snapshot, erratum) == erratum.do_this
    makes = not now.back and not remake.startswith("not yet")
    outright = makes and remake.startswith("yes")
    found = having(snapshot, erratum)
    other = remade(snapshot, erratum)
    return Mending(
        remake=remake,
        made=other.title if other else "",
        gets=(gets := other is not None and other.source is Source.BOUGHT),
        take=_take(now, other if gets else None) if makes else "",
        beside=_beside(snapshot, erratum, now) if outright and not gets else "",
        files=tuple(fix_files(now, found)) if makes else (),
        guide="" if now.back else fix_guide(snapshot, now),
        fix=_fix(now, what=True),
        fixed_in="" if now.back else _fix(now),
        fits_with="" if now.back or gets else fits_words(snapshot, now.revision),
        but=now.but if as_written else "",
        instead=_instead(snapshot, erratum, now, table) if as_written else "",
    )


def _without(snapshot: Snapshot, erratum: Erratum) -> str:
    """Name the release that does without the part; empty where none does."""
    part = snapshot.find(erratum.part, Part)
    since = dropped_since(snapshot, part) if part else None
    if part is None or since is None:
        return ""
    return f"release {since.label}, which needs no {part.title}"


def _instead(
    snapshot: Snapshot, erratum: Erratum, now: Fixed, table: tuple[Stands, ...]
) -> str:
    """Say what came of doing what is said, and what to take where it has not held."""
    harm = came_of_it(snapshot, erratum)
    came = f"what came of that: {told_of(snapshot, harm)}" if harm else ""
    return "; ".join(filter(None, (came, instead(now, table))))


def _held(
    snapshot: Snapshot, now: Fixed | None, release: Release | None
) -> Revision | None:
    """Give the revision a release has of the part that the fix is of."""
    if now is None or release is None:
        return None
    held = revisions_in(snapshot, release)
    part = part_of(snapshot, now.revision)
    return next((one for one in held if part_of(snapshot, one) is part), None)


def _take(now: Fixed, bought: Part | None) -> str:
    """Name the revision to take, where it is, and whether it was tried.

    What is bought has no drawing that a revision of it would name.
    """
    where = now.where.removeprefix("in ")
    named = bought.title if bought else now.revision.title
    return f"{named} ({where}; {now.tried})"


def _beside(snapshot: Snapshot, erratum: Erratum, now: Fixed) -> str:
    """Say how making it again stands to the instruction; nothing where it is that.

    Until then, instead of it, or drawn in it. What a new part is made with can be done
    to one that is made only where it was.
    """
    do = do_now(snapshot, erratum)
    said = folded(do)
    if not do or folded(now.revision.title) in said or said.startswith(MAKE_IT):
        return ""
    if not was_done(snapshot, erratum, now.revision):
        return "what is said first is for the one you have, until then"
    if piece := mended_so(snapshot, erratum):
        return f"or do it on yours, as was done with {piece.title}: the new one has it"
    return "the new one has what is said first"


def _fix(now: Fixed, *, what: bool = False) -> str:
    """Say which revision cures it, in which release, and whether it was tried."""
    told = now.changed if what else ""
    if now.back:
        done = f" ({told})" if told else ""
        return (
            f"nothing that has held: {now.revision.title}{done}, {now.where}, was to, "
            f"and {now.back}"
        )
    named = f"{now.revision.title} ({told})" if told else now.revision.title
    said = (f"{named}, {now.where}", now.tried, now.but, now.before)
    return "; ".join(filter(None, said))
