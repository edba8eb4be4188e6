"""The kind a rule chooses for a line."""

from __future__ import annotations

from dataclasses import dataclass

from logbook.plain.understanding import Doubt, Kind


@dataclass(frozen=True, slots=True)
class Choice:
    """A kind, how sure it is, the word that told it, and a doubt if there is one."""

    kind: Kind
    confidence: float
    at: int = -1
    doubt: Doubt | None = None
