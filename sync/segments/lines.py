"""Lines to rows: each must be the canonical form of an entry that may stand in its place."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Sequence
from operator import itemgetter
from typing import Any

from pydantic_core import from_json, to_json

from models.book.row import FIELDS, KEYS, WITH_NEEDS, Row
from models.entries.bounds import body_fault, envelope_fault, needs_fault, types_fault
from models.entries.envelope import canonical_bytes
from models.units.times import is_day, is_time
from sync.segments.errors import SegmentEntryError
from sync.segments.header import Header
from sync.segments.limits import DEPTH, HIGHEST_LC

_columns = itemgetter(*FIELDS)
_ORDER = sorted(KEYS)


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
    if type(fields) is not dict or not KEYS <= fields.keys() <= WITH_NEEDS:
        raise _Refused("it lacks a key of an entry, or has one too many")
    # Nearly always the quick writer gives the same bytes; when not, the sorting one decides.
    is_same = (
        list(fields) == _ORDER
        and type(fields["body"]) is dict
        and _is_sorted(fields["body"])
        and to_json(fields, inf_nan_mode="constants") == line
    )
    if not is_same and canonical_bytes(fields) != line:
        raise _Refused("it is not in the one form that an entry is written in")
    _require_bounds(fields)
    return fields


def _is_sorted(value: Any) -> bool:
    """Whether the keys of every group in here stand in the order they are stored in."""
    kind = type(value)
    if kind is dict:
        keys = list(value)
        return keys == sorted(keys) and all(map(_is_sorted, value.values()))
    return kind is not list or all(map(_is_sorted, value))


def _require_bounds(fields: dict[str, Any]) -> None:
    """Refuse what no reader of this format takes; the body's own kind is not looked at."""
    if wrong := types_fault(fields):
        raise _Refused(f"its {wrong} can't be read as what it should be")
    if wrong := envelope_fault(fields):
        raise _Refused(f"{wrong} is longer or larger than an entry may hold")
    if not is_day(fields["day"]):
        raise _Refused("its day is none between 1970 and 2199")
    if not is_time(fields["at_ms"], fields["offset_min"]):
        raise _Refused("its time is none between 1970 and 2199")
    if "needs" in fields and needs_fault(fields["needs"]):
        raise _Refused("what it needs is no list of words in their order")
    if wrong := body_fault(fields["body"]):
        raise _Refused(wrong)


def line_fault(raw: bytes) -> str:
    """Say why the bytes of an entry could not travel; "" if they can."""
    try:
        _read_fields(raw)
    except (ValueError, RecursionError) as fault:
        return _why(fault)
    return ""


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
