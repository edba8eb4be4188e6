"""Words and lines of a page stand out enough from their ground, light and dark."""

from __future__ import annotations

import re

import pytest

from logbook.publish.pages import SHIPPED


def colours(css: str) -> dict[str, str]:
    return dict(re.findall(r"--([a-z-]+): (#[0-9a-f]{6});", css))


def themes() -> dict[str, dict[str, str]]:
    css = (SHIPPED / "page.html.j2").read_text("utf-8")
    light = css[css.index(":root") : css.index("@media (prefers")]
    dark = css[css.index("@media (prefers") : css.index("* { box-sizing")]
    paper = css[css.index("@media print") : css.index("html { font-size: 10pt")]
    base = colours(light)
    return {
        "light": base,
        "dark": base | colours(dark),
        "print": base | colours(paper),
    }


def luminance(colour: str) -> float:
    """Relative luminance of a colour (WCAG 2.2, definition; sRGB)."""
    parts = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [
        p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts
    ]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, two: str) -> float:
    """Contrast ratio of two colours (WCAG 2.2, definition), 1 to 21."""
    bright, dim = sorted((luminance(one), luminance(two)), reverse=True)
    return (bright + 0.05) / (dim + 0.05)


def test_the_formula_gives_the_published_ends() -> None:
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.005)


@pytest.mark.parametrize("theme", ["light", "dark", "print"])
def test_text_has_a_contrast_of_4_5_and_lines_of_3(theme: str) -> None:
    """WCAG 2.2, 1.4.3 and 1.4.11."""
    found = themes()[theme]
    for ink in ("ink", "faint", "link", "mark"):
        for ground in ("paper", "soft"):
            assert contrast(found[ink], found[ground]) >= 4.5, (ink, ground)
    for word in ("danger", "warning", "caution", "notice", "fault", "check"):
        assert contrast(found[f"{word}-ink"], found[word]) >= 4.5, word
    for ground in ("paper", "soft"):
        assert contrast(found["rule"], found[ground]) >= 3, ground
