"""Everything one commit takes back, named in its title.

Acts that were taken back faster than git was told stand in one commit: what a file was
between them is nowhere any more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence

from logbook.store.acts.last import Act

UNDO = "undo: "
"""What the subject of an act begins with that takes another one back."""


def all_taken_back(
    subject: str,
    paths: Iterable[str],
    acts: Sequence[Act],
    committed: Callable[[str], str],
) -> str:
    """Name every act that a commit of these paths takes back, the first one first.

    `subject` is that of the last act on them; `committed` gives the digest of what git
    has of a path, empty where it has none. What git never had is not named, nor
    anything where the acts do not lead back to what git has.
    """
    if not subject.startswith(UNDO):
        return subject
    undone = {
        number: acts[number].subject.removeprefix(UNDO)
        for path in paths
        for number in _since(path, acts, committed(path))
    }
    named = dict.fromkeys(words for _, words in sorted(undone.items()))
    last = subject.removeprefix(UNDO)
    named.pop(last, None)
    return f"{UNDO}{'; '.join((*named, last))}"


def _since(path: str, acts: Sequence[Act], committed: str) -> Iterator[int]:
    """Give the acts that took something of a path back since git has it."""
    found: list[tuple[int, str]] = []
    after = ""
    for number in range(len(acts) - 1, -1, -1):
        for touched in reversed(acts[number].files):
            if touched.path != path:
                continue
            if found and touched.after != after:
                return
            found.append((number, acts[number].subject))
            after = touched.before
        if found and after == committed:
            done = {words for n, words in found if not acts[n].undoes}
            yield from (
                n
                for n, words in found
                if acts[n].undoes and words.removeprefix(UNDO) not in done
            )
            return
