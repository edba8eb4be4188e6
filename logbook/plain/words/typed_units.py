"""The unit typed behind a figure, where the word there is one."""

from __future__ import annotations

import re
from collections.abc import Iterator

from logbook.errors import BadInput
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.lexicon import UnitWords
from logbook.units import find_unit, is_unit

_UNIT = re.compile(
    r"(?P<gap>\s*)(?P<unit>°\s?[CFcf](?![\w])|[°\"%€£$]|"
    r"(?:ft|in|deg|degrees|newton)[ ·-](?:lbs?|c|f|metres)(?!\w)|"
    r"[µμ]?[^\W\d_]+(?:[·./^*-][^\W\d_]+)*[²23]?(?!\w))",
    re.IGNORECASE,
)


_THREAD = re.compile(
    r"M\d|m\d\d?\S*\s+(?:[a-z]+\s+){0,2}(?:screw|washer|nut|bolt|insert|stud|standoff|rivet|"
    r"(?:loc|thumb|rivet)nut|nyloc|spacer|head|tap|hex|grub|thread)s?\b"
)
"""A thread behind a count, 20 M3 washers, 50 m3 nuts: no cubic metres."""
_NEXT = re.compile(r"\s*([^\W\d_]+|\d|[^\w\s]|$)")


def add_unit(word: Word, plain: str, units: UnitWords) -> None:
    """Take the word behind a figure for its unit, where it is one."""
    if word.sort is Sort.CODE or word.unit:
        return
    for match in _units_at(plain, word.end):
        typed = match["unit"].lower()
        if _THREAD.match(plain, match.start("unit")):
            return
        if typed in units.foreign and match["unit"] != "m":
            word.sort, word.amounts, word.end = Sort.CODE, (), match.end()
            return
        if _rate_unknown(match["unit"]):
            word.sort, word.amounts, word.end = Sort.CODE, (), match.end()
            return
        plainly = typed in units.never and not _of_pressure(word, match, plain, units)
        if plainly or not _meant(word, match, plain, units.after_in):
            continue
        try:
            word.unit = find_unit(match["unit"]).symbol
        except BadInput:
            continue
        word.end = match.end()
        return
    attached = plain[word.end : word.end + 1].isalpha()
    if attached and _letters(plain, word.end) not in units.never:
        word.sort, word.amounts = Sort.CODE, ()


def _rate_unknown(typed: str) -> bool:
    """See the steps/mm, g/cm3 of other trades: a figure before one is no length."""
    left, slash, right = typed.partition("/")
    rated = bool(slash) and any(len(one) > 1 and is_unit(one) for one in (left, right))
    return (rated or bool(_PER.match(typed))) and not is_unit(typed)


_PER = re.compile(r"[µmk]?[gl]/[a-z]", re.IGNORECASE)


def _of_pressure(
    word: Word, match: re.Match[str], plain: str, units: UnitWords
) -> bool:
    """Tell the bar of “held at 2.1 bar for 30 min” from a bar of metal."""
    if match["unit"].lower() != "bar" or _NOUN.match(plain, match.end()):
        return False
    said = re.findall(r"[^\W\d]+", plain[: word.start] + plain[match.end() :])
    little = word.has_decimals or (word.whole or 0) < _MOST_BAR
    return little and any(one.lower() in units.of_bar for one in said)


_MOST_BAR = 12
"""A shop's compressor gives no more (common practice, no source)."""
_NOUN = re.compile(
    r"\s+(?!(?:for|at|in|on|after|with|over|to|and|now|then|from|again|all|before|should"
    r"|ought|must|was|is|not|when|instead|drawn|wanted|nominal)\b)[^\W\d_]"
)


def _letters(plain: str, end: int) -> str:
    """Give the letters that stand right behind a number."""
    match = re.compile(r"[^\W\d_]+").match(plain, end)
    return match[0].lower() if match else ""


def _units_at(plain: str, end: int) -> Iterator[re.Match[str]]:
    match = _UNIT.match(plain, end)
    if match:
        yield match
        if " " in match["unit"]:
            single = _UNIT.match(plain[: match.start("unit") + 3].rstrip(), end)
            if single:
                yield single


def _meant(
    word: Word, match: re.Match[str], plain: str, after_in: frozenset[str]
) -> bool:
    unit = match["unit"]
    attached = not match["gap"]
    following = _NEXT.match(plain, match.end())
    after = following[1].lower() if following else ""
    if unit.lower() == "lb" and after.isdigit():
        return False  # Rf 178.65 lb 178.62: left back.
    if unit.lower() == "in":
        ends = not after or not (after[0].isalnum())
        return attached or ends or after in after_in or "/" in word.amounts[0]
    if len(unit) > 1 or not unit.isalpha():
        return True
    if after.isdigit():
        return (attached or unit in "VACFK") and unit not in "whldtWHLDT"
    if unit in ("a", "n", "k"):
        return False
    if unit in "lL":
        return False  # 178.6 l: left, or a length; litres are written out.
    if unit in ("w", "d"):
        return attached and word.has_decimals
    return attached or unit.isupper() or unit in "cfmhsgv"
