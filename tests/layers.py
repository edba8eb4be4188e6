"""The layer rule: which part of the house may import which, written once.

`LAYERS` lists the layers from the ground up; the names in one tuple stand side
by side and may not import each other. `GRANTED` names the outside packages a
layer may use. Within a layer modules import each other in one direction only, and so
do its rooms. Imports inside functions count like all others.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterator, Mapping, Sequence
from pathlib import Path

LAYERS: tuple[tuple[str, ...], ...] = (
    ("counting", "errors"),
    ("units", "decimal_text"),
    ("quantity",),
    ("shop",),
    ("records",),
    ("plain", "advice"),
    ("store",),
    ("index",),
    ("publish",),
    ("project",),
    ("screens",),
    ("cli",),
)

GRANTED: dict[str, tuple[str, ...]] = {
    "shop": ("numpy", "scipy", "rectpack", "tomli"),
    "records": ("tomli", "tomlkit"),
    "plain": ("tomli",),
    "store": ("git", "platformdirs", "PIL", "svg"),
    "index": ("sqlmodel", "sqlalchemy"),
    "publish": ("jinja2", "markdown_it"),
    "screens": ("textual", "rich"),
}

APART: dict[str, tuple[str, ...]] = {
    "advice": ("store", "index", "publish", "plain"),
}
"""Lower layers that a layer leaves alone all the same."""


def imports(source: str, package: str, module: str) -> Iterator[tuple[int, str]]:
    """Yield line and dotted target of every import, deferred ones included."""
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield node.lineno, alias.name
        elif isinstance(node, ast.ImportFrom):
            parts = [package, *module.split(".")]
            base = ".".join(parts[: -node.level]) if node.level else ""
            target = ".".join(part for part in (base, node.module) if part)
            for alias in node.names:
                yield node.lineno, f"{target}.{alias.name}"


def violations(
    package_folder: Path,
    layers: Sequence[Sequence[str]] = LAYERS,
    granted: Mapping[str, Sequence[str]] = GRANTED,
) -> list[str]:
    """List every import that points up, sideways, outside, or at a private name."""
    package = package_folder.name
    rank = {name: height for height, row in enumerate(layers) for name in row}
    found: list[str] = []
    for path in sorted(package_folder.rglob("*.py")):
        place = path.relative_to(package_folder).with_suffix("")
        layer, module = place.parts[0], ".".join(place.parts)
        if layer.startswith("__"):
            continue
        if layer not in rank:
            found.append(f"{path.relative_to(package_folder)}: no layer named {layer}")
            continue
        for line, target in imports(path.read_text("utf-8"), package, module):
            where = f"{path.relative_to(package_folder)}:{line}"
            found += _complaints(where, layer, target, package, rank, granted)
    return found


def _complaints(
    where: str,
    layer: str,
    target: str,
    package: str,
    rank: Mapping[str, int],
    granted: Mapping[str, Sequence[str]],
) -> Iterator[str]:
    top, _, rest = target.partition(".")
    if top != package:
        known = top in sys.stdlib_module_names or top in granted.get(layer, ())
        if not known or (top == "sqlite3" and layer != "index"):
            yield f"{where} {layer} may not import {top}"
        return
    other = rest.partition(".")[0]
    if not other or other.startswith("__"):
        return
    higher = rank.get(other, 99) >= rank[layer] and other != layer
    if higher or other in APART.get(layer, ()):
        yield f"{where} {layer} may not import {other}"
    if rest.rpartition(".")[2].startswith("_"):
        yield f"{where} {rest} is private to its module"


def circles(package_folder: Path) -> list[list[str]]:
    """List the modules that import each other in a circle, however long it is."""
    return _circles(_arrows(package_folder))


def room_circles(package_folder: Path) -> list[list[str]]:
    """List the rooms of layers whose modules import each other in a circle."""
    between: dict[str, set[str]] = {}
    for name, leads in _arrows(package_folder).items():
        room = _room(name, package_folder)
        rooms = {_room(to, package_folder) for to in leads}
        between.setdefault(room, set()).update(rooms - {room, ""})
    return _circles(between)


def _room(name: str, package_folder: Path) -> str:
    """Give the room a module stands in, nothing for one that stands beside them."""
    room = name.split(".")[:3]
    inside = package_folder.parent.joinpath(*room).is_dir()
    return ".".join(room) if inside and len(room) > 2 else ""


def _arrows(package_folder: Path) -> dict[str, set[str]]:
    """Give for each module those it imports."""
    package = package_folder.name
    found = {
        _dotted(path.relative_to(package_folder.parent)): path
        for path in sorted(package_folder.rglob("*.py"))
    }
    return {
        name: _within(path, found, package, name) - {name, package}
        for name, path in found.items()
    }


def _circles(arrows: dict[str, set[str]]) -> list[list[str]]:
    """List the names that lead to each other in a circle, however long it is."""
    before = None
    while arrows != before:  # what leads to nothing is in no circle
        before = arrows
        arrows = {
            name: {to for to in leads if arrows[to]} for name, leads in arrows.items()
        }
    left = {name for name, leads in arrows.items() if leads}
    reached = {name: _reached(arrows, name) for name in left}
    circle = {
        tuple(sorted(one for one in reached[name] if name in reached.get(one, ())))
        for name in left
        if name in reached[name]
    }
    return [list(names) for names in sorted(circle)]


def _dotted(path: Path) -> str:
    parts = path.with_suffix("").parts
    return ".".join(parts[:-1] if parts[-1] == "__init__" else parts)


def _within(path: Path, known: Mapping[str, Path], package: str, name: str) -> set[str]:
    """Give the modules of the package that a module imports."""
    inside = name if path.name == "__init__.py" else name.rpartition(".")[0]
    module = f"{inside}.{path.stem}".removeprefix(f"{package}.")
    found = set()
    for _, imported in imports(path.read_text("utf-8"), package, module):
        target = imported
        while target and target not in known:
            target = target.rpartition(".")[0]
        found.add(target)
    return found - {""}


def _reached(arrows: Mapping[str, set[str]], start: str) -> set[str]:
    """Give every module an import leads to from this one, itself where it does."""
    found: set[str] = set()
    ahead = [start]
    while ahead:
        for to in arrows[ahead.pop()] - found:
            found.add(to)
            ahead.append(to)
    return found
