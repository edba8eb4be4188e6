"""How a part is to be made, told without a verb of deciding.

“Shelves get a lipping all round”, “no hem on the tray, roll the edge instead”, “rear
panel in steel this time”, “six holes in the collar, four was too few”. What only came
about (gets hot, no play in the hinge, fits this time) is none of these.
"""

from __future__ import annotations

import re

from logbook.plain.kinds.refused import none_there
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named

_GETS = frozenset({"gets", "get", "takes", "take"})
_DONE_SO = frozenset({"make:past", "close:past", "hold:past", "take_back:past"})
_STUFF = frozenset({"structure", "fastener", "material", "stock_form"})
_NEVER = frozenset(
    {"fail", "defect", "adverse", "too_bad", "off_strong", "negative", "todo", "is",
     "question_always", "absent", "order_done", "measure:past", "hypothetical"}
)  # fmt: skip
_COMES_ABOUT = frozenset(
    {"hot", "warm", "cold", "wet", "dirty", "dark", "used", "tired", "lost", "long",
     "ages", "while", "time", "force", "play", "hours", "minutes", "days", "weeks",
     "knock", "shock", "hit", "more", "less", "better", "worse", "easier", "harder",
     "very", "really", "even", "rather", "some", "care", "nothing", "it", "them"}
)  # fmt: skip
_WHO = frozenset({"i", "we", "you", "they", "it", "he", "she", "one", "that", "this"})
_TIME = re.compile(
    r"\b(?:this time|next (?:time|build|round)|from here on|from now on|in future|"
    r"(?:on|in|for) this one|(?:in|for|on) the next (?:one|build|batch))\b"
)
_HAPPENS = (":past", ":now", ":ing")
_RAN = frozenset({"again", "better", "worse", "well", "easier", "fine", "ok", "good",
                  "luck", "finally", "yet", "already"})  # fmt: skip
_NOT_YET = frozenset({"yet", "left", "there", "visible", "found", "seen", "so far"})
_WRONG_NUMBER = re.compile(
    r"^(?:[\w.]+) (?:was|were|is|are)?\s*(?:too few|too many|not enough|never enough)\b"
    r"|^not (?:\d+|[a-z]+)$"
    r"|^[a-z\d.]+ (?:twisted|bent|sagged|flexed|cracked|split|moved)\b"
)
_MOST = 4
_NO_SUBJECT = frozenset({"fastener", "others_did", "outside_work", "generic"})


def chosen_plainly(sentence: Sentence) -> int | None:
    """Give the word that tells how it is to be, None where nothing was chosen so."""
    rows = [*clauses(sentence)]
    if not rows or sentence.text.rstrip().endswith("?"):
        return None
    for form in _FORMS:
        if (at := form(sentence, rows)) is not None:
            return at
    return None


_Rows = list[tuple[int, int]]


def _lows(words: list[Word]) -> list[str]:
    return [low for word in words for low in word.low.split(" ")]


def _noun_before(sentence: Sentence, start: int, end: int) -> bool:
    """Tell whether these words are a thing: the lid, next frame, doors; no I and we."""
    words = sentence.words[start:end]
    if words and words[0].low == "next":
        words = words[1:]
    if not 0 < len(words) <= _MOST or words[-1].low in _WHO:
        return False
    if words[-1].name is None and words[-1].tags & _NO_SUBJECT:
        return False
    return not any(
        word.name is None
        and (word.sort is not Sort.WORD or word.tags & {*_NEVER, "preposition", "tool"})
        for word in words
    )


def _gets(sentence: Sentence, rows: _Rows) -> int | None:
    """See “shelves get a lipping”, “track gets pinned, not glued”."""
    for start, end in rows[:2]:
        for at in range(start + 1, end - 1):
            if sentence.words[at].low not in _GETS:
                continue
            rest = sentence.words[at + 1 : end]
            amiss = any(
                word.tags & (_NEVER - {"is", "off_strong"}) or word.low[:4] == "too "
                for word in rest
            )
            if amiss or not _noun_before(sentence, start, at):
                return None
            return at if _is_given(rest) else None
    return None


def _is_given(words: list[Word]) -> bool:
    """Tell what a part is to have from how it gets: a wider shell, eight screws."""
    if not _COMES_ABOUT.isdisjoint(_lows(words)):
        return False
    first = words[0]
    if first.tags & _DONE_SO:
        return True
    if first.sort in FIGURES or first.unit or first.tags & {"preposition", "place"}:
        return False
    if "article" in first.tags or first.whole is not None:
        return len(words) > 1
    worse = first.low.endswith("er") and not first.tags  # Gets louder every day.
    plain = first.name is not None or not first.tags or bool(first.tags & _STUFF)
    return plain and not worse


def _left_off(sentence: Sentence, rows: _Rows) -> int | None:
    """See “no hem on the tray, roll the edge instead”, “no stain, just oil”.

    What there only is none of (no play in the hinge, no lid on the box, dust got in)
    was chosen by nobody.
    """
    start, end = rows[0]
    words, lows = sentence.words[start:end], _lows(sentence.words[start:end])
    if lows[:1] != ["no"] or len(lows) < 2 or none_there(sentence):
        return None
    never = _NEVER - {"todo"} | {"measures"}
    if any(word.tags & never for word in words[1:]) or _NOT_YET & {*lows}:
        return None
    rest = [] if len(rows) < 2 else sentence.words[rows[1][0] : rows[1][1]]
    said = _lows(rest)
    if said[:1] and said[0] in ("just", "only", "plain"):
        return start
    on = any(low in ("on", "for", "under", "round") for low in lows)
    placed = on and any(at < end for at in parts_named(sentence))
    version = lows[-1] in ("version", "model", "variant", "kind", "edition")
    happened = any(tag.endswith(":past") for word in rest for tag in word.tags)
    happened = happened or not {"got", "came", "was", "were", "fell"}.isdisjoint(said)
    other = "instead" in said or said[-2:] == ["it", "is"]
    why = bool(said) and said[0] not in ("it", "they", "so", "but", "and")
    if on and version:
        return start
    return start if placed and (other or why) and not happened else None


def _this_time(sentence: Sentence, rows: _Rows) -> int | None:
    """See “rear panel in steel this time”, “cable comes in from below this time”."""
    text = sentence.text.lower()
    told = _TIME.search(text)
    if told is None or told.start() <= sentence.words[0].start:
        return None
    start, end = rows[0]
    words = [word for word in sentence.words[start:end] if word.start < told.start()
             and word.low != "without"]  # fmt: skip
    if (
        not words
        or "preposition" in words[0].tags
        or not _RAN.isdisjoint(_lows(sentence.words))
    ):
        return None
    for word in words:
        verb = any(tag.endswith(_HAPPENS) for tag in word.tags)
        if word.name is None and (
            word.tags & (_NEVER - {"todo"} | {"fit", "able"} - _STUFF)
            or (verb and word.low not in _ALLOWED and not word.tags & _STUFF)
        ):
            return None
    things = any(word.name is not None or word.tags & _STUFF for word in words)
    return start if things else None


_ALLOWED = frozenset({"comes", "goes", "go", "come", "quartersawn"})


def _so_many(sentence: Sentence, rows: _Rows) -> int | None:
    """See “six holes in the collar, four was too few”, “8 screws on it, not 6”."""
    if len(rows) < 2 or sentence.words[0].whole is None:
        return None
    words = sentence.words[1 : rows[0][1]]
    led = any(word.low.split(" ")[0] in ("in", "on", "for", "per") for word in words)
    verbs = any(
        tag.endswith(":past") or tag == "is" for word in words for tag in word.tags
    )
    start, end = rows[1]
    said = " ".join(_lows(sentence.words[start:end]))
    return 0 if led and not verbs and _WRONG_NUMBER.search(said) else None


def _as_well(sentence: Sentence, rows: _Rows) -> int | None:
    """See “pan heads for the diffuser as well”."""
    start, end = rows[0]
    words, lows = sentence.words[start:end], _lows(sentence.words[start:end])
    ends = lows[-2:] == ["as", "well"] or lows[-1:] == ["too"]
    chosen = words[0].tags & _STUFF or words[min(1, len(words) - 1)].tags & _STUFF
    verbs = any(
        tag.endswith(":past") or tag in _NEVER for word in words for tag in word.tags
    )
    return start if ends and chosen and "for" in lows and not verbs else None


def _in_this_way(sentence: Sentence, rows: _Rows) -> int | None:
    """See “bend it cold, never with a flame”, “print the lid flat next time”."""
    tags = sentence.tags(0)
    later = _NEXT.search(sentence.text) is not None
    done_too = not tags.isdisjoint({"make:past", "close:past"}) and not later
    if tags.isdisjoint({"make:base", "close:base"}) or done_too:
        return None
    named = [at for at in parts_named(sentence) if at < rows[0][1]]
    led = "article" in sentence.tags(1) or named[:1] == [1]
    if not named or not led:
        return None
    behind = _lows(sentence.words[rows[1][0] : rows[1][1]]) if len(rows) > 1 else []
    against = bool(behind) and behind[0] in ("not", "never")
    other = any(
        "off_strong" in word.tags and word.low.endswith("er") for word in sentence.words
    )
    return 0 if against or later or other else None


_NEXT = re.compile(r"(?i)\bnext (?:time|build|round|one)\W*$")
_SOME = frozenset({"place", "ordinal", "generic", "measures", "tool", "not_bench"})


def _this_not_that(sentence: Sentence, rows: _Rows) -> int | None:
    """See “cable goes out the back, not the side”: which way it is to be.

    What is there, or was done so, is told with a verb that says it.
    """
    if len(rows) != len(("this", "that")) or sentence.sorts(*FIGURES):
        return None
    (start, end), (first, last) = rows
    here, there = sentence.words[start:end], sentence.words[first + 1 : last]
    placed = [bool(row) and bool(row[-1].tags & _WHERE) for row in (here, there)]
    only = all(word.tags & _LEADS_THERE for word in there)
    told = any(
        word.tags & {"is", "todo", "question", "order_done", "article", "fail:now"}
        or any(tag.endswith(":past") for tag in word.tags)
        for word in here[1:-1]
        if word.low not in _LEADS_TO
    )
    thing = here[0].name is not None or "fastener" in here[0].tags
    led = sentence.words[first].low == "not"
    return start if led and thing and all(placed) and only and not told else None


_WHERE = frozenset({"place", "structure", "locative"})
_LEADS_THERE = _WHERE | {"article", "preposition"}
_LEADS_TO = frozenset({"the", "at", "@"})


def _happens(tag: str) -> bool:
    return tag.endswith(_HAPPENS)


def _only(sentence: Sentence, rows: _Rows) -> int | None:
    """See “wooden pegs only, no metal near the warp”, “red lamps only, white …”."""
    start, end = rows[0]
    words = sentence.words[start : end - 1]
    if len(rows) < 2 or sentence.words[end - 1].low != "only" or not words:
        return None
    plain = all(
        word.sort is Sort.WORD
        and not word.tags & (_NEVER | _SOME)
        and (word.tags & _STUFF or not any(map(_happens, word.tags)))
        for word in words
    )
    return start if plain and len(words) in (1, 2, 3) else None


_FORMS = (_gets, _left_off, _this_time, _so_many, _as_well, _in_this_way, _only,
          _this_not_that)  # fmt: skip
