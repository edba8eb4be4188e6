"""What git does not take is counted in the band, and the bench says once why."""

from __future__ import annotations

from pathlib import Path

from tests.screens.bench_keys import bench


async def test_why_an_entry_is_not_in_git_is_said_beside_what_was_logged(
    shop: Path,
) -> None:
    hook = shop / ".git/hooks/pre-commit"
    hook.parent.mkdir(exist_ok=True)
    hook.write_text("#!/bin/sh\necho the drawings are locked >&2; exit 1\n")
    hook.chmod(0o755)
    async with bench(shop, (120, 30)) as at:
        await at.say("note: filed flush")
        await at.until(lambda: "not in git yet" in at.seen)
        await at.until(lambda: "the drawings are locked" in at.words)
        assert "filed flush" in at.words
        hook.unlink()
        at.app.desk.commit()
        await at.until(lambda: "all in git" in at.seen)


async def test_where_git_cannot_be_asked_it_is_not_said_that_all_is_in_git(
    shop: Path,
) -> None:
    index = shop / ".git/index"
    sound = index.read_bytes()
    async with bench(shop, (120, 30)) as at:
        index.write_bytes(b"garbage")
        await at.say("note: filed flush")
        await at.until(lambda: "index file smaller than expected" in at.words)
        assert "not in git yet" in at.seen
        index.write_bytes(sound)
        at.app.desk.commit()
        await at.until(lambda: "all in git" in at.seen)
