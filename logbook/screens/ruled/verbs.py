"""What can be done on a screen, said once: keys, key strip and help read it here."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from textual.binding import Binding, BindingType


@dataclass(frozen=True, slots=True)
class Verb:
    """Something the user can do; `key` may be remapped by the name `action`.

    `sent_as` is what some terminals send for the same key.
    """

    action: str
    label: str
    key: str
    purpose: str
    in_strip: bool = True
    before_line: bool = False
    """Whether its key does this even where the line would do something else by it."""
    sent_as: str = ""
    told: bool = False
    """Whether the screen itself tells the key where it does something."""


SHOWN = {
    "enter": "Enter", "escape": "Esc", "up": "↑", "down": "↓", "space": "Space",
    "pageup": "PgUp", "pagedown": "PgDn", "tab": "Tab", "left": "←", "right": "→",
}  # fmt: skip


def bindings(verbs: Iterable[Verb]) -> list[BindingType]:
    """Turn verbs into bindings, each with an id by which it can be remapped."""
    return [
        Binding(
            ",".join(filter(None, (verb.key, verb.sent_as))),
            verb.action,
            verb.label,
            show=verb.in_strip,
            tooltip=verb.purpose,
            id=verb.action,
            priority=verb.before_line,
        )
        for verb in verbs
    ]


def shown_key(key: str) -> str:
    """Give a key as it is printed on a keyboard."""
    if key in SHOWN:
        return SHOWN[key]
    if key.startswith("ctrl+"):
        return f"Ctrl-{key[5:].upper()}"
    if key.startswith("shift+"):
        return f"Shift-{shown_key(key[6:])}"
    return key.upper() if key[0] == "f" and key[1:].isdigit() else key


KEYS = Verb("keys", "keys", "f1", "Show every key of this screen, and do one.")
FIND = Verb("find", "find", "f2", "Find any record by words or by a number.")
MEASURE = Verb("measure", "measure", "f3", "Measure a piece, one size after another.")
BUILD = Verb("next_build", "build", "f4", "Go on with the next build.")
NEW_BUILD = Verb(
    "new_build", "new build", "f12", "Begin a build; or say: start build 3.", False
)
GRID = Verb(
    "grid", "batch", "f5", "Measure a batch: one size across all pieces.", False
)
PHOTO = Verb(
    "photo", "photo", "f6", "Link the newest photo to the row or last entry.", False
)
MOVE = Verb(
    "to_build", "move", "f7", "Move the row or last entry to another build.", False
)
GO_ON = Verb("go_on", "go on past", "ctrl+g", "Go on past what waits.", False)
CLOCK = Verb(
    "clock", "clock", "ctrl+t", "Start, pause or stop the clock on a step.", False
)
ANSWER = Verb("answer", "answer", "ctrl+o", "Answer what the entry suggests.", False)
INBOX = Verb("inbox", "inbox", "ctrl+l", "Sort what the phone has sent.", False)
REBUILD = Verb(
    "rebuild", "rebuild", "ctrl+y", "Before a rebuild: what applies to it.", False
)
UNDO = Verb("undo", "undo", "f8", "Take back what was logged last.")
BRING_BACK = Verb(
    "bring_back", "bring back", "shift+f8",
    "Bring back what was taken back last; a Linux console calls the key F20.",
    False, sent_as="f20",
)  # fmt: skip
SUMS = Verb("sums", "sums", "f10", "Work out a sum of the shop.", False)
LIGHT = Verb("light", "light", "f9", "Change between slate and paper.", False)
PART = Verb("part", "part", "ctrl+p", "Look at a part: all that is known of it.", False)
GAPS = Verb("gaps", "gaps", "ctrl+b", "Look at gaps and joints, and what if.", False)
CLIMATE = Verb(
    "climate", "climate", "f11", "Look at what warmth and damp do to the parts.", False
)
STEPS = Verb("steps", "steps", "ctrl+n", "Work through the order of work.", False)
NO_PART = Verb(
    "no_part", "no part", "f7", "It is no part, another one, or withdrawn.", False
)
REVISE = Verb("revise", "revise", "ctrl+r", "Revise a part from its entries.", False)
UNDECIDED = Verb(
    "undecided",
    "undecided",
    "tab",
    "See what nobody has decided on, and open it.",
    False,
)
LEAVE = Verb("leave", "leave", "ctrl+q", "Leave; everything taken is on disk.")
BACK = Verb("back", "back", "escape", "Go back to where you came from.")
SHEET = Verb("job_sheet", "job sheet", "ctrl+s", "Type in a printed job sheet.", False)
STOP = Verb(
    "stop", "stop", "ctrl+z", "Stop the long work the band speaks of.", False, told=True
)
RELEASE = Verb(
    "release", "release", "ctrl+e", "Put out a release, and write its pages.", False,
    before_line=True,
)  # fmt: skip
IN_FULL = Verb(
    "in_full", "in full", "ctrl+f", "Read in full what is cut here.", False, True
)
EVERYWHERE = (KEYS, FIND, replace(SUMS, in_strip=True), IN_FULL, LIGHT, LEAVE, STOP)
"""What works on every screen that shows records."""
LINE_BACK = replace(
    UNDO,
    action="line_back",
    label="line back",
    purpose="Bring back what was typed here before.",
    in_strip=False,
)
IN_LISTS = (KEYS, IN_FULL, LIGHT, LEAVE, LINE_BACK, STOP)
"""What works while one of many is chosen."""
