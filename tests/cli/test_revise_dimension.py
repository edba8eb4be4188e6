"""A revision takes a new size with its limits, as a part does."""

from __future__ import annotations

import pytest

from logbook.project import Project
from logbook.records.kinds.design import Part
from logbook.records.sizes.definition import definition
from logbook.records.together.revisions import current_revision
from tests.cli.shop import Shop


def drawn(shop: Shop) -> tuple[str, str, str]:
    snapshot = Project.open(shop.folder).snapshot
    revision = current_revision(snapshot, snapshot.lookup("bar", Part))
    assert revision is not None
    [size] = definition(snapshot, revision)
    return str(size.nominal), str(size.lower), str(size.upper)


@pytest.mark.parametrize(
    ("size", "becomes"),
    [
        ("51 ±0.2", ("51 mm", "50.8 mm", "51.2 mm")),
        ("51 +0.2/0", ("51 mm", "51.0 mm", "51.2 mm")),
        # The limits of before go along with a size that names none.
        ("51", ("51 mm", "50.5 mm", "51.5 mm")),
    ],
)
def test_a_size_of_a_revision_is_read_as_that_of_a_part(
    shop: Shop, size: str, becomes: tuple[str, str, str]
) -> None:
    shop.asked("part", "bar", "--dimension", "length=50 ±0.5")
    said = shop.logbook("revise", "bar", "--changed", "51", "--dimension",
                        f"length={size}")  # fmt: skip
    assert said.code == 0, said.err
    assert drawn(shop) == becomes


def test_limits_without_a_size_are_refused_with_what_is_accepted(shop: Shop) -> None:
    shop.asked("part", "bar", "--dimension", "length=50 ±0.5")
    said = shop.logbook("revise", "bar", "--changed", "51", "--dimension",
                        "length=50 to 51")  # fmt: skip
    assert said.code != 0
    assert "accepted: name=size with or without limits, length=178.3 ±0.1" in said.err
