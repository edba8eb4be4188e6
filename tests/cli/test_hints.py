"""A hint that names a verb can be typed as it stands: a shell knows no “ ”."""

from __future__ import annotations

import re
from pathlib import Path

import logbook

ROOT = Path(logbook.__file__).parent
_CURLY = re.compile(
    r"""logbook\ [a-z-]+            # the verb
        (?:["'\s]|f["']|--?[a-z-]+)*  # options, or the next line of the same text
        “""",
    re.VERBOSE,
)
_NO_HINT = "logbook undo --bring-back in the shell brings back “"


def test_no_hint_of_a_verb_has_quotes_that_no_shell_knows() -> None:
    found = [
        f"{path.relative_to(ROOT)}: {hit.group()}"
        for path in [*ROOT.rglob("*.py"), *ROOT.parent.glob("templates/*.j2")]
        for hit in _CURLY.finditer(path.read_text("utf-8").replace(_NO_HINT, ""))
    ]
    assert found == []


def test_a_curly_quote_behind_a_verb_is_found() -> None:
    assert _CURLY.search('f"logbook machine “{words}” "')
    assert _CURLY.search('"logbook step --done "\n        f"“{title}”"')
    assert not _CURLY.search('f"logbook show says “{title}”"')
