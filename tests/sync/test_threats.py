"""The table of faults names tests that are there, and owns up to what has none."""

from __future__ import annotations

import re

import pytest

from tests.house.tree import ROOT

TABLE = ROOT / "sync" / "THREATS.md"
FILE = re.compile(r"`([\w./]+\.(?:py|json))`(?:: ([\w, ]+))?")
ROWS = [
    [cell.strip() for cell in line.strip("|").split("|")]
    for line in TABLE.read_text(encoding="utf-8").splitlines()
    if re.match(r"\| \d", line)
]


def test_every_fault_has_its_row() -> None:
    """The faults are numbered without a gap, so none was dropped on the way."""
    assert [row[0] for row in ROWS] == [str(number) for number in range(1, 31)]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]} {row[1]}")
def test_row_names_tests_that_are_there_or_says_why_none_is(row: list[str]) -> None:
    """Each file is there and holds each test named after it; an empty cell has its reason."""
    named = FILE.findall(row[3])
    assert named or row[4]
    for path, functions in named:
        text = (ROOT / path).read_text(encoding="utf-8")
        for function in filter(None, functions.split(", ")):
            is_there = re.search(rf"^\s*(?:def|class) {function}\(", text, re.M)
            assert is_there, f"{path} has no {function}"
