"""Header line of a segment: its contents, chained to what was before, and signed."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from typing import Any

from models.entries.envelope import canonical_bytes
from sync.segments.errors import SegmentHeaderError, SegmentTooNewError
from sync.segments.version import FORMAT, VERSION

_DOMAIN = b"crewapp-segment\n"

_TEXTS = {
    "job": re.compile(r"[a-z0-9][a-z0-9-]{0,56}"),
    "stream": re.compile(r"[0-9a-f]{32}"),
    "key": re.compile(r"[0-9a-f]{64}"),
    "prev": re.compile(r"[0-9a-f]{64}"),
    "head": re.compile(r"[0-9a-f]{64}"),
    "sig": re.compile(r"[0-9a-f]{128}"),
}
_NUMBERS = ("first", "last", "n")
_KEYS = frozenset((*_TEXTS, *_NUMBERS, "format", "version"))


@dataclass(frozen=True, slots=True, kw_only=True)
class Header:
    """Header of a segment, field by field."""

    job: str
    stream: str
    key: bytes
    first: int
    last: int
    prev: bytes
    head: bytes
    signature: bytes = b""

    def signed_bytes(self) -> bytes:
        """Return the bytes that the signature is over."""
        return _DOMAIN + canonical_bytes(self._fields())

    def line(self) -> bytes:
        """Return the header line, without the byte that ends it."""
        return canonical_bytes({**self._fields(), "sig": self.signature.hex()})

    def _fields(self) -> dict[str, Any]:
        return {
            "format": FORMAT,
            "version": VERSION,
            "job": self.job,
            "stream": self.stream,
            "key": self.key.hex(),
            "first": self.first,
            "last": self.last,
            "n": self.last - self.first + 1,
            "prev": self.prev.hex(),
            "head": self.head.hex(),
        }


def read_header(line: bytes, name: str) -> Header:
    """Read a header line out of the segment of this name.

    Raises
    ------
    SegmentTooNewError
        If it is of a form that this version does not know; nothing more of it is read.
    SegmentHeaderError
        If it has no form at all.
    """
    fields = _read_object(line, name)
    if fields.get("format") != FORMAT or type(fields.get("version")) is not int:
        raise SegmentHeaderError(name=name, why="is not that of a segment")
    if fields["version"] != VERSION:
        raise SegmentTooNewError(name=name, version=fields["version"], known=VERSION)
    if fields.keys() != _KEYS or canonical_bytes(fields) != line:
        raise SegmentHeaderError(name=name, why="lacks a key, has one too many, or is rewritten")
    wrong = [key for key in _NUMBERS if type(fields[key]) is not int]
    wrong += [key for key, form in _TEXTS.items() if not _fits(form, fields[key])]
    if wrong:
        raise SegmentHeaderError(name=name, why=f"has another form at {', '.join(wrong)}")
    if fields["n"] != fields["last"] - fields["first"] + 1:
        raise SegmentHeaderError(name=name, why="counts other entries than it numbers")
    return Header(
        job=fields["job"],
        stream=fields["stream"],
        key=bytes.fromhex(fields["key"]),
        first=fields["first"],
        last=fields["last"],
        prev=bytes.fromhex(fields["prev"]),
        head=bytes.fromhex(fields["head"]),
        signature=bytes.fromhex(fields["sig"]),
    )


def _read_object(line: bytes, name: str) -> dict[str, Any]:
    try:
        fields = json.loads(line.decode())
        canonical_bytes(fields)  # refuses what has no canonical form, such as half a character
    except (ValueError, RecursionError) as fault:
        raise SegmentHeaderError(name=name, why="can't be read") from fault
    if not isinstance(fields, dict):
        raise SegmentHeaderError(name=name, why="is not that of a segment")
    return fields


def _fits(form: re.Pattern[str], value: object) -> bool:
    return isinstance(value, str) and form.fullmatch(value) is not None
