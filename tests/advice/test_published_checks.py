"""Published worked cases, put in as records and asked of the advice.

The cases stand in `tests/shop/checks` with their sources; here they go the way of a
user's own gap, joint or board.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest

from logbook.quantity import parse_quantity
from logbook.records.kinds import assembling
from logbook.records.sizes.limits import parse_drawn
from logbook.shop.materials.wood import equilibrium_moisture
from tests.advice.world import World

FOLDER = Path(__file__).parent.parent / "shop" / "checks"


def checks(name: str, sum_: str) -> list[Any]:
    rows = tomllib.loads((FOLDER / f"{name}.toml").read_text("utf-8"))["check"]
    return [pytest.param(row, id=row["name"]) for row in rows if row["sum"] == sum_]


def holds(found: float, wanted: dict[str, Any]) -> bool:
    within: float = wanted["within"] * (1 + 1e-6) + 1e-9
    return abs(found - float(wanted["value"])) <= within


# -- stack-ups ---------------------------------------------------------------------

CHAIN = re.compile(
    r"(?P<name>.+): (?P<sign>[+-])(?P<size>[\d.]+ \w+) ±(?P<half>[\d.]+)"
)
PLAIN = [
    row for row in checks("stackups", "stack-up")
    if all(re.search(r"(mm|in)$", line) for line in row.values[0]["inputs"]["chain"])
]  # fmt: skip


def gap_of(chain: list[str]) -> World:
    """Draw each dimension of a chain on a part of its own, and a gap over them."""
    world = World("in" if chain[0].endswith("in") else "mm")
    terms = []
    for at, line in enumerate(chain):
        found = CHAIN.match(line)
        assert found, line
        part = world.part(f"p{at}")
        world.dimension(part, "size", f"{found['size']} ±{found['half']}")
        terms.append(f"{found['sign']} p{at}.size")
    world.gap("all", " ".join(terms).removeprefix("+ "))
    return world


@pytest.mark.parametrize("check", PLAIN)
def test_a_published_stack_up_as_a_gap(check: dict[str, Any]) -> None:
    found = gap_of(check["inputs"]["chain"]).figures()
    compared = [n for n in check["expect"] if n in found]
    assert {"worst_low", "worst_high"} <= set(compared)
    for name in compared:
        wanted = check["expect"][name]
        assert holds(found[name], wanted), (name, check["source"], check["how"])


def test_four_equal_uncertainties_by_the_guide() -> None:
    """Four inputs of u = 1 sum to u = 2; 95 % lie within ±3.92 (JCGM 101, 9.2.2)."""
    world = World()
    tool = world.instrument(uncertainty="2 mm", resolution="0.001 mm")
    for at in range(4):
        part = world.part(f"p{at}")
        world.read(world.piece(part), world.dimension(part, "x"), {"": "10.000"}, tool)
    world.gap("sum", "p0.x + p1.x + p2.x + p3.x - 40 mm", "-3.92 to 3.92")
    assert world.figures()["chance"] == pytest.approx(95.0, abs=0.01)


# -- decision rules ------------------------------------------------------------------


@pytest.mark.parametrize("check", [
    row for row in checks("acceptance", "accept-or-reject")
    if {"lower", "upper", "uncertainty"} <= set(row.values[0]["inputs"])
    and "acceptance_low" in row.values[0]["expect"]
])  # fmt: skip
def test_the_guarded_zone_of_a_published_rule_as_a_size_to_suit(
    check: dict[str, Any],
) -> None:
    """A mate read as 50 mm, with a gap that leaves just the published limits."""
    told = check["inputs"]
    lower, upper = (float(told[name].split()[0]) for name in ("lower", "upper"))
    world = World()
    tool = world.instrument(uncertainty=told["uncertainty"], resolution="0.001 mm")
    mate, bar = world.part("mate"), world.part("bar")
    inside, size = world.dimension(mate, "inside"), world.dimension(bar, "size")
    world.read(world.piece(mate), inside, {"": "50.000"}, tool)
    limits = f"{50 - upper:.4f} to {50 - lower:.4f}"
    world.gap("fit", "mate.inside - bar.size", limits, made_last=size.ref)
    found = world.figures()
    for ours, theirs in (("accept_low", "acceptance_low"),
                         ("accept_high", "acceptance_high")):  # fmt: skip
        assert found[ours] == pytest.approx(check["expect"][theirs]["value"], abs=1e-6)


def test_the_published_chance_of_conformity_as_the_chance_of_a_gap() -> None:
    """−5.47 read with u = 0.05 against at most −5.40 (JCGM 106, clause 7): 91.92 %."""
    [row] = checks("acceptance", "conformance-probability")
    told = row.values[0]["inputs"]
    world = World()
    twice = 2 * float(told["standard_uncertainty"])
    tool = world.instrument(uncertainty=f"{twice} mm", resolution="0.001 mm")
    part = world.part("diode")
    read = f"{10 + float(told['measured']):.3f}"
    world.read(world.piece(part), world.dimension(part, "x"), {"": read}, tool)
    upper = parse_quantity(f"{told['upper']} mm")
    fit = world.gap("limit", "diode.x - 10 mm")
    world.add(replace(fit, upper_limit=upper))
    wanted = row.values[0]["expect"]["conformance_probability"]["value"]
    assert world.figures()["chance"] == pytest.approx(100 * wanted, abs=0.006)


# -- fasteners ---------------------------------------------------------------------

LAYER = re.compile(r"(?P<size>[\d./ ]+(?:mm|in)?)(?: ±(?P<half>[\d.]+))? ?(?P<rest>.*)")


def joint_of(told: dict[str, Any]) -> World:
    world = World()
    layers = []
    count = int(told.get("washers", "0"))
    washer = world.part("washer").ref
    standard = told.get("washer", "iso7089")
    for at, text in enumerate(told["layers"]):
        found = LAYER.fullmatch(text.strip())
        assert found, text
        part = world.part(f"plate {at}", material=found["rest"].strip())
        size = f"{found['size'].strip()}" + (
            f" ±{found['half']}" if found["half"] else ""
        )
        drawn = parse_drawn(size, "mm")
        layers.append(
            assembling.Layer(part=part.ref, thickness=drawn.nominal,
                        lower_limit=drawn.lower, upper_limit=drawn.upper)
        )  # fmt: skip
    layers += [assembling.Layer(part=washer, standard=standard)] * count
    world.add(
        assembling.Joint(
            title="joint", fastener=told["screw"], nut=told["nut"],
            layers=tuple(layers), **world.about(),
        )
    )  # fmt: skip
    return world


@pytest.mark.parametrize("check", [
    row for row in checks("joints", "joint")
    if all(re.match(r"[\d.]", text) for text in row.values[0]["inputs"]["layers"])
    and set(row.values[0]["inputs"]) <= {"screw", "layers", "nut", "washers", "washer"}
])  # fmt: skip
def test_a_published_joint_as_a_joint(check: dict[str, Any]) -> None:
    found = joint_of(check["inputs"]).figures("joints")
    for ours, theirs in (("lowest", "stand_through_min"),
                         ("highest", "stand_through_max")):  # fmt: skip
        if theirs in check["expect"]:
            assert holds(found[ours], check["expect"][theirs]), check["source"]


# -- wood --------------------------------------------------------------------------


def humidity(moisture: float) -> float:
    """Give the relative humidity at which wood at 20 °C comes to a moisture."""
    low, high = 0.0, 95.0
    for _ in range(60):
        middle = (low + high) / 2
        wetter = equilibrium_moisture(20, middle) > moisture
        low, high = (low, middle) if wetter else (middle, high)
    return (low + high) / 2


@pytest.mark.parametrize("check", [
    row for row in checks("wood", "wood-movement")
    if {"species", "moisture_from", "moisture_to"} <= set(row.values[0]["inputs"])
])  # fmt: skip
def test_a_published_board_as_a_part(check: dict[str, Any]) -> None:
    told = check["inputs"]
    dry, damp = (float(told[n].split()[0]) for n in ("moisture_from", "moisture_to"))
    world = World()
    world.rooms(
        coldest="20 °C", hottest="20 °C", driest=f"{humidity(dry):.6f} %",
        dampest=f"{humidity(damp):.6f} %",
    )  # fmt: skip
    sawn = "quarter-sawn" if told.get("direction") == "radial" else "flat-sawn"
    board = world.part("board", material=f"{told['species']} {sawn}")
    world.dimension(board, "width", told["width"])
    [advice] = world.of("wood")
    assert holds(float(advice.number("change").value), check["expect"]["change"])  # type: ignore[arg-type]
