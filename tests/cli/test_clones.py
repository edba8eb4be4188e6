"""Clones that log apart and pull each other end with the same records."""

from __future__ import annotations

import subprocess
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from logbook.advice.faults.known import known_faults
from logbook.cli import main
from logbook.errors import Refused
from logbook.project import Project
from logbook.quantity import parse_quantity
from logbook.records.kinds.design import Part
from logbook.records.kinds.happenings import Failure, Note, Reading, Run
from logbook.records.kinds.ids import Ref, new_id
from logbook.records.kinds.made_public import Erratum
from logbook.records.making.settling import without_other_side
from logbook.records.together.ordered import age
from logbook.records.written.edit import with_reading
from logbook.records.written.text import write_record

START = datetime(2026, 3, 7, 9, 0, tzinfo=UTC)


def git(
    folder: Path, *words: str, check: bool = True
) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["git", "-C", str(folder), *words], check=check, capture_output=True, text=True
    )


def identified(folder: Path) -> None:
    git(folder, "config", "user.name", folder.name)
    git(folder, "config", "user.email", f"{folder.name}@invalid")


class Bench:
    """One clone, with a clock of its own so that instants differ."""

    def __init__(self, folder: Path, number: int) -> None:
        self.folder = folder
        self.number = number
        self.clock = 0

    def now(self) -> datetime:
        self.clock += 1
        return START + timedelta(minutes=self.clock, seconds=self.number)

    def log(self, text: str) -> None:
        project = Project.open(self.folder)
        draft = project.draft(self.now())
        part = draft.part("base")
        draft.add(Note(id=new_id(), title=text, when=draft.when, part=part.ref))
        project.save(draft, f"note: {text}", draft.now)
        project.commit_waiting()

    def edit(self) -> None:
        self._amend(lambda note: replace(note, prose=f"edited by {self.number}"))

    def rename(self) -> None:
        self._amend(lambda note: replace(note, title=f"renamed by {self.number}"))

    def _amend(self, change) -> None:  # type: ignore[no-untyped-def] # noqa: ANN001
        project = Project.open(self.folder)
        notes = project.snapshot.all(Note)
        if not notes:
            return
        draft = project.draft(self.now())
        draft.amend(change(notes[0]))
        project.save(draft, "edit", draft.now)
        project.commit_waiting()

    def delete(self) -> None:
        project = Project.open(self.folder)
        notes = project.snapshot.all(Note)
        if notes:
            git(self.folder, "rm", "-q", project.snapshot.path(notes[-1]))
            git(self.folder, "commit", "-q", "-m", "delete")

    def pull(self, other: Bench) -> None:
        git(self.folder, "pull", "-q", "--no-rebase", "--no-edit", str(other.folder),
            "main", check=False)  # fmt: skip
        conflicts = git(self.folder, "diff", "--name-only", "--diff-filter=U").stdout
        for path in conflicts.splitlines():
            # Only inside one record, never between records.
            assert path.startswith("as-built/")
            if not (self.folder / path).exists():
                git(self.folder, "rm", "-q", path)
        if conflicts:
            assert main(["settle", "--in", str(self.folder), "--take", "ours"]) == 0
            git(self.folder, "add", "-A", "as-built")
            git(self.folder, "commit", "-q", "--no-edit")

    def records(self) -> dict[str, str]:
        snapshot = Project.open(self.folder).snapshot
        assert not [p for p in snapshot.problems if "conflict" in p.found]
        return {record.id: write_record(record) for record in snapshot}


ACTIONS = st.tuples(
    st.integers(0, 2), st.sampled_from(["log", "edit", "rename", "delete", "pull"]),
    st.integers(0, 2),
)  # fmt: skip


# Shrinking would repeat real clones for minutes; the failing actions are short.
@settings(
    max_examples=6,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow],
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
@given(st.integers(2, 3), st.lists(ACTIONS, min_size=3, max_size=9))
def test_clones_end_with_the_same_records(
    count: int, actions: list[tuple[int, str, int]]
) -> None:
    with TemporaryDirectory() as place:
        benches = clones(Path(place), count)
        for who, action, other in actions:
            bench, peer = benches[who % count], benches[other % count]
            if action == "pull":
                if peer is not bench:
                    bench.pull(peer)
            elif action == "log":
                bench.log(f"said by {bench.number} at {bench.clock}")
            else:
                getattr(bench, action)()
        for bench in benches[1:]:
            benches[0].pull(bench)
        for bench in benches[1:]:
            bench.pull(benches[0])
        first, *others = [bench.records() for bench in benches]
        assert all(other == first for other in others)
        for bench in benches:
            assert git(bench.folder, "fsck", "--strict", "--no-dangling").stdout == ""


def clones(place: Path, count: int) -> list[Bench]:
    origin = place / "bench0"
    origin.mkdir()
    git(origin, "init", "-q", "-b", "main")
    identified(origin)
    assert main(["start", "--in", str(origin), "--unit", "mm", "--json"]) == 0
    benches = [Bench(origin, 0)]
    benches[0].log("the first note")
    for number in range(1, count):
        folder = place / f"bench{number}"
        git(place, "clone", "-q", str(origin), str(folder))
        identified(folder)
        benches.append(Bench(folder, number))
    return benches


def reading(number: int, value: str) -> Reading:
    return Reading(
        id=f"{number:08d}",
        at=START + timedelta(seconds=number),
        what=Ref("opening"),
        value=parse_quantity(value),
    )


def test_two_sides_of_one_run_join_by_the_ids_of_their_readings(tmp_path: Path) -> None:
    here, there = clones(tmp_path, 2)
    project = Project.open(here.folder)
    draft = project.draft(START)
    run = Run(id=new_id(), title="run", when=START, readings=(reading(1, "178.60 mm"),))
    draft.add(run)
    path = project.save(draft, "run", START).paths[-1]
    project.commit_waiting()
    there.pull(here)
    for bench, number, value in ((here, 2, "178.65 mm"), (there, 3, "178.62 mm")):
        file = bench.folder / path
        file.write_bytes(with_reading(file.read_bytes(), reading(number, value), path))
        git(bench.folder, "commit", "-q", "-am", "a reading")
    here.pull(there)
    joined = Project.open(here.folder).snapshot[run.id]
    assert isinstance(joined, Run)
    assert [str(r.value) for r in joined.readings] == [
        "178.60 mm",
        "178.65 mm",
        "178.62 mm",
    ]


def test_a_record_changed_on_both_sides_keeps_both_and_asks(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    here.edit()
    there.edit()
    git(
        here.folder, "pull", "-q", "--no-rebase", str(there.folder), "main", check=False
    )
    assert main(["settle", "--json", "--in", str(here.folder)]) == 3
    assert "--take" in capsys.readouterr().out
    assert main(["settle", "--in", str(here.folder)]) == 3
    asked = capsys.readouterr().out
    differs = "changed here and there:\n  ours:   edited by 0\n  theirs: edited by 1\n"
    assert differs in asked
    assert "```toml" not in asked, "what both sides have is not said"
    assert len(asked.splitlines()) < 8
    assert main(["settle", "--take", "theirs", "--in", str(here.folder)]) == 0
    snapshot = Project.open(here.folder).snapshot
    [note] = snapshot.all(Note)
    assert note.prose.startswith("edited by 1")
    assert "> edited by 0" in note.prose
    assert without_other_side(note.prose) == "edited by 1"
    # git is told nothing for the user; what is left to do is said until it is done.
    add = f"in conflict; then: git add {snapshot.path(note)} && git commit"
    assert add in capsys.readouterr().out
    assert main(["settle", "--in", str(here.folder)]) == 0
    again = capsys.readouterr().out
    assert add in again
    assert "nothing to settle" not in again
    git(here.folder, "add", snapshot.path(note))
    git(here.folder, "commit", "-q", "--no-edit")
    assert main(["settle", "--in", str(here.folder)]) == 0
    assert "nothing to settle" in capsys.readouterr().out


def test_labels_given_twice_apart_are_named_and_the_later_is_relabelled(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    for bench, when in ((here, "2026-03-08T10:00"), (there, "2026-03-08T11:00")):
        for words in (
            ["revise", "base", "--why", "it binds"],
            ["part", "lid"],
            ["piece", "base"],
        ):
            said = ["--in", str(bench.folder), "--when", when]
            assert main([words[0], *said, *words[1:]]) == 0
    here.pull(there)
    capsys.readouterr()
    assert main(["check", "--in", str(here.folder)]) == 8
    named = capsys.readouterr().out
    assert named.count("(settle)") == 4  # part, piece, build, revision
    before = {p.id: p.title for p in Project.open(here.folder).snapshot.all(Part)}
    assert main(["settle", "--in", str(here.folder)]) == 0
    assert main(["check", "--in", str(here.folder)]) == 0
    snapshot = Project.open(here.folder).snapshot
    assert {p.id for p in snapshot.all(Part)} == set(before)
    assert sorted(p.title for p in snapshot.all(Part)) == ["base", "lid", "lid 2"]
    assert snapshot.lookup("base rev B").formerly == ("base rev A",)
    assert snapshot.lookup("base-2").formerly == ("base-1",)
    there.pull(here)
    assert there.records() == here.records()


def test_one_fault_saved_in_two_clones_is_named_and_joined_to_one(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    failure = ["--where", "corner", "--met-by", "drawing", "--do", "scrap"]
    shop(here, "10:00", "failure", "base", "base cracked at a corner", *failure)
    shop(here, "10:01", "failure", "base", "base bowed while it cooled", *failure)
    there.pull(here)
    shop(here, "11:00", "erratum", "base cracked at a corner", "--do-this", "go slowly")
    shop(
        there, "12:00", "erratum", "base cracked at a corner", "--do-this", "drill it",
        "--how-to-tell", "a white line at the corner", "--severity", "safety",
    )  # fmt: skip
    here.pull(there)
    capsys.readouterr()
    assert main(["check", "--in", str(here.folder)]) == 8
    named = capsys.readouterr().out
    older, later = sorted(Project.open(here.folder).snapshot.all(Erratum), key=age)
    paths = [Project.open(here.folder).snapshot.path(one) for one in (older, later)]
    assert all(path in named for path in paths)
    assert "1 problem" in named

    assert main(["settle", "--in", str(here.folder)]) == 0
    said = capsys.readouterr().out
    assert f"do this: “drill it” in {later.id}, not taken" in said
    assert f"severity: “safety” in {later.id}, taken, the graver" in said
    assert "how to tell" not in said
    assert main(["check", "--in", str(here.folder)]) == 0
    snapshot = Project.open(here.folder).snapshot
    cracked, bowed = known_faults(snapshot)
    assert cracked.id == older.id
    assert cracked.do_this == "go slowly"
    assert cracked.how_to_tell == "a white line at the corner"
    assert bowed.title == "base bowed while it cooled"
    # What was typed in the other clone stands in its file as it was.
    left = snapshot[later.id]
    assert isinstance(left, Erratum)
    assert left.do_this == "drill it"
    # It is settled in both clones alike, whichever was asked first.
    there.pull(here)
    assert main(["settle", "--in", str(there.folder)]) == 0
    assert "nothing to settle" in capsys.readouterr().out
    assert there.records() == here.records()
    # What is said of either is said of the one that stayed.
    shop(there, "13:00", "erratum", later.id, "--do-this", "drill it in two goes")
    now = Project.open(there.folder).snapshot[older.id]
    assert isinstance(now, Erratum)
    assert now.do_this == "drill it in two goes"


def test_one_entry_may_tell_of_faults_of_two_parts(tmp_path: Path) -> None:
    [here] = clones(tmp_path, 1)
    shop(here, "10:00", "failure", "base", "base cracked", "--met-by", "drawing")
    shop(here, "10:30", "part", "lid")
    [cracked] = Project.open(here.folder).snapshot.all(Failure)
    shop(here, "11:00", "erratum", cracked.id)
    shop(here, "11:30", "erratum", "too stiff", "--part", "lid", "--entry", cracked.id)
    assert len(Project.open(here.folder).snapshot.all(Erratum)) == 2
    assert main(["check", "--in", str(here.folder)]) == 0
    assert main(["settle", "--in", str(here.folder)]) == 0
    assert len(known_faults(Project.open(here.folder).snapshot)) == 2


def test_pages_that_both_clones_wrote_are_written_anew_before_git_takes_them(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    for bench, words in ((here, "crossbar sawn"), (there, "lid riveted")):
        shop(bench, "10:00" if bench is here else "10:05", "note", words)
        assert main(["pages", "--in", str(bench.folder)]) == 0
    git(here.folder, "fetch", "-q", str(there.folder), "main")
    assert git(here.folder, "merge", "-q", "FETCH_HEAD", check=False).returncode
    notes = here.folder / "as-built/published/builder-notes.md"
    assert "<<<<<<<" in notes.read_text("utf-8")
    capsys.readouterr()

    assert main(["settle", "--in", str(here.folder)]) == 0
    said = capsys.readouterr().out
    assert "builder-notes.md: written anew from the records" in said
    page = notes.read_text("utf-8")
    assert "<<<<<<<" not in page
    assert "rossbar sawn" in page
    assert "id riveted" in page
    assert "mend by hand" not in said
    # What it says to do then ends the merge, and no page is left over.
    command = said.partition("then: ")[2].splitlines()[0]
    assert command.startswith("git add as-built/published/")
    paths = command.removeprefix("git add ").removesuffix(" && git commit").split()
    git(here.folder, "add", *paths)
    git(here.folder, "commit", "-q", "-m", "Merge the other bench")
    assert "published" not in git(here.folder, "status", "--porcelain").stdout
    assert main(["pages", "--in", str(here.folder)]) == 0
    assert "as it was: builder notes" in capsys.readouterr().out


def test_a_file_of_ones_own_in_conflict_is_to_be_mended_first(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    for bench, words in ((here, "one"), (there, "other")):
        (bench.folder / "README.md").write_text(f"{words}\n", "utf-8")
        git(bench.folder, "add", "README.md")
        git(bench.folder, "commit", "-q", "-m", words)
    git(here.folder, "fetch", "-q", str(there.folder), "main")
    assert git(here.folder, "merge", "-q", "FETCH_HEAD", check=False).returncode
    capsys.readouterr()
    assert main(["settle", "--in", str(here.folder)]) == 0
    said = capsys.readouterr().out
    assert "first mend by hand: README.md; then: git add README.md" in said


def shop(bench: Bench, clock: str, *words: str) -> None:
    """Run a verb at a bench on the day after the clones were made."""
    verb, *rest = words
    when = ["--when", f"2026-03-08T{clock}", "--in", str(bench.folder)]
    assert main([verb, *rest, *when]) == 0


def test_a_bare_number_is_never_taken_in_a_unit_a_merge_left_open(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    here, there = clones(tmp_path, 2)
    place = here.folder / "as-built" / "project.md"
    inches = place.read_text("utf-8").replace('unit = "mm"', 'unit = "in"')
    for bench, licence in ((here, "CERN-OHL-W-2.0"), (there, "CERN-OHL-S-2.0")):
        text = inches.replace('unit = "in"\n', f'unit = "in"\nlicence = "{licence}"\n')
        (bench.folder / "as-built" / "project.md").write_text(text, "utf-8")
        git(bench.folder, "commit", "-qam", "licence")
    pulled = git(
        here.folder, "pull", "-q", "--no-rebase", str(there.folder), "main", check=False
    )
    assert pulled.returncode
    measured = ["measure", "base", "opening", "3.25", "--in", str(here.folder)]
    assert main(measured) == Refused.exit_code
    said = capsys.readouterr().err
    assert "project.md:8: found a merge conflict; accepted: logbook settle" in said
    assert "until then nothing is logged, for its unit is not known" in said
    assert "kept in logbook drafts" in said
    assert main(["settle", "--take", "ours", "--in", str(here.folder)]) == 0
    assert main(measured) == 0
    [run] = Project.open(here.folder).snapshot.all(Run)
    assert [str(reading.value) for reading in run.readings] == ["3.25 in"]
