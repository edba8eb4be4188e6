"""What nobody said a part is made of is asked for where its cautions hang on it."""

from __future__ import annotations

from logbook.publish.signals import of_instruction, reminders
from tests.cli.shop import Shop

SAY = (
    "bracket: nobody has said what it is made of, so what to do about its known faults "
    "warns with “if it is aluminium"
)
HOW = 'say it: logbook part bracket --material "…"'
UNLESS = "Nobody has said what it is made of: what begins with “If it is” counts where"


def faulty(shop: Shop, cure: str) -> None:
    shop.logbook("start")
    told = ("hole 1 is too small", "--cure", cure, "--met-by", "drawing", "--do")
    shop.logbook("failure", "bracket", *told, "rework")


def test_release_and_check_ask_for_the_material_with_the_line(empty: Shop) -> None:
    faulty(empty, "drill it out to 5.2")
    assert SAY in empty.logbook("check").out
    released = empty.logbook("release", "1.0", "--anyway")
    assert SAY in released.out + released.err
    assert HOW in released.out + released.err
    assert empty.logbook("part", "bracket", "--material", "steel").code == 0
    assert SAY not in empty.logbook("check").out


def test_pages_say_what_the_if_stands_for_until_it_is_said(empty: Shop) -> None:
    faulty(empty, "drill it out to 5.2")
    empty.logbook("release", "1.0", "--anyway")
    for page in ("errata", "guide"):
        assert empty.logbook(page, "1.0", "--print").out.count(UNLESS) == 1
    empty.logbook("part", "bracket", "--material", "steel")
    assert UNLESS not in empty.logbook("errata", "1.0", "--print").out


def test_what_hangs_on_the_glue_asks_for_no_material(empty: Shop) -> None:
    faulty(empty, "glue it again")
    empty.logbook("part", "bracket", "--material", "PETG")
    assert "nobody has said what it is made of" not in empty.logbook("check").out
    empty.logbook("release", "1.0", "--anyway")
    page = empty.logbook("errata", "1.0", "--print").out
    assert "If it is epoxy or the like" in page
    assert UNLESS not in page


def test_a_thickness_alone_says_no_material() -> None:
    unsaid = {one.name for one in reminders(["drilling"])}
    assert {one.name for one in reminders(["drilling"], "2.0 mm thick")} == unsaid
    assert any(one.of_unsaid for one in of_instruction(["drill it"], "3/16 in thick"))
    steel = {one.name for one in reminders(["drilling"], "steel, 2.0 mm thick")}
    assert "drilled plastic" in unsaid - steel
