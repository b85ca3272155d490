"""SQL views that make the book legible to any SQL tool: a view a kind, made from its model.

They hold nothing of their own. Whenever the models would give others than those in the
file, all are dropped and made anew.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from enum import Enum
from types import NoneType
from typing import Any, get_args

from pydantic import BaseModel
from sqlalchemy import Connection, select
from sqlalchemy.exc import OperationalError

from models.book.tables import meta

_FINGERPRINT = "views"
_OUR_NAMES = frozenset(("entry", "meta", "strike", "current_entry"))
_ENVELOPE = ("id", "day", "at", "author", "struck", "struck_by", "reason", "job_key")


class Dialect(Enum):
    """The databases that views are written for."""

    SQLITE = "sqlite"
    POSTGRESQL = "postgresql"


# What the two databases say differently; everything else is said once, below.
_AT = {
    Dialect.SQLITE: (
        "strftime('%Y-%m-%dT%H:%M:%S', e.at_ms / 1000 + e.offset_min * 60, 'unixepoch')"
        " || CASE WHEN e.offset_min < 0 THEN '-' ELSE '+' END"
        " || printf('%02d:%02d', abs(e.offset_min) / 60, abs(e.offset_min) % 60)"
    ),
    Dialect.POSTGRESQL: (
        "to_char(to_timestamp(e.at_ms / 1000 + e.offset_min * 60) AT TIME ZONE 'UTC',"
        " 'YYYY-MM-DD\"T\"HH24:MI:SS')"
        " || CASE WHEN e.offset_min < 0 THEN '-' ELSE '+' END"
        " || to_char(abs(e.offset_min) / 60, 'FM00') || ':'"
        " || to_char(abs(e.offset_min) % 60, 'FM00')"
    ),
}
_STRUCK_IDS = {
    Dialect.SQLITE: "json_each(e.strikes) AS s",
    Dialect.POSTGRESQL: "jsonb_array_elements_text(e.strikes::jsonb) AS s(value)",
}
_JOINED = {
    Dialect.SQLITE: "group_concat({0}, {1})",
    Dialect.POSTGRESQL: "string_agg({0}, {1} ORDER BY struck_by)",
}
_FIELD = {
    Dialect.SQLITE: "json_extract(CAST(e.raw AS TEXT), '$.{0}')",
    # PostgreSQL has no character 0 in a text, and refuses JSON that holds one.
    Dialect.POSTGRESQL: (
        r"replace(convert_from(e.raw, 'UTF8'), '\u0000', '\ufffd')::jsonb #>> '{{{1}}}'"
    ),
}


@dataclass(frozen=True, slots=True)
class Source:
    """Tables that the views read: a table of entries, or many jobs in one, kept apart.

    ``apart`` is the column that tells the jobs apart; an id means an entry of its job alone.
    """

    name: str = "entry"
    apart: str = ""


BOOK = Source()


def view_statements(
    models: Mapping[str, type[BaseModel]], dialect: Dialect, source: Source = BOOK
) -> dict[str, str]:
    """Return the name of every view and the statement that makes it, in the order to run."""
    at, joined = _AT[dialect], _JOINED[dialect].format
    own, own_e = (f"{source.apart}, ", f"e.{source.apart}, ") if source.apart else ("", "")
    one = f"({own_e}e.id)" if source.apart else "e.id"
    strikes = (
        f"SELECT {own_e}s.value AS struck, e.id AS struck_by, e.day, {at} AS at, e.author, "
        f"e.reason FROM {source.name} AS e, {_STRUCK_IDS[dialect]} WHERE e.strikes <> '[]'"
    )
    current = (
        f"SELECT {own_e}e.id, e.kind, e.v, e.day, {at} AS at, e.author, e.job, e.stream, e.seq, "
        f"e.lc, e.strikes, e.reason, {_extract('body', dialect)} AS body "
        f"FROM {source.name} AS e WHERE {one} NOT IN (SELECT {own}struck FROM strike)"
    )
    # Gathered once for the whole view: asked anew for each row it would take minutes.
    struck = (
        f"(SELECT {own}struck, {joined('struck_by', _quote_text(' '))} AS struck_by, "
        f"{joined('reason', _quote_text('; '))} AS reason FROM strike GROUP BY {own}struck)"
    )
    same = "x.struck = e.id"
    same += f" AND x.{source.apart} = e.{source.apart}" if source.apart else ""
    bodies = {"strike": strikes, "current_entry": current}
    for kind, model in models.items():
        fields = "".join(f", {source} AS {name}" for name, source in _fields(model, dialect))
        name = f"{kind}_entry" if kind in _OUR_NAMES else kind
        bodies[name] = (
            f"SELECT {own_e}e.id, e.day, {at} AS at, e.author, "
            "CASE WHEN x.struck IS NULL THEN 0 ELSE 1 END AS struck, x.struck_by, x.reason"
            f"{fields} FROM {source.name} AS e "
            f"LEFT JOIN {struck} AS x ON {same} WHERE e.kind = {_quote_text(kind)}"
        )
    return {name: f"CREATE VIEW {_quote(name)} AS {body}" for name, body in bodies.items()}


def refresh_views(connection: Connection, models: Mapping[str, type[BaseModel]]) -> bool:
    """Drop and make the views of a book's file if others are in it; tell whether it did.

    On a full disk the old ones stay: the record does not depend on them.
    """
    wanted = view_statements(models, Dialect.SQLITE)
    fingerprint = hashlib.sha256("\n".join(wanted.values()).encode()).hexdigest()
    found = connection.execute(select(meta.c.value).where(meta.c.name == _FINGERPRINT)).scalar()
    if found == fingerprint:
        return False
    try:
        connection.exec_driver_sql("BEGIN IMMEDIATE")
        for (name,) in connection.exec_driver_sql(
            "SELECT name FROM sqlite_master WHERE type = 'view'"
        ).fetchall():
            connection.exec_driver_sql(f"DROP VIEW {_quote(name)}")
        for statement in wanted.values():
            connection.exec_driver_sql(statement)
        connection.exec_driver_sql(
            "INSERT INTO meta (name, value) VALUES (?, ?) "
            "ON CONFLICT (name) DO UPDATE SET value = excluded.value",
            (_FINGERPRINT, fingerprint),
        )
        connection.commit()
    except OperationalError:
        connection.rollback()
        return False
    return True


def _fields(model: type[BaseModel], dialect: Dialect) -> Iterator[tuple[str, str]]:
    for name, field in model.model_fields.items():
        shown = f"body_{name}" if name in _ENVELOPE else name
        source = _extract(f"body.{name}", dialect)
        if dialect is Dialect.POSTGRESQL:
            source = f"({source}){_cast(field.annotation)}"
        yield _quote(shown), source


def _extract(place: str, dialect: Dialect) -> str:
    return _FIELD[dialect].format(place, place.replace(".", ","))


def _cast(annotation: Any) -> str:
    """PostgreSQL gives every field as text: numbers and yes or no are made such again."""
    leaves = set(_leaves(annotation)) - {NoneType}
    return {frozenset((int,)): "::numeric", frozenset((bool,)): "::boolean::integer"}.get(
        frozenset(leaves), ""
    )


def _leaves(annotation: Any) -> Iterator[Any]:
    if hasattr(annotation, "__metadata__"):  # Annotated: what it says of limits is not a type
        yield from _leaves(annotation.__origin__)
    elif parts := get_args(annotation):
        for part in parts:
            yield from _leaves(part)
        if isinstance(annotation, type) or hasattr(annotation, "__origin__"):
            yield getattr(annotation, "__origin__", annotation)
    else:
        yield annotation


def _quote(name: str) -> str:
    return '"' + name.replace('"', '""') + '"'


def _quote_text(text: str) -> str:
    return "'" + text.replace("'", "''") + "'"
