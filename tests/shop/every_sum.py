"""All sums there are, and the shell asked for one."""

from __future__ import annotations

import argparse

import pytest

from logbook.cli import sums as verb
from logbook.shop.sums import all_sums

SUMS = [pytest.param(each, id=each.name) for each in all_sums()]


def shell(*words: str) -> int:
    parser = argparse.ArgumentParser()
    verb.arguments(parser)
    return verb.run(parser.parse_args(words))
