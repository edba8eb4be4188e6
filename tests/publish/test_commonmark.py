"""Prose is read by the examples of the CommonMark specification."""

from __future__ import annotations

import pytest

from logbook.publish.html import (
    anchor,
    markdown,
    with_contents,
)

# Examples of the CommonMark specification 0.31.2, by their number there (from
# memory of the specification; checked with the reader of the same version).
COMMONMARK = [
    (1, "\tfoo\tbaz\t\tbim\n", "<pre><code>foo\tbaz\t\tbim\n</code></pre>\n"),
    (12, '\\!\\"\\#\n', "<p>!&quot;#</p>\n"),
    (42, "- `one\n- two`\n", "<ul>\n<li>`one</li>\n<li>two`</li>\n</ul>\n"),
    (43, "***\n---\n___\n", "<hr />\n<hr />\n<hr />\n"),
    (62, "# foo\n## foo\n", "<h1>foo</h1>\n<h2>foo</h2>\n"),
    (119, "```\n<\n >\n```\n", "<pre><code>&lt;\n &gt;\n</code></pre>\n"),
    (219, "aaa\n\nbbb\n", "<p>aaa</p>\n<p>bbb</p>\n"),
    (228, "> # Foo\n> bar\n> baz\n",
     "<blockquote>\n<h1>Foo</h1>\n<p>bar\nbaz</p>\n</blockquote>\n"),
    (301, "- foo\n- bar\n+ baz\n",
     "<ul>\n<li>foo</li>\n<li>bar</li>\n</ul>\n<ul>\n<li>baz</li>\n</ul>\n"),
    (328, "`foo`\n", "<p><code>foo</code></p>\n"),
    (350, "*foo bar*\n", "<p><em>foo bar</em></p>\n"),
    (378, "**foo bar**\n", "<p><strong>foo bar</strong></p>\n"),
    (482, '[link](/uri "title")\n', '<p><a href="/uri" title="title">link</a></p>\n'),
    (594, "<http://foo.bar.baz>\n",
     '<p><a href="http://foo.bar.baz">http://foo.bar.baz</a></p>\n'),
    (633, "foo  \nbaz\n", "<p>foo<br />\nbaz</p>\n"),
]  # fmt: skip


@pytest.mark.parametrize(("number", "text", "html"), COMMONMARK)
def test_commonmark_examples(number: int, text: str, html: str) -> None:
    assert markdown().render(text) == html, f"example {number}"


def test_anchors_are_those_of_the_headings_and_doubles_are_counted() -> None:
    assert anchor("Known faults of this release") == "known-faults-of-this-release"
    text = "## Gaps, made to suit\n\n## A\n\n## A\n"
    assert with_contents(text)[1] == (
        ("gaps-made-to-suit", "Gaps, made to suit"), ("a", "A"), ("a-1", "A"),
    )  # fmt: skip
