"""The rows of a release before it goes out: what hinders it first, its pages last."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from logbook.counting import so_many
from logbook.records.kinds.design import Revision
from logbook.screens.release.readied import Pages, Readied
from logbook.screens.ruled.listing import Line
from logbook.screens.ruled.passage import Say

_ALARM = "$alarm bold"
WEIGHTS = {"untried": _ALARM, "made": "$ink"}


def rows_of(ready: Readied | None, pages: Pages | None) -> Iterator[Line]:
    """Give a row for each thing to know before a release goes out."""
    if ready is not None:
        yield from _rows_against(ready)
        yield from _rows_of_release(ready)
    if pages is not None:
        behind = ", ".join(pages.behind)
        said, weight = ("out of date", _ALARM) if behind else ("as it was", "$quiet")
        yield Line("pages", "pages", behind or "every page", said, weight)
    if ready is not None:
        yield from _rows_of_revisions(ready)


def _rows_against(ready: Readied) -> Iterator[Line]:
    for at, words in enumerate(ready.hindered.unsettled):
        yield Line(f"unsettled {at}", "first", words, "not settled", _ALARM)
    for at, words in enumerate(ready.warnings):
        yield Line(f"warned {at}", "know that", words, "goes along", _ALARM)
    for at, words in enumerate(ready.hindered.passed):
        yield Line(f"passed {at}", "gone past", words, "gone past")
    if not ready.hindered.unsettled and ready.release.files:
        yield Line("settled", "first", "nothing is against putting it out", "settled")


def _rows_of_release(ready: Readied) -> Iterator[Line]:
    release, label = ready.release, ready.release.label
    if ready.waiting:
        yield Line("tag", "tag", f"{label} is saved; its tag is missing", "no tag yet")
    state, _, words = ready.tried.partition(": ")
    yield Line("tried", "tried by", words, state.split()[0].casefold(), _ALARM)
    frozen = (
        f"tag {release.tag} · {so_many(ready.goes_out, 'revision')} · "
        f"{so_many(release.files, 'file')} · "
        f"{so_many(release.statements, 'statement')}"
    )
    yield Line("frozen", "freezes", frozen, label, "$mark bold")
    for at, words in enumerate(ready.asked):
        yield Line(f"asked {at}", "they ask", words, "not said")


def _rows_of_revisions(ready: Readied) -> Iterator[Line]:
    """Give what is made, untried first, then in one row what is bought."""
    for standing in ("untried", "made"):
        for revision, of in ready.goes_out:
            if of == standing:
                key, weight = f"revision {revision.id}", WEIGHTS[of]
                yield Line(key, "goes out", revision.title, of, weight)
    bought = [one.title for one, of in ready.goes_out if of == "bought"]
    if bought:
        yield Line("bought", "goes out", ", ".join(bought), "bought", "$quiet")


def said_of(ready: Readied | None, pages: Pages | None, key: str) -> Sequence[Say]:
    """Give in full what a row is about."""
    sort, _, rest = key.partition(" ")
    if sort == "pages" and pages is not None:
        return [
            Say(name, ", ".join(files) or "as it would be written now")
            for name, files in _short(pages)
        ]
    if ready is None:
        return ()
    if sort == "revision":
        found = [one for one, _ in ready.goes_out if one.id == rest]
        return [said for one in found for said in _of_revision(ready, one)]
    line = next((one for one in rows_of(ready, pages) if one.key == key), None)
    said = [Say(line.kind, line.words)] if line is not None else []
    if sort == "settled":
        said += [Say("", "what stops a release was looked for: nothing was found")]
    if sort == "asked":
        said += [Say("", "who builds it will ask; the guide says that nobody has said")]
    if sort == "frozen":
        said += [Say("" if at else "as", one) for at, one in enumerate(ready.unchanged)]
    return said


def _short(pages: Pages) -> Iterator[tuple[str, list[str]]]:
    """Give each page by a name the margin has room for, with the files it writes."""
    for name, files in pages.files.items():
        yield (
            name.replace("known faults of", "faults").replace("guide of", "guide"),
            [*files],
        )


def _of_revision(ready: Readied, revision: Revision) -> Iterator[Say]:
    standing = {one.id: word for one, word in ready.goes_out}[revision.id]
    yield Say(standing, revision.title)
    if revision.changed:
        yield Say("changed", revision.changed)
    frozen = {file.path: file.sha256 for file in ready.release.files}
    for at, file in enumerate(revision.files):
        sha = frozen.get(file.path, "")
        yield Say("" if at else "file", f"{file.path}  {sha[:12] or 'not on disk'}")
