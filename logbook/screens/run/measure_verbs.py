"""What can be done in a measuring run; the batch and the job sheet share some."""

from __future__ import annotations

from dataclasses import replace

from logbook.screens.ruled import verbs

TAKE = verbs.Verb(
    "take",
    "take, next",
    "enter",
    "Take the reading, go to the next; left 178.6 or @jig 178.6 names its place.",
)
BACK_ONE = verbs.Verb("walk(-1)", "back", "up", "Go back to the size before.")
ON_ONE = verbs.Verb("walk(1)", "on", "down", "Pass over this size.")
DEVIATION = verbs.Verb(
    "deviation", "deviation", "f6", "Log the reading off drawing as a deviation."
)
ORDER = verbs.Verb(
    "order",
    "order",
    "f4",
    "Walk in drawing order, or most doubtful first.",
    in_strip=False,
)
STRAY = verbs.Verb(
    "stray",
    "no such size",
    "f5",
    "Give the readings of a size made by a slip to the one meant, or take it away.",
    in_strip=False,
)
WITH = verbs.Verb(
    "instrument", "instrument", "f7", "Choose what is measured with.", in_strip=False
)
ROOM = verbs.Verb(
    "room",
    "room",
    "f11",
    "Tell how warm the room is, and after how long a temperature is read.",
    in_strip=False,
)
BACK_IN_RUN = replace(
    verbs.UNDO, purpose="Take back what was taken last, if it was taken in this run."
)
REST = verbs.Verb("back", "end it", "escape", "End the run and go back; git takes it.")
