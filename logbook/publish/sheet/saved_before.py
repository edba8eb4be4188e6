"""What was saved of a job sheet before, box by box: a sheet of paper is typed in once.

Each saving lies in the user's state folder with the entries it became. Where those are
taken back, its boxes were never typed in, and come back to be saved again.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from logbook.records.together.snapshot import Snapshot
from logbook.store.disk.own_files import keep_own_file, own_file


@dataclass(frozen=True, slots=True)
class Saving:
    """The ids of the entries one saving of a sheet became, and the rows typed."""

    became: tuple[str, ...]
    rows: str

    def stands(self, snapshot: Snapshot) -> bool:
        """Tell whether it is on record still, not taken back."""
        return any(identity in snapshot for identity in self.became)

    @property
    def texts(self) -> dict[int, str]:
        """What was typed in each box, by its number."""
        rows = (row.partition(" ") for row in self.rows.split("\n"))
        return {int(first): text for first, _, text in rows if first.isdecimal()}


def savings(root: Path, mark: str) -> tuple[Saving, ...]:
    """Give what was saved of the sheet with this mark here, the oldest first.

    Raises:
        Refused: the state folder cannot be read.
    """
    kept = (own_file(root, _name(mark)) or b"").decode("utf-8", "replace")
    found = []
    for saving in filter(None, kept.split("\n\n")):
        became, _, rows = saving.partition("\n")
        found.append(Saving(tuple(became.split()), rows.rstrip("\n")))
    return tuple(found)


def keep_savings(root: Path, mark: str, every: Sequence[Saving]) -> None:
    """Keep what was saved of a sheet, in place of what was known before.

    Raises:
        Refused: the state folder cannot be written.
    """
    text = "\n\n".join(f"{' '.join(one.became)}\n{one.rows}" for one in every)
    keep_own_file(root, _name(mark), text.encode(), own_file(root, _name(mark)))


def repeated_words(
    repeated: Iterable[int], typed: Mapping[int, str], saved: Mapping[int, str]
) -> str:
    """Say which boxes are typed in a second time, and what other values stand there."""
    numbers = [*repeated]
    boxes = "box" if len(numbers) == 1 else "boxes"
    verb = "is" if len(numbers) == 1 else "are"
    other = [
        f"{n} as {saved[n]}, now {typed[n]}" for n in numbers if saved[n] != typed[n]
    ]
    listed = ", ".join(map(str, numbers))
    said = f"{boxes} {listed} of this sheet {verb} on record already"
    return "; ".join([said, *other])


def _name(mark: str) -> str:
    return f"sheets/{mark}.saved"
