"""A fault of this shop, the paper being right: my saw leaves 0.3, plan is fine."""

from __future__ import annotations

import re

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence

_PAPER = r"(?:drawings?|plans?|dxf|stl|model|file|pattern|template|sheet|sketch|print)"
_IS_RIGHT = re.compile(
    rf"\b{_PAPER}\b(?: itself)?(?: is|'s| are)? (?:all )?"
    r"(?:right|fine|ok|okay|good|stands|stays|correct|true|innocent|not wrong|"
    r"not at fault|not to blame)\b"
    rf"|\bnothing wrong (?:in|on|with) (?:the |my |our )?{_PAPER}\b"
    rf"|\bnot (?:the |a |my |our )?{_PAPER}\b|\bno fault (?:of|in) the {_PAPER}\b"
)
_OWN_DOING = frozenset(
    {"fault", "mistake", "error", "slip", "doing", "bad", "blunder", "hand", "hands",
     "eye", "eyes", "cut", "own"}
)  # fmt: skip


def own_machine(sentence: Sentence) -> int | None:
    """Give the “my” of the machine that is at fault, where a paper is said not to be.

    By how much is told; what was a slip of the hand is no machine's.
    """
    if not sentence.sorts(*FIGURES):
        return None
    lows = [(low, at) for at, word in enumerate(sentence.words)
            for low in word.low.split(" ")]  # fmt: skip
    mine = [place for place, (low, _) in enumerate(lows[:-1]) if low in ("my", "our")]
    right = [row for row in clauses(sentence) if _says_right(sentence, row)]
    for place in mine:
        at = lows[place][1]
        apart = any(not start <= at < end for start, end in right)
        if apart and lows[place + 1][0] not in _OWN_DOING:
            return at
    return None


def _says_right(sentence: Sentence, row: tuple[int, int]) -> bool:
    said = " ".join(word.low for word in sentence.words[row[0] : row[1]])
    return bool(_IS_RIGHT.search(said))
