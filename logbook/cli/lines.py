"""`logbook lines`: read a parts list that lies here as a table (CSV)."""

from __future__ import annotations

import argparse
import sys
from collections.abc import Iterator
from dataclasses import dataclass, replace
from pathlib import Path

from logbook.cli import names, terms
from logbook.counting import so_many
from logbook.errors import BadInput
from logbook.plain.stated.part_names import new_part
from logbook.plain.stated.parts_table import PartsTable, TableRow, read_parts_table
from logbook.plain.stated.restated import given
from logbook.records.kinds.assembling import Line
from logbook.records.kinds.design import Part
from logbook.records.kinds.words import Source
from logbook.records.making.bought import made_by_nothing
from logbook.records.making.drafts import Draft
from logbook.records.written.shown_signs import one_line
from logbook.store.disk.flushed import reason

_LARGEST = 4_000_000


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("file", type=Path, help="a table with heads, as CSV")
    parser.add_argument(
        "--currency", default="", help="of prices that name none: EUR, USD"
    )
    parser.add_argument("--yes", action="store_true", help="take all that was read")
    names.insisting(parser)
    terms.logging(parser)


@dataclass(frozen=True, slots=True)
class _Drafted:
    row: TableRow
    part: Part
    line: Line
    said: str


def run(args: argparse.Namespace) -> int:
    """Show what the table says line by line; take it once that is answered."""
    text, read_as = _text(args.file)
    project = terms.opened(args)
    found = read_parts_table(text, args.currency)
    draft = project.draft(terms.moment(args))
    lines = list(_drafted(draft, found, insist=args.new))
    remarks = [*read_as, *found.remarks]
    if not args.json:
        _show(lines, found, remarks)
    if not lines:
        raise BadInput(
            f"{args.file}: no line was read; accepted: rows with a part and how many"
        )
    if not _is_taken(args, lines):
        return _left(args, lines, found, remarks)
    subject = f"list: {so_many(lines, 'line')} of {one_line(args.file.name)}"
    listed = [f"the parts list has {so_many(lines, 'line')} of it"]
    return terms.save(project, draft, subject, args, tell=lambda _: listed)


def _text(file: Path) -> tuple[str, list[str]]:
    """Give the text of a table, and how it was read where that is not UTF-8.

    Raises:
        BadInput: it cannot be read, or is no text.
    """
    try:
        data = file.read_bytes()
    except OSError as error:
        raise BadInput(
            f"{file} cannot be read ({reason(error)}); accepted: a CSV file"
        ) from None
    if len(data) > _LARGEST or b"\0" in data:
        raise BadInput(f"{file} is no CSV file; accepted: a table saved as CSV")
    try:
        return data.decode("utf-8-sig"), []
    except UnicodeDecodeError:
        return data.decode("cp1252", "replace"), [
            "the file is not in UTF-8: it is read as Windows-1252; look at its umlauts"
        ]


def _drafted(draft: Draft, found: PartsTable, *, insist: bool) -> Iterator[_Drafted]:
    """Draft a line for each row; what cannot be one is told with those not read."""
    for row in found.rows:
        known = draft.snapshot.named(row.name, Part)
        title = row.name if known else row.title
        new = not draft.snapshot.named(title, Part)
        try:
            part = new_part(draft, title, insist=insist)
        except BadInput as refusal:
            found.unread.append(f"line {row.at}: {refusal}")
            continue
        part = _as_bought(draft, part, row)
        line, before = _line(draft, part, row)
        yield _Drafted(row, part, line, _said(part, line, before, new=new))


def _as_bought(draft: Draft, part: Part, row: TableRow) -> Part:
    """Give the part as bought where a price or what to buy is told."""
    told = row.bought_as or row.price
    if not told or not made_by_nothing(draft.snapshot, part):
        return part
    return draft.amend(replace(part, source=Source.BOUGHT))


def _line(draft: Draft, part: Part, row: TableRow) -> tuple[Line, Line | None]:
    title = f"{part.title} in the whole"
    before = next(iter(draft.snapshot.named(title, Line)), None)
    told = given(
        part=part.ref,
        quantity=row.quantity,
        amount=row.amount,
        spare=row.spare or None,
        places=row.places,
        bought_as=row.bought_as,
        price=row.price,
    )
    return draft.state(Line, title, told), before


def _said(part: Part, line: Line, before: Line | None, *, new: bool) -> str:
    """Say what a row comes to, and what of it is new or was otherwise."""
    many = f"{line.quantity} ×"
    if line.amount:
        many = str(line.amount) if line.quantity == 1 else f"{many} {line.amount}"
    facts = [
        f"{many} {part.title}",
        "to buy" if part.source is Source.BOUGHT else "to make",
        f"as {line.bought_as}" if line.bought_as else "",
        f"{line.price} each" if line.price else "",
        f"{line.spare} spare" if line.spare else "",
        f"at {', '.join(line.places)}" if line.places else "",
        "new part" if new else "",
    ]
    if before is not None and before.quantity != line.quantity:
        facts.append(f"the list had {before.quantity}")
    return one_line(", ".join(filter(None, facts)))


def _show(lines: list[_Drafted], found: PartsTable, remarks: list[str]) -> None:
    for one in lines:
        print(terms.folded(f"line {one.row.at}: {one.said}"))
    for said in found.unread:
        print(terms.folded(f"not read: {one_line(said)}"))
    for said in remarks:
        print(terms.folded(f"note: {one_line(said)}"))


def _is_taken(args: argparse.Namespace, lines: list[_Drafted]) -> bool:
    if args.yes or args.json or not sys.stdin.isatty():
        return bool(args.yes)
    question = f"take {so_many(lines, 'line')}? [Enter: yes, n: no] "
    return bool(terms.ask_key(question, {"": "yes", "y": "yes", "n": ""}))


def _left(
    args: argparse.Namespace,
    lines: list[_Drafted],
    found: PartsTable,
    remarks: list[str],
) -> int:
    if args.json:
        terms.answer(
            lines=[one.said for one in lines], unread=found.unread, remarks=remarks
        )
    else:
        print("nothing was saved; all that was read is taken with --yes")
    return 0
