"""What a release says, statement by statement, each with an id and a text hash."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.publish.release.readback import CLOSES, STEP_LISTS
from logbook.publish.signals import written
from logbook.records.kinds import assembling, design
from logbook.records.kinds.design import Revision
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.made_public import Statement
from logbook.records.kinds.record import Record
from logbook.records.making.settling import without_other_side
from logbook.records.sizes.definition import definition, drawn_text
from logbook.records.states.statements import Form, one_line, statement_id, text_hash
from logbook.records.together.revisions import is_withdrawn, line_to, shown_label
from logbook.records.together.snapshot import Snapshot


def statements(
    snapshot: Snapshot,
    revisions: Iterable[Revision],
    files: Iterable[design.DesignFile],
) -> tuple[Statement, ...]:
    """Give everything a release of these revisions and files says."""
    chosen = tuple(revisions)
    hashes = {file.path: file.sha256 for file in files}
    return (
        *_lines(snapshot, chosen),
        *_steps(snapshot),
        *_dimensions(snapshot, chosen),
        *(
            _statement(Form.GAP, gap, gap_text(snapshot, gap))
            for gap in snapshot.all(assembling.Fit)
        ),
        *(
            _statement(Form.JOINT, joint, joint_text(snapshot, joint))
            for joint in snapshot.all(assembling.Joint)
        ),
        *_files(chosen, hashes),
    )


def _statement(form: Form, record: Record, text: str, more: str = "") -> Statement:
    says = one_line(text)
    return Statement(
        id=statement_id(form, record.ref, more),
        of=record.ref,
        says=says,
        sha256=text_hash(says),
        form=form.value,
    )


# -- the texts -------------------------------------------------------------------


def _lines(snapshot: Snapshot, chosen: tuple[Revision, ...]) -> Iterator[Statement]:
    for revision in chosen:
        part = snapshot.find(revision.part, design.Part)
        if part is None:
            continue
        lines = [
            line
            for line in snapshot.all(assembling.Line)
            if snapshot.find(line.part, design.Part) is part
        ]
        for line in lines:
            text = line_text(snapshot, revision, part, line)
            yield _statement(Form.LINE, line, text)
        if not lines:
            text = line_text(snapshot, revision, part, None)
            yield _statement(Form.LINE, part, text)


def line_text(
    snapshot: Snapshot,
    revision: Revision,
    part: design.Part,
    line: assembling.Line | None,
) -> str:
    """Say a line of the parts list."""
    said = [f"{part.title} {shown_label(revision)}"]
    said.append(f"{line.quantity} pieces" if line else "number not stated")
    if line and line.amount:
        said.append(f"each {line.amount}")
    if line and line.spare:
        said.append(f"{line.spare} spare")
    if line and line.assembly:
        said.append(f"in {name_of(snapshot, line.assembly)}")
    if line and line.places:
        said.append(f"at {', '.join(line.places)}")
    said.append(part.source.value)
    if material := stuff(snapshot, part, revision):
        said.append(material)
    if line and line.bought_as:
        said.append(f"bought as {line.bought_as}")
    if line and line.critical:
        said.append(f"matters: {line.critical}")
    if line and line.substitutes:
        said.append(f"instead: {', '.join(line.substitutes)}")
    return "; ".join(said)


def stuff(snapshot: Snapshot, part: design.Part, revision: Revision | None) -> str:
    """Say what a revision of a part is made of, its thickness included.

    A revision that names no material is made of what the one before it is.
    """
    upto = line_to(snapshot, revision) if revision else ()
    named = [one.material for one in upto if one.material]
    thick = f"{part.thickness} thick" if part.thickness else ""
    return ", ".join(filter(None, (named[-1] if named else part.material, thick)))


def _steps(snapshot: Snapshot) -> Iterator[Statement]:
    for step in steps_in_order(snapshot):
        for line in step.cautions:
            yield _statement(Form.CAUTION, step, written(line).says, line)
        yield _statement(Form.STEP, step, step_text(snapshot, step))


def steps_in_order(snapshot: Snapshot) -> tuple[assembling.Step, ...]:
    """Give the steps that are still done, in the order they are done in."""
    steps = [s for s in snapshot.all(assembling.Step) if not is_withdrawn(snapshot, s)]
    return tuple(sorted(steps, key=lambda s: (s.number or 10**6, s.when, s.id)))


def step_text(snapshot: Snapshot, step: assembling.Step) -> str:
    """Say a step: what is done, with what, what is checked before and after."""
    said = [step.title]
    lists = (
        tuple(name_of(snapshot, ref) for ref in step.uses),
        tuple(name_of(snapshot, ref) for ref in step.after),
        step.tools,
        step.substitutes,
        step.inside,
        step.tested,
        step.clean,
        step.set_to,
    )
    for words, items in zip(STEP_LISTS, lists, strict=True):
        if items:
            said.append(f"{words}: {', '.join(items)}")
    if step.closes:
        said.append(CLOSES)
    if step.accept:
        said.append(f"accept: {step.accept}")
    return one_line("; ".join([*said, without_other_side(step.prose)]).rstrip("; "))


def name_of(snapshot: Snapshot, ref: Ref) -> str:
    """Give the present name of what a reference means."""
    found = snapshot.find(ref)
    return found.title if found else ref.name


def _dimensions(
    snapshot: Snapshot, chosen: tuple[Revision, ...]
) -> Iterator[Statement]:
    for revision in chosen:
        for drawn in definition(snapshot, revision):
            text = f"{name_of(snapshot, revision.part)} {drawn.name}: "
            yield _statement(
                Form.DIMENSION, drawn.characteristic, text + drawn_text(drawn)
            )


def gap_text(snapshot: Snapshot, gap: assembling.Fit) -> str:
    """Say a gap: its formula, its limits and what is made last."""
    said = f"{gap.title}: {gap.formula}, {limits_text(gap)}"
    last = snapshot.find(gap.made_last)
    return f"{said}; made last: {last.title}" if last else said


def limits_text(gap: assembling.Fit) -> str:
    """Say the limits of a gap."""
    if gap.lower_limit and gap.upper_limit:
        return f"{gap.lower_limit} to {gap.upper_limit}"
    if gap.lower_limit:
        return f"{gap.lower_limit} or more"
    return f"{gap.upper_limit} or less" if gap.upper_limit else "no limits stated"


def joint_text(snapshot: Snapshot, joint: assembling.Joint) -> str:
    """Say a joint: the fastener, how many, the layers from head to nut."""
    said = [f"{joint.title}: {joint.quantity} × {fastener_text(joint)}"]
    if joint.layers:
        said.append(f"through {layers_text(snapshot, joint)}")
    if joint.tap_drill:
        said.append(f"tap drill {joint.tap_drill}")
    if torque := torque_text(joint):
        said.append(f"tightened to {torque}")
    return "; ".join(said)


def torque_text(joint: assembling.Joint) -> str:
    """Say how a joint is tightened: torque, preload, tool, what came of it."""
    said = [str(joint.torque)] if joint.torque else []
    said += [f"preload {joint.preload}"] if joint.preload else []
    said += [f"with {joint.torque_with}"] if joint.torque_with else []
    said += [joint.torque_result] if joint.torque_result else []
    return ", ".join(said)


def fastener_text(joint: assembling.Joint) -> str:
    """Say the fastener of a joint with its head, and its nut or its thread."""
    head = f"{joint.head} head" if joint.head else ""
    nut = f"{joint.nut} nut" if joint.nut else ""
    thread = f"thread {joint.thread_depth} deep" if joint.thread_depth else ""
    return ", ".join(filter(None, (joint.fastener, head, nut, thread)))


def layers_text(snapshot: Snapshot, joint: assembling.Joint) -> str:
    """Say the layers of a joint from the head to the nut."""
    return ", ".join(
        f"{name_of(snapshot, layer.part)} {layer.thickness or ''}".strip()
        for layer in joint.layers
    )


def _files(chosen: tuple[Revision, ...], hashes: dict[str, str]) -> Iterator[Statement]:
    for revision in chosen:
        for file in revision.files:
            sha256 = hashes.get(file.path, file.sha256)
            text = f"{revision.title}: {file.path}, SHA-256 {sha256}"
            yield _statement(Form.FILE, revision, text, file.path)
