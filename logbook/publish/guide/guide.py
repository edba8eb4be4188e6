"""The guide of a release: what to get, what to mind, what to do in which order."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from pathlib import Path

from logbook.advice.ground.advice import STANDING
from logbook.publish.builders import defers, whose_builds
from logbook.publish.faults.newer import newer_than
from logbook.publish.faults.not_begun import not_begun
from logbook.publish.faults.open_faults import open_faults, still_open
from logbook.publish.faults.told import KnownFault, told
from logbook.publish.guide.decided import decided_of_no_part
from logbook.publish.guide.half_way import half_way
from logbook.publish.guide.history import corrected, history
from logbook.publish.guide.joints import joints
from logbook.publish.guide.other_screw import NOT_JUDGED
from logbook.publish.guide.other_sheet import other_sheet
from logbook.publish.guide.part_sheets import PartSheets, PartView
from logbook.publish.guide.parts_list import groups, listed, not_needed
from logbook.publish.guide.pictures import other_photos
from logbook.publish.guide.screw_holes import drills, in_no_joint, screw_holes
from logbook.publish.guide.since_before import since_before
from logbook.publish.guide.stand_ins import substitutes
from logbook.publish.guide.steps import Steps, StepView
from logbook.publish.guide.stock_needed import stock_needed
from logbook.publish.guide.time_taken import time_taken
from logbook.publish.guide.used_up import used_up
from logbook.publish.pages import render
from logbook.publish.parts.gaps import GapView, gap_view
from logbook.publish.parts.hours_told import hours_told
from logbook.publish.parts.money_told import money_told
from logbook.publish.release.released import Mark, Released
from logbook.publish.release.released_order import closes_too_soon
from logbook.publish.release.statements import stuff
from logbook.publish.release.trials import trials, tried_words
from logbook.publish.signals import (
    SIGNALS,
    Box,
    Caution,
    Spoken,
    as_one,
    of_instruction,
    of_the_whole,
)
from logbook.records.kinds import assembling
from logbook.records.kinds.made_public import Release
from logbook.records.states.statements import Form
from logbook.records.together.snapshot import Snapshot
from logbook.store.designs.shapes import Shape

KNOWN_FAULTS = "known-faults-of-this-release"
"""The anchor of the list of known faults."""


def write_guide(
    snapshot: Snapshot,
    release: Release,
    own_templates: Path | None = None,
    shapes: Mapping[str, Shape] | None = None,
    licence: str = "",
    names: Mapping[str, str] | None = None,
) -> str:
    """Write the guide of a release as Markdown; `shapes` are its files', by hash.

    `licence` names the files in the repository that hold one, `names` are those of the
    builders by their builds, where they are several.
    """
    facts = guide_facts(Released(snapshot, release), shapes or {})
    facts["licence_files"] = licence
    facts["defers"] = defers(names or {})
    facts["whose"] = whose_builds(snapshot, names or {})
    return render("guide.md.j2", facts, own_templates)


def guide_facts(released: Released, shapes: Mapping[str, Shape]) -> dict[str, object]:
    """Give what the template is filled with."""
    spoken = Spoken()
    whole = whole_cautions(released)
    spoken.before(whole, "before-you-start", "Before you start")
    lines = listed(released)
    sheets = PartSheets(released, spoken, shapes)
    parts = tuple(sheets.views())
    steps = Steps(released, lines, spoken)
    views = tuple(steps.views())
    # Cautions are said in full where the thing is made, not at what is optional.
    practice = tuple(sheets.practice())
    faults = tuple(told(released.snapshot, fault) for fault in released.faults)
    boxes = tuple(_before_cures(released, faults, spoken))
    return {
        **_head(released),
        **_known(released),
        **_rest(released),
        "faults": faults,
        "fault_boxes": boxes,
        "whole": whole,
        "signals": _used_signals(whole, (*parts, *practice), views, boxes),
        "tools": steps.tools(),
        "used_up": used_up(released),
        "holes": tuple(screw_holes(released, shapes)),
        "drills": tuple(drills(released, lines)),
        "in_no_joint": in_no_joint(released, lines),
        "sheets": other_sheet(released, lines, shapes),
        "stock": stock_needed(released, lines, shapes),
        "times": time_taken(released),
        "groups": groups(released, lines),
        "not_needed": not_needed(released, lines),
        "substitutes": substitutes(released, lines, shapes),
        "not_judged": NOT_JUDGED,
        "parts": parts,
        "practice": practice,
        "decided": tuple(decided_of_no_part(released.snapshot)),
        "steps": views,
        "too_soon": closes_too_soon(released.snapshot, released.release),
        "unused": steps.unused(),
    }


def _head(released: Released) -> dict[str, object]:
    """Give what stands before everything else: what it is, and how far it was tried."""
    snapshot, release = released.snapshot, released.release
    return {
        "project": snapshot.project,
        "release": release,
        "newer": newer_than(snapshot, release),
        "begun": not_begun(snapshot, release),
        "half": half_way(snapshot, release),
        "tried": tried_words(snapshot, release),
        "built_since": any(
            one.build.when > release.when for one in trials(snapshot, release)
        ),
        "hours": tuple(hours_told(snapshot)),
        "money": tuple(money_told(snapshot)),
        "out": f"as-built/published/{release.label}",
    }


def _known(released: Released) -> dict[str, object]:
    """Give where known faults are marked, and what may be wrong or was."""
    snapshot, release = released.snapshot, released.release
    return {
        "marked": released.numbers_marked,
        "open_faults": open_faults(snapshot, release),
        "still_open": still_open(snapshot, release),
        "corrected": tuple(corrected(released)),
    }


def _rest(released: Released) -> dict[str, object]:
    """Give what stands behind the steps: gaps, joints, revisions, pictures."""
    return {
        "gaps": tuple(_gaps(released)),
        "joints": tuple(joints(released)),
        "coming": tuple(since_before(released)),
        "history": tuple(history(released)),
        "photos": tuple(other_photos(released)),
        "standing": STANDING,
    }


def whole_cautions(released: Released) -> tuple[Caution, ...]:
    """Give what holds of the finished thing: by its name, its use and its parts."""
    project = released.snapshot.project
    words = [project.title, project.intended_use]
    for part in released.parts:
        made_of = stuff(released.snapshot, part, released.revision(part))
        words.append(f"{part.title} {made_of}")
    return of_the_whole(words)


def _before_cures(
    released: Released, faults: Iterable[KnownFault], spoken: Spoken
) -> Iterator[tuple[Box, ...]]:
    """Give for each fault what to mind at the work it asks for."""
    for number, fault in enumerate(faults, 1):
        lines = of_instruction(fault.works, stuff_called(released, fault.part))
        yield as_one(spoken.before(lines, KNOWN_FAULTS, f"known fault {number}"))


def stuff_called(released: Released, name: str) -> str:
    """Give what the part of this name is made of in the release; empty of none."""
    found = (part for part in released.parts if part.title == name)
    part = next(found, None)
    if part is None:
        return ""
    return stuff(released.snapshot, part, released.revision(part))


def _used_signals(
    whole: Iterable[Caution],
    parts: Iterable[PartView],
    steps: Iterable[StepView],
    cures: Iterable[tuple[Box, ...]],
) -> tuple[tuple[str, str], ...]:
    said = {caution.signal for caution in whole}
    boxes = (*(one.boxes for one in parts), *(one.boxes for one in steps), *cures)
    said |= {box.signal for some in boxes for box in some}
    return tuple((word, means) for word, means in SIGNALS.items() if word in said)


def _gaps(released: Released) -> Iterator[tuple[GapView, tuple[Mark, ...]]]:
    for statement in released.of(Form.GAP):
        gap = released.live(statement)
        view = (
            gap_view(released.snapshot, gap)
            if isinstance(gap, assembling.Fit)
            else GapView(statement.of.name, (statement.says,), ())
        )
        yield view, released.marked(statement.id)
