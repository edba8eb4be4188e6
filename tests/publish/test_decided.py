"""Decisions that no revision has yet, and the hours of a build, in the guide."""

from __future__ import annotations

from tests.publish.stand import Stand


def draft_guide(stand: Stand) -> str:
    code, said = stand.run("guide", "--draft")
    assert code == 0, said
    return stand.read("as-built/published/draft/guide.md")


def test_a_decision_stands_at_its_part_until_a_revision_has_it(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    line = "going with acrylic for the diffuser because polystyrene cracks"
    code, said = drawn.run("say", line, "--yes")
    assert code == 0, said
    text = draft_guide(drawn)
    part = text[text.index("### Diffuser") :]
    lead = "- **Decided, not in a revision yet**: build 1: "
    assert f"{lead}{line}" in part.replace(f"{lead}G", f"{lead}g")
    code, said = drawn.run("revise", "diffuser", "--changed", "acrylic")
    assert code == 0, said
    assert "Decided, not in a revision yet" not in draft_guide(drawn)


def test_a_decision_that_names_no_part_is_in_the_guide_too(drawn: Stand) -> None:
    assert "## Decided on the bench" not in draft_guide(drawn)
    drawn.run("build", "build 1")
    decided = "cut the sleeving 25 mm long"
    for words in (
        (decided, "--why", "22 pulled back to 19"),
        ("oil it", "--part", "base"),
    ):
        code, said = drawn.run("decision", *words)
        assert code == 0, said
    section = draft_guide(drawn).partition("## Decided on the bench")[2]
    told = section.partition("\n## ")[0]
    line = "build 1: cut the sleeving 25 mm long, because 22 pulled back to 19."
    assert f"- {line}" in told
    assert "oil it" not in told


def test_the_hours_of_a_build_are_told_with_how_they_are_known(drawn: Stand) -> None:
    drawn.run("build", "build 1")
    assert "Time on record" not in draft_guide(drawn)
    drawn.run("step", "Fold the base", "--done", "--time", "11.2 h")
    said = "- **Time on record**, an example: build 1 took about 11 h so far (as said)."
    assert said in draft_guide(drawn)
    drawn.run("notes")
    assert said in drawn.read("as-built/published/builder-notes.md")
    for name in ("Fit the crossbar", "Screw the diffuser on"):
        drawn.run("step", name, "--done")
    untimed = "no time is on record of: Fit the crossbar, Screw the diffuser on"
    assert f"build 1 took about 11 h (as said; {untimed})." in draft_guide(drawn)
