"""Parts nobody has named yet, in a project that has its parts; and what is no part.

The lines are invented; what is a part of its own and what is not is common practice.
"""

from __future__ import annotations

from datetime import timedelta

import pytest

from logbook.plain.drafts.entries import draft_line
from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Understanding, Verdict
from logbook.plain.words.vocabulary import Vocabulary
from logbook.records.kinds.design import Part
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot
from tests.plain.fresh import DEMO
from tests.plain.judge import NOW, PROJECT

BOTH = pytest.mark.parametrize("words", [PROJECT, DEMO], ids=["hand", "demo"])


def made(line: Understanding, words: Vocabulary) -> set[str]:
    """Give the parts that taking the line would make."""
    draft = Draft(Snapshot({}), NOW + timedelta(hours=1))
    for part in words.parts:
        draft.new_part(part)
    before = len(draft.new)
    draft_line(draft, line)
    return {one.title for one in draft.new[before:] if isinstance(one, Part)}


def offered(line: Understanding) -> tuple[str, ...]:
    """Give what is offered as the part, nothing where it is not asked."""
    asks = [one for one in line.doubts if one.needed and one.about == "part"]
    return asks[0].choices if asks else ()


@BOTH
@pytest.mark.parametrize(
    ("says", "kind", "part"),
    [
        ("The sash cracked while I was hanging it, cause: a bent nail.",
         Kind.FAILURE, "sash"),
        ("hose leaked at the nipple, one more turn of the clamp cured it",
         Kind.FAILURE, "hose"),
        ("strap tore at the buckle", Kind.FAILURE, "strap"),
        ("Hook snapped as soon as I hung the coat on it.", Kind.FAILURE, "hook"),
        ("crack in the transom after the second launch", Kind.FAILURE, "transom"),
        ("paddle split along the grain", Kind.FAILURE, "paddle"),
        ("relay chatters at switch-on", Kind.FAILURE, "relay"),
        ("The gudgeon sheared at the neck.", Kind.FAILURE, "gudgeon"),
        ("Sash bedded in putty and pinned.", Kind.STEP, "sash"),
        ("wired up the dimmer, 15 min", Kind.STEP, "dimmer"),
        ("Glued and clamped the back panel on.", Kind.STEP, "back panel"),
        ("sealed up the duct with a bead of mastic", Kind.STEP, "duct"),
        ("the humming dimmer goes back to the shop", Kind.DISPOSITION, "dimmer"),
        ("returned the pump to the seller, seal torn", Kind.DISPOSITION, "pump"),
        ("paddle 1480 long, drawn as 1500", Kind.READING, "paddle"),
        ("motor draws 1.2 A", Kind.READING, "motor"),
        ("drawer sits 1.5 proud", Kind.READING, "drawer"),
        ("flywheel weighs 412 g", Kind.READING, "flywheel"),
        ("strap too short by 40", Kind.READING, "strap"),
        ("soldered the coil to its terminals", Kind.STEP, "coil"),
        ("lens fogged up", Kind.FAILURE, "lens"),
        ("panel bowed as soon as the clamps came off", Kind.FAILURE, "panel"),
        ("The tang broke off.", Kind.FAILURE, "tang"),
        ("router guard melted where the chips pile up", Kind.FAILURE, "router guard"),
        ("glued cap shut", Kind.STEP, "cap"),
        ("faced and reamed the pins", Kind.STEP, "pin"),
        ("the plug shrank and fell out", Kind.FAILURE, "plug"),
        ("Pressure in the pipe held at 1.8 bar for an hour.", Kind.READING, "pipe"),
    ],
)  # fmt: skip
def test_a_thing_told_of_is_made(
    words: Vocabulary, says: str, kind: Kind, part: str
) -> None:
    line = understand(says, words)
    assert line.verdict is Verdict.TAKEN, line.doubts
    assert (line.kind, line.facts.part, line.facts.part_is_new) == (kind, part, True)
    assert made(line, words) == {part}


@pytest.mark.parametrize(
    ("says", "kind"),
    [
        ("pilot drilled, then tapped M5", Kind.STEP),
        ("crimp pulled out with a light tug", Kind.FAILURE),
        ("knot dropped out under the cutter", Kind.FAILURE),
        ("the rebate split along its whole length", Kind.FAILURE),
        ("jig slipped and the slot is off", Kind.FAILURE),
        ("nozzle clogged halfway through", Kind.FAILURE),
        ("spaghetti at 60 %", Kind.FAILURE),
        ("the cat knocked the varnish over", Kind.FAILURE),
        ("neighbour broke my rule of not drilling on sundays", Kind.NOTE),
        ("acrylic crazed round the screw", Kind.FAILURE),
        ("the glue joint came apart, though the clamps had stayed on", Kind.FAILURE),
        ("blew the fuse the moment I plugged it in", Kind.FAILURE),
        ("tape let go overnight", Kind.FAILURE),
        ("filed off the burr", Kind.STEP),
        ("drilled the vent holes 3.5", Kind.STEP),
        ("going round in circles with this finish", Kind.NOTE),
        ("5 Nm on the hinge bolt before it slips", Kind.READING),
        ("solder joint broke at the switch", Kind.FAILURE),
        ("lens of the camera fogged in the cold", Kind.FAILURE),
        ("speaker in the shop blew, working without music", Kind.FAILURE),
        ("the platter of the scale reads 3 g high", Kind.READING),
        ("The wheel of the grinder shattered.", Kind.FAILURE),
        ("battery in the caliper died, borrowed one", Kind.FAILURE),
        ("The ash plank reads 9 percent moisture.", Kind.READING),
        ("ferrules on every stranded end from now on", Kind.DECISION),
        ("hex socket rounded out", Kind.FAILURE),
    ],
)
@BOTH
def test_what_is_no_part_is_never_made_one(
    words: Vocabulary, says: str, kind: Kind
) -> None:
    """Features, tools, machines, stuff, people and idle nouns."""
    line = understand(says, words)
    taken = line.verdict is Verdict.TAKEN
    assert not taken or made(line, words) == set()
    assert not taken or line.kind.broad is kind or line.kind is Kind.NOTE


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("hingge broke off", "hinge"),
        ("pannel cracked along the grain", "panel"),
        ("suport fused to the plate", "support"),
        ("glued the pannel in", "panel"),
        ("ladderr snapped", "ladder"),
    ],
)
def test_a_slip_in_the_noun_of_a_thing_is_put_right(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.facts.part) == (Verdict.TAKEN, part)


@pytest.mark.parametrize("says", ["wired the dimmer baord", "flashed the motor baord"])
def test_a_new_name_with_a_slip_in_it_is_offered_first_and_not_made(says: str) -> None:
    assert offered(understand(says, PROJECT))[0].endswith(" board")


@pytest.mark.parametrize("says", ["strand snapped", "crease in it", "stray noise"])
def test_another_word_is_no_slip_of_a_thing(says: str) -> None:
    assert not {"stand", "crate", "tray"} & {
        understand(says, PROJECT).facts.part,
        *offered(understand(says, PROJECT)),
    }


def test_where_a_range_was_read_is_of_both_its_ends() -> None:
    line = understand("ripple 110 to 170 mV on the supply", PROJECT)
    assert [(one.value.text, one.place) for one in line.facts.readings] == [
        ("110 mV", "smallest supply"),
        ("170 mV", "largest supply"),
    ]


@pytest.mark.parametrize(
    "says",
    ["though it cracked", "hadnt clamped it, it moved", "up went the whole thing"],
)
def test_what_is_no_noun_is_never_offered_as_a_part(says: str) -> None:
    assert not {"though", "hadnt", "up"} & {*offered(understand(says, PROJECT))}


@BOTH
@pytest.mark.parametrize(
    ("says", "what", "place", "value"),
    [
        ("supply reads 12.1 V under load", "supply", "", "12.1 V"),
        ("rail 4.97 V", "rail", "", "4.97 V"),
        ("The supply voltage is 23.9 V.", "supply voltage", "", "23.9 V"),
        ("heater strip draws 3.4 A", "heater strip", "", "3.4 A"),
        ("resistor measures 468 ohm", "resistor", "", "468 ohm"),
        ("4.9 V at the plug", "voltage", "plug", "4.9 V"),
        ("voltage at the plug 4.9 V", "voltage", "plug", "4.9 V"),
    ],
)
def test_a_point_of_a_circuit_is_no_part(
    words: Vocabulary, says: str, what: str, place: str, value: str
) -> None:
    line = understand(says, words)
    assert (line.verdict, line.kind) == (Verdict.TAKEN, Kind.READING)
    assert made(line, words) == set()
    found = [(one.what, one.place, one.value.text) for one in line.facts.readings]
    assert found == [(what, place, value)]


def test_a_slip_of_a_known_name_is_asked_about_and_no_point_of_a_circuit() -> None:
    assert "diffuser" in offered(understand("the difuserr cracked", PROJECT)) or (
        understand("the difuserr cracked", PROJECT).facts.part == "diffuser"
    )
    lamp = understand("lammp draws 0.4 A", PROJECT)
    assert "lamp" in (*offered(lamp), lamp.facts.part)
    assert made(lamp, PROJECT) == set() or lamp.verdict is Verdict.ASKED


def test_a_verb_nobody_knows_is_no_word_of_a_name() -> None:
    line = understand("belt squirms a tooth, belt jumps too", PROJECT)
    assert not {"belt squirm", "belt jump"} & {*offered(line), line.facts.part}
    line = understand("motor judders at half speed", PROJECT)
    assert "motor judder" not in {*offered(line), line.facts.part}


@pytest.mark.parametrize(
    "says",
    ["two uprights split at the bottom", "uprights split at the bottom",
     "left pane chipped", "capacitor bulged"],
)  # fmt: skip
def test_places_several_and_what_is_bought_by_the_bag_are_asked_about(
    says: str,
) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is not Verdict.TAKEN or made(line, PROJECT) == set()


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("Cork under the base got wet and swelled.", "base"),
        ("felt behind the mask came loose", "mask"),
        ("paint under the lid blistered", "lid"),
        ("glue under the bed let go", "bed"),
    ],
)
def test_what_lies_under_a_part_is_told_of_that_part(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    assert line.verdict is Verdict.TAKEN
    assert (line.kind, line.facts.part) == (Kind.FAILURE, part)


@pytest.mark.parametrize(
    "says", ["veneer by the lamp lifted", "plate under the bed cracked"]
)
def test_what_only_lies_near_a_part_is_asked_about(says: str) -> None:
    assert offered(understand(says, PROJECT))


@pytest.mark.parametrize("how", ["anew", "afresh"])
def test_how_a_thing_was_made_once_more_is_no_part_of_its_name(how: str) -> None:
    line = understand(f"soldered the dimmer {how}, it lights", PROJECT)
    assert line.facts.part == "dimmer"
