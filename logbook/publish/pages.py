"""Templates: where they are found, and the filters that keep words as written.

A template of the user's own, in `as-built/templates/`, wins over ours. All
templates run in Jinja's sandbox, because a repository may be a stranger's.
"""

from __future__ import annotations

import posixpath
import re
from collections.abc import Mapping
from contextlib import suppress
from datetime import date, datetime
from functools import lru_cache
from pathlib import Path
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from logbook.publish.decimal_point import decimal_points
from logbook.units import minus_signs

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

_INLINE = re.compile(r"([\\`*_\[\]|~]|<|&(?=[#\w])|(?<=\w)@(?=\w))")
_LINE_START = re.compile(r"^(\s*)([#>+=-]|\d+[.)])(?=\s|$|[-=>])")
_PICTURE = re.compile(r"!\[([^\[\]]*)\]\(([^()\s]+)\)")
_SHOWN = {code: chr(0x2400 + code) for code in range(32) if code not in (9, 10)} | {
    0x7F: "\u2421",
    **{code: f"[U+{code:04X}]" for code in range(0x80, 0xA0)},
    **{code: f"[U+{code:04X}]" for code in (*range(0x202A, 0x202F), 0x200E, 0x200F)},
    **{code: f"[U+{code:04X}]" for code in (*range(0x2066, 0x206A), 0x061C, 0xFEFF)},
    0x2028: " ",
    0x2029: " ",
}
_ITEM = re.compile(r"(?:[-*+]|\d+[.)])\s")
_FENCE = re.compile(r"\s*(?:```|~~~)")
_TAG = re.compile(r"<(?=[!?/A-Za-z])")


def environment(own: Path | None = None) -> ImmutableSandboxedEnvironment:
    """Give the template environment; `own` is the user's template folder."""
    if own is None or not own.is_dir():
        return _environment(None, ())
    names: list[str] = []
    with suppress(OSError):
        names = sorted(path.name for path in own.iterdir())
    return _environment(own, tuple(names))


@lru_cache(maxsize=4)
def _environment(
    own: Path | None, _names: tuple[str, ...]
) -> ImmutableSandboxedEnvironment:
    """Make it once: of all that a page costs, most is to compile its templates.

    Jinja reads a template again that was changed; a new one in the user's folder would
    not be seen to win over ours, so there is another environment for other names.
    """
    from jinja2 import ChoiceLoader, FileSystemLoader, StrictUndefined
    from jinja2.sandbox import ImmutableSandboxedEnvironment

    from logbook.publish.compiled import Compiled

    places = [own] if own is not None else []
    loader = ChoiceLoader([FileSystemLoader(place) for place in (*places, SHIPPED)])
    made = ImmutableSandboxedEnvironment(
        loader=loader,
        autoescape=lambda name: bool(name and name.endswith((".html", ".html.j2"))),
        undefined=StrictUndefined,
        finalize=_as_read,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
        bytecode_cache=Compiled(SHIPPED),
    )
    made.filters.update(
        md=inline,
        quoted=quoted,
        day=day,
        sentence=sentence,
        capital=capital,
        stop=stopped,
        css=css_string,
        path=link_path,
    )
    return made


def _as_read(value: Any) -> Any:
    """Give what a template shows: plain text with its minus signs, else as it is."""
    return minus_signs(value) if type(value) is str else value


def render(template: str, facts: Mapping[str, Any], own: Path | None = None) -> str:
    """Fill a Markdown template; `tidy` decides on its blank lines.

    Raises:
        BadInput: the user's own template cannot be used; the line is named.
    """
    return tidy(render_page(template, facts, own))


def render_page(
    template: str, facts: Mapping[str, Any], own: Path | None = None
) -> str:
    """Fill a template, white space as it stands there.

    Raises:
        BadInput: the user's own template cannot be used; the line is named.
    """
    from jinja2 import TemplateError, TemplateSyntaxError

    from logbook.errors import BadInput

    try:
        return environment(own).get_template(template).render(facts)
    except TemplateSyntaxError as error:
        raise BadInput(
            f"{error.filename or template}:{error.lineno}: {error.message}; "
            "accepted: a Jinja template"
        ) from None
    except TemplateError as error:
        raise BadInput(f"{template}: {error}; accepted: a Jinja template") from None


def tidy(text: str) -> str:
    """Give Markdown whose blocks are set apart and whose lists are tight.

    Templates can then be laid out for reading. Fenced code stays as it is.
    """
    made: list[str] = []
    gap = fenced = False
    for line in text.split("\n"):
        if fenced:
            made.append(line)
            fenced = not _FENCE.match(line)
        elif not line.strip():
            gap = True
        else:
            if made and _apart(made[-1], line, gap=gap):
                made.append("")
            made.append(line.rstrip())
            gap, fenced = False, bool(_FENCE.match(line))
    return "\n".join(made) + "\n"


def _apart(above: str, below: str, *, gap: bool) -> bool:
    """Tell whether a blank line belongs between two lines of Markdown."""
    one, two = _block(above), _block(below)
    if two == "more" and one in {"item", "more"}:
        return False
    if one in {"item", "more"} and two == "item":
        return False
    if one == two == "row":
        return False
    return gap if one == two and one != "heading" else True


def _block(line: str) -> str:
    if line.startswith((" ", "\t")):
        return "more"
    if _ITEM.match(line):
        return "item"
    return {"|": "row", ">": "quote", "#": "heading"}.get(line[0], "text")


# -- filters ---------------------------------------------------------------------


def visible(text: str) -> str:
    """Show what would act on the page unseen: control and direction characters."""
    return text.translate(_SHOWN)


def inline(words: object) -> str:
    """Escape words so that Markdown shows them as written, on one line."""
    text = minus_signs(decimal_points(visible(" ".join(str(words).split()))))
    return _LINE_START.sub(_start_escaped, _INLINE.sub(r"\\\1", text))


def _start_escaped(match: re.Match[str]) -> str:
    sign = match[2]
    return f"{match[1]}{sign[:-1]}\\{sign[-1]}"


def quoted(prose: str, base: str = "", out: str = "") -> str:
    """Put a record's prose into a quote: its Markdown works, HTML does not.

    Pictures named from the record's folder `base` are named from `out` instead.
    """
    safe = _TAG.sub(r"\\<", visible(prose))
    if out:
        safe = _PICTURE.sub(lambda match: _moved(match, base, out), safe)
    return "\n".join(f"> {line}".rstrip() for line in safe.split("\n"))


def _moved(match: re.Match[str], base: str, out: str) -> str:
    source = match[2]
    place = posixpath.normpath(posixpath.join(base, source))
    if ":" in source or source.startswith("/") or place.startswith(".."):
        return f"{match[1]} ({inline(source)})"
    return f"![{match[1]}]({posixpath.relpath(place, out)})"


def link_path(path: str) -> str:
    """Give a path as the target of a Markdown link."""
    return quote(path, safe="/.-_~")


def day(moment: datetime | date) -> str:
    """Give a day as ISO 8601 writes it."""
    return moment.strftime("%Y-%m-%d")


def sentence(words: str) -> str:
    """Begin with a capital and end with a full stop."""
    return capital(stopped(words))


def capital(words: str) -> str:
    """Begin with a capital."""
    return words[:1].upper() + words[1:]


def stopped(words: str) -> str:
    """End words with a full stop, where they do not end themselves."""
    words = words.strip()
    if not words or words.endswith((".", "!", "?", "…", ".)")):
        return words
    return words + "."


def css_string(words: str) -> str:
    """Give words as a CSS string that nothing in them can end."""
    coded = "".join(
        sign if sign.isascii() and sign.isalnum() else f"\\{ord(sign):x} "
        for sign in visible(" ".join(words.split()))
    )
    return f'"{coded}"'
