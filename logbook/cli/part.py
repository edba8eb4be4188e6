"""`logbook part`: put a part on record, or say more about one that is there."""

from __future__ import annotations

import argparse
import re
from dataclasses import replace
from typing import Any

from logbook.cli import names, terms
from logbook.cli.file_unit import file_unit_option, file_unit_told
from logbook.cli.part_none import goes, none_options
from logbook.errors import BadInput
from logbook.plain.stated.restated import both_said, given, without, without_option
from logbook.project import Project
from logbook.records.kinds.design import Feature, Part, Remake
from logbook.records.kinds.words import Source
from logbook.records.making.drafts import Draft
from logbook.records.sizes.limits import parse_drawn

_NO_LIMITS: dict[str, Any] = {
    "lower_limit": None, "upper_limit": None, "limits_from": "",
}  # fmt: skip
_OF_PART = {
    "material": ("material",), "process": ("process",), "source": ("source",),
    "thickness": ("thickness",), "also": ("aliases",), "wears": ("wears",),
    "remake-time": (), "remake-cost": (), "last-stock": (), "file-unit": (),
}  # fmt: skip
"""What may be taken away of a part: the option that tells it, and its fact."""
_OF_REMAKE = {"remake-time": "time", "remake-cost": "money", "last-stock": "stock_left"}
"""Those that stand together in one fact, by its fields."""
SOURCES = {"made": Source.MADE, "bought": Source.BOUGHT, "service": Source.SERVICE}


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the verb's options."""
    parser.add_argument("name", help="what the part is called")
    parser.add_argument("--source", choices=sorted(SOURCES), help="who makes it")
    parser.add_argument("--process", action="append", help="folding, sawing, printing…")
    parser.add_argument("--material", help="material, as you would ask for it")
    parser.add_argument("--thickness", help="of its stock, 2.0 mm or 18 ga steel")
    parser.add_argument(
        "--dimension", action="append", default=[], help="length=179.7 ±0.1, as drawn"
    )
    parser.add_argument(
        "--crosses",
        action="append",
        default=[],
        help="operations in a dimension: “opening=2 bends on the folder”",
    )
    parser.add_argument(
        "--no-limits",
        action="append",
        default=[],
        help="a dimension whose drawing gives no limits any more",
    )
    parser.add_argument("--critical", action="append", default=[], help="a dimension")
    parser.add_argument(
        "--general",
        action="append",
        default=[],
        help="a dimension whose limits are the general tolerance's",
    )
    parser.add_argument(
        "--compensated",
        help="what its file allows for already, “kerf 0.18 mm”; “nominal”: for nothing",
    )
    file_unit_option(parser)
    parser.add_argument("--also", action="append", help="another name for it")
    parser.add_argument("--wears", action="store_true", help="it wears out in use")
    parser.add_argument("--remake-time", help="another one takes, 40 min")
    parser.add_argument("--remake-cost", help="another one costs, 12 EUR")
    parser.add_argument(
        "--last-stock", action="store_true", help="there is no stock for another one"
    )
    without_option(parser, _OF_PART)
    none_options(parser)
    names.insisting(parser)
    terms.logging(parser)


def run(args: argparse.Namespace) -> int:
    """Make the part, or amend it; or take it away, where it is none."""
    project = terms.opened(args)
    if (code := goes(project, args)) is not None:
        return code
    draft = project.draft(terms.moment(args), args.build)
    known = project.snapshot.named(args.name, Part)
    away = without(project.snapshot, Part, args.name, args, _OF_PART, _told(args))
    part = names.new_part_for(args, draft, args.name)
    more = _more(args, draft, part) | away
    if more:
        draft.amend(replace(part, **more))
    for text in args.dimension:
        _dimension(draft, part, text, args)
    for name in args.no_limits:
        item = names.dimension_for(args, draft, part, name.strip())
        draft.amend(replace(item, **_NO_LIMITS))
    for text in args.crosses:
        _crosses(draft, part, text)
    if args.compensated is not None:
        newest = draft.revision(part)
        draft.amend(replace(newest, compensated=args.compensated.strip()))
    _file_unit(args, draft, project, part)
    verb = "amended" if known else "new"
    return terms.save(project, draft, f"part {verb}: {args.name}", args)


def _file_unit(
    args: argparse.Namespace, draft: Draft, project: Project, part: Part
) -> None:
    """Say or take away which unit its files are in.

    Raises:
        BadInput: the same is told and taken away.
    """
    away = "file-unit" in args.without
    if away and args.file_unit:
        raise BadInput(both_said("file-unit"))
    if away or args.file_unit:
        file_unit_told(project, draft, part, args.file_unit or "")


def _more(args: argparse.Namespace, draft: Draft, part: Part) -> dict[str, Any]:
    """Give the facts of the part that the options name."""
    more: dict[str, Any] = {}
    if args.source:
        more["source"] = SOURCES[args.source]
    if args.process:
        more["process"] = tuple(args.process)
    if args.material is not None:
        more["material"] = args.material
    if args.thickness:
        more["thickness"] = terms.value(args.thickness, draft)
    if args.also:
        more["aliases"] = (*part.aliases, *args.also)
    if args.wears:
        more["wears"] = True
    if remake := _remake(args, draft, part):
        more["remake"] = None if remake == Remake() else remake
    return more


def _told(args: argparse.Namespace) -> dict[str, Any]:
    """Give those facts that the options tell, by their fields."""
    return given(
        material=args.material,
        process=args.process,
        source=args.source,
        thickness=args.thickness,
        aliases=args.also,
        wears=args.wears,
    )


def _remake(args: argparse.Namespace, draft: Draft, part: Part) -> Remake | None:
    """Give what another one costs, with what was known of it before.

    Raises:
        BadInput: the same is told and taken away.
    """
    told = given(
        time=terms.value(args.remake_time, draft) if args.remake_time else None,
        money=terms.value(args.remake_cost, draft) if args.remake_cost else None,
    )
    told |= {"stock_left": False} if args.last_stock else {}
    for word in _OF_REMAKE.keys() & {*args.without}:
        if _OF_REMAKE[word] in told:
            raise BadInput(both_said(word))
        told[_OF_REMAKE[word]] = word == "last-stock" or None
    return replace(part.remake or Remake(), **told) if told else None


def _dimension(draft: Draft, part: Part, text: str, args: argparse.Namespace) -> None:
    name, sign, size = text.partition("=")
    if not sign or not name.strip():
        raise BadInput(f"--dimension: found “{text}”; accepted: length=179.7 ±0.1")
    drawn = parse_drawn(size, draft.snapshot.project.unit)
    item = names.dimension_for(args, draft, part, name.strip())
    told: dict[str, Any] = {
        "nominal": drawn.nominal,
        "critical": item.critical or name.strip() in args.critical,
    }
    bare = drawn.lower is None and drawn.upper is None
    if not (bare and drawn.nominal == item.nominal and not args.general):
        told |= {
            "lower_limit": drawn.lower,
            "upper_limit": drawn.upper,
            "limits_from": _limits_from(draft, name.strip(), args.general),
        }
    draft.amend(replace(item, **told))


def _limits_from(draft: Draft, name: str, general: list[str]) -> str:
    """Give the general tolerance that a dimension's limits are of, if they are.

    Raises:
        BadInput: the project invokes none.
    """
    stated = draft.snapshot.project.tolerance
    if name not in general:
        return ""
    if stated.startswith("none"):
        raise BadInput(
            f"--general {name}: the project invokes no general tolerance; accepted: "
            "one said first, logbook project --tolerance"
        )
    return stated


_OPERATION = re.compile(
    r"(?P<name>[^=]+)=\s*(?:(?P<count>[0-9]+)\s+)?(?P<process>.+?)"
    r"(?:\s+on\s+(?:the\s+)?(?P<machine>.+))?"
)


def _crosses(draft: Draft, part: Part, text: str) -> None:
    """Say how many operations of one process a dimension runs across."""
    found = _OPERATION.fullmatch(text.strip())
    if found is None or found["count"] == "0":
        raise BadInput(
            f"--crosses: found “{text}”; accepted: “opening=2 bends”, or “opening=2 "
            "bends on the folder”"
        )
    machine = found["machine"]
    feature = Feature(
        process=found["process"].removesuffix("s"),
        count=int(found["count"] or 1),
        machine=names.machine_meant(draft.snapshot, machine).ref if machine else None,
    )
    item = draft.characteristic(part, found["name"].strip())
    kept = tuple(one for one in item.made_by if one.process != feature.process)
    draft.amend(replace(item, made_by=(*kept, feature)))
