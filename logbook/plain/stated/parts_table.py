"""The rows of a parts list that lies there as a table: CSV, as a spreadsheet writes it.

What separates the columns and which head means what is found out (English or German
heads; commas, semicolons, tabs). A row that cannot be read is told by its line; what is
not understood in it is told too, and nothing is guessed.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Sequence
from dataclasses import dataclass, field

from logbook.errors import BadInput
from logbook.plain.stated.so_many import so_many
from logbook.quantity import Quantity, parse_quantity

_HEADS = {
    "name": "part|name|item|description|designation|component|title|bezeichnung|"
    "benennung|teil|bauteil|gegenstand|artikel",
    "quantity": "qty|quantity|count|pcs|pieces|number|amount|menge|anzahl|stück|stk|"
    "stückzahl",
    "unit": "unit|units|uom|einheit|mengeneinheit|me",
    "size": "size|dimension|dimensions|maß|mass|maße|masse|abmessung|abmessungen|größe",
    "bought_as": "bought as|part number|part no|order no|order number|supplier|vendor|"
    "standard|norm|bestellnummer|artikelnummer|lieferant|hersteller|bestellt als",
    "price": "price|unit price|cost|preis|einzelpreis|stückpreis",
    "place": "place|places|location|ort|einbauort",
    "spare": "spare|spares|reserve|ersatz",
}
_FACT = {head: fact for fact, heads in _HEADS.items() for head in heads.split("|")}
_ACCEPTED_HEADS = "Part, Quantity, Unit, Size, Bought as, Price, Place, Spare"
_SEPARATORS = ";,\t|"
_FIRST_ROWS = 10
"""The heads stand within so many rows: above them may be a title."""
_MOST_ROWS = 2000
_UNIT_BEHIND = re.compile(r"(?P<name>.*\S)\s*,\s*(?P<unit>mm|cm|m|in|ft|g|kg|ml|l)")
"""“Twin lead 0.75 mm², m”: what the number is of, where no column says it."""
_NO_CURRENCY = (
    "prices left out: in which currency? accepted: --currency EUR, or a head such as "
    "“Price EUR”"
)
_WHOLE = re.compile(r"(?P<whole>\d+)(?:[.,]0+)?")
_CURRENCY = {"€": "EUR", "$": "USD", "£": "GBP"}


@dataclass(frozen=True, slots=True)
class TableRow:
    """A row that is a line of the parts list; `at` is its line in the file."""

    at: int
    name: str
    quantity: int
    amount: Quantity | None = None
    size: str = ""
    bought_as: str = ""
    price: Quantity | None = None
    places: tuple[str, ...] = ()
    spare: int = 0

    @property
    def title(self) -> str:
        """The name with the size that tells it from others of that name."""
        alone = not self.size or self.size.casefold() in self.name.casefold()
        return self.name if alone else f"{self.name} {self.size}"


@dataclass(slots=True)
class PartsTable:
    """What a table came to: its lines, and sentences on what was not read."""

    rows: list[TableRow] = field(default_factory=list)
    unread: list[str] = field(default_factory=list)
    remarks: list[str] = field(default_factory=list)


def read_parts_table(text: str, currency: str = "") -> PartsTable:
    """Read the table of a text; `currency` is that of prices that name none.

    Raises:
        BadInput: there are no heads that name a part and how many.
    """
    rows, at_head, heads = _headed(text)
    found = PartsTable()
    facts = [_fact_of(head) for head in heads]
    _passed_over(found, heads, facts)
    money = currency or _currency_in(heads, facts)
    known: dict[str, int] = {}
    for at, cells in rows[at_head + 1 :]:
        told = {
            fact: cell.strip()
            for fact, cell in zip(facts, cells, strict=False)
            if fact and cell.strip()
        }
        if not told or not any(cell.strip() for cell in cells):
            continue
        try:
            row = _row(at, told, money, found)
        except BadInput as refusal:
            found.unread.append(f"line {at}: {refusal}")
            continue
        before = known.setdefault(row.title.casefold(), at)
        if before != at:
            found.unread.append(
                f"line {at}: {row.title} stands in line {before} already; accepted: "
                "one line of each, with the number of both"
            )
            continue
        found.rows.append(row)
    return found


def _headed(text: str) -> tuple[list[tuple[int, list[str]]], int, list[str]]:
    """Give the rows, by the sign that separates them best, and which has the heads."""
    best: tuple[int, int, list[tuple[int, list[str]]]] | None = None
    for sign in _SEPARATORS:
        reader = csv.reader(io.StringIO(text, newline=""), delimiter=sign)
        try:
            rows = [(reader.line_num, cells) for cells in reader]
        except csv.Error:
            continue
        for at, (_, cells) in enumerate(rows[:_FIRST_ROWS]):
            named = {_fact_of(one) for one in cells} - {""}
            good = len(named) if {"name", "quantity"} <= named else 0
            if good and (best is None or good > best[0]):
                best = good, at, rows
    if best is None:
        raise BadInput(
            "the table has no heads that name a part and how many of it; accepted: "
            f"heads such as {_ACCEPTED_HEADS}, or Benennung, Menge, Einheit, Maß, Preis"
        )
    _, at, rows = best
    if len(rows) > _MOST_ROWS:
        raise BadInput(f"{len(rows)} rows; accepted: {_MOST_ROWS} at most")
    return rows, at, rows[at][1]


def _bare(head: str) -> str:
    """Give a head without its unit: “Preis (EUR)” is a price."""
    plain = re.sub(r"[(\[].*?[)\]]|[€$£]|\b(?:EUR|USD|GBP|CHF)\b", "", head)
    return " ".join(re.sub(r"[._:/-]+", " ", plain).casefold().split())


def _fact_of(head: str) -> str:
    return _FACT.get(_bare(head), "")


def _currency_in(heads: Sequence[str], facts: Sequence[str]) -> str:
    """Give the currency that the head of the prices names."""
    for head, fact in zip(heads, facts, strict=True):
        if fact == "price":
            for sign, name in _CURRENCY.items():
                if sign in head:
                    return name
            if found := re.search(r"\b(?:EUR|USD|GBP|CHF)\b", head):
                return found.group()
    return ""


def _passed_over(found: PartsTable, heads: Sequence[str], facts: Sequence[str]) -> None:
    left = [h.strip() for h, fact in zip(heads, facts, strict=True) if not fact]
    if named := ", ".join(filter(None, left)):
        found.remarks.append(f"columns passed over: {named}")


def _row(at: int, told: dict[str, str], money: str, found: PartsTable) -> TableRow:
    """Make a line of what a row tells.

    Raises:
        BadInput: it names no part, or not how many.
    """
    name, unit = told.get("name", ""), told.get("unit", "")
    if not name:
        raise BadInput("it names no part; accepted: a name, and how many")
    if not told.get("quantity"):
        raise BadInput(f"how many of {name}? accepted: pieces, 4, or 1.5 m")
    if not unit and (behind := _UNIT_BEHIND.fullmatch(name)):
        name, unit = behind["name"], behind["unit"]
    number, amount = _so_many(told["quantity"], unit)
    return TableRow(
        at=at,
        name=" ".join(name.split()),
        quantity=number,
        amount=amount,
        size=" ".join(told.get("size", "").split()),
        bought_as=told.get("bought_as", ""),
        price=_price(at, told.get("price", ""), money, found),
        places=tuple(one.strip() for one in re.split(r"[;,]", told.get("place", "")))
        if told.get("place")
        else (),
        spare=_spare(at, told.get("spare", ""), found),
    )


_PIECE = r"(?:pcs?|pieces?|ea|each|stk|st|stück)\.?"
_PIECES = re.compile(_PIECE, re.IGNORECASE)
_PIECES_BEHIND = re.compile(rf"(?<=\d)\s*{_PIECE}$", re.IGNORECASE)


def _so_many(typed: str, unit: str) -> tuple[int, Quantity | None]:
    """Read a number with its unit; “4,00” pieces are 4.

    Raises:
        BadInput: it is neither pieces nor an amount with a unit.
    """
    typed = _PIECES_BEHIND.sub("", typed)
    if unit and not _PIECES.fullmatch(unit):
        number, amount = so_many(f"{typed} {unit}")
    elif whole := _WHOLE.fullmatch(typed):
        number, amount = int(whole["whole"]), None
    else:
        number, amount = so_many(typed)
    return (1 if number is None else number), amount


def _price(at: int, typed: str, money: str, found: PartsTable) -> Quantity | None:
    """Read a price; one that cannot be read is told, and the line goes without it."""
    if not typed:
        return None
    named = next((name for sign, name in _CURRENCY.items() if sign in typed), "")
    bare = re.sub("[€$£]", "", typed).strip()
    own = named or ("" if re.search(r"[^\W\d_]", bare) else money)
    try:
        price = parse_quantity(f"{bare} {own}".strip(), "mm")
    except BadInput as refusal:
        found.remarks.append(f"line {at}: price {typed} left out: {refusal}")
        return None
    if price.dimension == "length":
        if _NO_CURRENCY not in found.remarks:
            found.remarks.append(_NO_CURRENCY)
        return None
    return price


def _spare(at: int, typed: str, found: PartsTable) -> int:
    whole = _WHOLE.fullmatch(typed) if typed else None
    if typed and whole is None:
        found.remarks.append(f"line {at}: spare {typed} left out: no whole number")
    return int(whole["whole"]) if whole else 0
