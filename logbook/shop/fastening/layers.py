"""Layers of a joint as typed: `washer; collar 6.35 ±0.05; base 2.0 aluminium II`.

A layer has a thickness and either its own limits, or a material whose standard
gives them, or is a washer whose standard does. Measured limits always win, and of
a nominal and a measured thickness (`6 mm plate 6.35`) the measured one.
"""

from __future__ import annotations

import re
from dataclasses import replace

from logbook.errors import BadInput
from logbook.quantity import parse_quantity
from logbook.shop.fastening.joint import Layer
from logbook.shop.fastening.screws import WASHERS, washer
from logbook.shop.materials.gauges import gauge_thickness
from logbook.shop.materials.sheet_limits import (
    MATERIALS,
    aluminium_group,
    thickness_limits,
)

WIDTH = 1000.0
"""Sheet is taken as cut from a coil or sheet up to this width (mm)."""

_ACCEPTED = (
    "a thickness with limits or material, as collar 6.35 ±0.05, base 2.0 aluminium II, "
    "3 acrylic cast; or washer, large washer"
)
_FIGURE = r"[0-9]+(?:[.,][0-9]+)?(?:\s+[0-9]+/[0-9]+|/[0-9]+)?|[.,][0-9]+"
_UNIT = r"mm|in|\"|thou"
_LAYER = re.compile(
    rf"(?P<before>[^0-9±]*?)\s*\b(?P<thick>{_FIGURE})\s*(?P<unit>{_UNIT})?(?![\w-])\s*"
    rf"(?:±\s*(?P<half>{_FIGURE})\s*(?P<unit2>{_UNIT})?(?![\w-]))?\s*(?P<after>.*)"
)
_GAUGE = re.compile(
    r"\b[0-9]{1,2}\s*(?:ga|gauge|gage)\.?\s+(?:galvani[sz]ed|stainless|steel|alumini?um)"
    r"(?:\s+steel)?",
    re.IGNORECASE,
)
_SECOND = re.compile(
    rf"(?<![\w.,/±-])(?P<thick>{_FIGURE})\s*(?P<unit>{_UNIT})?(?![\w.,/-])"
)
_ALLOY = re.compile(
    r"(?<![\w.,-])((?:aluminium\s+|en aw-)?[1-8][0-9]{3}(?:-\w+)?)"
    r"(?![\w.,/-]|\s*(?:mm|in|\"|thou|±))",
    re.IGNORECASE,
)
NEAR = 0.25
"""A measured thickness is no further than this share from its nominal one."""
_CALLED = {"washer": "iso7089", "large washer": "iso7093", "fender washer": "iso7093"}


def read_layer(text: str, size: str) -> Layer:
    """Read one layer of a joint with screws of `size`.

    Raises:
        BadInput: the text is no layer; the sentence says what is accepted.
    """
    words = " ".join(text.replace("+/-", "±").split())
    standard = _CALLED.get(words.lower(), words.lower().replace(" ", ""))
    if standard in WASHERS:
        return washer_layer(size, standard)
    words = _alloy_behind(_GAUGE.sub(_by_gauge, words))
    found = _LAYER.fullmatch(words)
    if not found:
        raise BadInput(f"“{text[:40]}” is no layer; accepted: {_ACCEPTED}")
    unit = found["unit"] or found["unit2"] or "mm"
    thick = float(parse_quantity(found["thick"], unit).to("mm"))
    if thick <= 0 or found["before"].strip().endswith(("-", "−")):
        raise BadInput(f"“{text[:40]}” has no thickness; accepted: more than 0")
    measured = _measured(text, found, thick, unit)
    if measured:
        layer = read_layer(measured, size)
        name = f"{layer.name} ({found['thick']} {unit} nominal)"
        return replace(layer, name=name)
    name = (found["before"] or found["after"] or f"{thick:g} mm layer").strip()
    if found["half"]:
        half = float(parse_quantity(found["half"], found["unit2"] or unit).to("mm"))
        return Layer(name, thick, thick - half, thick + half)
    low, high = _bought(thick, found["before"], found["after"], size)
    return Layer(name, thick, low, high, known=low < high)


def _alloy_behind(words: str) -> str:
    """Put an alloy that stands before its thickness behind it: 5052 2 mm."""
    alloy = _ALLOY.search(words)
    rest = " ".join(_ALLOY.sub(" ", words, count=1).split())
    if alloy is None or not _SECOND.search(rest):
        return words
    return f"{rest} {alloy[1]}"


def _measured(text: str, found: re.Match[str], thick: float, unit: str) -> str:
    """Give the layer as measured, where a nominal thickness stands before it.

    Raises:
        BadInput: two figures that cannot be one thickness, nominal and measured.
    """
    after = found["after"]
    second = _SECOND.search(after)
    if found["half"] or second is None or _material(after):
        return ""
    also = second["unit"] or unit
    value = float(parse_quantity(second["thick"], also).to("mm"))
    if abs(value - thick) > NEAR * thick:
        raise BadInput(
            f"“{text[:40]}” has two figures, {found['thick']} and {second['thick']}; "
            "accepted: one thickness, or the nominal one and then the measured one"
        )
    words = after[: second.start()], second["thick"], also, after[second.end() :]
    # A name before both figures goes with the measured one, a material behind it.
    return " ".join(" ".join((found["before"], *words)).split())


def _by_gauge(found: re.Match[str]) -> str:
    """Put the table thickness in place of a gauge; the metal stays as a name."""
    read = parse_quantity(found[0])
    assert read.metal
    thick = float(gauge_thickness(read.metal, int(read.value)))
    return f"{read.metal} {thick:.3f}"


def washer_layer(size: str, standard: str) -> Layer:
    """Give a washer as a layer."""
    one = washer(size, standard)
    return Layer(f"washer {standard}", one.thick, one.low, one.high)


def _bought(thick: float, before: str, after: str, size: str) -> tuple[float, float]:
    """Give the limits of a bought layer; nominal twice where nothing is known."""
    if "washer" in f"{before} {after}".lower():
        for standard in WASHERS:
            one = washer(size, standard)
            if abs(one.thick - thick) < 1e-9:
                return one.low, one.high
        return thick, thick
    for words in (after, f"{before} {after}", before):
        material = _material(words)
        if material:
            return thickness_limits(material, thick, WIDTH)
    if after:
        raise BadInput(
            f"“{after[:30]}” has no thickness tolerance here; accepted: "
            f"{', '.join(MATERIALS)}, an aluminium alloy such as 5052, or ± a figure"
        )
    return thick, thick


def _material(words: str) -> str:
    plain = " ".join(words.split()).lower()
    for material in MATERIALS:
        if material.lower() == plain:
            return material
    alloy = re.fullmatch(r"(?:aluminium |en aw-)?([1-8][0-9]{3}(?:-\w+)?)", plain)
    return aluminium_group(alloy[1]) if alloy else ""
