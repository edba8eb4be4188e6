"""The steps of a release: cautions first, then what each takes, does and checks."""

from __future__ import annotations

import posixpath
from collections.abc import Iterator
from dataclasses import dataclass

from logbook.advice.steps.step_words import process_of
from logbook.publish.called_for import names_material
from logbook.publish.faults.withdrawn import withdrawn_parts
from logbook.publish.guide.parts_list import Listed
from logbook.publish.guide.pictures import PhotoView, photographed, photos
from logbook.publish.guide.set_values import set_at
from logbook.publish.guide.step_joints import (
    StepJoint,
    fastened,
    joined,
    laid_in,
    step_joints,
)
from logbook.publish.guide.tools_used import ToolView, tools_used
from logbook.publish.html import anchor
from logbook.publish.pages import capital
from logbook.publish.release.readback import read_step
from logbook.publish.release.released import Mark, Released
from logbook.publish.release.released_order import closes_too_soon
from logbook.publish.release.statements import stuff
from logbook.publish.signals import Box, Caution, Spoken, of_step, reminders, written
from logbook.records.kinds import assembling, design, workshop
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import StepDone
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.words import Grade
from logbook.records.making.settling import without_other_side
from logbook.records.states.held_for import holds_for_all, until_words
from logbook.records.states.statements import Form


@dataclass(frozen=True, slots=True)
class StepView:
    """A step as its doer needs it."""

    number: int
    title: str
    marks: tuple[Mark, ...]
    withdrawn: tuple[str, ...]
    order: tuple[str, ...]
    boxes: tuple[Box, ...]
    needs: tuple[str, ...]
    fasteners: tuple[str, ...]
    tools: tuple[str, ...]
    instead: tuple[str, ...]
    set_to: tuple[str, ...]
    was_set: tuple[str, ...]
    gaps: tuple[str, ...]
    waits: tuple[tuple[str, str], ...]
    closes: bool
    for_good: bool
    checks: tuple[tuple[str, str], ...]
    accept: str
    time: str
    prose: str
    folder: str
    photos: tuple[PhotoView, ...]


class Steps:
    """The steps of a release, in the order they were released in."""

    def __init__(
        self, released: Released, lines: tuple[Listed, ...], spoken: Spoken
    ) -> None:
        """Take the release, its list, and what the page has said so far."""
        self.released = released
        self.spoken = spoken
        self.snapshot = released.snapshot
        self.lines = {line.name: line for line in lines}
        self.joints = step_joints(released)
        self.titles = [one.of.name for one in released.of(Form.STEP)]
        self.said = {
            one.id: read_step(one.says, one.of.name) for one in released.of(Form.STEP)
        }

    def views(self) -> Iterator[StepView]:
        """Give the steps, numbered without a gap."""
        for at, statement in enumerate(self.released.of(Form.STEP), 1):
            yield self._view(at, statement)

    def tools(self) -> tuple[ToolView, ...]:
        """Give every tool with what it is used for, and what can stand in."""
        return tools_used(self.released, dict(enumerate(self.said.values(), 1)))

    def unused(self) -> tuple[str, ...]:
        """Give the parts of the list that no step makes, takes or joins."""
        named = {name for said in self.said.values() for name in said.of("uses")}
        for statement in self.released.of(Form.STEP):
            step = self.snapshot.find(statement.of, Step)
            made = self.snapshot.find(step.makes) if step else None
            named |= {made.title} if made else set()
        named |= {*joined(self.joints, self.lines)}
        listed = (line for line in self.lines.values() if not line.dropped)
        return tuple(line.name for line in listed if line.name not in named)

    def _view(self, at: int, statement: Statement) -> StepView:
        said, step = self.said[statement.id], self.released.live(statement)
        title = statement.of.name
        place = f"step {at}"
        heading = anchor(f"{at}. {capital(title)}")
        boxes = self.spoken.before(self._cautions(statement), heading, place)
        checks = (
            ("Inside", ", ".join(said.of("inside first"))),
            ("Tested", ", ".join(said.of("tested first"))),
            ("Clean", ", ".join(said.of("clean first"))),
        )
        live = step if isinstance(step, Step) else None
        return StepView(
            number=at,
            title=title,
            marks=self.released.marked(statement.id),
            withdrawn=tuple(self._withdrawn(statement)),
            order=tuple(self._order(at)),
            boxes=boxes,
            needs=tuple(self._needs(statement)),
            fasteners=tuple(fastened(one.said) for one in self._joints(statement)),
            tools=said.of("tools"),
            instead=said.of("instead"),
            set_to=said.of("set to"),
            was_set=tuple(self._was_set(statement)),
            gaps=tuple(self._gaps(statement)),
            waits=tuple(self._waits(statement)),
            closes=said.closes,
            for_good=said.closes and self._for_good(statement),
            checks=tuple(check for check in checks if check[1]),
            accept=said.accept,
            time=self._time(statement),
            prose=without_other_side(live.prose) if live else said.prose,
            folder=posixpath.dirname(self.snapshot.path(live)) if live else "",
            photos=tuple(self._photos(statement)),
        )

    def _withdrawn(self, statement: Statement) -> Iterator[str]:
        """Say of what a step makes or takes that its revision is not to be made."""
        drawn = withdrawn_parts(self.snapshot, self.released.revisions)
        step = self.snapshot.find(statement.of, Step)
        made = self.snapshot.find(step.makes) if step else None
        named = {*self.said[statement.id].of("uses"), made.title if made else ""}
        for part, said in drawn.items():
            if part in named:
                yield f"{part}: {said}"

    def _order(self, at: int) -> Iterator[str]:
        """Say where this step belongs, if it cannot be done where it is numbered."""
        for one in closes_too_soon(self.snapshot, self.released.release):
            if one.step == at:
                yield one.at_closing
            elif one.first == at:
                yield one.at_first

    def _cautions(self, statement: Statement) -> Iterator[Caution]:
        """Give the released cautions, and those its processes and materials call for.

        The processes are the record's as it is now: a caution more does no harm.
        """
        for line in self.released.of(Form.CAUTION):
            if line.of.id == statement.of.id:
                yield written(line.says)
        step = self.snapshot.find(statement.of, Step)
        if step is None:
            return
        made = self.snapshot.find(step.makes, Part)
        handled = [self.snapshot.find(ref) for ref in step.uses] if not made else [made]
        parts = [
            found if isinstance(found, Part) else self.snapshot.find(found.part, Part)
            for found in handled
            if isinstance(found, Part | assembling.Line)
        ]
        known = [self._stuff(part) for part in parts if part is not None]
        handled_stuff = "; ".join(filter(None, known))
        yield from of_step(step, handled_stuff)
        yield from reminders(made.process if made else (), handled_stuff)

    def _for_good(self, statement: Statement) -> bool:
        """Tell whether what closes is glued, riveted or the like; screws come out."""
        step = self.snapshot.find(statement.of, Step)
        words = (statement.of.name, *(step.process if step else ()))
        by = (one.said.fastener for one in self._joints(statement))
        return any(process_of(one) for one in (*words, *by))

    def _stuff(self, part: Part) -> str:
        """Give what a part is and is made of, in one line."""
        made_of = stuff(self.snapshot, part, self.released.revision(part))
        return f"{part.title} {made_of}" if names_material(made_of) else ""

    def _needs(self, statement: Statement) -> Iterator[str]:
        """Say the parts a step takes; a number only where this step takes them all.

        What is bought and lies in its joints is counted from these.
        """
        uses = self.said[statement.id].of("uses")
        every = [name for one in self.said.values() for name in one.of("uses")]
        for name in uses:
            line = self.lines.get(name)
            if line is not None and line.dropped:
                yield f"{name} (the list of this release has none)"
                continue
            count = line.said.quantity if line else None
            yield f"{count} × {name}" if count and every.count(name) == 1 else name
        for name, count in laid_in(self._joints(statement), self.lines):
            if name not in uses:
                yield f"{count} × {name}"

    def _joints(self, statement: Statement) -> tuple[StepJoint, ...]:
        return tuple(one for one in self.joints if one.step == statement.of.id)

    def _was_set(self, statement: Statement) -> Iterator[str]:
        step = self.snapshot.find(statement.of, Step)
        if step is not None:
            yield from set_at(self.snapshot, step, self.released.revisions)

    def _gaps(self, statement: Statement) -> Iterator[str]:
        """Give the gaps that are measured in a step: it is named, or makes the part."""
        step = self.snapshot.find(statement.of, Step)
        for one in self.released.of(Form.GAP):
            gap = self.snapshot.find(one.of, assembling.Fit)
            if gap is None or step is None:
                continue
            last = self.snapshot.find(gap.made_last, design.Characteristic)
            made = self.snapshot.find(last.part) if last else None
            named = self.snapshot.find(gap.step) if gap.step else None
            makes = self.snapshot.find(step.makes)
            if named is step or (named is None and made and makes is made):
                yield gap.title

    def _waits(self, statement: Statement) -> Iterator[tuple[str, str]]:
        """Say until when a step waits, and why, as declared, where others wait too."""
        step = self.snapshot.find(statement.of, Step)
        for hold in self.snapshot.mentions(step, Hold) if step else ():
            if not holds_for_all(hold):
                continue
            if self.snapshot.find(hold.step) is step and hold.grade is not Grade.REMARK:
                yield until_words(hold), hold.because or hold.title

    def _time(self, statement: Statement) -> str:
        """Say the time a step is meant to take, and what it took on one build."""
        step = self.released.live(statement)
        said = [str(step.time)] if isinstance(step, Step) and step.time else []
        took = [
            done
            for done in self.snapshot.all(StepDone)
            if done.time
            and not done.undone
            and done.step
            and getattr(self.snapshot.find(done.step), "id", "") == statement.of.id
        ]
        if took:
            build = self.snapshot.find(took[-1].build, workshop.Build)
            where = f" in {build.title}" if build else ""
            said.append(f"it took {took[-1].time}{where}")
        return "; ".join(said)

    def _photos(self, statement: Statement) -> Iterator[PhotoView]:
        for entry in photographed(self.released):
            ref = getattr(entry, "step", None)
            step = self.snapshot.find(ref) if ref else None
            if step and step.id == statement.of.id:
                yield from photos(self.released, entry)
