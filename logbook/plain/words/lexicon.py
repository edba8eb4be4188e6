"""The words of the bench, read from a word file, and how to look them up.

A tag says what a word can tell: `fail`, `make`, `place`, `measures:length`.
Verb forms carry their form too: `make:past`. Every language is one file
`words.<language>.toml` beside this module.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import product
from pathlib import Path

import tomli

NO_TAGS: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True)
class UnitWords:
    """When a word behind a number is a unit.

    `in` means inches before the words of `after_in`, and `bar` a pressure in a line
    with one of `of_bar`; those in `never` are plain words; a number before a `foreign`
    unit is no size at all.
    """

    after_in: frozenset[str]
    of_bar: frozenset[str]
    never: frozenset[str]
    foreign: frozenset[str]


@dataclass(frozen=True, slots=True)
class Lexicon:
    """Every known word and phrase of one language with its tags."""

    phrases: Mapping[str, tuple[tuple[tuple[str, ...], frozenset[str]], ...]]
    numbers: Mapping[str, int]
    ordinals: Mapping[str, int]
    weekdays: Mapping[str, int]
    months: Mapping[str, int]
    dimension_of: Mapping[str, str]
    misspelt: Mapping[str, str]
    past_of: Mapping[str, str]
    others: frozenset[str]
    units: UnitWords
    names: Mapping[str, frozenset[str]]
    clauses: Mapping[str, frozenset[str]]
    acts: Mapping[str, frozenset[str]]
    buckets: Mapping[tuple[str, int], tuple[str, ...]]

    def longest(
        self, words: Sequence[str], start: int
    ) -> tuple[int, frozenset[str]] | None:
        """Give how many words of the longest known phrase begin here, with its tags."""
        for phrase, tags in self.phrases.get(words[start], ()):
            if tuple(words[start : start + len(phrase)]) == phrase:
                return len(phrase), tags
        return None

    def near(self, word: str) -> str:
        """Give the one verb or measure that `word` misspells by one slip, or nothing.

        Only a letter dropped, doubled or changed over counts: another letter
        in its place makes too many English words of each other.
        """
        found = {
            known
            for size in (len(word) - 1, len(word), len(word) + 1)
            for known in self.buckets.get((word[0], size), ())
            if one_slip(word, known, replaced=False) and word != f"{known}s"
        }
        swapped = {known for known in found if len(known) == len(word)}
        if len(found) > 1 and len(swapped) == 1:
            found = swapped
        if len(found) > 1:
            rows = [self.phrases.get(known, ()) for known in found]
            alike = {row[-1][1] if row else NO_TAGS for row in rows}
            return min(found) if len(alike) == 1 else ""
        return found.pop() if found else ""

    def put_right(self, word: str) -> str:
        """Give what a common slip, or a past without its e, was meant for."""
        if word in self.misspelt:
            return self.misspelt[word]
        known = word in self.phrases or word in self.others
        if known or len(word) < 4 or not word.endswith("d"):
            return ""
        return self.past_of.get(word[:-1], "")


def one_slip(word: str, known: str, *, replaced: bool) -> bool:
    """Tell whether one letter dropped, added, swapped (or replaced) parts the two."""
    if word == known:
        return False
    at = 0
    for one, other in zip(word, known, strict=False):
        if one != other:
            break
        at += 1
    rest, right = word[at:], known[at:]
    if len(word) == len(known):
        if rest[1:] == right[1:]:
            return replaced
        return rest[:2] == right[1::-1] and rest[2:] == right[2:]
    longer, shorter = (rest, right) if len(word) > len(known) else (right, rest)
    return longer[1:] == shorter


def lexicon(language: str = "en") -> Lexicon:
    """Give the words of `language`; its file is read once."""
    return _read(language)


@cache  # behind the default, which a call may spell out or not
def _read(language: str) -> Lexicon:
    path = Path(__file__).with_name(f"words.{language}.toml")
    data = tomli.loads(path.read_text("utf-8"))
    tags: dict[tuple[str, ...], set[str]] = {}
    for phrase, tag in _tagged(data):
        tags.setdefault(phrase, set()).add(tag)
    first: dict[str, list[tuple[tuple[str, ...], frozenset[str]]]] = {}
    for phrase, found in tags.items():
        first.setdefault(phrase[0], []).append((phrase, frozenset(found)))
    phrases = {
        word: tuple(sorted(rows, key=lambda row: -len(row[0])))
        for word, rows in first.items()
    }
    weekdays = _numbered(data["time"]["weekdays"], 0)
    months = _numbered(data["time"]["months"], 1)
    inside = {word for phrase in tags for word in phrase}
    return Lexicon(
        phrases=phrases,
        dimension_of=data["dimension_of"],
        misspelt=data.get("misspelt", {}),
        past_of=_past_of(data["verbs"]),
        others=frozenset(
            {*weekdays, *months, *inside, *_set(data["ordinary"]["words"])}
        ),
        units=UnitWords(
            after_in=_set(data["units"]["after_in"]),
            of_bar=_set(data["units"]["of_bar"]),
            never=_set(data["units"]["never"]),
            foreign=_set(data["units"]["foreign"]),
        ),
        names={role: _set(words) for role, words in data["names"].items()},
        clauses={role: _set(words) for role, words in data["clauses"].items()},
        acts={family: _set(words) for family, words in data["acts"].items()},
        numbers=data["numbers"],
        ordinals=data["ordinals"],
        weekdays=weekdays,
        months=months,
        buckets=_buckets(tags),
    )


def _tagged(
    data: Mapping[str, Mapping[str, str]],
) -> Iterator[tuple[tuple[str, ...], str]]:
    for tag, entries in data["verbs"].items():
        for forms in _entries(entries):
            yield from _verb(tag, forms)
    yield from _tagged_time(data)
    for table, prefix in (
        ("words", ""),
        ("measures", "measures:"),
        ("labels", "label:"),
    ):
        for tag, entries in data[table].items():
            for phrase in _entries(entries):
                yield phrase, prefix + tag
                if prefix == "measures:":
                    yield phrase, "measures"
    for table in ("numbers", "ordinals"):
        for word in data[table]:
            yield (word,), table[:-1]
    said = data["clauses"]
    states = (*_entries(said["bad_states"]), *_entries(said["plainly_bad"]))
    for verb, state in product(_entries(said["gone"]), states):
        yield (*verb, *state), "fail"


def _past_of(verbs: Mapping[str, str]) -> dict[str, str]:
    """Give the past of each verb: “scrapd” is read as “scrapped”, “glud” as “glued”."""
    rows = [
        (forms[0], forms[2])
        for entries in verbs.values()
        for forms in _entries(entries)
        if len(forms) > 3 and forms[2].endswith("ed")
    ]
    clipped = {f"{base[:-2]}r": past for base, past in rows if base.endswith("er")}
    silent = {base[:-1]: past for base, past in rows if base.endswith("e")}
    return {**silent, **clipped, **dict(rows)}


def _tagged_time(
    data: Mapping[str, Mapping[str, str]],
) -> Iterator[tuple[tuple[str, ...], str]]:
    for tag, entries in data["time"].items():
        if tag not in ("weekdays", "months"):
            for phrase in _entries(entries):
                yield phrase, f"time:{tag}"


def _verb(tag: str, forms: tuple[str, ...]) -> Iterator[tuple[tuple[str, ...], str]]:
    if len(forms) == 1:
        yield forms, tag
        yield forms, f"{tag}:past"
        return
    for at, form in enumerate(forms):
        yield (form,), tag
        if at == 0:
            yield (form,), f"{tag}:base"
        elif at == 1:
            yield (form,), f"{tag}:now"
        elif at == len(forms) - 1:
            yield (form,), f"{tag}:ing"
        else:
            yield (form,), f"{tag}:past"


def _entries(text: str) -> Iterator[tuple[str, ...]]:
    for entry in text.split(","):
        if words := tuple(entry.split()):
            yield words


def _set(text: str) -> frozenset[str]:
    return frozenset(" ".join(phrase) for phrase in _entries(text))


def _numbered(text: str, start: int) -> dict[str, int]:
    return {
        word: at for at, words in enumerate(_entries(text), start) for word in words
    }


_TURNS_A_LINE = frozenset(
    {
        "wanted",
        "wanted_after",
        "instead",
        "because",
        "guess",
        "negative",
        "adverse",
        "attribution_drawing",
        "attribution_piece",
        "conditional",
        "hearsay",
        "vague",
    }
)
"""Words of these tags, first words of phrases too, change what a whole line says."""
_LITTLE = frozenset({"preposition", "joiner", "material", "fastener", "filler"})
"""Words of these tags are put right from five letters on, all others from six on."""


def _buckets(
    tags: Mapping[tuple[str, ...], set[str]],
) -> dict[tuple[str, int], tuple[str, ...]]:
    found: dict[tuple[str, int], set[str]] = {}
    for phrase, kinds in tags.items():
        word = phrase[0]
        worth = any(":" in kind for kind in kinds) or bool(kinds & _LITTLE)
        single = len(phrase) == 1 and len(word) >= (5 if worth else 6)
        if single or (len(word) >= 5 and kinds & _TURNS_A_LINE):
            found.setdefault((word[0], len(word)), set()).add(word)
        for inner in phrase[1:] if kinds & _TURNS_A_LINE else ():
            if len(inner) >= 6:
                found.setdefault((inner[0], len(inner)), set()).add(inner)
    return {key: tuple(sorted(words)) for key, words in found.items()}
