"""Templates: where they are found, and the filters that keep words as written.

A template of the user's own, in `as-built/templates/`, wins over ours. All
templates run in Jinja's sandbox, because a repository may be a stranger's.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from jinja2.sandbox import ImmutableSandboxedEnvironment

_HOUSE = Path(__file__).parent.parent
SHIPPED = next(
    (
        place
        for place in (_HOUSE / "_templates", _HOUSE.parent / "templates")
        if place.is_dir()
    ),
    _HOUSE / "_templates",
)
"""Our templates: inside the package when installed, beside it in a checkout."""

_INLINE = re.compile(r"([\\`*_\[\]|]|<|&(?=[#\w])|(?<=\w)@(?=\w))")
_LINE_START = re.compile(r"^(\s*)([#>+=~-]|\d+[.)])(?=\s|$|[-=~`])", re.MULTILINE)
_TAG = re.compile(r"<(?=[!?/A-Za-z])")


def environment(own: Path | None = None) -> ImmutableSandboxedEnvironment:
    """Make the template environment; `own` is the user's template folder."""
    from jinja2 import ChoiceLoader, FileSystemLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    places = [own] if own is not None and own.is_dir() else []
    loader = ChoiceLoader([FileSystemLoader(place) for place in (*places, SHIPPED)])
    made = ImmutableSandboxedEnvironment(
        loader=loader,
        autoescape=lambda name: bool(name and name.endswith((".html", ".html.j2"))),
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    made.filters.update(md=inline, quoted=quoted, day=day, sentence=sentence)
    return made


def render(template: str, facts: Mapping[str, Any], own: Path | None = None) -> str:
    """Fill a template; blank lines never pile up, one newline ends the text.

    Raises:
        BadInput: the user's own template cannot be used; the line is named.
    """
    from jinja2 import TemplateError, TemplateSyntaxError

    from logbook.errors import BadInput

    try:
        text = environment(own).get_template(template).render(facts)
    except TemplateSyntaxError as error:
        raise BadInput(
            f"{error.filename or template}:{error.lineno}: {error.message}; "
            "accepted: a Jinja template"
        ) from None
    except TemplateError as error:
        raise BadInput(f"{template}: {error}; accepted: a Jinja template") from None
    return re.sub(r"\n{3,}", "\n\n", text).strip("\n") + "\n"


# -- filters ---------------------------------------------------------------------


def inline(words: object) -> str:
    """Escape words so that Markdown shows them as written, on one line."""
    text = " ".join(str(words).split())
    return _LINE_START.sub(r"\1\\\2", _INLINE.sub(r"\\\1", text))


def quoted(prose: str) -> str:
    """Put a record's prose into a quote: its Markdown works, HTML does not."""
    safe = _TAG.sub(r"\\<", prose)
    return "\n".join(f"> {line}".rstrip() for line in safe.split("\n"))


def day(moment: datetime | date) -> str:
    """Give a day as ISO 8601 writes it."""
    return moment.strftime("%Y-%m-%d")


def sentence(words: str) -> str:
    """Begin with a capital and end with a full stop."""
    words = words.strip()
    if not words:
        return ""
    ended = words if words.endswith((".", "!", "?", "…", "\\.")) else words + "."
    return ended[0].upper() + ended[1:]
