"""Whether a line that no rule told is said whole: nothing it needs is in doubt."""

from __future__ import annotations

from logbook.plain.named.names import singular
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.clauses import clauses
from logbook.plain.words.sentence import Sentence


def is_whole(
    sentence: Sentence, line: Understanding, *, overruled: bool = False
) -> bool:
    """Tell whether nothing such an entry needs is missing or in doubt.

    A part is made only of what is told first, where no rule is overruled, or of a
    design file, which knows it; none that may be meant is left out.
    """
    if not says_all(line) or line.verdict is not Verdict.TAKEN:
        return False
    facts, files = line.facts, sentence.vocabulary.proposed
    end = next((sentence.words[end - 1].end for _, end in clauses(sentence)), 0)
    later = all(one.start >= end for one in line.words.get("part", ()))
    made = facts.part_is_new and (later or overruled) and facts.part not in files
    return not (made or (not facts.part and _names(sentence)))


def _names(sentence: Sentence) -> bool:
    """Tell whether a noun stands in the line that is the name of things people make."""
    names = sentence.lexicon.names
    made = names["things"] | names["components"]
    return any(
        singular([word.low])[0] in made and word.name is None for word in sentence.words
    )


def says_all(line: Understanding) -> bool:
    """Tell whether a line of this kind has what such an entry cannot be without."""
    facts = line.facts
    needed = {
        Kind.READING: bool(facts.readings or facts.absent or facts.off),
        Kind.DISPOSITION: bool(facts.disposition),
    }
    return needed.get(line.kind, True)
