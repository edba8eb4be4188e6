"""Choices told without a verb of deciding: screws, not rivets; wire nuts out."""

from __future__ import annotations

from logbook.plain.kinds.verbs import first_past
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import FIGURES
from logbook.plain.words.sentence import Sentence, parts_named

_STUFF = frozenset({"material", "fastener"})


def so_not_so(sentence: Sentence) -> int | None:
    """See “gate: PETG not PLA”, “lid = screws”: of what it is."""
    told = sentence.has("make:past", "close:past", "fail", "order_done", "todo")
    if told or sentence.sorts(*FIGURES) or not parts_named(sentence):
        return None
    for at in range(1, len(sentence.words) - 1):
        word, before, after = (sentence.words[at + step] for step in (0, -1, 1))
        stuff = bool(after.tags & _STUFF) and after.name is None
        if word.low == "not" and stuff and before.tags & _STUFF and before.name is None:
            return at
        if word.low == "=" and stuff and before.name is not None:
            return at
    return None


def out_and_in(sentence: Sentence) -> int | None:
    """See “wire nuts out, lever clamps in”: what is used from now on."""
    rows = list(clauses(sentence))
    if len(rows) != 2 or sentence.sorts(*FIGURES):
        return None
    (start, end), (first, last) = rows
    out, into = sentence.words[end - 1].low, sentence.words[last - 1].low
    for at in range(first + 1, last - 1):
        led = sentence.words[at + 1].low in ("on", "on the", "for", "for the")
        if sentence.words[at].low == "in" and led:
            into, last = "in", at + 1
    short = end - start > 1 and last - first > 1 and last < 9
    verbs = sentence.has("make:past", "close:past", "fail:past")
    return end - 1 if out == "out" and into == "in" and short and not verbs else None


def instead_of_it(sentence: Sentence) -> int | None:
    """See “hot glue is out for the handle, contact cement instead”."""
    last = len(sentence.words) - 1
    ends = last > 0 and sentence.words[last].low == "instead"
    if not ends or sentence.has("make:past", "close:past", "fail", "use:past"):
        return None
    out = [
        at for at, word in enumerate(sentence.words) if word.low in ("out", "is out")
    ]
    return out[0] if out else None


def only_at(sentence: Sentence) -> int | None:
    """See “no glue on the bed, screws only”."""
    if not sentence.words:
        return None
    last = sentence.words[-1]
    only = last.low == "only" and len(sentence.words) > 1
    named = bool(sentence.tags(len(sentence.words) - 2) & {"fastener", "material"})
    told = sentence.has("make:past", "close:past", "fail:past", "todo")
    return len(sentence.words) - 1 if only and named and not told else None


def the_others_at(sentence: Sentence) -> int | None:
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


def order_at(sentence: Sentence) -> int | None:
    """See an order of work: the cable goes in before the lid, always."""
    for at, word in enumerate(sentence.words):
        if word.low not in ("goes in", "goes on", "go in", "go on", "comes", "goes"):
            continue
        behind = {one.low for one in sentence.words[at + 1 :]}
        named = any(one.name is not None for one in sentence.words[:at])
        if named and behind & {"before", "first", "last", "after", "always"}:
            return at
    return None
