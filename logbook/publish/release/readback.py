"""The text of a released statement read back into what it says.

A statement is frozen as one line. Where its record has been changed since, the
page is laid out from that line, and no word of it is lost.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field

from logbook.records.kinds.words import Source

STEP_LISTS = (
    "uses", "after", "tools", "instead", "inside first", "tested first", "clean first",
    "set to",
)  # fmt: skip
"""The lists a step's text can hold, in their order, as it names them."""

CLOSES = "cannot be undone"

_PIECES = re.compile(r"(\d+) pieces?")
_SPARE = re.compile(r"(\d+) spare")
_TIGHTENED = "tightened to "
_JOINT = re.compile(r"(\d+) × ")
_AFTER_SOURCE = {
    "bought as ": "bought_as", "matters: ": "critical", "instead: ": "substitutes",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class SaidStep:
    """A step as its text says it."""

    lists: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    closes: bool = False
    accept: str = ""
    prose: str = ""

    def of(self, name: str) -> tuple[str, ...]:
        """Give one of its lists."""
        return self.lists.get(name, ())


@dataclass(frozen=True, slots=True)
class SaidLine:
    """A line of the parts list as its text says it; `quantity` None: not stated.

    `amount` is how much of it each is, where that is told.
    """

    name: str = ""
    quantity: int | None = None
    amount: str = ""
    spare: int = 0
    into: str = ""
    places: tuple[str, ...] = ()
    source: Source | None = None
    material: str = ""
    bought_as: str = ""
    critical: str = ""
    substitutes: tuple[str, ...] = ()


def read_step(text: str, title: str) -> SaidStep:
    """Read the text of a step called `title` at its release."""
    left = text[len(title) :] if text.startswith(title) else f"; {text}"
    parts = left.removeprefix("; ").split("; ") if left else []
    named = list(_step_fields(parts))
    last = max((at for at, (name, _) in enumerate(named) if name), default=-1)
    facts: dict[str, str] = {}
    name = "prose"
    for at, (found, value) in enumerate(named):
        if found:
            name, facts[found] = found, value
        elif at > last:
            facts["prose"] = "; ".join(filter(None, (facts.get("prose"), value)))
        else:
            facts[name] = f"{facts[name]}; {value}" if name in facts else value
    return SaidStep(
        lists={
            key: tuple(facts[key].split(", ")) for key in STEP_LISTS if key in facts
        },
        closes=CLOSES in facts,
        accept=facts.get("accept", ""),
        prose=facts.get("prose", ""),
    )


_STEP_FIELDS = (*STEP_LISTS, CLOSES, "accept")


def _step_fields(parts: Iterable[str]) -> Iterator[tuple[str, str]]:
    """Give name and value of each part; no name where it is none, or out of order."""
    reached = -1
    for part in parts:
        name, sign, value = (
            (CLOSES, "", part) if part == CLOSES else part.partition(": ")
        )
        rank = _STEP_FIELDS.index(name) if name in _STEP_FIELDS else -1
        if rank > reached and (sign or name == CLOSES):
            reached = rank
            yield name, value
        else:
            yield "", part


def read_line(text: str) -> SaidLine:
    """Read the text of a line of the parts list."""
    name, *parts = text.split("; ")
    sources = {source.value: source for source in Source}
    at = next((at for at, part in enumerate(parts) if part in sources), len(parts))
    facts: dict[str, object] = {}
    for part in parts[:at]:
        if found := _PIECES.fullmatch(part):
            facts["quantity"] = int(found[1])
        elif found := _SPARE.fullmatch(part):
            facts["spare"] = int(found[1])
        elif part.startswith("each "):
            facts["amount"] = part.removeprefix("each ")
        elif part.startswith("in "):
            facts["into"] = part.removeprefix("in ")
        elif part.startswith("at "):
            facts["places"] = tuple(part.removeprefix("at ").split(", "))
    told = _behind_source(parts[at + 1 :])
    if instead := told.pop("substitutes", ""):
        facts["substitutes"] = tuple(instead.split(", "))
    facts |= told
    return SaidLine(
        name=name,
        source=sources[parts[at]] if at < len(parts) else None,
        **facts,  # type: ignore[arg-type]
    )


def _behind_source(parts: Iterable[str]) -> dict[str, str]:
    """Give each field behind the source; what begins as none goes on with the last."""
    told: dict[str, list[str]] = {}
    name = "material"
    for part in parts:
        lead = next((lead for lead in _AFTER_SOURCE if part.startswith(lead)), "")
        name = _AFTER_SOURCE.get(lead, name)
        told.setdefault(name, []).append(part.removeprefix(lead))
    return {name: "; ".join(said) for name, said in told.items()}


@dataclass(frozen=True, slots=True)
class SaidJoint:
    """A joint as its text says it; `torque` with its tool and what came of it."""

    title: str
    number: str
    fastener: str
    layers: str
    tap_drill: str
    torque: str


def read_joint(text: str) -> SaidJoint:
    """Read the text of a joint."""
    title, _, rest = text.partition(": ")
    fastener, *parts = rest.split("; ")
    number = _JOINT.match(fastener)
    # What came of the tightening is free text, so it is all that is left.
    at = next((at for at, p in enumerate(parts) if p.startswith(_TIGHTENED)), None)
    torque = "; ".join(parts[at:]) if at is not None else ""
    return SaidJoint(
        title=title,
        number=number[1] if number else "",
        fastener=fastener[number.end() :] if number else fastener,
        layers=_after("through ", parts[:at]),
        tap_drill=_after("tap drill ", parts[:at]),
        torque=torque.removeprefix(_TIGHTENED),
    )


def _after(lead: str, parts: Iterable[str]) -> str:
    """Give what follows a lead, empty where no part has it."""
    found = (part for part in parts if part.startswith(lead))
    return next(found, "").removeprefix(lead)
