"""A revision told in plain words is opened under its own label, with why it came."""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.kinds.design import Part, Revision
from logbook.records.kinds.happenings import Run
from tests.plain.judge import of_parts
from tests.plain.records_of import drafted, known, world

WORDS = of_parts("foot", "motor housing", "cable", "upper leg", "drawer runner")


def opened(says: str) -> tuple[str, str, list[tuple[str, str]], str]:
    """Give part, label, changes and reason of the revision that a line opens."""
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.REVISION, Verdict.TAKEN)
    records = drafted(line, world(known(WORDS)))
    assert not [one for one in records if isinstance(one, Run)]
    [new] = [one for one in records if isinstance(one, Revision) and one.label != "-"]
    changes = [(one.characteristic.name, str(one.becomes)) for one in new.changes]
    return new.part.name, new.label, changes, new.why


@pytest.mark.parametrize(
    ("says", "part", "label", "changes", "why"),
    [
        (
            "new revision B of the foot, bore 13.05 because it was too tight",
            "foot", "B", [("bore", "13.05 mm")], "it was too tight",
        ),
        ("new rev C of the cable: length 35", "cable", "C", [("length", "35 mm")], ""),
        ("revised the foot to B: bore 13.05", "foot", "B", [("bore", "13.05 mm")], ""),
        (
            "revised the motor housing to D: wall 2.6", "motor housing", "D",
            [("wall", "2.6 mm")], "",
        ),
        (
            "I revised the foot to rev B: bore 13.05, the bearing would not go in",
            "foot", "B", [("bore", "13.05 mm")], "the bearing would not go in",
        ),
        (
            "redrew the drawer runner as rev B, groove 4.3 because it bound",
            "drawer runner", "B", [("groove", "4.3 mm")], "it bound",
        ),
        ("bumped the cable to v2, length 35", "cable", "v2", [("length", "35 mm")], ""),
        (
            "revised the upper leg to C, cable hole is 4.5 mm higher, plug fouled it",
            "upper leg", "C", [], "",
        ),
        (
            "new revision B of the upper leg, hole 4.5 mm up because the plug hit it",
            "upper leg", "B", [], "the plug hit it",
        ),
        (
            "upper leg revision B: cable hole 4 mm higher, the plug fouled the bracket",
            "upper leg", "B", [], "",
        ),
    ],
)  # fmt: skip
def test_it_is_opened_under_its_label(
    says: str, part: str, label: str, changes: list[tuple[str, str]], why: str
) -> None:
    assert opened(says) == (part, label, changes, why)


@pytest.mark.parametrize(
    "says", ["revised the foot, bore 13.05", "revised the drawing of the foot: bore 13"]
)
def test_without_a_label_it_is_asked(says: str) -> None:
    line = understand(says, WORDS)
    assert (line.kind, line.verdict) == (Kind.REVISION, Verdict.ASKED)


@pytest.mark.parametrize(
    "says",
    [
        "turned the foot to 13.05",
        "foot rev B bore 13.05 measured",
        "printed the foot rev B again",
        "revised the packing list",
        "soldered the cable to B",
    ],
)
def test_what_only_sounds_like_it_opens_none(says: str) -> None:
    line = understand(says, WORDS)
    taken = line.verdict is Verdict.TAKEN
    assert not (taken and line.kind is Kind.REVISION)


def test_no_size_is_called_by_words_before_a_stop() -> None:
    line = understand("motor housing goes to B: wall 2.6", WORDS)
    assert line.verdict is not Verdict.TAKEN or line.kind is Kind.REVISION


def test_no_part_is_made_of_a_label() -> None:
    records = drafted(
        understand("revised the foot to B: bore 13.05", WORDS), world(known(WORDS))
    )
    assert not [one for one in records if isinstance(one, Part)]
