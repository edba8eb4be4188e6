"""The unit of a part's design files that name none themselves, as the shell is told."""

from __future__ import annotations

import argparse
from dataclasses import replace
from pathlib import Path

from logbook.errors import BadInput
from logbook.records.kinds.design import DesignFile, Part
from logbook.records.making.drafts import Draft
from logbook.store.designs.design_files import Kind, kind_of
from logbook.store.designs.shape_files import read_shape
from logbook.store.designs.shapes import Shape
from logbook.units import find_unit, is_length


def file_unit_option(parser: argparse.ArgumentParser) -> None:
    """Declare the option."""
    parser.add_argument(
        "--file-unit",
        help="what its files are drawn in that name no unit themselves: mm, in, m",
    )


def say_unit(draft: Draft, root: Path, part: Part, told: str) -> None:
    """Put on record which unit the newest files of a part are in; `told` may be empty.

    Raises:
        BadInput: it is no unit of length, or no file of the part lacks one.
    """
    newest = draft.revision(part)
    if told and not is_length(told):
        raise BadInput(f"--file-unit: found “{told}”; accepted: mm, cm, m, in or ft")
    unit = find_unit(told).symbol if told else ""
    files = tuple(
        replace(file, unit=unit) if _names_none(root, file) else file
        for file in newest.files
    )
    if unit and all(not file.unit for file in files):
        raise BadInput(
            f"--file-unit {told}: no file of {newest.title} lacks a unit; accepted: a "
            "part drawn in an STL, or in an SVG or DXF that names none"
        )
    draft.amend(replace(newest, files=files))


def _names_none(root: Path, file: DesignFile) -> bool:
    """Tell whether a file is one that leaves its unit unsaid."""
    if kind_of(file.path) is Kind.MESH:
        return not file.path.casefold().endswith((".3mf", ".amf"))
    shape = read_shape(root / file.path)
    return isinstance(shape, Shape) and not shape.unit
