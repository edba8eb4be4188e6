"""How dear stack-ups are, against drawing the same chain with numpy alone.

Run as a script; it prints medians of interleaved runs as ratios. Aims: the exact
spread of six mixed contributors in 0.05 of a million samples, a formula that is
not linear in twice the bare draw, importing the shop in 50 ms over a bare
interpreter.
"""

from __future__ import annotations

import statistics
import subprocess
import sys
import time
from collections.abc import Callable
from typing import Any

import numpy as np

from logbook.shop.chains.evaluation import sampled
from logbook.shop.chains.formula import read_formula
from logbook.shop.chains.spread import Contributor, Shape
from logbook.shop.chains.stackup import stack_up
from logbook.shop.chains.trials import TRIALS, try_out

CHAIN = [
    Contributor("bore.depth", 40, 0.1, 0.1, 1, Shape.NORMAL),
    Contributor("spacer.length", 25, 0.05, 0.05, -1, Shape.UNIFORM),
    Contributor("ring.thickness", 2, 0.03, 0.03, -1, Shape.TRIANGULAR),
    Contributor("shoulder.length", 10, 0.05, 0.05, -1, Shape.NORMAL, 2),
    Contributor("shim.thickness", 1, 0.02, 0.0, -1, Shape.UNIFORM),
    Contributor("cap.thickness", 0.5, 0.1, 0.1, 1, Shape.NORMAL),
]
FORMULA = read_formula(
    "max(bore.depth - spacer.length - ring.thickness, shoulder.length + "
    "shim.thickness) - abs(shim.thickness - cap.thickness)"
)
ROUNDS = 9
UNITS = {one.name: "mm" for one in CHAIN}


def numpy_draw(one: Contributor, generator: np.random.Generator) -> Any:
    """Draw one contributor as anyone would with numpy."""
    low, high = one.centre - one.half, one.centre + one.half
    if one.shape is Shape.NORMAL:
        return generator.normal(one.centre, one.sd, TRIALS)
    if one.shape is Shape.UNIFORM:
        return generator.uniform(low, high, TRIALS)
    return generator.triangular(low, one.centre, high, TRIALS)


def samples() -> tuple[float, float]:
    """Draw the chain a million times and give its middle 95 %."""
    generator = np.random.default_rng(11)
    gaps = sum(one.direction * numpy_draw(one, generator) for one in CHAIN)
    low, high = np.quantile(gaps, [0.025, 0.975])
    return float(low), float(high)


def bare_draw() -> None:
    """Draw the contributors and do nothing with them."""
    generator = np.random.default_rng(11)
    for one in CHAIN:
        numpy_draw(one, generator)


def formula_trials() -> None:
    """Try out the formula that is not linear."""
    found = try_out(lambda sizes: sampled(FORMULA, sizes, UNITS, "mm"), CHAIN)
    found.quantile(0.025)


def seconds(work: Callable[[], object]) -> float:
    """Time one run."""
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def interpreter(statement: str) -> float:
    """Time a fresh interpreter that runs one statement."""
    return seconds(
        lambda: subprocess.run([sys.executable, "-c", statement], check=True)
    )


def medians(works: dict[str, Callable[[], float]], rounds: int) -> dict[str, float]:
    """Run all in turn and give the median of each in milliseconds."""
    taken: dict[str, list[float]] = {name: [] for name in works}
    for _ in range(rounds):
        for name, work in works.items():
            taken[name].append(work())
    return {name: 1000 * statistics.median(each) for name, each in taken.items()}


def main() -> None:
    """Print the ratios."""
    held = medians(
        {
            "exact": lambda: seconds(lambda: stack_up(CHAIN).interval()),
            "samples": lambda: seconds(samples),
            "formula": lambda: seconds(formula_trials),
            "draw": lambda: seconds(bare_draw),
        },
        ROUNDS,
    )
    starts = medians(
        {
            "bare": lambda: interpreter("pass"),
            "shop": lambda: interpreter("import logbook.shop"),
            "sums": lambda: interpreter("import logbook.shop.sums"),
            "all sums": lambda: interpreter(
                "from logbook.shop.sums import all_sums; list(all_sums())"
            ),
        },
        ROUNDS,
    )
    exact, drawn = stack_up(CHAIN).interval(), samples()
    print(
        f"exact {held['exact']:.2f} ms, 10^6 samples {held['samples']:.1f} ms: "
        f"ratio {held['exact'] / held['samples']:.3f} (aim 0.05)"
    )
    print(
        f"middle 95 % exact {exact[0]:.5f} to {exact[1]:.5f} mm, "
        f"sampled {drawn[0]:.5f} to {drawn[1]:.5f} mm"
    )
    print(
        f"formula {held['formula']:.1f} ms, bare draw {held['draw']:.1f} ms: "
        f"ratio {held['formula'] / held['draw']:.2f} (aim 2)"
    )
    for name in ("shop", "sums", "all sums"):
        print(
            f"import {name}: {starts[name] - starts['bare']:.0f} ms over a bare "
            f"interpreter ({starts['bare']:.0f} ms)"
        )


if __name__ == "__main__":
    main()
