"""Whether two files hold the same."""

from __future__ import annotations

from logbook.records.kinds.design import DesignFile


def same_content(one: DesignFile, other: DesignFile) -> bool:
    """Tell whether two files hold the same, line ends of a text aside."""
    if one.sha256 == other.sha256:
        return True
    return bool(one.text_sha256) and one.text_sha256 == other.text_sha256
