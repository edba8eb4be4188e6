"""A sum as a form: a line for each input; what is typed is kept until it is logged."""

from __future__ import annotations

from textual import on
from textual.app import ComposeResult
from textual.containers import VerticalScroll
from textual.events import DescendantFocus
from textual.widgets import Input

from logbook.errors import BadInput
from logbook.screens.desk.desk import Desk
from logbook.screens.desk.left_off import Midst
from logbook.screens.ruled import verbs
from logbook.screens.ruled.emptying import EmptyingSheet
from logbook.screens.ruled.entry_line import EntryLine
from logbook.screens.ruled.look import sentence
from logbook.screens.ruled.rows import Row
from logbook.screens.sums.sum_words import (
    accepted_of,
    form_read,
    form_text,
    meaning_of,
)
from logbook.shop.shown import split_values
from logbook.shop.sums import Sum
from logbook.shop.typed import read_inputs

NEXT = verbs.Verb("next(1)", "next", "down", "Go to the next input.", in_strip=False)
PREVIOUS = verbs.Verb(
    "next(-1)", "previous", "up", "Go to the input before.", in_strip=False
)

ANEW = verbs.Verb(
    "anew", "empty form", "f8", "Empty the form, or bring back what was typed in it."
)
Typed = dict[str, list[str]]
"""What was typed for the inputs, by their names."""


class SumForm(EmptyingSheet):
    """The inputs of one sum; a form that was left is filled in again."""

    def __init__(self, desk: Desk, of: Sum) -> None:
        """Show the form of this sum."""
        super().__init__(desk)
        self._sum = of
        self._dropped = ""
        self._done = ""

    @property
    def heading(self) -> str:
        """What is worked out here."""
        return self._sum.title

    @property
    def heading_short(self) -> str:
        """The name the sum is called by; what it does stands below."""
        return self._sum.name

    @property
    def margin(self) -> int:
        """Columns of the margin, for the names of inputs; as the styles have it."""
        return 17 if self.has_class("-narrow") else 22

    def body(self) -> ComposeResult:
        """Lay out a line for each input, and what is accepted under them."""
        with VerticalScroll(id="inputs"):
            for number, asked in enumerate(self._sum.inputs):
                line = EntryLine(meaning_of(asked), id=f"input-{number}")
                yield Row(asked.name.replace("_", " "), line)
        yield Row("accepted", id="accepted")

    def on_mount(self) -> None:
        """Start at the first input, with what was typed here before."""
        super().on_mount()
        self.query(EntryLine).first().focus()
        self.recall(self.purpose)

    @property
    def typed(self) -> Typed:
        """What was typed, by the name of the input."""
        lines = zip(self._sum.inputs, self.query(EntryLine), strict=True)
        return {
            asked.name: split_values(line.value, asked) if asked.many else [line.value]
            for asked, line in lines
            if line.value.strip()
        }

    @on(DescendantFocus)
    @on(Input.Changed)
    def _hint(self) -> None:
        """Say what is accepted where the cursor stands."""
        for asked, line in zip(self._sum.inputs, self.query(EntryLine), strict=True):
            if line.has_focus:
                self.query_one("#accepted", Row).say(accepted_of(asked), "accepted")

    def action_next(self, by: int) -> None:
        """Go to another input."""
        lines = list(self.query(EntryLine))
        here = [line.has_focus for line in lines]
        at = here.index(True) if True in here else 0
        line = lines[(at + by) % len(lines)]
        line.focus()
        if line.value and line.as_put:
            line.select_all()

    def goes_on(self) -> bool:
        """Go on from the input just typed while one that is needed is still empty.

        What is not accepted is said, and stays. Tells whether the sum is not to be
        worked out yet.
        """
        lines, inputs = list(self.query(EntryLine)), self._sum.inputs
        at = next((n for n, line in enumerate(lines) if line.has_focus), None)
        rows = enumerate(zip(inputs, lines, strict=True))
        missing = [n for n, (one, line) in rows if one.required and not line.value]
        if at is None or at in missing:
            return False
        asked, typed = inputs[at], self.typed.get(inputs[at].name)
        try:
            if typed is not None:
                read_inputs((asked,), {asked.name: typed})
        except BadInput as refusal:
            said = sentence("[$alarm bold]$why[/]", why=str(refusal))
            self.query_one("#accepted", Row).say(said, "not yet")
            lines[at].select_all()
            return True
        if missing:
            there = lines[at + 1 if at + 1 < len(lines) else missing[0]]
            there.focus()
            if there.value:
                there.select_all()
        return bool(missing)

    # -- the form, and how it is kept --------------------------------------------

    @property
    def purpose(self) -> str:
        """What the form is kept as."""
        return f"sum {self._sum.name}"

    WAY = "the_sum"

    @property
    def about_here(self) -> tuple[str, ...]:
        """The sum."""
        return (self._sum.name,)

    @property
    def in_the_middle(self) -> Midst | None:
        """The form, while it holds what is not logged."""
        form = self._form()
        return self._midst(self.heading, "") if form not in ("", self._done) else None

    def _form(self) -> str:
        """Give what stands in the form as the lines it is kept in."""
        lines = zip(self._sum.inputs, self.query(EntryLine), strict=True)
        return form_text({asked.name: line.value for asked, line in lines})

    def _fill(self, form: str) -> None:
        """Fill the form in, or empty it; what is typed next stands in the place."""
        typed, lines = form_read(form), list(self.query(EntryLine))
        for asked, line in zip(self._sum.inputs, lines, strict=True):
            line.put(typed.get(asked.name, ""))
        here = self.focused if self.focused in lines else lines[0]
        if isinstance(here, EntryLine) and here.value:
            here.select_all()

    @on(EmptyingSheet.Earlier)
    def _fill_again(self, message: EmptyingSheet.Earlier) -> None:
        """Fill a form that was left in again, unless something is typed by now."""
        message.prevent_default()
        if self._form():
            return
        self._fill(message.text)
        when, key = f"{message.when.astimezone():%d %b %H:%M}", self.mapped_keys()(ANEW)
        self.tell(f"this was being filled in on {when}; {key} empties it", label="kept")

    def action_anew(self) -> None:
        """Empty the form; the same key brings back what was typed in it."""
        key, form = self.mapped_keys()(ANEW), self._form()
        if not form and not self._dropped:
            self.tell("nothing was typed here", label="nothing")
            return
        self._fill("" if form else self._dropped)
        if form:
            self.desk.keeping.emptied(form, self.purpose)
        self._dropped = form
        self.tell(f"{key} brings it back" if form else "as it was typed", label="form")

    def action_back(self) -> None:
        """Go back; what stands in the form is kept, unless it was logged."""
        form = self._form()
        self.keep_now("" if form == self._done else form, self.purpose)
        self.dismiss()

    def settle(self) -> None:
        """Let go of what is kept of the form: it is on record."""
        self._done = self._form()
        self.keep_now("", self.purpose)

    @on(Input.Changed)
    def _keep_form(self) -> None:
        self.keep_soon(self._form(), self.purpose)
