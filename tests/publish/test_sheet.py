"""The job sheet on paper: what it asks for, in which order, and that it fits."""

from __future__ import annotations

import re
import subprocess
import xml.etree.ElementTree as ET
from datetime import datetime, timedelta, timezone
from pathlib import Path

import html5lib
import pytest

from logbook.advice.advisor import advise
from logbook.errors import BadInput
from logbook.publish.sheet.boxes import Sort, mark_of, read_boxes, write_boxes
from logbook.publish.sheet.operations import JobSheet, Wanted
from logbook.publish.sheet.sheet import job_sheet, write_html
from logbook.publish.sheet.sheet_text import LINES, WIDTH, write_text
from logbook.publish.sheet.sheet_typing import SheetTyping
from logbook.records.kinds.assembling import Hold, Step
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Override
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import OverrideReason
from tests.needs import needs
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")

PRINTED = datetime(2026, 4, 5, 9, 0, tzinfo=timezone(timedelta(hours=2)))


def sheet_of(stand: Stand, wanted: Wanted | None = None) -> JobSheet:
    return job_sheet(stand.project.snapshot, wanted or Wanted(), PRINTED)


def titles(sheet: JobSheet) -> list[str]:
    return [one.title for one in sheet.operations]


def step_named(stand: Stand, title: str) -> Step:
    return stand.project.snapshot.lookup(title, Step)


def test_operations_come_in_order_and_boxes_are_numbered_as_printed(
    drawn: Stand,
) -> None:
    sheet = sheet_of(drawn)
    assert titles(sheet)[:3] == [
        "Fold the base", "Fit the crossbar", "Screw the diffuser on",
    ]  # fmt: skip
    assert [box.number for box in sheet.boxes] == list(range(1, len(sheet.boxes) + 1))
    text, page = write_text(sheet, "A4"), write_html(sheet, "A4")
    in_text = [int(n) for n in re.findall(r"^ *(\d+) \|", text, re.MULTILINE)]
    in_page = [int(n) for n in re.findall(r'class="no">(\d+)<', page)]
    assert in_text == in_page == [box.number for box in sheet.boxes]


def test_a_reading_stands_once_with_its_size_and_its_limits(drawn: Stand) -> None:
    sheet = sheet_of(drawn)
    [opening] = [box for box in sheet.boxes if box.label == "opening"]
    assert (opening.drawn, opening.limits) == ("180.0 mm", "accept 178.8 to 181.2 mm")
    assert opening.owner == "base, new 1"
    [hole] = [box for box in sheet.boxes if box.label == "hole to edge"]
    # ISO 2768-1 Table 1, class c, over 3 to 6 mm: 0.3 (from memory)
    assert hole.limits == "accept 3.7 to 4.3 mm by ISO 2768-c"


def test_what_is_made_to_suit_is_told_by_its_gap(drawn: Stand) -> None:
    [length] = [box for box in sheet_of(drawn).boxes if box.label == "length"]
    assert length.drawn == "to suit: measured opening of the base − 0.3 mm"
    assert length.limits == "accept a gap of 0.1 mm to 0.5 mm"


def opened(stand: Stand) -> None:
    """Read the opening of the base at all its places."""
    words = ("left=178.60", "right=178.65")
    code, said = stand.run("measure", "base", "opening", *words, "--met-by", "machine")
    assert code == 0, said


def test_what_is_made_to_suit_is_told_in_figures_once_its_gap_knows_them(
    drawn: Stand,
) -> None:
    opened(drawn)
    [length] = [box for box in sheet_of(drawn).boxes if box.label == "length"]
    assert length.drawn == "to suit: rough 178.40 mm, finish 178.30 mm"
    assert length.limits.startswith("accept 178.1")
    assert length.limits.endswith(" mm")
    assert "a gap of" not in length.limits


def test_typed_in_it_is_judged_by_what_its_gap_accepts_by_now(drawn: Stand) -> None:
    sheet = sheet_of(drawn)
    opened(drawn)
    snapshot = drawn.project.snapshot
    [box] = [box for box in sheet.boxes if box.label == "length"]
    typing = SheetTyping(sheet.mark, sheet.boxes, advice=advise(snapshot).advice)
    assert typing.wanted(box, snapshot)[0] == (
        "to suit: rough 178.40 mm, finish 178.30 mm"
    )
    typing.take(box, "178.3", snapshot)
    assert typing.judged(box, snapshot) == "within"
    typing.take(box, "177.5", snapshot)
    assert typing.judged(box, snapshot) == "does not suit"
    assert typing.fault(box, snapshot) == "does not suit"


def test_a_closing_step_asks_by_name_and_its_cautions_come_before_it(
    drawn: Stand,
) -> None:
    sheet = sheet_of(
        drawn, Wanted(steps=(step_named(drawn, "Screw the diffuser on").id,))
    )
    [one] = sheet.operations
    asked = [box.label for box in one.checks]
    assert asked == ["inside: lamp cable", "tested: lamp lights for ten minutes"]
    for said in (write_text(sheet, "A4"), write_html(sheet, "A4")):
        plain = " ".join(said.split())
        caution = plain.index("The lamp board is hot")
        assert plain.index("Screw the diffuser on") < caution
        assert caution < plain.casefold().index("before you close")
        assert plain.casefold().index("before you close") < plain.index("lamp cable")


def test_what_waits_stands_at_its_step_with_the_reason(drawn: Stand) -> None:
    draft = drawn.begin()
    step = draft.snapshot.lookup("Fold the base", Step)
    draft.add(
        Hold(
            id=new_id(), title="sheet", when=draft.when, step=step.ref,
            because="the sheet is not here", until="it came",
        )
    )  # fmt: skip
    drawn.keep(draft, "hold")
    fold, bar = sheet_of(drawn).operations[:2]
    [wait] = fold.waits
    assert (wait.grade, wait.box.sort) == ("wait", Sort.PASSED)
    assert "the sheet is not here, until it came" in wait.words
    # The gap's own wait stands where the bar is made or taken, or with no step.
    assert all("bar between the uprights" not in one.words for one in fold.waits)
    every = [w.words for one in sheet_of(drawn).operations for w in one.waits]
    assert sum("bar between the uprights" in words for words in every) == 1
    assert bar.title == "Fit the crossbar"


def test_what_closes_over_what_is_not_done_stands_there_as_a_wait(
    drawn: Stand,
) -> None:
    close = step_named(drawn, "Screw the diffuser on")
    sheet = sheet_of(drawn, Wanted(steps=(close.id,)))
    [operation] = sheet.operations
    [wait] = operation.waits
    said = "“Screw the diffuser on” waits: “Fit the crossbar” is not done"
    assert wait.words == said
    assert (wait.box.sort, wait.box.word) == (Sort.PASSED, close.title)
    assert [one.number for one in sheet.held] == [close.number]
    drawn.run("step", "Fit the crossbar", "--done")
    [operation] = sheet_of(drawn, Wanted(steps=(close.id,))).operations
    assert not operation.waits


def test_how_a_size_made_to_suit_is_found_stands_at_its_step(drawn: Stand) -> None:
    sheet = sheet_of(drawn)
    [suits] = [says for one in sheet.operations for word, says in one.facts
               if word == "to suit"]  # fmt: skip
    assert suits.startswith("length = measured opening of the base − 0.3 mm; ")
    assert "of several places the smallest counts" in suits


def test_what_is_done_or_measured_is_not_asked_again_unless_wanted(
    drawn: Stand,
) -> None:
    assert drawn.run("build", "build 1")[0] == 0
    assert drawn.run("measure", "base", "opening", "178.6")[0] == 0
    assert drawn.run("step", "Fold the base", "--done")[0] == 0
    sheet = sheet_of(drawn)
    assert "Fold the base" not in titles(sheet)
    assert "opening" not in [box.label for box in sheet.boxes]
    assert [name.partition(" ")[2] for name in sheet.finished] == ["Fold the base"]
    for told in (write_text(sheet, "A4"), write_html(sheet, "A4")):
        assert f"Done already: {sheet.finished[0]}." in told
    every = sheet_of(drawn, Wanted(everything=True))
    assert "Fold the base" in titles(every)
    assert every.finished == ()
    [opening] = [box for box in every.boxes if box.label == "opening"]
    assert opening.owner == "base-1"


def test_a_step_whose_piece_was_scrapped_since_is_on_the_sheet_again(
    drawn: Stand,
) -> None:
    assert drawn.run("build", "build 1")[0] == 0
    assert drawn.run("measure", "crossbar", "length", "179.7")[0] == 0
    assert (
        drawn.run("step", "Fit the crossbar", "--done", "--makes", "crossbar")[0] == 0
    )
    assert "Fit the crossbar" not in titles(sheet_of(drawn))
    assert drawn.run("dispose", "crossbar-1", "scrap")[0] == 0
    sheet = sheet_of(drawn)
    assert "Fit the crossbar" in titles(sheet)
    assert not any("Fit the crossbar" in name for name in sheet.finished)


def test_one_part_can_be_printed_alone_and_several_pieces_of_it(drawn: Stand) -> None:
    part = drawn.project.snapshot.lookup("crossbar", Part)
    sheet = sheet_of(drawn, Wanted(parts=(part.id,), pieces=3))
    readings = [box for box in sheet.boxes if box.sort is Sort.READING]
    assert [box.owner for box in readings] == [
        "crossbar, new 1", "crossbar, new 2", "crossbar, new 3",
    ]  # fmt: skip
    assert titles(sheet) == ["Fit the crossbar"]


def test_a_private_reason_is_printed_only_when_asked_for(drawn: Stand) -> None:
    draft = drawn.begin()
    step = draft.snapshot.lookup("Fold the base", Step)
    for hold, published in (("own", False), ("told", True)):
        draft.add(
            Override(
                id=new_id(), title=hold, when=draft.when, hold=hold, step=step.ref,
                reason=OverrideReason.CHEAP, because=f"{hold} reason",
                published=published,
            )
        )  # fmt: skip
    drawn.keep(draft, "overrides")
    plain = write_html(sheet_of(drawn), "A4")
    assert "told reason" in plain
    assert "own reason" not in plain
    assert "own reason" in write_html(sheet_of(drawn, Wanted(overrides=True)), "A4")


def test_a_logbook_with_nothing_but_a_size_has_a_sheet(tmp_path: Path) -> None:
    stand = Stand(tmp_path / "stand")
    stand.begin_project()
    stand.run("measure", "bed", "width", "240", "--nominal", "240")
    assert [b.label for b in sheet_of(stand, Wanted(pieces=2)).boxes] == ["width"]


# -- on paper --------------------------------------------------------------------


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_text_keeps_to_the_page_and_leaves_room_to_write(
    drawn: Stand, paper: str
) -> None:
    pages = write_text(sheet_of(drawn, Wanted(pieces=9)), paper).split("\f")
    assert len(pages) > 1
    for page in pages:
        lines = page.rstrip("\n").split("\n")
        assert len(lines) == LINES[paper]
        assert max(map(len, lines)) <= WIDTH
        # A box begun on a page ends there, with two free lines in it.
        edges = [n for n, line in enumerate(lines) if re.match(r"^ {5}\+-+\+", line)]
        assert all(low - top == 3 for top, low in zip(edges[::2], edges[1::2]))  # noqa: B905
        assert len(edges) % 2 == 0


def test_what_waits_and_what_closes_is_to_be_read_from_a_metre(drawn: Stand) -> None:
    page = write_html(sheet_of(drawn), "A4")
    [rule] = re.findall(r"^\.far \{[^}]*\}", page, re.MULTILINE)
    [size] = re.findall(r"font-size: ([\d.]+)pt", rule)
    # Capitals are 0.72 of the type; at 1 m 16 minutes of arc are 4.65 mm, the least
    # ISO 9241-303 has (from memory).
    assert float(size) * 25.4 / 72 * 0.72 >= 4.65
    assert '<p class="far"><b>WAIT</b> “Screw the diffuser on” waits' in page
    assert '<h3 class="far">Before you close</h3>' in page
    assert "<b>WAIT</b> 3. Screw the diffuser on" in page
    text = write_text(sheet_of(drawn), "A4")
    assert f"{'=' * WIDTH}\n   WAIT: 3. Screw the diffuser on\n{'=' * WIDTH}" in text


def test_boxes_are_high_enough_to_write_in(drawn: Stand) -> None:
    page = write_html(sheet_of(drawn), "A4")
    rules = re.findall(r"^[^{}\n]*\.in \{[^}]*\}", page, re.MULTILINE)
    heights = [float(h) for rule in rules for h in re.findall(r"height: (\d+)mm", rule)]
    assert heights
    assert min(heights) >= 9


@needs("chromium")
@pytest.mark.parametrize(
    ("paper", "size"), [("A4", (210, 297)), ("Letter", (215.9, 279.4))]
)
def test_a_browser_prints_it_on_that_paper(
    drawn: Stand, tmp_path: Path, paper: str, size: tuple[int, int]
) -> None:
    source, made = tmp_path / "sheet.html", tmp_path / "sheet.pdf"
    source.write_text(write_html(sheet_of(drawn), paper), "utf-8")
    subprocess.run(
        [
            "chromium", "--headless", "--no-sandbox", "--disable-gpu",
            f"--user-data-dir={tmp_path / 'profile'}", "--no-pdf-header-footer",
            f"--print-to-pdf={made}", source.as_uri(),
        ],
        check=True, capture_output=True, timeout=300,
    )  # fmt: skip
    found = re.findall(rb"/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]", made.read_bytes())
    assert len(found) >= 2
    for wide, high in found:
        assert abs(float(wide) / 72 * 25.4 - size[0]) < 1
        assert abs(float(high) / 72 * 25.4 - size[1]) < 1


def test_words_are_printed_as_written_and_run_nothing(drawn: Stand) -> None:
    hostile = "<script>x</script> {{ 7*7 }} \x1b[31m \u202eevil"
    draft = drawn.begin()
    draft.add(
        Step(
            id=new_id(), title=hostile, when=draft.when, number=9, closes=True,
            inside=(hostile,), tools=(hostile,), cautions=(f"WARNING: {hostile}",),
        )
    )  # fmt: skip
    drawn.keep(draft, "step")
    page = write_html(sheet_of(drawn), "A4")
    root: ET.Element = html5lib.HTMLParser(
        strict=True, namespaceHTMLElements=False
    ).parse(page)
    assert root.find(".//script") is None
    assert "{{ 7*7 }}" in "".join(root.itertext())
    for made in (page, write_text(sheet_of(drawn), "A4")):
        assert "\x1b" not in made
        assert "\u202e" not in made


# -- the boxes as a file ---------------------------------------------------------


def test_boxes_come_back_from_their_file_and_have_one_mark(drawn: Stand) -> None:
    sheet = sheet_of(drawn)
    boxes, build = read_boxes(write_boxes(sheet.boxes, sheet.build_id))
    assert (boxes, build) == (sheet.boxes, sheet.build_id)
    assert sheet.mark == sheet_of(drawn).mark == mark_of(boxes, build)
    assert mark_of(boxes[1:], build) != sheet.mark


@pytest.mark.parametrize(
    "data", [b"", b"{}", b'{"boxes": [{"x": 1}], "build": ""', b"\xff"]
)
def test_a_broken_file_of_boxes_is_refused_in_a_sentence(data: bytes) -> None:
    with pytest.raises(BadInput, match="printed again"):
        read_boxes(data)


def test_a_dropped_step_is_on_no_sheet(drawn: Stand) -> None:
    assert "Fit the crossbar" in titles(sheet_of(drawn))
    drawn.run("step", "Fit the crossbar", "--dropped", "it is glued")
    assert "Fit the crossbar" not in titles(sheet_of(drawn))
