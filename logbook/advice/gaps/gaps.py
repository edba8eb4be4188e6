"""Made to suit: what each gap is now, whichever of the pieces on hand are meant.

A gap is looked at with the newest pieces, with each other piece in place of the
newest, and in each build whose pieces were all read.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from logbook.advice.gaps.candidates import candidates
from logbook.advice.gaps.circles import circle_of
from logbook.advice.gaps.gap import limits_of
from logbook.advice.gaps.worked_case import Asked, refused_gap, worked_case
from logbook.advice.ground.advice import Advice
from logbook.advice.ground.naming import Meant, formula_of, meant
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

MOST_PIECES = 8
"""Pieces of one part that are looked at beside the newest."""


def gap_advice(view: View, fit: Fit) -> Iterator[Advice | Problem]:
    """Say what a gap comes to, for the newest pieces and for others on hand."""
    try:
        formula = formula_of(fit.formula)
        wanted = limits_of(fit)
        names = [meant(view, name) for name in formula.names]
    except BadInput as refusal:
        yield refused_gap(view, fit, refusal)
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
    asked = Asked(fit, formula, tuple(names), last, wanted)
    passed = gone_past(view, view.find(fit.step, Step), fit.title)
    for said in _all_cases(view, asked):
        if passed and isinstance(said, Advice):
            yield replace(said, passed=passed)
        else:
            yield said


def _problem(view: View, fit: Fit, field: str, found: str, accepted: str) -> Problem:
    return Problem(view.path(fit), 0, field, f"gap {fit.title}: {found}", accepted)


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


def _all_cases(view: View, asked: Asked) -> Iterator[Advice | Problem]:
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
        for said in worked_case(view, asked, pieces, piece):
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


def _other_builds(view: View, asked: Asked) -> Iterator[Advice | Problem]:
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
            for said in worked_case(view, asked, pieces, None, build):
                if isinstance(said, Advice):
                    key = f"gap {asked.fit.id} {build.id}"
                    yield replace(said, key=key, grade=Grade.REMARK)
