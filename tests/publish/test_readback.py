"""The text of a released statement, read back: nothing of it is lost."""

from __future__ import annotations

from dataclasses import astuple, replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from logbook.publish.release.readback import (
    STEP_LISTS,
    read_joint,
    read_line,
    read_step,
)
from logbook.publish.release.statements import line_text, step_text
from logbook.records.kinds import assembling, design
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.words import Source
from logbook.records.together.snapshot import Snapshot
from tests.publish.stand import q

word = st.from_regex(r"[a-zà-ÿ](?: ?[a-zà-ÿ0-9]){1,13}", fullmatch=True)
words = st.lists(word, max_size=3).map(tuple)
EMPTY = Snapshot({})


@settings(deadline=None)
@given(word, st.tuples(*[words] * len(STEP_LISTS)), st.booleans(), word, word)
def test_a_step_comes_back_as_it_was_said(
    title: str,
    lists: tuple[tuple[str, ...], ...],
    closes: bool,
    accept: str,
    prose: str,
) -> None:
    step = assembling.Step(
        id="5tep0001",
        title=title,
        uses=tuple(Ref(name, "") for name in lists[0]),
        after=tuple(Ref(name, "") for name in lists[1]),
        tools=lists[2],
        substitutes=lists[3],
        inside=lists[4],
        tested=lists[5],
        clean=lists[6],
        set_to=lists[7],
        closes=closes,
        accept=accept,
        prose=prose,
    )
    said = read_step(step_text(EMPTY, step), title)
    assert tuple(said.of(name) for name in STEP_LISTS) == lists
    assert (said.closes, said.accept, said.prose) == (closes, accept, prose)


@given(st.lists(st.sampled_from(["a; b", "tools: x", "plain", "instead: y, z"])))
def test_no_word_of_a_step_is_lost_whatever_it_holds(parts: list[str]) -> None:
    text = "; ".join(["Fold the base", *parts])
    said = read_step(text, "Fold the base")
    shown = " ".join([*(w for lst in said.lists.values() for w in lst), said.prose])
    for part in ("a", "b", "plain"):
        assert (part in parts or (part in "ab" and "a; b" in parts)) <= (part in shown)


@given(
    st.tuples(st.integers(0, 99), st.integers(0, 9)),
    words,
    st.sampled_from(list(Source)),
    word,
    word,
    words,
)
def test_a_line_comes_back_as_it_was_said(
    counts: tuple[int, int],
    places: tuple[str, ...],
    source: Source,
    material: str,
    bought_as: str,
    instead: tuple[str, ...],
) -> None:
    part = design.Part(id="part0001", title="foot", source=source, material=material)
    revision = design.Revision(id="rev00001", title="foot", part=part.ref, label="-")
    line = assembling.Line(
        id="l1ne0001",
        title="foot",
        part=part.ref,
        assembly=Ref("upright", ""),
        quantity=counts[0],
        spare=counts[1],
        places=places,
        bought_as=bought_as,
        substitutes=instead,
    )
    said = read_line(line_text(EMPTY, revision, part, line))
    assert said.name == "foot first issue"
    assert (said.quantity, said.spare) == counts
    assert said.into == "upright"
    assert (said.places, said.source, said.material) == (places, source, material)
    assert (said.bought_as, said.substitutes) == (bought_as, instead)
    assert read_line(line_text(EMPTY, revision, part, None)).quantity is None
    free = replace(line, critical="the bore; the rim is free", bought_as="M4; steel")
    said = read_line(line_text(EMPTY, revision, part, free))
    assert said.critical == "the bore; the rim is free"
    assert (said.bought_as, said.material) == ("M4; steel", material)
    thick = replace(part, thickness=q("2.0"))
    text = line_text(EMPTY, revision, thick, line)
    assert read_line(text).material == f"{material}, 2.0 mm thick"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        (
            "collar: 4 × M4, thin nut; through washer 0.8 mm, base; tightened to 2 N·m",
            ("collar", "4", "M4, thin nut", "washer 0.8 mm, base", "", "2 N·m"),
        ),
        ("bar: 1 × M3", ("bar", "1", "M3", "", "", "")),
        (
            "bar: 1 × M3; tap drill 2.5 mm; tightened to 1 N·m, held; tap drill worn",
            ("bar", "1", "M3", "", "2.5 mm", "1 N·m, held; tap drill worn"),
        ),
    ],
)  # fmt: skip
def test_a_joint_comes_back_as_it_was_said(text: str, parts: tuple[str, ...]) -> None:
    assert astuple(read_joint(text)) == parts
