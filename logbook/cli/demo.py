"""`logbook demo`: the copy stand's first build, replayed through the verbs.

Everything the demo shows was logged with the same commands a person would type;
the story and the script that draws the files stand in `sample_project/`.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib.util
import io
import json
import subprocess
import sys
import tempfile
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

from logbook.counting import so_many
from logbook.errors import BadInput, LogbookError
from logbook.project import Project
from logbook.records.kinds.happenings import Decision, Deviation, Failure, Run
from logbook.records.together.references import part_of

_HOUSE = Path(__file__).parent.parent
SAMPLE = next(
    (
        place
        for place in (_HOUSE / "_sample_project", _HOUSE.parent / "sample_project")
        if place.is_dir()
    ),
    _HOUSE / "_sample_project",
)
"""The sample: inside the package when installed, beside it in a checkout."""


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument(
        "folder", nargs="?", type=Path, default=Path("copy-stand"), help="a new folder"
    )
    parser.add_argument("--json", action="store_true", help="answer as JSON")


def run(args: argparse.Namespace) -> int:
    """Make the demo project and say in five lines what is in it."""
    folder: Path = args.folder
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise BadInput(f"{folder} is there and not empty; accepted: a new folder")
    folder.mkdir(parents=True, exist_ok=True)
    story = tomllib.loads((SAMPLE / "story.toml").read_text("utf-8"))
    replay(folder, story["act"])
    lines = list(summary(Project.open(folder), folder))
    if args.json:
        told = dict(line.split(maxsplit=1) for line in lines)
        print(json.dumps(told, ensure_ascii=False, indent=1))
    else:
        print("\n".join(lines))
    return 0


def replay(folder: Path, acts: list[dict[str, Any]]) -> None:
    """Carry out the acts of the story, one after the other, each at its time."""
    draw = load_script()
    _git(folder, "init", "-q", "-b", "main")
    for key, value in (("user.name", "Demo Builder"), ("user.email", "demo@invalid")):
        if not _git(folder, "config", key, check=False):
            _git(folder, "config", key, value)
    for act in acts:
        if "files" in act:
            _draw_files(folder, getattr(draw, act["files"]), act)
        if "verb" in act:
            _say(folder, act, draw)


def load_script() -> ModuleType:
    """Load the script that draws the sample's files."""
    spec = importlib.util.spec_from_file_location("sample_draw", SAMPLE / "draw.py")
    assert spec is not None
    assert spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def _draw_files(folder: Path, files: dict[str, Any], act: dict[str, Any]) -> None:
    for path, make in files.items():
        place = folder / path
        place.parent.mkdir(parents=True, exist_ok=True)
        place.write_bytes(make())
    _git(folder, "add", *files)
    _git(folder, "commit", "-q", "-m", act["says"], "--date", act["when"])


def _say(folder: Path, act: dict[str, Any], draw: ModuleType) -> None:
    """Run one verb in this process, quietly; a refusal ends the demo."""
    from logbook.cli import main

    heard = io.StringIO()
    with tempfile.TemporaryDirectory() as elsewhere:
        photo = Path(elsewhere, "IMG_0001.jpg")
        if "photo" in act:
            photo.write_bytes(draw.photo(act["photo"]))
        verb = [str(photo) if word == "PHOTO" else word for word in act["verb"]]
        words = [*verb, "--in", str(folder), "--when", act["when"]]
        with (
            contextlib.redirect_stdout(heard),
            contextlib.redirect_stderr(heard),
            _nobody_there(),
        ):
            code = main(words)
    if code:
        said = heard.getvalue().strip()
        raise LogbookError(f"the demo stopped at “{' '.join(act['verb'])}”: {said}")


@contextlib.contextmanager
def _nobody_there() -> Iterator[None]:
    """Let no verb ask: its question would not be seen, and what waits is no answer."""
    typed, sys.stdin = sys.stdin, io.StringIO()
    try:
        yield
    finally:
        sys.stdin = typed


def _git(folder: Path, *words: str, check: bool = True) -> str:
    done = subprocess.run(
        ["git", "-C", str(folder), *words],
        check=check,
        capture_output=True,
        text=True,
    )
    return done.stdout.strip()


# -- the five lines --------------------------------------------------------------


def summary(project: Project, folder: Path) -> Iterator[str]:
    """Give the five lines the demo ends with."""
    snapshot = project.snapshot
    records = so_many(snapshot, "record")
    commits = so_many(int(_git(folder, "rev-list", "--count", "HEAD")), "commit")
    yield f"where     {folder} — {records} in as-built/, {commits}"
    runs = [r for r in snapshot.all(Run) if r.readings]
    offs = [d for d in snapshot.all(Deviation) if d.wanted and d.found]
    measured = "; ".join(
        f"{_part(project, d)} {d.found} against {d.wanted}" for d in offs
    )
    yield f"measured  {so_many(runs, 'run')}; {measured}"
    failures = snapshot.all(Failure)
    yield "failed    " + "; ".join(
        f"{f.title} → {f.cure or 'no cure yet'}" for f in failures
    )
    faults: list[Deviation | Failure] = [*offs, *failures]
    yield "whose     " + "; ".join(
        f"{_part(project, f)}: {f.met_by_others.value}" for f in faults
    )
    last = snapshot.all(Decision)[-1]
    yield f"next      {last.title} — try: cd {folder} && logbook, or logbook check"


def _part(project: Project, record: Deviation | Failure) -> str:
    part = part_of(project.snapshot, record)
    return part.title if part else record.title
