"""Work told in a row of verbs, and what else such a row may tell."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import of_parts

WORDS = of_parts("tray", "handle", "rotor", "hood", "pump", "strap")


@pytest.mark.parametrize(
    "says",
    [
        "Tray primed, rubbed down and given two coats of blue.",
        "handle turned, sanded and waxed",
        "the rotor was bored, faced and balanced",
        "hood peeled, wiped and put on",
        "Pump unplugged, cleaned and plugged in again.",
        "strap punched, riveted and oiled",
        "Rotor annealed, bent and hardened again.",
        "Hood bolted down, shimmed level and sealed.",
        "Pressed two bushings into the rotor and reamed them to 10 mm.",
        "fitted the handle and slipped it on the shaft",
        "the tray is painted on both sides",
    ],
)
def test_a_row_of_verbs_is_work_done(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.STEP, Verdict.TAKEN)


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("strap stuck to the hood and tore", Kind.FAILURE),
        ("tray split, glued and clamped it", Kind.FAILURE),
        ("handle bent and cracked", Kind.FAILURE),
        ("the handle is bent at the end", Kind.FAILURE),
        ("tray is painted on the wrong side", Kind.FAILURE),
        ("rotor straightened and balanced", Kind.DISPOSITION),
        ("hood sanded and scrapped", Kind.DISPOSITION),
    ],
)
def test_a_row_with_another_fact_in_it_is_not_taken_for_work(
    says: str, kind: Kind
) -> None:
    line = understand(says, WORDS)
    assert line.kind is kind or line.verdict is not Verdict.TAKEN


@pytest.mark.parametrize(
    "says",
    [
        "Handle bent back from 88.2 to 90.0 degrees and kept.",
        "rotor skimmed by 0.2 and refitted",
        "sawed the bad end off the handle and used it anyway",
        "pulled the dent out of the hood with a suction cup",
        "scratch polished out of the tray",
        "Kink in the strap hammered flat.",
        "knocked the twist out of the handle",
        "Strap trimmed by a hair, drops in now.",
        "rotor turned down to match the old one, fits now",
    ],
)
def test_what_was_amiss_and_put_right_was_reworked(says: str) -> None:
    line = understand(says, WORDS)
    assert line.kind is Kind.DISPOSITION
    assert line.facts.disposition in ("rework", "repair")


@pytest.mark.parametrize(
    "says",
    [
        "knocked the pin out of the rotor",
        "the tray was kept in the dark",
        "dent in the hood, too late to get it out",
    ],
)
def test_what_only_came_out_was_not(says: str) -> None:
    line = understand(says, WORDS)
    taken = line.verdict is Verdict.TAKEN
    assert not (taken and line.kind is Kind.DISPOSITION)


@pytest.mark.parametrize(
    "says",
    [
        "small scratch on the tray, leaving it",
        "hood 2 kept, run in the paint is at the back",
        "dent in the pump, leave it",
        "the dent in the hood stays where it is",
    ],
)
def test_what_is_amiss_and_left_is_used_as_it_is(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert line.facts.disposition == "use as is"
