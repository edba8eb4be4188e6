"""Which unit a design file is in that names none: said once, used from then on.

The sizes are worked by hand: 1 in = 25.4 mm exactly, 96 px to the inch (CSS Values and
Units Level 4, section 6.2, from memory).
"""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Revision
from tests.cli.shop import Shop
from tests.store.test_shapes import PLATE, binary_stl, dxf
from tests.store.test_svg import svg

FOOT = ((0.0, 0.0, 0.0), (0.032, 0.0165, 0.0), (0.032, 0.0, 0.032))
GATE = ((0.0, 0.0, 0.0), (2.0, 0.5, 0.0), (2.0, 0.0, 0.3))
OUTLINE = '<path d="M10 10h36v26h-36z"/><circle cx="20" cy="20" r="1.5"/>'


def drawn(shop: Shop, **files: bytes) -> None:
    for name, data in files.items():
        (shop.folder / name.replace("_", ".")).write_bytes(data)
    shop.logbook("start", "--yes")
    for name in files:
        part, _, ending = name.partition("_")
        if ending == "svg":
            shop.logbook("revise", part, "--file", f"{part}.svg", "--redrawn", "--new")
        shop.logbook("part", part, "--material", "card")
    committed(shop)


def committed(shop: Shop) -> None:
    shop.git("add", "-A")
    shop.git("commit", "-qm", "draw")


def released(shop: Shop, label: str = "1.0") -> str:
    assert shop.logbook("release", label, "--anyway").code == 0
    return guide(shop, label)


def guide(shop: Shop, label: str = "1.0") -> str:
    return shop.logbook("guide", label, "--print").out


def remarks(shop: Shop) -> str:
    return " ".join(shop.asked("release", "1.0", "--check")["remarks"])


def mask(shop: Shop, drawing: bytes) -> None:
    shop.logbook("start")
    shop.logbook("part", "mask", "--material", "card")
    (shop.folder / "mask.svg").write_bytes(drawing)
    shop.logbook("revise", "mask", "--file", "mask.svg", "--redrawn")
    committed(shop)


def test_metres_said_once_hold_for_release_guide_and_stock(empty: Shop) -> None:
    drawn(empty, foot_stl=binary_stl(FOOT))
    assert "say which unit it is in: logbook part PART --file-unit UNIT" in remarks(
        empty
    )
    assert empty.logbook("part", "foot", "--file-unit", "metres").code == 0
    assert "drawn in metres?" not in remarks(empty)
    page = released(empty)
    assert (
        "32.0 × 16.5 × 32.0 mm overall; the file names no unit and is in metres: say "
        "so to your program, which reads 0.032 × 0.0165 × 0.032"
    ) in page
    assert "number not stated: foot, 32.0 × 16.5 × 32.0 mm" in page
    assert "largest your machine has to take: foot, 32.0 × 16.5 × 32.0 mm" in page


def test_a_unit_said_after_the_release_mends_its_guide(empty: Shop) -> None:
    drawn(empty, gate_stl=binary_stl(GATE))
    assert "2.0 × 0.5 × 0.3 overall; the file names no unit, mm is" in released(empty)
    empty.logbook("part", "gate", "--file-unit", "in")
    assert "50.8 × 12.7 × 7.6 mm overall; the file names no unit and is in inches" in (
        guide(empty)
    )


def test_the_unit_goes_with_the_file_not_with_what_is_drawn_anew(empty: Shop) -> None:
    drawn(empty, gate_stl=binary_stl(GATE))
    empty.logbook("part", "gate", "--file-unit", "in")
    empty.logbook("revise", "gate", "--changed", "the same file", "--why", "a try")
    assert "gate.stl" not in remarks(empty)
    larger = tuple(tuple(25.4 * side for side in corner) for corner in GATE)
    (empty.folder / "gate.stl").write_bytes(binary_stl(larger))
    empty.logbook("revise", "gate", "--redrawn")
    committed(empty)
    assert (
        "gate.stl names no unit, and in was said of what it held before; if it still "
        "is: logbook part gate --file-unit in"
    ) in remarks(empty)
    assert "50.8 × 12.7 × 7.6 overall; the file names no unit, mm is" in released(empty)


def test_a_unit_stays_through_redrawing_what_is_the_same(empty: Shop) -> None:
    drawn(empty, gate_stl=binary_stl(GATE))
    empty.logbook("part", "gate", "--file-unit", "inch")
    empty.logbook("revise", "gate", "--redrawn")
    files = empty.asked("show", "gate first issue")["record"]["file"]
    assert files[0]["unit"] == "in"
    assert empty.logbook("part", "gate", "--without", "file-unit").code == 0
    files = empty.asked("show", "gate first issue")["record"]["file"]
    assert "unit" not in files[0]


@pytest.mark.parametrize(
    ("told", "sentence"),
    [
        (["--file-unit", "kg"], "found “kg”; accepted: mm, cm, m, in or ft"),
        (["--file-unit", "in"], "no file of base first issue lacks a unit"),
        (["--file-unit", "in", "--without", "file-unit"], "accepted: one of the two"),
    ],
)
def test_a_unit_that_cannot_be_is_refused(
    empty: Shop, told: list[str], sentence: str
) -> None:
    drawn(empty, base_dxf=dxf(PLATE))
    said = empty.logbook("part", "base", *told)
    assert said.code == 2
    assert sentence in said.err


def test_a_unit_in_a_record_is_one_of_length(empty: Shop) -> None:
    drawn(empty, gate_stl=binary_stl(GATE))
    empty.logbook("part", "gate", "--file-unit", "in")
    [file] = [
        one
        for one in (empty.folder / "as-built").rglob("*.md")
        if "[[file]]" in one.read_text("utf-8")
    ]
    file.write_text(file.read_text("utf-8").replace('"in"', '"kg"'), "utf-8")
    said = empty.logbook("check")
    assert "found “kg”; accepted: a unit of length, such as mm, m or in" in said.out


def test_a_cut_drawing_goes_out_with_the_size_of_its_outline(empty: Shop) -> None:
    mask(empty, svg(OUTLINE))
    page = released(empty)
    assert "36.0 × 26.0 mm overall; 1 round hole" in page
    assert "number not stated: mask, 36.0 × 26.0 mm" in page


def test_a_drawing_as_large_as_its_page_says_so(empty: Shop) -> None:
    root = 'width="36mm" height="26mm" viewBox="10 10 36 26"'
    mask(empty, svg(OUTLINE, root))
    assert "36.0 × 26.0 mm overall, as large as its page" in released(empty)


def test_a_drawing_in_pixels_says_how_many_go_to_the_inch(empty: Shop) -> None:
    mask(empty, svg(OUTLINE, 'width="960px" height="96px"'))
    assert "9.5 × 6.9 mm overall; drawn in pixels, of which 96 go to the inch" in (
        released(empty)
    )


def test_a_drawing_that_is_not_measured_gives_its_page_as_page(empty: Shop) -> None:
    mask(empty, svg(OUTLINE + '<use href="#x"/>'))
    page = released(empty)
    assert "its page is 200.0 × 100.0 mm; what is drawn on it could not be" in page
    assert "size not read from a file, whose page is 200.0 × 100.0 mm" in page
    assert "largest your machine" not in page


def test_a_drawing_in_units_of_its_own_is_not_taken_for_millimetres(
    empty: Shop,
) -> None:
    mask(empty, svg(OUTLINE, 'viewBox="0 0 200 100"'))
    assert (
        "mask.svg is drawn in units without a length, and says nowhere how large the "
        "page is: what is one of them?"
    ) in remarks(empty)
    page = released(empty)
    assert (
        "36.0 × 26.0 overall, in units of the drawing, which does not say how long one "
        "is: 36.0 × 26.0 mm if one is a millimetre, 9.5 × 6.9 mm if 96 go to the inch"
    ) in page
    assert "mask, 36.0 × 26.0 in units of its drawing, of unsaid length" in page
    empty.logbook("part", "mask", "--file-unit", "mm")
    page = guide(empty)
    assert "36.0 × 26.0 mm overall; the file names no unit and is in milli" in page


def test_start_says_that_a_drawing_has_no_length(empty: Shop) -> None:
    (empty.folder / "mask.dxf").write_bytes(dxf(PLATE))
    (empty.folder / "mask.svg").write_bytes(svg(OUTLINE, ""))
    said = empty.logbook("start", "--yes").out
    assert (
        "note: mask.svg is drawn in units without a length, and says nowhere how large "
        "the page is: what is one of them? Say so once: logbook part PART --file-unit "
        "UNIT."
    ) in said


@pytest.fixture
def three(empty: Shop) -> Shop:
    """Two meshes and a drawing that name no unit."""
    drawn(
        empty,
        foot_stl=binary_stl(FOOT),
        gate_stl=binary_stl(GATE),
        mask_svg=svg(OUTLINE),
    )
    return empty


def units(shop: Shop) -> dict[str, str]:
    project = Project.open(shop.folder)
    held = (revision.files for revision in project.snapshot.all(Revision))
    return {file.path: file.unit for files in held for file in files}


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("foot.stl is in inches", {"foot.stl": "in"}),
        ("the foot stl is drawn in m", {"foot.stl": "m"}),
        ("the stl of the gate was exported in millimetres", {"gate.stl": "mm"}),
        ("gate's stl is in mm", {"gate.stl": "mm"}),
        ("the stl files are all in mm", {"foot.stl": "mm", "gate.stl": "mm"}),
    ],
)
def test_a_plain_line_says_the_unit_as_the_option_does(
    three: Shop, line: str, said: dict[str, str]
) -> None:
    told = three.logbook("say", "--yes", line)
    assert told.code == 0, told.err
    shown = f"file unit · {', '.join(said)}: one unit of it is 1 {min(said.values())}"
    assert shown in told.out
    assert {path: unit for path, unit in units(three).items() if unit} == said
    assert not three.records("notes")


def test_of_several_files_it_is_asked_which(three: Shop) -> None:
    told = three.logbook("say", "--yes", "the stl is in mm")
    assert told.code == 3
    assert "can be foot.stl, gate.stl; accepted: one by its name" in told.err
    assert not any(units(three).values())


def test_a_file_that_names_its_unit_is_not_told_another(empty: Shop) -> None:
    drawn(empty, plate_dxf=dxf(PLATE))
    told = empty.logbook("say", "--yes", "plate.dxf is in inches")
    assert told.code == 2
    assert "plate.dxf names its unit itself" in told.err
    assert not any(units(empty).values())


@pytest.mark.parametrize(
    "line",
    ["foot.stl is in the drawer", "shelf.stl is in mm", "the gate is in mm"],
)
def test_what_says_no_unit_of_a_file_here_stays_what_it_is(
    three: Shop, line: str
) -> None:
    assert "file unit" not in three.logbook("say", "--yes", line).out
    assert not any(units(three).values())
