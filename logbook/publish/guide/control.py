"""What the design files of a release measure, so that a holder can tell the right one.

Read from the file on disk while that is the released content, else from the tag.
"""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from pathlib import Path
from tempfile import TemporaryDirectory

from logbook.counting import so_many
from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.made_public import Release
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Shape
from logbook.store.designs.tiny_shapes import as_written, in_metres
from logbook.store.git.history import contents_at
from logbook.store.git.repository import Repository


def shapes_of(root: Path, repository: Repository, release: Release) -> dict[str, Shape]:
    """Give the shape of each released file that can be read, by its SHA-256."""
    found = {}
    with TemporaryDirectory() as folder:
        for file, data in _contents(root, repository, release):
            place = Path(folder) / f"it{Path(file.path).suffix}"
            place.write_bytes(data)
            shape = read_shape(place)
            if isinstance(shape, Shape):
                found[file.sha256] = shape
    return found


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
    unit = shape.unit or f"the file names no unit, {meant} is meant"
    if metres := in_metres(shape, meant):
        return (
            f"{as_written(shape)} overall; the file names no unit and is too small to "
            f"be in {meant}: {metres} if it is drawn in metres, so ask the author or "
            "measure before you make it"
        )
    said = [unit]
    if shape.size is not None:
        size = " × ".join(f"{side:.1f}" for side in shape.size if side)
        said = [f"{size} {unit}"] if shape.unit else [size, unit]
        said[0] += " overall"
    if shape.circles:
        said.append(so_many(shape.circles, "round hole"))
    return "; ".join(said)
