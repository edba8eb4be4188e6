"""Typed text read into the inputs of a sum.

`read_inputs` turns it into a `Given`, in the unit each input declares, or
refuses in one sentence with the input's name. A figure may carry its
uncertainty: `2.00 ±0.02 mm` (expanded, about 95 %).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from fractions import Fraction

from logbook.decimal_text import plain_number
from logbook.errors import BadInput, NeedsAnswer
from logbook.quantity import Quantity, parse_quantity
from logbook.shop.given import Given, Input, Kind, Value
from logbook.shop.several import (
    BARE,
    bare_beside_inches,
    divided,
    in_one_unit,
    one_unit_behind,
)
from logbook.shop.spelling import spelled
from logbook.units import UNITS


def read_inputs(
    inputs: Sequence[Input], typed: Mapping[str, str | Sequence[str]]
) -> Given:
    """Read typed inputs; names may use `-` or `_` and the other names.

    Raises:
        BadInput: an unknown or missing input, or a value that is not accepted.
    """
    known = {_plain(word): each.name for each in inputs for word in each.names}
    texts: dict[str, list[str]] = {}
    for word, text in typed.items():
        if _plain(word) not in known:
            names = ", ".join(each.said for each in inputs)
            raise BadInput(f"there is no input “{word}”; accepted: {names}")
        said = [text] if isinstance(text, str) else list(text)
        texts.setdefault(known[_plain(word)], []).extend(said)
    values: dict[str, tuple[Value, ...]] = {}
    assumed: list[str] = []
    for each in inputs:
        values[each.name] = _read(each, texts.get(each.name, []), assumed)
    common, unit = in_one_unit(inputs, values)
    assumed += bare_beside_inches(inputs, values)
    return Given(common, tuple(assumed), unit)


def _plain(word: str) -> str:
    return word.strip().lower().replace("_", "-").replace(" ", "-")


def _read(each: Input, texts: list[str], assumed: list[str]) -> tuple[Value, ...]:
    found = [part for text in texts for part in divided(each, text)]
    if not found and each.default:
        found = list(divided(each, each.default))
    if not found:
        if each.optional:
            return ()
        meant = f" ({each.meaning})" if each.accepted != each.meaning else ""
        raise BadInput(f"{each.said} is missing{meant}; {_accepted(each)}")
    if len(found) > 1 and not each.many:
        shown = ", ".join(found)
        raise BadInput(f"{each.said}: found several, {shown}; accepted: one value")
    if len(found) > 1 and each.kind is Kind.QUANTITY:
        found = one_unit_behind(each, found, assumed)
    return tuple(_value(each, text, assumed) for text in found)


def _accepted(each: Input) -> str:
    return f"accepted: {each.accepted}"


def _value(each: Input, text: str, assumed: list[str]) -> Value:
    if each.kind is Kind.TEXT:
        return Value(text, word=text)
    if each.kind is Kind.YES:
        return Value(text, word=_yes(each, text))
    if each.kind is Kind.CHOICE:
        return Value(text, word=_choice(each, text))
    figure, _, spread = re.sub(r"\+\s*/?\s*-", "±", text).partition("±")
    exact, unit = _figure(each, figure, spread, text)
    width = Fraction(0)
    if spread.strip():
        width, _ = _figure(each, spread, figure, text, width=True)
    if unit == "ga":
        assumed.append(
            f"{each.said}: {text} taken as {plain_number(exact, 3)} mm by its table; "
            "a measured thickness wins"
        )
    if each.share:
        exact = _share(each, exact, text, assumed)
    _check(each, exact, text)
    return Value(text, exact, unit=unit, uncertainty=abs(width))


def _share(each: Input, exact: Fraction, text: str, assumed: list[str]) -> Fraction:
    """Take 0.8 for 80 % and 95 for 0.95 where a share was typed the other way."""
    if not BARE.fullmatch(text):
        return exact
    turned = exact
    if each.unit == "%" and 0 < exact < 1:
        turned = exact * 100
    elif each.unit != "%" and 1 < exact <= 100:
        turned = exact / 100
    if turned != exact:
        percent = turned if each.unit == "%" else exact
        assumed.append(f"{each.said}: {text} taken as {plain_number(percent)} %")
    return turned


def _check(each: Input, exact: Fraction, text: str) -> None:
    if each.kind is Kind.COUNT and exact.denominator != 1:
        raise BadInput(f"{each.said}: found {text}; {_accepted(each)}")
    if not each.accept.holds(exact):
        raise BadInput(f"{each.said}: found {text}; {_accepted(each)}")


def _yes(each: Input, text: str) -> str:
    word = text.strip().lower()
    if word in {"yes", "y", "true", "1"}:
        return "yes"
    if word in {"no", "n", "false", "0"}:
        return "no"
    raise BadInput(f"{each.said}: found “{text}”; {_accepted(each)}")


def _choice(each: Input, text: str) -> str:
    plain = _plain(text)
    words = {**{choice: choice for choice in each.choices}, **each.words}
    for spell in (_plain, _run_together):
        for word, choice in words.items():
            if spell(word) == spell(text):
                return choice
    near = [choice for choice in each.choices if _plain(choice).startswith(plain)]
    if len(near) == 1 and text.strip():
        return near[0]
    raise BadInput(f"{each.said}: found “{text}”; {_accepted(each)}")


def _run_together(word: str) -> str:
    """Give a word without blanks and hyphens: ISO 7089 is iso7089."""
    return _plain(word).replace("-", "")


def _figure(
    each: Input, text: str, other: str, typed: str, *, width: bool = False
) -> tuple[Fraction, str]:
    """Read one figure; the unit may stand on the other side of the ±."""
    if text.strip().lower().lstrip("+-−") in {"nan", "inf", "infinity", "∞"}:
        raise BadInput(f"{each.said}: “{text.strip()}” is no figure; {_accepted(each)}")
    try:
        text, other = (spelled(one, each.unit, each.name) for one in (text, other))
        if each.kind in {Kind.NUMBER, Kind.COUNT}:
            return _bare_number(each, text), each.unit
        if each.kind is Kind.MONEY:
            return _money(text)
        bare_unit = "" if each.kind is Kind.FIGURE else each.unit
        read = _with_unit(text, other, bare_unit)
        if each.kind is Kind.DIFFERENCE or (width and read.dimension == "temperature"):
            return _difference(read), "K"
        if read.metal:
            return _sheet(each, read), "ga"
        if each.kind is Kind.FIGURE:
            return read.value, "" if read.unit == "pcs" else read.unit
        return read.to(each.unit), read.unit
    except BadInput as error:
        raise _named(each, error, typed) from None


def _named(each: Input, error: BadInput, typed: str) -> BadInput:
    """Give the refusal with the name of the input before it."""
    said = f"{each.said}: {error}"
    if "accepted" not in str(error):
        said = f"{each.said}: found “{typed}”, {error}; {_accepted(each)}"
    if isinstance(error, NeedsAnswer):
        return NeedsAnswer(said, error.choices)
    return BadInput(said)


def _with_unit(text: str, other: str, unit: str) -> Quantity:
    unit = unit or "pcs"
    if BARE.fullmatch(text) and other and not BARE.fullmatch(other):
        unit = parse_quantity(other, unit).unit
    return parse_quantity(text, unit)


def _bare_number(each: Input, text: str) -> Fraction:
    text = text.strip()
    if each.unit and text.endswith(each.unit):
        text = text.removesuffix(each.unit)
    if each.kind is Kind.COUNT:
        text = re.sub(
            r"^(?:#|no\.?\s+|number\s+)\s*(?=\d)", "", text, flags=re.IGNORECASE
        )
    read = parse_quantity(text, "pcs")
    if read.unit not in {"pcs", "%"}:
        raise BadInput(f"“{text.strip()}” has a unit; accepted: a plain number")
    return read.to("pcs") if read.unit == "pcs" else read.value / 100


def _money(text: str) -> tuple[Fraction, str]:
    sign = re.match(r"\s*([€$£])\s*(.*)", text)
    read = parse_quantity(f"{sign[2]} {sign[1]}" if sign else text, "pcs")
    if read.unit != "pcs" and not read.dimension.startswith("money"):
        raise BadInput(f"“{text.strip()}” is no price; accepted: 4.20 EUR, 3 USD")
    return read.value, "" if read.unit == "pcs" else read.unit


def _difference(read: Quantity) -> Fraction:
    if read.dimension != "temperature":
        raise BadInput(
            f"“{read}” is no temperature difference; accepted: 20 K, 20 °C, 36 °F"
        )
    return read.value * UNITS[read.unit].factor


def _sheet(each: Input, read: Quantity) -> Fraction:
    """Give the thickness a gauge is a name of, where a thickness is asked."""
    from logbook.shop.materials.gauges import gauge_thickness

    if each.kind is Kind.FIGURE:
        raise BadInput(
            f"{read} is a gauge; accepted: its thickness, by table or measured"
        )
    assert read.metal
    return gauge_thickness(read.metal, int(read.value))
