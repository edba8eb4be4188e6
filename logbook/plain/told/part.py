"""Which part and piece a line is about, and which others it names."""

from __future__ import annotations

from typing import Any

from logbook.plain.named.name_places import in_passing
from logbook.plain.named.owners import other_owner
from logbook.plain.told.so_many import pieces_told, so_many
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort, Word
from logbook.plain.words.machine_set import sets_a_machine
from logbook.plain.words.sentence import Sentence
from logbook.plain.words.spoken import spoken


def part_of(
    sentence: Sentence, *, failed: bool = False, told: int = -1
) -> dict[str, Any]:
    """Give the part the line is about, or that `failed`, others it names, the piece.

    `told` is where it is told what becomes of it, -1 where nothing does.
    """
    named = sorted([*sentence.named("part"), *sentence.named("piece")])
    near = [at for at in named if not sentence.tags(at - 1 if at else -1) & {"away"}]
    near = [at for at in near if not _article_after_away(sentence, at)] or named
    near = [at for at in near if not in_passing(sentence, at)]
    if sets_a_machine(sentence):
        machines = sentence.lexicon.names["of_machines"]
        near = [at for at in near if sentence.words[at].low not in machines]
    facts: dict[str, Any] = {}
    near = _fasteners_last(sentence, _beside_value(sentence, near), named)
    near = _that_failed(sentence, near) if failed else _fated(sentence, near, told)
    if near:
        word = sentence.words[near[0]]
        facts["part"] = part_named(word)
        sentence.note("part", word)
        others = {part_named(sentence.words[at]): at for at in named}
        others.pop(facts["part"], None)
        facts["others"] = tuple(others)
        facts.update(
            _pieces(sentence, facts["part"], near[0])
            or _numbered(sentence, facts["part"])
            or ({} if facts["others"] else so_many(sentence, near[0]))
        )
        return facts
    if other_owner(sentence):
        return {}
    for at in sentence.named("characteristic"):
        name = sentence.words[at].name
        if name is not None and name.owner and not _goes_on(sentence, at):
            sentence.note("part", sentence.words[at])
            return {"part": name.owner}
    return {}


_DONE = frozenset({"make:past", "close:past", "inside_verb"})
_JOINS = frozenset({"and", "but", "then", "so", "and the"})
_FAILS = frozenset({"fail:past", "fail:now", "make:past"})


def _that_failed(sentence: Sentence, near: list[int]) -> list[int]:
    """Put the base of “pressed the collar in, the base bent” first: that failed."""
    starts = [start for start, _ in clauses(sentence)][1:]
    starts += [at + 1 for at, word in enumerate(sentence.words) if word.low in _JOINS]
    for start in sorted(starts) if sentence.tags(0) & _DONE else ():
        first = start + 1 if "article" in sentence.tags(start) else start
        if first in near and sentence.tags(first + 1) & _FAILS:
            return [first, *(at for at in near if at != first)]
    return near


def _fated(sentence: Sentence, near: list[int], told: int) -> list[int]:
    """Put lid 1 of “keep lid 2, scrap lid 1” first: it stands behind what is done."""
    rows = [row for row in clauses(sentence) if row[0] <= told < row[1]]
    own = [at for at in near if rows and rows[0][0] <= at < rows[0][1]]
    return own + [at for at in near if at not in own]


def _goes_on(sentence: Sentence, at: int) -> bool:
    """See the wall of “wall track”, which other parts are called: no size of a wall."""
    following = sentence.word(at + 1)
    if following is None or following.sort is not Sort.WORD:
        return False
    words = (*spoken(sentence.words[at].text), following.low.removesuffix("s"))
    return bool(sentence.vocabulary.containing(words)) and following.name is None


def _beside_value(sentence: Sentence, near: list[int]) -> list[int]:
    """Put the part first that is named in the clause where the value stands."""
    read = sentence.spans.get("readings", [])
    if not read or len({sentence.words[at].name for at in near}) < 2:
        return near
    for start, end in clauses(sentence):
        if any(word is read[0] for word in sentence.words[start:end]):
            first = _main_clause(sentence, near, start, sentence.words.index(read[0]))
            here = [at for at in near if first <= at < end]
            here += [at for at in near if start <= at < first]
            return here + [at for at in near if at not in here]
    return near


def _main_clause(sentence: Sentence, near: list[int], start: int, value: int) -> int:
    """Give where the clause of a value begins behind an “and” that joins two of them.

    The lamp ran for two hours and after that the gate measured 51 C: what was read is
    of the gate. Where one verb is told of two things, it joins these.
    """
    for at in range(value - 1, start, -1):
        if "joiner" not in sentence.tags(at):
            continue
        told = [one for one in near if at < one < value]
        before = any(_tells(sentence.words[one]) for one in range(start, at))
        if (
            before
            and told
            and any(
                _says_it_is(sentence.words[one]) for one in range(told[-1] + 1, value)
            )
        ):
            return at + 1
    return start


def _tells(word: Word) -> bool:
    """Tell a verb of what was done or how it was."""
    return word.name is None and any(
        tag == "is" or tag.endswith(":past") for tag in word.tags
    )


def _says_it_is(word: Word) -> bool:
    """Tell a word that stands between a thing and what was read of it."""
    return word.name is None and bool(word.tags & {"is", "measure", "measure:past"})


def _fasteners_last(sentence: Sentence, near: list[int], named: list[int]) -> list[int]:
    """Put the diffuser of “washers on the diffuser” first, where no size is told.

    So it is with “washers under the collar”, what else may be away from there.
    """
    held = [at for at in near if not _fastens(sentence, at)]
    if near and not held:
        held = [at for at in named if not _fastens(sentence, at)][:1]
    if sentence.spans.get("readings") or not held:
        return near
    return held + [at for at in near if at not in held]


def _fastens(sentence: Sentence, at: int) -> bool:
    """Tell a screw from a pulley and a clip, which people make and name as parts."""
    names, low = sentence.lexicon.names, sentence.words[at].low
    made = low in names["alone"] or low in names["things"]
    return "fastener" in sentence.tags(at) and not made


def _article_after_away(sentence: Sentence, at: int) -> bool:
    return at >= 2 and bool(
        "article" in sentence.tags(at - 1) and sentence.tags(at - 2) & {"away"}
    )


def part_named(word: Word) -> str:
    """Give the part that a word names, or whose piece or size it names."""
    if word.name is None:
        return ""
    return word.name.owner or word.name.thing


def _pieces(sentence: Sentence, part: str, first: int) -> dict[str, Any]:
    """Give the piece of the part itself: a bar cut for base 2 is no second bar."""
    found = [
        at for at in sentence.named("piece") if part_named(sentence.words[at]) == part
    ]
    if not found:
        return {}
    if several := pieces_told(sentence, found):
        return {"pieces": several}
    word = sentence.words[first if first in found else found[0]]
    sentence.note("piece", word)
    return {"piece": word.name.thing if word.name else ""}


_OF_WHICH = frozenset({"on", "on the", "of", "of the", "in", "in the"})
_ONE_OF_THEM = frozenset({"print", "piece", "one", "copy", "part"})


def _numbered(sentence: Sentence, part: str) -> dict[str, Any]:
    """Give which piece it is that is told last: on the second print, of the 2nd one."""
    for at, word in enumerate(sentence.words[1:-1], 1):
        number = word.whole or sentence.lexicon.ordinals.get(word.low)
        ordinal = "ordinal" in word.tags or word.sort is Sort.ORDINAL
        before = sentence.words[at - (2 if "article" in sentence.tags(at - 1) else 1)]
        led = before.low in _OF_WHICH or sentence.words[at - 1].low in _OF_WHICH
        if not (ordinal and number and led):
            continue
        if sentence.words[at + 1].low in _ONE_OF_THEM:
            sentence.note("piece", word, sentence.words[at + 1])
            return {"piece": f"{part} {number}"}
    return {}
