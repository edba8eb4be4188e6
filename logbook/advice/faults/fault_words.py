"""Words that go against what was published, and in which way.

Each way needs two signs, a thing on paper and what is wrong with it; what can hurt
somebody needs one.
"""

from __future__ import annotations

import re
from enum import Enum, auto


class Against(Enum):
    """How a line goes against a release, the gravest first."""

    HAZARD = auto()
    WRONG = auto()
    LEFT_OUT = auto()
    NOT_HAD = auto()
    MEANT = auto()


_PAPER = re.compile(
    r"(?i)\b(?:files?|drawings?|lists?|listed|guide|manual|steps?|pages?|pictures?|"
    r"photos?|dxf|stl|cad|mesh|models?|text|link)\b"
)
_WRONG = re.compile(
    r"(?i)\b(?:says?|said|listed|called|named|missing|wrong|inch(?:es)?|scaled|shows?|"
    r"not in|no \w+|has none|have none|lacks?|forgot|mirrored|outdated|differs?|"
    r"as an? \w+ only|only (?:a|an|as|the)\b|cannot be opened|does not open|"
    r"too (?:small|large|few|many))\b"
)
_SCREW = re.compile(
    r"(?i)\bM\d+(?:[.,]\d+)?(?:\s*[x×]\s*\d+)?\b|\b(?:screw|bolt|insert)s?\b"
)
_NO_FIT = re.compile(
    r"(?i)\btoo (?:long|short|big|small)\b|\breach(?:es)?\b|\bbottoms\b"
)
_LEFT_OUT = re.compile(
    r"(?i)\b(?:not|never|nowhere|isn't|wasn't|weren't) (?:called for|mentioned|told|"
    r"stated|given|said|listed|on the list|in the list|in the (?:steps|guide|text))\b|"
    r"\bnobody (?:says|said|tells|told)\b|"
    r"\b(?:had|has) to (?:come|be taken) (?:apart|off|out)\b"
)
_NUMBER = re.compile(r"(?<![\w.,])\d+(?:[.,]\d+)?")
_DRAWN_BUT = re.compile(r"(?i)\b(?:is|are) drawn\b.*\b(?:but|while)\b")
_TWO_THREADS = re.compile(
    r"(?i)\bM(\d+)\b.*\b(?:those|the others?|but|while)\b.*\bM(?!\1\b)\d+\b"
)
_NOT_HAD = re.compile(
    r"(?i)\b(?:can(?:not|'t)|could not|couldn't) be (?:bought|had|found|got)\b|"
    r"\bnot (?:to be had|sold|available|obtainable)\b|\b(?:no longer|not) made\b|"
    r"\b(?:discontinued|unobtainable|sold out)\b"
)
_MEANT = re.compile(
    r"(?i)\b(?:is|are|was|were) (?:measured|meant|taken|given|drawn) (?:inside|outside|"
    r"between|over|across|from|to|without|with|along|at the)\b"
)
_HAZARD = re.compile(
    r"(?i)\b(?:mains|live|shock|sparks?|smok(?:e|ed|es)|fire|fumes?|burn(?:s|ed|t)?|"
    r"hazard\w*|danger\w*|toxic|poison\w*|extractor|respirator|injur\w+|do not touch|"
    r"don[’']t touch|too hot to (?:touch|hold)|(?:can|could) be touched|"
    r"cuts? (?:(?:my|his|her|the|your) )?(?:fingers?|hands?|thumb))\b"
)
_HAZARD_MEASURED = re.compile(
    r"(?i)\b(?:do not touch|don[’']t touch|too hot to (?:touch|hold)|burn(?:s|ed|t)?)\b"
)


def against(said: str, *, measured: bool = False) -> Against | None:
    """Tell how words go against a release; of what was measured only what burns."""
    if measured:
        return Against.HAZARD if _HAZARD_MEASURED.search(said) else None
    if _HAZARD.search(said):
        return Against.HAZARD
    for one, other in ((_PAPER, _WRONG), (_SCREW, _NO_FIT)):
        if one.search(said) and other.search(said):
            return Against.WRONG
    if _two_papers(said) or _DRAWN_BUT.search(said) or _TWO_THREADS.search(said):
        return Against.WRONG
    for words, way in (
        (_LEFT_OUT, Against.LEFT_OUT),
        (_NOT_HAD, Against.NOT_HAD),
        (_MEANT, Against.MEANT),
    ):
        if words.search(said):
            return way
    return None


def _two_papers(said: str) -> bool:
    """See two papers with two numbers: 380 in the list, 390 in the file."""
    papers = {one.casefold().rstrip("s") for one in _PAPER.findall(said)}
    numbers = set(_NUMBER.findall(said))
    return len(papers - {"text", "link"}) > 1 and len(numbers) > 1
