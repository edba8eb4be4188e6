"""The guide of a release: what to get, what to mind, what to do in which order.

It says what the release froze. Where a record has been changed since, the text
that was released stands instead of the record's newer facts.
"""

from __future__ import annotations

import posixpath
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import cached_property
from pathlib import Path

from logbook.advice.applies import faults_in, marks
from logbook.advice.drafted import known_faults
from logbook.publish.asbuilt import example, used
from logbook.publish.errata import KnownFault, told
from logbook.publish.frozen import tried_words
from logbook.publish.gaps import GapView, gap_view
from logbook.publish.notes import DEFERS
from logbook.publish.pages import render
from logbook.publish.signals import (
    SIGNALS,
    Caution,
    grouped,
    process_words,
    reminders,
    written,
)
from logbook.publish.statements import (
    fastener_text,
    layers_text,
    material_of,
    name_of,
    source_text,
    statements,
)
from logbook.records import model
from logbook.records.model import (
    Deviation,
    Failure,
    Part,
    Release,
    Revision,
    Statement,
    Step,
)
from logbook.records.snapshot import Snapshot
from logbook.records.state import (
    dimension,
    is_of,
    revisions_in,
    revisions_of,
    shown_label,
    verdict_of,
)
from logbook.records.statements import Form
from logbook.records.words import Source


@dataclass(frozen=True, slots=True)
class Mark:
    """A known fault at the place where the wrong statement is read."""

    number: int
    title: str
    do_this: str


@dataclass(frozen=True, slots=True)
class LineView:
    """A line of the parts list; `text` alone where the record changed since."""

    name: str
    marks: tuple[Mark, ...]
    text: str = ""
    revision: str = ""
    verdict: str = ""
    pieces: str = ""
    places: str = ""
    source: str = ""
    material: str = ""
    bought_as: str = ""
    matters: str = ""
    instead: str = ""
    used: str = ""


@dataclass(frozen=True, slots=True)
class PhotoView:
    """A photo with its path from the project's folder, and its caption."""

    path: str
    caption: str


@dataclass(frozen=True, slots=True)
class StepView:
    """A step; `text` alone where the record changed since."""

    number: int
    title: str
    marks: tuple[Mark, ...]
    cautions: tuple[Caution, ...] = ()
    text: str = ""
    needs: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    instead: tuple[str, ...] = ()
    closes: bool = False
    checks: tuple[tuple[str, str], ...] = ()
    fasteners: tuple[str, ...] = ()
    gaps: tuple[str, ...] = ()
    accept: str = ""
    time: str = ""
    prose: str = ""
    folder: str = ""
    photos: tuple[PhotoView, ...] = ()


@dataclass(frozen=True, slots=True)
class DimensionView:
    """A dimension as drawn, and what it became on one build."""

    part: str
    name: str
    drawn: str
    accept: str
    became: str
    matters: bool
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class JointView:
    """A joint with its fastener and layers."""

    name: str
    fastener: str
    quantity: str
    layers: str
    torque: str
    marks: tuple[Mark, ...]


@dataclass(frozen=True, slots=True)
class RevisionView:
    """A revision with its verdict for those who hold an earlier one."""

    part: str
    label: str
    changed: str
    remake: str
    mates: str
    verdict: str
    here: str


def write_guide(
    snapshot: Snapshot, release: Release, own_templates: Path | None = None
) -> str:
    """Write the guide of a release as Markdown."""
    return render("guide.md.j2", Guide(snapshot, release).facts(), own_templates)


class Guide:
    """A guide being put together from a release and the records behind it."""

    def __init__(self, snapshot: Snapshot, release: Release) -> None:
        """Work out which statements still stand as they were released."""
        self.snapshot = snapshot
        self.release = release
        self.revisions = revisions_in(snapshot, release)
        now = statements(snapshot, self.revisions, release.files)
        hashes = {one.id: one.sha256 for one in now}
        self.unchanged = {
            one.id for one in release.statements if hashes.get(one.id) == one.sha256
        }
        self.faults = faults_in(snapshot, release)
        self._marks = marks(snapshot, release)

    def facts(self) -> dict[str, object]:
        """Give what the template is filled with."""
        lines = tuple(self._lines())
        steps = tuple(self._steps())
        hazards = self.hazards
        return {
            "project": self.snapshot.project,
            "release": self.release,
            "tried": tried_words(self.snapshot, self.release),
            "revisions": tuple(one.title for one in self.revisions),
            "faults": tuple(told(self.snapshot, fault) for fault in self.faults),
            "corrected": tuple(self._corrected()),
            "hazards": grouped(hazards),
            "signals": _used_signals(hazards, steps),
            "tools": tuple(self._tools()),
            "lines": lines,
            "steps": steps,
            "dimensions": tuple(self._dimensions()),
            "gaps": tuple(self._gaps()),
            "joints": tuple(self._joints()),
            "history": tuple(self._history()),
            "photos": tuple(self._other_photos()),
            "files": tuple(self._files()),
            "defers": DEFERS,
            "out": f"as-built/published/{self.release.label}",
        }

    # -- which statements --------------------------------------------------------

    def _of(self, form: Form) -> tuple[Statement, ...]:
        return tuple(s for s in self.release.statements if s.form == form.value)

    def _live(self, statement: Statement) -> model.Record | None:
        """Give the record of a statement that still says what was released."""
        found = self.snapshot.find(statement.of)
        return found if statement.id in self.unchanged else None

    def _marked(self, *identities: str) -> tuple[Mark, ...]:
        numbers = {fault.id: at for at, fault in enumerate(self.faults, 1)}
        wrong = {f.id: f for one in identities for f in self._marks.get(one, ())}
        return tuple(
            Mark(numbers[fault.id], fault.title, fault.do_this)
            for fault in wrong.values()
        )

    def _revision(self, part: Part) -> Revision | None:
        return next((r for r in self.revisions if is_of(r.part, part)), None)

    # -- before the steps --------------------------------------------------------

    @cached_property
    def hazards(self) -> tuple[Caution, ...]:
        """Give the reminders the parts and steps of this release call for."""
        words = [self.snapshot.project.title, self.snapshot.project.intended_use]
        for revision in self.revisions:
            part = self.snapshot.find(revision.part, Part)
            if part is not None:
                words += [process_words(word, part.material) for word in part.process]
        words += [word for step in self.snapshot.all(Step) for word in step.process]
        return reminders(words)

    def _tools(self) -> Iterator[tuple[str, tuple[int, ...]]]:
        found: dict[str, list[int]] = {}
        for at, statement in enumerate(self._of(Form.STEP), 1):
            step = self._live(statement)
            if isinstance(step, Step):
                for tool in step.tools:
                    found.setdefault(tool, []).append(step.number or at)
        for tool, steps in found.items():
            yield tool, tuple(steps)

    def _lines(self) -> Iterator[LineView]:
        for statement in self._of(Form.LINE):
            found = self._live(statement)
            line = found if isinstance(found, model.Line) else None
            part = self.snapshot.find(line.part if line else statement.of, Part)
            wrong = self._marked(statement.id)
            if found is None or part is None:
                name = part.title if part else statement.of.name
                yield LineView(name, wrong, text=statement.says)
            else:
                yield self._line(part, line, wrong)

    def _files(self) -> Iterator[tuple[str, str, tuple[Mark, ...]]]:
        hashes = {file.path: file.sha256 for file in self.release.files}
        for statement in self._of(Form.FILE):
            path = next((p for p in hashes if f": {p}, " in statement.says), "")
            if path:
                yield path, hashes[path][:16], self._marked(statement.id)

    def _line(
        self, part: Part, line: model.Line | None, wrong: tuple[Mark, ...]
    ) -> LineView:
        revision = self._revision(part)
        spare = f" + {line.spare} spare" if line and line.spare else ""
        return LineView(
            name=part.title,
            marks=wrong,
            revision=shown_label(revision) if revision else "",
            verdict=self._tried(part, revision),
            pieces=f"{line.quantity}{spare}" if line else "not stated",
            places=", ".join(line.places) if line else "",
            source=source_text(part),
            material=material_of(part),
            bought_as=line.bought_as if line else "",
            matters=line.critical if line else "",
            instead=", ".join(line.substitutes) if line else "",
            used=used(self.snapshot, part),
        )

    def _tried(self, part: Part, revision: Revision | None) -> str:
        if revision is None or part.source is Source.BOUGHT:
            return ""
        return verdict_of(self.snapshot, revision)

    # -- the steps ---------------------------------------------------------------

    def _steps(self) -> Iterator[StepView]:
        for at, statement in enumerate(self._of(Form.STEP), 1):
            step = self._live(statement)
            cautions = tuple(
                written(line.says)
                for line in self._of(Form.CAUTION)
                if line.of.id == statement.of.id
            )
            wrong = self._marked(statement.id)
            if isinstance(step, Step):
                yield self._step(at, step, cautions, wrong)
            else:
                text = statement.says
                yield StepView(at, statement.of.name, wrong, cautions, text)

    def _step(
        self,
        at: int,
        step: Step,
        cautions: tuple[Caution, ...],
        wrong: tuple[Mark, ...],
    ) -> StepView:
        checks = (
            ("Inside", ", ".join(step.inside)),
            ("Tested", ", ".join(step.tested)),
            ("Clean", ", ".join(step.clean)),
        )
        return StepView(
            number=step.number or at,
            title=step.title,
            marks=wrong,
            cautions=(*cautions, *reminders(step.process)),
            needs=tuple(self._needs(step)),
            tools=step.tools,
            instead=step.substitutes,
            closes=step.closes,
            checks=tuple(check for check in checks if check[1]),
            fasteners=tuple(
                f"{joint.quantity} × {fastener_text(joint)} ({joint.title})"
                for joint in self.snapshot.all(model.Joint)
                if joint.step and self.snapshot.find(joint.step) is step
            ),
            gaps=tuple(
                gap.title
                for gap in self.snapshot.all(model.Fit)
                if gap.step and self.snapshot.find(gap.step) is step
            ),
            accept=step.accept,
            time=str(step.time) if step.time else "",
            prose=step.prose,
            folder=posixpath.dirname(self.snapshot.path(step)),
            photos=tuple(self._step_photos(step)),
        )

    def _needs(self, step: Step) -> Iterator[str]:
        """Say the parts a step takes; a number only where the step takes them all."""
        steps = self.snapshot.all(Step)
        for ref in step.uses:
            found = self.snapshot.find(ref)
            line = found if isinstance(found, model.Line) else self._only_line(found)
            name = name_of(self.snapshot, line.part if line else ref)
            takers = sum(ref in other.uses for other in steps)
            yield f"{line.quantity} × {name}" if line and takers == 1 else name

    def _only_line(self, part: model.Record | None) -> model.Line | None:
        if part is None:
            return None
        lines = [one for one in self.snapshot.all(model.Line) if is_of(one.part, part)]
        return lines[0] if len(lines) == 1 else None

    # -- sizes, gaps, joints -----------------------------------------------------

    def _dimensions(self) -> Iterator[DimensionView]:
        for statement in self._of(Form.DIMENSION):
            item = self.snapshot.find(statement.of, model.Characteristic)
            part = self.snapshot.find(item.part, Part) if item else None
            wrong = self._marked(statement.id)
            if item is None or part is None or statement.id not in self.unchanged:
                name, _, text = statement.says.partition(": ")
                yield DimensionView("", name, text, "", "", False, wrong)
                continue
            revision = self._revision(part)
            drawn = dimension(self.snapshot, revision, item)
            yield DimensionView(
                part=part.title,
                name=item.title,
                drawn=str(drawn.nominal) if drawn.nominal else "no size drawn",
                accept=_accept(drawn.lower, drawn.upper),
                became=example(self.snapshot, part, item, revision),
                matters=item.critical,
                marks=wrong,
            )

    def _gaps(self) -> Iterator[tuple[GapView, tuple[Mark, ...]]]:
        for statement in self._of(Form.GAP):
            gap = self._live(statement)
            view = (
                gap_view(self.snapshot, gap)
                if isinstance(gap, model.Fit)
                else GapView(statement.of.name, (statement.says,), "")
            )
            yield view, self._marked(statement.id)

    def _joints(self) -> Iterator[JointView]:
        for statement in self._of(Form.JOINT):
            joint = self._live(statement)
            wrong = self._marked(statement.id)
            if isinstance(joint, model.Joint):
                yield JointView(
                    joint.title,
                    fastener_text(joint),
                    str(joint.quantity),
                    layers_text(self.snapshot, joint),
                    str(joint.torque) if joint.torque else "",
                    wrong,
                )
            else:
                name, _, text = statement.says.partition(": ")
                yield JointView(name, text, "", "", "", wrong)

    # -- revisions, faults, photos -----------------------------------------------

    def _corrected(self) -> Iterator[KnownFault]:
        held = {revision.id for revision in self.revisions}
        for fault in known_faults(self.snapshot):
            if fault.fixed_by and fault.fixed_by.id in held:
                yield told(self.snapshot, fault)

    def _history(self) -> Iterator[RevisionView]:
        for revision in self.revisions:
            part = self.snapshot.find(revision.part, Part)
            line = revisions_of(self.snapshot, part) if part else ()
            if part is None or len(line) < 2:
                continue
            for one in reversed(line):
                newer = line.index(one) > line.index(revision)
                here = "this release" if one is revision else ""
                words = "newer than this release" if newer else here
                yield self._revision_view(part, one, words)

    def _revision_view(self, part: Part, one: Revision, here: str) -> RevisionView:
        why = f" (because {one.why})" if one.changed and one.why else one.why
        return RevisionView(
            part=part.title,
            label=shown_label(one),
            changed=f"{one.changed}{why}",
            remake=one.remake,
            mates=", ".join(one.mates_with),
            verdict=verdict_of(self.snapshot, one),
            here=here,
        )

    def _step_photos(self, step: Step) -> Iterator[PhotoView]:
        for entry in self._photographed():
            ref = getattr(entry, "step", None)
            if ref and self.snapshot.find(ref) is step:
                yield from self._photos(entry)

    def _other_photos(self) -> Iterator[PhotoView]:
        for entry in self._photographed():
            if self.snapshot.find(getattr(entry, "step", None)) is None:
                yield from self._photos(entry)

    def _photographed(self) -> Iterable[model.Entry]:
        """Give the entries with photos; of faults only those this release has."""
        shown = {ref.id for fault in self.faults for ref in fault.from_entries}
        return (
            entry
            for entry in self.snapshot.entries
            if entry.photos
            and (entry.id in shown or not isinstance(entry, Deviation | Failure))
        )

    def _photos(self, entry: model.Entry) -> Iterator[PhotoView]:
        held = {revision.id for revision in self.revisions}
        for photo in entry.photos:
            shows = self.snapshot.find(photo.shows, Revision)
            caption = photo.caption or entry.title
            if shows is not None:
                stale = "" if shows.id in held else ", not the one of this release"
                caption = f"{caption} (shows {shows.title}{stale})"
            yield PhotoView(photo.path, caption)


def _accept(lower: object, upper: object) -> str:
    if lower is None and upper is None:
        return "no limits drawn"
    if lower is None:
        return f"{upper} or less"
    return f"{lower} or more" if upper is None else f"{lower} to {upper}"


def _used_signals(
    hazards: Iterable[Caution], steps: Iterable[StepView]
) -> tuple[tuple[str, str], ...]:
    said = {caution.signal for caution in hazards}
    said |= {caution.signal for step in steps for caution in step.cautions}
    return tuple((word, means) for word, means in SIGNALS.items() if word in said)
