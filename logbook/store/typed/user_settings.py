"""What a user set for himself, for all projects: one TOML file beside the drafts.

`photos` names the folder the phone's photos and notes arrive in, `idle_minutes`
how long a clock counts on after the last sign of work; `theme` and `[keys]` are
the screen's. A file that cannot be used is told, once, and the defaults hold.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from logbook.store.disk.own_places import state_folders

FILE = "screens.toml"
IDLE_MIN = 30
"""Minutes counted after the last sign of work, where the user set no others."""


@dataclass(frozen=True, slots=True)
class Settings:
    """The settings; `remark` says what of the file could not be used."""

    photos: str = ""
    idle_minutes: int = IDLE_MIN
    table: dict[str, Any] = field(default_factory=dict)
    remark: str = ""


def settings_file() -> Path:
    """Give the place of the file."""
    return state_folders() / FILE


def read_settings() -> Settings:
    """Read the file; without one the defaults hold."""
    place = settings_file()
    try:
        said = tomllib.loads(place.read_text("utf-8"))
    except FileNotFoundError:
        return Settings()
    except (OSError, ValueError) as error:
        return Settings(remark=f"{place}: {error}; accepted: TOML")
    photos, idle = said.get("photos", ""), said.get("idle_minutes", IDLE_MIN)
    if not isinstance(photos, str):
        return Settings(table=said, remark=f"{place}: photos: accepted: a folder")
    whole = isinstance(idle, int) and not isinstance(idle, bool)
    if not whole or not 1 <= idle <= 24 * 60:
        remark = f"{place}: idle_minutes: found {idle}; accepted: 1 to 1440"
        return Settings(photos, table=said, remark=remark)
    return Settings(photos, idle, said)
