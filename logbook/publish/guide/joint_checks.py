"""What a joint comes to as drawn, in the words of one cell of the guide's table.

The sizes are those of the design, not what one shop measured: another builder has
other stock.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from logbook.advice.ground.advice import Advice
from logbook.advice.ground.register import Register, View
from logbook.advice.joints.joints import OF_NO_THICKNESS, joint_advice
from logbook.errors import BadInput, Problem
from logbook.publish.release.readback import SaidJoint
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.assembling import Joint, Layer
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Grade
from logbook.records.together.snapshot import Snapshot

LONG_ENOUGH = "long enough"
"""How the words of a joint begin whose screw reaches through its nut at worst."""
NOT_KNOWN = "not checked: the joint is not on record any more"


class JointChecks:
    """The joints of a snapshot worked out as drawn; nothing is done until asked."""

    def __init__(self, snapshot: Snapshot) -> None:
        """Take the records as they are."""
        self.snapshot = snapshot

    @cached_property
    def _view(self) -> View:
        register = Register()
        register.update(self.snapshot)
        return View(register)

    def words(self, joint: Joint) -> str:
        """Say whether the screw is long enough at worst, or why that is not known.

        The joint need not be on record: one as released may have been changed since.
        """
        found = tuple(joint_advice(self._view, joint, drawn=True))
        return "; ".join((*_length(joint, found), *_others(joint, found)))


def as_released(identity: str, said: SaidJoint) -> Joint:
    """Give a joint from its released text."""
    fastener, *rest = said.fastener.split(", ")
    return Joint(
        id=identity,
        title=said.title,
        fastener=fastener,
        quantity=int(said.number or 1),
        head=_called("head", rest),
        nut=_called("nut", rest),
        thread_depth=_thread_depth(rest),
        layers=tuple(_layer(text) for text in said.layers.split(", ") if text),
    )


def _called(word: str, texts: Iterable[str]) -> str:
    """Give “thin self-locking” for the nut of “thin self-locking nut”."""
    found = (text for text in texts if text.endswith(f" {word}"))
    return next(found, "").removesuffix(f" {word}")


def _thread_depth(texts: Iterable[str]) -> Quantity | None:
    """Give the 5.7 mm of “thread 5.7 mm deep”."""
    found = (
        one for one in texts if one.startswith("thread ") and one.endswith(" deep")
    )
    said = next(found, "").removeprefix("thread ").removesuffix(" deep")
    return parse_quantity(said) if said else None


def _layer(text: str) -> Layer:
    """Read “collar 6.0 mm”; without a size the part's own thickness counts."""
    words = text.split(" ")
    for at in range(1, len(words)):
        name, size = " ".join(words[:at]), " ".join(words[at:])
        try:
            thickness = parse_quantity(size)
        except BadInput:
            continue
        return Layer(part=Ref(name, ""), thickness=thickness)
    return Layer(part=Ref(text, ""))


def _length(joint: Joint, found: tuple[Advice | Problem, ...]) -> Iterator[str]:
    for one in found:
        if isinstance(one, Problem):
            if one.field == "fastener":
                yield f"not checked: {joint.fastener} names no screw with its length"
            else:
                name = one.found.removesuffix(OF_NO_THICKNESS)
                yield f"not checked: thickness of {name} not on record"
        elif one.key == f"joint {joint.id}":
            yield _stands(joint, one)
            return
    if not found or all(isinstance(one, Advice) for one in found):
        lacks = "neither a nut nor a depth of thread is"
        if joint.thread_depth:
            lacks = "what it clamps is not"
        yield f"length not checked: {lacks} on record"


def _stands(joint: Joint, found: Advice) -> str:
    if not joint.nut:
        return found.statement.removeprefix(f"{joint.title}: ")
    low, pitch = (float(str(found.number(name).value)) for name in ("lowest", "pitch"))
    take = [f": take {one.value}" for one in found.numbers if one.name == "take"]
    if take or low < pitch:
        if low < 0:
            said = f"at worst {-low:.1f} mm short of through"
        elif low < pitch:
            said = f"at worst only {low:.1f} mm through, {pitch:g} mm is wanted"
        else:
            said = f"at worst {low:.1f} mm through, too little for the locking ring"
        return said + "".join(take)
    if found.grade is Grade.CHECK:
        return found.statement.removeprefix(f"{joint.title}: ")
    return f"{LONG_ENOUGH}, at worst {low:.1f} mm through"


def _others(joint: Joint, found: tuple[Advice | Problem, ...]) -> Iterator[str]:
    """Give what else is to be checked: the edge, the tap drill."""
    for one in found:
        if isinstance(one, Advice) and one.key != f"joint {joint.id}":
            yield one.statement.removeprefix(f"{joint.title}: ")
