"""Where a revision and a known fault say opposite of making a part again.

The author says it of each: of the revision by what it changes, of the fault by what it
does. Who holds a piece reads one answer: what is said of a fault that it has decides.
"""

from __future__ import annotations

from collections.abc import Iterator

from logbook.advice.faults.applies import has_it, standing
from logbook.advice.faults.failing import DROPPED
from logbook.advice.faults.fixing import fixed, listed
from logbook.advice.faults.headline import titled
from logbook.advice.faults.known import known_faults
from logbook.advice.faults.remaking import joined_words
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.made_public import Erratum
from logbook.records.together.references import part_of
from logbook.records.together.revisions import is_withdrawn, line_to, revisions_of
from logbook.records.together.snapshot import Snapshot


def way_to(
    snapshot: Snapshot, held: Revision, revision: Revision
) -> tuple[Revision, ...]:
    """Give the revisions after the one held that led to this one; no withdrawn ones."""
    part = part_of(snapshot, revision)
    line = revisions_of(snapshot, part) if part else ()
    past = line[line.index(held) + 1 : line.index(revision) + 1]
    led = line_to(snapshot, revision)
    return tuple(o for o in past if o in led and not is_withdrawn(snapshot, o))


def decided(snapshot: Snapshot, held: Revision, revision: Revision) -> str:
    """Say whether a piece of `held` is made again to a later revision.

    As the revisions on the way say, but yes where these do not, and its author says yes
    of a fault of the piece that this revision is to cure, or none is. Where that of all
    its faults says no, what they say is only the revisions'.
    """
    way = way_to(snapshot, held, revision)
    said = joined_words(way)
    faults = tuple(_of(snapshot, held, way))
    answers = [_word(fault) for fault in faults]
    if said != "yes" and "yes" in answers:
        title = titled(snapshot, faults[answers.index("yes")])
        return f"yes, against “{title}”"
    if said not in {"", "no"} and answers and set(answers) == {"no"}:
        whose = f", as {revision.title} says" if said == "yes" else ""
        return f"{said}{whose}; against its known faults not needed"
    return said


def _of(
    snapshot: Snapshot, held: Revision, way: tuple[Revision, ...]
) -> Iterator[Erratum]:
    """Give the faults a piece has, but those that only a revision after these cures."""
    part = part_of(snapshot, held)
    for fault in known_faults(snapshot):
        if fault.status in DROPPED or snapshot.find(fault.part, Part) is not part:
            continue
        if has_it(standing(snapshot, fault, held)):
            now = fixed(snapshot, fault)
            if now is None or now.revision in way:
                yield fault


def _word(fault: Erratum) -> str:
    return fault.remake.strip(" .").casefold()


def disputed(snapshot: Snapshot) -> Iterator[str]:
    """Name each fault of whose piece its author says yes and no, and how to say one.

    What cures it is looked for as far as the newest revision of its part.
    """
    for fault in known_faults(snapshot):
        part, word = snapshot.find(fault.part, Part), _word(fault)
        line = revisions_of(snapshot, part) if part else ()
        affected = {ref.id for ref in fault.revisions}
        held = [one for one in line if one.id in affected]
        if not held or word not in {"yes", "no"}:
            continue
        way = way_to(snapshot, held[-1], line[-1])
        faults = tuple(_of(snapshot, held[-1], way))
        said = joined_words(way)
        if not any(one.id == fault.id for one in faults) or said == word:
            continue
        every_no = {_word(one) for one in faults} == {"no"}
        if any(_same(one.remake, said) for one in way) and (every_no or word == "yes"):
            yield _named(snapshot, fault, way, said)


def _named(
    snapshot: Snapshot, fault: Erratum, way: tuple[Revision, ...], said: str
) -> str:
    word = _word(fault)
    which = [one.title for one in way if _same(one.remake, said)]
    told = f"{listed(which)} {'say' if len(which) > 1 else 'says'} {said}"
    pages = "yes" if word == "yes" else "both"
    quoted = f'"{said}"' if " " in said else said
    return (
        f"{titled(snapshot, fault)}: make it again? This known fault says {word}, "
        f"{told}; the pages say {pages}. Say the same of it: "
        f"logbook erratum {fault.id} --remake {quoted}, "
        f'or write remake = "{word}" in the file of {listed(which)}'
    )


def _same(text: str, said: str) -> bool:
    return text.strip(" .").casefold() == said
