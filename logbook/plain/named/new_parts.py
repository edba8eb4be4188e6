"""The unknown noun of a line that can only be a part nobody has named yet.

Only sure places count: the subject of a failure or a size, the object of work,
what a size or a choice is for. A name is taken whole, never one word of it; what
stands in a side clause is at most asked about.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from logbook.plain.named.all_of_a_line import all_it_is_about
from logbook.plain.named.by_its_place import gone_back, mended, wanted_more, with_a_flaw
from logbook.plain.named.circuit import measured_point
from logbook.plain.named.ends_of_names import (
    end_of_a_name,
    middle_of_a_name,
    sure_end,
)
from logbook.plain.named.flaws_left import flaw_left
from logbook.plain.named.given_back import bought_so, given_back
from logbook.plain.named.longer_names import longer_name
from logbook.plain.named.machined import TURNED_OF_BAR
from logbook.plain.named.more_of_them import more_wanted
from logbook.plain.named.name_places import (
    after_when,
    elsewhere,
    in_passing,
    is_young,
    meant_for,
    subject,
    worked_on,
)
from logbook.plain.named.names import (
    after_leads,
    is_component,
    is_thing,
    name_run,
    singular,
)
from logbook.plain.named.of_its_size import is_surely_one, sized_thing
from logbook.plain.named.of_stock import stock_told_of
from logbook.plain.named.own_machine import own_machine
from logbook.plain.named.owners import owner_told, owners
from logbook.plain.named.put_there import put_there
from logbook.plain.named.said_first import after_the_first
from logbook.plain.named.sure_names import meant, sure_name
from logbook.plain.named.things import placed, thing_told_of
from logbook.plain.named.thrown_out import thrown_out
from logbook.plain.named.unnamed import Unnamed
from logbook.plain.named.worked_thing import worked_thing
from logbook.plain.words.clauses import clauses
from logbook.plain.words.figures import Sort
from logbook.plain.words.machine_set import runs_a_fan, sets_a_machine
from logbook.plain.words.sentence import Sentence


def find_new_part(sentence: Sentence) -> Unnamed | None:
    """Give what names a part that is not known yet, None where nothing does."""
    if sets_a_machine(sentence) or runs_a_fan(sentence) or _wet_stock(sentence):
        return None
    if bought_so(sentence) or own_machine(sentence) is not None:
        return None  # Returned the velvet, wrong red.
    if (wanted := more_wanted(sentence)) is not None:
        return wanted_more(sentence, wanted[1])
    return _told_by_form(sentence) or _find_in_place(sentence)


def _told_by_form(sentence: Sentence) -> Unnamed | None:
    """Give what a line of a form of its own tells of: given back, with a flaw left."""
    if (given := given_back(sentence)) is not None:
        return gone_back(sentence, given.what)
    if thrown := thrown_out(sentence):
        return replace(meant(sentence, thrown, sure=True), placed=True)
    flaw = flaw_left(sentence)
    return with_a_flaw(sentence, flaw[1]) if flaw is not None else mended(sentence)


def _find_in_place(sentence: Sentence) -> Unnamed | None:
    """Give what stands where a name does, known or not."""
    named = [
        at
        for at, word in enumerate(sentence.words)
        if word.name is not None
        and word.name.role in ("part", "piece")
        and not in_passing(sentence, at)
    ]
    if named:
        put = put_there(sentence, named)
        return put or _told_first(sentence, named) or longer_name(sentence, named)
    by_end = sure_end(sentence) or _of_stock(sentence)
    if by_end is not None:
        return by_end
    if sentence.named("characteristic"):
        return _owner(sentence)
    known = middle_of_a_name(sentence) or end_of_a_name(sentence, range(1))
    known = known or measured_point(sentence)
    if known is not None:
        return known
    told = _without_drawn(sentence, subject(sentence))
    run = told or worked_on(sentence) or meant_for(sentence)
    if run:
        # A project that has its parts hardly meets one more by the way.
        holds = "channel_nouns" in sentence.tags(run[-1]) or is_thing(sentence, run)
        last = sentence.words[run[-1]].low
        holds = holds or (
            last in TURNED_OF_BAR and last not in sentence.lexicon.names["alone"]
        )
        met = bool(told) or holds or is_young(sentence)
        met = met or all_it_is_about(sentence, run)
        found = meant(sentence, run, sure=met and sure_name(sentence, run))
        return replace(found, placed=True)
    known = end_of_a_name(sentence, range(len(sentence.words)))
    if known is not None:
        return known
    if thing := _whole_thing(sentence):
        return thing
    for run in elsewhere(sentence):
        sure = is_thing(sentence, run) and placed(sentence, run)
        return after_the_first(sentence, run, meant(sentence, run, sure=sure))
    return None


def _whole_thing(sentence: Sentence) -> Unnamed | None:
    """Give the thing made or mounted whole that a line tells of, or the size of.

    What may be a feature, and was worked on, is asked about.
    """
    run = sized_thing(sentence)
    sure = not run or is_surely_one(sentence, run)
    if not (run := run or thing_told_of(sentence)):
        run, sure = worked_thing(sentence), False
    return replace(meant(sentence, run, sure=sure), placed=True) if run else None


_DRAWN = frozenset({"drawn", "nominal", "nominally", "nom", "nom."})


def _without_drawn(sentence: Sentence, run: list[int]) -> list[int]:
    """Leave out the spigot of “shade spigot drawn 5.9”: a size of the shade."""
    behind = sentence.word(run[-1] + 1) if run else None
    drawn = behind is not None and behind.low in _DRAWN
    return run[:-1] if drawn and len(run) > 1 else run


def _wet_stock(sentence: Sentence) -> bool:
    """See the moisture of a board, which is stock still, where parts are known."""
    share = any(word.dimension == "ratio" for word in sentence.words)
    wet = any(word.low.startswith(("moist", "humid", "wet")) for word in sentence.words)
    return share and wet and not is_young(sentence) and sentence.has("stock_form")


def _told_first(sentence: Sentence, named: Sequence[int]) -> Unnamed | None:
    """See “hood sagged, lamp too close”: the part told behind it is not what failed."""
    end = _first_told(sentence)
    if any(at < end for at in named):
        return None
    run = subject(sentence) or thing_told_of(sentence)
    first = after_leads(sentence, after_when(sentence))
    bought = any(
        is_component(sentence, at) or "fastener" in sentence.tags(at)
        for at in (*run, *(one + 1 for one in run))
        if at < end
    )
    if not run or run[0] != first or run[-1] >= end or bought:
        return None
    if _is_a_tool(sentence, run):
        return None  # Vise jaws marked the bar; the graver slipped, a scratch on it.
    sure = is_thing(sentence, run) and sure_name(sentence, run)
    names = [sentence.words[at].name for at in named]
    others = [one.owner or one.thing for one in names if one is not None]
    return replace(meant(sentence, run, sure=sure, else_=others), placed=True)


_SLIPS = frozenset(
    {"slipped", "skidded", "skated", "wandered", "walked", "grabbed", "kicked",
     "jumped", "dug in", "kicked back", "snatched"}
)  # fmt: skip


def _is_a_tool(sentence: Sentence, run: Sequence[int]) -> bool:
    """Tell a tool by its name, or by what tools do to the part that is told behind."""
    behind = sentence.word(run[-1] + 1)
    slips = behind is not None and behind.low in _SLIPS
    return slips or any("tool" in sentence.tags(at) for at in run)


def _first_told(sentence: Sentence) -> int:
    """Give where what a line tells first ends: at a clause, at because or when."""
    end = next(iter(clauses(sentence)), (0, 0))[1]
    for at, word in enumerate(sentence.words[:end]):
        led = word.low.split(" ")[0] in ("when", "while", "as")
        if at and (led or "because" in word.tags):
            return at
    return end


def _owner(sentence: Sentence) -> Unnamed | None:
    """Give what is named as having a size that one part is known to have."""
    run, part = owner_told(sentence)
    if part:
        return Unnamed(tuple(sentence.words[at].low for at in run), part)
    if not run:
        return None
    sure = is_thing(sentence, run) or is_young(sentence)
    known = owners(sentence)
    found = meant(sentence, run, sure=sure and sure_name(sentence, run), else_=known)
    return replace(found, placed=True)


def _of_stock(sentence: Sentence) -> Unnamed | None:
    """Give the board that is measured or made; asked about where parts are known."""
    run = stock_told_of(sentence)
    if not run:
        return None
    return replace(meant(sentence, run, sure=is_young(sentence)), placed=True)


def find_next_layer(sentence: Sentence) -> tuple[str, ...]:
    """Give the words of one more unknown part that a fastener goes through."""
    fastened = sentence.sorts(Sort.THREAD) or sentence.has("fastener")
    if not fastened or not is_young(sentence):
        return ()
    if not sentence.has("through_sure", "hold"):
        return ()
    for at in sentence.tagged("joiner", "through"):
        run = name_run(sentence, after_leads(sentence, at + 1))
        words = singular([sentence.words[one].low for one in run])
        verb = any(word.endswith(("ed", "ing")) for word in words)  # And freed it.
        behind = sentence.word(run[-1] + 1) if run else None
        verb = verb or (behind is not None and behind.low == "of")  # A drop of glue.
        if run and not verb and not sentence.vocabulary.containing(words):
            return words
    return ()
