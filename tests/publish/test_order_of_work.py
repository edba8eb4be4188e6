"""In which order to go back: what is replaced, reworked, on top, or closed for good.

The scene is the copy stand; its bolts and failures are invented.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds import assembling
from logbook.records.kinds.design import Part
from tests.publish.stand import Stand, page, told

pytestmark = pytest.mark.xdist_group("publish")

SHORT = "the M5x16 does not reach"


@pytest.fixture
def bolted(stand: Stand) -> Stand:
    """Give a stand whose 1.2 has a bolt in step 2, and in 1.3 another in its place."""
    told(stand, "part", "M5x16", "--source", "bought")
    told(stand, "line", "M5x16", "2")
    draft = stand.begin()
    fit = draft.snapshot.lookup("Fit the crossbar", assembling.Step)
    bolt = draft.snapshot.lookup("M5x16", Part)
    draft.amend(replace(fit, uses=(*fit.uses, bolt.ref)))
    stand.keep(draft, "step: the bolt")
    told(stand, "release", "1.2", "--anyway")
    failed = ("failure", "M5x16", SHORT, "--met-by", "drawing")
    told(stand, *failed, "--cure", "take M5x20", "--do", "scrap")
    told(stand, "part", "M5x20", "--source", "bought")
    told(stand, "line", "M5x16", "0")
    told(stand, "line", "M5x20", "2")
    told(stand, "release", "1.3", "--anyway")
    told(stand, "erratum", SHORT, "--fixed-by", "M5x20 first issue", "--remake", "yes")
    told(stand, "failure", "base", "base rocks", "--met-by", "drawing", "--cure",
         "file the corner")  # fmt: skip
    return stand


def test_another_bolt_is_got_and_goes_in_where_the_old_one_was(bolted: Stand) -> None:
    text = page(bolted, "errata", "1.2")
    assert "  - Take the M5x20? **Yes.** Take M5x20 (release 1.3; untried: " in text
    assert "nothing on record shows it in use yet" in text
    assert "again" not in text.partition("  - Take the M5x20?")[2].partition("\n")[0]
    order = text.partition("### In this order")[2].partition("\n## ")[0]
    assert "Have ready before you take anything apart: M5x20, bought." in order
    assert "step 2 (Fit the crossbar) for M5x16" in order
    assert "no step names it" not in order


def test_a_screw_that_a_cure_names_is_got_ready_listed_or_not(bolted: Stand) -> None:
    for name, sized in (("cover rocks", "M3x6"), ("lid rocks", "M4x12")):
        told(bolted, "failure", "crossbar", name, "--met-by", "drawing", "--cure",
             f"take {sized} instead")  # fmt: skip
    told(bolted, "part", "M4x12", "--source", "bought")
    told(bolted, "line", "M4x12", "2")
    order = page(bolted, "errata", "1.2").partition("### In this order")[2]
    ready = order.partition("Have ready before you take anything apart: ")[2]
    got = ready.partition(", bought")[0].split(", ")
    assert sorted(got) == ["M3x6", "M4x12", "M5x20"]


def test_what_is_on_top_is_named_and_what_cannot_be_undone_too(bolted: Stand) -> None:
    order = page(bolted, "errata", "1.2").partition("### In this order")[2]
    assert (
        "   - step 3 (Screw the diffuser on): off first, where it is in the way; by "
        "the words of this release it cannot be undone, so go back past it only"
    ) in order


def test_what_is_made_again_only_if_is_gone_back_for_only_if(stand: Stand) -> None:
    failed = ("failure", "crossbar", "crossbar rattles", "--met-by", "drawing")
    told(stand, *failed, "--cure", "a longer bar")
    told(stand, "erratum", "crossbar rattles", "--remake", "only if it is loose")
    order = page(stand, "errata", "1.0").partition("### In this order")[2]
    assert "(Fit the crossbar) for crossbar (only if it is loose)" in order


def test_a_part_is_gone_back_for_where_what_its_cure_names_goes_in(
    stand: Stand,
) -> None:
    failed = ("failure", "base", "base rocks at the crossbar", "--met-by", "drawing")
    told(stand, *failed, "--cure", "a felt under the crossbar")
    draft = stand.begin()
    close = draft.snapshot.lookup("Screw the diffuser on", assembling.Step)
    base = draft.snapshot.lookup("base", Part)
    draft.amend(replace(close, uses=(*close.uses, base.ref)))
    stand.keep(draft, "step: the base too")
    told(stand, "release", "1.2", "--anyway")
    told(stand, "failure", "lamp", "lamp flickers", "--met-by", "drawing", "--cure",
         "solder it")  # fmt: skip
    order = page(stand, "errata", "1.2").partition("### In this order")[2]
    assert "step 2 (Fit the crossbar) for base" in order


# -- for who has begun nothing -----------------------------------------------------


def test_taking_a_release_with_faults_is_taking_what_is_said_against_them(
    bolted: Stand,
) -> None:
    newest = page(bolted, "guide", "1.3")
    assert (
        "there is no newer one, with what is said against its 1 known fault." in newest
    )
    older = page(bolted, "guide", "1.0")
    assert "not this one, and do what its page of known faults says. Of that" in older


def test_a_part_built_in_with_no_piece_on_record_is_not_said_to_be_unmade(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    checked = ("--inside", "lamp cable", "--tested", "lamp lights for ten minutes")
    told(stand, "step", "Screw the diffuser on", "--done", *checked)
    guide = page(stand, "guide", "1.1")
    assert "Nobody has made yet: diffuser" not in guide
    done = "though “Screw the diffuser on” was done in build 2."
    assert f"- No piece on record of diffuser rev A, {done}" in guide


@pytest.mark.parametrize(
    ("where", "said"),
    [
        ("under the lamp", "under the lamp"),
        ("third corner screw", "at the third corner screw"),
        ("the left lip", "at the left lip"),
    ],
)
def test_a_place_is_told_with_its_own_small_words(
    stand: Stand, where: str, said: str
) -> None:
    failed = ("failure", "base", "base bowed", "--where", where)
    told(stand, *failed, "--met-by", "drawing")
    text = page(stand, "errata", "1.1")
    assert f"- **What was seen, and why**: {said}." in text


def test_a_time_that_leaves_out_a_step_says_which(stand: Stand) -> None:
    told(stand, "build", "build 2")
    told(stand, "step", "Fold the base", "--done", "--time", "30 min")
    told(stand, "step", "Fit the crossbar", "--done")
    guide = page(stand, "guide", "1.1")
    untimed = "(as said; no time is on record of: Fit the crossbar)"
    assert f"build 2 took about 30 min so far {untimed}" in guide
