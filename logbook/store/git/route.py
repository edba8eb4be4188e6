"""Entries into the history: commits first, then the index, then the branch.

The commits are written onto a private reference, so a crash leaves them
reachable; then the user's own index learns the paths; then one transaction
moves the branch, if it still stands where it stood. The other way round, a
commit the user makes in between would drop our files from the tree.

Where signing or a hook has a say, `git commit` does it: see `through_commit`.
"""

from __future__ import annotations

import time
from collections.abc import Iterator, Sequence
from contextlib import ExitStack, contextmanager, suppress
from datetime import UTC, datetime

from logbook.errors import Refused
from logbook.store.disk.flushed import HeldElsewhere, locked
from logbook.store.git import stream
from logbook.store.git.command import Answer, lent, tell
from logbook.store.git.in_progress import undisturbed
from logbook.store.git.locks import clear_own_locks
from logbook.store.git.message import Change, message, moment, one_line
from logbook.store.git.outcome import Committed, Outcome, Pass, Waiting, all_wait
from logbook.store.git.repository import Repository
from logbook.store.git.staging import stage_as_seen
from logbook.store.git.standing import Blob, Standing, stand, tree, unfit
from logbook.store.git.state import CLOSED, Ready, Waits, trouble
from logbook.store.git.survey import Survey, survey
from logbook.store.git.through_commit import commit_by_git
from logbook.store.git.waiting import adopt, keep, settle

_PAUSE_S = 0.02


def commit(
    repository: Repository,
    changes: Sequence[Change],
    *,
    folder: str = "as-built",
    patience_s: float = 10.0,
) -> Outcome:
    """Commit each change, durable on disk already, as one commit of its own.

    What cannot be committed now waits, with a sentence, untouched in the folder
    and kept reachable in git. Neither what the user staged nor what he has in
    progress is changed, and nothing is pushed. Undoing or restoring a file is a
    change like any other: it is committed as the folder now has it.

    Args:
        repository: where.
        changes: in the order they happened.
        folder: the records' folder, relative to the top; only paths in it are taken.
        patience_s: how long to make way for other git commands, in seconds.

    Raises:
        Refused: a path lies outside the folder.
    """
    for path in (path for change in changes for path in change.touched):
        if not path.startswith(f"{folder}/") or "/../" in path:
            raise Refused(f"{path} is not in {folder}/, and only that is committed.")
    deadline = time.monotonic() + patience_s
    try:
        with alone(repository, patience_s):
            adopt(repository)
            outcome = _commit(repository, changes, folder, deadline)
            _look_after(repository, outcome)
    except Refused as reason:
        return all_wait(changes, str(reason))
    return outcome


@contextmanager
def alone(repository: Repository, patience_s: float) -> Iterator[None]:
    """Keep other runs of this program out of the git directory meanwhile.

    Raises:
        Refused: another one was not done in `patience_s`, or nothing can be written.

    """
    with ExitStack() as held:
        try:
            lock = locked(repository.git_path("as-built.lock"), patience_s)
            descriptor = held.enter_context(lock)
        except HeldElsewhere:
            raise Refused(
                "Another logbook is committing in this repository; the entries are "
                "saved and wait for the next time."
            ) from None
        except Refused:
            raise Refused(CLOSED.format(repository.git_dir)) from None
        with lent(descriptor):
            if descriptor is not None:
                clear_own_locks(repository)
            yield


def _look_after(repository: Repository, outcome: Outcome) -> None:
    """Keep what waits reachable in git, where objects can be written at all."""
    done = [entry.change for entry in outcome.committed]
    late = [entry.change for entry in outcome.waiting]
    with suppress(Refused):
        settle(
            repository,
            [p for each in done for p in each.paths if (repository.top / p).exists()],
        )
        settle(repository, [p for each in done + late for p in each.removed])
        paths = [path for each in late for path in each.touched]
        keep(repository, [path for path in paths if not unfit(repository, path)])
        if not late:
            stream.drop(repository, stream.coming(repository))


def _commit(
    repository: Repository, changes: Sequence[Change], folder: str, deadline: float
) -> Outcome:
    while True:
        surveyed = survey(repository, folder)
        if isinstance(surveyed.state, Ready):
            sorted_ = _sort(repository, surveyed, changes)
            if surveyed.through_commit:
                commit_by_git(repository, surveyed, sorted_)
                return sorted_.outcome(surveyed.state.remark)
            late = _attempt(repository, surveyed, sorted_)
            if late is None:
                return sorted_.outcome(surveyed.state.remark)
        elif isinstance(surveyed.state, Waits):
            late = surveyed.state
        elif surveyed.state.blind and not changes:
            return Outcome(unanswered=surveyed.state.sentence)
        else:
            return all_wait(changes, surveyed.state.sentence)
        if not late.passing or time.monotonic() > deadline:
            return all_wait(changes, late.sentence)
        time.sleep(_PAUSE_S)


def _sort(repository: Repository, surveyed: Survey, changes: Sequence[Change]) -> Pass:
    """Tell apart what HEAD has already, what has to wait, and what can go."""
    unfits = {
        path: unfit(repository, path) for each in changes for path in each.touched
    }
    places = stand(
        repository,
        surveyed.head,
        [path for path, reason in unfits.items() if not reason],
        file_modes_count=surveyed.file_modes_count,
    )
    ours = _left_behind(repository, places)
    found = Pass()
    taken: set[str] = set()
    for change in changes:
        if reason := next(
            (unfits[path] for path in change.touched if unfits[path]), ""
        ):
            found.waiting.append(Waiting(change, reason))
            continue
        open_ = [places[p] for p in change.touched if p not in taken]
        open_ = [place for place in open_ if not place.committed]
        staged = [p.path for p in open_ if p.staged_by_user(ours.get(p.path, ()))]
        if staged:
            found.waiting.append(Waiting(change, _STAGED.format(staged[0])))
        elif open_:
            found.going.append((change, tuple(open_)))
            taken.update(place.path for place in open_)
        else:
            found.committed.append(Committed(change, surveyed.head or "", ours=False))
    return found


_STAGED = (
    "You have staged {0} yourself; the entry is saved and waits until you commit "
    "that or take it back with git restore --staged {0}"
)


def _left_behind(
    repository: Repository, places: dict[str, Standing]
) -> dict[str, tuple[Blob, ...]]:
    """Give what this program put into the index before it was stopped, if it was."""
    staged = [path for path, place in places.items() if place.staged_by_user()]
    if not staged:
        return {}
    tip = repository.commit_of(stream.coming(repository))
    return {path: (blob,) for path, blob in tree(repository, tip, staged).items()}


def _attempt(repository: Repository, surveyed: Survey, found: Pass) -> Waits | None:
    """Try the route once.

    If the branch cannot be moved the index keeps our paths: the next try finds
    them there, or the user's own commit takes them along.
    """
    if not found.going:
        return None
    ref = stream.coming(repository)
    now = moment(datetime.now(UTC).astimezone())
    drafts = [
        stream.Draft(
            message(change),
            f"{surveyed.author} {moment(change.when) if change.when else now}",
            f"{surveyed.committer} {surveyed.date or now}",
            files,
        )
        for change, files in found.going
    ]
    written = stream.write(repository, ref, surveyed.head, drafts)
    if not written.good:
        return trouble(written)
    ids = written.out.decode("ascii").split()
    places = [place for _, files in found.going for place in files]
    staged = stage_as_seen(repository, places)
    if not staged.good:
        return trouble(staged)
    if doing := undisturbed(repository):  # begun meanwhile: it would find HEAD moved
        return doing
    moved = _move(repository, surveyed.head, ids[-1], found)
    if not moved.good:
        return trouble(moved)
    found.committed += [
        Committed(change, id_)
        for (change, _), id_ in zip(found.going, ids, strict=True)
    ]
    return None


def _move(repository: Repository, old: str | None, new: str, found: Pass) -> Answer:
    """Move the branch, if it stands where it stood, and drop the private reference."""
    count = len(found.going)
    reason = one_line(found.going[-1][0].subject) if count == 1 else f"{count} entries"
    steps = (
        f"start\nupdate HEAD {new} {old or '0' * len(new)}\n"
        f"delete {stream.coming(repository)} {new}\nprepare\ncommit\n"
    )
    words = ("-m", f"commit (as built): {reason}", "--stdin")
    return tell(repository.top, "update-ref", *words, given=steps.encode())
