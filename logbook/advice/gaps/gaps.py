"""Made to suit: what each gap is now, and what the piece made last has to be.

Before the rest is measured the last piece waits, with the chance if it were made
now and what carries the doubt. Afterwards its sizes are known. A gap whose
pieces are all there is told as it is.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from logbook.advice.gaps.circles import circle_of
from logbook.advice.gaps.contributor import (
    DRAWN,
    Known,
    Unknown,
    by_hand,
    candidates,
    finishing,
    known,
)
from logbook.advice.gaps.gap import Limits, limits_of, work_gap
from logbook.advice.gaps.gap_case import Case
from logbook.advice.gaps.gap_told import case_advice
from logbook.advice.gaps.suiting import Suited, centred, suit
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.cost import cost_words
from logbook.advice.ground.lengths import Shown, shown_in
from logbook.advice.ground.naming import Meant, formula_of, meant
from logbook.advice.ground.refusing import refused
from logbook.advice.ground.register import View
from logbook.advice.pieces.readings import measured
from logbook.advice.steps.holds import gone_past
from logbook.errors import BadInput, Problem
from logbook.records.kinds.assembling import Fit, Step
from logbook.records.kinds.design import Characteristic, Revision
from logbook.records.kinds.words import Grade
from logbook.records.kinds.workshop import Build, Piece
from logbook.records.together.references import refers
from logbook.records.together.revisions import is_withdrawn, revisions_of, shown_label
from logbook.shop.chains.formula import Formula

TARGET = 0.95
"""Chance of landing that is wanted where the project names none."""
MOST_PIECES = 8
"""Pieces of one part that are looked at beside the newest."""


def gap_advice(view: View, fit: Fit) -> Iterator[Advice | Problem]:
    """Say what a gap comes to, for the newest pieces and for others on hand."""
    try:
        formula = formula_of(fit.formula)
        wanted = limits_of(fit)
        names = [meant(view, name) for name in formula.names]
    except BadInput as refusal:
        yield _refused(view, fit, refusal)
        return
    for one in names:
        if one.renamed:
            found = f"{one.name}, which is called {one.renamed} now"
            yield _problem(view, fit, "formula", found, one.renamed)
    last = view.find(fit.made_last, Characteristic)
    if fit.made_last and last not in [one.what for one in names]:
        found = f"{fit.made_last}, which {fit.formula} does not contain"
        yield _problem(view, fit, "made_last", found, "a dimension of the formula")
        return
    circle = circle_of(view, fit)
    if circle:
        named = " and ".join(f"{one.title} {one.id}" for one in circle)
        found = f"{named} wait for each other: each makes last what the next one needs"
        yield _problem(
            view, fit, "made_last", found, "one of them made before the rest"
        )
        return
    yield from _withdrawn(view, fit, names)
    asked = _Asked(fit, formula, tuple(names), last, wanted)
    passed = gone_past(view, view.find(fit.step, Step), fit.title)
    for said in _all_cases(view, asked):
        if passed and isinstance(said, Advice):
            yield replace(said, passed=passed)
        else:
            yield said


def _problem(view: View, fit: Fit, field: str, found: str, accepted: str) -> Problem:
    return Problem(view.path(fit), 0, field, f"gap {fit.title}: {found}", accepted)


def _refused(view: View, fit: Fit, refusal: BadInput) -> Problem:
    return refused(view, fit, "formula", refusal, f"gap {fit.title}")


def _withdrawn(view: View, fit: Fit, names: Sequence[Meant]) -> Iterator[Problem]:
    for one in {one.part.id: one for one in names}.values():
        line = revisions_of(view, one.part)
        used = [
            view.find(piece.revision, Revision)
            for piece in candidates(view, one.part, one.name.place)[-1:]
        ]
        used = [r for r in used if r] or list(line[-1:])
        for revision in used:
            if is_withdrawn(view, revision):
                found = f"{one.part.title} {shown_label(revision)}, which was withdrawn"
                accepted = "a piece of a revision that stands"
                yield _problem(view, fit, "formula", found, accepted)


@dataclass(frozen=True, slots=True)
class _Asked:
    """A gap as it is asked about: its names, what is made last, what is wanted."""

    fit: Fit
    formula: Formula
    names: tuple[Meant, ...]
    last: Characteristic | None
    wanted: Limits


def _all_cases(view: View, asked: _Asked) -> Iterator[Advice | Problem]:
    """Look at the newest pieces, then at each other piece in place of the newest."""
    fit, names, last = asked.fit, asked.names, asked.last
    chosen: dict[str, Piece | None] = {}
    others: list[tuple[str, Piece]] = []
    for one in names:
        found = candidates(view, one.part, one.name.place)
        taken = [p for p in found if p.place and one.name.place]
        if len(taken) > 1:
            which = " and ".join(piece.title for piece in taken)
            place = one.name.place.replace("_", " ")
            yield _problem(
                view, fit, "formula", f"{which} both at {place}", "one piece at a place"
            )
            return
        chosen[str(one.name)] = found[-1] if found else None
        if one.what is not last:
            others += [(str(one.name), piece) for piece in found[:-1][-MOST_PIECES:]]
    seen: set[Advice | Problem] = set()
    cases = [(chosen, None), *_swapped(names, chosen, others)]
    for pieces, piece in cases:
        for said in _case(view, asked, pieces, piece):
            if said not in seen:
                seen.add(said)
                yield said
    yield from _other_builds(view, asked)


def _swapped(
    names: Sequence[Meant],
    chosen: Mapping[str, Piece | None],
    others: Sequence[tuple[str, Piece]],
) -> Iterator[tuple[dict[str, Piece | None], Piece | None]]:
    """Give the pieces with each other one in place of the newest of its part."""
    for name, piece in others:
        part = next(one.part for one in names if str(one.name) == name)
        yield (
            {
                str(one.name): piece if one.part is part else chosen[str(one.name)]
                for one in names
            },
            piece,
        )


def _other_builds(view: View, asked: _Asked) -> Iterator[Advice | Problem]:
    """Say how the gap came out in builds whose pieces were all read."""
    for build in view.all(Build):
        if build is view.build:
            continue
        pieces: dict[str, Piece | None] = {}
        for one in asked.names:
            found = candidates(view, one.part, one.name.place, build)
            own = [p for p in found if p.build and refers(view, p.build, build)]
            read = (p for p in reversed(own) if measured(view, p, one.what)[0])
            newest = next(read, None)
            if newest is None:
                break
            pieces[str(one.name)] = newest
        else:
            for said in _case(view, asked, pieces, None, build):
                if isinstance(said, Advice):
                    key = f"gap {asked.fit.id} {build.id}"
                    yield replace(said, key=key, grade=Grade.REMARK)


def _case(
    view: View,
    asked: _Asked,
    pieces: Mapping[str, Piece | None],
    piece: Piece | None,
    build: Build | None = None,
) -> Iterator[Advice | Problem]:
    fit, last, wanted = asked.fit, asked.last, asked.wanted
    problems: list[Problem] = []
    found = [
        known(view, str(one.name), one.what, pieces[str(one.name)], problems)
        for one in asked.names
    ]
    yield from dict.fromkeys(problems)
    doubted = [one for one in found if isinstance(one, Unknown) and one.doubted]
    if doubted:
        yield _in_doubt(fit, doubted, found, last)
        return
    try:
        found = _last_by_hand(asked, found)
        ones = [one for one in found if isinstance(one, Known)]
        missing = [one for one in found if isinstance(one, Unknown)]
        if missing:
            yield _not_known(fit, missing, last)
            return
        made = next((one for one in ones if one.what is last), None)
        gap = work_gap(view, fit, asked.formula, ones, wanted)
        unit = fit.lower_limit.unit if fit.lower_limit else view.project.unit
        shown = shown_in(unit, _resolution(ones))
        suited = suit(view, fit, gap, ones, wanted, shown)
        if made is not None and made.read is not None:
            suited = _before_it_was_made(view, asked, made, ones, shown)
        case = Case(
            fit, tuple(ones), made, wanted, gap, suited, target_of(view, fit), piece,
            shown, _called(view, build),
        )  # fmt: skip
    except BadInput as refusal:
        yield _refused(view, fit, refusal)
        return
    yield from case_advice(case)


def _before_it_was_made(
    view: View, asked: _Asked, made: Known, ones: Sequence[Known], shown: Shown
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
) -> Advice:
    """Say which readings have to be settled first; what is not cut yet waits for it."""
    read = {one.what.id for one in found if isinstance(one, Known) and one.read}
    waits = last is not None and last.id not in read
    return replace(
        _not_known(fit, doubted, last),
        grade=Grade.WAIT if waits else Grade.CHECK,
        step=fit.step,
        changes=("the reading put right, or said to be so",),
    )


def _last_by_hand(
    asked: _Asked, found: Sequence[Known | Unknown]
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


def target_of(view: View, fit: Fit) -> float:
    """Give the chance that is wanted of a gap, 0 to 1."""
    told = fit.chance or view.project.target_chance
    return TARGET if told is None else float(told.to("%")) / 100


def _not_known(
    fit: Fit, missing: Sequence[Unknown], last: Characteristic | None
) -> Advice:
    """Say what has to be known first; a gap with nothing known is no advice."""
    said = "; ".join(one.sentence.partition("; accepted")[0] for one in missing)
    part = next((one.part for one in missing if one.what is last), None)
    return Advice(
        key=f"gap {fit.id}",
        topic="gaps",
        grade=Grade.REMARK,
        about=fit.ref,
        statement=f"{fit.title}: cannot be worked out yet: {said}",
        inputs=(fit.ref, *(one.what.ref for one in missing)),
        formula=fit.formula,
        changes=("a reading, a drawn size with limits, or the process that makes it",),
        assumed=(cost_words(part),) if part else (),
    )
