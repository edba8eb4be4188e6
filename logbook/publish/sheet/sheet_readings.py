"""The readings a job sheet asks for: of which pieces, at which places, held to what."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from logbook.advice.faults.faulty_sizes import faulty_sizes
from logbook.advice.gaps.held_to_gap import held_to_gap, rough_size
from logbook.advice.ground.advice import Advice
from logbook.publish.parts.gaps import made_so, made_to_suit, rule_words, suited_words
from logbook.publish.release.statements import limits_text
from logbook.publish.sheet.boxes import Box, Sort
from logbook.publish.sheet.limits_printed import limits_words, line_of, suit_words
from logbook.publish.sheet.operations import Wanted
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.limits_held import as_held
from logbook.records.sizes.places import places_of
from logbook.records.states.pieces import is_gone, pieces_of, readings_of
from logbook.records.together.revisions import built_to, made_to
from logbook.records.together.snapshot import Snapshot


class Readings:
    """Asks for the readings of parts; `asked_for` has the ids of those it asked for."""

    def __init__(
        self,
        snapshot: Snapshot,
        wanted: Wanted,
        build: Build | None,
        advice: Sequence[Advice],
    ) -> None:
        """Ask for what is wanted on a build; gaps are as they are advised."""
        self._snapshot, self._wanted = snapshot, wanted
        self._build, self._advice = build, advice
        self.asked_for: set[str] = set()

    def rules(self, parts: Sequence[Part]) -> Iterator[str]:
        """Say how each size that is made to suit is found at the bench."""
        for part in parts:
            revision = made_to(self._snapshot, part, build=self._build)
            for drawn in definition(self._snapshot, revision) if revision else ():
                item = drawn.characteristic
                if gap := made_to_suit(self._snapshot, item):
                    yield made_so(item.title, rule_words(self._snapshot, gap))

    def of(self, part: Part, step: str) -> Iterator[Box]:
        """Give the boxes for a part in a step, of its pieces here or of new ones."""
        if self._wanted.parts and part.id not in self._wanted.parts:
            return
        self.asked_for.add(part.id)
        for piece, revision in self._pieces(part):
            if revision is None:
                continue
            for drawn in definition(self._snapshot, revision):
                for place in places_of(self._snapshot, drawn.characteristic):
                    if self._wanted.everything or not self._taken(piece, drawn, place):
                        of = part, piece, revision
                        yield self._reading(*of, drawn, place, step)

    def _pieces(self, part: Part) -> Iterator[tuple[str, Revision | None]]:
        """Give the pieces of this build with their revisions, or new ones."""
        here = [
            piece
            for piece in pieces_of(self._snapshot, part)
            if is_here(self._build, piece.build) and not is_gone(self._snapshot, piece)
        ]
        for piece in here:
            yield piece.title, made_to(self._snapshot, part, piece)
        for number in range(1, self._wanted.pieces + 1 - len(here)):
            yield f"new {number}", built_to(self._snapshot, part, self._build)

    def _taken(self, piece: str, drawn: Dimension, place: str) -> bool:
        for held in pieces_of(self._snapshot, self._owner(drawn)):
            if held.title == piece:
                taken = readings_of(self._snapshot, held, drawn.characteristic)
                return any(one.reading.place == place for one in taken)
        return False

    def _owner(self, drawn: Dimension) -> Part:
        part = self._snapshot.find(drawn.characteristic.part, Part)
        assert part is not None
        return part

    def _reading(
        self,
        part: Part,
        piece: str,
        revision: Revision,
        drawn: Dimension,
        place: str,
        step: str,
    ) -> Box:
        item = drawn.characteristic
        at = f" at {place}" if place else ""
        sized = drawn.nominal or drawn.lower or drawn.upper
        known = sized is not None and not sized.metal
        size, accept = self._wanted_of(drawn, piece)
        if made_to_suit(self._snapshot, item) is None:
            accept = self._faulty(part, revision).get(item.id, accept)
        return Box(
            0,
            Sort.READING,
            line_of(f"{item.title}{at}"),
            item.id,
            step,
            part=part.title,
            piece=piece,
            place=place,
            drawn=size,
            accept=accept,
            unit=sized.unit if sized and known else self._snapshot.project.unit,
        )

    def _faulty(self, part: Part, revision: Revision) -> Mapping[str, str]:
        """Give the sizes that are not to be accepted as drawn, and why."""
        found = faulty_sizes(self._snapshot, self._build, part, revision)
        return {size: line_of(why) for size, why in found.items()}

    def _wanted_of(self, drawn: Dimension, title: str) -> tuple[str, str]:
        """Say which size is wanted and what is accepted; a gap decides over both.

        It says in figures what it can say, else how they are found.
        """
        gap = made_to_suit(self._snapshot, drawn.characteristic)
        if gap is not None:
            piece = next(iter(self._snapshot.named(title, Piece)), None)
            asked = self._snapshot, self._advice, drawn, piece, self._build
            held = held_to_gap(*asked)
            if held is drawn:
                suits = f"to suit: {suited_words(self._snapshot, gap)}"
                return line_of(suits), line_of(f"a gap of {limits_text(gap)}")
            return suit_words(rough_size(*asked), held), limits_words(held)
        size = line_of(str(drawn.nominal)) if drawn.nominal else "no size drawn"
        return size, limits_words(as_held(self._snapshot, drawn))


def is_here(build: Build | None, of: object) -> bool:
    """Tell whether what is of this build, or of none, is of the build in hand."""
    return of is None or getattr(of, "id", "") == (build.id if build else "")
