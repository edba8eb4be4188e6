"""What builders will ask of a release that its pages cannot answer, and how to tell it.

Only what is on nobody's record: the guide says of each that nobody has said it.
"""

from __future__ import annotations

import shlex
from collections.abc import Iterable, Iterator, Mapping, Sequence

from logbook.advice.changes.compensated import compensation_words
from logbook.counting import first_few
from logbook.publish.guide.other_sheet import other_sheet
from logbook.publish.guide.parts_list import Listed, listed
from logbook.publish.guide.screw_holes import UNSAID, in_no_joint, lacking_holes
from logbook.publish.guide.tools_used import without_tool
from logbook.publish.parts.asbuilt import without_settings
from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.words import Source
from logbook.records.states.statements import Form
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.shapes import Shape

HEADING = f"builders will ask, and the guide says that {UNSAID}:"
_MOST = 4


def unanswered(
    snapshot: Snapshot, release: Release, shapes: Mapping[str, Shape]
) -> Iterator[str]:
    """Say it in one line for each kind of question; the release may be unsaved."""
    released = Released(snapshot, release)
    lines = listed(released)
    yield from _of_joints(released, lines)
    for part, lacks in lacking_holes(released, shapes):
        yield f"which hole is for which screw: {part.title}, {lacks}"
    yield from _of_stock(released, lines, shapes)
    yield from _of_purchases(lines)
    if made := without_tool(released):
        yield (
            f"on which machine or with which tools, for {_named(made)}: "
            f"logbook step NAME --tool TOOL --instead 'OTHER: untried'"
        )
    yield from _of_files(released)
    yield from _of_fits(released)


def _of_joints(released: Released, lines: tuple[Listed, ...]) -> Iterator[str]:
    joints = [
        joint
        for statement in released.of(Form.JOINT)
        if isinstance(joint := released.live(statement), Joint)
    ]
    into = [one.title for one in joints if not (one.nut or one.thread_depth)]
    tight = [
        one.title
        for one in joints
        if not (one.torque or one.torque_result or one.preload)
    ]
    if into:
        yield (
            f"what the screw goes into, so whether it is long enough: "
            f"{_quoted(into)}: logbook joint {shlex.quote(into[0])} --nut "
            "plain, or --thread-depth"
        )
    if tight:
        yield (
            f"how tight: {_quoted(tight)}: logbook joint "
            f"{shlex.quote(tight[0])} --torque, or --torque-result 'by hand'"
        )
    if loose := in_no_joint(released, lines):
        yield f"what {_named(loose)} holds: on the list, in no joint"


def _of_stock(
    released: Released, lines: tuple[Listed, ...], shapes: Mapping[str, Shape]
) -> Iterator[str]:
    views, unsaid = other_sheet(released, lines, shapes)
    parts = [*(one.part for one in views if one.may_be == UNSAID), *unsaid]
    if parts:
        yield (
            f"how far the thickness may differ: {_named(parts)}: logbook line "
            f"{shlex.quote(parts[0])} --critical 'thickness free, 1.5 to 2.5 mm'"
        )


def _of_purchases(lines: Iterable[Listed]) -> Iterator[str]:
    bare = [
        line.name
        for line in lines
        if line.said.source is Source.BOUGHT
        and not (line.dropped or line.said.bought_as or line.said.material)
    ]
    if names := tuple(dict.fromkeys(bare)):
        yield (
            f"as what to buy: {_named(names)}: logbook line "
            f"{shlex.quote(names[0])} --bought-as"
        )


def _of_files(released: Released) -> Iterator[str]:
    """Ask what a file allows for already, and with which settings it is printed."""
    snapshot, files, prints = released.snapshot, [], []
    for part in released.needed:
        revision = released.revision(part)
        if revision and compensation_words(snapshot, revision).startswith(UNSAID):
            files.append(part.title)
        if without_settings(snapshot, part, revision):
            prints.append(part.title)
    if files:
        yield (
            f"what the file allows for already, kerf or shrinkage: {_named(files)}: "
            f"logbook part {shlex.quote(files[0])} --compensated nominal"
        )
    if prints:
        yield (
            f"with which settings it is printed: {_named(prints)}: logbook piece "
            f"{shlex.quote(prints[0])} --set walls=4 --set 'which way up=face down'"
        )


def _of_fits(released: Released) -> Iterator[str]:
    """Ask which older parts a changed revision fits, while that can still be said."""
    before = {
        ref.id
        for one in released.snapshot.all(Release)
        if one.id != released.release.id
        for ref in one.revisions
    }
    bare = [
        one
        for one in released.revisions
        if one.follows and not one.mates_with and one.id not in before
    ]
    if bare:
        names = _named([one.title for one in bare])
        yield (
            f"what it still fits: {names}: logbook revise "
            f"{shlex.quote(bare[0].part.name)} --redrawn --mates 'base first issue or "
            "later'"
        )


def _named(names: Sequence[str]) -> str:
    return first_few(names, _MOST)


def _quoted(names: Sequence[str]) -> str:
    return first_few([f"“{name}”" for name in names], _MOST)
