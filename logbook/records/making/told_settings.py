"""Settings of a making that plain words tell: walls, layers, nozzle, speed, grit.

A number told as a setting is never a size of the part.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

_NUMBER = r"\d+(?:[.,]\d+)?"
_HEAT = rf"{_NUMBER}(?:\s*°)?(?:\s*C\b)?"
_HOT = r"\d{3}(?:\s*°?\s*C\b|\s*degrees\b)?"
_SURE_HEAT = rf"{_NUMBER}\s*°?\s*C\b"
_RATE = r"(?:\s*(?:mm|m|in)/(?:min|rev|s|tooth))"
_AT = r"(?:of\s+|at\s+|to\s+|on\s+)?"
_CUT_DEPTH = r"(?:depth (?:per|a|each) pass|depth of cut|step[- ]?down)"
_STITCH = r"(?:\s*mm)?(?![\d.,]*\d|\s*(?:from|off)\b)"
"""No setting is the 2.5 of “stitch 2.5 from the edge”."""
_BARE = r"(?![\d.,]*\d|\s*(?:N|kg|g|lb|mm)\b)"
"""The dial of a sewing machine has no unit."""
_MATERIAL = r"PETG|PLA|ABS|ASA|TPU|PC|HIPS|nylon|resin"
_DOWN = r"(?:\w{2,}ed|cut|ground|bent|put|shut|let|held|laid|went|set|broke|ran)\b"
"""What was done down, and says on which side nothing lay: rubbed down, cut down."""
_SETTINGS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (name, re.compile(pattern, re.IGNORECASE))
    for name, pattern in (
        ("material", rf"\b(?:in|with|from|out of)\s+({_MATERIAL})\b"),
        ("walls", r"(?<![\d.,])(\d+)\s*(?:walls?|perimeters?)\b"),
        ("infill", rf"\b({_NUMBER}\s*%)\s*infill\b"),
        ("infill", rf"\binfill\s*(?:of\s*)?({_NUMBER}\s*%)"),
        ("layers", rf"\b({_NUMBER}(?:\s*mm)?)\s*layers?\b"),
        ("layers", rf"\b({_NUMBER}(?:\s*mm)?)\s*layer height\b"),
        ("layers", rf"\blayer height\s+(?:of\s+|at\s+|is\s+)?({_NUMBER}(?:\s*mm)?)"),
        ("layers", r"(?<!first )\blayers?\s+(?:of\s+|at\s+)?(0?[.,]\d+(?:\s*mm)?)"),
        ("nozzle", r"(?<![\d.,])(\d{1,2}(?:[.,]\d+)?(?:\s*mm)?)\s*nozzle\b"),
        ("nozzle", r"\bnozzle\s+(?:of\s+)?(0?[.,]\d+(?:\s*mm)?)"),
        ("nozzle temperature",
         r"\bnozzle\s+(?:temp\w*\s+)?(?:at\s+|of\s+)?(\d{3}(?:\s*°?\s*C\b)?)"),
        ("nozzle temperature",
         rf"\b(?:extruder|hot ?end)\s+(?:temp\w*\s+)?(?:to\s+|at\s+|on\s+)?({_HOT})"),
        ("nozzle temperature",
         rf"(?<![\d.,])({_HOT})\s*(?:extruder|hot ?end|nozzle)\b"),
        ("bed temperature", rf"\bbed\s+(?:temp\w*\s+)?(?:at\s+)?({_SURE_HEAT})"),
        ("bed temperature", r"(?<![\d.,])(\d{2,3})\s*bed\b"),
        ("bed temperature",
         r"\bbed\s+(?:at\s+|to\s+)?(\d{2,3})(?![\d.,]*\d|\s*(?:mm|wide|long|thick))"),
        ("iron", rf"\biron\s+(?:at|on)\s+({_HEAT})"),
        ("iron", rf"\b(?:soldering iron|iron,? tip)\s+(?:at\s+|on\s+)?({_SURE_HEAT})"),
        ("current", rf"\b(?:weld|tack)\w*\b[^,;.\d]*\b(?:at|with)\s+({_NUMBER}\s*A)\b"),
        ("speed", rf"\b({_NUMBER}\s*mm/s)"),
        ("speed", rf"\b({_NUMBER}\s*rpm)\b"),
        ("grit", r"(?<![\d.,])(\d+)\s*grit\b"),
        ("grit", r"\bgrit\s+(\d+)\b"),
        ("coats", r"\b(\d+|two|three|four)\s+coats?\b"),
        ("clamped", rf"\bclamp(?:ed)?\s+(?:for\s+)?({_NUMBER}\s*(?:min|h|hours?))\b"),
        ("lying on", rf"\b((?!{_DOWN})\w+(?: side| face)?) down\b"),
        ("supports", r"\b(no|without)\s+supports?\b"),
        ("supports", r"\bsupports?\s+((?:under|below|at|on|inside)\s+[^,;.]+)"),
        ("brim", rf"\b({_NUMBER}\s*mm)\s+brim\b"),
        ("passes", r"(?<![\d.,])(\d+)\s*passes\b"),
        ("power", rf"\b({_NUMBER}\s*%)\s*(?:laser\s+)?power\b"),
        ("power", rf"\bpower\s+(?:at\s+|of\s+|to\s+)?({_NUMBER}\s*%)"),
        ("speed", rf"\b({_NUMBER}\s*m/min)\b"),
        ("feed", rf"\b(?:wire )?feed(?: rate)? {_AT}({_NUMBER}{_RATE}?)(?!\S*\w)"),
        ("feed", rf"\b({_NUMBER}\s*mm/min)"),
        ("feed", rf"\b({_NUMBER}(?:\s*mm)?)\s+feed\b(?!\s+\w+\s+\d)"),
        ("depth per pass", rf"\b{_CUT_DEPTH}\s+{_AT}({_NUMBER}(?:\s*mm)?)"),
        ("depth per pass",
         rf"\b({_NUMBER}(?:\s*mm)?)\s+(?:deep\s+)?(?:per|a|each) pass\b"),
        ("stepover", rf"\bstep[- ]?over {_AT}({_NUMBER}(?:\s*(?:mm|%))?)"),
        ("stitch length", rf"\bstitch(?:es)?(?: length)? {_AT}({_NUMBER}){_STITCH}"),
        ("thread tension",
         rf"\b(?:(?:thread|upper|top|bobbin) )?tension {_AT}(\d(?:[.,]\d)?){_BARE}"),
        ("fan", rf"\bfan\s+(?:at\s+|on\s+|to\s+)?({_NUMBER}\s*%)"),
        ("fan", rf"\b({_NUMBER}\s*%)\s*fan\b"),
        ("z offset", rf"\bz[ -]?offset\s+(?:now\s+|at\s+|to\s+|of\s+)?(-?{_NUMBER})"),
        ("kerf", rf"\bkerf\s+(?:of\s+)?({_NUMBER}(?:\s*mm)?)"),
    )
)  # fmt: skip
_NOT_SIDES = frozenset(
    {"filed", "cut", "sanded", "it", "sat", "broke", "turned", "edge", "them", "step"}
)
_ALONE = frozenset(
    {"lying on", "material", "bed temperature", "kerf", "thread tension"}
)
"""What may mean anything by itself, and is a setting beside another."""


_PRINTED = frozenset({"layers", "walls", "infill", "nozzle", "brim"})
_OF_A_PRINT = re.compile(r"(?i)(?<![\d.,])((?:1[89]|2\d)\d\s*(?:°\s*C?|degrees|C\b))")
"""So hot is a nozzle, beside another setting of a print: 0.2 layers, 215 degrees."""


@dataclass(frozen=True, slots=True)
class ToldSetting:
    """One setting as told, and where in the words it stands."""

    name: str
    value: str
    start: int
    end: int


def told_settings(text: str) -> tuple[ToldSetting, ...]:
    """Give the settings that words tell, each name once, in the order looked for."""
    found: dict[str, ToldSetting] = {}
    for name, match in _matches(text):
        value = " ".join(match[1].split())
        if name == "supports" and value.casefold() in {"no", "without"}:
            value = "none"
        found.setdefault(name, ToldSetting(name, value, match.start(), match.end()))
    heat = _OF_A_PRINT.search(text)
    if heat is not None and found.keys() & _PRINTED:
        told = ToldSetting("nozzle temperature", heat[1], heat.start(), heat.end())
        found.setdefault("nozzle temperature", told)
    sure = found.keys() - _ALONE
    return tuple(found.values()) if sure else ()


def _matches(text: str) -> Iterator[tuple[str, re.Match[str]]]:
    for name, pattern in _SETTINGS:
        match = pattern.search(text)
        if match is not None and match[1].casefold() not in _NOT_SIDES:
            yield name, match


def settings_in(text: str) -> Mapping[str, str]:
    """Give the settings that words tell, by name."""
    return {one.name: one.value for one in told_settings(text)}
