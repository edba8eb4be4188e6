"""The fix of the diffuser of release 1.1, which bows: what several tests tell of it.

The scene is the copy stand; its sizes and failures are invented.
"""

from __future__ import annotations

import json
from typing import Any

from tests.publish.stand import Stand, told

CRACK = "diffuser cracked at a corner screw"
BOWED = (
    "diffuser bowed in the heat because the plate is thin; take 5 mm plate next time"
)
HEAD = "diffuser bowed in the heat"


def facts(stand: Stand, release: str) -> dict[str, Any]:
    code, said = stand.run("errata", release, "--json")
    assert code == 0
    found: dict[str, Any] = json.loads(said)
    return found


def fault(stand: Stand, title: str, release: str) -> dict[str, Any]:
    return next(f for f in facts(stand, release)["faults"] if f["title"] == title)


def bowed(stand: Stand) -> None:
    """Let the cure of release 1.1 fail in another way than what it cured."""
    told(stand, "build", "build 2")
    more = ("--cause", "the plate is thin", "--cure", "take 5 mm plate")
    told(stand, "failure", "diffuser", BOWED, *more, "--met-by", "drawing")


def thicker(stand: Stand) -> None:
    """Open the revision that cures that, and release it."""
    named = fault(stand, HEAD, "1.1")["entries"][0].rpartition(" ")[2]
    because = ("--because", named, "--why", "it bowed", "--remake", "yes")
    told(stand, "revise", "diffuser", "--changed", "5 mm plate", *because)
    told(stand, "dispose", "diffuser-2", "scrap", "--because", "it is bowed")
    told(stand, "release", "1.2", "--anyway")
