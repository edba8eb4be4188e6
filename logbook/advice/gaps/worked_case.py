"""A gap worked out for the pieces one means: what the piece made last has to be.

Before the rest is measured the last piece waits, with the chance if it were made
now and what carries the doubt. Afterwards its sizes are known. A gap whose
pieces are all there is told as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.advice.gaps.contributor import Known, Unknown
from logbook.advice.gaps.gap import Limits, work_gap
from logbook.advice.gaps.gap_case import Case
from logbook.advice.gaps.gap_told import case_advice
from logbook.advice.gaps.known import known
from logbook.advice.gaps.planned import DRAWN, by_hand, finishing
from logbook.advice.gaps.suiting import Suited, centred, suit
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import cost_words
from logbook.advice.ground.lengths import Shown, shown_in
from logbook.advice.ground.naming import Meant
from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import View
from logbook.errors import BadInput, Problem
from logbook.records.kinds.assembling import Fit
from logbook.records.kinds.design import Characteristic
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build, Piece
from logbook.shop.chains.formula import Formula

TARGET = 0.95
"""Chance of landing that is wanted where the project names none."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A gap as it is asked about: its names, what is made last, what is wanted."""

    fit: Fit
    formula: Formula
    names: tuple[Meant, ...]
    last: Characteristic | None
    wanted: Limits


def worked_case(
    view: View,
    asked: Asked,
    pieces: Mapping[str, Piece | None],
    piece: Piece | None,
    build: Build | None = None,
) -> Iterator[Advice | Problem]:
    """Say what a gap comes to with these pieces, by the names of its dimensions.

    `piece` is the one that stands in place of the newest, `build` another than at hand.
    """
    fit, last, wanted = asked.fit, asked.last, asked.wanted
    problems: list[Problem] = []
    found = [
        known(view, str(one.name), one.what, pieces[str(one.name)], problems, build)
        for one in asked.names
    ]
    yield from dict.fromkeys(problems)
    doubted = [one for one in found if isinstance(one, Unknown) and one.doubted]
    if doubted:
        yield _in_doubt(fit, doubted, found, last, _called(view, build))
        return
    try:
        found = _last_by_hand(asked, found)
        ones = [one for one in found if isinstance(one, Known)]
        missing = [one for one in found if isinstance(one, Unknown)]
        if missing and piece is not None:
            return  # Nothing can be said of an older piece, and of the newest it was.
        if missing:
            yield _not_known(fit, missing, last, _called(view, build))
            return
        made = next((one for one in ones if one.what is last), None)
        gap = work_gap(view, fit, asked.formula, ones, wanted)
        unit = fit.lower_limit.unit if fit.lower_limit else view.project.unit
        shown = shown_in(unit, _resolution(ones))
        suited = suit(view, fit, gap, ones, wanted, shown)
        if made is not None and made.read is not None:
            suited = _before_it_was_made(view, asked, made, ones, shown)
        case = Case(
            fit, tuple(ones), made, wanted, gap, suited, _target_of(view, fit), piece,
            shown, _called(view, build),
        )  # fmt: skip
    except BadInput as refusal:
        yield refused_gap(view, fit, refusal)
        return
    yield from case_advice(case)


def _before_it_was_made(
    view: View, asked: Asked, made: Known, ones: Sequence[Known], shown: Shown
) -> Suited | None:
    """Give the sizes that were wanted of the piece made last, before it was read."""
    planned = known(view, made.name, made.what, None, [])
    rest = [one if one is not made else planned for one in ones]
    again = _last_by_hand(asked, rest)
    sure = [one for one in again if isinstance(one, Known)]
    if len(sure) < len(again):
        return None
    gap = work_gap(view, asked.fit, asked.formula, sure, asked.wanted)
    return suit(view, asked.fit, gap, sure, asked.wanted, shown)


def _in_doubt(
    fit: Fit,
    doubted: Sequence[Unknown],
    found: Sequence[Known | Unknown],
    last: Characteristic | None,
    build: str,
) -> Advice:
    """Say which readings have to be settled first; what is not cut yet waits for it."""
    read = {one.what.id for one in found if isinstance(one, Known) and one.read}
    waits = last is not None and last.id not in read
    return replace(
        _not_known(fit, doubted, last, build),
        grade=Grade.WAIT if waits else Grade.CHECK,
        step=fit.step,
        changes=("the reading put right, or said to be so",),
    )


def _last_by_hand(
    asked: Asked, found: Sequence[Known | Unknown]
) -> list[Known | Unknown]:
    """Give the piece made last at its size where only a process or a size lacks."""
    rest = [one for one in found if one.what is not asked.last]
    sure = [one for one in rest if isinstance(one, Known)]
    done: list[Known | Unknown] = []
    for one in found:
        if one.what is not asked.last or (isinstance(one, Known) and one.read):
            done.append(one)
        elif isinstance(one, Known):
            done.append(one if one.coverage == DRAWN else finishing(one))
        else:
            size = one.nominal
            if size is None and len(sure) == len(rest):
                size = centred(asked.formula, sure, one.name, asked.wanted)
            done.append(one if size is None else by_hand(one, size))
    return done


def _called(view: View, build: Build | None) -> str:
    """Name the build meant, where there are several."""
    meant_ = build or view.build
    return meant_.title if meant_ and len(view.all(Build)) > 1 else ""


def _resolution(ones: Sequence[Known]) -> float | None:
    tools = [one.read.instrument for one in ones if one.read and one.read.instrument]
    known_ = [tool.resolution for tool in tools if tool.resolution]
    steps = [float(one.to("mm")) for one in known_ if one.dimension == "length"]
    return min(steps, default=None)


def _target_of(view: View, fit: Fit) -> float:
    """Give the chance that is wanted of a gap, 0 to 1."""
    told = fit.chance or view.project.target_chance
    return TARGET if told is None else float(told.to("%")) / 100


def _not_known(
    fit: Fit, missing: Sequence[Unknown], last: Characteristic | None, build: str
) -> Advice:
    """Say what has to be known first; a gap with nothing known is no advice."""
    said = "; ".join(one.sentence.partition("; accepted")[0] for one in missing)
    part = next((one.part for one in missing if one.what is last), None)
    called = f"{fit.title}, {build}" if build else fit.title
    return Advice(
        key=f"gap {fit.id}",
        topic="gaps",
        grade=Grade.REMARK,
        about=fit.ref,
        statement=f"{called}: cannot be worked out yet: {said}",
        inputs=(fit.ref, *(one.what.ref for one in missing)),
        formula=fit.formula,
        changes=("a reading, a drawn size with limits, or the process that makes it",),
        assumed=(cost_words(part),) if part else (),
    )


def refused_gap(view: View, fit: Fit, refusal: BadInput) -> Problem:
    """Say that a gap cannot be worked out as it is written."""
    return refused(view, fit, "formula", refusal, f"gap {fit.title}")
