"""Commits made by `git commit --only`, where signing or a hook has a say.

The user's programs run without a terminal, in a session of their own, and are
ended when their time is up.
"""

from __future__ import annotations

from datetime import UTC, datetime

from logbook.store.git import stream
from logbook.store.git.command import TOO_LONG, Answer, tell
from logbook.store.git.message import Change, message, moment
from logbook.store.git.outcome import Committed, Pass, Waiting
from logbook.store.git.repository import Repository
from logbook.store.git.staging import stage, staged_now, take_out
from logbook.store.git.standing import Standing, stand
from logbook.store.git.state import trouble
from logbook.store.git.survey import Survey

LIMIT_S = 30.0
"""How long a hook or a signing program may take over one commit, in seconds."""


def commit_by_git(repository: Repository, surveyed: Survey, found: Pass) -> None:
    """Let `git commit` take what can go, one after the other, into `found`."""
    reason = ""
    for change, places in found.going:
        if not reason:
            done, sentence = _one(repository, surveyed, change, places)
            if done:
                found.committed.append(done)
                continue
            reason = sentence if "longer than" in sentence else ""
        found.waiting.append(Waiting(change, reason or sentence))
    stream.drop(repository, stream.coming(repository))


def _one(
    repository: Repository,
    surveyed: Survey,
    change: Change,
    places: tuple[Standing, ...],
) -> tuple[Committed | None, str]:
    before = repository.head()
    learned = _keep_reachable(repository, surveyed, change, places)
    if learned.good:
        learned = stage(repository, places)
    if not learned.good:
        return None, trouble(learned).sentence
    staged = staged_now(repository, [place.path for place in places])
    words = ["--only", "--quiet", "--cleanup=verbatim", "--no-edit", "-F", "-"]
    if change.when:
        words.append(f"--date=@{moment(change.when)}")
    paths = [f":(top,literal){place.path}" for place in places]
    answer = tell(
        repository.top,
        "commit",
        *words,
        "--",
        *paths,
        given=message(change),
        hooks=True,
        limit=LIMIT_S,
    )
    after = repository.head()
    if after and after != before and _holds(repository, surveyed, after, places):
        return Committed(change, after), ""
    take_out(repository, staged, {place.path: place.index for place in places})
    return None, _sentence(surveyed.through_commit, answer)


def _keep_reachable(
    repository: Repository,
    surveyed: Survey,
    change: Change,
    places: tuple[Standing, ...],
) -> Answer:
    """Write what is about to be staged where a next run finds it, if this one ends.

    Without it nobody could tell what is left in the index from the user's own doing.
    """
    now = moment(datetime.now(UTC))
    author, committer = (
        f"{who} {now}" for who in (surveyed.author, surveyed.committer)
    )
    draft = stream.Draft(message(change), author, committer, places)
    ref, head = stream.coming(repository), repository.head()
    return stream.write(repository, ref, head, [draft])


def _holds(
    repository: Repository, surveyed: Survey, commit: str, places: tuple[Standing, ...]
) -> bool:
    paths = [place.path for place in places]
    modes = surveyed.file_modes_count
    now = stand(repository, commit, paths, file_modes_count=modes)
    return all(place.head == now[place.path].file for place in now.values())


def _sentence(why: str, answer: Answer) -> str:
    if answer.code == TOO_LONG:
        return (
            f"git commit took longer than {LIMIT_S:.0f} s ({why}) and was ended; the "
            "entry is saved and waits."
        )
    return (
        f"git commit did not take the entry ({why}): {answer.complaint}; the entry is "
        "saved and waits."
    )
