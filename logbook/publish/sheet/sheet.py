"""The job sheet: what is to be done today, on paper, with boxes to write in.

Operations stand in their order, each with its cautions before it, what waits and
why, boxes for readings at named places, what to look at before it closes, and
room for a word. Boxes carry a running number by which they are typed in later.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime
from pathlib import Path

from logbook.advice.advisor import advise
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.material import material_of
from logbook.advice.pieces.again import once_more
from logbook.advice.steps.ticks import ticks_of
from logbook.publish.pages import render_page
from logbook.publish.release.statements import steps_in_order
from logbook.publish.sheet.boxes import Box, Sort, in_page
from logbook.publish.sheet.limits_printed import line_of
from logbook.publish.sheet.operations import (
    JobSheet,
    Operation,
    Waiting,
    Wanted,
    numbered,
)
from logbook.publish.sheet.sheet_faults import (
    by_release,
    faults_told,
    made_to_told,
)
from logbook.publish.sheet.sheet_readings import Readings, is_here
from logbook.publish.signals import Caution, in_order, of_step, written
from logbook.publish.whole_page import PAPERS
from logbook.records.kinds.assembling import Fit, Hold, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.happenings import Override
from logbook.records.kinds.words import Grade
from logbook.records.states.doing import is_done
from logbook.records.states.pieces import (
    current_build,
)
from logbook.records.together.references import is_of
from logbook.records.together.revisions import parts_now
from logbook.records.together.snapshot import Snapshot

_OVER = {Grade.WAIT: "over", Grade.CHECK: "it is so"}
"""What is ticked of a hold that was declared by hand; what lifts it follows."""


def job_sheet(snapshot: Snapshot, wanted: Wanted, printed: datetime) -> JobSheet:
    """Put the sheet together from the records as they are."""
    maker = _Maker(snapshot, wanted)
    build = maker.build
    return JobSheet(
        project=line_of(snapshot.project.title),
        build=line_of(build.title) if build else "no build yet",
        build_id=build.id if build else "",
        printed=printed,
        by=by_release(snapshot, build),
        operations=numbered(tuple(maker.operations())),
        finished=tuple(line_of(name) for name in maker.finished()),
    )


def write_html(sheet: JobSheet, paper: str, own_templates: Path | None = None) -> str:
    """Give the sheet as one HTML page for printing on this paper."""
    facts = {"sheet": sheet, "paper": paper, "size": PAPERS[paper]}
    facts["carried"] = in_page(sheet.boxes, sheet.build_id)
    return render_page("sheet.html.j2", facts, own_templates)


class _Maker:
    """Collects the operations of a sheet; each reading is asked for once."""

    def __init__(self, snapshot: Snapshot, wanted: Wanted) -> None:
        self._snapshot, self._wanted = snapshot, wanted
        self.build = wanted.build or current_build(snapshot)
        told = advise(snapshot, self.build)
        self._advice = [one for one in told.advice if one.open]
        self._told: set[str] = set()
        self._readings = Readings(snapshot, wanted, self.build, told.advice)

    def operations(self) -> Iterator[Operation]:
        """Give the operations in order, then readings that belong to none."""
        every = [s for s in steps_in_order(self._snapshot) if s.number > 0]
        # A part is measured where it is first made, else where it is first taken.
        owners = {p.id: s for s in reversed(every) for p in self._used(s)}
        owners |= {p.id: s for s in reversed(every) for p in self._made(s)}
        for step in every:
            if self._asked_for(step) and self._open(step):
                mine = [p for p in self._touched(step) if owners[p.id] is step]
                yield self._operation(step, mine)
        if not self._wanted.steps:
            yield from self._rest(owners)

    def finished(self) -> Iterator[str]:
        """Name the operations asked for that are done and so not on the sheet."""
        for step in steps_in_order(self._snapshot):
            if step.number > 0 and self._asked_for(step) and not self._open(step):
                yield f"{step.number} {step.title}"

    # -- which ones --------------------------------------------------------------

    def _made(self, step: Step) -> list[Part]:
        part = self._snapshot.find(step.makes, Part)
        return [part] if part else []

    def _used(self, step: Step) -> list[Part]:
        found = (self._snapshot.find(ref, Part) for ref in step.uses)
        return [part for part in found if part]

    def _touched(self, step: Step) -> list[Part]:
        return list({p.id: p for p in (*self._made(step), *self._used(step))}.values())

    def _asked_for(self, step: Step) -> bool:
        wanted = self._wanted
        if wanted.steps and step.id not in wanted.steps:
            return False
        parts = {part.id for part in self._touched(step)}
        return not wanted.parts or bool(parts & set(wanted.parts))

    def _open(self, step: Step) -> bool:
        if self._wanted.everything or step.id in self._wanted.steps:
            return True
        done = is_done(self._snapshot, step, self.build)
        return not done or bool(once_more(self._advice, step))

    # -- one operation -----------------------------------------------------------

    def _operation(self, step: Step, parts: Sequence[Part]) -> Operation:
        said = [written(line) for line in step.cautions]
        handled = self._made(step) or self._used(step)
        known = (material_of(self._snapshot, part) for part in handled)
        stuff = "; ".join(filter(None, known))
        sign = step.id
        return Operation(
            number=step.number,
            title=line_of(step.title),
            step=sign,
            cautions=tuple(
                _seen(one) for one in in_order((*said, *of_step(step, stuff)))
            ),
            facts=tuple(self._facts(step, parts)),
            waits=tuple(self._waits(step)),
            went_on=tuple(self._went_on(step)),
            readings=tuple(
                box for part in parts for box in self._readings.of(part, sign)
            ),
            trapped=self._trapped(step),
            checks=tuple(self._checks(step)),
            done=Box(0, Sort.DONE, "done", sign, sign),
            time=Box(0, Sort.TIME, "minutes", sign, sign, unit="min"),
            note=Box(0, Sort.NOTE, "what happened", sign, sign),
        )

    def _facts(self, step: Step, parts: Sequence[Part]) -> Iterator[tuple[str, str]]:
        made = [part.title for part in self._made(step)]
        used = [part.title for part in self._used(step)]
        before = [ref.name for ref in step.after]
        rules = [*self._readings.rules(parts)]
        yield from faults_told(self._snapshot, self.build, step)
        made_to = [*made_to_told(self._snapshot, self.build, self._touched(step))]
        for word, names in (
            ("makes", made),
            ("takes", used),
            ("to revision", made_to),
            ("after", before),
            ("tools", step.tools),
            ("or", step.substitutes),
            ("set to", step.set_to),
            ("right when", (step.accept,) if step.accept else ()),
            ("takes about", (str(step.time),) if step.time else ()),
            ("to suit", rules),
        ):
            if names:
                yield word, line_of(", ".join(names))

    def _waits(self, step: Step) -> Iterator[Waiting]:
        for one in self._advice:
            if one.key in self._told or not self._concerns(one, step):
                continue
            closes = one.key == f"close {step.id}"
            if closes and one.grade is not Grade.WAIT:
                continue  # what it only asks for has boxes of its own
            self._told.add(one.key)
            # Behind what is not done yet stands what those boxes ask.
            words = one.statement.rpartition("; ")[0] if closes else one.statement
            yield _waiting(self._snapshot, one, step.id, words)

    def _concerns(self, advice: Advice, step: Step) -> bool:
        if advice.step is not None:
            return is_of(advice.step, step)
        fit = self._snapshot.find(advice.about, Fit)
        last = self._snapshot.find(fit.made_last, Characteristic) if fit else None
        part = self._snapshot.find(last.part, Part) if last else None
        return part is not None and part in self._made(step)

    def _went_on(self, step: Step) -> Iterator[str]:
        for entry in self._snapshot.all(Override):
            told = entry.published or self._wanted.overrides
            if told and entry.step and is_of(entry.step, step):
                why = entry.because or entry.reason.value
                if is_here(self.build, entry.build):
                    yield line_of(f"{entry.hold}: went on, {why}")

    def _trapped(self, step: Step) -> str:
        """Give what the advice says wears out and would be trapped."""
        for one in self._advice:
            if one.key == f"close {step.id}":
                last = one.statement.rpartition(" · ")[2]
                return line_of(last) if "trapped" in last else ""
        return ""

    def _checks(self, step: Step) -> Iterator[Box]:
        for tick in ticks_of(step):
            label = line_of(tick.shown)
            yield Box(
                0, Sort.CHECK, label, step.id, step.id, word=tick.sort, place=tick.name
            )

    def _rest(self, owners: dict[str, Step]) -> Iterator[Operation]:
        """Give the readings of parts no operation makes or takes."""
        found: list[Box] = []
        for part in parts_now(self._snapshot):
            if part.id not in owners and part.id not in self._readings.asked_for:
                found += self._readings.of(part, "")
        left = [] if self._wanted.parts else self._other_waits()
        if found or left:
            yield Operation(
                0, "Belongs to no step", waits=tuple(left), readings=tuple(found)
            )

    def _other_waits(self) -> list[Waiting]:
        known = {step.id for step in self._snapshot.all(Step) if step.number > 0}
        return [
            _waiting(self._snapshot, one, "")
            for one in self._advice
            if one.key not in self._told
            and (one.step is None or one.step.id not in known)
        ]


def _waiting(snapshot: Snapshot, advice: Advice, step: str, words: str = "") -> Waiting:
    box = Box(0, Sort.PASSED, "went on because", advice.about.id, step)
    box = replace(box, word=advice.about.name)
    hold, over = snapshot.find(advice.about, Hold), None
    if hold is not None and advice.grade is not Grade.REMARK:
        label = line_of(": ".join(filter(None, (_OVER[advice.grade], hold.until))))
        over = replace(box, sort=Sort.OVER, label=label)
    return Waiting(advice.grade.value, line_of(words or advice.statement), box, over)


def _seen(caution: Caution) -> Caution:
    return replace(caution, line=line_of(caution.line), defers=line_of(caution.defers))
