"""What a user set for himself: the theme, and other keys for the verbs.

One TOML file beside the drafts, `screens.toml`: `theme = "paper"`, `photos`, the
folder photos arrive in, and a table `[keys]` of verb names with keys. A file that
cannot be used is told, once.
"""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from pathlib import Path

from logbook.screens.look import THEMES
from logbook.store.own_places import state_folders

FILE = "screens.toml"


@dataclass(frozen=True, slots=True)
class Preferences:
    """Theme and keys; `remark` says what of the file could not be used."""

    theme: str = "slate"
    keys: dict[str, str] = field(default_factory=dict)
    photos: str = ""
    remark: str = ""


def preferences_file() -> Path:
    """Give the place of the file."""
    return state_folders() / FILE


def read_preferences() -> Preferences:
    """Read the file; without one the defaults hold."""
    place = preferences_file()
    try:
        said = tomllib.loads(place.read_text("utf-8"))
    except FileNotFoundError:
        return Preferences()
    except (OSError, ValueError) as error:
        return Preferences(remark=f"{place}: {error}; accepted: TOML")
    theme, keys = said.get("theme", "slate"), said.get("keys", {})
    names = [known.name for known in THEMES]
    if theme not in names:
        remark = f"{place}: theme: found “{theme}”; accepted: {' or '.join(names)}"
        return Preferences(remark=remark)
    if not isinstance(keys, dict) or not all(isinstance(k, str) for k in keys.values()):
        return Preferences(theme, remark=f"{place}: keys: accepted: names with keys")
    return Preferences(theme, dict(keys), str(said.get("photos", "")))
