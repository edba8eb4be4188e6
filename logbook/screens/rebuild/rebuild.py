"""Before a rebuild: what you hold, which known faults apply to it, what you took in.

What is held is a build with its pieces, a release, a revision, or files known by
their content. A fault taken in is an entry of this build, and can be taken back.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from typing import ClassVar

from textual import on, work
from textual.binding import BindingType
from textual.message import Message
from textual.widgets import Input

from logbook.advice.faults.as_done import instruction
from logbook.advice.faults.having import tell_now
from logbook.advice.faults.holding import Standing, fixed_words, standings
from logbook.advice.faults.stopping import not_until
from logbook.advice.ground.advice import STANDING
from logbook.errors import LogbookError
from logbook.project import Project
from logbook.publish.faults.how_bad import SEVERITIES
from logbook.publish.faults.told import STATUSES
from logbook.records.kinds.happenings import TakenIn
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Severity
from logbook.records.kinds.workshop import Build
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from logbook.screens.bench.beginning import begun_by
from logbook.screens.bench.beginning_sheet import BeginningSheet
from logbook.screens.desk import news
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.news import Job
from logbook.screens.rebuild.holds import Holds
from logbook.screens.rebuild.looked_up import LookedUp, looked_up
from logbook.screens.ruled import verbs
from logbook.screens.ruled.facing import MOVES, Facing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.passage import Say

TICK = verbs.Verb("tick", "took it in", "enter", "Say that you took it in; again: not.")
BEGIN = replace(verbs.NEW_BUILD, in_strip=True)
OTHER = verbs.Verb("other", "hold another", "f4", "Choose something else you hold.")


class Rebuild(Facing, BeginningSheet):
    """What applies to what is held, most serious first."""

    VERBS: ClassVar[tuple[verbs.Verb, ...]] = (
        TICK, OTHER, BEGIN, *MOVES, verbs.UNDO, verbs.BACK, *verbs.EVERYWHERE,
        verbs.BRING_BACK,
    )  # fmt: skip
    BINDINGS: ClassVar[list[BindingType]] = verbs.bindings(VERBS[1:])
    NOTHING = "no known fault in this record applies to it"
    ASKS = "Enter: you took it in for this build; again: you did not"
    MARGIN_WORD = "before ›"

    class Found(Message):
        """What is held was looked up."""

        def __init__(self, key: str, found: LookedUp) -> None:
            """Carry what was found, with the question."""
            super().__init__()
            self.key, self.found = key, found

    def __init__(self, desk: Desk, held: Line) -> None:
        """Show what applies to this row of `Holds`."""
        super().__init__(desk)
        self._what = held
        self._looked: LookedUp | None = None
        self._remark = ""

    @property
    def heading(self) -> str:
        """Say what is held."""
        return f"you hold {self._what.words}"

    @property
    def build(self) -> Build | None:
        """The build faults are taken in for."""
        return self.desk.build or self.desk.glance.build

    def on_mount(self) -> None:
        """Look up in a thread what is held: files have to be read for that."""
        super().on_mount()
        self._look_up(self._what.key, self.desk.snapshot)

    @work(thread=True, exclusive=True, group="held")
    def _look_up(self, key: str, snapshot: Snapshot) -> None:
        project = self.desk.project
        try:
            found = looked_up(snapshot, project.root, key, project.repository)
            self.post_message(self.Found(key, found))
        except LogbookError as refusal:
            self.post_message(self.Found(key, LookedUp(unread=str(refusal))))

    @on(Found)
    def _found(self, message: Found) -> None:
        self._looked = message.found
        said, self._remark = self._remark, message.found.remark
        if self._remark != said:  # it is looked up anew at each save
            self.tell(self._remark, label="careful" if self._remark else "")
        self.show()

    def told(self, message: Message) -> None:
        """Follow what is saved and taken back."""
        match message:
            case news.Written(saved=saved) if begun_by(saved.records) is not None:
                self.tell(message.job.told, label="on disk")
            case news.Looked():
                self._look_up(self._what.key, self.desk.snapshot)
            case _:
                super().told(message)

    # -- what is shown -----------------------------------------------------------

    @property
    def faults(self) -> list[tuple[Erratum, list[Standing]]]:
        """The faults with how each held thing stands; most serious first.

        Those that surely apply come before those nobody knows of, then those
        cured in what is held.
        """
        found: dict[str, tuple[Erratum, list[Standing]]] = {}
        held = self._looked.held if self._looked else ()
        for one in standings(self.desk.snapshot, held):
            found.setdefault(one.fault.id, (one.fault, []))[1].append(one)
        return sorted(found.values(), key=lambda pair: _rank(pair[1]))

    @property
    def taken(self) -> set[str]:
        """The ids of the faults taken in for this build."""
        return taken_in(self.desk.snapshot, self.build)

    def lines(self) -> Sequence[Line]:
        """Give a row for each fault, then for each file that none tells of."""
        taken = self.taken
        faults = [
            Line(
                fault.id,
                "taken in" if fault.id in taken else _word(found),
                fault.title,
                "STOP" if _stops(fault, found) else _severity(fault),
                "$alarm bold" if _stops(fault, found) else "$mark",
            )
            for fault, found in self.faults
        ]
        return [*faults, *(self._looked.lines() if self._looked else ())]

    def known(self, key: str) -> Sequence[Say]:
        """Give what somebody who holds it has to know of a fault."""
        for fault, found in self.faults:
            if fault.id == key:
                return [*self._said(fault, found)]
        if self._looked is None:
            return [Say("", "looking …")]
        if said := self._looked.said(key):
            return [Say("", said), Say("", self._looked.ends)]
        held = self._looked.held
        parts = ", ".join(one.because for one in held) or "nothing known here"
        return [Say("looked at", parts), Say("", STANDING), Say("", self._looked.ends)]

    def _said(self, fault: Erratum, found: Sequence[Standing]) -> Iterator[Say]:
        if _stops(fault, found):
            yield Say(
                "",
                sentence(
                    "[$alarm bold reverse] STOP [/] [$alarm bold]do not use it "
                    "$until[/]",
                    until=not_until(self.desk.snapshot, fault),
                ),
            )
        for one in found:
            names = " or ".join(revision.title for revision in one.held.revisions)
            same = names == one.held.because
            yield Say(_word([one]), names if same else f"{one.held.because}: {names}")
        cured = _rank(found) == len(_STANDS) - 1
        do = CURED if cured else instruction(self.desk.snapshot, fault)
        for word, said in (
            ("do this", do or "no way round is on record yet"),
            ("how to tell", tell_now(self.desk.snapshot, fault)),
            ("you see", fault.symptom),
            ("it costs", fault.consequence),
            ("mind", "" if cured else fault.side_effects),
        ):
            if said:
                yield Say(word, said)
        yield Say("fixed", fixed_words(self.desk.snapshot, fault))
        yield Say("grave", f"{_severity(fault)}: {SEVERITIES[fault.severity]}")
        yield Say("known", STATUSES[fault.status])

    # -- what can be done --------------------------------------------------------

    @on(Input.Submitted, "#line")
    def _enter(self) -> None:
        self.action_tick()

    def action_tick(self) -> None:
        """Take the fault in for this build, or say that it was not."""
        chosen = next((f for f, _ in self.faults if f.id == self.chosen), None)
        if chosen is None:
            if self.chosen:
                self.tell("what is taken in is a known fault, and this row is none")
            return
        if self.build is None:
            self.tell("there is no build to take it in for; `logbook build` starts one")
            return
        job = tick_job(self.desk, chosen, self.build, off=chosen.id in self.taken)
        self.desk.write(job)

    def action_other(self) -> None:
        """Choose something else that is held."""

        def go(chosen: Line | None) -> None:
            if chosen is not None:
                self._what, self._looked = chosen, None
                self.show_band()
                self.show()
                self._look_up(chosen.key, self.desk.snapshot)

        self.app.push_screen(Holds(self.desk), go)


CURED = "nothing: what you hold is made without it"
"""What is said to do where the fault is cured in all that is held."""


def _rank(found: Sequence[Standing]) -> int:
    if any(one.applies for one in found):
        return 0
    return 1 if any(one.unsure for one in found) else 2


def _word(found: Sequence[Standing]) -> str:
    return _STANDS[_rank(found)]


_STANDS = ("applies", "not known", "cured")


def _severity(fault: Erratum) -> str:
    """Say how serious it is; where nobody said, that."""
    return _SEVERITY.get(fault.severity, fault.severity.value)


_SEVERITY = {Severity.UNKNOWN: "not said"}


def _stops(fault: Erratum, found: Sequence[Standing]) -> bool:
    """Tell whether a fault stops the use of what is held: not if it is cured in it."""
    return bool(fault.stop_using_until) and _rank(found) < len(_STANDS) - 1


# -- what was taken in -----------------------------------------------------------


def taken_in(snapshot: Snapshot, build: Build | None) -> set[str]:
    """Give the ids of the faults taken in for a build."""
    return {
        ref.id
        for entry in snapshot.all(TakenIn)
        if build is not None and entry.build and entry.build.id == build.id
        for ref in entry.errata
    }


def tick_job(desk: Desk, fault: Erratum, build: Build, *, off: bool) -> Job:
    """Make the work that logs a fault as taken in, or takes it off again."""
    now = desk.now()

    def make(project: Project) -> Draft:
        draft = Draft(project.snapshot, now, build)
        if not off:
            draft.add(
                TakenIn(
                    id=new_id(),
                    title=f"took in: {fault.title}",
                    when=draft.when,
                    build=build.ref,
                    errata=(fault.ref,),
                    release=build.release,
                )
            )
            return draft
        for entry in project.snapshot.all(TakenIn):
            rest = tuple(ref for ref in entry.errata if ref.id != fault.id)
            mine = entry.build is not None and entry.build.id == build.id
            if mine and rest != entry.errata:
                title = entry.title if rest else f"took back: {fault.title}"
                draft.amend(replace(entry, errata=rest, title=title))
        return draft

    said = "not taken in" if off else "taken in"
    return Job(f"{said} for {build.title}: {fault.title}", make)
