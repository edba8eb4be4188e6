"""Which word of a line tells of a failure, and which only looks like one."""

from __future__ import annotations

from logbook.plain.kinds.verbs import adjectival, opens_by_itself
from logbook.plain.words.figures import FIGURES, Sort, Word
from logbook.plain.words.sentence import Sentence, parts_named


def failure_at(sentence: Sentence) -> int | None:
    """Give where a line tells that something failed."""
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
    return any(word.low.split(" ")[0] in aims for word in sentence.words[1:7])


def _figure_follows(sentence: Sentence, at: int) -> bool:
    following = sentence.word(at + 1)
    return following is not None and following.sort in FIGURES


def _subject(sentence: Sentence, at: int) -> bool:
    """Tell whether something is named before a verb."""
    return any(
        word.name is not None
        or word.tags & {"fastener", "structure", "material", "generic", "never_part"}
        for word in sentence.words[:at]
    ) or any(not word.tags for word in sentence.words[:at])


_PAPERS = frozenset({"drawing", "drawings", "plan", "plans", "file", "dxf", "guide"})
_MENDED = frozenset({"make:past", "close:past", "repair:past"})


def _of_no_part(sentence: Sentence, at: int) -> bool:
    """See a drawing that forgets a size, and a split that was glued."""
    mended = at > 0 and bool(sentence.tags(0) & _MENDED)
    mended = mended or _is_mended(sentence, at)
    papers = at > 0 and sentence.words[at - 1].low in _PAPERS
    return papers or (_is_defect(sentence, at) and mended)


def _is_mended(sentence: Sentence, at: int) -> bool:
    """See the split that is repaired now: the split in the arm is glued with a spline.

    It was told of before; this tells what was done with the piece.
    """
    for verb, word in enumerate(sentence.words[at + 1 : at + 8], at + 1):
        if word.sort is Sort.MARK or "because" in word.tags:
            return False
        if word.low in ("is", "are", "was", "were", "has been", "got"):
            return "repair:past" in sentence.tags(verb + 1)
    return False


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
    if any(rule(sentence, at) for rule in _MEANT):
        return False
    if any("not_bench" in near.tags for near in sentence.words[at + 1 : at + 3]):
        return False  # Burnt my finger.
    first = at == 0 or (at == 1 and sentence.words[0].low in ("i", "we"))
    if first and "on_purpose" in tags and _on_purpose(sentence):
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
        led = led or sentence.words[at - 1].sort is Sort.MARK
        return led or counted
    return True


def _snaps_in(sentence: Sentence, at: int) -> bool:
    """Tell the clips that snap in from those that snap off."""
    behind, after = sentence.word(at + 1), sentence.word(at + 2)
    into = ("in", "into", "on", "onto", "shut", "in over", "home", "over")
    broke = after is not None and after.low in ("two", "half", "pieces", "2", "halves")
    snaps = sentence.words[at].low.startswith("snap")
    return snaps and behind is not None and behind.low in into and not broke


def slipped_on(sentence: Sentence, at: int) -> bool:
    """Tell “slipped it on the shaft” from “slipped on the shaft”."""
    it = sentence.word(at + 1)
    put = sentence.words[at].low in ("slipped", "popped", "rocked", "spun")
    return put and it is not None and (it.low in ("it", "them") or it.name is not None)


_DRAWS = frozenset({"draws", "pulls", "takes", "reads", "measures", "shows"})


def _as_it_draws(sentence: Sentence, at: int) -> bool:
    """See “fan draws 1.4 A stalled”: in which state it was measured."""
    last = at == len(sentence.words) - 1
    before = sentence.words[max(0, at - 2) : at]
    return (
        last
        and len(before) == 2
        and before[0].low in _DRAWS
        and (before[1].sort in FIGURES)
    )


def _came_to_size(sentence: Sentence, at: int) -> bool:
    """See “comes out 6.35”: it came to that size, and did not come off."""
    return sentence.words[at].low in ("comes out", "came out") and _figure_follows(
        sentence, at
    )


def _turned_over(sentence: Sentence, at: int) -> bool:
    """See “turned the tray upside down”, which was meant."""
    over = sentence.words[at].low in ("upside down", "inside out", "over")
    return over and sentence.words[0].low in ("turned", "flipped", "stood", "rolled")


_WELL = frozenset(
    {"flat", "square", "straight", "fine", "clean", "good", "well", "perfect", "true",
     "nice", "nicely", "crisp", "smooth"}
)  # fmt: skip


def _came_out_well(sentence: Sentence, at: int) -> bool:
    """See “came out of the clamps flat and square”."""
    behind = {word.low for word in sentence.words[at + 1 :]}
    came = sentence.words[at].low in ("came out of", "comes out of", "came out")
    return came and bool(behind & _WELL) and not behind & {"not", "but", "never"}


def _of_its_name(sentence: Sentence, at: int) -> bool:
    """See the drip of “a drip groove”, the snap of “a snap ring”: what it is called."""
    noun = sentence.word(at + 1)
    base = "fail:base" in sentence.tags(at) and "fail:past" not in sentence.tags(at)
    led = at > 0 and "article" in sentence.tags(at - 1)
    return base and led and noun is not None and "structure" in noun.tags


_MEANT = (
    _turned_over,
    _came_out_well,
    _of_its_name,
    _snaps_in,
    _as_it_draws,
    _came_to_size,
    slipped_on,
)


def _is_failing(sentence: Sentence, at: int) -> bool:
    """Tell whether a verb in its plain form is one, and no noun: my slip, the chips."""
    before = sentence.word(at - 1) if at else None
    fails_now = "fail:now" in sentence.tags(at)
    if before is None:
        where = sentence.tags(at + 1) & {"locative"} or "all" in _lows(sentence, at + 1)
        there = bool(where) and bool(parts_named(sentence))
        return fails_now and there and not sentence.has("negation")
    if fails_now and _goes_on_now(sentence, at):
        return False
    if fails_now and before.low in ("the", "a", "its", "all", "these"):
        return False  # Taps clear the chips: things, nothing that chips.
    if before.low in ("my", "our", "his", "her"):
        return False
    if "material" in before.tags:
        return at > 1 and sentence.words[at - 2].name is not None
    return bool(parts_named(sentence) or before.tags & {"fastener", "structure"})


def _lows(sentence: Sentence, at: int) -> list[str]:
    word = sentence.word(at)
    return word.low.split(" ") if word is not None else []


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
    if before is None or following is None:
        return False
    out = following.low in ("through", "out", "off", "round", "loose")
    held = _held_by(sentence, at) if before.name is not None else before
    fastener = held is not None and held.name is None and "fastener" in held.tags
    return fastener and sentence.words[at].low in _GIVES and out


def _held_by(sentence: Sentence, at: int) -> Word | None:
    """Give the screws of “screws in the tray pulled through”."""
    first = at - 2 if "article" in sentence.tags(at - 2) else at - 1
    led = sentence.word(first - 1) if first > 1 else None
    inside = led is not None and led.low in ("in", "on", "of", "in the", "on the")
    return sentence.words[first - 2] if inside else None


def _just_broke(sentence: Sentence, at: int) -> bool:
    """Tell “lid stuck” and “head sheared” from sticking or shearing something."""
    tags, before = sentence.tags(at), sentence.words[at - 1]
    broke = "fail:past" in tags or not any(tag.startswith("fail:") for tag in tags)
    return broke and (
        before.name is not None or bool(before.tags & {"fastener", "tool"})
    )
