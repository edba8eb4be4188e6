"""Fresh lines in projects of three ages, judged by what would be saved."""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from datetime import timedelta
from pathlib import Path
from typing import Any

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict, as_note
from logbook.plain.words.project_words import short_names
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.judge import NOW, PROJECT, met

FILES = """
x-rail bracket, film gate, camera arm, lamp bracket, rail spacer, cable clip,
mirror box lid, focus knob, left upright, right upright, diffuser frame,
gate spring plate, column base plate, back cover, pcb cover
"""
DEMO = Vocabulary(
    now=NOW,
    parts=dict.fromkeys(
        (
            "bed", "base", "crossbar", "mask", "collar", "gate", "lid", "diffuser",
            "lamp", "cable",
            "M3 countersunk screw", "M4x16 screw", "thin self-locking nut M4",
            "blind rivet 3.2", "fibre washer", "washer", "M4x20 screw",
            "M3 pan head screw", "rivet nut M3",
        ),
        (),
    ),
    characteristics={
        "base": ["opening"], "crossbar": ["length"], "bed": ["width"],
        "diffuser": ["hole inset"], "mask": ["aperture width", "aperture height"],
        "collar": ["thickness"], "gate": ["face temperature"],
    },
    pieces={
        "base": ["base-1"], "crossbar": ["crossbar-1"], "diffuser": ["diffuser-1"],
        "collar": ["collar-1"], "lid": ["lid-1"], "gate": ["gate-1", "gate-2"],
        "mask": ["mask-1"],
    },
    builds=("build 1", "build 2"),
    places=("front left", "front right", "back left", "back right"),
    machines=("folder",),
    instruments=("300 mm caliper",),
    steps=(
        "fold the base", "cut the crossbar", "screw the diffuser on",
        "fit the lamp and its collar", "rivet the lid on", "put gate and mask in",
        "put the cable in its channel", "screw the lid on",
    ),
)  # fmt: skip
"""The names of the demo."""

PROJECTS = {
    "empty": Vocabulary(now=NOW),
    "files": Vocabulary(
        now=NOW,
        proposed=short_names(" ".join(name.split()) for name in FILES.split(",")),
    ),
    "demo": DEMO,
    "lines": PROJECT,
}

BATCHES = (*range(1, 102), 103)

_ABOUT = {"in", "says", "kind", "may", "cure_if"}


def batch(number: int) -> list[dict[str, Any]]:
    """Give the lines of one batch."""
    path = Path(__file__).with_name(f"fresh_{number}.toml")
    found: list[dict[str, Any]] = tomllib.loads(path.read_text("utf-8"))["lines"]
    return found


def judge(line: Mapping[str, Any]) -> tuple[str, str]:
    """Give `right`, `asked` or `wrong`, and why.

    A line asked about or kept as a note makes no wrong record, whatever was
    meant; it is right where that was wanted.
    """
    project = PROJECTS[line["in"]]
    understood = understand(line["says"], project)
    kinds = line["kind"].split(",")
    taken = understood.verdict is Verdict.TAKEN and understood.kind is not Kind.NOTE
    made = _made(understood if taken else as_note(understood), project)
    allowed = {line.get("part"), *line.get("may", "").split(","), *project.proposed}
    strange = made - {str(name) for name in allowed}
    if strange:
        return "wrong", f"made {', '.join(sorted(strange))}"
    if not taken:
        asks = str(understood.question.question if understood.question else "")
        wanted = {"doubtful", "note"} & set(kinds)
        return ("right" if wanted else "asked"), asks or "kept as a note"
    lost = [*_lost(understood, kinds, line)]
    return ("wrong", "; ".join(lost)) if lost else ("right", "")


def _made(understood: Understanding, project: Vocabulary) -> set[str]:
    """Give the parts that saving the line would make."""
    draft = Draft(Snapshot({}), NOW + timedelta(hours=1))
    for part in project.parts:
        draft.new_part(part)
    before = len(draft.new)
    draft_line(draft, understood)
    return {r.title for r in draft.new[before:] if isinstance(r, Part)}


def _lost(
    understood: Understanding, kinds: list[str], line: Mapping[str, Any]
) -> list[str]:
    lost = []
    if understood.kind not in kinds and understood.kind.broad not in kinds:
        lost.append(f"kind {understood.kind}, not {kinds}")
    facts = understood.facts
    for key in line.keys() - _ABOUT:
        value = line[key]
        if value == "" and getattr(facts, key):
            lost.append(f"{key}: {getattr(facts, key)!r}, not said")
        elif value and not met(understood, key, value):
            lost.append(
                f"{key}: {getattr(facts, key, facts.readings)!r}, not {value!r}"
            )
    if "value" in line and understood.kind is Kind.READING:
        count = len(line["value"].split("&"))
        if len(facts.readings) != count:
            lost.append(f"{len(facts.readings)} readings, not {count}")
    curing = understood.kind is Kind.FAILURE and "cure_if" in line
    if curing and not met(understood, "cure", line["cure_if"]):
        lost.append(f"cure: {facts.cure!r}, not {line['cure_if']!r}")
    return lost
