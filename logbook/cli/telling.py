"""How verbs print advice: its grade and sentence, then what it stands on."""

from __future__ import annotations

import argparse
from collections.abc import Callable, Iterable, Iterator, Sequence
from datetime import UTC, datetime
from typing import Any

from logbook.advice.advisor import Told
from logbook.advice.ground.advice import STANDING, Advice, as_facts
from logbook.cli import shell_clock, terms
from logbook.cli.shell_clock import clock_here
from logbook.errors import ProblemsFound
from logbook.project import Project
from logbook.records.kinds.workshop import Build
from logbook.records.together.snapshot import Snapshot


def build_option(parser: argparse.ArgumentParser) -> None:
    """Add the option that names the build the advice is about."""
    parser.add_argument(
        "--build", default="", help="the build meant, where not the newest"
    )


def meant_build(args: argparse.Namespace, snapshot: Snapshot) -> Build | None:
    """Give the build that is named, None for the current one.

    Raises:
        NotFound: no build is called so.
    """
    return snapshot.lookup(args.build, Build) if args.build else None


def answer(found: Iterable[Advice], told: Told, **more: Any) -> None:
    """Print advice as JSON, with what could not be worked out, and with `more`."""
    terms.answer(
        advice=[as_facts(one) for one in found],
        problems=[str(one) for one in told.problems],
        **more,
    )


def sentence(one: Advice) -> Iterator[str]:
    """Give the line of an advice alone: its grade, what it says, and who went past."""
    passed = f"  (went past it: {one.passed})" if one.passed else ""
    yield f"{one.grade.value}: {one.statement}{passed}"


def with_assumed(one: Advice) -> Iterator[str]:
    """Give an advice with what it takes for granted, each on a line."""
    yield from sentence(one)
    yield from (f"    {line}" for line in one.assumed)


def tell_where_one_is(
    args: argparse.Namespace,
    project: Project,
    found: Sequence[Advice],
    told: Told,
    nothing: str,
    lines: Callable[[Advice], Iterable[str]],
) -> int:
    """Print advice about the work as `tell` does, and the clock that is on it."""
    clock, now = clock_here(project), datetime.now(UTC)
    if args.json:
        answer(found, told, clock=shell_clock.facts(project, clock, now))
        return ProblemsFound.exit_code if told.problems else 0
    code = tell(args, found, told, nothing, lines)
    if stands := shell_clock.told(project, clock, now):
        print(stands)
    return code


def tell(
    args: argparse.Namespace,
    found: Sequence[Advice],
    told: Told,
    nothing: str,
    lines: Callable[[Advice], Iterable[str]] = with_assumed,
) -> int:
    """Print advice, each by its `lines`; exit code 8 where some cannot be worked out.

    `nothing` is said where there is none.
    """
    if args.json:
        answer(found, told)
    else:
        for one in found:
            print(*lines(one), sep="\n")
        for problem in told.problems:
            print(problem)
        print(STANDING if found else nothing)
    return ProblemsFound.exit_code if told.problems else 0
