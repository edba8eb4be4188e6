"""Our templates, compiled once and kept as Python keeps its own modules.

The code lies in `__pycache__` beside the template, where only who may change the
program can write; where nothing can be written, each run compiles anew. The user's own
templates are not kept: their folder travels with a repository.
"""

from __future__ import annotations

import marshal
import os
import sys
from contextlib import suppress
from functools import cache
from hashlib import sha256
from importlib.util import cache_from_source
from pathlib import Path

import jinja2
from jinja2.bccache import Bucket

_HERE = Path(__file__).parent
_MEANING = (_HERE / "pages.py", _HERE / "decimal_point.py", _HERE.parent / "units.py")
"""Modules that say what a template's constants become: that is worked out when it is
compiled."""

_SEAL = sha256().digest_size


class Compiled(jinja2.BytecodeCache):
    """The compiled code of the templates in one folder."""

    def __init__(self, folder: Path) -> None:
        """Keep that of the templates in `folder`, and of no others."""
        self._folder = folder

    def get_cache_key(self, name: str, filename: str | None = None) -> str:
        """Give the template's file, if it is one of the folder's own, else nothing."""
        ours = self._folder / name
        return str(ours) if filename and Path(filename) == ours else ""

    def load_bytecode(self, bucket: Bucket) -> None:
        """Take the code that was kept, if it is of this template and whole."""
        with suppress(OSError, ValueError, EOFError, TypeError, NotImplementedError):
            if not bucket.key:
                return
            kept = Path(cache_from_source(bucket.key)).read_bytes()
            seal, code = kept[:_SEAL], kept[_SEAL:]
            if seal == _seal(bucket, code):
                bucket.code = marshal.loads(code)  # noqa: S302  # sealed, and ours

    def dump_bytecode(self, bucket: Bucket) -> None:
        """Keep the code; where that cannot be, nothing is lost but a moment."""
        if sys.dont_write_bytecode or not bucket.key:
            return
        with suppress(OSError, NotImplementedError):
            code = marshal.dumps(bucket.code)
            place = Path(cache_from_source(bucket.key))
            place.parent.mkdir(parents=True, exist_ok=True)
            beside = place.with_name(f"{place.name}.{os.getpid()}")
            try:
                beside.write_bytes(_seal(bucket, code) + code)
                beside.replace(place)
            finally:
                beside.unlink(missing_ok=True)


def _seal(bucket: Bucket, code: bytes) -> bytes:
    """Give what tells code that is whole, and of this template as we compile it."""
    about = f"{bucket.checksum} {bucket.key} ".encode()
    return sha256(_meaning() + about + code).digest()


@cache
def _meaning() -> bytes:
    """Tell all that decides what a template is compiled to, beside its text."""
    made = sha256(f"{jinja2.__version__} {sys.version}".encode())
    for module in _MEANING:
        made.update(module.read_bytes())
    return made.digest()
