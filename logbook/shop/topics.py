"""The topics of shop arithmetic, and the modules that hold their sums.

Each module has a tuple `SUMS`. This is the one list of them: a module named
here appears in the shell, in the app's form and in the manual.
"""

from __future__ import annotations

TOPICS: tuple[tuple[str, str], ...] = (
    ("bends", "blanks"),
    ("bends", "setup"),
    ("bends", "springback"),
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
    ("fasteners", "fasteners"),
    ("fasteners", "holes"),
    ("fasteners", "inserts"),
    ("fasteners", "rivets"),
    ("fasteners", "edges"),
    ("limits and fits", "limits"),
    ("limits and fits", "iso286"),
    ("limits and fits", "decision"),
    ("stack-ups", "chain"),
    ("stack-ups", "suit"),
    ("statistics", "statistics"),
    ("statistics", "tolerance_factor"),
    ("statistics", "control"),
    ("statistics", "gauge_study"),
    ("statistics", "gauge_bias"),
    ("uncertainty", "gum"),
    ("uncertainty", "instruments"),
    ("rounding", "rounding"),
)
"""Topic as shown, and the module in `logbook.shop` with its sums."""
