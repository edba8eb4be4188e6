"""What was published: releases, the statements they make, known faults of them."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from logbook.records.kinds.design import DesignFile
from logbook.records.kinds.ids import Ref
from logbook.records.kinds.record import Record, always, listed
from logbook.records.kinds.words import ErratumStatus, Severity, WayRound


@dataclass(frozen=True, slots=True, kw_only=True)
class Statement:
    """Something a release says: a list line, step, file, gap, caution, dimension."""

    id: str
    of: Ref
    says: str
    sha256: str
    form: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Release(Record):
    """A tagged set of revisions that was published, frozen with its statements.

    `of_no_part` are the paths of design files that lay beside its own and belong to
    none of its parts: who gets the folder asks what they are for.
    """

    label: str
    tag: str = ""
    commit: str = ""
    revisions: tuple[Ref, ...] = ()
    tried_by: tuple[Ref, ...] = ()
    summary: str = ""
    of_no_part: tuple[str, ...] = ()
    statements: tuple[Statement, ...] = listed("statement")
    files: tuple[DesignFile, ...] = listed("file")


@dataclass(frozen=True, slots=True, kw_only=True)
class Erratum(Record):
    """A published statement that is wrong or incomplete; a known fault on screen.

    `statements` are ids of what is wrong, each with its name before it as a courtesy.
    `not_affected` names revisions and releases of which its author said that they do
    not have it. `remake` is its author's answer to who has made one already: yes, no,
    or only if …. `same_as` names the known fault that it only repeats.
    """

    part: Ref | None = None
    revisions: tuple[Ref, ...] = ()
    statements: tuple[str, ...] = ()
    releases: tuple[str, ...] = ()
    not_affected: tuple[Ref, ...] = ()
    from_entries: tuple[Ref, ...] = ()
    severity: Severity = always(Severity.UNKNOWN)
    how_to_tell: str = ""
    symptom: str = ""
    consequence: str = ""
    way_round: WayRound = always(WayRound.UNKNOWN)
    do_this: str = ""
    side_effects: str = ""
    stop_using_until: str = ""
    remake: str = ""
    fixed_by: Ref | None = None
    status: ErratumStatus = always(ErratumStatus.REPORTED)
    published: date | None = None
    same_as: Ref | None = None
