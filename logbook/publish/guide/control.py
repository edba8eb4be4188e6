"""What the design files of a release measure, so that a holder can tell the right one.

Read from the file on disk while that is the released content, else from the tag.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

from logbook.advice.changes.file_units import unit_told
from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.made_public import Release
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.overall import (
    fills_page,
    of_own_units,
    overall,
    page,
    unit_name,
)
from logbook.store.designs.round_holes import holes_words
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Numbers, Shape
from logbook.store.designs.unsaid_units import as_written, in_metres, in_own_units
from logbook.store.git.history import contents_at
from logbook.store.git.repository import Repository


def shapes_of(
    snapshot: Snapshot, root: Path, repository: Repository, release: Release
) -> dict[str, Shape]:
    """Give the shape of each released file that can be read, by its SHA-256.

    In the unit that was told of it, where it names none itself.
    """
    found = {}
    with TemporaryDirectory() as folder:
        for file, data in _contents(root, repository, release):
            place = Path(folder) / f"it{Path(file.path).suffix}"
            place.write_bytes(data)
            shape = read_shape(place)
            if isinstance(shape, Shape):
                found[file.sha256] = _with_unit(shape, unit_told(snapshot, file))
    return found


def _with_unit(shape: Shape, told: str) -> Shape:
    """Give a shape that names no unit the one that was told of it."""
    if shape.unit or not told:
        return shape
    return replace(shape, unit=told, unit_told=True)


def _contents(
    root: Path, repository: Repository, release: Release
) -> Iterator[tuple[DesignFile, bytes]]:
    """Give the released content of each file, where it is to be had."""
    here = {file: _on_disk(root, file) for file in release.files}
    names = {
        file: repository.relative(root / file.path)
        for file, data in here.items()
        if data is None
    }
    then = contents_at(repository, release.tag, [*names.values()])
    for file, data in here.items():
        if data is not None:
            yield file, data
            continue
        kept = then[names[file]]
        if kept and sha256(kept).hexdigest() == file.sha256:
            yield file, kept


def _on_disk(root: Path, file: DesignFile) -> bytes | None:
    """Give what is on disk, where that is the released content."""
    place = root / file.path
    inside = place.resolve().is_relative_to(root.resolve())
    data = place.read_bytes() if inside and place.is_file() else b""
    return data if sha256(data).hexdigest() == file.sha256 else None


NOT_READ = "its overall size and unit could not be read from it"


def control_words(shape: Shape, meant: str) -> str:
    """Say overall size, unit and round holes; `meant` is the unit of the project."""
    said = (_size_words(shape, meant), holes_words(shape, meant))
    return "; ".join(filter(None, said))


def _size_words(shape: Shape, meant: str) -> str:
    if metres := in_metres(shape, meant):
        return (
            f"{as_written(shape)} overall; the file names no unit and is too small to "
            f"be in {meant}: {metres} if it is drawn in metres, so ask the author or "
            "measure before you make it"
        )
    if in_own_units(shape):
        return _own_units_words(shape)
    if shape.size is None:
        return _page_words(shape, meant)
    said = f"{overall(shape, meant)} overall"
    if shape.unit_told:
        return f"{said}; {_told_words(shape, meant)}"
    if not shape.unit:
        size = said.removesuffix(f" {meant} overall")
        return f"{size} overall; the file names no unit, {meant} is meant"
    if fills_page(shape):
        said += ", as large as its page"
    if shape.numbers is Numbers.PIXELS:
        said += "; drawn in pixels, of which 96 go to the inch"
    return said


def _told_words(shape: Shape, meant: str) -> str:
    """Say in which unit a file is that names none, and what its holder does of it."""
    if shape.unit == meant:
        return f"the file names no unit and is in {unit_name(meant)}"
    return (
        f"the file names no unit and is in {unit_name(shape.unit)}: say so to your "
        f"program, which reads {as_written(shape)}"
    )


def _own_units_words(shape: Shape) -> str:
    sides, as_pixels = of_own_units(shape)
    if not sides:
        return NOT_READ
    what = "overall" if shape.size is not None else "is its page"
    return (
        f"{sides} {what}, in units of the drawing, which does not say how long one is: "
        f"{sides} mm if one is a millimetre, {as_pixels} if 96 go to the inch; ask the "
        "author or measure before you make it"
    )


def _page_words(shape: Shape, meant: str) -> str:
    if sheet := page(shape, meant):
        return f"its page is {sheet}; what is drawn on it could not be measured"
    return shape.unit or f"the file names no unit, {meant} is meant"
