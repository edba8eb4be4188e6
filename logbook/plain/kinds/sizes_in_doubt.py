"""Lines whose figures may be no size, or sizes of several things."""

from __future__ import annotations

from itertools import pairwise

from logbook.plain.kinds.choice import Choice
from logbook.plain.named.ends_of_names import is_headed
from logbook.plain.named.names import singular
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.smallest_to_largest import ends_of_ranges


def not_one_size(sentence: Sentence) -> Choice | None:
    """Ask of a line that changes a size, or measures two parts."""
    if changed := changes_size(sentence):
        at = sentence.sorts(*FIGURES)[0]
        return Choice(Kind.READING, 0.5, at, _changed_or_measured(changed))
    if _of_two_pieces(sentence):
        return Choice(Kind.READING, 0.5, -1, one_line_each())
    if bracketed := _in_brackets(sentence):
        question = f"“({bracketed})”: measured too, or what it should be?"
        choices = ("measured", f"should be {bracketed}", "only a note")
        return Choice(Kind.READING, 0.5, -1, Doubt("value", question, choices))
    another = _against_another(sentence) or _drawn_of_another(sentence)
    if another or _of_two_parts(sentence):
        return Choice(Kind.READING, 0.5, -1, one_line_each())
    return None


def _of_two_pieces(sentence: Sentence) -> bool:
    """See “mask 1 and 2 both 36.1”."""
    for at in sentence.named("piece"):
        joined, number = sentence.word(at + 1), sentence.word(at + 2)
        if joined is None or number is None or joined.low not in ("and", "&", "+"):
            continue
        if number.whole is not None and not number.unit:
            return True
    return False


def _in_brackets(sentence: Sentence) -> str:
    """Give the bare 6 of “collar 6.35 (6)”."""
    for opened, word, shut in zip(
        sentence.words, sentence.words[1:], sentence.words[2:], strict=False
    ):
        if opened.low == "(" and shut.low == ")" and word.sort is Sort.NUMBER:
            return word.text
    return ""


BECOMES = frozenset({"->", "=>", "→", "-->", "to"})


def changes_size(sentence: Sentence) -> str:
    """Give “2.2 -> 2.5” or “now 2.5 instead of 2.2” as typed, where one is told."""
    words, between_both = sentence.words, {*ends_of_ranges(sentence)}
    for at, first in enumerate(words):
        for step in (2, 3, 4):
            last = sentence.word(at + step)
            if last is None or first.sort is not Sort.NUMBER:
                break
            between = "".join(word.low for word in words[at + 1 : at + step])
            ranges = (at, at + step) in between_both
            if last.sort is Sort.NUMBER and between in BECOMES and not ranges:
                return sentence.text[first.start : last.end]
        second, third = sentence.word(at + 1), sentence.word(at + 2)
        now = first.low == "now" and second is not None and second.sort in FIGURES
        if now and third is not None and "instead" in third.tags:
            return sentence.text[first.start : third.end]
    return ""


def _changed_or_measured(said: str) -> Doubt:
    question = f"“{said}”: changed from one to the other, or measured?"
    return Doubt("kind", question, ("decided", "measured", "only a note"))


def counts_holes(sentence: Sentence) -> bool:
    """See “drain holes 4 x 6 mm”: so many of that size, or two sizes."""
    for at in sentence.sorts(Sort.SIZE):
        word = sentence.words[at]
        before = sentence.word(at - 1) if at else None
        several = before is not None and before.low in ("holes", "screws", "dowels")
        if several and len(word.amounts) == 2 and word.amounts[0] in "23456789":
            return True
    return False


def numbers_a_brand(word: Word, figure: Word) -> bool:
    """Tell the 3 of a glue called so and 3 from a size."""
    unknown = word.sort is Sort.WORD and not word.tags and word.name is None
    bare = figure.sort is Sort.NUMBER and figure.whole is not None and not figure.unit
    return unknown and bare and word.start > 0 and word.text[:1].isupper()


_AGAINST = frozenset({"but", "while", "whereas", "though", "although"})
_OF_STUFF = frozenset({"structure", "fastener", "material", "channel_nouns"})


def _against_another(sentence: Sentence) -> bool:
    """See a size held against one of something else: 178.8, but the bar is 178.6."""
    parts = {sentence.words[at].name for at in sentence.named("part")}
    for at, word in enumerate(sentence.words):
        if word.low.removesuffix(" the") not in _AGAINST:
            continue
        led = word.low.endswith(" the") or "article" in sentence.tags(at + 1)
        behind = sentence.words[at + (2 if "article" in sentence.tags(at + 1) else 1) :]
        sized = [one for one in behind[:5] if one.sort in FIGURES]
        is_so = any({"is", "measures"} & one.tags for one in behind[1:4])
        figures = any(one.sort in FIGURES for one in sentence.words[:at])
        if not (behind and sized and is_so and figures):
            continue
        other = behind[0].name is not None and behind[0].name.role == "part"
        plain = behind[0].sort is Sort.WORD and behind[0].name is None
        tags = behind[0].tags - {"never_part"}
        thing = plain and (not tags or bool(tags & _OF_STUFF))
        if (other and len(parts) > 1) or (led and thing):
            return True
    return False


def _of_two_parts(sentence: Sentence) -> bool:
    """Tell “diffuser 3.9, collar 6.35” from “gap between bar and base 0.3”."""
    told_of = [
        word for word, figure in pairwise(sentence.words) if figure.sort in FIGURES
    ]
    beside = {one.name for one in told_of if one.name and one.name.role == "part"}
    bought = any(one.name is None and _is_bought(one) for one in told_of)
    if (
        len(beside) > 1
        or (beside and bought)
        or _each_of_its_own(sentence)
        or _thing_beside(sentence)
    ):
        return True
    told: list[str] = []
    for start, end in clauses(sentence):
        words = sentence.words[start:end]
        parts = [word.name for word in words if word.name and word.name.role == "part"]
        figures = [
            word for word in words if word.sort in FIGURES and word.dimension != "time"
        ]
        first = words[0]
        idle = not first.tags - {"never_part"}
        unknown = first.sort is Sort.WORD and idle and first.name is None
        named = parts[0].thing if parts else first.low if unknown and told else ""
        if named and figures and named not in told:
            told.append(named)
    return len(told) > 1


def _thing_beside(sentence: Sentence) -> bool:
    """See the foot of “cable weighs 12 g, foot 9 g”: a thing, and no size of another.

    So are the end of a known part's name, and what has a weight of its own.
    """
    words, parts = sentence.words, sentence.named("part")
    for at in sentence.sorts(*FIGURES)[1:]:
        first = at - 1
        while first > 1 and words[first].tags & {"is", "measure"}:
            first -= 1
        noun, led = words[first], words[first - 1]
        begins = led.low in {",", ";", *_LEADS} or "article" in led.tags
        plain = noun.sort is Sort.WORD and noun.name is None
        if not (begins and plain and parts and parts[0] < first - 1):
            continue
        weighs = words[at].dimension == "mass" and not noun.tags - _OF_STUFF
        ends = noun.low in sentence.lexicon.names["alone"] and any(
            is_headed(sentence.lexicon, name, (noun.low,))
            for name in sentence.vocabulary.containing(singular([noun.low]))
        )
        if weighs or ends:
            return True
    return False


def _is_bought(word: Word) -> bool:
    """Tell the bearing of “shaft 7.98, bearing 8.00”, which is no size of the shaft."""
    sized = word.tags & {"measures", "structure", "is", "place"}
    return "fastener" in word.tags and not sized


def _drawn_of_another(sentence: Sentence) -> bool:
    """See “width drawn 63.6 ±0.2, length 118”: what is drawn is of another size."""
    words, figures = sentence.words, sentence.sorts(*FIGURES)
    for at, following in pairwise(figures):
        told = words[:at]
        if any(one in figures for one in range(at)) or not told:
            continue
        drawn = bool(told[-1].tags & {"wanted", "wanted_after"})
        first = {one.low for one in told if "measures" in one.tags}
        between = {one.low for one in words[at + 1 : following] if _names(one)}
        if drawn and first and between and not first & between:
            return True
    return False


def _names(word: Word) -> bool:
    """Tell a word that names a size, and no verb that it is read by."""
    return "measures" in word.tags and not word.tags & {"is", "measure"}


_LEADS = frozenset({"and", "&", "+", "and the", "then"})
_SIDES = frozenset({"side", "end", "edge", "face", "corner", "corners"})


def _each_of_its_own(sentence: Sentence) -> bool:
    """See “lid flange 12.2 and mask height 24.1”: each size is led by its own part."""
    words, told = sentence.words, set()
    figures = sentence.sorts(*FIGURES)
    for before, at in pairwise((-1, *figures)):
        group = words[before + 1 : at]
        while group and (group[0].low in _LEADS or "article" in group[0].tags):
            group = group[1:]
        named = len(group) > 1 and group[0].name is not None
        sized = all(
            one.tags & {"measures", "structure", "is", "article"}
            or (one.name is not None and one.name.role == "characteristic")
            for one in group[1:]
        )
        if not named or not sized or group[1].low in _SIDES:
            continue
        if group[0].name is not None and group[0].name.role == "part":
            told.add(group[0].name)
    return len(told) > 1


def one_line_each() -> Doubt:
    """Say that a line measures two things."""
    return Doubt(
        "kind", "this measures two things: type one line for each", ("only a note",)
    )
