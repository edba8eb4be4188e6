"""Each benchmark still runs, at its smallest; how fast it is, is none of this."""

from __future__ import annotations

from collections.abc import Callable
from pkgutil import iter_modules

import pytest

from tests import benchmarks
from tests.benchmarks import (
    advice,
    commit_route,
    index,
    keys,
    note,
    save,
    screen,
    stack_up,
)

SMALLEST: dict[str, tuple[Callable[[], object], str]] = {
    "advice": (lambda: advice.main(["0.02"]), "after it, with the shop's figures"),
    "commit_route": (lambda: commit_route.main(["--rounds", "1", "20"]), "20 at once"),
    "index": (lambda: index.main(["60"]), "full truth, 10 edited"),
    "keys": (lambda: keys.main(["--seconds", "1", "--blame", "60"]), "commits, the"),
    "note": (note.main, "note, waiting for git"),
    "save": (lambda: save.measure(20), "a reading added"),
    "screen": (lambda: screen.measure(60), "median ratio of pairs"),
    "stack_up": (stack_up.main, "import all sums"),
}
"""How each is run, and what it says at its end."""
USED_BY_THEM = {"big_project", "measured", "terminals"}


def test_every_benchmark_is_run_here() -> None:
    there = {found.name for found in iter_modules(benchmarks.__path__)}
    assert there == SMALLEST.keys() | USED_BY_THEM


@pytest.mark.parametrize("name", SMALLEST)
def test_a_benchmark_runs_at_its_smallest(
    name: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    for module in (index, note, save, screen, stack_up):
        monkeypatch.setattr(module, "ROUNDS", 1)
    monkeypatch.setattr(index, "PROOF_NS", 0)
    monkeypatch.setattr(index, "PULLED", 3)
    monkeypatch.setattr(index, "SEARCHES", 50)
    monkeypatch.setattr(keys, "PULLED", 3)
    monkeypatch.setattr(keys, "BARE_LETTERS", 3)
    monkeypatch.setattr(keys, "SETTLED_S", 0.0)
    run, said = SMALLEST[name]
    run()
    assert said in capsys.readouterr().out
