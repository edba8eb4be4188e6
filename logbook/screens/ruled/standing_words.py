"""What the band says at its end: problems, the clock, what git has not taken yet."""

from __future__ import annotations

from textual.content import Content

from logbook.counting import so_many
from logbook.screens.desk.desk import Desk
from logbook.screens.ruled.look import sentence


def standing_words(desk: Desk, waits: int, working: str) -> tuple[Content, Content]:
    """Say it in full, and shorter where there is no room; `waits` are not in git.

    What takes long, said in `working`, stands in place of it all.
    """
    if working:
        shorter = working.partition(": ")[2] or working
        return sentence("$words", words=working), sentence("$words", words=shorter)
    problems = desk.glance.problems
    said = f"{so_many(problems, 'problem')} · " if problems else ""
    git = f"{waits} not in git yet" if waits else "all in git"
    if desk.unfinished:
        git = f"{desk.unfinished} unfinished" + (f" · {waits} wait" if waits else "")

    def standing(clock: str) -> Content:
        clock = clock and f"{clock} · "
        return sentence("$said$clock$git", said=said, clock=clock, git=git)

    return standing(desk.clock_words()), standing(desk.clock_words(short=True))
