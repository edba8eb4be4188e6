"""What is done with a piece, or with what went wrong, put on record."""

from __future__ import annotations

from logbook.records.kinds.happenings import Deviation, Disposal, Failure
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Disposition
from logbook.records.kinds.workshop import Piece
from logbook.records.making.drafts import Draft


def dispose(
    draft: Draft,
    of: Piece | Deviation | Failure,
    do: Disposition,
    because: str = "",
) -> Disposal:
    """Decide on all that was wrong with a piece, or on one entry, of a piece or not."""
    entry = None if isinstance(of, Piece) else of
    return draft.add(
        Disposal(
            id=new_id(),
            title=f"{do.value}: {of.title}",
            when=draft.when,
            build=draft.build().ref,
            piece=entry.piece if entry else of.ref,
            disposition=do,
            answers=entry.ref if entry else None,
            because=because,
        )
    )
