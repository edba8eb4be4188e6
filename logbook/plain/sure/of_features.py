"""Signs that a feature that failed is a part, or a part that would be made is none."""

from __future__ import annotations

from collections.abc import Iterator

from logbook.plain.named.name_places import befell
from logbook.plain.named.names import singular
from logbook.plain.named.unnamed import which_part
from logbook.plain.sure.unread import Unread
from logbook.plain.understanding import Doubt, Kind, Understanding
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.lexicon import lexicon
from logbook.plain.words.sentence import Sentence


def feature_that_failed(reading: Unread) -> Iterator[Doubt]:
    """See “rib broke while bending”: a rib of a part, or one made by itself.

    So with the door of “hinge screws pulled out of the door”.
    """
    line, sentence = reading.line, reading.sentence
    own = line.facts.part and not (line.facts.part_is_new and _told_later(reading))
    if line.kind is not Kind.FAILURE or own or sentence.named("part"):
        return
    listed = sentence.lexicon.names["may_be_parts"]
    for at, word in enumerate(sentence.words):
        if at and word.low in (",", ";", ":"):
            return
        first = _begins(sentence, at)
        led = "article" in sentence.tags(first - 1) if first else True
        behind = sentence.tags(at + 1)
        befallen = first == 0 and (befell(behind) or "negative" in behind)
        told = befallen or (first and led)
        if word.low in listed and told and word.name is None:
            said = [one.low for one in sentence.words[first : at + 1]]
            other = (line.facts.part,) if line.facts.part else ()
            yield which_part((), (" ".join(singular(said)), *other))
            return


def asks_of_a_feature(line: Understanding) -> bool:
    """Tell whether a line is asked which part a feature that failed is."""
    listed = lexicon().names["may_be_parts"]
    asked = [one for one in line.doubts if one.needed and one.about == "part"]
    return any(name.split(" ")[-1] in listed for one in asked for name in one.choices)


def _told_later(reading: Unread) -> bool:
    """Tell whether the part is named in a clause behind the first only."""
    end = next((end for _, end in clauses(reading.sentence)), 0)
    last = reading.sentence.words[end - 1].end if end else 0
    return all(one.start >= last for one in reading.line.words.get("part", ()))


_PLAIN = frozenset({"never_part"})


def _begins(sentence: Sentence, at: int) -> int:
    """Give where a name of two words begins: wrist string, foam head."""
    before = sentence.word(at - 1) if at else None
    plain = before is not None and before.sort is Sort.WORD and before.name is None
    if before is None or not plain:
        return at
    named = not before.tags or "material" in before.tags or before.tags <= _PLAIN
    return at - 1 if named else at


def bought_by_the_way(reading: Unread) -> Iterator[Doubt]:
    """See a plug or a tripod that would be made a part, though it is a bought thing."""
    facts, sentence = reading.line.facts, reading.sentence
    said = facts.part.split(" ")[-1] if facts.part_is_new else ""
    told = reading.line.kind in (Kind.FAILURE, Kind.READING, Kind.STEP)
    own = facts.part in sentence.vocabulary.proposed
    first = sentence.words[1:2] if "article" in sentence.tags(0) else ()
    own = own or any(word.low == said for word in first)  # The plug fell out.
    if told and not own and said in sentence.lexicon.names["bought"]:
        yield which_part((), (facts.part,))
