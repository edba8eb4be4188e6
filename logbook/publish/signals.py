"""Signal words of safety lines, and which reminders a set of processes calls for.

The words follow ANSI Z535.6 and ISO 3864-2 as quoted in manuals (from memory):
three grades for people, one for things. A line is put before what it is about.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from dataclasses import dataclass, replace

from logbook.publish.called_for import called_for, used_in
from logbook.publish.work_named import work_named
from logbook.records.kinds.assembling import Step
from logbook.shop.cautions import cautions
from logbook.shop.tables import Row

SIGNALS: dict[str, str] = {
    "DANGER": "will kill or maim if it is not avoided.",
    "WARNING": "could kill or maim if it is not avoided.",
    "CAUTION": "could hurt somebody, slightly or moderately.",
    "NOTICE": "spoils the work or a tool; nobody is hurt.",
}
"""Each signal word with what it says of the line behind it, gravest first."""

_LED = re.compile(rf"({'|'.join(SIGNALS)})\b[:,.\s–—-]*", re.IGNORECASE)


@dataclass(frozen=True, slots=True)
class Caution:
    """A safety line: its signal word, the line, and who decides instead of it.

    `name` is the reminder's own name; for a line somebody wrote it is the line.
    `hangs_on` is the kind of thing it is about, where nobody said whether it is one;
    `of_unsaid` where that is what the part is made of.
    """

    name: str
    signal: str
    line: str
    defers: str = ""
    short: str = ""
    hangs_on: str = ""
    of_unsaid: bool = False

    @property
    def says(self) -> str:
        """Give the whole caution on one line."""
        said = f"{self.signal}: {self.line}" if self.signal else self.line
        return f"{said} {self.defers}".strip()


def written(line: str) -> Caution:
    """Read a caution as a step names it: a reminder's name, or a line of its own.

    A line of its own keeps the signal word it begins with; none is invented.
    """
    for row in cautions().rows:
        if row.label.casefold() == line.strip().casefold():
            return _caution(row)
    led = _LED.match(line.strip())
    if led is None:
        return Caution(line, "", line)
    rest = line.strip()[led.end() :]
    return Caution(line, led[1].upper(), rest[:1].upper() + rest[1:])


def reminders(processes: Iterable[str], material: str = "") -> tuple[Caution, ...]:
    """Give the reminders for doing these processes to a material, gravest first.

    Where nobody stated the material it may be any: what holds of some is said with
    the material it is about. So it is with what is used for it, such as a glue.
    """
    return in_order(
        _if_it_is(row, kinds) for row, kinds in called_for("work", processes, material)
    )


def of_instruction(told: Iterable[str], material: str = "") -> tuple[Caution, ...]:
    """Give the reminders for what sentences tell to do, or tell as done."""
    lines = tuple(told)
    named = (process for line in lines for process in work_named(line))
    return reminders((*lines, *named), material)


def of_step(step: Step, material: str) -> tuple[Caution, ...]:
    """Give the reminders for a step: by its processes, else by what its title does.

    What is used is read in its title and its prose as well.
    """
    done = step.process or tuple(work_named(step.title))
    told = (used for line in (step.title, step.prose) for used in used_in(line))
    return reminders((*done, *told), material)


def of_the_whole(words: Iterable[str]) -> tuple[Caution, ...]:
    """Give what holds of the finished thing and its use, by words that describe it."""
    return in_order(_caution(row) for row, _ in called_for("whole", words, ""))


def _caution(row: Row) -> Caution:
    return Caution(
        row.label,
        row.text("signal"),
        row.text("line"),
        row.text("defers"),
        row.text("short"),
    )


def _if_it_is(row: Row, kinds: tuple[str, ...]) -> Caution:
    """Give a caution; where it hangs on what nobody said, as one about that."""
    caution = _caution(row)
    if not kinds:
        return caution
    line = _within(caution.line)
    return replace(
        caution,
        hangs_on=kinds[0],
        of_unsaid=not row.cells["using"],
        line=f"If it is {kinds[0]} or the like: {line}",
        short=f"if it is {kinds[0]} or the like: {caution.short or line}",
    )


def _within(line: str) -> str:
    """Give a sentence as it stands behind a colon; what is all capitals stays so."""
    return line if line[1:2].isupper() else f"{line[:1].lower()}{line[1:]}"


def in_order(lines: Iterable[Caution]) -> tuple[Caution, ...]:
    """Give each caution once, gravest first."""
    once = {caution.says: caution for caution in lines}
    grades = list(SIGNALS)
    return tuple(
        sorted(
            once.values(),
            key=lambda c: grades.index(c.signal) if c.signal in grades else len(grades),
        )
    )


@dataclass(frozen=True, slots=True)
class Reminded:
    """A caution that was said in full before, and the anchor and words of where."""

    says: str
    anchor: str
    place: str


@dataclass(frozen=True, slots=True)
class Repeats:
    """What was said in full before, said again in short on one line."""

    again: tuple[Reminded, ...]


@dataclass(frozen=True, slots=True)
class Box:
    """One box before the work, gravest first: in full, then what is said again."""

    signal: str
    lines: tuple[Caution | Repeats, ...]

    @property
    def cautions(self) -> tuple[Caution, ...]:
        """Those that are said in full."""
        return tuple(one for one in self.lines if isinstance(one, Caution))

    @property
    def again(self) -> tuple[Reminded, ...]:
        """Those that are said again."""
        repeats = (one for one in self.lines if isinstance(one, Repeats))
        return tuple(said for one in repeats for said in one.again)

    @property
    def of_unsaid(self) -> bool:
        """Whether nobody said of what the part is made that some of it hang on."""
        return any(one.of_unsaid for one in self.cautions)


def as_one(boxes: Iterable[Box]) -> tuple[Box, ...]:
    """Put the boxes before one line of instruction together.

    Of several hazards the word of the greatest leads (ANSI Z535.6, as quoted); what
    hurts nobody, and what somebody wrote without a word, stays apart.
    """
    apart = {"", "NOTICE"}
    every = tuple(boxes)
    people = [one for one in every if one.signal not in apart]
    rest = tuple(one for one in every if one.signal in apart)
    if not people:
        return rest
    lines = tuple(line for one in people for line in one.lines)
    return (Box(people[0].signal, lines), *rest)


class Spoken:
    """What a page has said so far: each caution in full once, then in short."""

    def __init__(self) -> None:
        """Begin with nothing said."""
        self._said: dict[tuple[str, str], tuple[str, str]] = {}

    def before(
        self, lines: Iterable[Caution], anchor: str, place: str
    ) -> tuple[Box, ...]:
        """Give the boxes for cautions that belong here, one a grade, gravest first."""
        new: dict[str, list[Caution]] = {}
        again: dict[str, list[Reminded]] = {}
        for caution in in_order(lines):
            new.setdefault(caution.signal, [])
            if (known := self._known(caution)) is not None:
                said = Reminded(caution.short or caution.line, *known)
                again.setdefault(caution.signal, []).append(said)
            else:
                self._said[caution.name, caution.hangs_on] = (anchor, place)
                new[caution.signal].append(caution)
        return tuple(
            Box(word, (*full, Repeats(tuple(again[word]))))
            if word in again
            else Box(word, tuple(full))
            for word, full in new.items()
        )

    def _known(self, caution: Caution) -> tuple[str, str] | None:
        """Give where a caution was said: as it is, or without an if."""
        sure = self._said.get((caution.name, ""))
        return sure or self._said.get((caution.name, caution.hangs_on))
