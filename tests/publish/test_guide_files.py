"""The guide as files: written, committed, from a template of one's own, refused."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from logbook.errors import BadInput, NotFound
from logbook.publish.pages import tidy
from logbook.records.kinds import happenings
from logbook.records.kinds.made_public import Release
from tests.publish.stand import Stand

pytestmark = pytest.mark.xdist_group("publish")


def test_guide_writes_four_pages_and_git_takes_them(stand: Stand) -> None:
    code, said = stand.run("guide", "1.0")
    assert code == 0
    for name in ("guide.md", "guide.html", "errata.md", "errata.html"):
        path = f"as-built/published/1.0/{name}"
        assert path in said
        assert stand.bench.git("show", f"HEAD:{path}") == stand.read(path)
    assert "](errata.html)" not in stand.read("as-built/published/1.0/guide.md")
    assert 'href="errata.html"' in stand.read("as-built/published/1.0/guide.html")


def test_the_newest_release_is_meant_where_none_is_named(stand: Stand) -> None:
    assert "as-built/published/1.1/guide.md" in stand.run("guide")[1]


def test_a_licence_that_lies_in_the_repository_is_not_denied(stand: Stand) -> None:
    draft = stand.begin()
    draft.amend(replace(stand.project.snapshot.project, licence=""))
    stand.keep(draft, "no licence named")
    ours = "Licence**: none stated by the author"
    assert ours in stand.run("guide", "1.0", "--print")[1]
    stand.bench.write("LICENSE.txt", "CERN Open Hardware Licence Version 2\n")
    guide = stand.run("guide", "1.0", "--print")[1]
    assert ours not in guide
    assert "Licence**: the repository holds LICENSE.txt: read there" in guide
    assert stand.run("project", "--licence", "CERN-OHL-W-2.0")[0] == 0
    guide = stand.run("guide", "1.0", "--print")[1]
    assert "Licence**: CERN-OHL-W-2.0" in guide


def test_without_a_release_the_sentence_says_what_to_do(drawn: Stand) -> None:
    code, said = drawn.run("guide")
    assert code == NotFound.exit_code
    assert "accepted: logbook release 1.0 first, or --draft" in said
    assert drawn.run("guide", "--draft")[0] == 0
    text = drawn.read("as-built/published/draft/guide.md")
    assert "tag as-built" not in text
    assert "Untried: nobody has built this release." in text.replace("**", "")
    assert not drawn.project.snapshot.all(Release)


def test_the_users_own_template_wins_and_its_mistakes_are_named(stand: Stand) -> None:
    ours = stand.run("guide", "1.0", "--print")[1]
    assert "release 1.0" in ours
    stand.bench.write("as-built/templates/guide.md.j2", "# Mine {{ release.label }}\n")
    assert stand.run("guide", "1.0", "--print")[1] == "# Mine 1.0\n"
    stand.bench.write("as-built/templates/guide.md.j2", "# Mine\n\n{% if %}\n")
    code, said = stand.run("guide", "1.0", "--print")
    assert code == BadInput.exit_code
    assert "guide.md.j2:3: " in said
    (stand.bench.top / "as-built/templates/guide.md.j2").unlink()
    assert stand.run("guide", "1.0", "--print")[1] == ours


def test_a_strangers_template_reaches_nothing_but_the_facts(stand: Stand) -> None:
    escape = "{{ ''.__class__.__mro__[1].__subclasses__() }}"
    stand.bench.write("as-built/templates/guide.md.j2", escape)
    code, said = stand.run("guide", "1.0", "--print")
    assert code == BadInput.exit_code
    assert "unsafe" in said


def test_pictures_come_into_the_page_but_only_from_inside_the_project(
    stand: Stand, tmp_path: Path
) -> None:
    (tmp_path / "private.png").write_bytes(b"\x89PNG private")
    link = stand.bench.top / "as-built/photos/l.png"
    link.symlink_to(tmp_path / "private.png")
    draft = stand.begin()
    note = happenings.Note(
        id="ph0t0000",
        title="pictures",
        when=draft.when,
        photos=(
            happenings.Photo(path="as-built/photos/l.png", caption="a link out"),
            happenings.Photo(path="../private.png", caption="a way out"),
            happenings.Photo(path="as-built/photos/none.png", caption="not there"),
        ),
    )
    draft.add(note)
    stand.keep(draft, "pictures")
    stand.run("guide", "1.0")
    page = stand.read("as-built/published/1.0/guide.html")
    assert page.count('src="data:image/png;base64,') == 1
    for caption in ("a link out", "a way out", "not there"):
        assert f"Picture not in this page: {caption}" in page


def test_lists_are_tight_and_blocks_are_set_apart() -> None:
    rough = "# A\ntext\n- one\n\n- two\n## B\n> q\n\n> r\n| a |\n|---|\n\n| b |\nend"
    assert tidy(rough) == (
        "# A\n\ntext\n\n- one\n- two\n\n## B\n\n> q\n\n> r\n\n"
        "| a |\n|---|\n| b |\n\nend\n"
    )
    code = "```\nx\n\n\ny\n```\n"
    assert tidy(code) == code
