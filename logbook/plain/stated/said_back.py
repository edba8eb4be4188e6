"""What a stated step, hold, gap or joint will be on record, said before it is."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from logbook.counting import so_many
from logbook.quantity import Quantity
from logbook.records.kinds.assembling import Fit, Hold, Joint, Layer, Step
from logbook.records.kinds.design import Characteristic, Part
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.shown import what_changed


def said_back(draft: Draft, record: Record) -> tuple[str, ...]:
    """Give what a drafted record says, fact by fact, then what is made for it."""
    said: list[str] = []
    match record:
        case Step():
            said += _of_step(record)
        case Hold():
            said += _of_hold(draft, record)
        case Fit():
            said += _of_gap(record)
        case Joint():
            said += _of_joint(record)
    said += (f"new part “{part.title}”" for part in draft.made(Part))
    said += (
        f"new size {size.title} of {size.part.name}"
        for size in draft.made(Characteristic)
    )
    said += _moved_on(draft, record)
    if record.id in draft.snapshot:
        changed = what_changed(draft.snapshot.lookup(record.id), record)
        told = ", ".join(one.words for one in changed)
        said.append(f"of the one on record changes {told}" if told else "as it was")
    return tuple(said)


def _moved_on(draft: Draft, record: Record) -> Iterator[str]:
    """Say which steps make room for one that is put in before them."""
    moved = [one for one in draft.amended if isinstance(one, Step)]
    moved = [one for one in moved if one.id != record.id]
    if len(moved) == 1:
        yield f"“{moved[0].title}” becomes step {moved[0].number}"
    elif moved:
        yield f"the {so_many(moved, 'step')} from “{moved[0].title}” on move on by one"


def _of_step(step: Step) -> Iterator[str]:
    yield f"step {step.number}: {step.title}"
    if step.closes:
        yield "closes"
    if step.makes:
        yield f"makes {step.makes.name}"
    yield from _listed("uses", _names(step.uses))
    yield from _listed("after", _names(step.after))
    yield from _listed("must be inside:", step.inside)
    yield from _listed("must work:", step.tested)
    yield from _listed("must be clean:", step.clean)
    yield from _listed("with", step.tools)
    yield from _listed("or instead", step.substitutes)
    yield from _listed("by", step.process)
    yield from _listed("set to", step.set_to)
    yield from _listed("right when", filter(None, (step.accept,)))
    if step.time:
        yield f"takes {step.time}"


def _of_hold(draft: Draft, hold: Hold) -> Iterator[str]:
    step = draft.snapshot.find(hold.step, Step)
    place = f"step {step.number}, " if step else ""
    yield f"{hold.grade.value} before {place}{hold.step.name}"
    yield f"because {hold.because}"
    yield from _listed("until", filter(None, (hold.until,)))
    if hold.build:
        yield f"in {hold.build.name} only; for whoever builds it: a time, as 12 h"


def _of_gap(gap: Fit) -> Iterator[str]:
    yield f"gap {gap.title}"
    yield gap.formula
    lower, upper = gap.lower_limit, gap.upper_limit
    yield f"{lower} to {upper}" if lower and upper else "no limits"
    if gap.made_last:
        yield f"made last, to suit: {gap.made_last.name}"
    if gap.one_instrument:
        yield "one instrument reads both sides"
    if gap.setup_error:
        yield f"shared by one setup {gap.setup_error}"
    if gap.coating:
        yield f"coating {gap.coating} on {gap.coated_faces} faces in it"
    if gap.chance:
        yield f"wanted chance {gap.chance}"
    if gap.step:
        yield f"matters in {gap.step.name}"


def _of_joint(joint: Joint) -> Iterator[str]:
    yield f"joint {joint.title}"
    many = f"{joint.quantity} × " if joint.quantity > 1 else ""
    yield f"{many}{joint.fastener}{f', {joint.head} head' if joint.head else ''}"
    layers = ", ".join(map(_layer, joint.layers))
    yield f"from the head on through {layers}" if layers else "no layers told yet"
    yield from _listed("nut", filter(None, (joint.nut, _shown(joint.nut_height))))
    for word, value in (
        ("thread", joint.thread_depth),
        ("room behind", joint.room_behind),
        ("tightened to", joint.torque),
        ("pull", joint.preload),
        ("tapped after", joint.tap_drill),
    ):
        yield from _listed(word, filter(None, (_shown(value),)))
    yield from _listed("with", filter(None, (joint.torque_with,)))
    yield from _listed("which", filter(None, (joint.torque_result,)))
    if joint.step:
        yield f"closed in {joint.step.name}"


def _layer(layer: Layer) -> str:
    """Say one layer with its thickness and its hole; limits as they hold."""
    said = [layer.part.name, _shown(layer.thickness)]
    if layer.lower_limit and layer.upper_limit:
        said[1] += f" ({layer.lower_limit} to {layer.upper_limit})"
    for word, value in (
        ("edge", layer.edge_distance),
        ("hole", layer.hole),
        ("slot", layer.slot),
        ("from the fixed hole", layer.from_fixed),
    ):
        said += [f"{word} {value}"] if value else []
    said += ["fixed"] if layer.fixed else []
    return " ".join(filter(None, said))


def _shown(value: Quantity | None) -> str:
    return str(value) if value is not None else ""


def _names(refs: Iterable[Ref]) -> Iterator[str]:
    return (ref.name for ref in refs)


def _listed(word: str, things: Iterable[str]) -> Iterator[str]:
    if told := ", ".join(things):
        yield f"{word} {told}"
