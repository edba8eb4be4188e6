"""Whether what is in a clone was put there by somebody else than who works here."""

from __future__ import annotations

from logbook.store.git.command import ask
from logbook.store.git.message import one_line
from logbook.store.git.repository import Repository
from logbook.store.git.settings import person, settings


def logged_by_another(repository: Repository, folder: str) -> bool:
    """Tell whether the newest commit of a folder has another author's address.

    Where git does not know who works here, or whose it is, that counts as another.
    """
    last = ask(repository.top, "log", "--max-count=1", "--format=%ae", "--", folder)
    here = person(repository, settings(repository), "author")
    mine = here.rpartition("<")[2].rstrip(">").casefold()
    return not mine or last.line.casefold() != mine


def made_by_another(repository: Repository, folder: str) -> str:
    """Name who put the files of a folder there, where who works here put none.

    Empty where one of them is his own, where there is none, or where git does not know
    who put them there or who works here.
    """
    words = ("--diff-filter=A", "--no-renames", "--no-show-signature", "--no-mailmap")
    told = ask(repository.top, "log", *words, "--format=%ae%x09%an", "--", folder)
    here = person(repository, settings(repository), "author")
    mine = here.rpartition("<")[2].rstrip(">").casefold()
    lines = told.out.decode("utf-8", "replace").splitlines() if told.good else []
    theirs = [line.partition("\t") for line in lines]
    if not mine or any(address.casefold() == mine for address, _, _ in theirs):
        return ""
    return one_line(theirs[0][2]) if theirs else ""


def put_there_by(repository: Repository, folder: str) -> dict[str, tuple[str, str]]:
    """Give who put each file of a folder there first, as name and address.

    By the path from the top of the work tree, of what is being merged too; without
    those git does not know.
    """
    merging = "MERGE_HEAD" if repository.git_path("MERGE_HEAD").exists() else "HEAD"
    answer = ask(
        repository.top, "log", "-z", "--diff-filter=A", "--no-renames",
        "--no-show-signature", "--no-mailmap", "--name-only",
        "--format=tformat:%x01%an%x09%ae", "HEAD", merging, "--", folder,
    )  # fmt: skip
    found: dict[str, tuple[str, str]] = {}
    who = ("", "")
    for one in answer.fields() if answer.good else ():
        if one.startswith("\x01"):
            name, _, address = one[1:].partition("\t")
            who = (one_line(name), address.casefold())
        elif path := one.lstrip("\n"):
            found[path] = who  # the last that is told is the oldest
    return found


def works_here(repository: Repository) -> tuple[str, str]:
    """Give name and address of who works here, as a commit would have them."""
    name, _, address = person(repository, settings(repository), "author").partition("<")
    return name.strip(), address.rstrip(">").casefold()
