"""What stays on one sheet of a printed page.

A section, a picture and its words, a known fault and what to mind at its cure.
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


def kept_together(html: str) -> str:
    """Give a page's body with its third-level sections and its pictures as wholes.

    A picture is followed by its words, set apart as emphasis.
    """
    parts = _HEADING.split(html)
    return "".join(map(_whole, parts))


def _whole(part: str) -> str:
    shown = _PICTURE.sub(
        r"<figure>\1<figcaption><em>\2</em></figcaption></figure>", part
    )
    if not shown.startswith("<h3"):
        return _TO_A_FAULT.sub(
            lambda found: f'<div class="whole">\n{found[0]}</div>\n', shown
        )
    return f'<section class="whole">\n{shown.rstrip()}\n</section>\n'
