"""The unit of design files that name none themselves, put on record as it was said."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import replace
from pathlib import Path

from logbook.errors import BadInput
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.making.drafts import Draft
from logbook.store.designs.design_files import Kind, kind_of
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Shape
from logbook.units import find_unit


def say_unit(
    draft: Draft, root: Path, part: Part, told: str, only: Collection[str] = ()
) -> None:
    """Put on record which unit the newest files of a part are in; of `only` some paths.

    `told` is a unit of length; empty takes away what was said.

    Raises:
        BadInput: none of the files lacks a unit.
    """
    newest = draft.revision(part)
    unit = find_unit(told).symbol if told else ""
    meant = [file for file in newest.files if not only or file.path in only]
    said = {file.path for file in meant if _names_none(root, file)}
    if unit and not said:
        which = ", ".join(file.path for file in meant)
        found = f"no file of {newest.title} lacks a unit"
        raise BadInput(
            f"{f'{which} names its unit itself' if only else found}; accepted: of a "
            "part drawn in an STL, or in an SVG or DXF that names none"
        )
    files = (
        replace(file, unit=unit) if file.path in said else file for file in newest.files
    )
    draft.amend(replace(newest, files=tuple(files)))


def _names_none(root: Path, file: DesignFile) -> bool:
    """Tell whether a file is one that leaves its unit unsaid."""
    if kind_of(file.path) is Kind.MESH:
        return not file.path.casefold().endswith((".3mf", ".amf"))
    shape = read_shape(root / file.path)
    return isinstance(shape, Shape) and not shape.unit
