"""Where problems were found among the records, so that few need be looked at again."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from logbook.errors import Problem
from logbook.records.kinds.record import Record
from logbook.records.together.ordered import age


@dataclass(frozen=True, slots=True)
class Checked:
    """Where problems were found, so that later only what changed is checked again.

    They are by file, by the id of a record that refers to nothing, of equal labels,
    of equal revisions, of known faults saved twice and of dimensions made twice.
    `twice` tells whether two files have one id.
    """

    files: Mapping[str, tuple[Problem, ...]]
    dangling: Mapping[str, tuple[Problem, ...]]
    labels: tuple[Problem, ...]
    revisions: tuple[Problem, ...]
    faults: tuple[Problem, ...] = ()
    sizes: tuple[Problem, ...] = ()
    twice: bool = False

    def in_order(self, record: Callable[[str], Record]) -> tuple[Problem, ...]:
        """Give all of them: by file, then by record; `record` gives one."""
        problems = [one for path in sorted(self.files) for one in self.files[path]]
        for one in sorted(map(record, self.dangling), key=age):
            problems += self.dangling[one.id]
        return (*problems, *self.labels, *self.revisions, *self.faults, *self.sizes)
