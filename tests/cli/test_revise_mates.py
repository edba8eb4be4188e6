"""What a new revision fits with may be what the one before fits with."""

from __future__ import annotations

from logbook.project import Project
from logbook.records.kinds.design import Revision
from tests.cli.shop import Shop


def test_a_revision_fits_with_the_same_as_the_one_before(shop: Shop) -> None:
    assert shop.logbook("part", "lid").code == 0
    refused = shop.logbook("revise", "lid", "--changed", "thicker", "--mates", "same")
    assert refused.code != 0
    assert "nobody has said what lid first issue fits with" in refused.err
    for mates in ("base rev A", "same"):
        said = ("revise", "lid", "--changed", f"to {mates}", "--mates", mates)
        assert shop.logbook(*said).code == 0
    *_, before, now = Project.open(shop.folder).snapshot.all(Revision)
    assert now.mates_with == before.mates_with == ("base rev A",)
