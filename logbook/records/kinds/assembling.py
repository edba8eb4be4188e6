"""How the parts go together: parts list, joints, gaps and the order of work."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.quantity import Quantity
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record, always, listed
from logbook.records.kinds.words import Grade


@dataclass(frozen=True, slots=True, kw_only=True)
class Line(Record):
    """A line of the parts list: so many of a part in an assembly, at places.

    `amount` is how much of it each is, where pieces alone do not tell: 1.5 m of wire.
    """

    part: Ref
    assembly: Ref | None = None
    quantity: int = 1
    amount: Quantity | None = None
    spare: int = 0
    places: tuple[str, ...] = ()
    bought_as: str = ""
    price: Quantity | None = None
    critical: str = ""
    substitutes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Layer:
    """One layer of a joint, from the head to the nut.

    `hole` is the width of its hole and `slot` the length where it is one. Of a
    board, `fixed` says that its hole stays round and holds it, `from_fixed` how
    far across the grain the others are from there.
    """

    part: Ref
    thickness: Quantity | None = None
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    role: str = "stock"
    standard: str = ""
    edge_distance: Quantity | None = None
    hole: Quantity | None = None
    head_in: bool = False
    slot: Quantity | None = None
    fixed: bool = False
    from_fixed: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Joint(Record):
    """Layers and the fastener through them.

    `torque` is as tightened, `torque_with` the tool, `torque_result` what came of
    it; `tap_drill` is the drill before the tap, where a layer is tapped.
    """

    fastener: str
    head: str = ""
    nut: str = ""
    nut_height: Quantity | None = None
    thread_depth: Quantity | None = None
    room_behind: Quantity | None = None
    torque: Quantity | None = None
    torque_with: str = ""
    torque_result: str = ""
    preload: Quantity | None = None
    tap_drill: Quantity | None = None
    step: Ref | None = None
    quantity: int = 1
    layers: tuple[Layer, ...] = listed("layer")


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit(Record):
    """A closing dimension over characteristics, with limits; a gap on screen.

    `formula` uses `part.name` and `part@place.name`; `made_last` is the
    characteristic that is made to suit.
    """

    formula: str
    lower_limit: Quantity | None = None
    upper_limit: Quantity | None = None
    made_last: Ref | None = None
    one_instrument: bool = False
    setup_error: Quantity | None = None
    coating: Quantity | None = None
    coated_faces: int = 0
    step: Ref | None = None
    chance: Quantity | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Step(Record):
    """An operation of the order of work; it closes when it cannot be undone.

    A step that hides something closes too. `set_to` holds what is set for it, each
    with its name: “drill 3.3 mm”.
    """

    number: int = 0
    makes: Ref | None = None
    uses: tuple[Ref, ...] = ()
    after: tuple[Ref, ...] = ()
    closes: bool = False
    inside: tuple[str, ...] = ()
    tested: tuple[str, ...] = ()
    clean: tuple[str, ...] = ()
    tools: tuple[str, ...] = ()
    substitutes: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    process: tuple[str, ...] = ()
    set_to: tuple[str, ...] = ()
    time: Quantity | None = None
    accept: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold(Record):
    """A declared reason not to do a step yet; of one `build` only, if that is told."""

    step: Ref
    grade: Grade = always(Grade.WAIT)
    until: str = ""
    because: str = ""
    build: Ref | None = None
