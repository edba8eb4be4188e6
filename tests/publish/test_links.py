"""Links between published pages: to what is written, in the format of the page."""

from __future__ import annotations

from pathlib import Path

from logbook.publish.errata.links import linked, to_html

PAGE = "[Release 1.1](../1.1/guide.md), [lid](../1.1/guide.md#lid), [here](errata.md)"


def test_a_guide_is_linked_once_it_is_written(tmp_path: Path) -> None:
    folder = tmp_path / "1.0"
    assert linked(PAGE, folder) == "Release 1.1, lid, [here](errata.md)"
    (tmp_path / "1.1").mkdir()
    (tmp_path / "1.1/guide.md").write_text("# Guide", "utf-8")
    assert not folder.exists()
    assert linked(PAGE, folder) == PAGE


def test_pages_in_html_lead_to_pages_in_html() -> None:
    assert to_html(PAGE) == PAGE.replace(".md", ".html")
    assert to_html("[notes](notes.md)") == "[notes](notes.md)"
