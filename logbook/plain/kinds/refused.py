"""What is not to be done or used: will not anodise it, no fan in this one."""

from __future__ import annotations

from logbook.plain.words.sentence import Sentence, parts_named

_ENDS = ("any more", "anymore", "no longer", "from now on", "ever")
_NO_SUCH = frozenset({"way", "room", "space", "light", "power", "signal", "sound",
                      "access", "clearance", "contact", "gap", "play", "slop", "slack",
                      "wobble", "rattle", "noise", "drift", "glare"})  # fmt: skip
"""What there is none of by itself: no way to get it out any more."""


def none_there(sentence: Sentence) -> bool:
    """See “no room for a washer under the nut”: so it is, and nobody chose it."""
    lows = [word.low for word in sentence.words[:2]]
    return lows[:1] == ["no"] and not _NO_SUCH.isdisjoint(lows)


def refused_at(sentence: Sentence) -> int | None:
    """See work that will not be done: will not anodise the base."""
    lows = {word.low for word in sentence.words}
    said = " ".join(word.low for word in sentence.words)
    no = sentence.words[0].low == "no" and not lows & _NO_SUCH
    if no and (said.endswith(_ENDS) or _never_again(sentence) or left_out(sentence)):
        return 0
    for at in sentence.tagged("negative"):
        will = sentence.words[at].low in ("will not", "won't", "wont")
        will = will or (at == 0 and bool(parts_named(sentence)))
        if will and sentence.tags(at + 1) & {"make:base", "close:base"}:
            return at
    return None


def left_out(sentence: Sentence) -> bool:
    """See “no lacquer on this one, oil only”, “no fan in this one”."""
    used = bool(sentence.tags(1) & {"fastener", "material"})
    used = used or "fastener" in sentence.tags(2) or _names_a_thing(sentence)
    named = any(word.name is not None for word in sentence.words[1:3])
    said = f"{' '.join(word.low for word in sentence.words[1:9])} ".partition(" , ")[0]
    here = any(f" {one} " in f"{said} " for one in _IN_THIS)
    return (used or named) and here


def _names_a_thing(sentence: Sentence) -> bool:
    """Tell whether behind the no stands what things are made of: a fan, hinges."""
    names = sentence.lexicon.names
    nouns = {word.low for word in sentence.words[1:3] if "defect" not in word.tags}
    nouns |= {low.removesuffix("s") for low in nouns}
    made = names["things"] | names["components"] | names["heads"]
    return bool((nouns - _NO_SUCH) & made)


_IN_THIS = (
    "in this one", "on this one", "for this one", "this time", "in this build",
    "on this build", "in the next one", "on the next one", "under this one",
)  # fmt: skip


def _never_again(sentence: Sentence) -> bool:
    """See “no countersunk screws near the diffuser again”: of what is used."""
    used = sentence.tags(1) | sentence.tags(2)
    return sentence.words[-1].low in ("again", "ever again") and bool(
        used & {"fastener", "material"}
    )
