"""Text that would break a page, and a stand whose records are full of it."""

from __future__ import annotations

from hypothesis import strategies as st

from logbook.records.kinds import design, happenings
from logbook.records.kinds.words import Blame, Disposition
from tests.publish.stand import Stand
from tests.records.strategies import NASTY

HOSTILE = [
    "<script>document.title='x'</script>",
    '<img src=x onerror="alert(1)">',
    "[a](javascript:alert(1))",
    "![a](http://127.0.0.1:1/x.png)",
    "a | b || c",
    "**bold** _it_ `code` ~~gone~~",
    "# no heading",
    "- no list",
    "> no quote",
    "1. no number",
    "--- ",
    "&lt;b&gt; &amp; &#x41;",
    "\x1b[31mred\x07",
    "left \u202eevil\u2066 right",
    "\\* \\",
    "</main></body>",
    "{{ 7 * 7 }} {% raw %}",
    "http://example.org <http://example.org>",
    "@left.opening base@left.opening",
]

anything = st.text(
    st.characters(codec="utf-8", exclude_categories=["Cs"]), max_size=40
) | st.sampled_from([*NASTY, *HOSTILE])


def hostile(stand: Stand, text: str) -> None:
    """Put a text into every place of a record that the pages show."""
    draft = stand.begin()
    part = draft.snapshot.lookup("diffuser", design.Part)
    revision = draft.snapshot.lookup("diffuser first issue", design.Revision)
    draft.add(
        happenings.Failure(
            id="h0st11e0",
            title=text,
            prose=text,
            part=part.ref,
            where=text,
            cure=text,
            consequence=text,
            cause=happenings.Cause(said=text),
            met_by_others=Blame.DRAWING,
            when=revision.when.replace(day=20),
            disposition=Disposition.SCRAP,
        )
    )
    stand.keep(draft, "hostile")
