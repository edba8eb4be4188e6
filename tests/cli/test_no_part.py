"""A part that came to be by a slip goes; one typed under two names is joined."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.shop import Shop

SLIP = "window, shell"


def files(shop: Shop) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in shop.folder.rglob("as-built/**/*.md")}


def done(shop: Shop, *words: str) -> str:
    said = shop.logbook(*words)
    assert said.code == 0, said.err
    return said.out


def whole(shop: Shop) -> bool:
    return "0 problems" in done(shop, "check")


def test_a_slip_goes_with_all_the_program_made_of_it_and_comes_back(shop: Shop) -> None:
    before = files(shop)
    done(shop, "part", SLIP, "--new")
    done(shop, "line", SLIP, "0")
    done(shop, "piece", SLIP)
    build = {path for path in files(shop) if "builds" in path.parts}
    made = files(shop)
    said = done(shop, "part", SLIP, "--no-part")
    assert "taken away: piece window, shell-1" in said
    assert files(shop).keys() == before.keys() | build
    assert whole(shop)
    done(shop, "undo")
    assert files(shop) == made


def test_the_line_that_only_made_it_a_part_goes_too(shop: Shop) -> None:
    done(shop, "say", "--yes", "part board")
    done(shop, "part", "board", "--no-part")
    assert not any(shop.records(kind) for kind in ("parts", "revisions", "notes"))


@pytest.mark.parametrize(
    ("words", "named"),
    [
        (("measure", SLIP, "length", "40.1"), "window, shell-1 length 40.1"),
        (("failure", SLIP, "it cracked"), "it cracked"),
        (("part", SLIP, "--material", "PETG"), SLIP),
        (("part", SLIP, "--dimension", "length=40.0"), "length"),
        (("step", "paint it", "--uses", SLIP), "paint it"),
        (("revise", SLIP, "--changed", "thinner", "--remake", "no"), "rev A"),
    ],
    ids=["reading", "failure", "material", "drawn", "step", "revision"],
)
def test_what_was_said_of_it_is_never_lost(
    shop: Shop, words: tuple[str, ...], named: str
) -> None:
    done(shop, "part", SLIP, "--new")
    done(shop, *words)
    before = files(shop)
    said = shop.logbook("part", SLIP, "--no-part")
    assert said.code == 3
    assert named in said.err
    assert "--same-as" in said.err
    assert files(shop) == before


def test_words_that_tell_something_without_it_may_stay(shop: Shop) -> None:
    done(shop, "part", SLIP, "--new")
    done(shop, "failure", SLIP, "the paint ran")
    [failure] = shop.records("failures")
    said = done(shop, "part", SLIP, "--no-part", "--entries-stay")
    assert "stays, of no part: the paint ran" in said
    assert SLIP not in failure.read_text()
    assert "the paint ran" in failure.read_text()
    assert whole(shop)


def test_a_reading_cannot_stay_without_its_part(shop: Shop) -> None:
    done(shop, "measure", SLIP, "length", "40.1", "--new")
    said = shop.logbook("part", SLIP, "--no-part", "--entries-stay")
    assert said.code == 3
    assert "is nothing without" in said.err
    assert "--entries-stay" not in said.err


@pytest.fixture
def two_names(shop: Shop) -> Shop:
    """One bar, measured under two names, of which a gap names the second."""
    done(shop, "measure", "crossbar", "length", "178.5")
    done(shop, "measure", "cross bar", "length", "178.4", "--new")
    done(shop, "line", "cross bar", "1")
    limits = ("--limits", "0.1 to 0.5", "--last", "cross_bar.length")
    done(shop, "gap", "bar in it", "base.opening - cross_bar.length", *limits)
    return shop


def test_a_part_of_two_names_is_one_with_all_that_was_said(two_names: Shop) -> None:
    before = files(two_names)
    said = done(two_names, "part", "cross bar", "--same-as", "crossbar")
    assert "cross bar-1 is now crossbar-2" in said
    assert "settle --one-piece crossbar-1 crossbar-2" in said
    assert "said differently" not in said
    assert len(two_names.records("parts")) == 2
    shown = done(two_names, "show", "crossbar")
    assert "crossbar-2: made" in shown
    [gap] = two_names.records("gaps")
    assert "base.opening - crossbar.length" in gap.read_text()
    assert whole(two_names)
    done(two_names, "say", "--yes", "cross bar length 178.3")
    assert len(two_names.records("parts")) == 2
    done(two_names, "undo")
    done(two_names, "undo")
    assert files(two_names) == before


def test_a_revision_that_says_something_comes_behind_the_others(shop: Shop) -> None:
    done(shop, "part", "crossbar")
    done(shop, "part", "cross bar", "--new")
    done(shop, "revise", "cross bar", "--changed", "filed", "--remake", "no")
    done(shop, "part", "cross bar", "--same-as", "crossbar")
    [told] = [one for one in shop.records("revisions") if "filed" in one.read_text()]
    assert "# crossbar rev A" in told.read_text()
    assert whole(shop)


@pytest.fixture
def out(shop: Shop) -> Shop:
    """A stand that went out in release 1.0."""
    for part in ("base", "stand"):
        done(shop, "part", part)
        done(shop, "line", part, "1")
    done(shop, "step", "put the base on it", "--uses", "base, stand")
    done(shop, "release", "1.0", "--anyway")
    return shop


@pytest.mark.parametrize("how", [("--no-part",), ("--same-as", "base")])
def test_what_went_out_is_only_withdrawn(out: Shop, how: tuple[str, ...]) -> None:
    before = files(out)
    said = out.logbook("part", "stand", *how)
    assert said.code == 7
    assert "went out in release 1.0" in said.err
    assert files(out) == before


def test_a_withdrawn_part_is_out_of_the_next_release_and_in_the_old(out: Shop) -> None:
    said = out.logbook("status", "stand", "withdrawn", "--because", "one with the base")
    assert "“put the base on it” named stand so far" in said.err
    released = done(out, "release", "1.1", "--anyway")
    assert "1 revision" in released
    parts = "## Parts", "## Making"
    new, old = (
        done(out, "guide", label, "--print").split(parts[0])[1].split(parts[1])[0]
        for label in ("1.1", "1.0")
    )
    assert "stand" not in new
    assert "stand" in old
    assert "stand" not in done(out, "counts")
    assert whole(out)


def test_what_is_told_of_a_withdrawn_part_is_kept_and_said_so(out: Shop) -> None:
    done(out, "status", "stand", "withdrawn")
    said = out.logbook("measure", "stand", "height", "20.1")
    assert "stand was withdrawn: this is kept" in said.err
    assert len(out.records("revisions")) == 2
    done(out, "status", "stand", "still good")
    assert "2 revisions" in done(out, "release", "1.1", "--anyway")


@pytest.mark.parametrize(
    "line",
    [
        "window, shell is not a part",
        "there is no part window, shell",
        "“window, shell” isn't a part",
    ],
)
def test_a_plain_line_takes_it_away(shop: Shop, line: str) -> None:
    done(shop, "part", SLIP, "--new")
    done(shop, "piece", SLIP)
    said = done(shop, "say", "--yes", line)
    assert "goes: piece window, shell-1, revision window, shell first issue" in said
    assert not shop.records("parts")
    assert not shop.records("notes")


def test_a_plain_line_loses_nothing_said(shop: Shop) -> None:
    done(shop, "measure", SLIP, "length", "40.1", "--new")
    before = files(shop)
    said = shop.logbook("say", "--yes", f"{SLIP} is no part")
    assert said.code == 3
    assert "window, shell-1 length 40.1" in said.err
    assert files(shop) == before


def test_a_plain_line_joins_two_names(two_names: Shop) -> None:
    done(two_names, "say", "--yes", "cross bar is the same part as crossbar")
    assert len(two_names.records("parts")) == 2
    assert whole(two_names)


@pytest.mark.parametrize(
    "line",
    [
        "the stand is not part of the base",
        "there is no part left",
        "shelf is not a part",
        "the base is the same as the stand",
    ],
)
def test_what_says_something_else_takes_nothing_away(out: Shop, line: str) -> None:
    before = files(out)
    done(out, "say", "--yes", line)
    assert before.items() <= files(out).items()


def test_a_program_is_told_what_the_line_means(shop: Shop) -> None:
    shop.asked("part", SLIP, "--new")
    told = shop.asked("say", f"{SLIP} is no part")
    assert told["kind"] == "no part"
    assert told["facts"] == {"part": SLIP}
    assert shop.records("parts")


def test_a_part_that_goes_is_named_in_full(shop: Shop) -> None:
    done(shop, "part", "tip rack cover")
    assert shop.logbook("part", "cover", "--no-part").code == 5
    assert len(shop.records("parts")) == 1
