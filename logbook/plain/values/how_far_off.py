"""When a figure is how far a size is off, and no size: 0.4 too wide, +0.5."""

from __future__ import annotations

from logbook.plain.values.walk import Walk
from logbook.plain.words.figures import Sort, Word

SIGNS = {"+": "over", "-": "under"}
_DRAWN = frozenset({"drawing", "nominal", "size", "limit", "tolerance", "plan", "spec"})
_SENSES = frozenset(
    {"short", "shy", "oversize", "oversized", "undersize", "undersized"}
)
_LITTLE_MM = 3
"""Up to here a figure may be how far something is off, rather than its size."""


def signed(walk: Walk, at: int, word: Word) -> bool:
    """See “lid +0.5”: how far it is off, as no size has a sign."""
    before = walk.at(at - 1) if at else None
    figure = before is not None and before.sort in (Sort.NUMBER, Sort.SIZE)
    length = word.dimension in ("", "length") and not walk.values.readings
    return word.text[:1] in SIGNS and length and not figure


def is_off(walk: Walk, at: int, next_tags: frozenset[str], before: Word | None) -> bool:
    """Tell whether a figure is how far a size is off."""
    if walk.sentence.words[at].sort is Sort.SIZE:
        return False  # 60 x 40 too small.
    out_of = before is not None and before.low.startswith("out of ")
    if out_of and not walk.values.readings:
        return True  # Out of flat 0.4 over 300.
    if "off_strong" in next_tags:
        if _felt(walk, at) or _over_a_length(walk, at, before):
            return False
        across = walk.at(at + 2)
        return across is None or across.sort not in (Sort.NUMBER, Sort.SIZE)
    if before is None:
        return False
    if "off_by" in before.tags and (
        " " in before.low
        or any("off" in word.tags for word in walk.sentence.words[max(0, at - 3) : at])
    ):
        return True
    last = walk.at(at + 1) is None and before.low in (",", "-", ":", "(")
    sense = walk.at(at - 2) if last and at > 1 else before  # Mask too narrow, 0.4.
    strong = sense is not None and "off_strong" in sense.tags and " " in sense.low
    strong = strong or _so_little(walk, at, before)
    return strong and not walk.values.readings


def _so_little(walk: Walk, at: int, before: Word) -> bool:
    """See “crossbar short 0.2”, “my lid stands 1.5 higher than drawn”."""
    word, following, after = walk.sentence.words[at], walk.at(at + 1), walk.at(at + 2)
    if word.whole is not None and word.dimension not in ("", "length"):
        return False
    small = [one for one in word.quantities("mm") if one.dimension == "length"]
    if not small or small[0].to("mm") > _LITTLE_MM:
        return False
    compares = following is not None and following.low in ("lower", "higher")
    than = after is not None and after.low == "than"
    if compares and (following is None or following.low == "higher" or than):
        return True
    return before.low in _SENSES and (
        following is None or following.sort is not Sort.WORD
    )


def _felt(walk: Walk, at: int) -> bool:
    """Tell “hole 4.9 too tight”, a size and how it feels, from “0.5 too wide”."""
    sense = walk.at(at + 1)
    felt = sense is not None and sense.low in ("too tight", "too loose")
    named = bool(walk.buffer) and walk.buffer[-1].tags & {"measures", "structure"}
    return felt and bool(named)


def _over_a_length(walk: Walk, at: int, before: Word | None) -> bool:
    """Tell flatness 0.3 over the diagonal from width 0.3 over the drawing.

    What lies over the faces or under a straightedge is measured there too.
    """
    over, article, noun = walk.at(at + 1), walk.at(at + 2), walk.at(at + 3)
    named = before is not None and "measures" in before.tags
    behind = frozenset[str]().union(
        *(one.tags for one in (noun, walk.at(at + 4)) if one is not None)
    )
    by_it = "instrument" in behind
    across = by_it or ("structure" in behind and not _is_little(walk, at))
    led = over is not None and (
        (over.low == "over" and (named or across)) or (over.low == "under" and by_it)
    )
    if not led or article is None or "article" not in article.tags:
        return False
    wanted = frozenset({"wanted", "attribution_drawing", "drawing", "list_says"})
    return noun is not None and not noun.tags & wanted and noun.low not in _DRAWN


def _is_little(walk: Walk, at: int) -> bool:
    """Tell whether a figure may be how far something stands out: 0.4 over the face."""
    values = walk.sentence.words[at].quantities("mm")
    return (
        bool(values)
        and values[0].dimension == "length"
        and (values[0].to("mm") <= _LITTLE_MM)
    )
