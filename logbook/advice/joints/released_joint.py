"""What the release of a build says of a joint, where that is drawn otherwise by now."""

from __future__ import annotations

from logbook.advice.ground.register import View
from logbook.records.kinds.assembling import Joint
from logbook.records.kinds.made_public import Release
from logbook.records.states.statements import Form


def said_by_release(view: View, joint: Joint) -> str:
    """Say it of the build in hand; empty where the newest release says the same."""
    build = view.build
    release = view.find(build.release, Release) if build else None
    if build is None or release is None:
        return ""
    newest = max(view.all(Release), key=lambda one: (one.when, one.id))
    then, now = (_says(one, joint) for one in (release, newest))
    if not then or then == now:
        return ""
    words = then.removeprefix(f"{joint.title}: ")
    return f"release {release.label}, which {build.title} is made by, says: {words}"


def _says(release: Release, joint: Joint) -> str:
    for one in release.statements:
        if one.form == Form.JOINT and one.of.id == joint.id:
            return one.says
    return ""
