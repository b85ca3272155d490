"""Photos: each with its caption, its day and the digest of its file."""

from __future__ import annotations

from sync.papers.asbuilt.features.feature_types import AsBuilt
from sync.papers.tables.record_table import (
    Field,
    Record,
    RecordCell,
    count_cell,
    make_record,
    text_cell,
)
from sync.papers.wording.measures import plain_day


def photo_record(job: AsBuilt) -> Record:
    """Every photo, numbered in the order of the book."""
    rows = [
        [
            count_cell(number),
            RecordCell(plain_day(one.day, job.is_us), one.day),
            text_cell(one.caption),
            text_cell(one.where),
            text_cell(one.author),
            text_cell(one.sha256),
            text_cell(one.file_name),
        ]
        for number, one in enumerate(job.photos, start=1)
    ]
    fields = [
        Field("number", "photo", 9, is_number=True),
        Field("day", "day", 25),
        Field("caption", "caption", 32),
        Field("where", "where", 20),
        Field("by", "", 0),
        Field("sha256", "SHA-256 of its file"),
        Field("file", "", 0),
    ]
    return make_record("photos", "Photos", fields, rows, "No photo was taken.")
