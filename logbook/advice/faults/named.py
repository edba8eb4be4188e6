"""What of a release a known fault names: its statements, or its words alone.

A fault told in plain words names a file, a step, or the line of its part; as long
as that says the same in a later release, the fault is in that release too.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.records.kinds import assembling, design
from logbook.records.kinds.made_public import Erratum, Release
from logbook.records.states.statements import Form, identity, statement_id
from logbook.records.together.references import is_of
from logbook.records.together.revisions import revisions_in
from logbook.records.together.snapshot import Snapshot

_FILE = re.compile(r"(?i)\b(?:files?|mesh|drawings?|models?|stl|dxf|cad)\b")
_LIST = re.compile(r"(?i)\b(?:lists?|listed)\b")
_STEP = re.compile(r"(?i)\bstep\s+(\d+)\b")


def named_statements(
    snapshot: Snapshot, erratum: Erratum, release: Release
) -> tuple[str, ...]:
    """Give the ids of the statements of a release that a fault names."""
    if erratum.statements:
        return tuple(identity(one) for one in erratum.statements)
    words = erratum.title.casefold()
    files = [
        statement_id(Form.FILE, revision.ref, file.path)
        for revision in revisions_in(snapshot, release)
        for file in revision.files
        if _says(words, file.path)
    ]
    steps = [
        statement_id(Form.STEP, step.ref)
        for step in snapshot.all(assembling.Step)
        if step.title.casefold() in words
    ]
    numbered = _numbered(snapshot, erratum, release)
    found = (*files, *steps, *numbered) or tuple(_of_part(snapshot, erratum, release))
    said = {one.id for one in release.statements}
    return tuple(dict.fromkeys(one for one in found if one in said))


def with_name(snapshot: Snapshot, statement: str) -> str:
    """Give a statement's id with what it is before it, as a reader of the file needs.

    Only its id where no release has it.
    """
    for release in reversed(snapshot.all(Release)):
        for one in release.statements:
            if one.id == identity(statement):
                what = one.of.name
                if one.form == Form.FILE:
                    what = one.says.partition(": ")[2].partition(", ")[0] or what
                return f"{one.form}: {what} {one.id}"
    return statement


def _numbered(snapshot: Snapshot, erratum: Erratum, release: Release) -> Iterator[str]:
    """Give the ids of the steps told by number, as numbered where it was told."""
    told = [one for one in snapshot.all(Release) if one.label in erratum.releases]
    steps = [one.id for one in (told[-1] if told else release).statements
             if one.form == Form.STEP]  # fmt: skip
    for number in map(int, _STEP.findall(erratum.title)):
        yield from steps[number - 1 : number] if number else ()


def _says(words: str, path: str) -> bool:
    name = re.escape(path.rpartition("/")[2].casefold())
    return re.search(rf"(?<![\w.-]){name}(?![\w-])", words) is not None


def _of_part(snapshot: Snapshot, erratum: Erratum, release: Release) -> Iterator[str]:
    """Give the ids of what is read of a fault's part.

    Its lines, or the part itself; its files where the words tell of a file, else,
    unless they tell of the list, the steps that make or take it.
    """
    part = snapshot.find(erratum.part, design.Part)
    if part is None:
        return
    lines = [line for line in snapshot.all(assembling.Line) if is_of(line.part, part)]
    for one in lines or (part,):
        yield statement_id(Form.LINE, one.ref)
    if _FILE.search(erratum.title):
        for revision in revisions_in(snapshot, release):
            for file in revision.files if is_of(revision.part, part) else ():
                yield statement_id(Form.FILE, revision.ref, file.path)
        return
    for step in () if _LIST.search(erratum.title) else snapshot.all(assembling.Step):
        if any(is_of(ref, part) for ref in (step.makes, *step.uses) if ref):
            yield statement_id(Form.STEP, step.ref)


def told_first(
    snapshot: Snapshot, erratum: Erratum, release: Release
) -> Release | None:
    """Give the newest release before this one that a fault is said to be in."""
    before = [
        one
        for one in snapshot.all(Release)
        if one.label in erratum.releases and one.when < release.when
    ]
    return before[-1] if before else None


def says_the_same(
    snapshot: Snapshot, erratum: Erratum, before: Release, release: Release
) -> bool:
    """Tell whether anything that a fault names stayed as it was in `before`."""
    old = _things(snapshot, erratum, before)
    new = _things(snapshot, erratum, release)
    return any(new.get(name) == content for name, content in old.items())


def step_changed(named: tuple[str, ...], before: Release, release: Release) -> bool:
    """Tell whether a step that a fault names is still there and says something else.

    A step changes for many reasons, so that alone does not say it was put right.
    """
    was = {one.id: one.sha256 for one in before.statements if one.form == Form.STEP}
    return any(
        one.id in named and one.id in was and was[one.id] != one.sha256
        for one in release.statements
    )


def _things(snapshot: Snapshot, erratum: Erratum, release: Release) -> dict[str, str]:
    """Give the content hash of each thing named; a file by its path."""
    named = set(named_statements(snapshot, erratum, release))
    paths = {
        statement_id(Form.FILE, revision.ref, file.path): file.path
        for revision in revisions_in(snapshot, release)
        for file in revision.files
    }
    hashes = {file.path: file.sha256 for file in release.files}
    return {
        paths.get(one.id, one.id): hashes.get(paths.get(one.id, ""), one.sha256)
        for one in release.statements
        if one.id in named
    }
