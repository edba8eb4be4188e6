"""What the work uses up and no list has: glue, tape, abrasive paper, solder, by grit.

Read from the words of the released steps and of the work that was logged; a part, and
so what is on the list as one, is told there.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from logbook.publish.release.released import Released
from logbook.records.kinds.assembling import Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import StepDone
from logbook.records.states.statements import Form
from logbook.records.together.references import part_of

_ADHESIVES = {
    "epoxy": r"epox(?:y|ied)",
    "wood glue": r"wood glue|white glue|pva",
    "instant glue": r"super ?glued?|instant glue|cyanoacrylate",
    "contact cement": r"contact (?:cement|adhesive|glue)",
    "solvent cement": r"(?:solvent|acrylic|plastic) cement",
    "hot glue": r"hot[ -]?(?:glued?|melt)",
    "spray adhesive": r"spray adhesive",
    "silicone": r"silicone(?: sealant)?",
}
_OTHERS = {
    "threadlocker": r"thread ?lock(?:er|ed)?",
    "double-sided tape": r"double[- ]sided tape",
    "masking tape": r"masking tape",
    "insulating tape": r"(?:insulating|electrical) tape",
    "solder": r"(?:re)?solder(?:ed)?",
    "flux": r"flux",
    "heat-shrink sleeve": r"heat[- ]?shrink(?: sleeves?| tub(?:e|ing))?",
    "cable ties": r"(?:cable|zip) ties?",
    "cutting oil": r"cutting (?:oil|fluid)",
    "grease": r"greased?",
    "linseed oil": r"(?:boiled )?linseed oil",
    "machine oil": r"(?:machine|light) oil",
    "wax": r"wax(?:ed)?",
    "primer": r"primer|primed",
    "spray paint": r"spray paint(?:ed)?",
    "varnish": r"varnish(?:ed)?",
    "lacquer": r"lacquer(?:ed)?",
    "filler": r"(?:wood|body) filler|putty",
    "acetone": r"acetone",
    "alcohol": r"(?:isopropyl )?alcohol|isopropanol",
    "steel wool": r"steel wool",
}
_NOT = r"\b(?:no|not|without|instead of|rather than|never|dry of)\s+(?:\w+\s+){0,2}$"
_GLUE = re.compile(r"(?i)\bglu(?:e|ed|ing)\b(?!\s+(?:gun|line|joint|pot))")
_GRIT = re.compile(
    r"(?i)(?<![\d.,])\d{2,4}(?:\s*(?:,|and|then|to)\s*\d{2,4})*\s+grit"
    r"(?:\s*(?:,|and|then|to)\s*\d{2,4}(?![\d.,]*\s*(?:mm|min|h|°|rpm)))*"
)
_PAPER = re.compile(r"(?i)\b(?:sandpaper|emery(?: (?:cloth|paper))?|wet and dry)\b")
PAPER, GLUE = "abrasive paper", "glue, nobody said which"


@dataclass(frozen=True, slots=True)
class UsedUp:
    """Something the work uses up, and what for: steps by number, parts by name."""

    name: str
    use: str


def used_up(released: Released) -> tuple[UsedUp, ...]:
    """Give what the records tell is used up, in the order it is met."""
    found: dict[str, dict[str, None]] = {}
    grits: set[int] = set()
    for text, where in _told(released):
        for name in _named(text):
            found.setdefault(name, {})[where] = None
        if _PAPER.search(text) or _GRIT.search(text):
            found.setdefault(PAPER, {})[where] = None
            told = " ".join(_GRIT.findall(text))
            grits |= {int(one) for one in re.findall(r"\d+", told)}
    paper = f"{PAPER}, {', '.join(map(str, sorted(grits)))} grit" if grits else PAPER
    return tuple(
        UsedUp(paper if name == PAPER else name, ", ".join(where))
        for name, where in found.items()
    )


def _named(text: str) -> Iterator[str]:
    """Give what a text names as used up; glue alone where it names no other."""
    glued = [name for name, words in _ADHESIVES.items() if _is_used(words, text)]
    yield from glued
    if not glued and _GLUE.search(text) and _is_used(_GLUE.pattern, text):
        yield GLUE
    yield from (name for name, words in _OTHERS.items() if _is_used(words, text))


def _is_used(words: str, text: str) -> bool:
    return any(
        not re.search(_NOT, text[: one.start()], re.IGNORECASE)
        for one in re.finditer(rf"(?i)\b(?:{words.removeprefix('(?i)')})\b", text)
    )


def _told(released: Released) -> Iterator[tuple[str, str]]:
    """Give the words of each released step and of work done, with what it was for."""
    snapshot = released.snapshot
    numbers: dict[str, int] = {}
    for number, statement in enumerate(released.of(Form.STEP), 1):
        numbers[statement.of.id] = number
        step = released.live(statement)
        prose = step.prose if isinstance(step, Step) else ""
        tools = ", ".join(step.tools) if isinstance(step, Step) else ""
        yield (
            _bare(released, f"{statement.of.name}. {prose}. {tools}"),
            f"step {number}",
        )
    for done in snapshot.all(StepDone):
        part = part_of(snapshot, done)
        number = numbers.get(done.step.id, 0) if done.step else 0
        if not done.undone and (number or part in released.needed):
            where = f"step {number}" if number else part.title if part else ""
            yield _bare(released, done.title), where


def _bare(released: Released, text: str) -> str:
    """Give a text without the names of parts: a tape guide uses up no tape.

    What is glued with a part needs no other glue.
    """
    names = sorted((one.title for one in released.snapshot.all(Part)), key=len)
    for name in reversed(names):
        text, count = re.subn(rf"(?i)\b{re.escape(name)}\b", "…", text)
        if count and [*_named(name)]:
            text = _GLUE.sub("…", text)
    return text
