"""A setup as typed: sides held, order, angles to set, and the lines that follow."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.errors import BadInput
from logbook.shop.bending.bend_lines import SIDES, line_in_bend
from logbook.shop.bending.bends import Bend, set_angle, tangent_lines
from logbook.shop.bending.clamping import usual_sides
from logbook.shop.bending.part_inputs import each_of
from logbook.shop.given import Given, in_words


def bend_order(count: int) -> list[int]:
    """Give the usual order, ends before the middle, by number of bend from 1."""
    order, left, right = [], 1, count
    while left <= right:
        order += [left, right] if left < right else [left]
        left, right = left + 1, right - 1
    return order


def sides_held(
    given: Given, flats: Sequence[float], bends: Sequence[Bend]
) -> list[str]:
    """Give the side held at each bend: as typed, else as is usual on a folder."""
    count = len(bends)
    if given.has("clamped") or given.word("tool") == "press brake":
        return each_word(given, "clamped", count, SIDES[0])
    return usual_sides(flats, order_of(given, count), bends[0].thickness)


def lines_of(
    given: Given, bends: Sequence[Bend], flats: Sequence[float], sides: Sequence[str]
) -> list[float]:
    """Give each line from the datum edge, in mm, for the tool and the sides held."""
    tangents = tangent_lines(flats, bends)
    tool = given.word("tool")
    lines = []
    for number, each in enumerate(bends):
        edge = given.maybe("bar_edge")
        edge = each.radius if edge is None else edge
        lines.append(
            tangents[2 * number] + line_in_bend(each, tool, sides[number], edge)
        )
    return lines


def each_word(given: Given, name: str, count: int, default: str) -> list[str]:
    """Give one word per bend, one typed word standing for all.

    Raises:
        BadInput: the number typed is neither one nor the number of bends.
    """
    words = list(given.words(name)) or [default]
    if len(words) == 1:
        return words * count
    if len(words) != count:
        raise BadInput(
            f"{in_words(name)}: found {len(words)} for {count} bends; accepted: one "
            "for all or one for each"
        )
    return words


def order_of(given: Given, count: int) -> list[int]:
    """Give the order of folding by number of bend, as typed or as is usual.

    Raises:
        BadInput: a bend is missing, named twice or not there.
    """
    typed = [int(each) for each in given.numbers("order")]
    if not typed:
        return bend_order(count)
    if sorted(typed) != list(range(1, count + 1)):
        raise BadInput(
            f"order: found {given.typed('order')}; accepted: each bend from 1 to "
            f"{count} once"
        )
    return typed


def set_angles(given: Given, bends: Sequence[Bend]) -> list[float]:
    """Give the bend angle to set at each bend, by a coupon or the springback typed.

    Raises:
        BadInput: half of a coupon, or an angle that would pass 180°.
    """
    if given.has("coupon_set") != given.has("coupon_got"):
        raise BadInput(
            "coupon set and coupon got: found one of them; accepted: both, from one "
            "coupon, or neither"
        )
    if given.has("coupon_set"):
        at, got = given.number("coupon_set"), given.number("coupon_got")
        return [set_angle(each.angle, at, got) for each in bends]
    extra = each_of(given, "springback", len(bends), 0.0)
    return [each.angle + more for each, more in zip(bends, extra, strict=True)]
