"""The journal of acts: what two windows note at once, both find there."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

from logbook.store.acts.last import KEPT, Act, Touched, note_act, note_undone, read_acts

HOUSE = Path(__file__).parents[2]
ROUNDS = 40
SCRIPT = """
import sys
from pathlib import Path
from logbook.store.acts.last import Act, note_act, note_undone
journal, name = Path(sys.argv[1]), sys.argv[2]
for number in range(int(sys.argv[3])):
    act = Act(f"2026-03-14T10:00:{number:02}+01:00", f"{name} {number}", ())
    note_act(journal, act)
    note_undone(journal, act, Act(act.at, f"undo: {act.subject}", (), undoes=True))
"""


def test_two_windows_that_log_and_undo_at_once_drop_no_act(tmp_path: Path) -> None:
    journal = tmp_path / "acts.jsonl"
    running = [
        subprocess.Popen(
            [sys.executable, "-c", SCRIPT, str(journal), name, str(ROUNDS)],
            env=os.environ | {"PYTHONPATH": str(HOUSE)},
        )
        for name in ("bench", "desk")
    ]
    assert [one.wait() for one in running] == [0, 0]
    acts = read_acts(journal)
    for name in ("bench", "desk"):
        own = [act for act in acts if act.subject.startswith(f"{name} ")]
        undos = [act for act in acts if act.subject.startswith(f"undo: {name} ")]
        assert [len(own), len(undos)] == [ROUNDS, ROUNDS]
        assert all(act.undone for act in own)


def test_a_journal_is_cut_to_its_newest_acts(tmp_path: Path) -> None:
    journal = tmp_path / "acts.jsonl"
    for number in range(2 * KEPT + 1):
        touched = Touched(f"as-built/{number}.md", "", "0")
        note_act(journal, Act("2026-03-14T10:00:00+01:00", str(number), (touched,)))
    acts = read_acts(journal)
    assert len(acts) == KEPT + 1
    assert acts[-1].subject == str(2 * KEPT)
    note_undone(journal, acts[-1], Act(acts[-1].at, "undo", (), undoes=True))
    assert read_acts(journal)[-2].undone
