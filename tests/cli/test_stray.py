"""A record put where none is read is named, with the place it belongs to."""

from __future__ import annotations

from logbook.errors import ProblemsFound
from tests.cli.shop import Shop


def test_a_record_beside_the_project_is_named_and_a_readme_is_not(shop: Shop) -> None:
    shop.asked("note", "filed", "--when", "2026-03-14T10:15")
    [note] = shop.records("notes")
    place = shop.folder / "as-built"
    (place / "README.md").write_text("# Records\n\nMade at the bench.\n", "utf-8")
    (place / "link.md").symlink_to(note)
    assert shop.logbook("check").code == 0
    stray = place / "filed.md"
    note.rename(stray)
    said = shop.logbook("check")
    assert said.code == ProblemsFound.exit_code
    assert (
        "as-built/filed.md: found a record that lies in no folder of records, and is "
        f"not read; accepted: as-built/notes/2603/{note.name}\n"
    ) in said.out
    stray.rename(note)
    assert shop.logbook("check").code == 0
