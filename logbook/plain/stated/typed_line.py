"""A step, hold, gap or joint typed on a line: the shell's own words, quotes left out.

`step 2: rivet the lid on --closes --inside cable` says what `logbook step` is told. A
semicolon does for the dashes: `step 2: rivet the lid on; closes; inside cable`.
"""

from __future__ import annotations

import argparse
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, NoReturn

from logbook.errors import BadInput
from logbook.plain.stated.joints import joint_arguments, stated_joint
from logbook.plain.stated.order import (
    gap_arguments,
    hold_arguments,
    stated_fit,
    stated_hold,
    stated_step,
    step_arguments,
)
from logbook.records.kinds.assembling import Fit, Joint, Step
from logbook.records.kinds.record import Record
from logbook.records.making.drafts import Draft
from logbook.records.together.snapshot import Snapshot

STEP, HOLD, GAP, JOINT = "step", "hold", "gap", "joint"

EXAMPLES = {
    STEP: "step rivet the lid on; closes; inside cable",
    HOLD: "hold 2: the glue is not dry; until tomorrow",
    GAP: "gap bar in the opening: base.opening - crossbar.length; limits 0.1 to 0.5",
    JOINT: "joint lid to base: M4x16; layer lid; layer washer=0.8 mm; layer base",
}

_DECLARED: dict[str, Callable[[argparse.ArgumentParser], None]] = {
    STEP: step_arguments,
    HOLD: hold_arguments,
    GAP: gap_arguments,
    JOINT: joint_arguments,
}
_DRAFTED: dict[str, Callable[[Draft, argparse.Namespace], Record]] = {
    STEP: stated_step,
    HOLD: stated_hold,
    GAP: stated_fit,
    JOINT: stated_joint,
}
_VERB = re.compile(
    r"\s*(?:logbook\s+)?(step|hold|gap|joint)\b:?\s*(.*)", re.IGNORECASE | re.DOTALL
)
_NUMBERED = re.compile(r"(\d{1,3})\s*[:.)]\s*(\S.*)", re.DOTALL)
_TOKEN = re.compile(r'(--[\w-]+=)?"([^"]*)"(?!\S)|(\S+)')
_QUOTES = str.maketrans("“”„", '"""')
_IN_FORMULA = re.compile(r"[(]*(?:(?:min|max|abs)\s*\(|[a-z]\w*(?:@\w+)?\.[a-z])")


@dataclass(frozen=True)
class Stated:
    """What a line states, as its options were read."""

    verb: str
    line: str
    args: argparse.Namespace

    def put(self, draft: Draft) -> Record:
        """Draft the record.

        Raises:
            LogbookError: something named is none, or cannot be.
        """
        try:
            return _DRAFTED[self.verb](draft, self.args)
        except BadInput as refusal:
            raise BadInput(_as_typed_here(str(refusal))) from refusal


_OPTIONS = re.compile(r"--([a-z-]+)(?: \"([^\"]*)\")?(?P<more> (?=--))?")


def _as_typed_here(words: str) -> str:
    """Give a sentence with its options as they are typed on a line: uses lid."""

    def typed(found: re.Match[str]) -> str:
        word = " ".join(filter(None, (found[1].replace("-", " "), found[2])))
        return f"{word}; " if found["more"] else word

    return _OPTIONS.sub(typed, words)


class _Parser(argparse.ArgumentParser):
    """Reads the options of one verb; knows them, and which of them take no value."""

    def __init__(self, verb: str) -> None:
        self.bare: set[str] = set()
        self.options: list[str] = []
        self.meanings: dict[str, str] = {}
        super().__init__(prog=verb, add_help=False, allow_abbrev=False)

    def add_argument(self, *names: Any, **kinds: Any) -> argparse.Action:
        action = super().add_argument(*names, **kinds)
        self.options += action.option_strings
        for option in action.option_strings:
            self.meanings[option] = (action.help or "").replace("%%", "%")
        if action.nargs == 0:
            self.bare.update(action.option_strings)
        return action

    def error(self, message: str) -> NoReturn:
        raise BadInput(f"{message}; accepted: as {EXAMPLES[self.prog]}")


def begins_with(line: str, verbs: Sequence[str]) -> bool:
    """Tell whether a line begins with one of these verbs, and says more."""
    found = _VERB.fullmatch(line)
    return found is not None and found[1].casefold() in verbs and bool(found[2].strip())


def told_behind(verb: str) -> list[str]:
    """Give what may be told behind a semicolon, each with what it means."""
    parser = _parser(verb)
    found = []
    for option, meaning in parser.meanings.items():
        word = _word_of(option) + ("" if option in parser.bare else " …")
        found.append(f"{word} ({meaning.partition(';')[0]})")
    return found


def _word_of(option: str) -> str:
    """Give an option as it is said behind a semicolon."""
    return option.removeprefix("--").replace("-", " ")


def _parser(verb: str) -> _Parser:
    parser = _Parser(verb)
    _DECLARED[verb](parser)
    if verb != HOLD:
        parser.add_argument("--new", action="store_true", help="the part is a new one")
    return parser


def read_stated(
    line: str, snapshot: Snapshot, verbs: Sequence[str] = (STEP, HOLD, GAP, JOINT)
) -> Stated | None:
    """Give what a line states exactly; None where it begins with none of the verbs.

    Raises:
        BadInput: it begins so, and cannot be read on.
    """
    found = _VERB.fullmatch(line)
    if found is None or found[1].casefold() not in verbs:
        return None
    verb = found[1].casefold()
    parser = _parser(verb)
    words, options = _parted(_dashed(found[2].translate(_QUOTES), parser), parser)
    told, more = _POSITIONAL[verb](words, snapshot)
    return Stated(verb, line, parser.parse_args([*options, *more, "--", *told]))


def _dashed(text: str, parser: _Parser) -> str:
    """Give a line with dashes before each option that a semicolon parts off.

    Other words behind a semicolon, and those in quotes, stay as they are.
    """
    words = {_word_of(option): option for option in parser.options}
    named = "|".join(re.escape(word) for word in sorted(words, key=len, reverse=True))
    parted = re.compile(rf'"[^"]*"|\s*;\s*({named})(?![\w-]):?', re.IGNORECASE)

    def dashed(found: re.Match[str]) -> str:
        return f" {words[found[1].casefold()]} " if found[1] else found[0]

    return parted.sub(dashed, text)


def _parted(text: str, parser: _Parser) -> tuple[list[str], list[str]]:
    """Part what stands before the options from them, each with its value as one word.

    Raises:
        BadInput: a quote is open, an option is none, or has no value and takes one.
    """
    words: list[str] = []
    options: list[list[str]] = []
    for word, is_option in _tokens(text):
        if is_option:
            name, _, value = word.partition("=")
            options.append([name, value] if value else [name])
        elif options and options[-1][0] not in parser.bare:
            options[-1].append(word)
        else:
            words.append(word)
    return words, [_joined(name, values, parser) for name, *values in options]


def _tokens(text: str) -> Iterator[tuple[str, bool]]:
    """Yield each word, or what stands in quotes, and whether it names an option."""
    for found in _TOKEN.finditer(text):
        option, quoted, plain = found.groups()
        if plain is None:
            yield f"{option or ''}{quoted}", bool(option)
        elif plain.startswith('"') and len(plain) > 1:
            raise BadInput(
                f"a quote stands open before {plain[1:]}; accepted: with its end"
            )
        else:
            yield plain, plain.startswith("--")


def _joined(name: str, values: list[str], parser: _Parser) -> str:
    """Give an option as one word with its value, so that none is taken for another."""
    if name not in parser.options:
        accepted = ", ".join(parser.options)
        raise BadInput(f"{name} is not told of a {parser.prog}; accepted: {accepted}")
    if not values and name not in parser.bare:
        raise BadInput(f"{name} says nothing yet; accepted: what it is, behind it")
    return f"{name}={' '.join(values)}" if values else name


# -- what stands before the options ---------------------------------------------------


def _of_step(words: list[str], _: Snapshot) -> tuple[list[str], list[str]]:
    """Give the operation; a number before it and a colon is its place."""
    name = " ".join(words).strip()
    if not name:
        raise BadInput(f"no operation is named; accepted: {EXAMPLES[STEP]}")
    found = _NUMBERED.fullmatch(name)
    if found is None and words[0].isdecimal():
        raise BadInput(
            f"“{name}” begins with a number; accepted: a colon behind the place in the "
            f"order of work: step {words[0]}: what is done"
        )
    if name.casefold().endswith(" done"):
        raise BadInput("nothing is logged as done here; accepted: Enter at its row")
    return ([found[2]], [f"--number={found[1]}"]) if found else ([name], [])


def _of_hold(words: list[str], snapshot: Snapshot) -> tuple[list[str], list[str]]:
    """Give the step and the reason: parted by quotes, a colon, or a known name."""
    if len(words) == 2:
        return [words[0].removesuffix(":"), words[1]], []
    text = " ".join(words)
    before, colon, because = text.partition(":")
    if colon and before.strip() and because.strip():
        return [before.strip(), because.strip()], []
    for step in sorted(snapshot.all(Step), key=lambda step: -len(step.title)):
        for name in (step.title, str(step.number)):
            if text.casefold().startswith(f"{name.casefold()} "):
                return [name, text[len(name) :].strip()], []
    raise BadInput(
        "which step waits, and why? accepted: its number or its name, a colon and the "
        f"reason: {EXAMPLES[HOLD]}"
    )


def _of_gap(words: list[str], snapshot: Snapshot) -> tuple[list[str], list[str]]:
    """Give the name and the formula: parted by a colon, or where a dimension begins.

    The name of a known gap may stand alone.
    """
    name, colon, formula = " ".join(words).partition(":")
    if name.strip() and not formula.strip() and snapshot.named(name.strip(), Fit):
        return [name.strip()], []
    if not colon:
        at = next((at for at, one in enumerate(words) if _IN_FORMULA.match(one)), 0)
        name, formula = " ".join(words[:at]), " ".join(words[at:])
    if not name.strip() or not formula.strip():
        raise BadInput(
            "what is it called, and over which dimensions does it go? accepted: "
            f"{EXAMPLES[GAP]}"
        )
    return [name.strip(), formula.strip()], []


def _of_joint(words: list[str], snapshot: Snapshot) -> tuple[list[str], list[str]]:
    """Give the name and the fastener: parted by a colon, or the last word's figure.

    The name of a known joint may stand alone.
    """
    name, colon, fastener = " ".join(words).partition(":")
    if name.strip() and not fastener.strip() and snapshot.named(name.strip(), Joint):
        return [name.strip()], []
    if not colon and len(words) > 1 and any(sign.isdigit() for sign in words[-1]):
        name, fastener = " ".join(words[:-1]), words[-1]
    if not name.strip() or not fastener.strip():
        raise BadInput(
            f"what is it called, and what holds it? accepted: {EXAMPLES[JOINT]}"
        )
    return [name.strip(), fastener.strip()], []


_POSITIONAL: dict[str, Callable[[list[str], Snapshot], tuple[list[str], list[str]]]] = {
    STEP: _of_step,
    HOLD: _of_hold,
    GAP: _of_gap,
    JOINT: _of_joint,
}
