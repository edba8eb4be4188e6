"""What is saved and not yet in HEAD, and what of it has gone from the folder.

What waits is worked out from the files against HEAD, never stored. Its text is
also kept under a private reference, so that `git clean`, `git stash -u` or a
`reset --hard` at the wrong moment cannot lose it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime

from logbook.errors import Refused
from logbook.records.kinds.place import FOLDER, PRINTED
from logbook.store.git import stream
from logbook.store.git.command import ask
from logbook.store.git.message import moment
from logbook.store.git.repository import Repository
from logbook.store.git.staging import take_out
from logbook.store.git.standing import Blob, Standing, answered, stand, tree

_SELF = "logbook <logbook@localhost>"
_NOT_WORK_FILES = {".gitattributes", ".gitignore"}


@dataclass(frozen=True, slots=True)
class Differing:
    """The paths that are not what HEAD has, by name: those saved, those gone."""

    saved: tuple[str, ...]
    gone: tuple[str, ...]


def waiting(repository: Repository, folder: str = "as-built") -> tuple[str, ...]:
    """List the paths under `folder` whose file is not what HEAD has, by name.

    Files that are gone are not in it; see `differing`, also for what it raises.
    """
    return differing(repository, folder).saved


def differing(repository: Repository, folder: str = "as-built") -> Differing:
    """List what under `folder` is not what HEAD has.

    Who took a file away, the user or an undo, git does not know. What is in an
    unsettled merge is the user's own business. Names with a leading dot are work
    files of editors and of this program.

    Raises:
        Refused: git cannot tell; nobody may say then that nothing waits.
    """
    probe = ("check-ignore", "-q", "--no-index", "--", f"{folder}/project.md")
    ignored = ("--ignored=matching",) if ask(repository.top, *probe).good else ()
    answer = ask(
        repository.top,
        "status",
        "--porcelain=v2",
        "-z",
        "--untracked-files=all",
        "--no-renames",
        "--ignore-submodules=all",
        *ignored,
        "--",
        folder,
    )
    entries = answered(answer).fields()
    found = {_saved(entry) for entry in entries} - {""}
    whole = {path for path in found if path.endswith("/")}
    for path in whole:
        found.discard(path)
        found.update(
            repository.relative(file)
            for file in (repository.top / path).rglob("*")
            if file.is_file()
        )
    gone = {_gone_path(entry) for entry in entries} - {""} - found
    return Differing(*(tuple(sorted(_records_only(some))) for some in (found, gone)))


def _saved(entry: str) -> str:
    """Give the path of a status line that is saved and not in HEAD."""
    if entry[:1] in "?!":
        return entry[2:]
    return "" if entry[:1] != "1" or _is_gone(entry) else entry.split(" ", 8)[8]


def _gone_path(entry: str) -> str:
    """Give the path of a status line that is in HEAD and no more in the folder."""
    return entry.split(" ", 8)[8] if entry[:1] == "1" and _is_gone(entry) else ""


def _is_gone(entry: str) -> bool:
    return entry[3] == "D" or entry[2:4] == "D."


def _records_only(paths: Iterable[str]) -> Iterator[str]:
    return (path for path in paths if not _work_file(path))


def _work_file(path: str) -> bool:
    *folders, name = path.split("/")
    if folders[-2:] == [FOLDER, PRINTED]:
        return True  # a page for the printer, where nothing told git so yet
    return name.startswith(".") and name not in _NOT_WORK_FILES


@dataclass(frozen=True, slots=True)
class Lost:
    """A file that waited for its commit and has gone from the folder; `blob` has it."""

    path: str
    blob: str

    @property
    def sentence(self) -> str:
        """Say what happened to it and how it is brought back."""
        return (
            f"{self.path} was saved and waited for its commit, but something took it "
            "away (git clean, git stash or git reset?); git still keeps its text as "
            f"{self.blob[:12]}: logbook commit --bring-back brings it back, "
            "logbook commit --let-go lets it go"
        )


def keep(repository: Repository, paths: Sequence[str]) -> None:
    """Keep what these paths hold reachable in git until it is committed.

    What is kept of a file that has gone from the folder stays kept: nobody said it
    was taken back.
    """
    if not paths:
        return
    held = _kept(repository)
    places = stand(repository, repository.head(), list(dict.fromkeys(paths)))
    wanted = dict(held)
    for path, place in places.items():
        if place.file and place.committed:
            wanted.pop(path, None)
        elif place.file:
            wanted[path] = place.file
    _hold(repository, held, wanted, places)


def settle(repository: Repository, paths: Sequence[str]) -> None:
    """Let go what was kept of these paths: it is committed, or was taken back."""
    held = _kept(repository)
    gone = set(paths)
    wanted = {path: blob for path, blob in held.items() if path not in gone}
    _hold(repository, held, wanted)


def adopt(repository: Repository) -> None:
    """Keep what a stopped program had written and the folder has lost since.

    What it had put into the index and the branch was never moved to is taken out again:
    once the file has changed nobody could tell it from what the user has staged.
    """
    coming = _on_the_way(repository)
    take_out(repository, {path: (blob,) for path, blob in coming.items()})
    gone = {p: b for p, b in coming.items() if not (repository.top / p).exists()}
    if gone:
        held = _kept(repository)
        _hold(repository, held, held | gone)


def held_paths(repository: Repository) -> tuple[str, ...]:
    """List the paths of which a text is kept in git, for it was not committed yet."""
    return tuple(_on_the_way(repository) | _kept(repository))


def text_of(repository: Repository, one: Lost) -> bytes:
    """Give the text git keeps of a file that has gone.

    Raises:
        Refused: git has it no more.
    """
    answer = ask(repository.top, "cat-file", "blob", one.blob)
    if not answer.good:
        raise Refused(f"{one.path} is not brought back; git said: {answer.complaint}")
    return answer.out


def lost(repository: Repository) -> tuple[Lost, ...]:
    """List what waited, was not committed, and is gone.

    What was taken back on purpose is in it too until that was told in a change.
    """
    held = _on_the_way(repository) | _kept(repository)
    if not held:
        return ()
    in_head = tree(repository, repository.head(), list(held))
    return tuple(
        Lost(path, blob.id)
        for path, blob in held.items()
        if in_head.get(path) != blob
        and _gone(repository, path, in_head.get(path))
        and not _since(repository, path)
    )


def _gone(repository: Repository, path: str, in_head: Blob | None) -> bool:
    """Tell whether the folder has nothing at a path that HEAD does not have."""
    if not (repository.top / path).exists():
        return True
    return in_head is not None and not waiting(repository, path)


def _on_the_way(repository: Repository) -> dict[str, Blob]:
    """Give what a stopped program had written and not yet moved the branch to."""
    found: dict[str, Blob] = {}
    coming = repository.commit_of(stream.coming(repository))
    if coming is None:
        return found
    head = repository.head()
    since = (f"^{head}",) if head else ()
    ids = ask(repository.top, "rev-list", "--reverse", coming, *since).out
    words = ("diff-tree", "-r", "-z", "--no-commit-id", "--root", "--stdin")
    fields = ask(repository.top, *words, given=ids).fields()
    for facts, path in zip(fields[::2], fields[1::2], strict=True):
        _old_mode, mode, _old, blob, status = facts.split(" ")
        if status != "D":
            found[path] = Blob(mode, blob)
    return found


def _since(repository: Repository, path: str) -> bool:
    """Tell whether HEAD has learned something about a path since it was kept."""
    tips = [
        repository.commit_of(ref(repository)) for ref in (stream.kept, stream.coming)
    ]
    known = [f"^{tip}" for tip in tips if tip]
    return bool(ask(repository.top, "rev-list", "-1", "HEAD", *known, "--", path).out)


def _kept(repository: Repository) -> dict[str, Blob]:
    tip = repository.commit_of(stream.kept(repository))
    found: dict[str, Blob] = {}
    if tip is None:
        return found
    for entry in ask(repository.top, "ls-tree", "-r", "-z", tip).fields():
        facts, _, path = entry.partition("\t")
        mode, _kind, blob = facts.split(" ")
        found[path] = Blob(mode, blob)
    return found


def _hold(
    repository: Repository,
    held: dict[str, Blob],
    wanted: dict[str, Blob],
    places: dict[str, Standing] | None = None,
) -> None:
    if wanted == held:
        return
    ref = stream.kept(repository)
    if not wanted:
        stream.drop(repository, ref)
        return
    seen = places or {}
    files = tuple(
        seen[path] if path in seen else Standing(path, blob)
        for path, blob in wanted.items()
    )
    who = f"{_SELF} {moment(datetime.now(UTC))}"
    draft = stream.Draft(b"Entries that wait\n", who, who, files, alone=True)
    stream.write(repository, ref, repository.head(), [draft])
