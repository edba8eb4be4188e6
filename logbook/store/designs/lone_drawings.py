"""Drawings that are about the whole, or about nothing that is made.

A drawing with no model beside it is often that of a part cut out of sheet; a logo, a
wiring diagram or a manual is not. They are told apart by the words of their names and
of their folders: common practice, no source.
"""

from __future__ import annotations

import re

from logbook.store.designs.design_files import Kind, ending, kind_of

_WORDS = (
    "assembly badge bom circuit cover datasheet diagram drawing drawings exploded "
    "favicon fig figure guide icon instruction instructions layout licence license "
    "logo manual nesting notes overview photo picture pinout plan plans poster readme "
    "render schematic schematics screenshot sketch view views wiring"
)
_FOLDERS = (
    "assets datasheets doc docs documentation figures icons image images img manual "
    "manuals media photos pics pictures screenshots wiring"
)
_ABOUT_ALL = frozenset(_WORDS.split())
_BESIDE_ALL = frozenset(_FOLDERS.split())


def of_the_whole(path: str) -> bool:
    """Tell by its path that a drawing is hardly that of one part."""
    *folders, name = path.casefold().split("/")
    words = re.findall(r"[^\W\d_]+", name)
    return not _ABOUT_ALL.isdisjoint(words) or not _BESIDE_ALL.isdisjoint(folders)


def may_draw_a_part(path: str) -> bool:
    """Tell by its path that a design file may be the drawing or model of a part."""
    kind = kind_of(path)
    if kind is Kind.PICTURE:
        return not of_the_whole(path)
    return kind not in (None, Kind.LIST) and ending(path) != "py"
