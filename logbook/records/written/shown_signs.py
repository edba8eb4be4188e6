"""Text from files on its way to a terminal: no sign of it steers what shows it.

Records, names of files and what git says may hold control signs and marks that turn
the direction of writing. Each is shown as a sign that stands for it.
"""

from __future__ import annotations


def is_utf8(words: str) -> bool:
    """Tell whether words can stand in a record: no bytes in them that are not UTF-8."""
    try:
        words.encode()
    except UnicodeEncodeError:
        return False
    return True


def one_line(words: str) -> str:
    """Give words without line ends and control signs, each shown as a sign."""
    return words if words.isprintable() else "".join(map(_in_a_line, words))


def lines_shown(text: str) -> str:
    """Give text with its line ends, and every other control sign shown as a sign."""
    return text if text.isprintable() else "".join(map(_shown, text))


def _in_a_line(sign: str) -> str:
    return " " if sign in "\n\t" else _shown(sign)


def _shown(sign: str) -> str:
    code = ord(sign)
    if sign in "\n\t":
        return sign
    if code < 32:
        return chr(0x2400 + code)
    if code == 0x7F:
        return "\u2421"
    hidden = 0x80 <= code <= 0x9F or 0x200B <= code <= 0x200F
    hidden = hidden or 0x202A <= code <= 0x202E or 0x2066 <= code <= 0x2069
    return "\ufffd" if hidden or 0xD800 <= code <= 0xDFFF else sign
