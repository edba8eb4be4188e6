"""Judges one understanding against what a person meant by the line."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Mapping
from datetime import datetime, timedelta, timezone
from pathlib import Path
from typing import Any

from logbook.errors import BadInput
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.quantity import Quantity, parse_quantity

NOW = datetime(2026, 3, 14, 10, 15, 22, tzinfo=timezone(timedelta(hours=1)))


def of_parts(*names: str) -> Vocabulary:
    """Give what a line is read by where only these parts are known, without sizes."""
    return Vocabulary(now=NOW, parts=dict.fromkeys(names, ()))


PARTS = "base crossbar bed diffuser gate mask collar lamp cable lid bracket"
PROJECT = of_parts(*PARTS.split())
LINES: list[dict[str, Any]] = tomllib.loads(
    Path(__file__).with_name("lines.toml").read_text("utf-8")
)["line"]

_ABOUT_THE_LINE = {"says", "kind", "aside", "shown", "may_be_new"}
_COUNTED = [
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
]
_SINGLE = {"hours", "minutes", "room", "off", "price"}


def judge(line: Mapping[str, Any]) -> tuple[str, str]:
    """Give `right`, `asked` or `wrong`, and why."""
    understood = understand(line["says"], PROJECT)
    kinds = [kind.strip() for kind in line["kind"].split(",")]
    if "doubtful" in kinds:
        taken = understood.verdict is Verdict.TAKEN
        return ("wrong", f"taken as {understood.kind}") if taken else ("right", "")
    lost = _lost(understood, kinds, line)
    if understood.verdict is Verdict.ASKED:
        return "asked", str(understood.question)
    if understood.verdict is Verdict.KEPT:
        kept_well = "note" in kinds
        return ("right", "") if kept_well and not lost else ("asked", "kept as a note")
    return ("wrong", "; ".join(lost)) if lost else ("right", "")


def _lost(
    understood: Understanding, kinds: list[str], line: Mapping[str, Any]
) -> list[str]:
    lost = []
    if understood.kind not in kinds and understood.kind.broad not in kinds:
        lost.append(f"kind {understood.kind}, not {kinds}")
    facts = understood.facts
    expected = {key: line[key] for key in line if key not in _ABOUT_THE_LINE}
    for key, value in expected.items():
        if not met(understood, key, value):
            lost.append(f"{key}: {_seen(understood, key)!r}, not {value!r}")
    allowed = {line.get("may_be_new"), expected.get("part")}
    if facts.part_is_new and facts.part not in allowed and not line.get("shown"):
        lost.append(f"made the part {facts.part!r}")
    if "reading" in kinds and not line.get("shown") and "value" in expected:
        count = len(expected["value"].split("&"))
        if len(facts.readings) != count:
            lost.append(f"{len(facts.readings)} readings, not {count}")
    return lost


def _seen(understood: Understanding, key: str) -> Any:
    facts = understood.facts
    if key == "value":
        return [reading.value.text for reading in facts.readings]
    name = {"of": "listed"}.get(key, key)
    if key == "what":
        return f"{facts.what} {facts.counted} {facts.feels} {understood.said('what')}"
    if key == "where" and understood.kind is Kind.READING:
        return facts.place
    if key == "price":
        return facts.price or facts.price_text
    return getattr(facts, name)


def met(understood: Understanding, key: str, value: Any) -> bool:
    seen = _seen(understood, key)
    if key in ("value", "wanted"):
        found = (
            [reading.value for reading in understood.facts.readings]
            if key == "value"
            else list(understood.facts.wanted)
        )
        return all(any(_same(text, one) for one in found) for text in value.split("&"))
    if isinstance(value, bool):
        return bool(seen) is value
    if key == "layers":
        return list(seen) == [word.strip() for word in value.split("&")]
    if key in ("when", "due"):
        return seen is not None and seen.isoformat().startswith(value)
    if key == "cause":
        return seen is not None and value.lower() in seen.said.lower()
    if isinstance(seen, Quantity):
        return _same(value, seen)
    if isinstance(seen, int):
        return str(seen) == value or understood.said(key).startswith(value)
    if key == "part" and not seen and understood.kind is Kind.ORDER:
        # What is bought need be no part: its item tells it.
        return str(value).lower() in understood.facts.item.lower()
    if key in ("part", "piece", "disposition", "met_by_others", "revision", "fastener"):
        return _spoken(key, seen) == _spoken(key, value)
    return bool(value) and str(value).lower() in str(seen).lower()


def _spoken(key: str, value: Any) -> str:
    """Give a name as it is compared: a piece by its number, blank or dash before it."""
    said = str(value).lower()
    return said.replace("-", " ") if key == "piece" else said


def _same(text: str, quantity: Quantity) -> bool:
    bare = text.strip()
    bare = str(_COUNTED.index(bare) + 1) if bare in _COUNTED else bare
    try:
        wanted = parse_quantity(re.sub(r"^[€£$]\s*(.*)", r"\1", bare), quantity.unit)
    except BadInput:
        return False
    if wanted.unit == "°" and quantity.unit == "°C":
        return wanted.value == quantity.value
    return wanted.unit == quantity.unit and wanted.value == quantity.value
