"""Heat-set inserts and rivet nuts: hole, pocket, boss wall, grip; mm."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.errors import BadInput
from logbook.shop.answers import Answer, Result
from logbook.shop.fastening.screws import size_name
from logbook.shop.given import POSITIVE, Given, Input, Kind, above
from logbook.shop.sums import Sum
from logbook.shop.tables import table


def _rule(name: str) -> float:
    return table("inserts", "heat_set_rules").named(name).number("factor")


@dataclass(frozen=True, slots=True)
class Pocket:
    """Where a heat-set insert goes: hole, depth, and the boss around it.

    `wall` is what the boss leaves around the hole; `wall_least` what a boss of
    ordinary plastic must leave around the insert.
    """

    hole: float
    hole_low: float
    hole_high: float
    depth: float
    depth_cautious: float
    boss: float
    wall: float
    wall_least: float


def pocket(
    size: str, length: float | None, outside: float | None, hole: float | None
) -> Pocket:
    """Work out the pocket of an insert; what is not given is typical.

    Raises:
        BadInput: the size is not in the table, or the hole is no smaller than
            the insert.
    """
    row = table("inserts", "heat_set").named(size_name(size))
    long = row.number("length") if length is None else length
    wide = row.number("outside_high") if outside is None else outside
    typical = row.number("hole")
    bore = typical if hole is None else hole
    if bore >= wide:
        raise BadInput(
            f"the hole of {bore:g} mm holds no insert of {wide:g} mm outside; "
            "accepted: a smaller hole"
        )
    boss = wide * _rule("boss outside over insert outside")
    low = bore if hole is not None else row.number("hole_low")
    high = bore if hole is not None else row.number("hole_high")
    return Pocket(
        bore,
        low,
        high,
        long + _rule("pocket deeper than insert, at least"),
        long + _rule("pocket deeper than insert, cautious"),
        boss,
        (boss - bore) / 2,
        wide * _rule("least wall over insert outside"),
    )


@dataclass(frozen=True, slots=True)
class RivetNut:
    """A rivet nut: its hole, its grip range, and what its screw needs."""

    hole: float
    grip_low: float
    grip_high: float
    attached_hole: float

    def grips(self, sheet: float) -> bool:
        """Tell whether a sheet of this thickness is in the grip range."""
        return self.grip_low <= sheet <= self.grip_high


def rivet_nut(size: str) -> RivetNut:
    """Give a round rivet nut with a flat head.

    Raises:
        BadInput: the size is not in the table.
    """
    name = size_name(size)
    row = table("inserts", "rivet_nut").named(name)
    wide = table("inserts", "rivet_nut_rules").named("hole in the attached part")
    return RivetNut(
        row.number("hole"),
        row.number("grip_low"),
        row.number("grip_high"),
        wide.number("value") * float(name[1:]),
    )


def _compute_pocket(given: Given) -> Answer:
    found = pocket(
        given.word("size"),
        given.maybe("length"),
        given.maybe("outside"),
        given.maybe("hole"),
    )
    results = [
        Result("hole", found.hole, "mm", 2, "hole to print or drill"),
        Result("hole_low", found.hole_low, "mm", 2, "makers give from"),
        Result("hole_high", found.hole_high, "mm", 2, "to"),
        Result("depth", found.depth, "mm", 2, "pocket at least so deep"),
        Result("depth_cautious", found.depth_cautious, "mm", 2, "better so deep"),
        Result("boss", found.boss, "mm", 2, "outside of the boss"),
        Result("wall", found.wall, "mm", 2, "wall of that boss around the hole"),
        Result("wall_least", found.wall_least, "mm", 2, "least wall around the insert"),
    ]
    return Answer(
        tuple(results),
        warnings=("Print a test hole: families of inserts differ by some tenths.",),
        sources=(
            table("inserts", "heat_set").cited,
            table("inserts", "heat_set_rules").cited,
        ),
    )


def _compute_rivet_nut(given: Given) -> Answer:
    found = rivet_nut(given.word("size"))
    results = [
        Result("hole", found.hole, "mm", 1, "hole, +0.1/−0"),
        Result("grip_low", found.grip_low, "mm", 1, "thinnest sheet, short body"),
        Result("grip_high", found.grip_high, "mm", 1, "thickest sheet, short body"),
        Result("attached_hole", found.attached_hole, "mm", 2, "in the other part"),
    ]
    warnings = ["The screw must come at least one pitch past the open end."]
    if given.has("sheet"):
        fits = found.grips(given.number("sheet"))
        results.append(Result("grips", fits, "", 0, "the sheet is in the grip range"))
        if not fits:
            warnings.append(
                "Outside the grip range it spins or does not set: another body length."
            )
    return Answer(
        tuple(results),
        warnings=tuple(warnings),
        sources=(
            table("inserts", "rivet_nut").cited,
            table("inserts", "rivet_nut_rules").cited,
        ),
    )


_SIZE = Input("size", "thread, as M3", kind=Kind.TEXT, also=("thread",))

SUMS: tuple[Sum, ...] = (
    Sum(
        name="heat-set-insert",
        also=("insert", "insert-boss", "heat-insert"),
        title="Hole, pocket and boss of a heat-set insert",
        inputs=(
            _SIZE,
            Input("length", "length of the insert", "mm", accept=POSITIVE,
                  optional=True, also=("insert-length",)),
            Input("outside", "outside diameter of the insert", "mm", accept=POSITIVE,
                  optional=True, also=("insert-outside",)),
            Input("hole", "hole, where the maker says another", "mm", accept=POSITIVE,
                  optional=True),
        ),
        compute=_compute_pocket,
        formula="boss = 2 × insert outside; wall = (boss − hole) / 2; pocket = insert "
        "+ 0.5 mm, better 1 mm",
        source="a published tutorial and insert makers' notes; no standard",
        how="read",
        caution="The sheet of the insert in hand wins. The iron is hot enough to burn.",
        example={"size": "M3"},
    ),
    Sum(
        name="rivet-nut",
        also=("rivetnut", "blind-rivet-nut"),
        title="Hole and grip of a rivet nut",
        inputs=(
            _SIZE,
            Input("sheet", "thickness it is set in", "mm", accept=above(0),
                  optional=True, also=("grip", "thickness")),
        ),
        compute=_compute_rivet_nut,
        formula="table value; hole in the attached part 1.1 × screw diameter",
        source="no public standard; makers' charts",
        how="memory",
        caution="Grip depends on the body length: the sheet of the nut in hand wins.",
        example={"size": "M4", "sheet": "2.0 mm"},
    ),
)  # fmt: skip
