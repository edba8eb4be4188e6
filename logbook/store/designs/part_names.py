"""Which part and which revision a design file's name speaks of.

Names are what people typed: `Z-Motor_Mount V1.2.STL`, `1001_baseplate_A.dxf`,
`lid (left).step`. Revision marks, drawing numbers and signs are set apart;
left and right, top and rear stay in the name, since they are different parts.
A proposal is only that: what is doubtful about it is said, with what it was taken for.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from logbook.records.kinds.ids import formula_name
from logbook.records.together.labels import LETTERS
from logbook.store.designs.design_files import DesignFile, Kind, ending
from logbook.store.designs.lone_drawings import of_the_whole

_EDGE = " _-.,;:#()[]"
_SPOKEN = r"(?:v|ver|version|rev|revision)[ _.-]{0,2}"
_NUMBERED = rf"{_SPOKEN}(?:[0-9]+(?:[._][0-9]+)*[a-z]?)"
_LETTERED = r"(?:rev|revision)[ _.-]{0,2}[a-z]{1,2}"
_MARK = rf"(?P<label>{_NUMBERED}|{_LETTERED})"
_AT_END = re.compile(
    rf"(?:^|[ _\-.,(\[]|(?<=[a-z0-9)])(?=(?-i:V)[0-9])){_MARK}[)\]]?$", re.IGNORECASE
)
_WHOLE = re.compile(_MARK, re.IGNORECASE)
_LETTER = re.compile(rf"(?<=[a-z0-9)])[_-](?P<label>[{LETTERS}])$")
_SHORT = re.compile(r"[ _-](?P<label>[rR][0-9]{1,2})$")
_WORD = re.compile(
    r"(?:^|[ _\-.)(])\(?(?P<label>new|old|final|latest)\)?$", re.IGNORECASE
)
_NUMBER = re.compile(
    r"^(?P<number>[0-9]{2,}(?:[.-][0-9]{2,})*)"
    r"(?:[ _]+[-_ ]*|-[ _]+|[-_]+(?=[^0-9]))(?=\D)"
)
_SIDES = frozenset("LR")
_LAYER = re.compile(
    r"[-_.](?:[FB][_.](?:Cu|Mask|Paste|SilkS|Silkscreen|Fab|CrtYd)"
    r"|Edge[_.]Cuts|In[0-9]+[_.]Cu)$",
    re.IGNORECASE,
)
_NO_PART = (Kind.LIST, Kind.SOURCE, Kind.PICTURE)


@dataclass(frozen=True, slots=True)
class FileName:
    """A file name taken apart; all but `title` may be empty."""

    title: str
    number: str = ""
    label: str = ""
    guessed: bool = False

    @property
    def key(self) -> str:
        """What two names of one part have in common."""
        return " ".join((self.number, *_words(self.title)))


@dataclass(frozen=True, slots=True)
class ProposedRevision:
    """Files that define one revision; `label` is empty where no name has a mark."""

    label: str
    files: tuple[DesignFile, ...]


@dataclass(frozen=True, slots=True)
class ProposedPart:
    """A part read out of file names: `name` for formulas, `title` for people.

    Revisions run from the oldest to the newest; `doubts` say what was taken for what,
    which may be otherwise; nothing of it is asked.
    """

    name: str
    title: str
    number: str
    revisions: tuple[ProposedRevision, ...]
    doubts: tuple[str, ...] = ()

    @property
    def only_drawn(self) -> bool:
        """Whether nothing but a drawing tells of it: it may be no part at all."""
        files = (file for one in self.revisions for file in one.files)
        return all(file.kind in _NO_PART for file in files)

    @property
    def paths(self) -> tuple[str, ...]:
        """The paths of its files, as the names sort the revisions."""
        return tuple(file.path for one in self.revisions for file in one.files)


def read_name(path: str) -> FileName:
    """Take the name of a design file apart into title, number and revision label."""
    folder, _, name = path.rpartition("/")
    stem = name.strip()
    stem = stem[: -len(ending(name)) - 1] if ending(name) else stem
    stem = _LAYER.sub("", stem.strip()).strip(" _-.,")
    stem, label, guessed = _without_mark(stem)
    number = _NUMBER.match(stem)
    title = stem[number.end() :] if number else stem
    inner = folder.rpartition("/")[2]
    if not label and _WHOLE.fullmatch(inner):
        label = inner
    title = " ".join(re.sub(r"[_()\[\]]", " ", title).split()).strip(_EDGE)
    if not any(sign.isalpha() for sign in title):
        return FileName(stem.strip(_EDGE) or name or "part", "", label, guessed)
    return FileName(title, number["number"] if number else "", label, guessed)


def propose_parts(
    files: Iterable[DesignFile], *, drawings: bool = False
) -> tuple[ProposedPart, ...]:
    """Propose a part for each design file, files of one name together.

    Lists, sources and drawings alone make no part: a drawing of a part that has
    a model goes with it. With `drawings`, one alone makes a part too, as of a sheet
    that is cut by it, unless its name says that it is about the whole.
    """
    groups: dict[str, list[tuple[FileName, DesignFile]]] = {}
    for file in files:
        name = read_name(file.path)
        groups.setdefault(name.key, []).append((name, file))
    parts = [
        part
        for _, group in sorted(groups.items())
        if any(_makes_part(file, drawings=drawings) for _, file in group)
        for part in _apart(group)
    ]
    return tuple(_with_own_names(parts))


def _makes_part(file: DesignFile, *, drawings: bool) -> bool:
    if drawings and file.kind is Kind.PICTURE:
        return not of_the_whole(file.path)
    return file.kind not in _NO_PART


def _without_mark(stem: str) -> tuple[str, str, bool]:
    for pattern in (_AT_END, _SHORT, _WORD, _LETTER):
        match = pattern.search(stem)
        if match and (before := stem[: match.start()].strip(" _-.,")):
            if pattern is _LETTER and match["label"] in _SIDES:
                continue
            return before, match["label"], pattern is not _AT_END
    return stem, "", False


def _apart(group: Sequence[tuple[FileName, DesignFile]]) -> Iterator[ProposedPart]:
    """Make one part of files with one name, or one a folder where they clash."""
    slots = [(name.label, ending(file.path)) for name, file in group]
    folders = {file.path.rpartition("/")[0] for _, file in group}
    if len(set(slots)) == len(slots) or len(folders) == 1:
        yield _part(group)
        return
    by_folder = sorted(group, key=lambda one: one[1].path.rpartition("/")[0])
    for folder, some in groupby(by_folder, lambda one: one[1].path.rpartition("/")[0]):
        yield _part(list(some), folder.rpartition("/")[2])


def _part(
    group: Sequence[tuple[FileName, DesignFile]], folder: str = ""
) -> ProposedPart:
    ordered = sorted(group, key=lambda one: (_age(one[0].label), one[1].path))
    revisions = tuple(
        ProposedRevision(label, tuple(file for _, file in some))
        for label, some in groupby(ordered, lambda one: one[0].label)
    )
    newest = ordered[-1][0]
    title = f"{folder} {newest.title}".strip()
    return ProposedPart(
        formula_name(title), title, newest.number, revisions, tuple(_doubts(ordered))
    )


def _doubts(ordered: Sequence[tuple[FileName, DesignFile]]) -> Iterator[str]:
    guessed = sorted({name.label for name, _ in ordered if name.guessed})
    if guessed:
        marks = ", ".join(f"“{label}”" for label in guessed)
        yield f"{marks} is taken for a revision; it may belong to the name"
    slots: dict[tuple[str, str], str] = {}
    for name, file in ordered:
        for other in file.paths[1:]:
            if read_name(other).key != name.key:
                yield f"{other} has the same content: taken as one part of two names"
        slot = (name.label, ending(file.path))
        if slot in slots:
            yield f"{slots[slot]} and {file.path} differ: taken as one revision"
        slots[slot] = file.path


def _age(label: str) -> tuple[int, tuple[int, ...], str]:
    """Sort labels from old to new: old, none, numbers and letters, new, final."""
    word = label.casefold()
    rank = {"old": 0, "": 1, "new": 3, "latest": 4, "final": 5}.get(word, 2)
    numbers = tuple(int(digits) for digits in re.findall(r"[0-9]+", label))
    return rank, numbers, word


def _with_own_names(parts: Sequence[ProposedPart]) -> Iterator[ProposedPart]:
    """Tell apart parts whose names would be the same, and say that they may be one."""
    taken: dict[str, ProposedPart] = {}
    for part in sorted(parts, key=lambda part: (part.number != "", part.title)):
        name, doubts = part.name, part.doubts
        if (other := taken.get(name)) and _words(other.title) == _words(part.title):
            paths = f"{_first(other)} and {_first(part)}"
            doubts = (*doubts, f"{paths}: taken as two parts; if one, take one number")
        if name in taken and part.number:
            name = f"{part.name}_{part.number}".replace("-", "_").replace(".", "_")
        count = 2
        while name in taken:
            name, count = f"{part.name}_{count}", count + 1
        made = replace(part, name=name, doubts=doubts)
        taken[name] = made
        yield made


def _first(part: ProposedPart) -> str:
    return part.revisions[0].files[0].path


def _words(title: str) -> list[str]:
    return re.findall(r"[^\W_]+", title.casefold())
