"""Lines to rows: each must be the canonical form of an entry that may stand in its place."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence
from datetime import date
from functools import lru_cache
from operator import itemgetter
from typing import Any

from pydantic_core import from_json, to_json

from models.book.row import FIELDS, KEYS, Row
from models.entries.envelope import canonical_bytes, read_body
from sync.segments.errors import SegmentEntryError
from sync.segments.header import Header
from sync.segments.limits import DEPTH, HIGHEST_LC

_PLAIN: dict[str, type] = {
    **dict.fromkeys(("id", "stream", "kind", "zone", "author", "job", "day", "reason"), str),
    **dict.fromkeys(("seq", "lc", "v", "at_ms", "offset_min"), int),
    "body": dict,
}
_PLAIN_TYPES = tuple(_PLAIN.values())
_plain = itemgetter(*_PLAIN)
_columns = itemgetter(*FIELDS)
_ORDER = sorted(KEYS)
_WIDEST = 2**63
_END_OF_TIME_MS = 253_402_300_800_000  # the year 10000, past which no calendar here goes
_DAY_MIN = 24 * 60
_LONGEST_ID = 64
_MOST_STRIKES = 1000


class _Refused(ValueError):  # noqa: N818 -- no error to show: it becomes a SegmentEntryError
    """A line can't stand; the text says why."""


def rows_of_lines(lines: Sequence[bytes], header: Header, name: str) -> list[Row]:
    """Read the lines of a segment whose chain holds.

    Raises
    ------
    SegmentEntryError
        If a line is not an entry that may stand there.
    """
    rows: list[Row] = []
    running, lc = header.prev, 0
    sha256, read = hashlib.sha256, _read_fields
    for seq, line in enumerate(lines, start=header.first):
        running = sha256(running + line).digest()
        try:
            fields = read(line)
            if fields["stream"] != header.stream or fields["seq"] != seq:
                raise _Refused("it belongs to another place")
            if not lc < fields["lc"] <= HIGHEST_LC:
                raise _Refused("its counter does not grow as it should")
        except (ValueError, RecursionError) as fault:
            raise SegmentEntryError(
                name=name, line=seq - header.first + 2, why=_why(fault)
            ) from fault
        lc = fields["lc"]
        fields["strikes"] = tuple(fields["strikes"])
        rows.append(Row._make((*_columns(fields), line, running)))
    return rows


def _read_fields(line: bytes) -> dict[str, Any]:
    # Counting brackets first is cheap, and text that holds some is then looked at closely.
    if line.count(b"{") + line.count(b"[") > DEPTH and _depth(line) > DEPTH:
        raise _Refused(f"it is nested deeper than {DEPTH}")
    fields = from_json(line)
    if type(fields) is not dict or fields.keys() != KEYS:
        raise _Refused("it lacks a key of an entry, or has one too many")
    # Nearly always the quick writer gives the same bytes; when not, the sorting one decides.
    is_same = (
        list(fields) == _ORDER
        and _is_sorted(fields["body"])
        and to_json(fields, inf_nan_mode="constants") == line
    )
    if not is_same and canonical_bytes(fields) != line:
        raise _Refused("it is not in the one form that an entry is written in")
    _require_types(fields)
    _require_whole(fields["body"])
    return fields


def _is_sorted(value: Any) -> bool:
    """Whether the keys of every group in here stand in the order they are stored in."""
    kind = type(value)
    if kind is dict:
        keys = list(value)
        return keys == sorted(keys) and all(map(_is_sorted, value.values()))
    return kind is not list or all(map(_is_sorted, value))


def _require_types(fields: dict[str, Any]) -> None:
    _require_plain(fields)
    _require_strikes(fields["strikes"])
    if not 0 < len(fields["id"]) <= _LONGEST_ID or not _is_day(fields["day"]):
        raise _Refused("its id or day has another form")
    if not 0 <= fields["at_ms"] < _END_OF_TIME_MS or abs(fields["offset_min"]) > _DAY_MIN:
        raise _Refused("its time is none")
    _require_body(fields)


def _require_plain(fields: dict[str, Any]) -> None:
    if tuple(map(type, _plain(fields))) != _PLAIN_TYPES:  # by type: True would count as 1
        wrong = [key for key, type_ in _PLAIN.items() if type(fields[key]) is not type_]
        raise _Refused(f"its {' and '.join(wrong)} can't be read as what they should be")
    if not -_WIDEST <= fields["v"] < _WIDEST:
        raise _Refused("its v is no whole number of up to 64 bits")


def _require_strikes(strikes: Any) -> None:
    if type(strikes) is not list or len(strikes) > _MOST_STRIKES:
        raise _Refused("its strikes are no list")
    if strikes and not all(type(id) is str and len(id) <= _LONGEST_ID for id in strikes):
        raise _Refused("its strikes are no ids")


def _require_body(fields: dict[str, Any]) -> None:
    """Refuse what would keep the book from being read; kinds not known here pass."""
    try:
        read_body(fields["kind"], fields["v"], fields["body"])
    except (ValueError, KeyError, TypeError) as fault:
        raise _Refused(f"its body does not fit the kind {fields['kind'][:40]!r}") from fault


def _require_whole(group: Any) -> None:
    for value in group.values() if type(group) is dict else group:
        kind = type(value)
        if kind is float:
            raise _Refused(f"it holds {value}, which is no whole number")
        if kind is dict or kind is list:
            _require_whole(value)


@lru_cache(maxsize=1024)
def _is_day(text: str) -> bool:
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def _depth(line: bytes) -> int:
    """How deep a line is nested, brackets within texts left out."""
    deepest = depth = 0
    for part in _OUTSIDE_TEXT.sub(b"", line):
        if part in b"{[":
            depth += 1
            deepest = max(deepest, depth)
        elif part in b"}]":
            depth -= 1
    return deepest


_OUTSIDE_TEXT = re.compile(rb'"(?:[^"\\]|\\.)*"')


def _why(fault: BaseException) -> str:
    return str(fault) if isinstance(fault, _Refused) else "it can't be read"
