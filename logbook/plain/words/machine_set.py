"""A machine that is set, told without a thing it makes: printer to 230, bed 80.

Its numbers are no sizes, and its bed and fan no parts of ours.
"""

from __future__ import annotations

from logbook.plain.words.figures import Sort
from logbook.plain.words.sentence import Sentence

_MACHINES = frozenset(
    {"printer", "laser", "mill", "lathe", "saw", "drill press", "folder", "brake",
     "press", "router", "sander", "oven", "iron", "soldering iron", "heat gun",
     "bandsaw", "table saw", "spindle", "feed", "speed", "nozzle", "extruder",
     "hotend", "hot end"}
)  # fmt: skip
_RUNS_HOT = frozenset({"nozzle", "extruder", "hotend", "hot end"})
_SETS = frozenset({"set", "setting", "settings", "reset", "changed", "turned"})
_TO = frozenset({"to", "at", ":", "up", "down", "from"})


def sets_a_machine(sentence: Sentence) -> bool:
    """Tell whether a line begins with a machine being set to something."""
    words = [word for word in sentence.words if "article" not in word.tags][:4]
    lows = [word.low for word in words]
    machine = next((at for at, low in enumerate(lows) if low in _MACHINES), -1)
    said = any(one in _SETS for low in lows[: machine + 2] for one in low.split(" "))
    said = said or runs_hot(sentence)
    if machine < 0 or machine > 1 or not said:
        return False
    behind = sentence.words[sentence.words.index(words[machine]) + 1 :]
    return any(one.low.split(" ")[0] in _TO for one in behind[:3]) or any(
        one.sort is Sort.NUMBER for one in behind[:2]
    )


def runs_hot(sentence: Sentence) -> bool:
    """Tell whether a line begins with how hot a printer runs: nozzle at 245."""
    words = [word for word in sentence.words if "article" not in word.tags][:3]
    if len(words) < _LEAST or words[0].name or words[0].low not in _RUNS_HOT:
        return False
    figure = words[2] if words[1].low in _TO and len(words) > _LEAST else words[1]
    return figure.sort is Sort.NUMBER and not figure.has_decimals


def begins_with_settings(sentence: Sentence) -> bool:
    """Tell whether a line begins with how a machine ran, and tells of no part.

    Spindle 12000 rpm, feed 600; wire feed 4 m/min, 19 V: none of it was measured.
    """
    set_so = sentence.settings()
    end = next((at for at, word in enumerate(sentence.words) if word.low in ",;"), None)
    first = sentence.words[:end]
    plain = all(
        word in set_so or word.low in _MACHINES or word.tags & _AROUND for word in first
    )
    told = any(
        word.sort in (Sort.NUMBER, Sort.CODE) and word in first for word in set_so
    )
    read = sentence.has("is", "measure", "measure:past", "wanted", "off_strong")
    return plain and told and not read and not sentence.named("part")


_AROUND = frozenset({"tool", "article", "preposition", "filler", "material"})


_LEAST = 2
"""So many words it takes: which machine, and how hot."""


def runs_a_fan(sentence: Sentence) -> bool:
    """Tell whether a line sets the fan of a printer: fan 100 % from layer 2."""
    lows = {low for word in sentence.words for low in word.low.split(" ")}
    share = any(
        word.sort is Sort.NUMBER and word.dimension == "ratio"
        for word in sentence.words
    )
    prints = lows & sentence.lexicon.names["printing"]
    return bool(lows & {"fan", "fans"}) and bool(share or prints)
