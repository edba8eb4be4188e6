"""The sums of the shop to choose from."""

from __future__ import annotations

from collections.abc import Sequence

from logbook.screens.ruled.choosing import Choosing
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.margin_words import margin_word
from logbook.screens.ruled.passage import Say
from logbook.screens.sums.sum_words import said_of
from logbook.shop.sums import find_sum, sums_by_topic


class Sums(Choosing):
    """All sums; words of name and title narrow them.

    Where no sum has all of them, those with most come first: a size is typed too.
    """

    NOTHING = "no sum is called that"
    MARGIN_WORD = "sum ›"
    BROAD = 160

    def lines(self, typed: str) -> Sequence[Line]:
        """Give the sums with every word typed in name, topic or title."""
        words = typed.casefold().split()
        found = [
            (sum(word in said for word in words), line)
            for topic, sums in sums_by_topic().items()
            for each in sums
            for said in (f"{topic} {each.name} {each.title}".casefold(),)
            for line in (Line(each.name, margin_word(topic), each.title),)
        ]
        most = max((count for count, _ in found), default=0)
        if most < max(len(words) - 1, 1) and words:
            return []
        return [line for count, line in found if count == most]

    def about(self, line: Line) -> Sequence[Say]:
        """Say what a sum needs and does."""
        return [*said_of(find_sum(line.key))]
