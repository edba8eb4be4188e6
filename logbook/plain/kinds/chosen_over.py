"""What a part is made of or gets, told without a verb and with what it is not.

“PETG for the gate, PLA goes soft”, “lid in oak, pine dents too easily”, “thicker wire
to the lamp”, “oil finish on the bed, no varnish”, “swap felt for cork under the base”.
What only happened to be there (paint on the thread, the nut binds) names no rival.
"""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import STUFF, Sentence, parts_named

_FINISHES = frozenset(
    {"oil", "varnish", "paint", "wax", "lacquer", "shellac", "stain", "primer", "dye",
     "powder coat", "powder coating", "anodising", "anodizing", "plating", "spray",
     "galvanising", "glue", "epoxy", "tape", "solder", "crimps", "stitching"}
)  # fmt: skip
_COLOURS = frozenset(
    {"black", "white", "red", "blue", "green", "yellow", "brown", "grey", "gray",
     "silver", "clear", "matt", "matte", "gloss", "satin", "opal", "raw", "bare"}
)  # fmt: skip
_MORE = frozenset(
    {"thicker", "thinner", "longer", "shorter", "bigger", "smaller", "wider", "larger",
     "narrower", "stronger", "stiffer", "heavier", "lighter", "finer", "coarser",
     "softer", "harder", "slimmer", "taller", "deeper", "brighter", "slower", "faster"}
)  # fmt: skip
_GETS = frozenset(
    {"for", "to", "on", "in", "under", "over", "round", "around", "behind"}
)  # fmt: skip
_OF = frozenset({"in", "from", "of", "out of", "with"})
_HAPPENED = frozenset(
    {"make:past", "close:past", "fail:past", "fail:now", "is", "measure", "measures",
     "use:past", "order_done", "todo", "scrap", "repair", "absent", "defect",
     "negative", "take_back:past", "rework:past", "hold:past", "step", "because",
     "question_always"}
)  # fmt: skip
_ADVERSE = frozenset({"fail", "negative", "too_bad", "plain_verb"})
_WONT_DO = ("won't do", "wont do", "will not do", "is no good", "are no good",
            "is no use", "is not enough", "isn't enough", "are not enough")  # fmt: skip


def chosen_over(sentence: Sentence) -> int | None:
    """Give the word that tells what is chosen for a part, and over what."""
    rows = list(clauses(sentence))
    if not rows or sentence.text.rstrip().endswith("?"):
        return None
    at = _swapped(sentence, rows[0])
    at = _headed_by_part(sentence) if at is None else at
    if at is not None:
        return at
    if len(rows) == len("ab") and _of_another_size(sentence, rows[0], rows[1]):
        return rows[0][0]
    start, end = rows[0]
    tags = {tag for word in sentence.words[start:end] for tag in word.tags}
    figures = any(word.sort in FIGURES for word in sentence.words[start:end])
    if tags & _HAPPENED - {"measures"} or figures or len(rows) != len("ab"):
        return None
    for form in (_more_of_it, _one_for_another, _in_another, _no_other):
        if (at := form(sentence, rows[0], rows[1])) is not None:
            return at
    return None


def _of_another_size(
    sentence: Sentence, row: tuple[int, int], why: tuple[int, int]
) -> bool:
    """See “3 mm for the base, 2 is too floppy”, “mask in 1.5 sheet, 1 mm flutters”."""
    words, said = sentence.words[slice(*row)], sentence.words[slice(*why)]
    tags = {tag for word in words for tag in word.tags}
    sizes = [at for at, word in enumerate(words) if word.sort in _SIZES]
    named = [at for at, word in enumerate(words) if word.name is not None]
    if len(sizes) != 1 or not named or tags & _HAPPENED or said[0].sort not in _SIZES:
        return False
    between = words[min(named[0], sizes[0]) + 1 : max(named[0], sizes[0])]
    led = [word.low for word in between if word.low in {"for", "in", "from"}]
    against = any(word.tags & _ADVERSE for word in said)
    return len(led) == 1 and len(between) <= len("abc") and against


_SIZES = (*FIGURES, Sort.GAUGE, Sort.THREAD)


def _head(sentence: Sentence, row: tuple[int, int]) -> int:
    """Give where the first noun of a clause stands, behind “the”, “plain”, “four”."""
    at = row[0]
    while at < row[1] - 1 and (
        sentence.tags(at) & {"article", "adjective"}
        or sentence.words[at].sort is Sort.COUNT
    ):
        at += 1
    return at


def _for_part(sentence: Sentence, row: tuple[int, int]) -> int | None:
    """Give the “for” that leads to a known part, and nothing but its feature behind."""
    for at in range(row[0] + 1, row[1] - 1):
        if sentence.words[at].low in _GETS:
            named = [one for one in parts_named(sentence) if at < one < row[1]]
            return at if named and named[0] <= at + len("ab") else None
    return None


def _rival(sentence: Sentence, row: tuple[int, int], first: set[str]) -> bool:
    """Tell whether a clause begins with what is not taken: pla goes soft."""
    at = _head(sentence, row)
    word, said = sentence.words[at], sentence.words[row[0] : row[1]]
    tags = {tag for one in said for tag in one.tags}
    sizes = any(one.sort in FIGURES for one in said)
    goes_on = at + 1 < row[1]
    if word.low in first or sizes or not goes_on or tags & {"make:past", "fail:past"}:
        return False
    other = bool(word.tags & STUFF) or word.low in _FINISHES
    verb = tags & _ADVERSE or any(
        not one.tags and one.low.endswith("s") for one in said[1:]
    )
    return bool(other and verb) and word.name is None


def _one_for_another(
    sentence: Sentence, row: tuple[int, int], why: tuple[int, int]
) -> int | None:
    """See “cork under the base, rubber marks the table”."""
    to = _for_part(sentence, row)
    if to is None:
        return None
    said = " ".join(word.low for word in sentence.words[why[0] : why[1]])
    first = {word.low for word in sentence.words[row[0] : to]}
    own = [one for one in range(row[0], to) if sentence.tags(one) & STUFF]
    meant = sentence.words[to].low == "for"
    finish = first & _FINISHES and meant
    holds = any("fastener" in sentence.tags(one) for one in own) and not meant
    if said.endswith(_WONT_DO):
        return row[0]
    if holds and not {"ones", "one"} & {*said.split(" ")}:
        return None  # Screws in the lid, nuts won't turn: it failed.
    chosen = bool(own or finish) and _rival(sentence, why, first)
    return (own[0] if own else row[0]) if chosen else None


def _in_another(
    sentence: Sentence, row: tuple[int, int], why: tuple[int, int]
) -> int | None:
    """See “lid in oak, pine dents too easily”, “gate in black, the white one …”."""
    at = _head(sentence, row)
    if sentence.words[at].name is None or row[1] - at not in (len("abc"), len("abcd")):
        return None
    last = sentence.words[row[1] - 1]
    led = sentence.words[at + 1].low in _OF
    if not led or not (last.tags & STUFF or last.low in _COLOURS):
        return None
    lows = [word.low for word in sentence.words[why[0] : why[1]]]
    other = any(
        two in ("one", "ones") and one in _COLOURS for one, two in pairwise(lows)
    )
    other = other or (lows[0] in _COLOURS and lows[1:2] not in ([], ["is"], ["and"]))
    return at + 1 if other or _rival(sentence, why, {last.low}) else None


def _more_of_it(
    sentence: Sentence, row: tuple[int, int], why: tuple[int, int]
) -> int | None:
    """See “thicker wire to the lamp, 0.75 mm²”, “longer screws for the lid, M4x25”.

    “Bigger gap on the left” tells what was measured.
    """
    to = _for_part(sentence, row)
    if to is None or sentence.words[row[0]].low not in _MORE or to == row[0] + 1:
        return None
    inside = sentence.words[row[0] + 1 : to]
    measured = any("measures" in word.tags for word in inside)
    sure = sentence.words[to].low in ("for", "to") and not measured
    said = sentence.words[why[0] : why[1]]
    thread = any(word.sort is Sort.THREAD for word in said)
    found = any(word.tags & {"is", "plain_verb", "fail"} for word in said)
    return row[0] if (sure or thread) and not found else None


def _no_other(
    sentence: Sentence, row: tuple[int, int], why: tuple[int, int]
) -> int | None:
    """See “oil finish on the bed, no varnish”."""
    no, behind = sentence.words[why[0]], _head(sentence, (why[0] + 1, why[1]))
    if _for_part(sentence, row) is None or no.low not in ("no", "not"):
        return None
    one, other = sentence.words[_head(sentence, row)], sentence.words[why[1] - 1]
    if behind != why[1] - 1 or one.low == other.low:
        return None
    finishes = {one.low, other.low} <= _FINISHES
    stuff = "material" in one.tags & other.tags
    instead = no.low == "not" and other.tags & STUFF and other.name is None
    return row[0] if finishes or stuff or instead else None


def _swapped(sentence: Sentence, row: tuple[int, int]) -> int | None:
    """See “swap felt for cork under the base”."""
    words = sentence.words[row[0] : row[1]]
    if words[0].low not in ("swap", "change", "replace", "switch"):
        return None
    to = [at for at, word in enumerate(words) if word.low in ("for", "with", "to")]
    stuff = [at for at, word in enumerate(words) if word.tags & STUFF]
    named = any(row[0] < one < row[1] for one in parts_named(sentence))
    told = to and stuff and stuff[0] < to[0] < stuff[-1] <= to[0] + len("abc")
    return row[0] if told and named else None


def _headed_by_part(sentence: Sentence) -> int | None:
    """See “pcb cover: vents on top, not the side”: how it is to be."""
    at = 1 if "article" in sentence.tags(0) else 0
    colon = sentence.word(at + 1)
    if colon is None or colon.low != ":" or sentence.words[at].name is None:
        return None
    told = {tag for word in sentence.words[at + 2 :] for tag in word.tags}
    nouns = {"structure", "fastener", "material"}
    still = sentence.words[-1].low in ("yet", "in", "there", "on", "in yet", "on yet")
    if told & (_HAPPENED - {"measures"}) or sentence.sorts(*FIGURES) or still:
        return None
    for no in range(at + 3, len(sentence.words) - 1):
        behind = sentence.tags(no + 1) & {"article", "locative", *nouns}
        if sentence.words[no].low == "not" and behind and sentence.tags(at + 2) & nouns:
            return no
    return None
