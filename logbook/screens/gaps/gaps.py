"""Gaps and joints: what each comes to, what to make or swap, and what if.

What is typed is supposed of the gap or joint the arrow stands at, for as long
as it stands in the line; nothing of it is ever written.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.advice.ground.advice import Advice
from logbook.advice.joints.faulty import fault_words, faulty_joints
from logbook.plain.stated.examples import joint_example
from logbook.plain.stated.typed_line import GAP, JOINT
from logbook.records.kinds.assembling import Fit, Joint
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.workshop import Build
from logbook.records.together.names import folded
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.gaps.gap_words import (
    example_of,
    said_of,
    strength,
    verdict_of,
    weight_of,
)
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import MOVES
from logbook.screens.ruled.halves import Halves
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say
from logbook.screens.ruled.stating_sheet import StatingSheet

OPEN = verbs.Verb(
    "open", "open", "enter", "Open the record; with something typed, say if it is not."
)

FAULT = "known fault"
"""The mark of a joint through a part that has one."""
STILL = "being worked out"
"""What is said of a gap while its advice has not come yet."""


class Gaps(StatingSheet):
    """Every gap and every joint, the strongest advice first."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        OPEN, *MOVES, verbs.MEASURE, verbs.GO_ON, verbs.BACK, verbs.UNDO,
        *verbs.EVERYWHERE, verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "no gap and no joint yet; type one here"
    STATES = (GAP, JOINT)
    ASKS = "a size that is not so yet"
    BEGINS = "gap, what it is called, a colon, and what it goes over"
    MARGIN_WORD = "what if ›"
    WAY = "gaps"

    def __init__(self, desk: Desk) -> None:
        """Show all of them."""
        super().__init__(desk)
        self._case: news.Supposed | None = None
        self._entered = ""
        self._faulty: Mapping[str, Sequence[Erratum]] = {}

    @property
    def about_here(self) -> tuple[str, ...]:
        """The gap or joint of which something is supposed."""
        return (self.chosen,)

    @property
    def heading(self) -> str:
        """Say what is looked at."""
        return "gaps and joints"

    def told(self, message: Message) -> None:
        """Follow the advice, and what is supposed on top of it."""
        match message:
            case news.Advised():
                self._look_for_faults()
                self.show()
                self._suppose()
            case news.Supposed():
                self._supposed(message)
            case _:
                super().told(message)

    @property
    def stating(self) -> bool:
        """Tell whether one is stated, and not a size called gap or joint supposed."""
        if not super().stating:
            return False
        sizes = self.desk.snapshot.all(Characteristic)
        called_so = any(folded(size.title).startswith(self.STATES) for size in sizes)
        return not called_so or any(sign in self.line.value for sign in (":", " --"))

    class FaultsFound(Message):
        """The known faults of the layers of joints were looked up."""

        def __init__(self, faulty: Mapping[str, Sequence[Erratum]]) -> None:
            """Carry them, by the ids of the joints."""
            super().__init__()
            self.faulty = faulty

    def on_mount(self) -> None:
        """Look for known faults beside the keys."""
        super().on_mount()
        self._look_for_faults()

    @work(thread=True, exclusive=True, group="faults")
    def _look_for_faults(self) -> None:
        self.post_message(self.FaultsFound(faulty_joints(self.desk.snapshot)))

    @on(FaultsFound)
    def _mark_faults(self, message: FaultsFound) -> None:
        self._faulty = message.faulty
        self.show()

    # -- the list ----------------------------------------------------------------

    def lines(self) -> Sequence[Line]:
        """Give a row for each piece of advice, and for what none is given of."""
        found = [*self.desk.advice.of("gaps"), *self.desk.advice.of("joints")]
        found.sort(key=strength)
        about = {one.about.id for one in found}
        lines = [
            Line(
                one.key,
                _sort(one),
                f"{self._mark(one.about.id)}{self._of_build(one)}",
                verdict_of(one),
                weight_of(one),
            )
            for one in found
        ]
        return [*lines, *self._untold(about)]

    def _untold(self, about: set[str]) -> Iterator[Line]:
        snapshot = self.desk.snapshot
        for record in (*snapshot.all(Fit), *snapshot.all(Joint)):
            if record.id not in about:
                sort = "gap" if isinstance(record, Fit) else "joint"
                said = "no figures" if self.desk.knows_waits else STILL
                words = f"{self._mark(record.id)}{record.title}"
                yield Line(f"untold {record.id}", sort, words, said, "$quiet")

    def _of_build(self, one: Advice) -> str:
        """Give what is said, the build before it: it is not cut off a narrow row."""
        for build in self.desk.snapshot.all(Build):
            lead = f"{one.about.name}, {build.title}:"
            if one.statement.startswith(lead):
                rest = one.statement.removeprefix(lead)
                return f"{build.title}: {one.about.name}:{rest}"
        return one.statement

    def _mark(self, joint: str) -> str:
        return f"{FAULT} · " if self._faulty.get(joint) else ""

    def _advice(self, key: str) -> Advice | None:
        return next((one for one in self.desk.advice.advice if one.key == key), None)

    @property
    def about(self) -> str:
        """The id of the gap or joint the arrow stands at; empty in an empty list."""
        key = self.chosen
        advice = self._advice(key)
        return advice.about.id if advice else key.removeprefix("untold ")

    def follow(self, *, anew: bool = True) -> None:
        """Ask for a size of the gap or joint the arrow stands at."""
        record = self.desk.snapshot.by_id(self.about)
        example = example_of(self.desk.snapshot, record) if record else ""
        self.line.placeholder = f"{self.ASKS}: {example}" if example else self.BEGINS
        super().follow(anew=anew)

    # -- what is known -----------------------------------------------------------

    def known(self, key: str) -> Sequence[Say]:
        """Give the advice row by row, that of the case supposed in its place."""
        if not key:
            joint = joint_example(self.desk.snapshot)
            return [*self.examples(), Say("joint", f"or on the bench: “{joint}”")]
        width = self.query_one(Halves).word_columns
        case = self._case
        if case is not None and case.about == self.about:
            rows = self._rows(
                self._case_of(case, key), width, supposed=not case.refusal
            )
            return [*_what_if(case), *rows]
        advice = self._advice(key)
        return [*self._rows([advice] if advice else [], width)]

    def _case_of(self, case: news.Supposed, key: str) -> Sequence[Advice]:
        same = [one for one in case.advice if one.key == key]
        if case.refusal:
            advice = self._advice(key)
            return [advice] if advice else []
        return same or case.advice

    def _rows(
        self, advice: Sequence[Advice], width: int, *, supposed: bool = False
    ) -> Iterator[Say]:
        faults = self._faulty.get(self.about, ())
        for at, fault in enumerate(faults):
            yield Say("" if at else FAULT, fault_words(fault))
        for one in advice:
            yield from said_of(one, self.desk.snapshot, width, supposed=supposed)
        path = self.desk.snapshot.stored.get(self.about)
        for problem in self.desk.advice.problems:
            if path is not None and problem.file == path.path:
                yield Say("cannot be", f"{problem.found}; accepted: {problem.accepted}")
        if not advice:
            none = "nothing to work out here, and nothing known against it"
            yield Say("", none if self.desk.knows_waits else f"{STILL} …")

    # -- what if -----------------------------------------------------------------

    @on(Input.Changed, "#line")
    def _typed(self) -> None:
        self.tell("")
        self._entered = ""
        self._suppose()

    def _suppose(self) -> None:
        typed = self.line.value.strip()
        if typed and self.about and not self.stating:
            self.desk.suppose(self.about, typed)
        elif self._case is not None:
            self._case = None
            self.follow(anew=False)

    def _supposed(self, case: news.Supposed) -> None:
        if (case.about, case.typed) == (self.about, self.line.value.strip()):
            self._case = case
            self.follow(anew=False)
            if self._entered == case.typed:
                self._say_of(case)

    def _say_of(self, case: news.Supposed) -> None:
        """Say of a line that was entered what is so of it: just what stands beside."""
        self._entered = ""
        if case.refusal:
            self.tell(case.refusal, label="not so")
        else:
            self.tell("nothing of it is written; Esc drops it", label="what if")

    def action_move(self, by: int) -> None:
        """Move the arrow; what is typed is supposed of the row it goes to."""
        super().action_move(by)
        self._suppose()

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        case, typed = self._case, self.line.value.strip()
        if self.take_stated():
            return
        if not typed:
            if self.about:
                self.show_record(self.about)
        elif case is not None and (case.about, case.typed) == (self.about, typed):
            self._say_of(case)
        else:  # it is being worked out of the line as it stands now
            self._entered = typed

    def action_open(self) -> None:
        """Open the record, as Enter does."""
        self._enter()


def _sort(advice: Advice) -> str:
    return advice.topic.removesuffix("s")


def _what_if(case: news.Supposed) -> Iterator[Say]:
    if case.refusal:
        said = sentence("[$quiet]not yet: $refusal[/]", refusal=case.refusal)
        yield Say("what if", said)
        return
    yield Say(
        "WHAT IF",
        sentence(
            "[reverse bold] $words [/] nothing is written; Esc drops it",
            words=case.words,
        ),
    )
