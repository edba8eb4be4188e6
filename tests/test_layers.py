"""The house keeps its layers: nothing imports upward, sideways or outside."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.layers import circles, room_circles, violations

HOUSE = Path(__file__).parent.parent / "logbook"


def test_the_house_keeps_its_layers() -> None:
    assert violations(HOUSE) == []


def test_no_modules_import_each_other_in_a_circle() -> None:
    assert circles(HOUSE) == []


def test_no_rooms_of_a_layer_import_each_other_in_a_circle() -> None:
    assert room_circles(HOUSE) == []


def test_rooms_in_a_circle_are_named(tmp_path: Path) -> None:
    house = package(tmp_path, "advice/gaps/one", "import logbook.advice.joints.two")
    three = "import logbook.advice.gaps.three"
    for name, source in (("joints/two", three), ("gaps/three", "")):
        (house / "advice" / name).parent.mkdir(exist_ok=True)
        (house / "advice" / f"{name}.py").write_text(source, "utf-8")
    assert circles(house) == []
    assert room_circles(house) == [["logbook.advice.gaps", "logbook.advice.joints"]]


def package(folder: Path, module: str, source: str) -> Path:
    house = folder / "logbook"
    path = house / f"{module}.py"
    path.parent.mkdir(parents=True)
    path.write_text(source, "utf-8")
    return house


@pytest.mark.parametrize(
    ("module", "source", "complaint"),
    [
        ("misc/things", "", "no layer named misc"),
        ("records/text", "import textual", "records may not import textual"),
        ("store/save", "import sqlite3", "store may not import sqlite3"),
        ("shop/fits", "from logbook.index import find", "may not import index"),
        ("shop/fits", "from ..index import find", "may not import index"),
        ("shop/fits", "def f():\n    from logbook.cli import x", "may not import cli"),
        ("plain/rules", "from logbook.advice import gaps", "may not import advice"),
        ("index/build", "from logbook.records.text import _cut", "is private"),
    ],
)
def test_a_wrong_import_is_named(
    tmp_path: Path, module: str, source: str, complaint: str
) -> None:
    [found] = violations(package(tmp_path, module, source))
    assert complaint in found


@pytest.mark.parametrize(
    ("module", "source"),
    [
        ("shop/fits", "from logbook.quantity import parse_quantity"),
        ("store/save", "from logbook.records.text import write"),
        ("cli/show", "from logbook import project"),
    ],
)
def test_a_downward_import_passes(tmp_path: Path, module: str, source: str) -> None:
    assert violations(package(tmp_path, module, source)) == []


def test_a_circle_is_named_whole_and_once(tmp_path: Path) -> None:
    house = package(tmp_path, "shop/fits", "from logbook.shop import holes")
    beside = {
        "holes": "def f():\n    from logbook.shop.threads import pitch",
        "threads": "from .fits import fit",
        "above": "from logbook.shop.fits import fit",
        "below": "import math",
    }
    for name, source in beside.items():
        (house / "shop" / f"{name}.py").write_text(source, "utf-8")
    assert circles(house) == [
        ["logbook.shop.fits", "logbook.shop.holes", "logbook.shop.threads"]
    ]


def test_imports_that_meet_again_are_no_circle(tmp_path: Path) -> None:
    house = package(tmp_path, "shop/fits", "from . import holes, threads")
    (house / "shop" / "holes.py").write_text("from .threads import pitch", "utf-8")
    (house / "shop" / "threads.py").write_text("", "utf-8")
    assert circles(house) == []
