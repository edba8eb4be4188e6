"""A size that needs no second layout.

Whenever Textual has given a widget another size, it lays the whole screen out once
more, because scroll bars might come or go by it. What never scrolls needs none.
"""

from __future__ import annotations

from textual.geometry import Size
from textual.reactive import Reactive


def settled() -> Reactive[Size]:
    """Give the `virtual_size` of a widget that never scrolls."""
    return Reactive(Size(0, 0), layout=False)
