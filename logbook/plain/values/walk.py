"""The values found in a line, and how far the going through its words has come."""

from __future__ import annotations

from dataclasses import dataclass, field

from logbook.plain.understanding import Reading
from logbook.plain.words.figures import Word
from logbook.plain.words.sentence import Sentence
from logbook.quantity import Quantity

UNITS = {
    "angle": "°", "weak_angle": "°", "angle_or_length": "", "temperature": "°C",
    "mass": "", "torque": "N·m", "voltage": "V",
    "current": "A", "resistance": "Ω", "ratio": "%", "frequency": "Hz",
    "pressure": "", "force": "", "time": "", "sound": "dB", "illuminance": "lx",
    "rotation": "rpm",
}  # fmt: skip


@dataclass(slots=True)
class Values:
    """Every value found, the words that name it, and the words left over."""

    readings: list[Reading] = field(default_factory=list)
    wanted: list[Quantity] = field(default_factory=list)
    off: Quantity | None = None
    off_sense: str = ""
    conditions: list[Quantity] = field(default_factory=list)
    room: Quantity | None = None
    hours: Quantity | None = None
    minutes: Quantity | None = None
    material: str = ""
    instrument: str = ""
    guessed: list[Word] = field(default_factory=list)
    measures: list[Word] = field(default_factory=list)
    left_over: list[Word] = field(default_factory=list)
    unitless: str = ""


@dataclass(slots=True)
class Walk:
    """Where the going through a line stands: what is told of the next value.

    `sides` are the dimensions told behind values that have a name: a slot 4.4 wide.
    """

    sentence: Sentence
    values: Values = field(default_factory=Values)
    buffer: list[Word] = field(default_factory=list)
    what: str = ""
    place: str = ""
    behind: str = ""
    state: str = ""
    unit_before: str = ""
    preposition: str = ""
    wanted: bool = False
    wanted_at: int = -9
    reason: bool = False
    sides: dict[int, str] = field(default_factory=dict)

    def at(self, at: int) -> Word | None:
        """Give the word at a place, None outside the line."""
        return self.sentence.word(at)
