"""What is amiss and told to be left so is used as it is, however that is said."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.happenings import Disposal
from logbook.records.kinds.words import Disposition
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("hull", "bonnet", "drawer", "mask", "collar", "grille")


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("leave the planing marks on the hull, they are under the water", "hull"),
        ("leave the seam on the bonnet, the strap covers it", "bonnet"),
        ("leave the haze on the mask, it faces the lamp", "mask"),
        ("keep the file marks on the collar, the grille hides them", "collar"),
        ("leave the gap at the drawer, only a hair gets in", "drawer"),
        ("not fixing that dent in the bonnet", "bonnet"),
        ("not redoing the crooked hem on the mask, nobody looks there", "mask"),
        ("not sanding out the run on the hull", "hull"),
        ("scratched bonnet stays on, it faces the wall", "bonnet"),
        ("we leave the overspray inside the drawer, it never shows", "drawer"),
    ],
)
def test_a_flaw_left_on_a_part_makes_it_used_as_it_is(says: str, part: str) -> None:
    told = understand(says, WORDS)
    assert (told.verdict, told.facts.part) == (Verdict.TAKEN, part)
    made = drafted(told, world(known(WORDS)))
    [disposal] = [one for one in made if isinstance(one, Disposal)]
    assert disposal.disposition is Disposition.USE_AS_IS


def test_what_hides_it_is_not_the_part_that_is_left() -> None:
    told = understand("leave the turned edge, the mask hides it", WORDS)
    assert (told.kind, told.verdict) == (Kind.DECISION, Verdict.TAKEN)
    assert (told.facts.part, told.facts.disposition) == ("", "use as is")


def test_a_part_never_heard_of_is_asked_about_and_a_coat_is_none() -> None:
    asked = understand("leave the seam on the head, the wig hides it", WORDS)
    assert asked.question is not None
    assert asked.question.choices == ("head", "no part")
    coat = understand("leave the drip in the lacquer, it faces the wall", WORDS)
    assert (coat.verdict, coat.facts.part) == (Verdict.TAKEN, "")
    assert coat.facts.disposition == "use as is"


@pytest.mark.parametrize(
    "says",
    [
        "leave the grille off until the hull is dry",
        "leave the stain on for an hour",
        "leave the collar rough, it gets glued",
        "leave the drip tray under the hull",
        "leave a gap at the drawer",
    ],
)
def test_what_is_left_otherwise_is_no_flaw(says: str) -> None:
    told = understand(says, WORDS)
    taken = told.verdict is Verdict.TAKEN
    assert not (taken and told.facts.disposition)
