"""What goes out without its drawing is said before a release goes out."""

from __future__ import annotations

from tests.cli.shop import Shop

TIES = (
    "logbook revise PART --file PATH --redrawn ties one to its part; "
    "once its revision is released, without --redrawn, as a new revision; "
    "logbook project --no-part PATH says that it goes with none"
)


def drawn(shop: Shop) -> None:
    """Two parts, one of them with a drawing beside it, and papers."""
    for name in ("crossbar.svg", "cut/mask.dxf", "logo.svg", "parts.csv"):
        (shop.folder / name).parent.mkdir(exist_ok=True)
        (shop.folder / name).write_text(name, "utf-8")
    shop.git("add", "-A")
    shop.git("commit", "-qm", "draw")
    for name in ("base", "crossbar"):
        shop.asked("part", name, "--dimension", "length=180 ±0.5")


def remarks(shop: Shop) -> list[str]:
    found: list[str] = shop.asked("release", "1.0", "--check")["remarks"]
    return found


def test_parts_without_a_file_and_files_without_a_part_are_told(shop: Shop) -> None:
    drawn(shop)
    bare, loose = remarks(shop)
    assert bare == (
        "base, crossbar: no file on record; rebuilders get none, and this freezes no "
        "file at all"
    )
    assert loose == (
        "2 design files here are of no part and not frozen: crossbar.svg, "
        f"cut/mask.dxf; {TIES}"
    )
    said = shop.logbook("release", "1.0", "--check")
    assert said.code == 0
    assert said.out.startswith("nothing hinders this release, but know that\n")


def test_what_is_tied_or_bought_or_a_copy_is_not_told(shop: Shop) -> None:
    drawn(shop)
    for name, path in (("crossbar", "crossbar.svg"), ("mask", "cut/mask.dxf")):
        shop.asked("part", name)
        shop.asked("revise", name, "--file", path, "--redrawn")
    shop.asked("part", "base", "--source", "bought")
    (shop.folder / "old.svg").write_bytes((shop.folder / "crossbar.svg").read_bytes())
    assert remarks(shop) == []
    assert shop.logbook("release", "1.0", "--check").out == (
        "nothing hinders this release\n"
        "builders will ask, and the guide says that nobody has said:\n"
        "  as what to buy: base: logbook line base --bought-as\n"
    )


def test_a_release_of_bought_parts_says_that_it_holds_no_file(shop: Shop) -> None:
    shop.asked("part", "lamp", "--source", "bought")
    assert remarks(shop) == ["this freezes no file at all; rebuilders get none"]
