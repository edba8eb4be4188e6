"""Things made or mounted whole that a line tells of: the hook, the tray, a knob.

Their names stand under `things` in the word file; one of them told of is a part, new
where none is known.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.name_places import after_when, befell, only_where
from logbook.plain.named.names import is_thing, of_a_tool
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_ONLY_BESIDE = frozenset(
    {"by", "near", "next", "under", "beside", "behind", "with", "without", "except",
     "no", "than"}
)  # fmt: skip
_PLAIN = frozenset({"channel_nouns", "not_bench", "generic", "label:small"})
_NUMBERED_TOO = _PLAIN | {"never_part", "material", "stock_form"}
"""What a thing may be told as too: shelf 2 is one, “on the shelf” is where it lies.

So is the pipe of “pressure in the pipe”, which may be what something is made from.
"""
_VERBS = frozenset({"make", "fail", "hold", "close"})
_BY_THE_WAY = frozenset({"so", "when", "while", "where", "until", "till", "if"})
_ENDS_OF_IT = frozenset({"edge", "edges", "side", "corner", "corners", "face", "rim"})


def thing_told_of(sentence: Sentence) -> list[int]:
    """Give the first thing of the line that is made or mounted whole: the hook.

    What something only stands beside or is done with is not what the line is about.
    """
    for at, word in enumerate(sentence.words):
        first = word.low.split(" ")[0]
        if at and ("because" in word.tags or first in _BY_THE_WAY):
            return []
        run = [at - 1, at] if at and is_thing(sentence, [at - 1, at]) else [at]
        if is_thing(sentence, run) and of_a_tool(sentence, at + 1):
            return []
        if not _plain_thing(sentence, run):
            continue
        before = sentence.words[run[0] - 1].low.split(" ")[0] if run[0] else ""
        led = "article" in sentence.tags(run[0] - 1) if run[0] else False
        if led and run[0] > 1:
            before = sentence.words[run[0] - 2].low.split(" ")[0]
        where = before == "at" and led and only_where(sentence, run[0] - 1)
        return [] if before in _ONLY_BESIDE or where else run
    return []


def _plain_thing(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell a thing by itself from one whose name goes on: winder frame, hook depth."""
    words = [sentence.words[at] for at in run]
    if not is_thing(sentence, run) or any(
        word.sort is not Sort.WORD or word.name is not None for word in words
    ):
        return False
    if run == [0] and "article" in sentence.tags(1):
        return False  # Switch the feeder to plywood.
    if sentence.tags(run[-1] + 1) & {"others_did", "outside_work"}:
        return False  # From the barrel dealer.
    before = sentence.word(run[0] - 1) if run[0] else None
    led = before is not None and "article" in before.tags
    verbs = {tag for tag in words[-1].tags if led and tag.partition(":")[0] in _VERBS}
    behind = sentence.word(run[-1] + 1)
    numbered = behind is not None and (
        behind.whole is not None or behind.sort is Sort.SIZE
    )
    meant = numbered or _is_itself_told_of(sentence, run)
    told = _is_what_it_is_of(sentence, run)
    verbs |= {"able"} if led or not run[0] else set()  # The latch, and no verb of it.
    if not told and words[-1].tags - (_NUMBERED_TOO if meant else _PLAIN) - verbs:
        return False
    names = sentence.lexicon.names
    if before is not None and (
        (before.sort is Sort.WORD and not before.tags and before.name is None)
        or before.low in names["leads"]
        or before.low in names["sides"]
        or before.tags & {"structure", "fastener", "measures", "tool"}
    ):
        return False
    if told or behind is None or behind.sort is not Sort.WORD:
        return True
    if behind.low in _ENDS_OF_IT:
        return True
    nouns = {"measures", "structure", "fastener", "material"}
    goes_on = not behind.tags or behind.low in names["heads"]
    return not (goes_on or behind.tags & nouns)


def _is_what_it_is_of(sentence: Sentence, run: Sequence[int]) -> bool:
    """See the strap of “strap tore at the buckle”, though one may strap things too.

    The drawer of “drawer sits 1.5 proud” is told of as well.
    """
    first = after_when(sentence)
    while "article" in sentence.tags(first):
        first += 1
    no_part = sentence.tags(run[-1]) & {"fastener", "tool"}
    behind = sentence.tags(run[-1] + 1)
    size = sentence.word(run[-1] + 2)
    sized = size is not None and size.sort is Sort.NUMBER and "is" in behind
    told = sized or befell(behind) or bool(behind & {"off_strong", "too_bad"})
    return run[0] == first and not no_part and told


_SAYS = frozenset({"gets", "needs", "takes", "has", "got"})
_ITS = frozenset({"in", "of", "into", "through", "over"})


def _is_itself_told_of(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell the shelf that sagged, or the holes in it, from where something lies."""
    at = run[0] - 1
    if at < 0 or "article" not in sentence.tags(at):
        return False
    behind = sentence.tags(run[-1] + 1)
    if at == after_when(sentence):
        says = sentence.words[run[-1] + 1].low if behind else ""
        told = says in _SAYS or bool(behind & {"is", "decide", "able", "negative"})
        return told or any(
            tag.startswith(("fail", "make:past", "scrap:past")) for tag in behind
        )
    its = at > 1 and sentence.words[at - 1].low in _ITS
    return its and bool(sentence.tags(at - 2) & {"structure", "measures", "defect"})


_LEADS_TO_IT = frozenset({"on", "in", "of", "to", "for", "off", "from", "into", "onto"})


def placed(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell whether a thing stands where the line says what it is about: on the tray."""
    main = next(iter(clauses(sentence)), (0, 0))
    at = run[0]
    while at > 1 and "article" in sentence.tags(at - 1):
        at -= 1
    before = sentence.words[at - 1].low.split(" ")[0] if at else ""
    return run[-1] < main[1] and (at == main[0] or before in _LEADS_TO_IT)
