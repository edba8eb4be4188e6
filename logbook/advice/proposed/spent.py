"""Hours a whole build took, told in words, for its time on record."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.advice.proposed.proposal import Proposal, is_yes, not_accepted
from logbook.errors import BadInput
from logbook.quantity import Quantity, parse_quantity, quantity
from logbook.records.kinds.happenings import Entry, Note, Order, Work
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.states.hours import shown_minutes, time_spent
from logbook.records.together.snapshot import Snapshot

_TOOK = re.compile(
    r"(?i)\b(?P<what>build|stand|it all|everything|the whole \w+|in all|all in all|"
    r"project)\b(?:\s+\d+)?\s+(?:took|needed|cost)\b[^,;]*?(?<![\d.,])"
    r"(?P<value>\d+(?:[.,]\d+)?)\s*(?P<unit>h|hours?|hrs?|days?)\b"
)
_ACCEPTS = "“yes”, or the hours, as “22 h”"


def spent(snapshot: Snapshot) -> Iterator[Proposal]:
    """Propose the hours told of a build as its time, less what is on record."""
    told: tuple[Entry, ...] = (*snapshot.all(Note), *snapshot.all(Order))
    taken = {ref.id for one in snapshot.all(Work) for ref in one.about}
    for entry in told:
        build = snapshot.find(entry.build, Build)
        found = _TOOK.search(entry.title)
        if found is None or build is None or entry.id in taken:
            continue
        if found["unit"].casefold().startswith("d"):
            continue  # a day of work is not 24 hours
        value = parse_quantity(f"{found['value'].replace(',', '.')} h")
        yield _proposal(snapshot, entry, build, value)


def _proposal(
    snapshot: Snapshot, entry: Entry, build: Build, value: Quantity
) -> Proposal:
    known = sum(one.minutes for one in time_spent(snapshot, build))
    but = f" ({shown_minutes(known)} of it on record)" if known else ""

    def take(draft: Draft, answer: str) -> None:
        whole = value if is_yes(answer) else _hours(answer)
        left = whole.to("min") - known
        if left <= 0:
            raise not_accepted("more than is on record", answer, _ACCEPTS)
        draft.add(
            Work(
                id=new_id(),
                title=f"{build.title}: {whole} in all, as said",
                when=draft.when,
                build=build.ref,
                about=(entry.ref,),
                time=quantity(left, "min"),
            )
        )

    return Proposal(
        key=f"hours {entry.id}",
        topic="build",
        about=entry.ref,
        question=f"did {build.title} take {value} in all{but}?",
        buys="the guide says before the start how long one build took",
        accepts=_ACCEPTS,
        inputs=(entry.ref, build.ref),
        take=take,
    )


def _hours(answer: str) -> Quantity:
    try:
        found = parse_quantity(answer, "h")
    except BadInput as wrong:
        raise not_accepted("the hours", answer, _ACCEPTS) from wrong
    if found.dimension != "time":
        raise not_accepted("the hours", answer, _ACCEPTS)
    return found
