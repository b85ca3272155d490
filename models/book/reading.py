"""Reading rows: in the order of entries, or stream by stream."""

from __future__ import annotations

import json
from collections.abc import Iterator
from typing import Any

from sqlalchemy import Connection, func, select

from models.book.row import FIELDS, Row, from_columns
from models.book.tables import entry

COLUMNS = ", ".join((*FIELDS, "raw", "hash"))
_CHUNK = 2000
_IN_ORDER = f"SELECT {COLUMNS} FROM entry WHERE (lc, id) > (?, ?) ORDER BY lc, id LIMIT {_CHUNK}"
_BY_STREAM = (
    f"SELECT {COLUMNS} FROM entry WHERE (stream, seq, id) > (?, ?, ?) "
    f"ORDER BY stream, seq, id LIMIT {_CHUNK}"
)


def chunk_in_order(connection: Connection, after_lc: int, after_id: str) -> list[Row]:
    """Return the next rows in the order of entries, (lc, id); an empty list at the end."""
    # Whole chunks, and no open cursor: one would keep the journal from being emptied.
    found = connection.exec_driver_sql(_IN_ORDER, (after_lc, after_id)).fetchall()
    return [from_columns(values) for values in found]


def walk_streams(connection: Connection) -> Iterator[Row]:
    """Every row, stream by stream in the order of its numbers, however odd its columns."""
    place: tuple[str, int, str] = ("", 0, "")
    while found := connection.exec_driver_sql(_BY_STREAM, place).fetchall():
        for values in found:
            yield from_odd_columns(values)
        place = (found[-1][1], found[-1][2], found[-1][0])


def from_odd_columns(values: Any) -> Row:
    """Make a row of columns that may be damaged; what cannot be read stays as it is."""
    try:
        return from_columns(values)
    except (ValueError, TypeError):
        return Row._make((*values[:12], (values[12],), *values[13:]))


def read_found(connection: Connection, ids: list[str]) -> dict[str, Row]:
    """Return the stored rows among these ids."""
    statement = f"SELECT {COLUMNS} FROM entry WHERE id IN (SELECT value FROM json_each(?))"
    found = connection.exec_driver_sql(statement, (json.dumps(ids),)).fetchall()
    return {values[0]: from_columns(values) for values in found}


def read_heads(connection: Connection) -> dict[str, tuple[int, bytes]]:
    """Return the last number and hash of every stream; of a fork, the branch written last."""
    heads: dict[str, tuple[int, bytes]] = {}
    for (stream,) in connection.execute(select(entry.c.stream).distinct()).all():
        last = (
            select(entry.c.seq, entry.c.hash)
            .where(entry.c.stream == stream)
            .order_by(entry.c.seq.desc(), entry.c.lc.desc(), entry.c.id.desc())
            .limit(1)
        )
        heads[stream] = tuple(connection.execute(last).one())
    return heads


def count_rows(connection: Connection) -> int:
    """Return how many rows there are."""
    return int(connection.execute(select(func.count()).select_from(entry)).scalar_one())
