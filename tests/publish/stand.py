"""The copy stand as a project on disk and in git, for the tests of publishing.

All of it is invented: sizes, days, failures.
"""

from __future__ import annotations

import io
import shutil
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import replace
from datetime import datetime, timedelta, timezone
from pathlib import Path

from PIL import Image

from logbook.cli import main
from logbook.project import Project
from logbook.quantity import Quantity, parse_quantity
from logbook.records.kinds import assembling, design, happenings
from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.ids import new_id
from logbook.records.kinds.words import Blame, Disposition, Severity, Source, Trim
from logbook.records.making.drafts import Draft
from logbook.records.written.text import digest
from tests.store.git_world import Bench

SPRING = datetime(2026, 3, 1, 10, 0, tzinfo=timezone(timedelta(hours=1)))
FIRST, SECOND = SPRING, SPRING + timedelta(days=40)


def q(text: str) -> Quantity:
    found = parse_quantity(text, "mm")
    assert isinstance(found, Quantity)
    return found


class Stand:
    """A project whose acts are saved and committed one by one."""

    def __init__(self, top: Path, now: datetime = SPRING) -> None:
        self.bench = Bench(top)
        self.now = now

    def begin_project(self) -> None:
        self.bench.top.mkdir()
        self.bench.git("init", "-q", "-b", "main")
        self.draw("base", "2.0")
        self.draw("crossbar", "179.7")
        self.draw("diffuser", "4 mm from the edge")
        self.run("start", "--name", "Desk copy stand", "--unit", "mm")
        self.commit_files("Draw the copy stand")

    def copy(self, top: Path) -> Stand:
        shutil.copytree(self.bench.top, top, symlinks=True)
        return Stand(top, self.now)

    @property
    def project(self) -> Project:
        return Project.open(self.bench.top)

    def draw(self, name: str, says: str) -> None:
        self.bench.write(f"drawings/{name}.dxf", f"999\n{says}\n0\nEOF\n")

    def commit_files(self, says: str) -> None:
        self.bench.git("add", "drawings")
        self.bench.git("commit", "-q", "-m", says)

    def file(self, name: str) -> tuple[DesignFile, ...]:
        path = f"drawings/{name}.dxf"
        data = (self.bench.top / path).read_bytes()
        return (DesignFile(path=path, sha256=digest(data), text_sha256=digest(data)),)

    def run(self, *words: str) -> tuple[int, str]:
        """Run a verb a minute later, and give its exit code and what it said."""
        self.now += timedelta(minutes=1)
        return self.look(*words, "--when", self.now.isoformat())

    def look(self, *words: str) -> tuple[int, str]:
        """Run a verb that knows no time, and give its exit code and what it said."""
        heard = io.StringIO()
        with redirect_stdout(heard), redirect_stderr(heard):
            code = main([*words, "--in", str(self.bench.top)])
        return code, heard.getvalue()

    def read(self, path: str) -> str:
        return (self.bench.top / path).read_text("utf-8")

    def begin(self) -> Draft:
        self.now += timedelta(minutes=1)
        return self.project.draft(self.now)

    def keep(self, draft: Draft, subject: str) -> None:
        project = self.project
        project.save(draft, subject, self.now)
        project.commit_waiting()


def told(stand: Stand, *words: str) -> str:
    """Run a verb that has to be taken, and give what it said."""
    code, said = stand.run(*words)
    assert code == 0, said
    return said


def page(stand: Stand, *words: str) -> str:
    """Give a page as its verb prints it."""
    return told(stand, *words, "--print")


def copy_stand(top: Path) -> Stand:
    """Give the stand as drawn: parts, list, steps, gap, joint; nothing made yet."""
    stand = Stand(top)
    stand.begin_project()
    draft = stand.begin()
    draft.amend(
        replace(
            draft.snapshot.project,
            licence="CERN-OHL-W-2.0",
            published_at="https://example.org/copy-stand",
            intended_use="photographing film strips, safety film only",
            tolerance="ISO 2768-c",
        )
    )
    parts = _parts(stand, draft)
    _list(draft, parts)
    _sizes(draft, parts)
    _order_of_work(draft, parts)
    stand.keep(draft, "define the copy stand")
    return stand


def _parts(stand: Stand, draft: Draft) -> dict[str, design.Part]:
    made = {}
    for name, process, material, thick in (
        ("base", "folding", "aluminium 5052-H32", "2.0 mm"),
        ("crossbar", "sawing", "aluminium bar 20 × 10 mm", ""),
        ("diffuser", "drilling", "opal polystyrene", "4 mm"),
    ):
        part = draft.new_part(name, files=stand.file(name))
        thickness = q(thick) if thick else None
        full = replace(part, process=(process,), material=material, thickness=thickness)
        made[name] = draft.amend(full)
    lamp = draft.new_part("lamp", Source.BOUGHT)
    made["lamp"] = draft.amend(
        replace(lamp, material="LED board on a certified, fused 24 V supply")
    )
    return made


def _list(draft: Draft, parts: dict[str, design.Part]) -> None:
    for name, count, bought in (
        ("base", 1, ""),
        ("crossbar", 1, ""),
        ("diffuser", 1, ""),
        ("lamp", 2, "24 V, 6 W, 90 CRI"),
    ):
        places = ("left", "right") if count == 2 else ()
        draft.add(
            assembling.Line(
                id=new_id(),
                title=name,
                part=parts[name].ref,
                quantity=count,
                bought_as=bought,
                places=places,
                when=draft.when,
            )
        )


def _sizes(draft: Draft, parts: dict[str, design.Part]) -> None:
    opening = draft.characteristic(parts["base"], "opening", q("180.0"))
    draft.amend(
        replace(opening, lower_limit=q("178.8"), upper_limit=q("181.2"), critical=True)
    )
    length = draft.characteristic(parts["crossbar"], "length", q("179.7"))
    length = draft.amend(
        replace(
            length,
            lower_limit=q("179.6"),
            upper_limit=q("179.8"),
            trim=Trim.SMALLER,
        )
    )
    draft.characteristic(parts["diffuser"], "hole to edge", q("4"))
    draft.add(
        assembling.Fit(
            id=new_id(),
            title="bar between the uprights",
            formula="base.opening - crossbar.length",
            lower_limit=q("0.1"),
            upper_limit=q("0.5"),
            made_last=length.ref,
            when=draft.when,
        )
    )


def _order_of_work(draft: Draft, parts: dict[str, design.Part]) -> None:
    fold = _step(draft, 1, "Fold the base", process=("folding",), tools=("folder",))
    fit = _step(
        draft,
        2,
        "Fit the crossbar",
        uses=(parts["base"].ref, parts["crossbar"].ref),
        after=(fold.ref,),
        tools=("saw", "file"),
        accept="it slides in by hand and does not rattle",
    )
    close = _step(
        draft,
        3,
        "Screw the diffuser on",
        uses=(parts["diffuser"].ref, parts["lamp"].ref),
        after=(fit.ref,),
        closes=True,
        inside=("lamp cable",),
        tested=("lamp lights for ten minutes",),
        cautions=("CAUTION: the lamp board is hot, let it cool first",),
        time=q("20 min"),
        prose="Go round the screws twice, by hand.",
    )
    draft.add(
        assembling.Joint(
            id=new_id(),
            title="diffuser to base",
            fastener="M3×10",
            head="countersunk",
            quantity=4,
            step=close.ref,
            layers=(
                assembling.Layer(part=parts["diffuser"].ref, thickness=q("4")),
                assembling.Layer(part=parts["base"].ref, thickness=q("2.0")),
            ),
            when=draft.when,
        )
    )


def _step(draft: Draft, number: int, title: str, **more: object) -> assembling.Step:
    step = assembling.Step(id=new_id(), title=title, number=number, when=draft.when)
    return draft.add(replace(step, **more))  # type: ignore[arg-type]


# -- the first build -------------------------------------------------------------


def first_build(stand: Stand) -> Stand:
    """Make release 1.0's parts; the bar is made to suit, the diffuser cracks."""
    stand.now = FIRST + timedelta(days=6)
    stand.run("build", "build 1")
    mine = ("--met-by", "machine", "--do", "use as is")
    stand.run("measure", "base", "opening", "left=178.60", "right=178.68", *mine)
    stand.run("measure", "crossbar", "length", "178.3", *mine)
    draft = stand.begin()
    part = draft.snapshot.lookup("diffuser", design.Part)
    step = draft.snapshot.lookup("Screw the diffuser on", assembling.Step)
    piece = draft.piece(part)
    failure = happenings.Failure(
        id=new_id(),
        title="diffuser cracked at a corner screw",
        when=draft.when,
        build=draft.build().ref,
        piece=piece.ref,
        step=step.ref,
        where="third corner screw",
        severity=Severity.DAMAGE,
        cause=happenings.Cause(said="the countersunk head wedged the hole"),
        cure="oversize holes 9 mm in, pan heads, washers",
        disposition=Disposition.SCRAP,
        met_by_others=Blame.DRAWING,
        photos=(_photo(stand),),
        prose="Hand tight. The crack ran from the hole to the edge at once.",
    )
    draft.add(failure)
    stand.keep(draft, "failure: diffuser cracked")
    return stand


def _photo(stand: Stand) -> happenings.Photo:
    place = stand.bench.top / "as-built/photos/crack.png"
    place.parent.mkdir(exist_ok=True)
    picture = Image.new("RGB", (480, 320), "#d8d4c8")
    picture.paste("#7a3b00", (200, 120, 290, 130))
    picture.save(place)
    caption = "Crack from the corner hole to the edge"
    return happenings.Photo(path="as-built/photos/crack.png", caption=caption)


def corrected(stand: Stand) -> Stand:
    """Draw what cures the crack as revision A, and record it."""
    stand.now = SECOND
    stand.draw("diffuser", "9 mm from the edge")
    stand.commit_files("Move the diffuser's holes inward")
    draft = stand.begin()
    part = draft.snapshot.lookup("diffuser", design.Part)
    failure = draft.snapshot.lookup(
        "diffuser cracked at a corner screw", happenings.Failure
    )
    revision = draft.new_revision(
        part,
        changed="oversize holes 9 mm in, pan heads, washers",
        why="it cracked at a countersunk screw",
        because=(failure.ref,),
        files=stand.file("diffuser"),
    )
    draft.amend(replace(revision, remake="yes", mates_with=("base first issue",)))
    stand.keep(draft, "revision: diffuser rev A")
    return stand


def released(top: Path) -> Stand:
    """Give the stand with releases 1.0 and 1.1, the first build between them."""
    stand = copy_stand(top)
    assert stand.run("release", "1.0", "--summary", "The stand as drawn")[0] == 0
    corrected(first_build(stand))
    assert stand.run("release", "1.1")[0] == 0
    return stand
