"""A revision as a form: what was typed and ticked, by row; text ⇄ form.

The form is kept as lines `row: what was typed`, so that even a damaged slip
gives its words back.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from logbook.errors import BadInput
from logbook.records.kinds.design import Change, DesignFile, Part
from logbook.records.kinds.happenings import Deviation, Entry, Failure
from logbook.records.making.drawn_anew import is_of, left_to_say, size_to_draw
from logbook.records.making.revising import (
    Revising,
    is_drawings_fault,
    mates_of,
    unanswered,
)
from logbook.records.sizes.definition import Dimension, definition
from logbook.records.sizes.limits import parse_drawn
from logbook.records.states.pieces import pieces_of, readings_of
from logbook.records.together.revisions import current_revision, revisions_of
from logbook.records.together.snapshot import Snapshot
from logbook.screens.part.revise_files import TICKED, files_taken, files_tied

TEXTS = ("changed", "why", "remake", "mates", "material", "compensated")
"""The rows that are words."""
TO_SUIT = "to suit"


@dataclass
class Form:
    """What stands in each row; rows are “entry ID”, “size ID” and the words."""

    rows: dict[str, str] = field(default_factory=dict)

    def text(self) -> str:
        """Give the form as the lines it is kept in."""
        return "\n".join(f"{key}: {words}" for key, words in self.rows.items() if words)

    @classmethod
    def read(cls, text: str) -> Form:
        """Give the form of kept lines."""
        rows = (line.partition(": ") for line in text.split("\n"))
        return cls({key: words for key, _, words in rows if words})

    def ticked(self, entry: Entry) -> bool:
        """Tell whether the revision answers this entry."""
        return bool(self.rows.get(f"entry {entry.id}"))


def new_form(snapshot: Snapshot, part: Part) -> Form:
    """Propose a revision from the entries that are the drawing's fault."""
    form = Form()
    for entry in unanswered(snapshot, part):
        if not is_drawings_fault(entry):
            continue
        sizes = {
            f"size {one.characteristic.id}": size
            for one in sizes_of(snapshot, part)
            if (size := size_to_draw(snapshot, entry, one))
        }
        cure = entry.cure if isinstance(entry, Deviation | Failure) else ""
        for key, size in sizes.items():
            form.rows.setdefault(key, size)
        if cure:
            form.rows.setdefault("changed", cure)
        if sizes or cure or not _of_a_size(snapshot, part, entry):
            form.rows[f"entry {entry.id}"] = TICKED
            form.rows.setdefault("why", entry.title)
    return form


def _of_a_size(snapshot: Snapshot, part: Part, entry: Entry) -> bool:
    return any(is_of(snapshot, entry, one) for one in sizes_of(snapshot, part))


def waiting_for_size(
    snapshot: Snapshot, part: Part, one: Dimension
) -> tuple[Deviation, ...]:
    """Give the drawing's faults in a dimension of which no new size is known."""
    faults = filter(is_drawings_fault, unanswered(snapshot, part))
    return left_to_say(snapshot, faults, one)


def answer_by_size(snapshot: Snapshot, part: Part, form: Form, key: str) -> None:
    """Tick what waited for the size of this row, once one is typed; else untick it."""
    typed = form.rows.get(key, "").strip()
    for one in sizes_of(snapshot, part):
        if key == f"size {one.characteristic.id}":
            for waiting in waiting_for_size(snapshot, part, one):
                form.rows[f"entry {waiting.id}"] = (
                    TICKED if typed or waiting.cure else ""
                )
                if typed and not form.rows.get("why"):
                    form.rows["why"] = waiting.title


def sizes_of(snapshot: Snapshot, part: Part) -> tuple[Dimension, ...]:
    """Give the dimensions of the current revision."""
    before = current_revision(snapshot, part)
    return definition(snapshot, before) if before else ()


def read_last(snapshot: Snapshot, part: Part, one: Dimension) -> str:
    """Say what the newest pieces read, as a proposal for a new size."""
    said = []
    for piece in pieces_of(snapshot, part)[-3:]:
        taken = readings_of(snapshot, piece, one.characteristic)
        if taken:
            said.append(f"{piece.title} reads {taken[-1].reading.value}")
    return ", ".join(said)


def change_of(one: Dimension, typed: str, unit: str) -> Change | None:
    """Give the change of a dimension as typed; None where it stays as it is.

    Raises:
        BadInput: what was typed is no size.
    """
    item, typed = one.characteristic, _without_name(one, typed.strip())
    if not typed:
        return None
    if typed.casefold() == TO_SUIT:
        return Change(characteristic=item.ref, was=one.nominal, to_suit=True)
    try:
        drawn = parse_drawn(typed, one.nominal.unit if one.nominal else unit)
    except BadInput as refusal:
        raise BadInput(f"{item.title}: {refusal}") from None
    known = one.nominal or one.lower or one.upper
    size = drawn.nominal or drawn.lower or drawn.upper
    if known is not None and size is not None and size.dimension != known.dimension:
        raise BadInput(
            f"{item.title}: “{size}” is a {size.dimension}; it is drawn {known}; "
            f"accepted: a {known.dimension}"
        )
    if known is not None and size is not None and size.value < 0 < known.value:
        raise BadInput(
            f"{item.title}: “{size}” is negative; it is drawn {known}; "
            "accepted: a number above 0"
        )
    if (drawn.nominal, drawn.lower, drawn.upper) == (one.nominal, None, None):
        return None
    return Change(
        characteristic=item.ref,
        was=one.nominal,
        becomes=drawn.nominal,
        lower_limit=drawn.lower,
        upper_limit=drawn.upper,
    )


def _without_name(one: Dimension, typed: str) -> str:
    """Give what was typed without the name of its row, which a run takes as well."""
    for name in (one.name, one.characteristic.title):
        if typed.casefold().startswith(f"{name.casefold()} "):
            return typed[len(name) :].strip().removeprefix("=").strip()
    return typed


def changes_of(snapshot: Snapshot, part: Part, form: Form) -> Iterator[Change]:
    """Give the changes of all dimensions.

    Raises:
        BadInput: one of them is no size.
    """
    for one in sizes_of(snapshot, part):
        typed = form.rows.get(f"size {one.characteristic.id}", "")
        change = change_of(one, typed, snapshot.project.unit)
        if change is not None:
            yield change


_OF_A_FILE = re.compile(r"(?i)(?:kerf|shrinkage|shrink|nominal)\b")


def mates_refused(snapshot: Snapshot, part: Part, form: Form) -> str:
    """Say why what it fits with cannot be so; nothing where it can.

    What is said of a file, as a kerf, is of the row behind it.
    """
    for one in _mates(form):
        if _OF_A_FILE.match(one):
            return (
                f"“{one}” is what its files allow for, and nothing it fits; accepted "
                "here: another part and its revision"
            )
    try:
        list(mates_of(revisions_of(snapshot, part), _mates(form)))
    except BadInput as refusal:
        return str(refusal)
    return ""


def _mates(form: Form) -> tuple[str, ...]:
    said = (one.strip() for one in form.rows.get("mates", "").split(";"))
    return tuple(filter(None, said))


def _tied_words(files: Sequence[DesignFile]) -> str:
    """Say what changed where nothing else did than that the part has files now."""
    return f"drawn in {', '.join(file.path for file in files)}"


def revising(
    snapshot: Snapshot, part: Part, form: Form, on_disk: Mapping[str, DesignFile]
) -> Revising:
    """Give what the form says, with the files as they are on disk.

    Raises:
        BadInput: a size is none, or nothing changes at all.
    """
    words = {key: form.rows.get(key, "").strip() for key in TEXTS}
    changes = tuple(changes_of(snapshot, part, form))
    tied = files_tied(snapshot, part, form.rows, on_disk)
    told = any(words[key] for key in ("changed", "material", "compensated"))
    if not (changes or told or tied):
        raise BadInput(
            "nothing changes yet; accepted: a size, words in “changed”, a file ticked"
        )
    return Revising(
        changed=words["changed"] or ("" if changes or told else _tied_words(tied)),
        why=words["why"],
        because=tuple(e.ref for e in unanswered(snapshot, part) if form.ticked(e)),
        changes=changes,
        files=tuple(files_taken(snapshot, part, form.rows, on_disk)),
        material=words["material"],
        compensated=words["compensated"],
        remake=words["remake"],
        mates=_mates(form),
    )
