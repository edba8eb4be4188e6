"""Tables name their source and how it was read, and never extrapolate."""

from __future__ import annotations

import tomllib

import pytest

from logbook.errors import BadInput
from logbook.quantity import Metal
from logbook.shop.cautions import caution_lines, cautions
from logbook.shop.materials.gauges import gauge_thickness
from logbook.shop.sums import all_sums
from logbook.shop.tables import FOLDER, HOW, Table, table

TABLES = [
    pytest.param(table(path.stem, name), id=f"{path.stem}.{name}")
    for path in sorted(FOLDER.glob("*.toml"))
    for name in tomllib.loads(path.read_text("utf-8"))
]


@pytest.mark.parametrize("held", TABLES)
def test_table_names_its_source_and_how_it_was_read(held: Table) -> None:
    assert held.title
    assert held.source
    assert held.how in HOW
    assert held.rows
    for row in held.rows:
        assert row.text("how") in {"", *HOW}, row.label
        assert row.source, row.label


@pytest.mark.parametrize("held", TABLES)
def test_table_keeps_no_address_of_where_a_copy_was_seen(held: Table) -> None:
    words = " ".join([held.source, held.note, *(row.source for row in held.rows)])
    assert "http" not in words
    assert ".com" not in words
    assert "/work" not in words


def test_files_are_read_only_when_a_table_is_asked_for() -> None:
    assert tomllib.loads((FOLDER / "gauges.toml").read_text("utf-8"))
    assert table("gauges", "steel") is table("gauges", "steel")


def test_row_is_found_by_any_of_its_names() -> None:
    wood = table("wood", "shrinkage")
    for text in ("beech, American", "American beech", "beech", "BEECH"):
        assert wood.named(text).label == "beech, American"


def test_name_that_fits_several_rows_is_asked_back() -> None:
    with pytest.raises(BadInput, match=r"could be several .*accepted: maple, bigleaf"):
        table("wood", "shrinkage").named("maple")


def test_band_includes_its_upper_end_only() -> None:
    steel = table("sheet", "steel")
    assert steel.band(2.0).number("to") == 2.0
    assert steel.band(2.001).number("to") == 2.5
    for outside in (0.6, 3.001):
        with pytest.raises(BadInput, match=r"over 0\.6 up to and including 3"):
            steel.band(outside)


def test_empty_cell_is_refused_with_the_rows_that_have_one() -> None:
    soft = table("heat", "softening")
    with pytest.raises(BadInput, match="gives no deflection_high_load for PLA"):
        soft.named("PLA").number("deflection_high_load")


@pytest.mark.parametrize("metal", list(Metal))
def test_gauges_get_thinner_as_their_numbers_rise(metal: Metal) -> None:
    numbers = [int(row.number("gauge")) for row in table("gauges", metal.value).rows]
    sizes = [gauge_thickness(metal, number) for number in numbers]
    assert numbers == sorted(numbers)
    assert sizes == sorted(sizes, reverse=True)


def test_gauge_weights_follow_their_defining_density() -> None:
    # Manufacturers' Standard: 41.82 lb/ft² for one inch; cells print 4 decimals
    for row in table("gauges", "steel").rows:
        found = row.number("pounds") / 41.82
        assert found == pytest.approx(row.number("inch"), abs=0.00005001)


def test_aluminium_gauges_follow_their_defining_series() -> None:
    # ASTM B258: 0.005 in × 92^((36 − n)/39)
    for row in table("gauges", "aluminium").rows:
        found = 0.005 * 92 ** ((36 - row.number("gauge")) / 39)
        assert found == pytest.approx(row.number("inch"), abs=1e-6)


def test_minimum_radii_never_fall_as_sheet_gets_thicker() -> None:
    for name, column in (("radius_trade", "factor"), ("radius_aircraft", "high")):
        rows = table("bends", name)
        for alloy in {row.label for row in rows.rows}:
            one = rows.where(alloy=alloy).rows
            radii = [row.number(column) * row.number("thickness") for row in one]
            assert radii == sorted(radii), alloy


def test_every_caution_defers_to_who_decides() -> None:
    for row in cautions().rows:
        assert row.text("line").endswith("."), row.label
        assert row.text("defers").endswith("."), row.label
        assert row.text("signal") in {"DANGER", "WARNING", "CAUTION", "NOTICE"}
        assert row.cells["process"] or row.cells["using"], row.label


def test_every_danger_a_sum_names_has_its_caution() -> None:
    for each in all_sums():
        assert len(caution_lines(each.dangers)) == len(each.dangers)


def test_no_caution_says_safe() -> None:
    for row in cautions().rows:
        said = f"{row.text('line')} {row.text('defers')}".lower()
        assert "safe" not in said.replace("safety data sheet", ""), row.label
