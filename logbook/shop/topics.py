"""The topics of shop arithmetic, and the modules that hold their sums.

Each module has a tuple `SUMS`. This is the one list of them: a module named
here appears in the shell, in the app's form and in the manual.
"""

from __future__ import annotations

TOPICS: tuple[tuple[str, str], ...] = (
    ("bends", "bending.blanks"),
    ("bends", "bending.setup"),
    ("bends", "bending.wrong_line"),
    ("bends", "bending.springback"),
    ("bends", "bending.neutral_rules"),
    ("bends", "bending.coupon"),
    ("bends", "bending.least_radius"),
    ("sheet", "materials.sheet_gauges"),
    ("sheet", "materials.sheet_limits"),
    ("form", "measuring.form"),
    ("heat", "materials.growth"),
    ("heat", "materials.heat_margin"),
    ("heat", "materials.plastics"),
    ("wood", "materials.wood_movement"),
    ("wood", "materials.wood_figures"),
    ("coatings", "materials.coatings"),
    ("cutting and stock", "making.kerf"),
    ("cutting and stock", "making.nesting"),
    ("cutting and stock", "making.buying"),
    ("process", "making.process"),
    ("fasteners", "fastening.through_joints"),
    ("fasteners", "fastening.screw_lengths"),
    ("fasteners", "fastening.holes"),
    ("fasteners", "fastening.sinks"),
    ("fasteners", "fastening.inserts"),
    ("fasteners", "fastening.solid_rivets"),
    ("fasteners", "fastening.blind_rivets"),
    ("fasteners", "fastening.edges"),
    ("limits and fits", "fitting.limits"),
    ("limits and fits", "fitting.fits"),
    ("limits and fits", "fitting.accepting"),
    ("stack-ups", "chains.stacking"),
    ("stack-ups", "chains.formulas"),
    ("stack-ups", "chains.suit"),
    ("statistics", "measuring.means"),
    ("statistics", "measuring.outliers"),
    ("statistics", "measuring.tolerance_factor"),
    ("statistics", "measuring.control_constants"),
    ("statistics", "measuring.control"),
    ("statistics", "measuring.capability"),
    ("statistics", "measuring.gauge_study"),
    ("statistics", "measuring.gauge_bias"),
    ("uncertainty", "measuring.gum"),
    ("uncertainty", "measuring.instruments"),
    ("rounding", "measuring.rounding"),
)
"""Topic as shown, and the module in `logbook.shop` with its sums."""
