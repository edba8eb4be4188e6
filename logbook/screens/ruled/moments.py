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
