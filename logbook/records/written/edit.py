"""Changing a record's file so that only what was changed differs.

Comments, order and spacing of a hand-written block are kept. Every edit is read
again by the one reader that decides; unless it gives the old facts plus the
change, nothing is handed out.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace
from typing import Any

from logbook.errors import BadInput, Refused
from logbook.records.kinds.happenings import Reading, Run
from logbook.records.kinds.record import Record
from logbook.records.written.block import write_block
from logbook.records.written.codec import write_facts
from logbook.records.written.text import (
    Cut,
    cleaned,
    cut,
    decode,
    read_record,
    read_toml,
    write_record,
)


def edit_record(data: bytes, after: Record, file: str) -> bytes:
    """Give the bytes of a record's file with `after` as its content.

    Raises:
        BadInput: the file as it stands cannot be read.
        Refused: the change cannot be made without touching something else.
    """
    parsed = read_record(data, file)
    if parsed.record is None:
        raise BadInput(str(parsed.problems[0]))
    before, after = parsed.record, cleaned(after)
    if before == after:
        return data
    text = decode(data)
    pieces = cut(text, file)
    assert isinstance(pieces, Cut)
    block = _edited_block(pieces.block, write_facts(before), write_facts(after))
    edited = _put_together(text, pieces, block, before, after)
    again = read_record(edited, file)
    if again.record != after:
        raise Refused(
            f"{file}: the change could not be made without touching other lines; "
            "accepted: editing the file by hand"
        )
    return edited


def _edited_block(
    block: str, before: Mapping[str, Any], after: Mapping[str, Any]
) -> str:
    changed = {k: v for k, v in after.items() if k not in before or before[k] != v}
    gone = [key for key in before if key not in after]
    if not changed and not gone:
        return block
    import tomlkit

    document = tomlkit.parse(block)
    for key in gone:
        document.remove(key)
    for key, value in changed.items():
        document[key] = _item(key, value)
    return tomlkit.dumps(document)


def _item(key: str, value: Any) -> Any:
    """Make the style-preserving library's item from our own writer's text."""
    import tomlkit

    return tomlkit.parse(write_block({key: value})).item(key)


def _put_together(
    text: str, pieces: Cut, block: str, before: Record, after: Record
) -> bytes:
    fresh = cut(write_record(after), "")
    assert isinstance(fresh, Cut)
    lines = text.split("\n")
    first = pieces.block_line - 1
    last = first + pieces.block.count("\n")
    head = "\n".join(lines[:first]) + "\n"
    tail = "\n".join(lines[last:])
    if before.title != after.title:
        head = _head_with_title(head, after)
    if before.prose != after.prose:
        tail = lines[last] + "\n" + _prose_part(after)
    opening = re.match(r"\s*([`~]+)", lines[first - 1])
    assert opening
    if opening[1][0] * len(opening[1]) in block:
        return write_record(after).encode()
    return (head + block.rstrip("\n") + "\n" + tail).encode()


def _head_with_title(head: str, after: Record) -> str:
    title = write_record(after).partition("\n")[0]
    lines = head.split("\n")
    at = next(n for n, line in enumerate(lines) if line.strip())
    lines[at] = title
    return "\n".join(lines)


def _prose_part(record: Record) -> str:
    bare = replace(record, extra={})
    text = write_record(bare)
    pieces = cut(text, "")
    assert isinstance(pieces, Cut)
    lines = text.split("\n")
    return "\n".join(lines[pieces.block_line + pieces.block.count("\n") :])


def with_reading(data: bytes, reading: Reading, file: str) -> bytes:
    """Give the bytes of a measuring run with one more reading at its end.

    The reading goes in before the fence, so nothing before it is touched.

    Raises:
        BadInput: the file cannot be read as a measuring run.
    """
    parsed = read_record(data, file)
    run = parsed.record
    if not isinstance(run, Run):
        said = str(parsed.problems[0]) if parsed.problems else f"{file} is no run"
        raise BadInput(said)
    after = replace(run, readings=(*run.readings, reading))
    pieces = cut(decode(data), file)
    assert isinstance(pieces, Cut)
    facts = read_toml(pieces.block)
    if "reading" in facts and not pieces.block.rstrip().endswith("]"):
        added = write_block({"reading": write_facts(after)["reading"][-1:]})
        block = pieces.block.rstrip("\n") + "\n" + added
        lines = decode(data).split("\n")
        first = pieces.block_line - 1
        last = first + pieces.block.count("\n")
        edited = "\n".join([*lines[:first], block.rstrip("\n"), *lines[last:]])
        if read_record(edited.encode(), file).record == after:
            return edited.encode()
    return edit_record(data, after, file)
