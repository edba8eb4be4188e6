"""What is not to be used because of a known fault, and until when."""

from __future__ import annotations

from logbook.advice.faults.fixing import fixed
from logbook.records.kinds.made_public import Erratum
from logbook.records.kinds.words import Severity
from logbook.records.together.snapshot import Snapshot


def stops(erratum: Erratum) -> bool:
    """Tell whether it is so grave that what has it is not to be used."""
    return bool(erratum.stop_using_until) or erratum.severity is Severity.SAFETY


def not_until(snapshot: Snapshot, erratum: Erratum) -> str:
    """Say until when not to use it, to stand behind “do not use it”; else nothing.

    Where it came back in what was to end it, that ends nothing any more.
    """
    said = erratum.stop_using_until.strip().removeprefix("until ").rstrip(".")
    if not said:
        return ""
    now = fixed(snapshot, erratum)
    if now is not None and now.back:
        return f"at all for now; it was to be until {said}"
    return f"until {said}"
