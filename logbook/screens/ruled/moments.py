"""Instants as short as a list needs them."""

from __future__ import annotations

from datetime import datetime


def day(when: datetime, today: datetime | None = None) -> str:
    """Give an instant as short as a list needs it: the time today, else the day.

    The beginning of the count of time stands for no instant: nothing is said.
    """
    if when.timestamp() <= 0:
        return ""
    here = when.astimezone()
    now = today or datetime.now().astimezone()
    if here.date() == now.date():
        return f"{here:%H:%M}"
    if here.year == now.year:
        return f"{here.day} {here:%b}"
    return f"{here.day} {here:%b %y}"


def instant(when: datetime) -> str:
    """Give an instant in full, in the time of who reads it.

    Where it was logged by another clock, what that showed stands behind it.
    """
    here = when.astimezone()
    said = f"{here:%Y-%m-%d %H:%M}"
    if when.utcoffset() in (None, here.utcoffset()):
        return said
    there = f"{when:%H:%M}" if when.date() == here.date() else f"{when:%Y-%m-%d %H:%M}"
    offset = when.isoformat(timespec="seconds")[19:]
    return f"{said} ({there} at {offset})"
