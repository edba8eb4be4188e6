"""What stays on one sheet of a printed page.

A step with what to mind at it, a picture and its words, a known fault and what to mind
at its cure. Any other section may go on overleaf: kept whole, each left half a page
white. Its cautions stay with what follows them by the styles of the page.
"""

from __future__ import annotations

import re

_HEADING = re.compile(r"(?m)^(?=<h[123][ >])")
_PICTURE = re.compile(
    r"<p>(<img [^>]*>|<span class=\"missing\">[^<]*</span>)</p>\n<p><em>(.*?)</em></p>"
)

_BOX = r"<blockquote class=\"signal {}\">.*?</blockquote>\n"
_TO_A_FAULT = re.compile(
    rf"(?s)(?:{_BOX.format('(?:danger|warning|caution|notice)')})+{_BOX.format('fault')}"
)
"""What to mind at the work a known fault asks for, and the fault itself."""


_STEPS = '<h2 id="steps"'
"""How the section begins whose sections are steps."""


def kept_together(html: str) -> str:
    """Give a page's body with its third-level sections marked, its steps as wholes.

    Pictures are wholes as well. A picture is followed by its words, set apart as
    emphasis.
    """
    made, kept = [], "part"
    for part in _HEADING.split(html):
        if part.startswith(("<h1", "<h2")):
            kept = "whole" if part.startswith(_STEPS) else "part"
        made.append(_marked(part, kept))
    return "".join(made)


def _marked(part: str, kept: str) -> str:
    shown = _PICTURE.sub(
        r"<figure>\1<figcaption><em>\2</em></figcaption></figure>", part
    )
    if not shown.startswith("<h3"):
        return _TO_A_FAULT.sub(
            lambda found: f'<div class="whole">\n{found[0]}</div>\n', shown
        )
    return f'<section class="{kept}">\n{shown.rstrip()}\n</section>\n'
