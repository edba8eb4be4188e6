"""What is done with a piece: scrapped, reworked, repaired, sent back."""

from __future__ import annotations

from logbook.plain.kinds.choice import Choice
from logbook.plain.kinds.rows_of_work import row_of_work
from logbook.plain.kinds.taken_back import taken_back
from logbook.plain.kinds.thrown_away import thrown_away_at
from logbook.plain.kinds.verbs import adjectival, opens_by_itself
from logbook.plain.named.given_back import given_back_at
from logbook.plain.understanding import Kind
from logbook.plain.values.walk import Values
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence, parts_named


def disposed_at(sentence: Sentence) -> int | None:
    """Give where a piece is scrapped, reworked, repaired or sent back."""
    if row_of_work(sentence) is not None and _worked_and_kept(sentence) is None:
        return None
    for at in sentence.tagged("scrap", "repair", "give_back", "rework"):
        if "fail" in sentence.tags(at) and opens_by_itself(sentence, at):
            continue
        if (at == 0 and not _commands(sentence)) or _to_come(sentence, at):
            continue
        ing = {tag for tag in sentence.tags(at) if tag.endswith(":ing")}
        if ing and at > 0 and "is" not in sentence.tags(at - 1):
            continue
        if any(word.low == "while" for word in sentence.words[:at]):
            continue  # While the bar is chucked.
        if not mere_noun(sentence, at):
            return at
    for rule in _RULES:
        if (told := rule(sentence)) is not None:
            return told
    return None


def _mended(sentence: Sentence) -> int | None:
    return 0 if repairs(sentence) else None


_FATES = frozenset(
    {"scrap:past", "scrap:ing", "rework:past", "repair:past", "give_back:past"}
)  # fmt: skip


def fate_told_first(sentence: Sentence) -> int | None:
    """Give the verb of “reworked the lid: …”, “scrapped gate 2, …” at the beginning.

    The piece is named right behind it; what follows only says how it was done, or why.
    """
    at = 1 if sentence.words and sentence.words[0].low in ("i", "we") else 0
    piece = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    named = sentence.word(piece)
    fate = sentence.tags(at) & _FATES and "make" not in sentence.tags(at)
    return at if fate and named is not None and named.name is not None else None


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


def repairs(sentence: Sentence) -> bool:
    """Tell “glued the cracked diffuser” from gluing something whole."""
    fixed = sentence.words[0].low == "fixed"
    if not fixed and not sentence.tags(0) & {"make:past", "close:past", "repair:past"}:
        return False
    if "close:past" in sentence.tags(0) and _put_back(sentence):
        return True
    mended = fixed or sentence.tags(0) & {"close:past", "repair:past"}
    led = "article" in sentence.tags(1) and sentence.word(2) is not None
    broken = sentence.words[2].low.split(" ")[0] if led else ""
    if mended and broken in ("crack", "split", "tear", "chip", "break", "gap"):
        return True
    if mended and led and _is_broken(sentence, 2):
        return True
    return any(
        "fail:past" in sentence.tags(at) and adjectival(sentence, at)
        for at in range(1, 4)
    )


def _is_broken(sentence: Sentence, at: int) -> bool:
    """Tell the chipped of “fixed the chipped holder”, whatever a holder is."""
    noun = sentence.word(at + 1)
    named = noun is not None and noun.sort is Sort.WORD and not noun.tags & _NO_NOUN
    return "fail:past" in sentence.tags(at) and named


_NO_NOUN = frozenset({"preposition", "joiner", "article", "locative", "because"})


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


_NO_PIECE = frozenset({"idea", "ideas", "thought", "notion", "concept"})


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
    cut_from = {one.low for one in sentence.words[max(0, at - 3) : at]}
    if word.low == "shim" and cut_from & {"from", "out of", "of"}:
        return True  # Cut from 0.2 brass shim.
    if any(one.low in _NO_PIECE for one in sentence.words[at + 1 : at + 5]):
        return True
    if not any(":" in tag for tag in word.tags):
        return False
    material = following is not None and "material" in following.tags
    return material and word.low == "scrap"


_KEPT = frozenset(
    {"kept", "kept it", "kept them", "keeping it", "refitted", "used it anyway",
     "used them anyway", "used anyway", "back in use", "in use again",
     "back in service", "usable", "usable again", "good again"}
)  # fmt: skip


def _worked_and_kept(sentence: Sentence) -> int | None:
    """See “bent back to 90 degrees and kept”: what was wrong was put right."""
    worked = sentence.tagged("take_back:past", "rework:past", "repair:past")
    if "anyway" in sentence.text.lower():
        worked = worked or sentence.tagged("make:past")
    if not worked or not parts_named(sentence):
        return None
    for at in range(worked[0] + 1, len(sentence.words)):
        said = " ".join(word.low for word in sentence.words[at:]).partition(" , ")[0]
        led = sentence.words[at - 1].low in (*_LED, ",")
        if led and said in _KEPT:
            return worked[0]
    return None


_LED = ("and", "then", "so", "and then")
_MARS = frozenset(
    {"dent", "scratch", "scratches", "dents", "twist", "bow", "cup", "hump", "kink",
     "bulge", "crease", "wrinkle", "stain", "rust", "warp", "ding", "dings", "wobble"}
)  # fmt: skip
_OUT = frozenset({"out", "out of", "off", "off the", "out of the", "flat", "away"})


def fault_taken_out(sentence: Sentence) -> int | None:
    """See “pulled the dent out of the base”, “scratch polished out of the lid”."""
    end = next(iter(clauses(sentence)), (0, 0))[1]
    verbs = [
        at
        for at in range(end)
        if any(tag.endswith(":past") for tag in sentence.tags(at))
        or sentence.words[at].low in ("tapped", "steamed", "ironed", "buffed", "beat")
    ]
    mars = [at for at in range(end) if sentence.words[at].low in _MARS]
    out = [at for at in range(end) if sentence.words[at].low in _OUT]
    if not verbs or not mars or not out or not parts_named(sentence):
        return None
    first = mars[0] == (1 if "article" in sentence.tags(0) else 0)
    led = verbs[0] in (0, 1) and mars[0] == verbs[0] + 2
    return verbs[0] if (first or led) and out[-1] > max(verbs[0], mars[0]) else None


_RULES = (
    thrown_away_at, _worked_and_kept, fault_taken_out, _mended,
    given_back_at, _had_to_rework,
    taken_back,
)  # fmt: skip
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
    anew = {low for word in sentence.words[at:] for low in word.low.split(" ")}
    if anew & {"fresh", "scratch"} or "old one" in sentence.text.lower():
        return True  # Recut the mask from fresh card; re-cut it, old one binned.
    return new or following.low == "another" or (following.low == "one" and last)
