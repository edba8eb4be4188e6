"""What a file held before an act: text stands in the journal, all else beside it.

A photo that is taken back has no text. It lies under its digest in the git directory,
until the journal names it no more.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from logbook.errors import Refused
from logbook.records.written.text import digest
from logbook.store.acts.last import Act, Touched


@dataclass(frozen=True, slots=True)
class Replaced:
    """What acts replaced in the project whose own files lie in `home`."""

    home: Path

    @property
    def _beside(self) -> Path:
        return self.home / "replaced"

    def keep(self, data: bytes, sha256: str) -> str:
        """Give what the journal is to hold of a content; what is no text is put beside.

        Where that cannot be written the act is done all the same: it is only not
        reversed later.
        """
        try:
            return data.decode("utf-8")
        except UnicodeDecodeError:
            with suppress(OSError):
                self._beside.mkdir(parents=True, exist_ok=True)
                (self._beside / sha256).write_bytes(data)
            return ""

    def of(self, touched: Touched) -> bytes | None:
        """Give what a file held before; None where there was none.

        Raises:
            Refused: it is kept no more.
        """
        if not touched.before:
            return None
        data = touched.replaced.encode("utf-8", "surrogateescape")
        if digest(data) == touched.before:
            return data
        try:
            data = (self._beside / touched.before).read_bytes()
        except OSError:
            data = b""
        if digest(data) != touched.before:
            raise Refused(
                f"what {touched.path} held is not kept here any more; what git has of "
                f"it: git log -- {touched.path}"
            )
        return data

    def let_go(self, acts: Callable[[], Iterable[Act]]) -> None:
        """Let go of what lies beside the journal and none of its acts names."""
        with suppress(OSError):
            if not (beside := [*self._beside.iterdir()]):
                return
            named = {one.before for act in acts() for one in act.files}
            for file in beside:
                if file.name not in named:
                    file.unlink()
