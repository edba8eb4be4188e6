"""The work tree a folder belongs to, found by reading files: git is not started.

Its reads here are those of every start (where HEAD is, where the derived
database lies); what asks git about history is in `history`.
"""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from logbook.errors import BadInput, Refused
from logbook.store.git.command import ask

_ELSEWHERE = "refs/heads/.invalid"
"""What a HEAD file says where references are kept in tables, not files."""


@dataclass(frozen=True, slots=True)
class Repository:
    """A repository: `top` of its work tree, `git_dir` of this tree, `common_dir`.

    `git_dir` and `common_dir` differ in a linked work tree only. In a bare
    repository all three are the same folder.
    """

    top: Path
    git_dir: Path
    common_dir: Path
    bare: bool = False

    @classmethod
    def find(cls, path: Path) -> Repository | None:
        """Find the repository that holds `path`, looking upward; None without one."""
        start = path.absolute()
        for folder in (start, *start.parents):
            dot_git = folder / ".git"
            if dot_git.is_dir() and (dot_git / "HEAD").exists():
                return cls(folder, dot_git, _common(dot_git))
            if dot_git.is_file() and (elsewhere := _pointed_at(dot_git)):
                return cls(folder, elsewhere, _common(elsewhere))
            if _is_bare(folder):
                inside = folder.name == ".git"
                top = folder.parent if inside else folder
                return cls(top, folder, folder, bare=not inside)
        return None

    @property
    def tree_name(self) -> str:
        """A name for this work tree among those of the repository, fit for a ref."""
        linked = self.git_dir != self.common_dir
        return f"linked/{self.git_dir.name}" if linked else "main"

    def relative(self, path: Path) -> str:
        """Give a path in the work tree as git writes it: from the top, with `/`."""
        return path.absolute().relative_to(self.top).as_posix()

    def git_path(self, name: str) -> Path:
        """Give the place of a file of ours in the git directory of this work tree."""
        return self.git_dir / name

    def branch(self) -> str | None:
        """Give the full name of the reference HEAD is on; None when detached."""
        text = _text(self.git_dir / "HEAD")
        if not text.startswith("ref:"):
            return None
        name = text[4:].strip()
        if name == _ELSEWHERE:
            answer = ask(self.top, "symbolic-ref", "-q", "HEAD")
            return answer.line if answer.good else None
        return name

    def head(self) -> str | None:
        """Give the id of the commit HEAD stands on; None before the first commit."""
        text = _text(self.git_dir / "HEAD")
        if not text.startswith("ref:"):
            return text or None
        return self.commit_of(text[4:].strip())

    def commit_of(self, ref: str) -> str | None:
        """Give the id a full reference name stands for; None if there is none."""
        if ref == _ELSEWHERE or (self.common_dir / "reftable").is_dir():
            name = "HEAD" if ref == _ELSEWHERE else ref
            answer = ask(self.top, "rev-parse", "-q", "--verify", name)
            return answer.line if answer.good else None
        loose = _text(self.common_dir / ref)
        if loose.startswith("ref:"):
            return self.commit_of(loose[4:].strip())
        return loose or self._packed(ref)

    def _packed(self, ref: str) -> str | None:
        ending = f" {ref}"
        for line in _text(self.common_dir / "packed-refs").splitlines():
            if line.endswith(ending):
                return line.removesuffix(ending)
        return None


def _text(path: Path) -> str:
    try:
        return path.read_text("utf-8", "surrogateescape").strip()
    except OSError:
        return ""


def _pointed_at(dot_git: Path) -> Path | None:
    """Follow a `.git` file of a linked work tree or submodule to its directory."""
    text = _text(dot_git)
    if not text.startswith("gitdir:"):
        return None
    folder = Path(dot_git.parent, text.removeprefix("gitdir:").strip()).resolve()
    return folder if folder.is_dir() else None


def _common(git_dir: Path) -> Path:
    text = _text(git_dir / "commondir")
    return (git_dir / text).resolve() if text else git_dir


def _is_bare(folder: Path) -> bool:
    return (
        (folder / "HEAD").is_file()
        and (folder / "objects").is_dir()
        and (folder / "refs").is_dir()
    )


def repository_of(folder: Path) -> Repository:
    """Give the repository a folder lies in.

    Raises:
        Refused: it lies in none.
        BadInput: it is a bare one, or the folder is git's own.
    """
    repository = Repository.find(folder)
    if repository is None:
        raise Refused(
            f"{folder} is in no git repository; accepted: a folder of one (git init)"
        )
    if repository.bare:
        raise BadInput(f"{folder} is a bare repository; accepted: a clone of it")
    if folder.absolute().is_relative_to(repository.git_dir):
        raise BadInput(f"{folder} is git's own; accepted: {repository.top}, beside it")
    return repository
