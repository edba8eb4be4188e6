"""What a rebuilder asks before he begins: tools, stock, time, and how tight.

The scene is the copy stand; sizes and times are invented. The flat pattern is a
rectangle drawn as four lines, so its overall size is its width and height.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Work
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.made_public import Release
from logbook.records.kinds.workshop import Machine
from tests.publish.stand import Stand, q, told

pytestmark = pytest.mark.xdist_group("publish")

CLOSE = "Screw the diffuser on"


def section(stand: Stand, heading: str, label: str = "2.0") -> str:
    if label not in {one.label for one in _releases(stand)}:
        told(stand, "release", label, "--anyway")
    told(stand, "guide", label)
    page = stand.read(f"as-built/published/{label}/guide.md")
    level = heading.split(" ", 1)[0]
    return page.partition(f"\n{heading}\n")[2].partition(f"\n{level} ")[0]


def _releases(stand: Stand) -> tuple[Release, ...]:
    return tuple(stand.project.snapshot.all(Release))


def rows(text: str) -> list[list[str]]:
    lines = [line for line in text.split("\n") if line.startswith("| ")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines]


def drawing(stand: Stand, name: str, width: float, height: float) -> None:
    corners = [(0.0, 0.0), (width, 0.0), (width, height), (0.0, height)]
    said = ["0", "SECTION", "2", "HEADER", "9", "$INSUNITS", "70", "4", "0", "ENDSEC"]
    said += ["0", "SECTION", "2", "ENTITIES"]
    for (x1, y1), (x2, y2) in zip(corners, corners[1:] + corners[:1], strict=True):
        said += ["0", "LINE", "8", "cut", "10", f"{x1}", "20", f"{y1}"]
        said += ["11", f"{x2}", "21", f"{y2}"]
    said += ["0", "ENDSEC", "0", "EOF"]
    stand.bench.write(f"drawings/{name}.dxf", "\n".join(said) + "\n")
    stand.commit_files(f"Draw the {name} to size")


def test_each_tool_stands_once_with_what_it_is_for_and_what_can_stand_in(
    drawn: Stand,
) -> None:
    told(drawn, "instrument", "caliper", "--range", "0 to 150 mm")
    told(drawn, "machine", "sheet brake", "--process", "folding", "--bed", "600 mm")
    told(drawn, "step", "Fold the base", "--tool", "folder", "--makes", "base",
         "--instead", "bars in a vice: works")  # fmt: skip
    told(drawn, "joint", "lamp to base", "M4x16", "--torque", "1.2 N·m",
         "--torque-with", "torque screwdriver", "--layer", "base=2 mm")  # fmt: skip
    told(drawn, "build", "build 1")
    draft = drawn.begin()
    brake = draft.snapshot.lookup("sheet brake", Machine)
    piece = draft.piece(draft.snapshot.lookup("base", Part))
    draft.amend(replace(piece, machine=brake.ref))
    drawn.keep(draft, "piece: base-1")
    told(drawn, "measure", "base", "opening", "180.1", "--with", "caliper")
    found = rows(section(drawn, "## Tools"))
    assert found[0] == ["tool", "for", "instead"]
    assert found[1:] == [
        ["folder", "step 1", "bars in a vice: works"],
        ["saw", "step 2", "–"],
        ["file", "step 2", "–"],
        ["torque screwdriver", "tightened: lamp to base", "–"],
        ["sheet brake (takes 600 mm)", "made: base", "–"],
        ["for drilling: which, nobody has said", "made: diffuser", "–"],
        ["caliper (0 mm to 150 mm)", "measured: base (opening)", "–"],
    ]


def test_what_stands_in_at_a_step_with_several_tools_is_of_none_of_them(
    drawn: Stand,
) -> None:
    step = ("step", "Fit the crossbar", "--tool", "saw", "--tool", "file")
    told(drawn, *step, "--instead", "a mill: untried")
    found = rows(section(drawn, "## Tools"))
    assert ["saw", "step 2", "–"] in found
    assert ["one of saw, file", "step 2", "a mill: untried"] in found


def test_pieces_are_told_by_material_with_the_largest_the_machine_has_to_take(
    drawn: Stand,
) -> None:
    drawing(drawn, "base", 393.8, 60)
    drawing(drawn, "crossbar", 182, 20)
    told(drawn, "revise", "base", "--redrawn")
    told(drawn, "revise", "crossbar", "--redrawn")
    told(drawn, "line", "crossbar", "2", "--spare", "1")  # a line beside that of one
    sheet = ("--material", "aluminium 5052-H32", "--size", "500 mm", "--size", "250 mm")
    thick = ("--bought-as", "2 mm", "--measured", "2.03 mm")
    told(drawn, "stock", "2 mm sheet", *sheet, *thick, "--for", "base")
    found = section(drawn, "### Cut from stock")
    assert "machine has to take: base, 393.8 × 60.0 mm.\n" in found
    assert rows(found) == [
        ["material", "pieces", "cut before from"],
        ["aluminium 5052-H32, 2.0 mm thick", "1 × base, 393.8 × 60.0 mm",
         "2 mm sheet, 500 mm × 250 mm, sold as 2 mm, measured 2.03 mm"],
        ["aluminium bar 20 × 10 mm", "4 × crossbar, 182.0 × 20.0 mm", "–"],
        ["opal polystyrene, 4 mm thick", "1 × diffuser, size not read from a file",
         "–"],
    ]  # fmt: skip


def test_the_time_is_told_step_by_step_and_summed_with_what_was_undone(
    drawn: Stand,
) -> None:
    told(drawn, "step", "Fold the base", "--time", "60 min", "--makes", "base")
    told(drawn, "build", "build 1")
    told(drawn, "step", "Fold the base", "--done", "--time", "75 min")
    told(drawn, "step", CLOSE, "--done", "--time", "25 min", "--tested", "lamp lights "
         "for ten minutes", "--inside", "lamp cable")  # fmt: skip
    draft = drawn.begin()
    swept = Work(id=new_id(), title="sweeping up", when=draft.when, time=q("40 min"))
    draft.add(replace(swept, build=draft.build().ref))
    drawn.keep(draft, "work: sweeping up")
    found = section(drawn, "## Time")
    assert "Of 1 step no time is on record." in found
    assert rows(found) == [
        ["step", "meant", "took in build 1"],
        ["step 1, Fold the base", "1 h", "1 h 15 min"],
        [f"step 3, {CLOSE}", "20 min", "25 min"],
        ["other work: undone since, or of no step here", "–", "40 min"],
        ["all on record", "1 h 20 min", "2 h 20 min"],
    ]


def test_how_tight_stands_at_the_step_or_that_nobody_has_said(drawn: Stand) -> None:
    line = (
        "- **Fasteners**: 4 × M3×10, countersunk head (diffuser to base), how tight: "
    )
    assert f"{line}nobody has said\n" in section(drawn, "## Steps", "1.0")
    told(drawn, "joint", "diffuser to base", "M3×10", "--head", "countersunk",
         "--number", "4", "--step", CLOSE, "--layer", "diffuser=4 mm",
         "--torque-result", "by hand, until it no longer turns")  # fmt: skip
    told_at = section(drawn, "## Steps")
    assert f"{line}by hand, until it no longer turns\n" in told_at
