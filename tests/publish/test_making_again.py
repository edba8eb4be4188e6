"""Every known fault answers whether one that is made has to be made again.

The scene is the copy stand; all of it is invented.
"""

from __future__ import annotations

import pytest

from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from tests.publish.errata_data import as_data
from tests.publish.stand import Stand, first_build, told

pytestmark = pytest.mark.xdist_group("publish")

TORN = "diffuser tore at the slot"


def torn(stand: Stand, *more: str, part: str = "diffuser") -> None:
    told(stand, "failure", part, TORN, "--met-by", "drawing", *more)


def again(stand: Stand) -> str:
    [fault] = [one for one in as_data(stand, "1.1")["faults"] if one["title"] == TORN]
    line = f"make it again?** {fault['remake'][:1].upper()}{fault['remake'][1:]}"
    assert line in stand.run("errata", "1.1", "--print")[1]
    said: str = fault["remake"]
    return said


def asked(stand: Stand) -> list[str]:
    lines = stand.look("check")[1].splitlines()
    return [one for one in lines if "has to be made again" in one]


def test_where_nobody_has_said_it_the_page_says_so_and_its_author_is_asked(
    stand: Stand,
) -> None:
    torn(stand)
    assert again(stand) == "nobody has said"
    [line] = [one for one in asked(stand) if one.startswith(TORN)]
    command = line.partition("logbook ")[2].partition(" (or")[0].split()
    told(stand, *command)
    assert again(stand) == "no"
    assert not [one for one in asked(stand) if one.startswith(TORN)]
    told(stand, "erratum", TORN, "--remake", "only if the slot is torn.")
    assert again(stand) == "only if the slot is torn"


@pytest.mark.parametrize(
    ("done", "answer"),
    [
        ("scrap", "nobody has said; diffuser-2 was scrapped"),
        ("use as is", "not needed so far: diffuser-2 was used as it is"),
        (
            "rework",
            "nobody has said; diffuser-2 was reworked, and how is not on record",
        ),
    ],
)
def test_what_was_done_with_the_piece_on_record_is_told(
    stand: Stand, done: str, answer: str
) -> None:
    torn(stand, "--do", done)
    assert again(stand) == answer
    told(stand, "failure", "diffuser", "diffuser tore through", "--met-by", "unknown")
    assert again(stand) == ("nobody has said" if done != "scrap" else answer)


def test_rework_yours_is_said_where_it_is_on_record_how(stand: Stand) -> None:
    torn(stand, "--do", "rework")
    told(stand, "dispose", TORN, "rework", "--because", "filed the slot round")
    assert again(stand) == "no, rework yours: diffuser-2 was reworked, not made again"


def test_what_is_bought_is_not_reworked_for_a_cure_that_takes_another(
    stand: Stand,
) -> None:
    torn(stand, "--do", "rework", "--cure", "take the flat one", part="lamp")
    page = stand.run("errata", "1.1", "--print")[1]
    assert "replace it?** Nobody has said; lamp-1 was reworked." in page
    assert "rework yours" not in page


def test_a_fault_of_the_papers_makes_nobody_make_anything_again(stand: Stand) -> None:
    torn(stand)
    told(stand, "erratum", TORN, "--severity", "document")
    assert again(stand) == "no: only what is written is wrong"


def test_what_is_bought_is_replaced_and_not_made_again(stand: Stand) -> None:
    [lamp] = stand.project.snapshot.named("lamp", Part)
    assert lamp.source is Source.BOUGHT
    torn(stand, "--do", "scrap", part="lamp")
    page = stand.run("errata", "1.1", "--print")[1]
    assert "- **You have one already: replace it?** Nobody has said; lamp-1" in page
    assert "  - Replace it? **Nobody has said; lamp-1 was scrapped.**" in page


def test_the_word_of_each_fault_of_a_part_stands_with_its_number(stand: Stand) -> None:
    torn(stand)
    bowed = "diffuser bowed in the heat"
    told(stand, "failure", "diffuser", bowed, "--met-by", "drawing")
    told(stand, "erratum", TORN, "--remake", "only if it is torn")
    page = stand.run("errata", "1.1", "--print")[1]
    numbers = [fault["title"] for fault in as_data(stand, "1.1")["faults"]]
    one, other = numbers.index(TORN) + 1, numbers.index(bowed) + 1
    said = {one: "only if it is torn", other: "nobody has said"}
    line = "; ".join(f"against fault {n} {said[n]}" for n in sorted(said))
    assert f"**A{line[1:]}.**" in page


def test_what_is_unchanged_and_has_a_known_fault_is_named_with_it(stand: Stand) -> None:
    torn(stand)
    told(stand, "release", "1.2", "--anyway")
    guide = stand.run("guide", "1.2", "--print")[1]
    came = guide.partition("## If you come from release 1.1")[2].partition("\n## ")[0]
    assert "- **Unchanged**: base, crossbar; " in came
    assert (
        f"- **Unchanged, with a known fault**: diffuser (known fault 1, {TORN}; "
        "make it again? nobody has said).\n"
    ) in came


def test_a_revision_its_fault_came_back_in_is_none_to_make_a_piece_to(
    stand: Stand,
) -> None:
    torn(stand, "--do", "use as is")
    because = ("--because", TORN, "--remake", "yes")
    told(stand, "revise", "diffuser", "--changed", "slot rounded", *because)
    told(stand, "piece", "diffuser")
    told(stand, "failure", "diffuser", f"{TORN} again", "--met-by", "drawing")
    said = stand.look("impact", "diffuser")[1]
    assert "look at it; not to diffuser rev B: what it was to cure is back: " in said
    assert "remake; diffuser rev B says so" not in said


@pytest.fixture
def half_cured(drawn: Stand) -> Stand:
    """Give a stand with one revision for two faults, of which one came back in it.

    Releases 1.0 and 1.01 have both faults, 1.1 the one that came back.
    """
    stand = drawn
    told(stand, "release", "1.0", "--anyway")
    first_build(stand)
    told(stand, "failure", "diffuser", WARPED, "--met-by", "drawing", "--do", "scrap")
    told(stand, "release", "1.01", "--anyway")
    because = ("--because", WARPED, "--because", "diffuser cracked at a corner screw")
    told(
        stand, "revise", "diffuser", "--changed", "thicker", "--remake", "yes", *because
    )
    stand.draw("diffuser", "9 mm from the edge")
    stand.commit_files("Make the diffuser thicker")
    told(stand, "revise", "diffuser", "--redrawn")
    told(stand, "piece", "diffuser")
    told(stand, "failure", "diffuser", f"{WARPED} again", "--met-by", "drawing")
    told(stand, "release", "1.1", "--anyway")
    return stand


WARPED = "diffuser warped in the heat"


def test_the_guide_says_yes_where_the_page_of_known_faults_does(
    half_cured: Stand,
) -> None:
    errata = half_cured.run("errata", "1.0", "--print")[1]
    assert "  - Make it again? **Yes.** Take diffuser rev A" in errata
    guide = half_cured.run("guide", "1.1", "--print")[1]
    against = (
        f"yes, against “diffuser cracked at a corner screw”; but it came back: {WARPED}"
    )
    coming = guide.partition("## If you come from release 1.01")[2]
    assert f"yours again?** diffuser: {against} again" in coming
    row = guide.partition("## What changed")[2]
    assert f"| first issue: {against} again" in row
    assert "not yet" not in row


def test_faults_of_one_unchanged_part_are_answered_as_on_their_page(
    half_cured: Stand,
) -> None:
    page = half_cured.run("errata", "1.01", "--print")[1]
    said = "yes, against fault 1; against this one nothing on record has held"
    assert f"make it again?** Y{said[1:]}" in page
    guide = half_cured.run("guide", "1.01", "--print")[1]
    [line] = [x for x in guide.split("\n") if x.startswith("- **Unchanged, with a")]
    assert line.endswith(f"known fault 2, {WARPED}; make it again? {said}).")
