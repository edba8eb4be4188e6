"""The facts of a line once its kind is known, each with the words it was read in."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import Any

from logbook.plain.choice import FIGURES, Choice
from logbook.plain.clauses import clauses
from logbook.plain.decisions import short_of
from logbook.plain.drawn import as_drawn
from logbook.plain.figures import Sort, Word
from logbook.plain.ordered import counts_time, ordered_item, ordered_part
from logbook.plain.outcomes import blame, cause, cure, disposition, told, where
from logbook.plain.readings import Values, pieces_counted
from logbook.plain.sentence import Sentence
from logbook.plain.sizes import BECOMES
from logbook.plain.understanding import Kind, Reading
from logbook.quantity import Absent, Quantity, quantity

_WORK = (
    Kind.STEP, Kind.DISPOSITION, Kind.DECISION, Kind.REVISION, Kind.SUBSTITUTION,
    Kind.ORDER, Kind.JOINT,
)  # fmt: skip


def gather(sentence: Sentence, values: Values, choice: Choice) -> dict[str, Any]:
    """Give the facts of the line as the fields of `Facts`."""
    facts: dict[str, Any] = {}
    facts.update(part_of(sentence))
    facts.update(_values(sentence, values, choice))
    facts.update(_named(sentence))
    for reader in _READERS.get(choice.kind, ()):
        facts.update(reader(sentence, choice))
    facts.update(blame(sentence, choice))
    return facts


def _named(sentence: Sentence) -> dict[str, Any]:
    """Give the build, machine, stock and step that the project knows by name."""
    facts: dict[str, Any] = {}
    for role in ("build", "machine", "stock", "step"):
        for at in sentence.named(role)[:1]:
            word = sentence.words[at]
            sentence.note(role, word)
            facts[role] = word.name.thing if word.name else ""
    facts["instrument_known"] = bool(sentence.named("instrument"))
    if "build" not in facts:
        for at in sentence.sorts(Sort.LABEL):
            word = sentence.words[at]
            if word.low.startswith("build "):
                sentence.note("build", word)
                facts["build"] = word.text
    return facts


def part_of(sentence: Sentence) -> dict[str, Any]:
    """Give the part the line is about, others it names, and the piece."""
    named = sorted([*sentence.named("part"), *sentence.named("piece")])
    near = [at for at in named if not sentence.tags(at - 1 if at else -1) & {"away"}]
    near = [at for at in near if not _article_after_away(sentence, at)] or named
    facts: dict[str, Any] = {}
    near = _beside_value(sentence, near)
    if near:
        word = sentence.words[near[0]]
        facts["part"] = _part_of(word)
        sentence.note("part", word)
        others = {_part_of(sentence.words[at]): at for at in named}
        others.pop(facts["part"], None)
        facts["others"] = tuple(others)
        facts.update(_pieces(sentence))
        return facts
    for at in sentence.named("characteristic"):
        name = sentence.words[at].name
        if name is not None and name.owner:
            sentence.note("part", sentence.words[at])
            return {"part": name.owner}
    return {}


def _beside_value(sentence: Sentence, near: list[int]) -> list[int]:
    """Put the part first that is named in the clause where the value stands."""
    read = sentence.spans.get("readings", [])
    if not read or len({sentence.words[at].name for at in near}) < 2:
        return near
    for start, end in clauses(sentence):
        if any(word is read[0] for word in sentence.words[start:end]):
            here = [at for at in near if start <= at < end]
            return here + [at for at in near if at not in here]
    return near


def _article_after_away(sentence: Sentence, at: int) -> bool:
    return at >= 2 and bool(
        "article" in sentence.tags(at - 1) and sentence.tags(at - 2) & {"away"}
    )


def _part_of(word: Word) -> str:
    if word.name is None:
        return ""
    return word.name.owner or word.name.thing


def _pieces(sentence: Sentence) -> dict[str, Any]:
    found = sentence.named("piece")
    if not found:
        return {}
    word = sentence.words[found[0]]
    sentence.note("piece", word)
    return {"piece": word.name.thing if word.name else ""}


def _values(sentence: Sentence, values: Values, choice: Choice) -> dict[str, Any]:
    facts: dict[str, Any] = {
        "wanted": tuple(values.wanted),
        "off": values.off,
        "off_sense": values.off_sense,
        "room": values.room,
        "hours": values.hours,
        "minutes": values.minutes,
        "instrument": values.instrument,
        "material": values.material,
    }
    readings, conditions = list(values.readings), list(values.conditions)
    spans = sentence.spans
    if choice.kind in _WORK:
        readings += [
            Reading(value) for value in conditions if value.dimension != "time"
        ]
        conditions = [value for value in conditions if value.dimension == "time"]
        if "conditions" in spans:
            spans.setdefault("readings", []).extend(spans.pop("conditions"))
    if choice.kind in (Kind.DECISION, Kind.COUNT, Kind.JOINT):
        facts["wanted"] = ()
    if choice.kind is Kind.ORDER:
        facts["room"] = None
    readings = _of_kind(sentence, values, choice, readings)
    readings, earlier = _standing(sentence, choice, readings)
    conditions += earlier
    facts["readings"], facts["conditions"] = tuple(readings), tuple(conditions)
    facts["what"] = next((one.what for one in readings if one.what), "")
    if not facts["what"] and values.off is not None and values.measures:
        facts["what"] = " ".join(word.low for word in values.measures)
    facts["place"] = next((one.place for one in readings if one.place), "")
    facts["place"] = facts["place"] or _where_off(sentence, values)
    return facts


_AT = frozenset({"at", "at the", "on", "on the", "in", "in the"})


def _of_kind(
    sentence: Sentence, values: Values, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the values that a line of this kind tells as its own."""
    if choice.kind in (Kind.COUNT, Kind.JOINT):
        return []
    if choice.kind is Kind.DECISION:
        readings = _chosen(sentence, values, choice, readings)
    if choice.kind is Kind.REVISION:
        readings = [one for one in readings if _is_size(one)]
    if choice.kind is Kind.STEP:
        readings = readings[1:] if _so_many_holes(sentence) else readings
        readings = [one for one in readings if not _is_grit(sentence, choice, one)]
    if choice.kind in _WORK or choice.kind is Kind.FAILURE:
        readings = [_worked(sentence, values, one) for one in readings]
    if choice.kind is Kind.ORDER:
        readings = [
            one
            for one in readings
            if one.value.dimension != "length" or "mm" not in one.value.text
        ]
    return readings


_HOLES = ("drill", "tap", "countersunk", "countersank", "punch", "bore", "ream")


def _so_many_holes(sentence: Sentence) -> bool:
    """See the 4 of “drilled 4 x 3.2 in the lid”: so many holes, no size."""
    drills = any(word.low.startswith(_HOLES) for word in sentence.words)
    for at in sentence.sorts(Sort.SIZE):
        word = sentence.words[at]
        if len(word.amounts) == 2 and word.amounts[0].isdecimal():
            return drills and "." in word.amounts[1] and len(word.amounts[0]) < 3
    return False


def _chosen(
    sentence: Sentence, values: Values, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the sizes a choice is of: staying with 2 mm sheet; nothing is off it."""
    found = [*readings, *(Reading(value) for value in _of_stock(sentence))]
    found += [Reading(values.off)] if values.off else []
    if not found and sentence.has("attribution_drawing"):
        found = [Reading(value) for value in values.wanted]
    return [*found, *_chosen_sizes(sentence, choice, found)]


_NOT_CHOSEN = frozenset(
    {"not", "instead of", "rather than", "than", "over", "from", "was", "of", "i/o"}
)


def _chosen_sizes(
    sentence: Sentence, choice: Choice, readings: list[Reading]
) -> list[Reading]:
    """Give the sizes of a choice that nothing else took: all holes at 4 mm."""
    known = {one.value.value for one in readings}
    found = []
    for at, word in enumerate(sentence.words):
        exact = word.sort is Sort.NUMBER and (word.has_decimals or word.unit)
        before = sentence.word(at - 1) if at else None
        refused = before is not None and before.low in _NOT_CHOSEN
        timed = word.dimension == "time" or word.dimension.startswith("money")
        if not exact or refused or timed or word.name is not None:
            continue
        if word in sentence.spans.get("instead_of", []) or choice.at > at + 8:
            continue
        for value in word.quantities(sentence.vocabulary.unit):
            if value.value not in known:
                sentence.note("readings", word)
                found.append(Reading(value))
    return found


def _where_off(sentence: Sentence, values: Values) -> str:
    """Give where something is off: proud by 0.6 at the rear."""
    if values.off is None or values.readings:
        return ""
    for at, word in enumerate(sentence.words):
        first = at + 2 if "article" in sentence.tags(at + 1) else at + 1
        place = sentence.word(first)
        if not at or word.low not in _AT or place is None:
            continue
        told = place.sort is Sort.WORD and place.name is None
        if told and (not place.tags or place.tags & {"place", "structure"}):
            sentence.note("place", place)
            return place.text
    placed = sentence.spans.get("place", [])
    return placed[0].text if placed and placed[0].sort is Sort.WORD else ""


def _of_stock(sentence: Sentence) -> list[Quantity]:
    """Give the sizes read as wanted that stand before a material or fastener."""
    return [
        value
        for word in sentence.spans.get("wanted", [])
        if sentence.tags(sentence.words.index(word) + 1) & {"material", "fastener"}
        for value in word.quantities(sentence.vocabulary.unit)
    ]


def _standing(
    sentence: Sentence, choice: Choice, readings: list[Reading]
) -> tuple[list[Reading], list[Quantity]]:
    """Give the readings that stand, and the sizes that held before.

    What is sawn at 179.9 and filed to 179.75 is 179.75 now; one that cracked is
    no size.
    """
    if choice.kind is Kind.READING:
        readings = _sides(sentence, readings)
        return _pieces_of(sentence, readings) or _places(sentence, readings), []
    if choice.kind is Kind.FAILURE:
        return [x for x in readings if x.what or not _counts(sentence, x)], []
    if choice.kind is Kind.DISPOSITION and len({one.what for one in readings}) == 1:
        return readings[-1:], [one.value for one in readings[:-1]]
    return readings, []


def _sides(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Tell the sides of “aperture 36.1 x 24.1” apart: they are two dimensions.

    The dimensions a part has by that name are taken in their order.
    """
    found = list(readings)
    for word in sentence.spans.get("readings", []):
        count = len(word.amounts)
        values = [one.value for one in word.quantities(sentence.vocabulary.unit)]
        for at in range(len(found) - count + 1 if count > 1 else 0):
            row = found[at : at + count]
            if [one.value.value for one in row] == values:
                names = _side_names(sentence, row[0].what, count)
                found[at : at + count] = [
                    Reading(one.value, name, one.place)
                    for one, name in zip(row, names, strict=True)
                ]
                break
    return found


def _side_names(sentence: Sentence, what: str, count: int) -> list[str]:
    known = [
        title
        for named in sentence.spans.get("part", [])[:1]
        for title in sentence.vocabulary.characteristics.get(_part_of(named), ())
        if what and title.casefold().startswith(what.casefold())
    ]
    sides = [f"{what} side {number}".strip() for number in range(1, count + 1)]
    return known if len(known) == count else sides


_AGAIN = frozenset(
    {"again", "twice", "repeat", "repeated", "repeats", "average", "mean", "same"}
)


def _places(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Give numbered places to values of one dimension that no place tells apart.

    They may be repeats, but only those that say so are averaged: a narrow place
    among them must not be lost in a mean.
    """
    if any(_AGAIN & set(word.low.split()) for word in sentence.words):
        return readings
    alike = Counter(_kind_of(one) for one in readings)
    seen: Counter[tuple[str, str, str]] = Counter()
    found = []
    for one in readings:
        key = _kind_of(one)
        if alike[key] > 1:
            seen[key] += 1
            place = f"{one.place} place {seen[key]}".strip()
            one = Reading(one.value, one.what, place)  # noqa: PLW2901
        found.append(one)
    return found


def _pieces_of(sentence: Sentence, readings: list[Reading]) -> list[Reading]:
    """Give each of “two legs 197.1 and 197.3” to a piece of its own."""
    at = pieces_counted(sentence)
    named = {one.what for one in readings if one.what}
    alike = len({one.value.dimension for one in readings}) == 1
    if (
        at < 0
        or sentence.words[at].whole != len(readings)
        or len(named) > 1
        or not alike
        or any(x.place for x in readings)
    ):
        return []
    sentence.note("readings", sentence.words[at])
    what = named.pop() if named else ""
    return [
        Reading(one.value, what, piece=number) for number, one in enumerate(readings, 1)
    ]


def _kind_of(one: Reading) -> tuple[str, str, str]:
    return one.what, one.place, one.value.dimension


def _counts(sentence: Sentence, one: Reading) -> bool:
    """Tell the one of “1 cracked” from a size: whole, small, without a unit."""
    value = one.value
    return value.step == 1 and value.value < 20 and not _typed_unit(sentence, value)


def _is_size(one: Reading) -> bool:
    """Tell a size from the number of a revision: 1 and 4 are good."""
    return one.value.step != 1 or one.value.value > 20


def _worked(sentence: Sentence, values: Values, one: Reading) -> Reading:
    """Name a value set in work by its measure only, and heat by its unit."""
    said = [word.low for word in values.measures]
    names = sentence.lexicon.dimension_of
    named = [word for word in said if word in one.what.lower()]
    named = named or [names[word] for word in said if names.get(word) == one.what]
    value = one.value
    bare = value.text.endswith(" mm") and value.step == 1 and value.value >= 30
    if bare and sentence.has("hot_verb") and not _typed_unit(sentence, value):
        value = quantity(value.value, "°C", value.step)
    if _bent_to(sentence, value):
        value = quantity(value.value, "°", value.step)
    return Reading(value, " ".join(named), one.place)


_ANGLES = frozenset({15, 30, 45, 60, 75, 90, 105, 120, 135, 150, 180})


def _bent_to(sentence: Sentence, value: Quantity) -> bool:
    """Tell the 90 of “bent the flange to 90”, an angle where it is a usual one."""
    bends = sentence.lexicon.acts["fold"]
    verb = any(word.low.split(" ")[0] in bends for word in sentence.words)
    plain = value.step == 1 and not _typed_unit(sentence, value)
    for before, word in zip(sentence.words, sentence.words[1:], strict=False):
        if word.whole == value.value and word.sort is Sort.NUMBER:
            led = before.low.split(" ")[-1] in ("to", "at")
            return verb and plain and led and int(value.value) in _ANGLES
    return False


_ABRADES = ("sand", "polish", "hone", "buff", "wet sand")


def _is_grit(sentence: Sentence, choice: Choice, one: Reading) -> bool:
    """Tell the 120 of “sanded to 120”, which is no length."""
    abraded = sentence.words[choice.at].low.startswith(_ABRADES)
    bare = one.value.step == 1 and not _typed_unit(sentence, one.value)
    return abraded and bare and one.value.value >= 40


def _typed_unit(sentence: Sentence, value: Quantity) -> bool:
    return any(word.unit and value.text == word.text for word in sentence.words)


def _absence(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    found = sentence.tagged("absent", "untried")
    if not found:
        return {}
    word = sentence.words[found[0]]
    sentence.note("absent", word)
    absent = Absent.NOT_MEASURED if "absent" in word.tags else Absent.UNTRIED
    facts: dict[str, Any] = {"absent": absent}
    measures: list[Word] = []
    if choice.kind is Kind.READING and absent is Absent.NOT_MEASURED:
        measures = _behind_colon(sentence, found[0])
    measures = measures or [
        sentence.words[at]
        for at in sentence.tagged("measures", "structure")
        if at not in found and sentence.words[at].name is None
    ]
    if measures and choice.kind is Kind.READING:
        sentence.note("what", *measures)
        facts["what"] = " ".join(one.low for one in measures)
    return facts


def _behind_colon(sentence: Sentence, at: int) -> list[Word]:
    """Give what a list of things not measured names: “not measured: weld shrinkage”."""
    colon = sentence.word(at + 1)
    if colon is None or colon.low not in (":", "-", "is"):
        return []
    end = next(iter(end for start, end in clauses(sentence) if end > at + 2), 0)
    words = sentence.words[at + 2 : end]
    return [
        one
        for one in words
        if one.name is None
        and one.sort is Sort.WORD
        and not one.tags & {"article", "preposition"}
    ]


def _closing(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    facts: dict[str, Any] = {}
    undone = [at for at in sentence.tagged("undone") if not _by_so_much(sentence, at)]
    if undone:
        sentence.note("undone", sentence.words[undone[0]])
        facts["undone"] = True
    closing = sentence.tagged("close:past", "close:ing", "shut")
    why = next(iter(sentence.tagged("because")), len(sentence.words))
    closing = [at for at in closing if at < why and not sentence.words[at].corrected]
    if closing and not undone:
        sentence.note("closes", *(sentence.words[at] for at in closing))
        facts["closes"] = True
    verb = [at for at in sentence.tagged("inside_verb") if at <= choice.at + 1]
    into = [at for at in sentence.tagged("inside_into") if verb and at > verb[0]]
    if into:
        holder = [at for at in sentence.tagged("channel_nouns") if at > into[0]]
        holder = holder or _led_through(sentence, into[0])
        if holder:
            sentence.note("inside", sentence.words[into[0]], sentence.words[holder[0]])
            facts["inside"] = True
    return facts


def _led_through(sentence: Sentence, at: int) -> list[int]:
    """See what a cable is led through, whatever it is: fed through the post."""
    if sentence.words[at].low != "through" or not sentence.named("part"):
        return []
    first = at + 2 if "article" in sentence.tags(at + 1) else at + 1
    noun = sentence.word(first)
    plain = noun is not None and noun.sort is Sort.WORD and noun.name is None
    return [first] if plain and not sentence.tags(first) & {"preposition"} else []


def _by_so_much(sentence: Sentence, at: int) -> bool:
    """Tell “drilled out by 0.2” from rivets drilled out."""
    following, figure = sentence.word(at + 1), sentence.word(at + 2)
    if following is None or "drilled" not in sentence.words[at].low:
        return False
    if following.low in ("by", "to", "up to", "out to"):
        return figure is not None and figure.sort in FIGURES
    return following.sort in FIGURES


def _quantity(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    for at in sentence.sorts(Sort.COUNT, Sort.TIMES):
        word = sentence.words[at]
        after = sentence.word(at + 1)
        if counts_time(after):
            continue
        if choice.kind is Kind.STEP and not _counts_pieces(sentence, at):
            continue
        sentence.note("quantity", word)
        return {"quantity": word.whole}
    return {}


def _counts_pieces(sentence: Sentence, at: int) -> bool:
    for ahead in (1, 2, 3):
        tags, word = sentence.tags(at + ahead), sentence.word(at + ahead)
        if tags & {"fastener", "pieces"} or (
            word is not None and word.name is not None
        ):
            return True
        if word is None or word.sort is not Sort.WORD:
            return False
    return False


def _price(sentence: Sentence, _: Choice) -> dict[str, Any]:
    for at in sentence.sorts(Sort.NUMBER):
        word = sentence.words[at]
        if word.dimension.startswith("money"):
            sentence.note("price", word)
            return {"price": word.quantities("")[0], "price_text": word.text}
    for at in sentence.sorts(Sort.NUMBER):
        word = sentence.words[at]
        amount = word.amounts[0]
        if not word.unit and len(amount.replace(",", ".").partition(".")[2]) == 2:
            sentence.note("price", word)
            sentence.spans.pop("readings", None)
            return {"price_text": amount}
    return {}


def _fastener(sentence: Sentence, _: Choice) -> dict[str, Any]:
    instead = sentence.tagged("instead")
    for at in sentence.sorts(Sort.THREAD):
        if instead and at > instead[0]:
            continue
        return told(sentence, "fastener", [sentence.words[at]])
    return {}


def _layers(sentence: Sentence, _: Choice) -> dict[str, Any]:
    layers: dict[str, Word] = {}
    for at in sorted([*sentence.named("part"), *sentence.named("piece")]):
        layers.setdefault(_part_of(sentence.words[at]), sentence.words[at])
    sentence.note("layers", *layers.values())
    return {"layers": tuple(layers)}


def _instead(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    for at in sentence.tagged("instead"):
        words = _phrase_to(sentence, at + 1)
        return told(sentence, "instead_of", words) if words else {}
    short = short_of(sentence)
    if short is not None and short[1] > short[0]:
        return told(sentence, "instead_of", sentence.words[short[0] : short[1]])
    for at in sentence.tagged("unavailable"):
        start = next(first for first, end in clauses(sentence) if first <= at < end)
        if sentence.words[start:at]:
            return told(sentence, "instead_of", sentence.words[start:at])
    lows = [word.low for word in sentence.words]
    for stop in ("with", "for"):
        if choice.at == 0 and stop in lows:
            words = [
                word
                for word in sentence.words[1 : lows.index(stop)]
                if "article" not in word.tags
            ]
            return told(sentence, "instead_of", words) if words else {}
    return {}


def _instead_said(sentence: Sentence, _: Choice) -> dict[str, Any]:
    """Give what is not used, in a choice that says so: M5 instead of M6."""
    for at in sentence.tagged("instead"):
        words = _phrase_to(sentence, at + 1)
        return told(sentence, "instead_of", words) if words else {}
    return _changed_from(sentence)


def _changed_from(sentence: Sentence) -> dict[str, Any]:
    """Give the size that was: the 2.2 of “2.2 -> 2.5” and of “from 2.2 to 2.5”."""
    figures = sentence.sorts(Sort.NUMBER)
    for at, last in pairwise(figures):
        between = "".join(word.low for word in sentence.words[at + 1 : last])
        led = at > 0 and sentence.words[at - 1].low == "from"
        led = led or sentence.words[0].low == "decided"
        if between in BECOMES and (between != "to" or led):
            sentence.spans["readings"] = [
                word
                for word in sentence.spans.get("readings", [])
                if word is not sentence.words[at]
            ]
            return told(sentence, "instead_of", [sentence.words[at]])
    return {}


def _phrase_to(sentence: Sentence, at: int) -> list[Word]:
    words: list[Word] = []
    while at < len(sentence.words):
        word = sentence.words[at]
        if (
            word.sort is Sort.MARK
            or word.tags & {"locative", "joiner", "because"}
            or word.low in ("for", "on")
        ):
            break
        words.append(word)
        at += 1
    return words


def _revised(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    word = sentence.words[choice.at]
    if word.sort is Sort.LABEL:
        label = word.text.partition(" ")[2].strip()
        label = label.upper() if len(label) == 1 else label
    elif word.sort is Sort.CODE:
        label = word.text
    else:
        label = "new"
    sentence.note("revision", word)
    facts: dict[str, Any] = {"revision": label}
    for at in sentence.tagged("withdrawn"):
        sentence.note("withdrawn", sentence.words[at])
        facts["withdrawn"] = True
    return facts


def _counted(sentence: Sentence, _: Choice) -> dict[str, Any]:
    numbers = [
        at
        for at, word in enumerate(sentence.words)
        if word.whole is not None and not word.unit
    ]
    listed = _listed_at(sentence, numbers)
    told = [at for at in numbers if at != listed]
    facts: dict[str, Any] = {}
    if told:
        sentence.note("quantity", sentence.words[told[0]])
        facts["quantity"] = sentence.words[told[0]].whole
    if listed is not None:
        sentence.note("listed", sentence.words[listed])
        facts["listed"] = sentence.words[listed].whole
    for at in numbers:
        for ahead in (1, 2, 3):
            noun = sentence.word(at + ahead)
            if noun is not None and noun.sort is Sort.WORD and noun.low.endswith("s"):
                sentence.note("counted", noun)
                return {**facts, "counted": _counted_part(sentence, noun)}
    return facts


def _counted_part(sentence: Sentence, noun: Word) -> str:
    """Name the part that was counted: the one here that it can be, else the noun."""
    if noun.name is not None:
        return noun.name.thing if noun.name.role == "part" else noun.text
    longer = sentence.vocabulary.containing((noun.low.removesuffix("s"),))
    return longer[0] if len(longer) == 1 else noun.text


def _listed_at(sentence: Sentence, numbers: list[int]) -> int | None:
    for at in numbers:
        before = sentence.word(at - 1) if at else None
        if before is not None and (before.low == "of" or "list_says" in before.tags):
            return at
        for ahead in (1, 2):
            after = sentence.word(at + ahead)
            if after is not None and after.low in ("listed", "expected"):
                return at
    return None


def _feeling(sentence: Sentence, choice: Choice) -> dict[str, Any]:
    found = sentence.tagged("fit")
    words = [sentence.words[at] for at in found]
    sentence.note("feels", *words)
    del choice
    return {"feels": ", ".join(word.low for word in words)}


_READERS = {
    Kind.READING: (_absence,),
    Kind.STOCK: (),
    Kind.DRAWN: (as_drawn,),
    Kind.FIT: (_feeling,),
    Kind.FAILURE: (where, cause, cure, disposition, _fastener),
    Kind.DECISION: (_instead_said, cause, disposition, _quantity, _fastener),
    Kind.REVISION: (_revised, cause, _absence, _fastener),
    Kind.SUBSTITUTION: (_instead, cause, _fastener),
    Kind.DISPOSITION: (disposition, cause, _quantity),
    Kind.STEP: (_closing, _quantity, _fastener),
    Kind.JOINT: (_fastener, _layers, _quantity),
    Kind.ORDER: (ordered_part, _quantity, _price, _fastener, ordered_item),
    Kind.COUNT: (_counted,),
    Kind.QUESTION: (),
    Kind.NOTE: (),
}
