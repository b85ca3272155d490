"""A stored row: the envelope as columns, the exact bytes, and the hash that chains them."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

from models.book.errors import NotStorableError
from models.entries.bounds import within_bounds
from models.entries.envelope import AnyEntry, canonical_bytes, read_stored_entry

GENESIS = bytes(32)  # what the first hash of a stream is chained to

_PLAIN = (str, int, type(None))


class Row(NamedTuple):
    """An entry as the book stores it; a tuple, because a job has 50,000 of them to load."""

    id: str
    stream: str
    seq: int
    lc: int
    kind: str
    v: int
    at_ms: int
    offset_min: int
    zone: str
    author: str
    job: str
    day: str
    strikes: tuple[str, ...]
    reason: str
    raw: bytes
    hash: bytes


FIELDS = Row._fields[:-2]
"""Columns that repeat what ``raw`` says, in the order of the table."""
KEYS = frozenset((*FIELDS, "body"))
WITH_NEEDS = KEYS | {"needs"}
"""Keys of an entry that names something without which it would be misread."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """An entry as its author gives it, before the book gives it its place."""

    id: str
    kind: str
    v: int
    body: dict[str, Any]
    at_ms: int
    offset_min: int
    zone: str
    author: str
    job: str
    day: str
    strikes: tuple[str, ...] = ()
    reason: str = ""
    needs: tuple[str, ...] = ()


def chain_hash(previous: bytes, raw: bytes) -> bytes:
    """Hash of an entry: SHA-256 over the hash before it and its own bytes."""
    return hashlib.sha256(previous + raw).digest()


def make_row(draft: Draft, stream: str, seq: int, lc: int, previous: bytes) -> Row:
    """Give a draft its place in a stream, its bytes and its hash.

    Raises
    ------
    NotStorableError
        If the body holds a float or something JSON has no form for.
    """
    _require_whole(draft.body, draft.kind, "body")
    needs = {"needs": draft.needs} if draft.needs else {}  # one entry has one spelling
    values = (
        *(draft.id, stream, seq, lc, draft.kind, draft.v),
        *(draft.at_ms, draft.offset_min, draft.zone, draft.author),
        *(draft.job, draft.day, draft.strikes, draft.reason),
    )
    envelope = dict(zip(FIELDS, values, strict=True))
    raw = canonical_bytes({**needs, **envelope, "body": draft.body})
    return Row(*values, raw, chain_hash(previous, raw))


def is_same_entry(draft: Draft, row: Row) -> bool:
    """Whether a stored row is this draft, wherever in its stream it came to stand."""
    return make_row(draft, row.stream, row.seq, row.lc, GENESIS).raw == row.raw


def to_columns(row: Row) -> tuple[Any, ...]:
    """Return the values of a row in the order of the table's columns."""
    strikes = json.dumps(row.strikes, separators=(",", ":")) if row.strikes else "[]"
    return (*row[:12], strikes, *row[13:])


def from_columns(values: Sequence[Any]) -> Row:
    """Make a row of the values of the table's columns, as far as a damaged file allows.

    One flipped bit can make a text of bytes or spoil a list; the entries around it are
    still to be read, and the check of the whole book names the one that is wrong.
    """
    raw, digest = values[14], values[15]
    if type(raw) is not bytes or type(digest) is not bytes:
        raw, digest = _as_bytes(raw), _as_bytes(digest)
    strikes = () if values[12] == "[]" else _read_strikes(values[12])
    return Row._make((*values[:12], strikes, values[13], raw, digest))


def _as_bytes(value: object) -> bytes:
    return value if isinstance(value, bytes) else str(value).encode()


def _read_strikes(value: Any) -> tuple[str, ...]:
    try:
        return tuple(json.loads(value))
    except (ValueError, TypeError):
        return (str(value),)


def from_raw(raw: bytes, digest: bytes) -> Row:
    """Make a row from its bytes alone, the columns being projections of them.

    Raises
    ------
    ValueError
        If the bytes are not the canonical bytes of an entry.
    """
    fields = json.loads(raw.decode())
    is_entry = isinstance(fields, dict) and KEYS <= fields.keys() <= WITH_NEEDS
    if not is_entry or canonical_bytes(fields) != raw:
        raise ValueError("the bytes are not those of an entry")
    fields["strikes"] = tuple(fields["strikes"])
    return Row._make((*(fields[name] for name in FIELDS), raw, digest))


def entry_of(row: Row) -> AnyEntry:
    """Read a row as an entry, whatever its bytes hold; its place is taken from the columns."""
    entry = read_stored_entry(row.raw)
    if entry.unfit != "not_json":
        return entry
    told = {name: getattr(row, name) for name in ("id", "stream", "seq", "lc", "kind", "day")}
    within = within_bounds(told)
    return entry._replace(**{name: within[name] for name in told if within[name]})


def _require_whole(value: object, kind: str, place: str) -> None:
    if isinstance(value, _PLAIN):
        return
    if isinstance(value, dict):
        for key, inner in value.items():
            _require_whole(inner, kind, f"{place}.{key}")
    elif isinstance(value, list | tuple):
        for number, inner in enumerate(value):
            _require_whole(inner, kind, f"{place}[{number}]")
    else:
        raise NotStorableError(kind=kind, place=place, found=repr(value))
