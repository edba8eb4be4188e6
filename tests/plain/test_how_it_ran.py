"""How a machine ran is no size; what turns or moves in the thing itself is measured.

The figures are invented; which settings a machine has is common practice, no source.
"""

from __future__ import annotations

import pytest

from logbook.plain.lines import understand
from logbook.plain.understanding import Kind, Verdict
from logbook.records.making.told_settings import settings_in
from tests.plain.judge import PROJECT


@pytest.mark.parametrize(
    ("says", "told"),
    [
        ("spindle 12000 rpm, feed 600 mm/min",
         {"speed": "12000 rpm", "feed": "600 mm/min"}),
        ("feed 600", {"feed": "600"}),
        ("feed rate 900 mm/min, 18000 rpm", {"feed": "900 mm/min",
                                             "speed": "18000 rpm"}),
        ("depth per pass 0.5", {"depth per pass": "0.5"}),
        ("step down 0.4, stepover 40 %",
         {"depth per pass": "0.4", "stepover": "40 %"}),
        ("stitch length 3, tension 4", {"stitch length": "3", "thread tension": "4"}),
        ("wire feed 4 m/min, 19 V", {"feed": "4 m/min", "speed": "4 m/min"}),
        ("soldering iron 350 C", {"iron": "350 C"}),
        ("layer height 0.16", {"layers": "0.16"}),
    ],
)  # fmt: skip
def test_a_line_of_settings_is_a_note(says: str, told: dict[str, str]) -> None:
    assert dict(settings_in(says)) == told
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.NOTE, Verdict.TAKEN)


@pytest.mark.parametrize(
    "says",
    [
        "milled the bed at 12000 rpm, 0.3 deep per pass",
        "turned the collar at 1200 rpm with 0.1 feed",
        "welded the bracket at 85 A",
        "sewed the lid with stitch 2.5, tension 3",
    ],
)
def test_work_is_done_to_none_of_its_settings(says: str) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.facts.readings) == (Kind.STEP, ())


@pytest.mark.parametrize(
    ("says", "value", "wanted"),
    [
        ("deck feed 82 mm/s should be 80", "82 mm/s", ["80 mm/s"]),
        ("hub runs at 240 rpm should be 250", "240 rpm", ["250 rpm"]),
        ("collar turns at 1420 rpm, should be 1500", "1420 rpm", ["1500 rpm"]),
        ("gate spins 1150 rpm", "1150 rpm", []),
        ("stitch length 2.4 should be 2.5", "2.4 mm", ["2.5 mm"]),
        ("lamp comes on at 11.2 V should be 11.5", "11.2 V", ["11.5 V"]),
        ("drawer stops at 412, ought to be 420", "412 mm", ["420 mm"]),
        ("gate opens at 2.1 bar, should be 2.5", "2.1 bar", ["2.5 bar"]),
        ("first layer 0.21", "0.21 mm", []),
    ],
)
def test_what_runs_or_switches_at_a_value_is_measured(
    says: str, value: str, wanted: list[str]
) -> None:
    line = understand(says, PROJECT)
    assert (line.kind, line.verdict) == (Kind.READING, Verdict.TAKEN)
    assert [str(one.value) for one in line.facts.readings] == [value]
    assert [str(one) for one in line.facts.wanted] == wanted


@pytest.mark.parametrize(
    "says",
    [
        "feed roller 24.9",
        "belt tension 38 N",
        "bed depth 12.5",
        "tension rod 4.02",
        "base step height 3.1",
        "stitch line 2.5 from the edge",
    ],
)
def test_what_is_only_called_like_a_setting_is_none(says: str) -> None:
    assert not settings_in(says)
