"""The guide and the builder notes: goldens, order of what is said, what was frozen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from logbook.publish.guide.guide import write_guide
from logbook.publish.notes.notes import write_notes
from logbook.records.kinds import assembling, design, happenings
from logbook.records.kinds.made_public import Release
from tests.conftest import Golden
from tests.publish.stand import Stand, q

pytestmark = pytest.mark.xdist_group("publish")

Mask = Callable[[str], str]
GOLDENS = {
    "guide-1.0.md", "guide-1.1.md", "errata-all.md", "errata-1.0.md",
    "errata-1.0.json", "notes.md",
}  # fmt: skip


def guide(stand: Stand, label: str) -> str:
    snapshot = stand.project.snapshot
    return write_guide(snapshot, snapshot.lookup(f"release {label}", Release))


def test_no_golden_is_left_that_nothing_compares_with() -> None:
    folder = Path(__file__).parent / "golden"
    assert {place.name for place in folder.iterdir()} == GOLDENS


@pytest.mark.parametrize("label", ["1.0", "1.1"])
def test_the_guide_of_a_release(
    published: Stand, golden: Golden, masked: Mask, label: str
) -> None:
    golden(f"guide-{label}.md", masked(guide(published, label)))


def test_the_builder_notes(published: Stand, golden: Golden, masked: Mask) -> None:
    golden("notes.md", masked(write_notes(published.project.snapshot)))


# -- order -----------------------------------------------------------------------


def test_in_a_step_faults_and_cautions_come_first_and_checks_before_the_work(
    published: Stand,
) -> None:
    text = guide(published, "1.0")
    step = text[text.index("### 3. Screw the diffuser on") :]
    places = [
        step.index(words)
        for words in (
            "**KNOWN FAULT 1** Diffuser cracked",
            "**CAUTION** The lamp board is hot",
            "1 × diffuser, 2 × lamp",
            "4 × M3×10, countersunk head",
            "**CHECK** Before you go on: this closes over what is inside.",
            "*Inside*: lamp cable. *Tested*: lamp lights for ten minutes.",
            "Go round the screws twice",
            "![Crack from the corner hole to the edge]",
        )
    ]
    assert places == sorted(places)


def test_signal_words_are_explained_once_and_only_those_that_are_used(
    published: Stand,
) -> None:
    text = guide(published, "1.0")
    meant = text[text.index("What the words mean: ") :]
    meant = meant[: meant.index("## Tools")]
    assert "**WARNING** could kill or maim" in meant
    assert "**CAUTION** could hurt somebody, slightly or moderately; " in meant
    assert "DANGER" not in text
    assert "**NOTICE** spoils the work or a tool; nobody is hurt. What one" in meant


def test_the_wrong_statement_is_marked_where_it_is_read_in_that_release_only(
    published: Stand,
) -> None:
    first, second = guide(published, "1.0"), guide(published, "1.1")
    row = next(line for line in first.split("\n") if line.startswith("| diffuser, "))
    assert "**Known fault 1**" in row
    assert "- **File**: drawings/diffuser.dxf – **Known fault 1**" in first
    assert "nown fault 1" not in second
    assert "## Wrong in earlier drawings, corrected here" in second
    assert "untried: nobody has made it yet" in second


def test_a_gap_says_to_measure_first_and_gives_this_builds_values_as_example(
    published: Stand,
) -> None:
    text = guide(published, "1.0")
    assert "Measure the opening of the base." in text
    said = "make the length of the crossbar = measured opening of the base − 0.3 mm"
    assert said in text
    assert "Of several places the smallest counts" in text
    was = "opening of the base: 178.60 mm to 178.68 mm at 2 places"
    assert f"As built in build 1, an example and no size to copy: {was}" in text
    assert "length of the crossbar: 178.3 mm." in text


def test_revisions_say_remake_fits_with_and_whether_they_were_tried(
    published: Stand,
) -> None:
    row = "| diffuser rev A, untried (newer than this release) |"
    text = guide(published, "1.0")
    line = next(line for line in text.split("\n") if line.startswith(row))
    assert line.endswith("| first issue: yes | base first issue |")


# -- frozen ----------------------------------------------------------------------


def test_a_record_changed_after_the_release_stands_as_it_was_released(
    stand: Stand,
) -> None:
    draft = stand.begin()
    step = draft.snapshot.lookup("Fit the crossbar", assembling.Step)
    draft.amend(replace(step, title="Press the crossbar in", accept="it creaks"))
    item = draft.snapshot.lookup("opening", design.Characteristic)
    draft.amend(replace(item, nominal=q("175")))
    line = draft.snapshot.lookup("lamp", assembling.Line)
    draft.amend(replace(line, quantity=9))
    stand.keep(draft, "changed after the release")
    text = guide(stand, "1.0")
    assert "creaks" not in text
    assert "### 2. Fit the crossbar" in text
    assert "- **It is right when**: it slides in by hand and does not rattle." in text
    assert "- **Tools**: saw, file" in text
    assert "uses:" not in text
    assert "175" not in text
    assert "| opening (matters) | 180.0 mm | 178.8 mm to 181.2 mm | 178.60" in text
    assert "| lamp | 2 (left, right) | 24 V, 6 W, 90 CRI; LED board" in text


def test_records_made_after_the_release_are_not_in_its_guide(stand: Stand) -> None:
    draft = stand.begin()
    draft.new_part("hood")
    draft.add(assembling.Step(id="5tep0004", title="Put the hood on", when=draft.when))
    stand.keep(draft, "add a hood")
    assert "hood" not in guide(stand, "1.1")


def test_a_dropped_step_leaves_no_gap_and_stays_whole_in_the_earlier_guide(
    stand: Stand,
) -> None:
    why = ("--dropped", "the bar is glued now")
    assert stand.run("step", "Fit the crossbar", *why)[0] == 0
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    later = guide(stand, "1.2")
    assert "### 2. Screw the diffuser on" in later
    assert "Fit the crossbar" not in later
    assert "On the list, but no step says when they go in: crossbar." in later
    earlier = guide(stand, "1.0")
    assert "### 2. Fit the crossbar" in earlier
    assert "### 3. Screw the diffuser on" in earlier


def test_a_line_of_none_is_not_needed_and_no_step_takes_0_of_it(stand: Stand) -> None:
    why = ("--bought-as", "replaced by a lamp in the base")
    draft = stand.begin()
    line = draft.snapshot.lookup("lamp", assembling.Line)
    draft.amend(replace(line, quantity=0, places=(), bought_as=why[1]))
    stand.keep(draft, "no lamp")
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    later = guide(stand, "1.2")
    assert "Not needed in this release: lamp (replaced by a lamp in the base)." in later
    assert "| lamp |" not in later
    for text in (later, guide(stand, "1.0")):
        assert "0 × lamp" not in text
    assert "2 × lamp" in guide(stand, "1.0")


def test_pieces_are_told_per_assembly_and_in_all(drawn: Stand) -> None:
    drawn.run("line", "upright", "2")
    drawn.run("line", "foot", "3", "--into", "upright")
    drawn.run("line", "foot", "1", "--spare", "2")
    assert drawn.run("guide", "--draft")[0] == 0
    text = drawn.read("as-built/published/draft/guide.md")
    rows = [row for row in text.split("\n") if row.startswith("| foot, ")]
    assert [row.split(" | ")[1] for row in rows] == [
        "3 in each upright; 7 in all",
        "1 + 2 spare; 7 in all",
    ]


def test_each_caution_stands_in_full_once_right_before_the_first_such_work(
    published: Stand,
) -> None:
    text = guide(published, "1.0")
    start = text[text.index("## Before you start") : text.index("## Parts")]
    assert start.count("**WARNING** ") == 3  # two lines, and what the word means
    assert "nitrate film" in start
    assert "certified, fused low-voltage supply" in start
    assert "hot wire" not in text
    full = "A metal bit grabs as it breaks through"
    assert text.count(full) == 1
    making = text[text.index("### Diffuser") :]
    assert making.index(full) < making.index("- **File**")


def test_what_is_made_to_suit_has_no_size_to_copy(stand: Stand) -> None:
    words = ("--to-suit", "length", "--changed", "length to suit")
    assert stand.run("revise", "crossbar", *words)[0] == 0
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    row = (
        "| length | to suit: measured opening of the base − 0.3 mm; see gap "
        "[bar between the uprights](#bar-between-the-uprights) "
        "| gap 0.1 mm to 0.5 mm | 178.3 mm (build 1, first issue) |"
    )
    assert row in guide(stand, "1.2")


def test_limits_say_where_they_are_from_and_a_general_tolerance_is_worked_out(
    drawn: Stand,
) -> None:
    draft = drawn.begin()
    item = draft.snapshot.lookup("opening", design.Characteristic)
    draft.amend(replace(item, limits_from="ISO 2768-c"))
    drawn.keep(draft, "invoked")
    drawn.run("guide", "--draft")
    text = drawn.read("as-built/published/draft/guide.md")
    assert "| 180.0 mm | 178.8 mm to 181.2 mm (ISO 2768-c) |" in text
    # ISO 2768-1 Table 1, class c, over 3 to 6 mm: 0.3 (from memory)
    assert "| hole to edge | 4 mm | ±0.3 mm (ISO 2768-c) |" in text


def test_a_revisions_material_wins_and_what_can_stand_in_says_what_came_of_it(
    drawn: Stand,
) -> None:
    tried = ("--substitute", "4.5 mm sheet: works", "--substitute", "glass")
    drawn.run("line", "diffuser", "1", *tried)
    drawn.run(
        "revise", "diffuser", "--material", "opal acrylic", "--changed", "acrylic"
    )
    drawn.run("guide", "--draft")
    text = drawn.read("as-built/published/draft/guide.md")
    assert "opal acrylic, 4 mm thick" in text
    cautions = "acrylic or polystyrene", "acrylic, polystyrene and polycarbonate"
    for about in cautions:
        text = text.replace(about, "")
    assert "polystyrene" not in text
    assert "| diffuser | 4.5 mm sheet | works |" in text
    assert "| diffuser | glass | not said |" in text


def test_a_file_is_told_by_its_hash_and_size_even_when_it_was_redrawn(
    stand: Stand,
) -> None:
    line = "0\nLINE\n10\n0\n20\n0\n11\n{}\n21\n20\n"
    dxf = f"0\nSECTION\n2\nENTITIES\n{line}0\nENDSEC\n0\nEOF\n"
    path = "drawings/base.dxf"
    stand.bench.write(path, dxf.format(180))
    stand.commit_files("redraw the base")
    stand.run("revise", "base", "--changed", "drawn anew")
    assert stand.run("release", "1.2", "--anyway")[0] == 0
    stand.bench.write(path, dxf.format(999))
    stand.run("guide", "1.2")
    text = stand.read("as-built/published/1.2/guide.md")
    assert f"- **File**: {path}: 180.0 × 20.0 overall" in text


def test_the_piece_in_service_is_told_with_its_settings(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    drawn.run("piece", "diffuser", "--set", "walls=4")
    drawn.run("piece", "diffuser", "--set", "walls=2")
    drawn.run("dispose", "diffuser-2", "scrap")
    drawn.run("guide", "--draft")
    text = drawn.read("as-built/published/draft/guide.md")
    assert "- **The piece in service**: build 1: diffuser-1, walls 4." in text
    assert "build 1: 2 made, of these 1 scrapped" in text


def test_a_photo_says_which_revision_it_shows_and_which_is_released(
    stand: Stand,
) -> None:
    draft = stand.begin()
    first = draft.snapshot.lookup("diffuser first issue", design.Revision)
    photo = happenings.Photo(
        path="as-built/photos/crack.png", caption="Edge on", shows=first.ref
    )
    note = happenings.Note(
        id="ph0t0001", title="edge", when=draft.when, photos=(photo,)
    )
    draft.add(note)
    stand.keep(draft, "photo")
    shown = "Edge on (shows diffuser first issue"
    assert f"{shown})" in guide(stand, "1.0")
    assert f"{shown}; this release has diffuser rev A)" in guide(stand, "1.1")


def test_what_is_bought_by_its_thickness_has_it_on_the_list(stand: Stand) -> None:
    for words in (
        ("part", "collar", "--source", "service", "--material", "aluminium plate",
         "--dimension", "thickness=6.35 ±0.2", "--dimension", "width=60"),
        ("line", "collar", "1"),
        ("part", "shim", "--material", "brass", "--dimension", "thickness=0.5",
         "--thickness", "0.5"),
        ("line", "shim", "1"),
        ("release", "1.2", "--anyway"),
    ):  # fmt: skip
        code, said = stand.run(*words)
        assert code == 0, said
    rows = guide(stand, "1.2").splitlines()
    collar = next(row for row in rows if row.startswith("| collar, "))
    assert "| aluminium plate, thickness 6.35 mm (6.15 mm to 6.55 mm) |" in collar
    shim = next(row for row in rows if row.startswith("| shim, "))
    assert "| brass, 0.5 mm thick |" in shim
