"""Failures: something broke, does not work, or was spoiled in the making."""

from __future__ import annotations

from logbook.plain.kinds.amiss import amiss_at
from logbook.plain.kinds.blame import ATTRIBUTED
from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.chosen_over import chosen_over
from logbook.plain.kinds.decisions import decision_at
from logbook.plain.kinds.dispositions import disposed_at, fault_taken_out
from logbook.plain.kinds.failing import failure_at
from logbook.plain.kinds.missing import missing_at
from logbook.plain.kinds.rows_of_work import row_of_work
from logbook.plain.kinds.set_into import into_a_wire, set_into
from logbook.plain.kinds.substitutions import for_want
from logbook.plain.kinds.unmeant import unmeant_at
from logbook.plain.understanding import Doubt, Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import Sentence, parts_named
from logbook.records.making.one_more import makes_one_more

_NO_FAILURE = (row_of_work, fault_taken_out, chosen_over, set_into)


def failed(sentence: Sentence, values: Values) -> Choice | None:
    """See a failure, unless a decision or disposition was told first."""
    if any(rule(sentence) is not None for rule in _NO_FAILURE):
        return None
    at = failure_at(sentence)
    for rule in (amiss_at, missing_at, _gives_way, _cut_through):
        at = rule(sentence) if at is None else at
    if at is None:
        at = _spoiled(sentence, values)
    at = unmeant_at(sentence) if at is None else at
    if at is None:
        return None
    if _told_otherwise(sentence, at) or _fate_behind(sentence, at):
        return None
    earlier = [
        place
        for place in (
            decision_at(sentence),
            disposed_at(sentence),
            *(
                one
                for one in sentence.tagged(*ATTRIBUTED)
                if not _just_fails(sentence, one)
            ),
        )
        if place is not None
    ]
    if any(place < at for place in earlier):
        return None
    if _tells_two(sentence, at):
        return Choice(Kind.FAILURE, 0.5, at, _two_facts())
    if _always_so(sentence, at):
        return Choice(Kind.FAILURE, 0.5, at, _always_or_once())
    loosened = any(word.low == "loose" for word in sentence.words[at:])
    if at == 0 and (loosened or sentence.words[0].low.endswith(" off")):
        return Choice(Kind.FAILURE, 0.5, at, _meant_or_not(sentence))
    return Choice(Kind.FAILURE, 0.9, at)


def _tells_two(sentence: Sentence, at: int) -> bool:
    """See what came, or how it fits, told before what failed: two facts in a line."""
    if _one_of_two(sentence, at):
        return True
    came = [place for place in sentence.tagged("order_done:past") if place < at]
    if came and any(word.low in (",", ";") for word in sentence.words[came[0] : at]):
        return True
    fit = [
        place for place in sentence.tagged("fit") if "fail" not in sentence.tags(place)
    ]
    if not fit or fit[0] >= at:
        return False
    but = "but" in {word.low for word in sentence.words[fit[0] : at]}
    return but and len({sentence.words[one].name for one in parts_named(sentence)}) > 1


_ONE_OF = frozenset({"first", "second", "one", "other", "last", "third"})


def _one_of_two(sentence: Sentence, at: int) -> bool:
    """See several made of which one failed: printed it twice, first one warped."""
    made = [place for place in sentence.tagged("make:past") if place < at]
    if not made:
        return False
    if made[0] < 2 and makes_one_more(sentence.between(0, at - 1)):
        return True  # Reprinted the gate, it warped: the old one, or the new one?
    several = any(
        word.low == "twice"
        or (
            word.sort is Sort.COUNT
            and (word.whole or 0) > 1
            and any(one.name for one in sentence.words[place + 1 : place + 3])
        )
        for place, word in enumerate(sentence.words[:at])
    )
    between = sentence.words[made[0] : at]
    which = {low for word in between[-3:] for low in word.low.split(" ")}
    return several and bool(which & _ONE_OF)


def _told_otherwise(sentence: Sentence, at: int) -> bool:
    """See what failed only as the reason of something else: out of PLA, used PETG."""
    ran_out = sentence.words[at].low.endswith("out of")
    return (ran_out and for_want(sentence) is not None) or _in_order(sentence, at)


_LATER = frozenset({"after", "afterwards", "later", "then", "any more", "anymore"})


def _in_order(sentence: Sentence, at: int) -> bool:
    """See why work comes first: put the rivets in first, can't reach them after."""
    rows = list(clauses(sentence))
    first = {
        word.low
        for start, end in rows
        for word in sentence.words[start:end]
        if end <= at and word.low in ("first", "before")
    }
    behind = {word.low for word in sentence.words[at:]}
    return bool(first and behind & _LATER and "negative" in sentence.tags(at))


_PAPERS = frozenset(
    {"drawing", "plan", "dxf", "stl", "model", "file", "print", "print's"}
)


def _just_fails(sentence: Sentence, at: int) -> bool:
    """See “my saw wandered and the cut is all over”: it failed, nothing is blamed."""
    mine = "attribution_machine" in sentence.tags(at)
    papers = any(word.low.split(" ")[0] in _PAPERS for word in sentence.words)
    others = sentence.has("attribution_not_drawing", "attribution_piece", "off")
    fails = "fail:past" in sentence.tags(at + 1)
    return mine and fails and not papers and not others and not sentence.sorts(*FIGURES)


def _fate_behind(sentence: Sentence, at: int) -> bool:
    """See “melted block written off”: what was broken is disposed of."""
    noun = sentence.word(at + 1)
    led = at == 0 or "article" in sentence.tags(at - 1)
    past = any(tag.endswith((":past", ":ing")) for tag in sentence.tags(at))
    fate = disposed_at(sentence)
    told = fate is not None and sentence.tags(fate) & {"scrap", "give_back"}
    if noun is None or noun.sort is not Sort.WORD or not (led and past and told):
        return False
    between = sentence.words[at : fate or at]
    return noun.low not in ("on", "in", "at", "off") and all(
        word.sort is not Sort.MARK for word in between
    )


def _always_so(sentence: Sentence, at: int) -> bool:
    """See what things do in general: zinc screws rust next to the sink."""
    tags, first = sentence.tags(at), sentence.words[0]
    now = "fail:base" in tags and not tags & {"fail:past", "fail:now", "defect"}
    stuff = "material" in first.tags and first.name is None
    many = at > 0 and sentence.words[at - 1].low.endswith("s")
    told = parts_named(sentence) or sentence.sorts(*FIGURES, Sort.COUNT, Sort.WHEN)
    return bool(now and stuff and many and not told)


def _always_or_once() -> Doubt:
    return Doubt(
        "kind",
        "is that so in general, or did it happen here?",
        ("one failure", "only a note"),
    )


def _meant_or_not(sentence: Sentence) -> Doubt:
    verb = sentence.words[0].text
    return Doubt(
        "kind",
        f"“{verb}”: did it fail, or was it meant?",
        ("one failure", "only a note"),
    )


def _two_facts() -> Doubt:
    return Doubt(
        "kind",
        "this tells two things: log it as one, or type two lines?",
        ("one failure", "one note"),
    )


def _gives_way(sentence: Sentence) -> int | None:
    """See a part that is too soft with the settings told: with 0.3 layers."""
    if not sentence.sorts(*FIGURES):
        return None
    for at in sentence.tagged("gives_way"):
        if any(word.name is not None for word in sentence.words[:at]):
            return at
    return None


_THINS = frozenset(
    {"sanded", "planed", "filed", "ground", "polished", "scraped", "buffed"}
)


def _cut_through(sentence: Sentence) -> int | None:
    """See “sanded through the veneer”, “countersunk right through the lid”."""
    for at in sentence.tagged("make:past"):
        first = (
            at + 2 if sentence.sorts(Sort.THREAD, *FIGURES).count(at + 1) else at + 1
        )
        following = sentence.word(first)
        second = sentence.word(first + 1)
        if following is None or second is None:
            continue
        if following.low == "through" and sentence.words[at].low in _THINS:
            return at
        if following.low in ("right", "straight", "clean") and second.low == "through":
            return at
    return into_a_wire(sentence)


def _is_screw(sentence: Sentence, at: int) -> bool:
    """Tell a screw or the like, one that is known as a part too: the M8x25 bolt."""
    if at > 0 and "is" in sentence.tags(at):
        at -= 1
    word = sentence.words[at]
    if word.sort is Sort.THREAD or "fastener" in sentence.tags(at):
        return True
    last = word.low.split()[-1:] if word.name is not None else []
    hit = lexicon().longest(last, 0) if last else None
    return hit is not None and "fastener" in hit[1]


def _spoiled(sentence: Sentence, values: Values) -> int | None:
    """See work that spoiled a part: cut too short, bent when I tightened it."""
    made = sentence.tagged("make:past")
    for at in sentence.tagged("too_bad"):
        if at > 0 and _is_screw(sentence, at - 1) and values.off is None:
            return at
    for at in made:
        came = at > 1 and "order_done" in sentence.tags(at - 1)
        if came and "take_back" in sentence.tags(at):
            return at
    subject = sentence.has("material", "fastener", "structure")
    if not made or not (parts_named(sentence) or subject):
        return None
    for at in sentence.tagged("too_bad"):
        if at < made[0] and "," in sentence.text and values.off is None:
            return at
        if at > made[0] and (values.off is None or "," in sentence.text):
            return made[0]
    if "short" in sentence.words[-1].low:
        return made[0]
    return made[0] if sentence.has("adverse") else None
