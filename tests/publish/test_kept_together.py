"""On paper a section, and a picture with its words, are not torn apart."""

from __future__ import annotations

from logbook.publish.whole_page import page

TEXT = """# The stand

## Steps

### 1. Fold the base

Fold it.

![A crack](crack.png)

*A crack from the hole*

### 2. Cut the bar

Cut it.

## Gaps

None.
"""


def test_each_step_and_each_picture_is_a_whole() -> None:
    made = page(TEXT, title="The stand", picture=lambda _: "data:image/png;base64,AA")
    body = made.partition("</nav>")[2] or made.partition("</h1>")[2]
    assert body.count('<section class="whole">') == body.count("</section>") == 2
    first = body.partition('<section class="whole">')[2].partition("</section>")[0]
    assert "1. Fold the base" in first
    assert "<figure><img " in first
    assert "<figcaption><em>A crack from the hole</em></figcaption>" in first
    assert "Cut the bar" not in first
    assert body.index("</section>\n<h2") > body.index("Cut it.")


def test_what_is_no_step_may_go_on_overleaf() -> None:
    text = TEXT.replace(
        "## Gaps", "## Making the parts\n\n### Base\n\nOf sheet.\n\n## Gaps"
    )
    made = page(text, title="The stand")
    assert made.count('<section class="whole">') == 2
    [part] = made.split('<section class="part">')[1:]
    assert "Of sheet." in part.partition("</section>")[0]


def test_a_picture_that_is_missing_keeps_its_words_too() -> None:
    made = page(TEXT, title="The stand")
    assert '<figure><span class="missing">Picture not in this page' in made


def test_a_page_of_no_sections_stays_as_it_is() -> None:
    made = page("# The stand\n\n## Notes\n\nNone.\n", title="The stand")
    assert "<section" not in made
    assert "<p>None.</p>" in made


def test_a_known_fault_stays_with_what_is_to_be_minded_before_it() -> None:
    boxes = (
        "> **WARNING** No flame.\n\n> **CAUTION** Hot.\n\n> **KNOWN FAULT 1** It split."
    )
    made = page(f"# The stand\n\n## Faults\n\n{boxes}\n\nMore.\n", title="The stand")
    kept = made.partition('<div class="whole">')[2].partition("</div>")[0]
    assert kept.count("<blockquote") == 3
    assert "It split." in kept
    alone = page(f"# The stand\n\n{boxes.rpartition('> ')[0]}", title="The stand")
    assert '<div class="whole">' not in alone
