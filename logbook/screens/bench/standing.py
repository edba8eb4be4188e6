"""Where the work stands, at the top of the bench: what waits, what is open, the last.

Rows that would say nothing give their place to the entries on a low screen.
"""

from __future__ import annotations

from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content

from logbook.counting import so_many
from logbook.screens.desk.glance import NONE_BARE, Glance
from logbook.screens.desk.last_value import LastValue
from logbook.screens.ruled.figures import Figures
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.rows import Row

LOOKING = "looking …"
NAMED = 30
"""Titles named of those that wait or are undecided; no row has room for more."""

WIDE = 80
"""Columns from which there is room beside the figures for more than the size."""


class Standing(Vertical):
    """What stands open, then the value read last in big figures."""

    DEFAULT_CSS = "Standing { height: auto; }"
    looking = LOOKING
    """What stands where it is not known yet whether there is anything."""

    def __init__(self, *, id: str | None = None) -> None:  # noqa: A002
        """Start with nothing shown."""
        super().__init__(id=id)
        self._counts: dict[str, tuple[tuple[str, ...], str, str]] = {}

    def compose(self) -> ComposeResult:
        """Lay out a row for each."""
        for label, name in (
            ("where", "where"),
            ("whose", "whose"),
            ("left off", "left-off"),
            ("waits", "waits"),
            ("undecided", "undecided"),
            ("no entry", "bare"),
        ):
            yield Row(label, id=name)
        yield Row("problem", id="problem")
        yield Row("last", Figures(id="figures"), id="last")

    def show(self, seen: Glance, otherwise: str, *, advised: bool, lists: str) -> None:
        """Show a glance; `otherwise` stands where nothing has happened yet.

        What is not known yet is not said to be nothing: `advised` tells whether
        what waits is known, the glance whether the records were read. `lists` is the
        key that lists what is undecided.
        """
        where = sentence(
            "$what  [$quiet]$when[/]", what=seen.where, when=seen.where_when
        )
        self.query_one("#where", Row).say(where if seen.where else otherwise)
        known = seen.read and advised
        none = "nothing" if known else self.looking
        waits = seen.waits if known else ()
        unseen = seen.unseen if known else ()
        words = (*unseen, *(wait.short for wait in waits[:NAMED]))
        counts = (len(waits), "wait"), (len(unseen), "to see")
        told = ", ".join(f"{number} {what}" for number, what in counts if number)
        count = f"[$alarm]{told}:[/] "
        self._counted("waits", words, none, count)
        count = f"[$alarm]{len(seen.open_ones)},[/] [$mark][b]$key[/b][/] lists: "
        self._counted("undecided", seen.undecided(NAMED), none, count, lists)
        none = NONE_BARE if seen.read else self.looking
        made = sum(not one.endswith(" bought") for one in seen.bare)
        count = f"{so_many(made, 'part')}: " if made else ""
        self._counted("bare", seen.bare[:NAMED], none, count)
        self._show_problem(seen)
        self._show_last(seen.last)

    def show_whose(self, name: str, begins: str, applies: str) -> None:
        """Say that a build is somebody else's, and what to do first.

        `begins` is the key that begins one's own, `applies` the one that shows what is
        known of it; no row where it has no name.
        """
        row = self.query_one("#whose", Row)
        row.display = bool(name)
        words = (
            "[$mark][b]$begins[/b][/] begins your own build, "
            "[$mark][b]$applies[/b][/] shows first what applies to it; "
            "$name was logged in another clone"
        )
        row.say(sentence(words, begins=begins, applies=applies, name=name))

    def show_left_off(self, key: str, goes_on: str, more: int) -> None:
        """Say with which key one goes on with what an earlier window was left in.

        `more` things were left off before it; no row where there is nothing.
        """
        row = self.query_one("#left-off", Row)
        row.display = bool(goes_on)
        told = f"{goes_on}; {more} more" if more > 0 else goes_on
        row.say(sentence("[$mark][b]$key[/b][/]$told", key=key, told=told))

    def _counted(
        self,
        name: str,
        titles: tuple[str, ...],
        nothing: str,
        count: str,
        key: str = "",
    ) -> None:
        """Say titles, the first of so many; most entries change none of them."""
        counted = titles, nothing, count + key
        if self._counts.get(name) == counted:
            return
        self._counts[name] = counted
        if not titles:
            self.query_one(f"#{name}", Row).say(sentence(f"[$quiet]{nothing}[/]"))
            return
        head = sentence(count, key=key)
        said = " · ".join(titles)
        listed = sentence("$all", all=said)
        self.query_one(f"#{name}", Row).say(Content.assemble(head, listed))

    def _show_problem(self, seen: Glance) -> None:
        """Say what of the files could not be read; no row where all could be."""
        row = self.query_one("#problem", Row)
        row.display = bool(seen.problems)
        row.say(
            sentence(
                "[$alarm]$n:[/] $first",
                n=str(seen.problems), first=seen.first_problem,
            )
        )  # fmt: skip

    def _show_last(self, last: LastValue | None) -> None:
        figures, row = self.query_one(Figures), self.query_one("#last", Row)
        row.display = last is not None
        if last is None:
            return
        number, _, unit = last.value.text.rpartition(" ")
        if not number:
            number, unit = last.value.text, ""
        verdict = "" if last.verdict in last.drawn else last.verdict.upper()
        drawn = f"drawn {last.drawn}" if last.drawn[:1].isdecimal() else last.drawn
        what = f"{last.owner} {last.what}"
        if self.screen.size.width < WIDE:  # the row above names the piece
            drawn, what = drawn.partition(" (")[0].partition(", ")[0], last.what
        figures.show(number, unit, what, drawn, verdict)
