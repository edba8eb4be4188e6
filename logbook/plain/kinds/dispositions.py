"""What is done with a piece: scrapped, reworked, repaired, sent back."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.verbs import adjectival, opens_by_itself, opens_part
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES, Sort
from logbook.plain.words.sentence import Sentence, parts_named


def disposed_at(sentence: Sentence) -> int | None:
    """Give where a piece is scrapped, reworked, repaired or sent back."""
    for at in sentence.tagged("scrap", "repair", "give_back", "rework"):
        if "fail" in sentence.tags(at) and opens_by_itself(sentence, at):
            continue
        if (at == 0 and not _commands(sentence)) or _to_come(sentence, at):
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
    if (forced := _had_to_rework(sentence)) is not None:
        return forced
    if (returned := _back_to_its_maker(sentence)) is not None:
        return returned
    return _taken_back(sentence)


_HAD_TO = frozenset({"had to", "i had to", "needed to", "so i had to"})
_TAKES_BACK = frozenset({"take_back:base", "rework:base"})


def _had_to_rework(sentence: Sentence) -> int | None:
    """See what had to be taken off for it to fit: had to sand the bed, drops in now."""
    for at, word in enumerate(sentence.words[:-1]):
        had = word.low == "had" and sentence.words[at + 1].low == "to"
        verb = at + 2 if had else at + 1
        if (had or word.low in _HAD_TO) and sentence.tags(verb) & _TAKES_BACK:
            fits = sentence.has("fit") or sentence.has("rework_sense")
            return verb if parts_named(sentence) and fits else None
    return None


def _back_to_its_maker(sentence: Sentence) -> int | None:
    """See “collar 3 back to the cutter, taper”: sent back, in few words."""
    for at in sentence.tagged("back"):
        to = sentence.word(at + 1)
        named = at == 1 and sentence.words[0].name is not None
        if not named or to is None or to.low not in ("to", "to the"):
            continue
        maker = range(at + 2, min(at + 5, len(sentence.words)))
        if any(sentence.tags(one) & {"outside_work", "others_did"} for one in maker):
            return at
    return None


_AHEAD = frozenset({"will", "shall", "i'll", "we'll", "to", "must", "should"})


def _to_come(sentence: Sentence, at: int) -> bool:
    """See what is told last of a piece to come: …, will shim the next one."""
    before = sentence.word(at - 1) if at > 1 else None
    led = before is not None and before.low.split(" ")[-1] in _AHEAD
    base = any(tag.endswith(":base") for tag in sentence.tags(at))
    past = any(tag.endswith(":past") for tag in sentence.tags(at))
    return led and base and not past


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
    if parts_named(sentence) and _worked_till_it_goes(sentence):
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
        if "measures" in sentence.tags(at) or opens_part(sentence, at):
            continue  # An opening is measured; a lid that is opened is taken apart.
        taken = sentence.words[at].low in ("took", "taken")
        if taken and not (
            sentence.word(at + 1) and sentence.words[at + 1].sort in FIGURES
        ):
            continue
        if parts_named(sentence) and any(_reworks(sentence, at, to) for to in sense):
            return at
    return None


def _worked_till_it_goes(sentence: Sentence) -> bool:
    """See a line that begins with work on a size, and ends with what came of it."""
    first = sentence.word(0)
    if first is None:
        return False
    shaped = (
        first.low in sentence.lexicon.acts["shape"]
        or first.low.split(" ")[0] in ("took", "brought")
        or bool(first.tags & {"take_back:past"})
    )
    if shaped and _to_size_and_fits(sentence, 0):
        return True
    reworked = bool(first.tags & {"rework:past"})
    return (shaped or reworked) and _now_it_goes(sentence)


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


_NOW = frozenset({"now", "now it", "and now", "so now", "it now"})
_AMISS = frozenset({"fail", "negative", "negation", "defect", "off_strong", "too_bad"})


def _now_it_goes(sentence: Sentence) -> bool:
    """See what came of it in the last clause: ground it flush, now it seats."""
    rows = list(clauses(sentence))
    start, end = rows[-1] if rows else (0, 0)
    told = sentence.words[max(start, 1) : end]
    lows = [word.low for word in told]
    now = next((at for at, low in enumerate(lows) if low in _NOW), -1)
    if now < 0 or (start == 0 and "and" not in lows[:now]):
        return False
    rest = [word for word in told[now:] if word.low != "without"]
    if any(word.sort in FIGURES or word.tags & _AMISS for word in rest):
        return False
    if any(tag.endswith(":ing") for word in told[now:] for tag in word.tags):
        return False
    return any(
        "fit" in word.tags
        or any(tag.endswith(":now") for tag in word.tags)
        or (not word.tags and word.low.endswith("s"))
        for word in told[now:]
        if word.sort is Sort.WORD and word.name is None
    )


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
    if "close:past" in sentence.tags(0) and _put_back(sentence):
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


def _put_back(sentence: Sentence) -> bool:
    """Tell “glued the tab back on” from “no way back” and “at the back”."""
    first = next(iter(clauses(sentence)), (0, 0))[1]
    joined = [at for at in range(first) if sentence.words[at].low in ("and", "then")]
    end = min([first, *joined])
    return any(
        sentence.words[at - 1].low.split(" ")[-1] not in ("way", "the", "going")
        and _ends_there(sentence, at + 1)
        for at in sentence.tagged("back")
        if 0 < at < end
    )


def _ends_there(sentence: Sentence, at: int) -> bool:
    """Tell the back of “glued it back on” from that of “glued back panel on”."""
    word = sentence.word(at)
    if word is None or word.sort is not Sort.WORD or word.low == "together":
        return True
    return bool(word.tags & {"preposition", "article", "joiner", "filler", "place"})


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
    counted = at > 0 and sentence.words[at - 1].whole is not None
    if word.low == "returns" and (counted or before & {"article", "adjective"}):
        return True  # Returned flanges, bent.
    if word.low in ("scrap", "bin", "patch", "mend", "return") and "article" in before:
        return True
    if not any(":" in tag for tag in word.tags):
        return False
    material = following is not None and "material" in following.tags
    return material and word.low == "scrap"


_SHAPES = frozenset({"flattened", "straightened", "widened", "enlarged", "shortened"})


def disposed(sentence: Sentence, values: Values) -> Choice | None:
    """See what is done with a piece; an amount taken off in so much time is work."""
    at = disposed_at(sentence)
    if at is None:
        return None
    timed = values.minutes is not None or values.hours is not None
    if timed and sentence.spans.get("changed") and parts_named(sentence):
        return Choice(Kind.STEP, 0.85, at)
    sure = bool(parts_named(sentence)) or sentence.has("generic")
    if at == 0 and not sure and sentence.words[0].low in _SHAPES:
        return Choice(Kind.STEP, 0.75, at)
    if _makes_another(sentence, at):
        return Choice(Kind.STEP, 0.75, at)
    return Choice(Kind.DISPOSITION, 0.88 if sure else 0.72, at)


def _makes_another(sentence: Sentence, at: int) -> bool:
    """See “no spare mask, recut one”: one more is made, and none is reworked."""
    following, then = sentence.word(at + 1), sentence.word(at + 2)
    if "rework" not in sentence.tags(at) or following is None:
        return False
    new = following.low == "a" and then is not None and then.low in ("new", "new one")
    last = then is None or then.sort is Sort.MARK
    return new or following.low == "another" or (following.low == "one" and last)
