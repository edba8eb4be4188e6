"""Decisions, revisions, substitutions, and what is done with a piece."""

from __future__ import annotations

from logbook.plain.choice import (
    ATTRIBUTED,
    FIGURES,
    Choice,
    adjectival,
    first_past,
    opens_by_itself,
    parts_named,
)
from logbook.plain.clauses import clauses
from logbook.plain.figures import Sort
from logbook.plain.readings import Values
from logbook.plain.sentence import Sentence
from logbook.plain.understanding import Doubt, Kind


def revision_label(sentence: Sentence) -> int | None:
    """Give where a revision is named."""
    for at, word in enumerate(sentence.words):
        if word.sort is Sort.LABEL and "revision" in word.tags:
            return at
        code = word.low
        if word.sort is Sort.CODE and code[:1] in "vr" and code.lstrip("rev").isdigit():
            return at
        if "revision" in word.tags and " " in word.low:
            return at
    return None


def revised(sentence: Sentence, values: Values) -> Choice | None:
    """See a revision of a part told: crossbar rev A: 178.3."""
    at = revision_label(sentence)
    if at is None or not parts_named(sentence):
        return None
    if _withdrawn(sentence):
        return Choice(Kind.REVISION, 0.85, at)
    if sentence.has("untried") and not sentence.sorts(*FIGURES):
        return Choice(Kind.NOTE, 0.9, at)  # that follows from the pieces made
    headed = _headed(sentence, at, ":")
    if sentence.has("fail") and not headed:
        return None
    if sentence.has("order_done", "scrap") or first_past(sentence) == 0:
        return None
    labels = [word for word in sentence.words if word.sort is Sort.LABEL]
    if not headed and len([one for one in labels if "revision" in one.tags]) > 1:
        return Choice(Kind.NOTE, 0.9, at)
    if headed or _says_it_opens(sentence, at):
        return Choice(Kind.REVISION, 0.85, at)
    return Choice(Kind.REVISION, 0.5, at, _new_or_told(sentence, values, at))


def _withdrawn(sentence: Sentence) -> bool:
    """See “rev A withdrawn because it sags”; not “rev A is not withdrawn”."""
    for at in sentence.tagged("withdrawn"):
        before = {tag for word in sentence.words[:at] for tag in word.tags}
        return not before & {"negation", "hypothetical", "because"}
    return False


def _says_it_opens(sentence: Sentence, at: int) -> bool:
    """See a revision opened in so many words: now rev B, rev B because, new rev.

    Its name alone opens nothing: “gate marked rev C” is an old one, or a stamp.
    """
    word, following = sentence.words[at], sentence.word(at + 1)
    if sentence.has("todo", "negation", "make:past", "close:past", "fit"):
        return False
    if " " in word.low and word.sort is not Sort.LABEL:
        return True
    if following is not None and "because" in following.tags:
        return True
    listed = bool(sentence.sorts(*FIGURES)) and not sentence.has("is", "measure")
    if _headed(sentence, at, ",") and listed:
        return True
    led = [one for one in sentence.words[max(0, at - 2) : at] if one.name is None]
    return any("opens_revision" in one.tags for one in led)


def _new_or_told(sentence: Sentence, values: Values, at: int) -> Doubt:
    label = sentence.words[at].text
    measured = ("measured",) if values.readings else ()
    question = f"“{label}”: does this open it, or only tell of it?"
    return Doubt("kind", question, ("it is new", *measured, "only a note"))


def _headed(sentence: Sentence, at: int, sign: str) -> bool:
    """See a revision named first, with a stop: crossbar rev A: it binds."""
    end = sentence.words[at].end
    return at <= 2 and sentence.text[end:].lstrip().startswith(sign)


def attributed(sentence: Sentence, values: Values) -> Choice | None:
    """See whose fault it is: the drawing is wrong, only my machine."""
    found = sentence.tagged(*ATTRIBUTED) or drawn_wrong(sentence)
    found = found or my_machine(sentence)
    if not found or first_past(sentence) == 0:
        return None
    own = "attribution_piece" in sentence.tags(found[0])
    off = own and values.off is not None and bool(parts_named(sentence))
    if off and found[0] > sentence.sorts(*FIGURES)[0]:
        return None  # A size that is off, and whose fault that is.
    if values.readings and values.wanted and found[0] > sentence.sorts(*FIGURES)[0]:
        return None
    return Choice(Kind.DECISION, 0.85, found[0])


def my_machine(sentence: Sentence) -> list[int]:
    """See “my table saw takes 0.3 more, the drawing stays”: a fault of this shop."""
    drawn = any(
        word.low.split(" ")[0] in _PAPERS or word.low.split(" ")[-1] in _PAPERS
        for word in sentence.words
    )
    for at, word in enumerate(sentence.words[:-2]):
        mine = word.low in ("my", "our")
        tool = {"tool"} & (sentence.tags(at + 1) | sentence.tags(at + 2))
        if mine and tool and drawn:
            return [at]
    return []


_PAPERS = frozenset({"drawing", "plan", "dxf", "stl", "model", "file"})
_PUTS = frozenset({"has", "shows", "puts", "calls", "says", "gives", "places"})


def drawn_wrong(sentence: Sentence) -> list[int]:
    """See “drawing has the hole 2 mm too low”: whose fault it is, in other words."""
    lows = [word.low for word in sentence.words]
    at = next((at for at, low in enumerate(lows[:3]) if low.split()[0] in _PAPERS), -1)
    if at < 0 or not _PUTS & {one for low in lows[at : at + 2] for one in low.split()}:
        return []
    wrong = [
        place
        for place in range(at + 1, len(lows))
        if lows[place] == "wrong" or sentence.tags(place) & {"off_strong"}
    ]
    return wrong[:1]


def decision_at(sentence: Sentence) -> int | None:
    """Give where something is decided."""
    because = sentence.tagged("because")
    for at in sentence.tagged("decide", "imperative_use"):
        word = sentence.words[at]
        if because and because[0] < at:
            continue
        if "decide" not in word.tags and at > 0:
            continue
        if word.low.startswith("keep") and _goes_on(sentence, at + 1):
            continue
        if word.low == "to be" and sentence.has("order_done", "fail:past"):
            continue
        if word.low == "stay" and not _stays(sentence, at):
            continue
        if word.low in ("stay", "leave", "keep", "go for") and at > 3:
            continue
        return at
    return None


def _stays(sentence: Sentence, at: int) -> bool:
    """Tell “can stay as it is” from a lid stay."""
    following = sentence.word(at + 1)
    led = at and sentence.tags(at - 1) & {"negative", "todo", "hypothetical", "able"}
    ends = following is None or bool(following.tags & {"preposition", "as_is"})
    return bool(led) or ends


def _goes_on(sentence: Sentence, at: int) -> bool:
    """See the coming of “keep coming loose”: no decision to keep something."""
    word = sentence.word(at)
    return word is not None and word.low.split(" ")[0].endswith("ing")


_AMOUNTS = (Sort.COUNT, Sort.TIMES, Sort.NUMBER, Sort.SIZE, Sort.THREAD)


def _refused_at(sentence: Sentence) -> int | None:
    """See work that will not be done: will not anodise the base."""
    lows = {word.low for word in sentence.words}
    if (
        lows
        and sentence.words[0].low == "no"
        and lows & {"any more", "anymore", "no longer"}
    ):
        return 0
    for at in sentence.tagged("negative"):
        will = sentence.words[at].low in ("will not", "won't", "wont")
        will = will or (at == 0 and bool(parts_named(sentence)))
        if will and sentence.tags(at + 1) & {"make:base", "close:base"}:
            return at
    return None


def _wish_at(sentence: Sentence) -> int | None:
    """See an order as a decision: order 5 spare masks."""
    following = sentence.word(1)
    if "order_wish" in sentence.tags(0) and following is not None:
        wished = parts_named(sentence) or sentence.sorts(*_AMOUNTS)
        return 0 if wished and following.low != "for" else None
    going = "order_done:ing" in sentence.tags(0)
    if going and {word.low for word in sentence.words} & {"more", "spare", "another"}:
        return 0
    base = sentence.tags(0) & {"make:base"} and not sentence.tags(0) & {"make:past"}
    counted = sentence.sorts(Sort.COUNT)[:1] == [1]
    more = {word.low for word in sentence.words} & {"spare", "more", "extra", "another"}
    return 0 if base and more and (counted or parts_named(sentence)) else None


def _will_at(sentence: Sentence) -> int | None:
    """See “will oil it, no varnish”: what is to be done."""
    first = sentence.word(0)
    will = first is not None and first.low in ("will", "i'll", "we'll", "ill", "shall")
    return 0 if will and sentence.tags(1) & {"make:base", "close:base"} else None


def _changed_at(sentence: Sentence) -> int | None:
    """See “changed the slot from 2.2 to 2.5”: a choice, with what was before."""
    lows = [word.low.split(" ")[0] for word in sentence.words]
    if lows[:1] not in (["changed"], ["altered"], ["increased"], ["reduced"]):
        return None
    for at in sentence.sorts(Sort.NUMBER):
        if lows[at - 1] == "from" and "to" in lows[at + 1 : at + 3]:
            return 0
    return None


def _gets_at(sentence: Sentence) -> int | None:
    """See how it is to be made: the crossbar gets made last, have 6 more made."""
    first, last = sentence.word(0), len(sentence.words) - 1
    have = first is not None and first.low in ("have", "having", "get", "getting")
    if have and sentence.tags(last) & {"make:past"} and parts_named(sentence):
        return 0
    for at, word in enumerate(sentence.words[:-1]):
        named = any(one.name is not None for one in sentence.words[:at])
        past = sentence.tags(at + 1) & {"make:past", "close:past"}
        if word.low in ("gets", "get") and named and past:
            return at
    return None


def _the_others_at(sentence: Sentence) -> int | None:
    """See “one round hole, the others slotted”: how it is to be, no work told."""
    rows = list(clauses(sentence))
    for start, end in rows[1:]:
        others = sentence.words[start:end]
        said = " ".join(word.low for word in others[:3])
        verbs = first_past(sentence)
        if said.startswith(("the others ", "others ", "the rest ", "the other ")) and (
            verbs is None or verbs > start
        ):
            return start
    return None


def _only_at(sentence: Sentence) -> int | None:
    """See “no glue on the bed, screws only”."""
    if not sentence.words:
        return None
    last = sentence.words[-1]
    only = last.low == "only" and len(sentence.words) > 1
    named = bool(sentence.tags(len(sentence.words) - 2) & {"fastener", "material"})
    told = sentence.has("make:past", "close:past", "fail:past", "todo")
    return len(sentence.words) - 1 if only and named and not told else None


def decided(sentence: Sentence, _: Values) -> Choice | None:
    """See a decision, an order to place, or a piece to be used as it is."""
    at = decision_at(sentence)
    if at is None and "cure" in sentence.tags(0):
        at = 0
    if at is None:
        at = _refused_at(sentence)
    for rule in (_wish_at, _will_at, _changed_at, _gets_at, _the_others_at, _only_at):
        at = rule(sentence) if at is None else at
    if at is None and sentence.has("as_is"):
        at = sentence.tagged("as_is")[0]
    if at is None:
        return None
    if (
        at == 0
        and sentence.words[0].low in ("use", "use the")
        and sentence.has("as_is")
    ) and _piece_named(sentence):
        return Choice(Kind.DISPOSITION, 0.85, at)
    return Choice(Kind.DECISION, 0.85, at)


def _piece_named(sentence: Sentence) -> bool:
    if sentence.named("piece"):
        return True
    for at in sentence.named("part"):
        following = sentence.word(at + 1)
        if following is not None and following.whole is not None and not following.unit:
            return True
    return False


def substituted(sentence: Sentence, values: Values) -> Choice | None:
    """See one thing used instead of another."""
    instead = sentence.tagged("instead")
    if not instead:
        return for_want(sentence) or _replaced(sentence)
    at = instead[0]
    following = sentence.word(at + 1)
    if (
        following is not None
        and following.sort in FIGURES
        and values.readings
        and not sentence.has("use:past")
    ):
        return None
    if decision_at(sentence) is not None or sentence.has("decide"):
        return None
    if any(word.low in ("gets", "get", "use") for word in sentence.words[:at]):
        return Choice(Kind.DECISION, 0.8, at)
    return Choice(Kind.SUBSTITUTION, 0.8, at)


_NONE_LEFT = frozenset({"left", "to be had", "in stock", "on hand", "available"})


def short_of(sentence: Sentence) -> tuple[int, int] | None:
    """Give what a clause says there is none of: no 3mm ply left, out of M3x8."""
    for start, end in clauses(sentence):
        first = sentence.words[start]
        said = [word.low for word in sentence.words[start:end]]
        low = " ".join(said)
        if first.low in ("out of", "ran out of", "run out of"):
            return start + 1, end
        ended = next((tail for tail in _NONE_LEFT if low.endswith(f" {tail}")), "")
        while ended and len(" ".join(said)) >= len(low) - len(ended):
            said.pop()
        if said and said[0].split(" ")[0] == "no" and ended:
            return (start if " " in said[0] else start + 1), start + len(said)
    return None


def for_want(sentence: Sentence) -> Choice | None:
    """See what was used for want of another: lid in acrylic 4, no 5 to be had."""
    short = short_of(sentence)
    if short is None or short[1] <= short[0]:
        return None
    rest = [
        at
        for start, end in clauses(sentence)
        for at in range(start, end)
        if not start <= short[0] < end
    ]
    stuff = {"material", "fastener"}
    told = [
        at
        for at in rest
        if sentence.tags(at) & stuff
        or sentence.words[at].sort in (*FIGURES, Sort.THREAD, Sort.GAUGE)
    ]
    if not told or any(sentence.tags(at) & {"todo", "order_wish"} for at in rest):
        return None
    return Choice(Kind.SUBSTITUTION, 0.8, told[0])


def _replaced(sentence: Sentence) -> Choice | None:
    lows = [word.low for word in sentence.words]
    if lows[:1] in (["replaced"], ["swapped"]) and ("with" in lows or "for" in lows):
        return Choice(Kind.SUBSTITUTION, 0.8, 0)
    used = sentence.tagged("use:past")
    if used and used[0] == 0 and sentence.has("unavailable"):
        return Choice(Kind.SUBSTITUTION, 0.8, 0)
    if lows[:1] and lows[0].split()[0] == "no" and sentence.has("use:past"):
        return Choice(Kind.SUBSTITUTION, 0.75, sentence.tagged("use:past")[0])
    return None


def disposed_at(sentence: Sentence) -> int | None:
    """Give where a piece is scrapped, reworked, repaired or sent back."""
    for at in sentence.tagged("scrap", "repair", "give_back", "rework"):
        if "fail" in sentence.tags(at) and opens_by_itself(sentence, at):
            continue
        if at == 0 and not _commands(sentence):
            continue
        ing = {tag for tag in sentence.tags(at) if tag.endswith(":ing")}
        if ing and at > 0 and "is" not in sentence.tags(at - 1):
            continue
        if not mere_noun(sentence, at):
            return at
    back = sentence.tagged("back")
    if "send" in sentence.tags(0) and back and _comes_back(sentence, back[0]):
        return 0
    if repairs(sentence):
        return 0
    return _taken_back(sentence)


def _commands(sentence: Sentence) -> bool:
    """Tell “shim the lid” from “shim fell out” and “shim pack 0.45”."""
    tags, following = sentence.tags(0), sentence.word(1)
    base = any(tag.endswith(":base") for tag in tags)
    if not base or any(tag.endswith(":past") for tag in tags) or following is None:
        return True
    verb = any(tag.endswith((":past", ":now")) for tag in following.tags)
    noun = following.sort is Sort.WORD and not following.tags and not following.name
    return not (verb or noun or following.tags & {"fail", "plain_verb", "is"})


def _taken_back(sentence: Sentence) -> int | None:
    """Give where material is taken off until it fits: filed 0.15 off, filed it to 3."""
    first = sentence.word(0)
    shaped = first is not None and (
        first.low in sentence.lexicon.acts["shape"]
        or first.low.split(" ")[0] in ("took", "brought")
        or bool(first.tags & {"take_back:past"})
    )
    if shaped and parts_named(sentence) and _to_size_and_fits(sentence, 0):
        return 0
    sense = sentence.tagged("rework_sense")
    for at in sentence.tagged("take_back:past"):
        if at and parts_named(sentence) and _it_to_size(sentence, at):
            return at
        if parts_named(sentence) and _so_much_off(sentence, at):
            return at
        well = sense and sentence.words[sense[-1]].low.endswith(" now")
        if well and at == 0 and sentence.has("structure"):
            return at
    for at in sentence.tagged("take_back:past", "take_back:ing"):
        if "measures" in sentence.tags(at):
            continue  # An opening is measured.
        taken = sentence.words[at].low in ("took", "taken")
        if taken and not (
            sentence.word(at + 1) and sentence.words[at + 1].sort in FIGURES
        ):
            continue
        if parts_named(sentence) and any(_reworks(sentence, at, to) for to in sense):
            return at
    return None


def _to_size_and_fits(sentence: Sentence, at: int) -> bool:
    """See “planed the bed to 239.5 and now it drops in”, however it is said to fit."""
    for place in range(at + 1, len(sentence.words) - 1):
        to, figure = sentence.words[place], sentence.words[place + 1]
        if to.low in ("to", "down to", "out to", "up to") and figure.sort in FIGURES:
            behind = sentence.words[place + 2 :]
            goes_on = any(tag.endswith(":ing") for word in behind for tag in word.tags)
            said = any(
                "fit" in word.tags or word.low.split(" ")[0] == "now" for word in behind
            )
            return said and not goes_on
    return False


def _so_much_off(sentence: Sentence, at: int) -> bool:
    """See “filed 0.15 off”, whatever follows."""
    figure, off = sentence.word(at + 1), sentence.word(at + 2)
    sized = figure is not None and figure.sort in FIGURES
    return sized and off is not None and off.low == "off"


def _it_to_size(sentence: Sentence, at: int) -> bool:
    """See “filed it to 0.4”, said of a part that was named before."""
    it, to, figure = (sentence.word(at + ahead) for ahead in (1, 2, 3))
    return (
        it is not None
        and it.low in ("it", "them")
        and to is not None
        and to.low in ("to", "down to")
        and figure is not None
        and figure.sort in FIGURES
    )


def _comes_back(sentence: Sentence, at: int) -> bool:
    """Tell “sent it back” from “sent it out, back on the 14th”."""
    following = sentence.word(at + 1)
    told = {word.low for word in sentence.words[:at]}
    due = following is not None and following.sort is Sort.WHEN
    return "," not in told and not due


def _reworks(sentence: Sentence, verb: int, sense: int) -> bool:
    """Tell “filed 0.15 off the bar” from “knocked it off the table”."""
    if sense <= verb or "article" in sentence.tags(sense - 1):
        return False  # The back of “at the back” is a place.
    if not sentence.words[sense].low.startswith("off "):
        return True
    return any(word.sort in FIGURES for word in sentence.words[verb:sense])


def repairs(sentence: Sentence) -> bool:
    """Tell “glued the cracked diffuser” from gluing something whole."""
    if not sentence.tags(0) & {"make:past", "close:past", "repair:past"}:
        return False
    if "close:past" in sentence.tags(0) and sentence.has("back"):
        return True
    mended = sentence.tags(0) & {"close:past", "repair:past"}
    led = "article" in sentence.tags(1) and sentence.word(2) is not None
    broken = sentence.words[2].low.split(" ")[0] if led else ""
    if mended and broken in ("crack", "split", "tear", "chip", "break", "gap"):
        return True
    return any(
        "fail:past" in sentence.tags(at) and adjectival(sentence, at)
        for at in range(1, 4)
    )


def mere_noun(sentence: Sentence, at: int) -> bool:
    """Tell “a scrap of plate” and “returned flange” from something disposed of."""
    word, following = sentence.words[at], sentence.word(at + 1)
    before = sentence.tags(at - 1) if at else frozenset()
    if following is not None and (
        following.low == "of" or following.tags & {"structure"}
    ):
        return True
    led = at > 0 and sentence.words[at - 1].low.endswith(("on", "from"))
    if word.low == "scrap" and led:
        return True
    if word.low in ("scrap", "bin", "patch", "mend", "return") and "article" in before:
        return True
    if not any(":" in tag for tag in word.tags):
        return False
    material = following is not None and "material" in following.tags
    return material and word.low == "scrap"


def disposed(sentence: Sentence, values: Values) -> Choice | None:
    """See what is done with a piece; an amount taken off in so much time is work."""
    at = disposed_at(sentence)
    if at is None:
        return None
    timed = values.minutes is not None or values.hours is not None
    if timed and sentence.spans.get("changed") and parts_named(sentence):
        return Choice(Kind.STEP, 0.85, at)
    sure = bool(parts_named(sentence)) or sentence.has("generic")
    return Choice(Kind.DISPOSITION, 0.88 if sure else 0.72, at)
