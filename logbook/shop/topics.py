"""The topics of shop arithmetic, and the modules that hold their sums.

Each module has a tuple `SUMS`. This is the one list of them: a module named
here appears in the shell, in the app's form and in the manual.
"""

from __future__ import annotations

TOPICS: tuple[tuple[str, str], ...] = (
    ("bends", "blanks"),
    ("bends", "setup"),
    ("bends", "neutral"),
    ("bends", "radii"),
    ("sheet", "sheet"),
    ("form", "form"),
    ("heat", "heat"),
    ("wood", "wood"),
    ("coatings", "coatings"),
    ("cutting and stock", "kerf"),
    ("cutting and stock", "nesting"),
    ("cutting and stock", "buying"),
    ("process", "process"),
)
"""Topic as shown, and the module in `logbook.shop` with its sums."""
