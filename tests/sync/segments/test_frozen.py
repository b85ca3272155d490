"""Segments of every form ever written: kept as they were, and read for ever."""

from __future__ import annotations

from pathlib import Path

import pytest

from models.entries.envelope import read_entry
from sync.segments.file_name import SegmentName
from sync.segments.reader import open_segment

FOLDER = Path(__file__).parents[3] / "fixtures" / "segments"
FILES = sorted(FOLDER.rglob("*.seg"))


def test_there_is_one_of_every_form() -> None:
    """A new form needs a file of its own; none is ever edited."""
    assert [path.parent.name for path in FILES] == ["v1"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.parent.name))
def test_frozen_segment_is_read(path: Path) -> None:
    """Signature, chain, entries, and one of a kind that nobody knows."""
    segment = open_segment(SegmentName.read(path.name), path.read_bytes())
    rows = segment.rows()

    assert segment.header.job == "green-7-00112233445566aa"
    assert [row.kind for row in rows] == ["job", "note", "dowsed"]
    assert rows[-1].hash == segment.header.head
    assert [read_entry(row.raw).body is None for row in rows] == [False, False, True]
