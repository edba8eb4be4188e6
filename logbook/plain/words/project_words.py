"""The vocabulary of a project, taken from its records."""

from __future__ import annotations

import re
from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator
from datetime import datetime

from logbook.plain.words.spoken import spoken
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds import assembling, design, happenings, workshop
from logbook.records.kinds.record import Record
from logbook.records.together.ordered import apart
from logbook.records.together.revisions import is_withdrawn
from logbook.records.together.snapshot import Snapshot


def vocabulary(
    snapshot: Snapshot, now: datetime, proposed: Iterable[str] = ()
) -> Vocabulary:
    """Give the names a plain line may use in this project.

    `proposed` are parts that its design files speak of and nobody has made yet.
    """
    offered = tuple(proposed)
    short = short_names((*(part.title for part in snapshot.all(design.Part)), *offered))
    parts = {
        part.title: (part.name, *part.aliases, *part.formerly, *short[part.title])
        for part in snapshot.all(design.Part)
    }
    characteristics, places = _dimensions(snapshot)
    return Vocabulary(
        now=now,
        parts=parts,
        proposed={title: short[title] for title in offered},
        characteristics=characteristics,
        pieces=_pieces(snapshot),
        builds=_titles(snapshot, workshop.Build),
        places=places,
        machines=_titles(snapshot, workshop.Machine),
        instruments=_titles(snapshot, workshop.Instrument),
        stocks=_titles(snapshot, workshop.Stock),
        steps=_titles(snapshot, assembling.Step),
        numbered=_numbered(snapshot),
        unit=snapshot.project.unit,
        commas=_types_commas(snapshot),
    )


_LATELY = 30
"""Runs that tell how decimals are typed: the newest so many."""
_COMMA, _POINT = re.compile(r"\d,\d{1,2}(?!\d)"), re.compile(r"\d\.\d")


def _types_commas(snapshot: Snapshot) -> bool:
    """Tell whether sizes are typed with decimal commas here, and none with a point."""
    typed = [
        str(one.value)
        for run in snapshot.all(happenings.Run)[-_LATELY:]
        for one in run.readings
    ]
    commas = any(_COMMA.search(text) for text in typed)
    return commas and not any(_POINT.search(text) for text in typed)


def _numbered(snapshot: Snapshot) -> dict[int, str]:
    """Give the steps of the order of work by number, where one alone has it."""
    found: dict[int, list[str]] = defaultdict(list)
    for step in snapshot.all(assembling.Step):
        if step.number > 0 and not is_withdrawn(snapshot, step):
            found[step.number].append(step.title)
    return {number: titles[0] for number, titles in found.items() if len(titles) == 1}


def _dimensions(snapshot: Snapshot) -> tuple[dict[str, list[str]], tuple[str, ...]]:
    """Give the dimensions of each part by its title, and every place that is named."""
    named: dict[str, list[str]] = defaultdict(list)
    places: dict[str, None] = {}
    for item in snapshot.all(design.Characteristic):
        owner = snapshot.find(item.part, design.Part)
        if owner is not None:
            named[owner.title].append(item.title)
        places.update(dict.fromkeys(item.places))
    for run in snapshot.all(happenings.Run):
        places.update(dict.fromkeys(_places(run)))
    return named, tuple(places)


def _pieces(snapshot: Snapshot) -> dict[str, list[str]]:
    """Give the pieces of each part by its title."""
    pieces: dict[str, list[str]] = defaultdict(list)
    for piece in snapshot.all(workshop.Piece):
        owner = snapshot.find(piece.part, design.Part)
        if owner is not None:
            pieces[owner.title].append(piece.title)
    return pieces


_NAMING = (
    design.Part, design.Characteristic, workshop.Piece, workshop.Build,
    workshop.Machine, workshop.Instrument, workshop.Stock, assembling.Step,
    design.Project,
)  # fmt: skip
"""The kinds whose names a line may use; runs name places besides."""


def kept_vocabulary(
    words: Vocabulary,
    before: Snapshot,
    snapshot: Snapshot,
    now: datetime,
    proposed: Iterable[str] = (),
) -> Vocabulary:
    """Give the same as `vocabulary`; `words` were that of the snapshot `before`.

    What is worked out of them is kept where nothing named came, went or changed.
    """
    offered = tuple(proposed)
    same = all(before.all(kind) is snapshot.all(kind) for kind in _NAMING)
    if same and tuple(words.proposed) == offered and _known(words, before, snapshot):
        return words.keeping(now=now, commas=_types_commas(snapshot))
    return vocabulary(snapshot, now, offered)


def _known(words: Vocabulary, before: Snapshot, snapshot: Snapshot) -> bool:
    """Tell whether runs came, grew, but none went, and no place is new."""
    went, came = apart(before.all(happenings.Run), snapshot.all(happenings.Run))
    grown = {run.id: run for run in came}
    for run in went:
        after = grown.get(run.id)
        if after is None or not {*_places(run)} <= {*_places(after)}:
            return False
    return {place for run in came for place in _places(run)} <= {*words.places}


def _places(run: happenings.Run) -> Iterator[str]:
    return (reading.place for reading in run.readings if reading.place)


def short_names(titles: Iterable[str]) -> dict[str, tuple[str, ...]]:
    """Give the ends of each title that only it has: “belt clip” for “F Belt Clip”.

    An end is at least two words, or what follows a single letter or a number and
    stands in no other title: of a B wall and a C wall track none is the wall.
    """
    every = list(titles)
    holders = Counter(word for title in {*every} for word in {*spoken(title)})
    ends: dict[tuple[str, ...], set[str]] = defaultdict(set)
    for title in every:
        words = spoken(title)
        for start in range(len(words)):
            ends[words[start:]].add(title)
    found: dict[str, list[str]] = {title: [] for title in every}
    for end, owners in ends.items():
        if len(owners) != 1:
            continue
        [title] = owners
        dropped = spoken(title)[: -len(end)]
        bare = all(len(word) == 1 or word.isdigit() for word in dropped)
        single = bare and len(end[0]) > 3 and holders[end[0]] == 1
        if dropped and (len(end) > 1 or single):
            found[title].append(" ".join(end))
    return {title: tuple(names) for title, names in found.items()}


def _titles(snapshot: Snapshot, cls: type[Record]) -> tuple[str, ...]:
    return tuple(record.title for record in snapshot.all(cls))
