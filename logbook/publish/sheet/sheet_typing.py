"""A job sheet being typed in: each box checked and judged as it is typed, and kept.

What is typed lies in a draft until it is saved, so that it survives a crash; the
shell and the screen go on with the same draft.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from datetime import datetime
from pathlib import Path

from logbook.advice.gaps.held_to_gap import (
    FAULTS,
    held_to_gap,
    rough_size,
)
from logbook.advice.ground.advice import Advice
from logbook.advice.pieces.again import once_more
from logbook.advice.steps.going_past import GoingPast
from logbook.publish.sheet.box_reading import drawn_for_box, judged_so, value_typed
from logbook.publish.sheet.boxes import SHEET, WORKED, Box, Sort, of_sort
from logbook.publish.sheet.limits_printed import limits_words, suit_words
from logbook.publish.sheet.saved_before import Saving, keep_savings, savings
from logbook.publish.sheet.sheet_asked import done_already, not_looked_at
from logbook.publish.sheet.sheet_back import Answers, draft_back, read_box
from logbook.publish.sheet.sheet_so_far import may_move_a_gap
from logbook.quantity import Absent, Quantity
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.happenings import Entry
from logbook.records.kinds.record import Record
from logbook.records.kinds.words import Blame
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.making.drafts import Draft
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.expected import expected_of
from logbook.records.sizes.slips import Slip, doubt_of
from logbook.records.together.snapshot import Snapshot
from logbook.store.typed.drafts import delete_draft, drafts, keep_draft

_WHOSE, _CONFIRMED, _WHY = "whose", "confirmed", "why"
"""Begin the row of an answer, where the number of a box begins one typed in it."""


@dataclass
class SheetTyping:
    """The boxes of one sheet with what was typed, by number, and whose fault.

    What looked like a slip and was said to be so is `confirmed`; steps that are done
    already and are to be logged once more, by their ids, are `again`. What a step goes
    past is in `past`, by its id; reasons in `whys`, each with what stood against it.
    What was `saved` of the same sheet before is on record; of what is typed there a
    second time only the boxes that are to be logged `twice` are drafted.
    What is made to suit is held to its gap by `advice` on `build`; by what is advised
    `so_far`, with the readings on this sheet, once that is known.
    """

    mark: str
    boxes: tuple[Box, ...]
    texts: dict[int, str] = field(default_factory=dict)
    blames: dict[int, Blame] = field(default_factory=dict)
    confirmed: set[int] = field(default_factory=set)
    again: set[str] = field(default_factory=set)
    past: dict[str, GoingPast] = field(default_factory=dict)
    whys: dict[str, tuple[str, str]] = field(default_factory=dict)
    saved: dict[int, str] = field(default_factory=dict)
    twice: set[int] = field(default_factory=set)
    standing: tuple[Saving, ...] = ()
    held: str = ""
    advice: Sequence[Advice] = ()
    so_far: Sequence[Advice] | None = None
    build: Build | None = None

    @property
    def purpose(self) -> str:
        """What the draft of this sheet is kept as."""
        return f"{SHEET}{self.mark}"

    def box(self, at: int) -> Box | None:
        """Give the box at a place: -1 is the head of the sheet; none past the last."""
        if at < 0:
            return WORKED
        return self.boxes[at] if at < len(self.boxes) else None

    @property
    def filled(self) -> int:
        """Count the numbered boxes that something was typed in."""
        return len(self.texts.keys() - {WORKED.number})

    @property
    def repeated(self) -> list[int]:
        """The numbers of the boxes typed that are on record from this sheet already."""
        return sorted((self.texts.keys() & self.saved.keys()) - self.twice)

    @property
    def to_log(self) -> dict[int, str]:
        """What is typed and not on record from this sheet yet, by number."""
        left = {*self.repeated}
        return {n: text for n, text in self.texts.items() if n not in left}

    def log_twice(self) -> None:
        """Log what is on record from this sheet already a second time."""
        done = [b for b in of_sort(self.boxes, Sort.DONE) if b.number in self.repeated]
        self.again |= {box.step for box in done}
        self.twice |= {*self.repeated}

    def leave_out(self, root: Path) -> None:
        """Let go of what was typed and is on record from this sheet already.

        Raises:
            Refused: the state folder cannot be written.
        """
        self.texts = self.to_log
        self.keep(root)

    def worked(self, now: datetime) -> datetime:
        """Give the instant the sheet was worked on, as typed; else this one."""
        typed = self.texts.get(WORKED.number, "")
        return datetime.fromisoformat(typed) if typed else now

    def take(self, box: Box, typed: str, snapshot: Snapshot) -> None:
        """Take what was typed for a box; nothing leaves it blank.

        Raises:
            BadInput: it cannot be the content of this box.
            NeedsAnswer: it has two meanings.
        """
        drawn = self.drawn(box, snapshot)
        text = read_box(box, typed, expected_of(snapshot, drawn) if drawn else None)
        if text != self.texts.get(box.number, ""):
            self.blames.pop(box.number, None)
            self.confirmed.discard(box.number)
        self.texts[box.number] = text
        if not text:
            del self.texts[box.number]

    def slip(self, box: Box, snapshot: Snapshot) -> Slip | None:
        """Give the slip the reading of a box looks like, unless it was confirmed."""
        drawn, value = self.drawn(box, snapshot), self.value(box)
        if drawn is None or value is None or box.number in self.confirmed:
            return None
        return doubt_of(snapshot, drawn, value)

    def value(self, box: Box) -> Quantity | Absent | None:
        """Give the value typed for a reading."""
        text = self.texts.get(box.number, "")
        return value_typed(box, text) if text and box.sort is Sort.READING else None

    def judged(self, box: Box, snapshot: Snapshot) -> str:
        """Say how a reading stands to its drawing; nothing for other boxes."""
        drawn, value = self.drawn(box, snapshot), self.value(box)
        return judged_so(drawn, value) if value else ""

    def fault(self, box: Box, snapshot: Snapshot) -> str:
        """Say what leads from a reading to its deviation; nothing where none does."""
        return FAULTS.get(self.judged(box, snapshot), "")

    def drawn(self, box: Box, snapshot: Snapshot) -> Dimension | None:
        """Give the dimension a box was printed for, with the limits it is held to."""
        drawn = drawn_for_box(snapshot, box)
        if drawn is None:
            return None
        piece = next(iter(snapshot.named(box.piece, Piece)), None)
        return held_to_gap(snapshot, self._gaps, drawn, piece, self.build)

    @property
    def _gaps(self) -> Sequence[Advice]:
        return self.advice if self.so_far is None else self.so_far

    def may_move_a_gap(self, snapshot: Snapshot) -> bool:
        """Tell whether readings are typed that a size made to suit may hang on."""
        return may_move_a_gap(snapshot, self.boxes, self.to_log)

    def wanted(self, box: Box, snapshot: Snapshot) -> tuple[str, str]:
        """Give the size and the limits a box is judged by, printed or known since."""
        drawn = self.drawn(box, snapshot)
        if drawn is None or not drawn.to_suit or not drawn.has_limits:
            return box.drawn, box.limits
        piece = next(iter(snapshot.named(box.piece, Piece)), None)
        rough = rough_size(snapshot, self._gaps, drawn, piece, self.build)
        return suit_words(rough, drawn), f"accept {limits_words(drawn)}"

    def draft(self, draft: Draft) -> None:
        """Draft everything that was typed."""
        answers = Answers(self.blames, self.confirmed, self.again, self.past)
        draft_back(draft, self.boxes, self.to_log, answers)

    def blank(self, snapshot: Snapshot, build: Build) -> Box | None:
        """Give the first check left blank of a step that is to be logged as done."""
        left = not_looked_at(snapshot, self.boxes, self.to_log, build)
        return left[0] if left else None

    def goes_past(self, step: Step, past: GoingPast) -> None:
        """Take what a step goes past, asked about to the end."""
        self.past[step.id] = past
        if past.said:
            self.whys[step.id] = past.said, " · ".join(past.against)

    def not_done(self, step: Step) -> Box:
        """Give the box to stay on where a ticked step is not done yet after all.

        It is the first look that was not taken, else the tick of the step.
        """
        mine = [box for box in self.boxes if box.step == step.id]
        looks = (b for b in of_sort(mine, Sort.CHECK) if self.texts[b.number] != "x")
        return next(looks, None) or next(of_sort(mine, Sort.DONE))

    def done_already(
        self, snapshot: Snapshot, build: Build, advice: Iterable[Advice]
    ) -> list[Step]:
        """Give the ticked steps that are done already, of which nothing is to be made.

        A step of a piece that is gone since is logged again unasked.
        """
        every = tuple(advice)
        found = done_already(snapshot, self.boxes, self.to_log, build)
        self.again |= {one.id for one in found if once_more(every, one)}
        return [one for one in found if one.id not in self.again]

    # -- kept until it is saved --------------------------------------------------

    def rows(self) -> str:
        """Give everything typed as text, a row for each box."""
        typed = [f"{number} {text}" for number, text in sorted(self.texts.items())]
        said = [f"{_WHOSE} {n} {one.value}" for n, one in sorted(self.blames.items())]
        sure = [f"{_CONFIRMED} {number}" for number in sorted(self.confirmed)]
        whys = [f"{_WHY} {json.dumps(one)}" for one in sorted(self.whys.items())]
        return "\n".join([*typed, *said, *sure, *whys])

    def keep(self, root: Path) -> None:
        """Keep it on disk.

        Raises:
            Refused: the state folder cannot be written.
        """
        if rows := self.rows():
            self.held = keep_draft(root, rows, self.purpose, self.held).id
        elif self.held:
            delete_draft(root, self.held)
            self.held = ""

    def recall(self, root: Path, snapshot: Snapshot) -> None:
        """Go on with what was typed before, or was saved and taken back since."""
        every = savings(root, self.mark)
        self.standing = tuple(one for one in every if one.stands(snapshot))
        for saving in self.standing:
            self.saved |= {n: t for n, t in saving.texts.items() if n != WORKED.number}
        for kept in drafts(root):
            if kept.for_what == self.purpose:
                self.held = kept.id
                self._recall_all(kept.text)
                return
        for saving in every:
            if saving not in self.standing:
                self._recall_all(saving.rows)

    def _recall_all(self, rows: str) -> None:
        for row in rows.split("\n"):
            self._recall(row)

    def _recall(self, row: str) -> None:
        first, _, rest = row.partition(" ")
        if first.isdecimal():
            self.texts[int(first)] = rest
        elif first == _WHOSE:
            number, _, said = rest.partition(" ")
            self.blames[int(number)] = Blame(said)
        elif first == _CONFIRMED:
            self.confirmed.add(int(rest))
        elif first == _WHY:
            step, (said, against) = json.loads(rest)
            self.whys[step] = said, against

    def settle(self, root: Path, records: Iterable[Record]) -> None:
        """Let go of what was kept, now that it is on record as these records.

        What was typed stays beside the sheet: where the records are taken back it
        need not be typed again.

        Raises:
            Refused: the state folder cannot be written.
        """
        became = tuple(one.id for one in records if isinstance(one, Entry))
        keep_savings(root, self.mark, [*self.standing, Saving(became, self.rows())])
        for kept in drafts(root):
            if kept.for_what == self.purpose:
                delete_draft(root, kept.id)
