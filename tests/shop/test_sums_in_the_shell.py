"""What the shell says of a sum, and what it refuses."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Sequence

import pytest

from logbook.errors import BadInput, NotFound
from logbook.shop.shown import example_line, manual
from logbook.shop.sums import Sum, all_sums, sums_by_topic, work_out
from tests.shop.every_sum import SUMS, shell


@pytest.mark.parametrize("each", SUMS)
def test_shell_explains_every_sum(
    each: Sum, capsys: pytest.CaptureFixture[str]
) -> None:
    assert shell(each.name) == 0
    shown = " ".join(capsys.readouterr().out.split())
    assert each.title in shown
    assert " ".join(each.formula.split()) in shown
    assert f"logbook sums {each.name} --" in shown
    for one in each.inputs:
        assert f"--{one.name.replace('_', '-')} (" in shown


@pytest.mark.parametrize("each", SUMS)
def test_example_shown_by_the_shell_can_be_typed(
    each: Sum, capsys: pytest.CaptureFixture[str]
) -> None:
    words = _split(example_line(each))
    assert words[:3] == ["logbook", "sums", each.name]
    assert shell(*words[2:], "--json") == 0
    held = json.loads(capsys.readouterr().out)
    assert held == json.loads(json.dumps(work_out(each, each.example).to_json()))


def _split(line: str) -> Sequence[str]:
    import shlex

    return shlex.split(line)


def test_shell_lists_every_sum_under_its_topic(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert shell() == 0
    lines = capsys.readouterr().out.splitlines()
    for topic, sums in sums_by_topic().items():
        assert topic in lines
        for each in sums:
            assert any(line.startswith(f"  {each.name} ") for line in lines)


def test_unknown_sum_names_near_ones() -> None:
    with pytest.raises(NotFound, match=r"there is no sum “flat-lenght”.*flat-length"):
        work_out("flat-lenght", {})
    with pytest.raises(NotFound, match=r"accepted: heat-margin, brittle, hot-line"):
        work_out("plastic", {})
    with pytest.raises(NotFound, match="accepted: those logbook sums lists"):
        work_out("qqqq", {})


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["60"], "“60” stands before any input; accepted: --input value"),
        (["--height"], "height has no value; accepted: --height value"),
        (["--height", "1", "--height", "2"], "height is given twice; accepted: once"),
    ],
)
def test_shell_refuses_what_it_cannot_read(words: list[str], said: str) -> None:
    with pytest.raises(BadInput) as refused:
        shell("lean", *words)
    assert said in str(refused.value)


def test_importing_the_shop_is_light() -> None:
    code = (
        "import time, sys; start = time.process_time();"
        "import logbook.shop; bare = time.process_time() - start;"
        "import dataclasses, enum, fractions, re, typing;"
        "start = time.process_time();"
        "import logbook.shop.sums; declared = time.process_time() - start;"
        "heavy = {'numpy', 'scipy', 'rectpack', 'tomllib'} & set(sys.modules);"
        "print(bare, declared, sorted(heavy))"
    )
    runs = []
    for _ in range(5):
        ran = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True
        )
        bare, declared, heavy = ran.stdout.split(maxsplit=2)
        assert heavy.strip() == "[]"
        runs.append((float(bare), float(declared)))
    assert min(bare for bare, _ in runs) < 0.050, runs
    assert min(declared for _, declared in runs) < 0.050, runs


def test_listing_all_sums_loads_nothing_heavy() -> None:
    code = (
        "import sys; from logbook.shop.sums import all_sums; list(all_sums());"
        "print(sorted({'numpy', 'scipy', 'rectpack'} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True
    )
    assert ran.stdout.strip() == "[]"


def test_the_manual_tells_every_sum_with_formula_and_source() -> None:
    text = manual()
    for each in all_sums():
        part = text.partition(f"### {each.name}\n")[2].partition("\n### ")[0]
        assert "formula: " in part
        assert "source: " in part
        assert f"logbook sums {each.name}" in part


def test_the_one_input_a_sum_needs_may_stand_without_its_name(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert shell("tap-drill", "M6", "--json") == 0
    named = json.loads(capsys.readouterr().out)
    assert shell("tap-drill", "--thread", "M6", "--json") == 0
    assert json.loads(capsys.readouterr().out) == named
    with pytest.raises(BadInput, match="stands before any input"):
        shell("flat-length", "60")


def test_a_word_lists_the_sums_that_speak_of_it(
    capsys: pytest.CaptureFixture[str],
) -> None:
    assert shell("beech") == 0
    shown = capsys.readouterr().out
    assert "wood-movement" in shown
    assert "wood-species" in shown
    assert "tap-drill" not in shown
    with pytest.raises(NotFound):
        shell("zzyzx")


def test_the_shell_spells_every_option_with_dashes(
    capsys: pytest.CaptureFixture[str],
) -> None:
    for each in all_sums():
        shell(each.name)
    for line in capsys.readouterr().out.splitlines():
        for word in line.split():
            if word.startswith("--"):
                assert "_" not in word, line
