"""The rows of a revision that is being filled in, and what each of them is for."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from logbook.records.kinds.design import DesignFile, Part
from logbook.records.kinds.table import kind_of
from logbook.records.making.revising import is_drawings_fault, unanswered
from logbook.records.sizes.definition import Dimension
from logbook.records.sizes.limits_held import as_held, held_text
from logbook.records.states.read_now import found_now
from logbook.records.together.labels import label_words, next_label
from logbook.records.together.revisions import (
    current_revision,
    revisions_of,
    shown_label,
)
from logbook.records.together.snapshot import Snapshot
from logbook.screens.part.part_lines import file_state
from logbook.screens.part.revise_files import is_tied, offered_files, tie_key
from logbook.screens.part.revise_form import (
    TEXTS,
    Form,
    read_last,
    sizes_of,
    waiting_for_size,
)
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.moments import day
from logbook.screens.ruled.passage import Say

HINTS = {
    "changed": "what changed, in a sentence",
    "why": "the reason",
    "remake": "must earlier pieces be made again? yes, no, or only if …",
    "mates": "what it fits: base first issue or later; several by ;",
    "material": "another material, if it changes",
    "compensated": "what its files allow for: kerf 0.2 mm, shrinkage; or nominal",
}
"""What may be typed in the rows that are words."""
LABELS = {"compensated": "allows for"}
"""What stands before a row whose name is too long for the margin."""


def hint_of(snapshot: Snapshot, part: Part, name: str) -> str:
    """Give what may be typed in a row; “same” only where the one before says it."""
    before = current_revision(snapshot, part)
    same = name == "mates" and before is not None and before.mates_with
    return HINTS.get(name, "") + (" or “same”" if same else "")


GIVES_WAY = Say("typing", "takes the place of what is proposed; End goes on behind it")
"""Said of a row in which something is proposed."""


def next_words(snapshot: Snapshot, part: Part) -> str:
    """Give the label that a part's next revision will have, in words."""
    labels = [one.label for one in revisions_of(snapshot, part)]
    return label_words(next_label(labels))


def what_stands(snapshot: Snapshot, part: Part) -> Say:
    """Say what the form makes, and that what it follows stays as it is."""
    before = current_revision(snapshot, part)
    made = f"{next_words(snapshot, part)}, drawn from then on"
    if before is None:
        return Say("makes", made)
    stays = f"{shown_label(before)} stays as it is, with the pieces made to it"
    return Say("makes", f"{made}; {stays}")


def rows_of_form(
    snapshot: Snapshot,
    part: Part,
    form: Form,
    on_disk: Mapping[str, DesignFile] | None,
) -> Iterator[Line]:
    """Give the rows of the form: entries, sizes, words, files as they are `on_disk`."""
    rows = form.rows
    for at, entry in enumerate(unanswered(snapshot, part)):
        tick = "[x]" if form.ticked(entry) else "[ ]"
        whose = "the drawing's fault" if is_drawings_fault(entry) else ""
        said = f"{kind_of(entry).shown} {day(entry.when)}"
        words = " · ".join(filter(None, (f"{tick} {entry.title}", whose, said)))
        yield Line(f"entry {entry.id}", "answers" if not at else "", words)
    for at, one in enumerate(sizes_of(snapshot, part)):
        typed = rows.get(f"size {one.characteristic.id}", "")
        held = held_text(as_held(snapshot, one))
        words = f"{one.name}: {held} {f'→ {typed}' if typed else 'stays'}"
        if asked := _what_to_draw(snapshot, part, one, typed):
            words = f"{one.name}: {one.nominal or held} · {asked}"
        key = f"size {one.characteristic.id}"
        yield Line(key, "sizes" if not at else "", words)
    for name in TEXTS:
        yield Line(
            name,
            LABELS.get(name, name),
            rows.get(name, "") or f"({hint_of(snapshot, part, name)})",
        )
    before = current_revision(snapshot, part)
    for at, file in enumerate(before.files if before else ()):
        words = f"{file_state(file, on_disk)}: {file.path}"
        yield Line(f"file {file.path}", "files" if not at else "", words)
    for at, path in enumerate(offered_files(snapshot, part, on_disk)):
        tick = "[x]" if is_tied(snapshot, part, rows, path) else "[ ]"
        words = f"{tick} {path} · of no part yet"
        yield Line(tie_key(path), "more files" if not at else "", words)


def _what_to_draw(snapshot: Snapshot, part: Part, one: Dimension, typed: str) -> str:
    """Ask for the size to draw: what was found is what it must not be."""
    waiting = () if typed else waiting_for_size(snapshot, part, one)
    for entry in waiting[:1]:
        wanted = f", wanted {entry.wanted}" if entry.wanted else ""
        found = found_now(snapshot, entry)
        return f"found {found}{wanted}: what shall the drawing say?"
    return ""


def _said_of_size(
    snapshot: Snapshot, part: Part, form: Form, key: str
) -> Iterator[Say]:
    yield Say("accepted", "178.3, 178.3 ±0.1, “to suit”, or nothing: it stays")
    for one in sizes_of(snapshot, part):
        if key != f"size {one.characteristic.id}":
            continue
        if asked := _what_to_draw(snapshot, part, one, form.rows.get(key, "")):
            yield Say("to say", asked)
        if read := read_last(snapshot, part, one):
            yield Say("read", read)


def said_of(snapshot: Snapshot, part: Part, form: Form, key: str) -> Iterator[Say]:
    """Say what the row with this key is for."""
    sort, _, name = key.partition(" ")
    if sort == "entry":
        yield Say("Space", "ticks what this revision answers")
        entry = snapshot.by_id(name)
        if entry is not None and entry.prose:
            yield Say("prose", entry.prose.replace("\n", " "))
    elif sort == "size":
        yield from _said_of_size(snapshot, part, form, key)
    elif sort == "file":
        yield Say("file", "is taken as it is on disk when the revision is saved")
    elif sort == "tie":
        yield Say("Space", f"takes it as the file of {part.title}, or takes it away")
    elif sort in TEXTS:
        yield Say(
            LABELS.get(sort, sort),
            form.rows.get(sort, "") or hint_of(snapshot, part, sort),
        )
        before = current_revision(snapshot, part)
        if sort == "mates" and before is not None:
            said = "; ".join(before.mates_with) or "nobody has said"
            yield Say("before", f"{before.title}: {said}")
