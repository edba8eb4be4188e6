"""What a user set for the screen: the theme, and other keys for the verbs.

It stands in the user's settings: `theme = "paper"` and a table `[keys]` of verb
names with keys. What cannot be used is told, once.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from logbook.screens.ruled.look import PALETTES
from logbook.store.typed.user_settings import Settings, read_settings, settings_file


@dataclass(frozen=True, slots=True)
class Preferences:
    """Theme and keys; `remark` says what of the file could not be used."""

    theme: str = "slate"
    keys: dict[str, str] = field(default_factory=dict)
    settings: Settings = field(default_factory=Settings)
    remark: str = ""


def read_preferences() -> Preferences:
    """Read the settings; without any the defaults hold."""
    settings, place = read_settings(), settings_file()
    said = settings.table
    theme, keys = said.get("theme", "slate"), said.get("keys", {})
    names = list(PALETTES)
    if theme not in names:
        remark = f"{place}: theme: found “{theme}”; accepted: {' or '.join(names)}"
        return Preferences(settings=settings, remark=remark)
    if not isinstance(keys, dict) or not all(isinstance(k, str) for k in keys.values()):
        remark = f"{place}: keys: accepted: names with keys"
        return Preferences(theme, settings=settings, remark=remark)
    return Preferences(theme, dict(keys), settings, settings.remark)
