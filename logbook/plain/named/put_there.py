"""A part told by the end of its name, put into or onto one that is named whole.

“Pressed the spigot into the shell” with a hose-spigot on record: what is moved is a
thing of its own, and no feature of the other.
"""

from __future__ import annotations

from collections.abc import Sequence

from logbook.plain.named.ends_of_names import is_headed
from logbook.plain.named.unnamed import Unnamed, which_part
from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_PUTS = frozenset(
    {"in", "into", "inside", "onto", "on", "through", "to", "over", "under"}
)


def put_there(sentence: Sentence, named: Sequence[int]) -> Unnamed | None:
    """Give the part that is put to the first of these places; asked about if several.

    None where nothing is, or no name ends so.
    """
    at = _put_before(sentence, named[0])
    if at < 0:
        return None
    said = (sentence.words[at].low,)
    longer = sentence.vocabulary.containing(said)
    ends = [name for name in longer if is_headed(sentence.lexicon, name, said)]
    if not ends:
        return None
    if len(longer) == 1:
        return Unnamed(said, ends[0])
    return Unnamed(said, "", which_part(ends, said), placed=True)


def _put_before(sentence: Sentence, named: int) -> int:
    """Give where the one noun stands that a verb puts to a name; below 0 for none."""
    at = named - 1
    while at > 0 and sentence.tags(at) & {"article", "adjective"}:
        at -= 1
    if at < 2 or sentence.words[at].low not in _PUTS:
        return -1
    noun, before = sentence.words[at - 1], at - 2
    plain = noun.sort is Sort.WORD and noun.name is None and " " not in noun.low
    while before > 0 and "article" in sentence.tags(before):
        before -= 1
    done = any(tag.endswith(":past") for tag in sentence.tags(before))
    return at - 1 if plain and done else -1
