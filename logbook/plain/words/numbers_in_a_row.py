"""Several pieces named in a row by their part: gates 1 and 2, masks 1-3, masks 1, 2."""

from __future__ import annotations

from logbook.plain.words.figures import Sort, Word

MOST_PIECES = 20
"""A number behind the name of a part is one of its pieces up to here."""


def several_pieces(words: list[Word], at: int) -> int:
    """Give how many words of “gates 1 and 2” name pieces, 0 where they do not."""
    if not words[at].low.endswith("s"):
        return 4 if _both_told(words, at) else 0
    size = 2 if _is_small(words, at + 1) else 0
    if size and _runs_to(words, at):
        return 4
    joined = False
    while size and _is_small(words, at + size + 1):
        mark = words[at + size].low
        if mark not in ("and", "&", ",") or (joined and mark == ","):
            break
        joined = joined or mark != ","
        size += 2
    return size if joined or (size > 2 and _ends_a_row(words, at + size)) else 0


def _both_told(words: list[Word], at: int) -> bool:
    """Tell “bin lid 1 and 2” from “lid 1 and 2 screws”: what follows is no noun."""
    both = _is_small(words, at + 1) and _is_small(words, at + 3)
    if not both or words[at + 2].low not in ("and", "&", "+"):
        return False
    behind = words[at + 4] if at + 4 < len(words) else None
    verb = behind is not None and any(
        tag == "is" or tag.endswith((":past", ":now")) for tag in behind.tags
    )
    return behind is None or behind.sort is Sort.MARK or verb


def _ends_a_row(words: list[Word], at: int) -> bool:
    """Tell whether a row with commas only ends here: masks 1, 2: …, masks 1, 2 tore."""
    behind = words[at] if at < len(words) else None
    if behind is None or behind.low == ":":
        return behind is not None
    sized = behind.tags & {"length_adjective", "off_strong", "off", "pieces"}
    return behind.sort is Sort.WORD and bool(behind.tags) and not sized


def _runs_to(words: list[Word], at: int) -> bool:
    """Tell whether pieces are named from one to another: masks 1-3, masks 1 to 3."""
    to = words[at + 2] if at + 2 < len(words) else None
    if to is None or to.low not in ("-", "to") or not _is_small(words, at + 3):
        return False
    first, last = words[at + 1].whole or 0, words[at + 3].whole or 0
    return first < last


def _is_small(words: list[Word], at: int) -> bool:
    """Tell whether a bare whole number stands there that may number a piece."""
    word = words[at] if at < len(words) else None
    if word is None or word.sort is not Sort.NUMBER or word.unit or word.has_decimals:
        return False
    return word.whole is not None and 0 < word.whole <= MOST_PIECES
