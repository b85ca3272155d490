"""Tables of the book as they are now, for statements that are not written out."""

from __future__ import annotations

from sqlalchemy import BigInteger, Column, Integer, LargeBinary, MetaData, Table, Text

metadata = MetaData()

entry = Table(
    "entry",
    metadata,
    Column("id", Text, primary_key=True),
    Column("stream", Text, nullable=False),
    Column("seq", BigInteger, nullable=False),
    Column("lc", BigInteger, nullable=False),
    Column("kind", Text, nullable=False),
    Column("v", Integer, nullable=False),
    Column("at_ms", BigInteger, nullable=False),
    Column("offset_min", Integer, nullable=False),
    Column("zone", Text, nullable=False),
    Column("author", Text, nullable=False),
    Column("job", Text, nullable=False),
    Column("day", Text, nullable=False),
    Column("strikes", Text, nullable=False),
    Column("reason", Text, nullable=False),
    Column("raw", LargeBinary, nullable=False),
    Column("hash", LargeBinary, nullable=False),
)

meta = Table(
    "meta",
    metadata,
    Column("name", Text, primary_key=True),
    Column("value", Text, nullable=False),
)
