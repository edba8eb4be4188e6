"""Who made parts of the release before: what fits on, what to buy, what to print.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import pytest

from logbook.publish.html import to_html
from logbook.publish.whole_page import Printed, page
from tests.publish.bowed import bowed, thicker
from tests.publish.stand import Stand, told

pytestmark = pytest.mark.xdist_group("publish")


def section(stand: Stand, release: str) -> str:
    guide = stand.run("guide", release, "--print")[1]
    return guide.partition("## If you come from release")[2].partition("\n## ")[0]


def test_the_first_release_has_none_before_it(stand: Stand) -> None:
    assert section(stand, "1.0") == ""


def test_what_is_unchanged_and_what_is_bought_anew_is_told(stand: Stand) -> None:
    said = section(stand, "1.1")
    assert "- **Unchanged**: base, crossbar; what was made to these" in said
    assert "**To buy that you have not**: nothing new on the list." in said
    assert "Not needed any more" not in said
    told(stand, "part", "M3 pan head screw", "--source", "bought")
    told(stand, "line", "M3 pan head screw", "4", "--bought-as", "ISO 7045 M3x10")
    told(stand, "line", "lamp", "1", "--bought-as", "24 V, 6 W, 90 CRI")
    told(stand, "release", "1.2")
    said = section(stand, "1.2")
    assert "- **Unchanged**: base, crossbar, diffuser; " in said
    assert "4 × M3 pan head screw (ISO 7045 M3x10)" in said
    assert "1 × lamp, not 2" in said
    told(stand, "line", "M3 pan head screw", "0")
    told(stand, "release", "1.3")
    assert "- **Not needed any more**: M3 pan head screw.\n" in section(stand, "1.3")


def test_what_a_change_names_and_the_list_does_not_count_is_said(stand: Stand) -> None:
    for part in ("washer M4", "M3x8"):
        told(stand, "part", part, "--source", "bought")
        told(stand, "line", part, "8")
    told(stand, "release", "1.2")
    changed = "foot holes 12 mm from the bend, an M4 washer under each, near the lamp"
    told(stand, "revise", "base", "--changed", changed)
    told(stand, "release", "1.3", "--anyway")
    said = section(stand, "1.3")
    named = (
        "- **Named in the change, not on the list for it**: washer M4 (base rev A). "
    )
    assert named in said
    assert said.count("not on the list for it") == 1
    assert "as well, but measure first what was made to suit (below)." in said
    assert "nothing new on the list" not in said
    told(stand, "line", "washer M4", "12")
    told(stand, "release", "1.4", "--anyway")
    assert "not on the list for it" not in section(stand, "1.4")
    assert "12 × washer M4, not 8" in section(stand, "1.4")


def test_the_older_pages_lead_there_once_it_is_written(stand: Stand) -> None:
    told(stand, "guide", "1.1")
    told(stand, "guide", "1.0")
    anchor = "if-you-come-from-release-10"
    for name in ("guide", "errata"):
        place = stand.bench.top / f"as-built/published/1.0/{name}.html"
        assert f'href="../1.1/guide.html#{anchor}"' in place.read_text("utf-8")
    place = stand.bench.top / "as-built/published/1.1/guide.html"
    assert f'id="{anchor}"' in place.read_text("utf-8")


@pytest.mark.parametrize(
    ("words", "size"),
    [((), "210mm 297mm"), (("--paper", "Letter"), "215.9mm 279.4mm")],
)
def test_a_page_is_printed_on_the_paper_asked_for(
    stand: Stand, words: tuple[str, ...], size: str
) -> None:
    for verb, name in (("guide", "guide"), ("errata", "errata")):
        told(stand, verb, "1.0", *words)
        html = stand.bench.top / f"as-built/published/1.0/{name}.html"
        assert f"size: {size};" in html.read_text("utf-8")
    told(stand, "notes", *words)
    html = stand.bench.top / "as-built/published/builder-notes.html"
    assert f"size: {size};" in html.read_text("utf-8")


def test_without_a_size_the_printer_has_its_own() -> None:
    assert "size:" not in page("# t\n", title="t", printed=Printed("t")).partition(
        "@page"
    )[2].partition("@media")[0].replace("font-size:", "").replace("font:", "")


def test_a_day_is_not_broken_at_its_hyphens() -> None:
    html = to_html("on 2026-04-04, [a](x-2026-04-05.md) and as-built/2026-04-06-x")
    day = '<time datetime="2026-04-04">2026-04-04</time>'
    assert day in html
    assert html.count("<time") == 1
    assert 'href="x-2026-04-05.md"' in html


def test_every_earlier_release_is_told_what_changed_and_what_to_make_again(
    stand: Stand,
) -> None:
    bowed(stand)
    thicker(stand)
    guide = stand.run("guide", "1.2", "--print")[1]
    for label in ("1.0", "1.1"):
        said = guide.partition(f"## If you come from release {label}")[2]
        assert "- **Changed; make yours again?** diffuser: yes." in said
    older = stand.run("errata", "1.0", "--print")[1]
    assert "../1.2/guide.md#if-you-come-from-release-10" in older
    row = next(one for one in guide.splitlines() if one.startswith("| diffuser rev B"))
    assert "| rev A or first issue: yes |" in row
    row = next(one for one in guide.splitlines() if one.startswith("| diffuser rev A"))
    place = "diffuser rev B takes the place of diffuser rev A"
    assert f"| first issue: yes: {place} |" in row


def test_nobody_is_sent_to_a_revision_in_which_the_fault_came_back(
    stand: Stand,
) -> None:
    told(stand, "build", "build 2")
    again = ("failure", "diffuser", "diffuser cracked again", "--met-by", "drawing")
    told(stand, *again, "--do", "scrap")
    back = "not yet: it came back: diffuser cracked again (no cure yet)"
    for label in ("1.0", "1.1"):
        guide = stand.run("guide", label, "--print")[1]
        assert f"| first issue: {back} |" in guide
    assert f"make yours again?** diffuser: {back}." in section(stand, "1.1")
    notes = stand.run("notes", "--print")[1]
    assert f"Make an older piece again? First issue: {back}" in notes


# -- what a size became ----------------------------------------------------------


def test_a_size_found_on_this_very_revision_comes_before_one_read_on_another(
    stand: Stand,
) -> None:
    odd = ("deviation", "diffuser", "diffuser holes at 5 mm", "--found", "5 mm")
    told(stand, *odd, "--dimension", "hole to edge", "--met-by", "machine")
    row = next(
        line
        for line in stand.run("guide", "1.1", "--print")[1].splitlines()
        if line.startswith("| hole to edge")
    )
    assert "5 mm, outside the limits (build 1" in row
    first = stand.run("guide", "1.0", "--print")[1]
    row = next(one for one in first.splitlines() if one.startswith("| hole to edge"))
    assert "5 mm, outside the limits (build 1, rev A)" in row


def test_a_piece_is_not_judged_by_the_limits_of_another_revision(stand: Stand) -> None:
    draw = ("--dimension", "hole to edge=9.0", "--changed", "holes 9 mm in")
    told(stand, "revise", "diffuser", *draw)
    told(stand, "measure", "diffuser", "hole to edge", "9.1")
    row = next(
        line
        for line in stand.run("guide", "1.0", "--print")[1].splitlines()
        if line.startswith("| hole to edge")
    )
    assert "| 9.1 mm (build 1, rev B, drawn 9.0 mm) |" in row


def test_where_a_part_is_made_it_is_said_what_is_new_in_its_revision(
    stand: Stand,
) -> None:
    new = "- **New in rev A**: oversize holes 9 mm in, pan heads, washers.\n"
    assert new in stand.run("guide", "1.1", "--print")[1]
    assert "New in" not in stand.run("guide", "1.0", "--print")[1]
