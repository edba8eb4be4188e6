"""Options and answers that many verbs share: folder, time, build, JSON, commit."""

from __future__ import annotations

import argparse
import json
import shutil
import sys
from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from logbook.advice.changes.released_sizes import released_otherwise
from logbook.advice.changes.withdrawn_parts import about_withdrawn
from logbook.advice.joints.old_screw import old_screws
from logbook.cli.clock_ends import clock_ended, clock_ending
from logbook.cli.faults_told import tell_faults, untold_faults
from logbook.cli.folding import folded as broken
from logbook.cli.held import question_stands
from logbook.cli.whose_build import whose_words
from logbook.errors import BadInput, NeedsAnswer
from logbook.plain.answers.no_answer import no_answer
from logbook.project import Project, Saved
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds.record import Record
from logbook.records.kinds.table import kind_of
from logbook.records.kinds.words import BLAME_TYPED, Blame, Disposition
from logbook.records.making.drafts import Draft
from logbook.records.states.dated import dated_before
from logbook.records.together.shown import what_changed
from logbook.records.written.codec import write_facts

BLAMES = {
    "drawing": Blame.DRAWING,
    "piece": Blame.PIECE,
    "machine": Blame.MACHINE,
    "unknown": Blame.UNKNOWN,
}
BLAME_ASKED = (
    "would another builder meet this?  1 the drawing is wrong / 2 only this piece "
    "/ 3 my machine does this  "
)
BLAME_KEYS = {"": "unknown", "1": "drawing", "2": "piece", "3": "machine"}
_SPELT = {
    "y": ("yes", "yep", "ok"),
    "n": ("no", "nope"),
    **{key: said for key, *said in BLAME_TYPED.values()},
}
SAVED = "nothing committed; what was logged is saved and waits"
DISPOSITIONS = [word.value for word in Disposition]


def place(parser: argparse.ArgumentParser) -> None:
    """Add the options of every verb that works in a project."""
    parser.add_argument(
        "--in", dest="folder", type=_there, default=Path(), help="the project's folder"
    )
    parser.add_argument("--json", action="store_true", help="answer as JSON")


def _there(text: str) -> Path:
    """Give a folder that is there: a slip in its name must lead to no other project."""
    if not Path(text).exists():
        raise BadInput(f"--in: found “{text}”, which is not here; accepted: a folder")
    return Path(text)


def logging(parser: argparse.ArgumentParser) -> None:
    """Add the options of every verb that logs something."""
    place(parser)
    parser.add_argument("--when", help="when it happened, as 2026-03-14T16:00")
    parser.add_argument("--build", default="", help="the build meant")
    parser.add_argument(
        "--later", action="store_true", help="save it, let git take it later"
    )


def blame(parser: argparse.ArgumentParser) -> None:
    """Add the question every deviation and failure answers."""
    parser.add_argument(
        "--met-by",
        choices=sorted(BLAMES),
        default="unknown",
        help="would another builder meet this? whose fault it is",
    )
    parser.add_argument("--do", choices=DISPOSITIONS, help="what to do with the piece")
    parser.add_argument("--cure", default="", help="what helped, or should")


def ask_blame() -> Blame:
    """Ask on the terminal whose fault it is; no answer is “not known yet”."""
    return BLAMES[ask_key(f"{BLAME_ASKED}[Enter: not known yet] ", BLAME_KEYS)]


def ask_key(
    prompt: str, keys: Mapping[str, str], aside: Callable[[str], str] = lambda _: ""
) -> str:
    """Ask until one of these keys is answered; give what it stands for.

    The word a key stands for answers too, and the ways it is commonly spelt. What is
    no answer is handed to `aside`, which gives the words that tell where it went.

    Raises:
        NeedsAnswer: nobody is there to answer.
    """
    while True:
        typed = ask(prompt)
        said = typed.casefold()
        for key, meaning in keys.items():
            if said == key or (said and said in {meaning, *_SPELT.get(key, ())}):
                return meaning
        named = ", ".join(key for key in keys if key)
        accepted = f"{named}, or Enter" if "" in keys else named
        print(no_answer(typed, accepted, aside(typed)))


def ask(prompt: str) -> str:
    """Ask on the terminal.

    Raises:
        NeedsAnswer: nobody is there to answer.
    """
    question_stands()
    try:
        return input(folded(prompt)).strip()
    except EOFError:
        raise NeedsAnswer(
            "nobody answered, so nothing was taken; accepted: an answer, or --yes"
        ) from None


def folded(text: str) -> str:
    """Give a line broken between words where a terminal is too narrow for it."""
    if not sys.stdout.isatty():
        return text
    return broken(text, shutil.get_terminal_size().columns)


def moment(args: argparse.Namespace) -> datetime:
    """Give the instant an entry is about: `--when`, else now.

    Raises:
        BadInput: the text is no date and time, or it lies in the future.
    """
    now = datetime.now(UTC).astimezone()
    if not args.when:
        return now
    try:
        when = datetime.fromisoformat(args.when)
    except ValueError:
        when = _spoken_moment(args.when, now)
    when = when if when.tzinfo else when.astimezone()
    if when > now:
        raise BadInput(f"--when: {args.when} lies in the future; accepted: up to now")
    return when


def _spoken_moment(text: str, now: datetime) -> datetime:
    """Read a moment as a plain line may tell it: yesterday 16:00, 2 h ago.

    Raises:
        BadInput: it tells no moment, or more than one.
    """
    from logbook.plain.when.moments import read_moment

    found = read_moment(text, now)
    if isinstance(found, datetime):
        return found
    raise BadInput(
        f"--when: {found or f'found “{text}”'}; accepted: a date and time as "
        "2026-03-14T16:00, or “yesterday 16:00”, “2 h ago”, “monday”"
    )


def opened(args: argparse.Namespace) -> Project:
    """Open the project the command is about."""
    return Project.open(args.folder)


def something(said: str, what: str) -> str:
    """Give what was said.

    Raises:
        BadInput: nothing was.
    """
    if not said.strip():
        raise BadInput(f"nothing was said; accepted: {what}")
    return said


def value(text: str, draft: Draft) -> Quantity:
    """Read a quantity in the project's unit."""
    return parse_quantity(text, draft.snapshot.project.unit)


def save(
    project: Project,
    draft: Draft,
    subject: str,
    args: argparse.Namespace,
    files: Mapping[str, bytes] | None = None,
    tell: Callable[[Saved], list[str]] | None = None,
) -> int:
    """Save a draft, say so, let git take it, and say what that came to.

    `tell` gives the lines that say what was saved, in place of one a record.
    """
    now = moment(args)
    ended = clock_ending(project, draft, now)
    if not args.json and (whose := whose_words(project, draft, args)):
        print(f"careful: {whose}", file=sys.stderr)
    otherwise = [
        *released_otherwise(draft),
        *old_screws(draft),
        *about_withdrawn(draft),
    ]
    faults = untold_faults(draft) if args.json else tell_faults(draft)
    saved = project.save(draft, subject, now, files)
    if ended is not None:
        clock_ended(project, now, ended)
    if not args.json:
        late = () if tell else dated_before(draft.snapshot, draft.records)
        for remark in (*late, *otherwise):
            print(f"careful: {remark}", file=sys.stderr)
        for line in tell(saved) if tell else said(saved, draft):
            print(line)
        if ended is not None and ended.said:
            print(ended.said)
        sys.stdout.flush()
    outcome = {} if args.later else committed(project)
    if args.json:
        more = {**outcome, "known_faults": faults}
        answer(records=[facts(project, record) for record in saved.records], **more)
    elif outcome:
        print(outcome["git"])
    elif args.later:
        print("git: takes it with the next commit")
    return 0


def said(saved: Saved, draft: Draft) -> list[str]:
    """Give one line for each record saved; behind one amended what of it changed."""
    lines = []
    for record, path in zip(saved.records, saved.paths, strict=True):
        lines.append(f"{kind_of(record).shown}: {record.title}  [{record.id}]  {path}")
        if record.id in draft.snapshot:
            before = draft.snapshot.lookup(record.id)
            changed = what_changed(before, record)
            lines += [f"  {one.words}" for one in changed] or ["  as it was"]
    return lines


def committed(project: Project) -> dict[str, Any]:
    """Commit what waits; give a sentence and the numbers, None where not known."""
    outcome = project.commit_waiting()
    if outcome.unanswered:
        said = f"git: {SAVED} — {outcome.unanswered}"
        return {"git": said, "committed": 0, "waiting": None}
    made = sum(one.ours for one in outcome.committed)
    left = len(outcome.waiting)
    words = [f"git: {made} committed" if made else "git: nothing to commit"]
    if left:
        words = [f"git: {made} committed, {left} waiting"]
        words += list(dict.fromkeys(one.sentence for one in outcome.waiting))
    if outcome.remark:
        words.append(outcome.remark)
    return {"git": " — ".join(words), "committed": made, "waiting": left}


def facts(project: Project, record: Record) -> dict[str, Any]:
    """Give a record as JSON shows it."""
    stored = project.snapshot.stored.get(record.id)
    return {
        "title": record.title,
        **write_facts(record),
        "prose": record.prose,
        "path": stored.path if stored else "",
    }


def answer(**content: Any) -> None:
    """Print an answer as JSON; dates are ISO 8601 texts."""
    print(json.dumps(content, ensure_ascii=False, indent=1, default=_plain))


def _plain(value: Any) -> Any:
    if hasattr(value, "isoformat"):
        return value.isoformat()
    return dict(value) if isinstance(value, Mapping) else str(value)
