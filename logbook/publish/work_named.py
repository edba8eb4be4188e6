"""Which work an instruction asks for: “drill 4 mm holes” is drilling.

An instruction begins its clauses with what is to be done, or tells it as done (“glued
it”); a word elsewhere (“its own file”) names no work. A clause that ends in a colon is
when to do something (“riveted with the cable outside: …”), not what.
"""

from __future__ import annotations

import re
from collections.abc import Iterator

_CLAUSE = re.compile(r"(?i)([,;:.])\s+|\b(?:then|and|or|but)\b\s*|$")
_FILLERS = re.compile(
    r"(?i)^(?:(?:just|simply|carefully|always|first|instead|please|again|better|"
    r"i|we|you|have to|had to|can|should|to|stop|spot|pilot)\s+)+"
)
_OUT = re.compile(r"(?i)^drill\w*\b(?:\s+(?!holes?\b)\S+){0,4}?\s+out\b(?!\s+to\s+\d)")
"""Rivets are drilled out; holes, or what then has a size, are drilled larger."""
_TURNED = re.compile(r"(?i)^turn\w*\b.*\b(?:round|around|over|up|down|on|off)\b")
"""Turned by hand: no work at a lathe."""
_TOOL = re.compile(
    r"(?i)\bwith (?:a|an|the|my) (?:[\w-]+ ){0,2}?"
    r"(file|saw|hacksaw|drill|grinder|sander|router|soldering iron|iron|torch|"
    r"heat gun)\b"
)
_TOOLS = {
    "file": "filing",
    "saw": "sawing",
    "hacksaw": "sawing",
    "drill": "drilling",
    "grinder": "grinding",
    "sander": "sanding",
    "router": "routing",
    "soldering iron": "soldering",
    "iron": "heat setting",
    "torch": "torch",
    "heat gun": "heat gun",
}
_IRREGULAR = {"ground": "grind", "bent": "bend", "stuck": "glue", "stick": "glue"}


def work_named(instruction: str) -> Iterator[str]:
    """Give the processes an instruction asks for, as tables name them."""
    for clause, ended in _clauses(instruction.strip()):
        said = _FILLERS.sub("", clause)
        verb = said.split(maxsplit=1)[0].casefold() if said else ""
        if not verb.isalpha() or _TURNED.match(said):
            continue
        if _OUT.match(said):
            yield "drilling out"
        told = verb.endswith("ed") or verb in _IRREGULAR
        if not (told and ended == ":"):
            yield from _forms(_IRREGULAR.get(verb, verb))
    for tool in _TOOL.findall(instruction):
        yield _TOOLS[tool.casefold()]


def _clauses(instruction: str) -> Iterator[tuple[str, str]]:
    """Give each clause with the sign it ends in; empty where a word joins the next."""
    at = 0
    for joint in _CLAUSE.finditer(instruction):
        yield instruction[at : joint.start()].strip(), joint[1] or ""
        at = joint.end()


def _forms(verb: str) -> Iterator[str]:
    """Give the ways its form in -ing may be spelled; not all of them are words.

    Of one in -ed, which has doubled its last letter itself, there is one way.
    """
    for one in dict.fromkeys((verb, verb.removeprefix("re"))):
        if one.endswith("ed"):
            yield f"{one.removesuffix('ed')}ing"
        elif one.endswith("e"):
            yield f"{one[:-1]}ing"
        else:
            yield f"{one}ing"
            yield f"{one}{one[-1:]}ing"
