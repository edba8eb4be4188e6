"""The design files of a repository, known by their content.

A file is known by the SHA-256 of its bytes; a text format also by that of its
text with LF ends, because git may hand out either. The same content on several
paths is one design file. Links, other repositories inside this one, and folders
of tools are not entered.
"""

from __future__ import annotations

import os
import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import StrEnum
from hashlib import sha256
from pathlib import Path

from logbook.errors import BadInput, Problem
from logbook.records.kinds.design import DesignFile as Recorded
from logbook.records.kinds.place import FOLDER
from logbook.records.written.shown_signs import is_utf8
from logbook.store.disk.flushed import reason
from logbook.store.reading.designs_below import has_own_logbook


class Kind(StrEnum):
    """What a design file is to the shop."""

    FLAT = "flat pattern"
    MESH = "mesh"
    MODEL = "model"
    BOARD = "board"
    PICTURE = "drawing"
    LIST = "list"
    SOURCE = "source"


_KINDS = {
    Kind.FLAT: "dxf dwg",
    Kind.MESH: "stl 3mf obj amf ply",
    Kind.MODEL: "step stp iges igs brep fcstd 3dm f3d f3z sldprt sldasm ipt iam "
    "par prt catpart x_t blend skp",
    Kind.BOARD: "kicad_pcb brd gbr ger gtl gbl gko",
    Kind.PICTURE: "svg pdf",
    Kind.LIST: "csv tsv ods xlsx xls",
    Kind.SOURCE: "scad py",
}
_KIND_OF = {ending: kind for kind, all_ in _KINDS.items() for ending in all_.split()}
_TEXTS = (
    "dxf stl obj step stp iges igs svg csv tsv scad py kicad_pcb gbr ger gtl gbl gko "
    "brd ply amf brep"
)
_TEXT = frozenset(_TEXTS.split())
_FOREIGN = frozenset({FOLDER, "node_modules", "__pycache__", "site-packages", "venv"})
_POINTER_BYTES = 1024
_POINTER = re.compile(
    rb"version https://git-lfs\.github\.com/spec/v1\n(?:[a-z0-9.-]+ [^\n]*\n)*?"
    rb"oid sha256:(?P<oid>[0-9a-f]{64})\n(?:[a-z0-9.-]+ [^\n]*\n)*?"
    rb"size (?P<size>[0-9]+)\n"
)


@dataclass(frozen=True, slots=True)
class DesignFile:
    """One content, and all the paths in the repository that hold it.

    `sha256` is that of the first path's bytes; `lf_sha256` that of its text with
    LF ends, empty for other formats. `here` is False for a content kept
    elsewhere, of which only the Git LFS pointer is here. `size` is in bytes.
    """

    paths: tuple[str, ...]
    kind: Kind
    sha256: str
    lf_sha256: str
    size: int
    here: bool = True

    @property
    def path(self) -> str:
        """The first of the paths."""
        return self.paths[0]


@dataclass(frozen=True, slots=True)
class _Content:
    sha256: str
    lf_sha256: str
    size: int
    here: bool


def ending(path: str) -> str:
    """Give what follows the last dot of a file name, in lower case, blanks dropped."""
    name = path.rpartition("/")[2].strip()
    return name.rpartition(".")[2].lower() if "." in name[1:] else ""


def kind_of(path: str) -> Kind | None:
    """Tell by its name what kind of design file `path` is, if any."""
    return _KIND_OF.get(ending(path))


def design_files(
    repository: Path, *, own: bool = False
) -> tuple[tuple[DesignFile, ...], tuple[Problem, ...]]:
    """Recognise the design files below `repository`; what cannot be read is told.

    `own` leaves out those of a design that has a logbook of its own below it.
    """
    contents: dict[str, tuple[list[str], _Content]] = {}
    problems = []
    for path in sorted(_candidates(repository, "", own=own)):
        if not is_utf8(path):
            problems.append(_unnameable(path))
            continue
        try:
            content = _content(repository / path, ending(path) in _TEXT)
        except OSError as error:
            found = f"a file that cannot be read ({reason(error)})"
            problems.append(Problem(path, 0, "", found, "a readable design file"))
            continue
        key = content.lf_sha256 or content.sha256
        contents.setdefault(key, ([], content))[0].append(path)
    files = (
        DesignFile(
            tuple(paths),
            _KIND_OF[ending(paths[0])],
            c.sha256,
            c.lf_sha256,
            c.size,
            c.here,
        )
        for paths, c in contents.values()
    )
    return tuple(files), tuple(problems)


def named_files(repository: Path) -> tuple[DesignFile, ...]:
    """Give the design files by their names, each path one, without reading any.

    Those of a design that has a logbook of its own below it are none of this one's.
    """
    return tuple(
        DesignFile((path,), _KIND_OF[ending(path)], "", "", 0)
        for path in sorted(_candidates(repository, "", own=True))
        if is_utf8(path)
    )


def _unnameable(path: str) -> Problem:
    shown = path.encode("utf-8", "replace").decode()
    accepted = "a name in UTF-8: rename it, and it can be of a part"
    return Problem(shown, 0, "", "a name that is not UTF-8", accepted)


def recorded(repository: Path, files: Iterable[DesignFile]) -> tuple[Recorded, ...]:
    """Give design files as a revision records them, read now if not before.

    A file that cannot be read is left out.
    """
    found = []
    for file in files:
        sha256_, text = file.sha256, file.lf_sha256
        if not sha256_:
            try:
                read = _content(repository / file.path, ending(file.path) in _TEXT)
            except OSError:
                continue
            sha256_, text = read.sha256, read.lf_sha256
        found.append(Recorded(path=file.path, sha256=sha256_, text_sha256=text))
    return tuple(found)


def hashed(file: Path) -> Recorded:
    """Give any one file as a revision would record it.

    Raises:
        BadInput: it cannot be read.
    """
    try:
        content = _content(file, ending(file.name) in _TEXT)
    except OSError as error:
        raise BadInput(
            f"{file} cannot be read ({reason(error)}); accepted: a file that is here"
        ) from None
    return Recorded(
        path=file.as_posix(), sha256=content.sha256, text_sha256=content.lf_sha256
    )


def _candidates(repository: Path, below: str, *, own: bool) -> Iterator[str]:
    try:
        with os.scandir(repository / below) as entries:
            found = list(entries)
    except OSError:
        return
    if below and any(entry.name in (".git", "pyvenv.cfg") for entry in found):
        return
    if own and below and has_own_logbook(repository / below):
        return
    for entry in found:
        path = f"{below}/{entry.name}" if below else entry.name
        if entry.name.startswith(".") or entry.name in _FOREIGN:
            continue
        if entry.is_dir(follow_symlinks=False):
            yield from _candidates(repository, path, own=own)
        elif entry.is_file(follow_symlinks=False) and kind_of(entry.name):
            yield path


def _content(file: Path, text: bool) -> _Content:  # noqa: FBT001
    """Hash a file piece by piece: models can be larger than memory."""
    raw, plain, size, held = sha256(), sha256(), 0, b""
    with file.open("rb") as stream:
        piece = stream.read(1 << 20)
        if pointer := _pointer(piece):
            return pointer
        text = text and b"\0" not in piece[:8192]
        while piece:
            raw.update(piece)
            size += len(piece)
            if text:
                piece, held = held + piece, b""
                if piece.endswith(b"\r"):
                    piece, held = piece[:-1], b"\r"
                plain.update(piece.replace(b"\r\n", b"\n"))
            piece = stream.read(1 << 20)
    plain.update(held)
    return _Content(raw.hexdigest(), plain.hexdigest() if text else "", size, here=True)


def _pointer(data: bytes) -> _Content | None:
    """Read a Git LFS pointer (Git LFS specification, "The Pointer")."""
    if len(data) >= _POINTER_BYTES or not (match := _POINTER.fullmatch(data)):
        return None
    return _Content(match["oid"].decode(), "", int(match["size"]), here=False)


def recorded_files(root: Path) -> dict[str, Recorded]:
    """Give each design file below `root`, by path, as a revision records it now."""
    found, _problems = design_files(root)
    return {
        path: Recorded(path=path, sha256=one.sha256, text_sha256=one.lf_sha256)
        for one in found
        for path in one.paths
    }
