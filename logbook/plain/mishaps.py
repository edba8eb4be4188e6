"""Failures: something broke, does not work, or was spoiled in the making."""

from __future__ import annotations

from logbook.plain.choice import (
    ATTRIBUTED,
    FIGURES,
    Choice,
    adjectival,
    opens_by_itself,
    parts_named,
)
from logbook.plain.clauses import clauses
from logbook.plain.decisions import decision_at, disposed_at, for_want
from logbook.plain.figures import Sort, Word
from logbook.plain.readings import Values
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import Doubt, Kind


def _failure_at(sentence: Sentence) -> int | None:
    for at in range(len(sentence.words)):
        tags = sentence.tags(at)
        if "measures" in tags and _figure_follows(sentence, at):
            continue
        if tags & {"fail", "defect"} and _fails(sentence, at):
            return at
        if _gave(sentence, at):
            return at
        if (
            "negative" in tags
            and ("able" in sentence.tags(at + 1) or _does_not(sentence, at))
            and _subject(sentence, at)
        ):
            return at
    return None


def _does_not(sentence: Sentence, at: int) -> bool:
    """See “the mainboard does not boot”, whatever it does not do."""
    following = sentence.word(at + 1)
    now = sentence.words[at].low in ("does not", "doesn't", "doesnt", "won't", "wont")
    now = now or sentence.words[at].low in ("did not", "didn't", "didnt")
    before = sentence.word(at - 1) if at else None
    thing = before is not None and (
        before.name is not None
        or bool(before.tags & {"structure", "fastener", "material", "close:base"})
    )
    return thing and now and following is not None and not following.tags


def _on_purpose(sentence: Sentence) -> bool:
    """Tell “split the board for the bed” from “split the board”."""
    aims = ("off", "into", "out", "from", "for")
    return any(word.low.split(" ")[0] in aims for word in sentence.words[1:6])


def _figure_follows(sentence: Sentence, at: int) -> bool:
    following = sentence.word(at + 1)
    return following is not None and following.sort in FIGURES


def _subject(sentence: Sentence, at: int) -> bool:
    """Tell whether something is named before a verb."""
    return any(
        word.name is not None
        or word.tags & {"fastener", "structure", "material", "generic"}
        for word in sentence.words[:at]
    ) or any(not word.tags for word in sentence.words[:at])


_PAPERS = frozenset({"drawing", "drawings", "plan", "plans", "file", "dxf", "guide"})
_MENDED = frozenset({"make:past", "close:past", "repair:past"})


def _of_no_part(sentence: Sentence, at: int) -> bool:
    """See a drawing that forgets a size, and a split that was glued."""
    mended = at > 0 and bool(sentence.tags(0) & _MENDED)
    papers = at > 0 and sentence.words[at - 1].low in _PAPERS
    return papers or (_is_defect(sentence, at) and mended)


def _is_defect(sentence: Sentence, at: int) -> bool:
    """Tell a crack, or what begins with one: the crack in, the crack from."""
    first = sentence.words[at].low.split(" ")[0]
    alone = sentence.lexicon.phrases.get(first, ())
    named = any(len(row) == 1 and "defect" in tags for row, tags in alone)
    return "defect" in sentence.tags(at) or named


def _fails(sentence: Sentence, at: int) -> bool:
    word = sentence.words[at]
    before = sentence.words[max(0, at - 4) : at]
    tags = word.tags
    if _unmade(before) or adjectival(sentence, at) or _of_no_part(sentence, at):
        return False
    if "because" in {tag for near in before for tag in near.tags}:
        return False
    if any("not_bench" in near.tags for near in sentence.words[at + 1 : at + 3]):
        return False  # Burnt my finger.
    if at == 0 and "on_purpose" in tags and _on_purpose(sentence):
        return False
    if "rework" in tags:
        return opens_by_itself(sentence, at)
    if tags & {"make", "material"}:
        return _breaks_too(sentence, at) or (at > 0 and _just_broke(sentence, at))
    if tags & {"fail:base", "fail:now"} and not tags & {"fail:past", "defect"}:
        return _is_failing(sentence, at)
    if "defect" in tags and "fail:past" not in tags:
        counted = at > 0 and sentence.words[at - 1].whole is not None
        led = bool(sentence.tags(at - 1) & {"article", "adjective"}) if at else True
        return led or counted
    return True


def _is_failing(sentence: Sentence, at: int) -> bool:
    """Tell whether a verb in its plain form is one, and no noun: my slip, the chips."""
    before = sentence.word(at - 1) if at else None
    if before is None:
        return False
    fails_now = "fail:now" in sentence.tags(at)
    if fails_now and _goes_on_now(sentence, at):
        return False
    if fails_now and before.low in ("the", "a", "its", "all", "these"):
        return False  # Taps clear the chips: things, nothing that chips.
    if before.low in ("my", "our", "his", "her"):
        return False
    if "material" in before.tags:
        return at > 1 and sentence.words[at - 2].name is not None
    return bool(parts_named(sentence) or before.tags & {"fastener", "structure"})


def _goes_on_now(sentence: Sentence, at: int) -> bool:
    """See the “slips on” of a bore that was opened for it, told last."""
    following, after = sentence.word(at + 1), sentence.word(at + 2)
    on = following is not None and following.low in ("on", "in", "over")
    ends = after is None or after.sort is Sort.MARK or after.low in ("now", "fine")
    worked = any(
        word.tags & {"take_back:past", "rework:past", "make:past"}
        for word in sentence.words[:at]
    )
    return on and ends and worked


def _unmade(before: list[Word]) -> bool:
    for word in reversed(before):
        if word.sort is Sort.MARK or "because" in word.tags:
            return False
        if word.tags & {"negation", "hypothetical"} and not word.tags & {"fail"}:
            return True
    return False


def _breaks_too(sentence: Sentence, at: int) -> bool:
    """Take “stripped” and “sheared” as failing only of a thread or fastener."""
    if not sentence.tags(at) & {"fail:past"}:
        return False
    return any(
        "fastener" in word.tags
        or word.sort is Sort.THREAD
        or word.low.startswith(("thread", "head"))
        for word in sentence.words
    )


_GIVES = frozenset({"pulled", "turned", "moved", "shifted", "worked", "backed"})


def _gave(sentence: Sentence, at: int) -> bool:
    """See a fastener that moved by itself: rivet pulled through at the corner."""
    before, following = sentence.word(at - 1) if at else None, sentence.word(at + 1)
    if before is None or following is None or before.name is not None:
        return False
    out = following.low in ("through", "out", "off", "round", "loose")
    return "fastener" in before.tags and sentence.words[at].low in _GIVES and out


def _just_broke(sentence: Sentence, at: int) -> bool:
    """Tell “lid stuck” and “head sheared” from sticking or shearing something."""
    tags, before = sentence.tags(at), sentence.words[at - 1]
    broke = "fail:past" in tags or not any(tag.startswith("fail:") for tag in tags)
    return broke and (
        before.name is not None or bool(before.tags & {"fastener", "tool"})
    )


def failed(sentence: Sentence, values: Values) -> Choice | None:
    """See a failure, unless a decision or disposition was told first."""
    at = _failure_at(sentence)
    if at is None:
        at = _gives_way(sentence)
    if at is None:
        at = _cut_through(sentence)
    if at is None:
        at = _spoiled(sentence, values)
    if at is None:
        return None
    if _told_otherwise(sentence, at):
        return None
    earlier = [
        place
        for place in (
            decision_at(sentence),
            disposed_at(sentence),
            *sentence.tagged(*ATTRIBUTED),
        )
        if place is not None
    ]
    if any(place < at for place in earlier):
        return None
    if _tells_two(sentence, at):
        return Choice(Kind.FAILURE, 0.5, at, _two_facts())
    loosened = any(word.low == "loose" for word in sentence.words[at:])
    if at == 0 and (loosened or sentence.words[0].low.endswith(" off")):
        return Choice(Kind.FAILURE, 0.5, at, _meant_or_not(sentence))
    return Choice(Kind.FAILURE, 0.9, at)


def _tells_two(sentence: Sentence, at: int) -> bool:
    """See what came, or how it fits, told before what failed: two facts in a line."""
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
        following = sentence.word(at + 1)
        second = sentence.word(at + 2)
        if following is None or second is None:
            continue
        if following.low == "through" and sentence.words[at].low in _THINS:
            return at
        if following.low in ("right", "straight", "clean") and second.low == "through":
            return at
    return None


def _spoiled(sentence: Sentence, values: Values) -> int | None:
    """See work that spoiled a part: cut too short, bent when I tightened it."""
    made = sentence.tagged("make:past")
    for at in sentence.tagged("too_bad"):
        screw = at > 0 and (
            sentence.words[at - 1].sort is Sort.THREAD
            or "fastener" in sentence.tags(at - 1)
        )
        if screw and values.off is None:
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
