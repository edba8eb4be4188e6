"""What is said of words typed at a question that do not answer it, at every door."""

from __future__ import annotations

from textwrap import shorten

MOST_QUOTED = 60
"""Signs of what was typed that are said again."""


def no_answer(said: str, accepted: str, then: str = "") -> str:
    """Say that words do not answer a question, what does, and what becomes of them."""
    short = shorten(said, MOST_QUOTED, placeholder=" …")
    told = f"“{short}” does not answer this; accepted: {accepted}"
    return f"{told}. {then}" if then else told
