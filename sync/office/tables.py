"""Tables of the office's database as they are now, for statements that are not written out."""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, Integer, MetaData, Table, Text

from models.book import tables as book

metadata = MetaData()

# The columns of a book, with the job they belong to before them.
entry = Table(
    "entry",
    metadata,
    Column("job_no", Integer, primary_key=True),
    *[Column(one.name, one.type) for one in book.entry.columns],
)

job = Table(
    "office_job",
    metadata,
    Column("no", Integer, primary_key=True),
    Column("key", Text, nullable=False),
    Column("founder", Text, nullable=False),
    Column("entries", BigInteger, nullable=False),
)

meta = Table(
    "meta",
    metadata,
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
