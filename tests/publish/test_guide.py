"""The guide and the builder notes: goldens, order of what is said, what was frozen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from logbook.errors import BadInput, NotFound
from logbook.publish.guide import write_guide
from logbook.publish.notes import write_notes
from logbook.publish.pages import tidy
from logbook.records import model
from logbook.records.model import Release
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
            "**CHECK** Before you go on: this cannot be undone.",
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
    meant = text[text.index("## What the signal words mean") :]
    meant = meant[: meant.index("## Before you start")]
    assert "**WARNING** could kill or maim" in meant
    assert "**CAUTION** could hurt somebody, slightly or moderately." in meant
    assert "DANGER" not in text
    assert "NOTICE" not in text


def test_the_wrong_statement_is_marked_where_it_is_read_in_that_release_only(
    published: Stand,
) -> None:
    first, second = guide(published, "1.0"), guide(published, "1.1")
    row = next(line for line in first.split("\n") if line.startswith("| diffuser **"))
    assert "**Known fault 1**" in row
    assert "| drawings/diffuser.dxf **Known fault 1** |" in first
    assert "nown fault 1" not in second
    assert "## Wrong in earlier drawings, corrected here" in second
    assert "untried: nobody has made it yet" in second


def test_a_gap_says_to_measure_first_and_gives_this_builds_values_as_example(
    published: Stand,
) -> None:
    text = guide(published, "1.0")
    assert "make the length of the crossbar = base.opening − 0.3 mm" in text
    assert "of several places the smallest counts" in text
    assert "base opening 178.60 mm to 178.68 mm at 2 places (build 1)" in text
    assert "crossbar length 178.3 mm (build 1)" in text


def test_revisions_say_remake_fits_with_and_whether_they_were_tried(
    published: Stand,
) -> None:
    row = "| diffuser | rev A (newer than this release) |"
    text = guide(published, "1.0")
    line = next(line for line in text.split("\n") if line.startswith(row))
    assert line.endswith("| yes | base first issue | untried |")


# -- frozen ----------------------------------------------------------------------


def test_a_record_changed_after_the_release_stands_as_it_was_released(
    stand: Stand,
) -> None:
    draft = stand.begin()
    step = draft.snapshot.lookup("Fit the crossbar", model.Step)
    draft.amend(replace(step, title="Press the crossbar in", accept="it creaks"))
    item = draft.snapshot.lookup("opening", model.Characteristic)
    draft.amend(replace(item, nominal=q("175")))
    line = draft.snapshot.lookup("lamp", model.Line)
    draft.amend(replace(line, quantity=9))
    stand.keep(draft, "changed after the release")
    text = guide(stand, "1.0")
    assert "creaks" not in text
    assert "accept: it slides in by hand and does not rattle" in text
    assert "175" not in text
    assert "180.0 mm (178.8 mm to 181.2 mm)" in text
    assert "2 pieces; at left, right" in text


def test_records_made_after_the_release_are_not_in_its_guide(stand: Stand) -> None:
    draft = stand.begin()
    draft.new_part("hood")
    draft.add(model.Step(id="5tep0004", title="Put the hood on", when=draft.when))
    stand.keep(draft, "add a hood")
    assert "hood" not in guide(stand, "1.1")


# -- files, templates, refusals --------------------------------------------------


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


def test_without_a_release_the_sentence_says_what_to_do(drawn: Stand) -> None:
    code, said = drawn.run("guide")
    assert code == NotFound.exit_code
    assert "accepted: logbook release 1.0 first, or --draft" in said
    assert drawn.run("guide", "--draft")[0] == 0
    text = drawn.read("as-built/published/draft/guide.md")
    assert "Untried: nobody has built this release." in text.replace("**", "")
    assert not drawn.project.snapshot.all(Release)


def test_the_users_own_template_wins_and_its_mistakes_are_named(stand: Stand) -> None:
    stand.bench.write("as-built/templates/guide.md.j2", "# Mine {{ release.label }}\n")
    assert stand.run("guide", "1.0", "--print")[1] == "# Mine 1.0\n"
    stand.bench.write("as-built/templates/guide.md.j2", "# Mine\n\n{% if %}\n")
    code, said = stand.run("guide", "1.0", "--print")
    assert code == BadInput.exit_code
    assert "guide.md.j2:3: " in said


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
    note = model.Note(
        id="ph0t0000",
        title="pictures",
        when=draft.when,
        photos=(
            model.Photo(path="as-built/photos/l.png", caption="a link out"),
            model.Photo(path="../private.png", caption="a way out"),
            model.Photo(path="as-built/photos/none.png", caption="not there"),
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
