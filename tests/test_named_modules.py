"""Modules named in strings, which no checker follows, are there under that name."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent
INVENTED = {"test_layers.py", "test_named_modules.py"}
NAMED = re.compile(r"\blogbook((?:\.[a-z_]\w*)+)(?: import (\w+))?")


def names_in_strings(source: str) -> Iterator[str]:
    """Give each dotted name in a string of the source, with what it imports."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            for dotted, name in NAMED.findall(node.value):
                yield f"logbook{dotted}" + f".{name}" * bool(name)


def is_there(dotted: str) -> bool:
    """Tell whether a name leads to a module, or to something said in one."""
    place = ROOT
    for word in dotted.split("."):
        module = (place / word).with_suffix(".py")
        if module.is_file():
            return True
        if not (place / word).is_dir():
            said = place / "__init__.py"
            return said.is_file() and word in said.read_text("utf-8")
        place /= word
    return True


def test_modules_named_in_strings_are_there() -> None:
    missing = {
        f"{path.relative_to(ROOT)}: {dotted}"
        for folder in ("logbook", "tests", "sample_project")
        for path in (ROOT / folder).rglob("*.py")
        if path.name not in INVENTED
        for dotted in names_in_strings(path.read_text("utf-8"))
        if not is_there(dotted)
    }
    assert missing == set()


def test_a_name_that_leads_nowhere_is_found() -> None:
    assert is_there("logbook.units.Unit")
    assert not is_there("logbook.nowhere.Thing")
    assert list(names_in_strings('x = "from logbook.a.b import C"')) == [
        "logbook.a.b.C"
    ]


MAP = ROOT / "DEVELOPERS.md"
FILE_NAMED = re.compile(r"`([\w./*-]+\.(?:py|toml|tsv|j2|md)|[\w./-]+/)`")


def _is_somewhere(name: str) -> bool:
    """Tell whether a file or folder of that name is here, at whatever depth."""
    return (ROOT / name).exists() or any(
        place.is_dir() == name.endswith("/")
        for top in ("logbook", "tests", "templates")
        for place in ROOT.glob(f"{top}/**/{name.removeprefix(f'{top}/').rstrip('/')}")
    )


def test_the_map_of_the_house_names_what_is_there() -> None:
    names = set(FILE_NAMED.findall(MAP.read_text("utf-8")))
    assert len(names) > 100
    assert {name for name in names if not _is_somewhere(name)} == set()
    assert not _is_somewhere("screens/nowhere.py")
