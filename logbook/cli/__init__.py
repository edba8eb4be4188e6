"""The verbs for the shell. Each verb is a module, loaded only when it is called."""

from __future__ import annotations

import argparse
import importlib
import json
import sys
from collections.abc import Sequence

from logbook import __version__
from logbook.cli.folding import folding
from logbook.cli.held import held, keep_refused
from logbook.cli.in_utf8 import never_stopped_by_a_sign, refuse_other_bytes
from logbook.cli.reader_gone import going_on_unread
from logbook.cli.verbs import BENCH, VERBS, Verb
from logbook.errors import BadInput, LogbookError, Refused
from logbook.screens.desk.turns import collect_seldom
from logbook.store.disk.flushed import reason


class _Parser(argparse.ArgumentParser):
    """A parser that refuses with the logbook's own sentence and exit code."""

    def error(self, message: str) -> None:  # type: ignore[override]
        raise BadInput(f"{message}; accepted: see {self.prog} --help")


def main(argv: Sequence[str] | None = None) -> int:
    """Run one verb and give its exit code."""
    words = list(sys.argv[1:] if argv is None else argv)
    as_json = "--json" in words
    collect_seldom()
    never_stopped_by_a_sign()
    if words[:1] in ([], ["open"]):  # the screen draws for itself
        return _answered(words, as_json=as_json)
    with going_on_unread(), folding():
        return _answered(words, as_json=as_json)


def _answered(words: list[str], *, as_json: bool) -> int:
    """Run one verb; say what was refused, and give the exit code."""
    try:
        refuse_other_bytes(words)
        with held(words if _told(words) else ()):
            return _run(words)
    except LogbookError as refusal:
        return _refused(words, refusal, as_json=as_json)
    except OSError as error:
        refused = Refused(
            f"{error.filename or 'the disk'}: {reason(error)}; accepted: a place that "
            "can be read and written"
        )
        return _refused(words, refused, as_json=as_json)
    except KeyboardInterrupt:
        # A sheet keeps what was typed of it by itself, to go on from there.
        kept = "" if words[:1] == ["sheet"] else _kept(words, "stopped")
        print(f"\nlogbook: stopped{kept}", file=sys.stderr)
        return 130


def _refused(words: list[str], refusal: LogbookError, *, as_json: bool) -> int:
    """Say what was refused, and where what was typed is kept; give the exit code."""
    said = str(refusal) + _kept(words)
    if as_json:
        print(json.dumps({"error": said, "code": refusal.exit_code}))
    else:
        print(f"logbook: {said}", file=sys.stderr)
    return refusal.exit_code


def _run(words: list[str]) -> int:
    if words and words[0] in {"-V", "--version"}:
        print(f"logbook {__version__}")
        return 0
    if not words:
        return int(_load(VERBS["open"]).run(argparse.Namespace(folder=".")))
    if words[0] in {"-h", "--help", "help"}:
        print(_overview())
        return 0
    verb = VERBS.get(words[0])
    if verb is None:
        raise BadInput(_no_verb(words))
    parser = _Parser(
        prog=f"logbook {verb.name}",
        description=verb.purpose,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    module = _load(verb)
    module.arguments(parser)
    return int(module.run(parser.parse_args(words[1:])))


def _no_verb(words: list[str]) -> str:
    """Say that the first word is no verb, and what may have been meant."""
    from difflib import get_close_matches

    said = f"“{words[0]}” is no verb of the logbook"
    near = get_close_matches(words[0].casefold(), VERBS, 2, 0.6)
    if near:
        return f"{said}; accepted: {' or '.join(near)}, or see logbook --help"
    line = " ".join(words)
    return (
        f"{said}; accepted: see logbook --help; a plain line is told with say “{line}”"
    )


def _kept(words: list[str], how: str = "refused") -> str:
    """Keep what was typed to be put on record and was not; say where it is kept."""
    if not _told(words):
        return ""
    return keep_refused(words, how)


def _told(words: list[str]) -> bool:
    """Tell whether something was typed to be put on record.

    A verb that only looks or prints was given nothing to keep, and the name of one
    thing is looked up, not told.
    """
    verb = VERBS.get(words[0]) if words else None
    if verb is None or not verb.tells:
        return False
    told = [w for w in words[1:] if w != "--json"]
    if "--in" in told:
        del told[told.index("--in") : told.index("--in") + 2]
    return len(told) > (verb.group != BENCH)


def _load(verb: Verb):  # type: ignore[no-untyped-def] # noqa: ANN202 - a module
    return importlib.import_module(f"logbook.cli.{verb.module}")


def _overview() -> str:
    lines = ["usage: logbook VERB …        (no verb: open the screen)", ""]
    group = ""
    for verb in VERBS.values():
        if verb.group != group:
            group = verb.group
            lines += ["", f"{group}:"] if len(lines) > 2 else [f"{group}:"]
        lines.append(f"  {verb.name:<10} {verb.purpose}")
    lines += ["", "logbook VERB --help tells the rest."]
    return "\n".join(lines)
