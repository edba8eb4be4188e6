"""What each holder reads: who has built a release, and who has begun nothing yet.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from tests.publish.bowed import CRACK, fault
from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

SOFT = "crossbar too soft"


def soft(stand: Stand, *more: str) -> None:
    """Let the crossbar be too soft as drawn, in the second build."""
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "scrap")
    told(stand, "failure", "crossbar", SOFT, *blame, *more)


UNTRIED = "- Make one of each untried part and see that it fits before you make more."


def begun_in(text: str) -> list[str]:
    """Give what who has begun nothing is told: a line, and short ones below it."""
    told = text.partition("**Nothing begun yet?** ")[2]
    lead, _, rest = told.partition("\n\n")
    return [lead, *rest.lstrip("\n").partition("\n\n")[0].splitlines()]


# -- nothing begun -----------------------------------------------------------------


def test_who_has_begun_nothing_is_told_which_release_and_what_has_no_cure(
    stand: Stand,
) -> None:
    soft(stand)
    for words in (("errata", "1.0"), ("guide", "1.0")):
        old = page(stand, *words)
        assert "**Nothing begun yet?** Take [release 1.1](../1.1/guide.md), not" in old
    for words in (("errata", "1.1"), ("guide", "1.1")):
        new = page(stand, *words)
        lead, *begun = begun_in(new)
        assert lead == (
            "Take this release, there is no newer one, with what is said against its "
            "1 known fault. Of it:"
        )
        assert begun == [
            "- Nobody has made yet: diffuser rev A.",
            f"- Nothing on record has cured yet: crossbar ({SOFT}).",
            UNTRIED,
        ]


def test_a_cure_that_did_not_hold_is_read_before_one_begins_too(stand: Stand) -> None:
    told(stand, "build", "build 2")
    again = ("failure", "diffuser", "diffuser cracked again", "--met-by", "drawing")
    told(stand, *again, "--do", "scrap")
    begun = begun_in(page(stand, "errata", "1.1"))
    assert "- No piece has held so far of diffuser rev A." in begun
    assert f"- Nothing on record has cured yet: diffuser ({CRACK})." in begun


def test_a_part_that_carries_others_is_not_to_be_left_but_reckoned_with(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "failure", "base", "base tore", "--met-by", "drawing", "--do", "scrap")
    begun = begun_in(page(stand, "guide", "1.1"))
    assert "- Nothing on record has cured yet: base (base tore)." in begun
    assert (
        "- Make the base at its step all the same, but reckon with making it again: "
        "fix to it only what comes off again (diffuser), and see whether it holds "
        "before you close anything over it." in begun
    )
    assert "last" not in " ".join(begun)


def test_parts_that_were_only_made_are_not_said_to_have_held(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    assert begun_in(page(stand, "errata", "1.1"))[1:] == [
        "- Every part was made, and no piece is on record as failed by its drawing.",
        "- Nobody has said yet of any part that it holds.",
    ]
    told(stand, "status", "diffuser-2", "still good")
    lines = begun_in(page(stand, "guide", "1.1"))
    assert "- Nobody has said yet that these hold: base first issue, crossb" in lines[2]
    assert "diffuser" not in lines[2]


def test_nothing_is_named_where_every_part_was_said_to_hold(stand: Stand) -> None:
    told(stand, "build", "build 2")
    for part in ("base", "crossbar", "diffuser"):
        told(stand, "piece", part)
        told(stand, "status", f"{part}-2", "still good")
    begun = begun_in(page(stand, "errata", "1.1"))
    assert begun[1:] == ["- Every part was made and has held."]


def test_a_piece_that_failed_is_named_though_a_later_one_was_made(
    stand: Stand,
) -> None:
    soft(stand)
    told(stand, "piece", "crossbar")
    told(stand, "piece", "diffuser")
    begun = begun_in(page(stand, "errata", "1.1"))
    assert begun[1] == (
        "- Every part was made. Not every piece held: crossbar first issue "
        "(crossbar-2 was scrapped)."
    )
    assert not any("has held" in line for line in begun)


# -- built already: in which order ---------------------------------------------------


def test_who_has_built_it_is_told_an_order_to_do_it_in(stand: Stand) -> None:
    soft(stand, "--cure", "saw it from steel bar")
    whole = page(stand, "errata", "1.0")
    assert "an order to do it in stands [below](#in-this-order)." in whole
    said = whole.partition("### In this order\n")[2]
    said = said.partition("\n## ")[0]
    assert (
        "1. Have ready before you take anything apart: washers, bought; "
        "diffuser rev A, made again."
    ) in said
    assert (
        "1. Go back from the last step, only as far as you have to:\n"
        "   - step 3 (Screw the diffuser on) for diffuser; by the words of this "
        "release it cannot be undone, so go back past it only where what stands "
        "above says how.\n"
        "   - step 2 (Fit the crossbar) for crossbar.\n"
    ) in said
    assert (
        "Before “Screw the diffuser on” (as release 1.1 has it) closes: inside: lamp "
        "cable; tested: lamp lights for ten minutes.\n"
    ) in said
    assert "Do not use" not in said


def test_one_thing_to_do_needs_no_order(stand: Stand) -> None:
    assert "### In this order" not in page(stand, "errata", "1.0")
    soft(stand)
    assert "### In this order" not in page(stand, "errata", "1.0")


def test_what_is_not_to_be_used_comes_first_and_what_no_step_names_last(
    stand: Stand,
) -> None:
    soft(stand, "--cure", "saw it from steel bar")
    told(stand, "erratum", CRACK, "--stop-using-until", "it has washers")
    told(stand, "part", "mask")
    told(stand, "erratum", "mask too dark", "--part", "mask", "--release", "1.0",
         "--do-this", "use grey card")  # fmt: skip
    said = page(stand, "errata", "1.0").partition("### In this order\n")[2]
    lines = [one for one in said.splitlines() if one.startswith("1. ")]
    assert lines[0] == "1. Do not use before it is done (STOP above): diffuser."
    assert "1. At any time, no step names it: mask." in lines


# -- the instruction and making it again ---------------------------------------------


@pytest.mark.parametrize(
    ("do", "beside"),
    [
        (
            "drill holes 9 mm in, oversize, pan heads",
            "the new one has what is said first",
        ),
        ("clamp it with a bar", "what is said first is for the one you have, until"),
        ("make diffuser rev A", ""),
    ],
)
def test_what_to_do_first_is_said_where_it_is_made_again_too(
    stand: Stand, do: str, beside: str
) -> None:
    told(stand, "erratum", CRACK, "--do-this", do)
    assert fault(stand, CRACK, "1.0")["beside"].startswith(beside)
    text = page(stand, "errata", "1.0")
    assert bool(fault(stand, CRACK, "1.0")["beside"]) is bool(beside)
    assert f"nobody has made it yet). {beside.capitalize() or 'Its file'}" in text


# -- the parts list --------------------------------------------------------------------


def test_a_part_called_tried_has_the_build_it_was_tried_in_beside_it(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    told(stand, "piece", "diffuser")
    told(stand, "build", "build 3")
    told(stand, "failure", "diffuser", "diffuser fell", "--met-by", "piece",
         "--do", "scrap")  # fmt: skip
    guide = page(stand, "guide", "1.1")
    row = next(one for one in guide.splitlines() if one.startswith("| diffuser, rev A"))
    assert "rev A, tried" in row
    assert "build 2: 1 made" in row


def test_a_stand_in_outside_the_limits_is_said_to_be_so(drawn: Stand) -> None:
    plates = ("3 mm sheet: untried", "4 mm acrylic sheet: works", "glass")
    tried = [word for one in plates for word in ("--substitute", one)]
    told(drawn, "line", "diffuser", "1", *tried)
    told(drawn, "revise", "diffuser", "--changed", "thickness drawn",
         "--dimension", "thickness=4.0")  # fmt: skip
    told(drawn, "guide", "--draft")
    text = drawn.read("as-built/published/draft/guide.md")
    out = "untried; outside the limits: thickness ±0.3 mm (ISO 2768-c)"
    rows = [one for one in text.splitlines() if one.startswith("| diffuser | ")]
    assert any(f"| 3 mm sheet | {out}" in one for one in rows)
    assert any(
        one.startswith("| diffuser | 4 mm acrylic sheet | works |") for one in rows
    )
    assert any(one.startswith("| diffuser | glass | not said |") for one in rows)


def test_what_failed_and_was_used_as_it_is_has_no_cure_either(stand: Stand) -> None:
    told(stand, "build", "build 2")
    blame = ("--met-by", "drawing", "--do", "use as is")
    told(stand, "failure", "crossbar", "crossbar split at its end", *blame)
    begun = begun_in(page(stand, "guide", "1.1"))
    line = "- Nothing on record has cured yet: crossbar (crossbar split at its end)."
    assert line in begun
    assert "making it again" not in " ".join(begun)
