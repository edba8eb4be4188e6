"""Choices told by which way, without what, and what is left so. All invented."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("crossbar goes in from the top, not the end", "crossbar"),
        ("lid opens to the left, not the right", "lid"),
        ("cable runs along the back, not the front", "cable"),
        ("bed without the bevel next time", "bed"),
        ("gate without the lip next build", "gate"),
        ("fit the collar one washer lower next build", "collar"),
        ("run the cable behind the bracket next build", "cable"),
        ("set the crossbar 5 mm further back next build", "crossbar"),
        ("mount the lid the other way up next build", "lid"),
        ("next gate printed the other way up", "gate"),
    ],
)
def test_it_is_decided(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    told = line.verdict, line.kind, line.facts.part
    assert told == (Verdict.TAKEN, Kind.DECISION, part)


@pytest.mark.parametrize(
    ("says", "part"),
    [
        ("bent crossbar works, leave it", "crossbar"),
        ("scratched lid is fine, leave it as is", "lid"),
        ("dented base does the job, keep it as is", "base"),
        ("chipped diffuser works, leave as is", "diffuser"),
        ("warped bed still works, use as is", "bed"),
    ],
)
def test_what_does_though_it_is_amiss_is_left_so(says: str, part: str) -> None:
    line = understand(says, PROJECT)
    told = line.verdict, line.kind, line.facts.part, line.facts.disposition
    assert told == (Verdict.TAKEN, Kind.DECISION, part, "use as is")


@pytest.mark.parametrize(
    "says",
    [
        "lid cracked at the front, not the back",
        "cable leaks at the left, not the right",
        "lamp goes out after an hour, not the fuse",
        "crack starts at the front, not the back",
        "next lid folded, the other one tomorrow",
        "mount the lamp",
        "scratched the lid, it works",
    ],
)
def test_what_only_looks_so_is_not_decided_unasked(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.verdict, line.kind) != (Verdict.TAKEN, Kind.DECISION)
