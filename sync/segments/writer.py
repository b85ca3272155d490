"""Rows to segments: packed, signed and named."""

from __future__ import annotations

import hashlib
import zlib
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from models.book.row import Row
from sync.segments.errors import EntryTooLongError
from sync.segments.file_name import SegmentName
from sync.segments.header import Header
from sync.segments.limits import LINE_BYTES, WRITTEN_BYTES, WRITTEN_ENTRIES

_LEVEL = 6


class SegmentSigner(Protocol):
    """Protocol of a signer for one stream; ``sync.trust.keys.Signer`` is one."""

    stream: str
    public: bytes

    def sign(self, data: bytes) -> bytes:
        """Return the signature over some bytes."""


@dataclass(frozen=True, slots=True)
class SealedSegment:
    """A finished segment: its name and its bytes."""

    name: SegmentName
    data: bytes


def seal_rows(rows: Sequence[Row], prev: bytes, job: str, signer: SegmentSigner) -> SealedSegment:
    """Make one segment of consecutive rows of the signer's stream.

    ``prev`` is the hash of the row before the first, or 32 zero bytes.

    Raises
    ------
    EntryTooLongError
        If a row is longer than one may be.
    """
    for row in rows:
        if len(row.raw) > LINE_BYTES:
            raise EntryTooLongError(seq=row.seq, size=len(row.raw), limit=LINE_BYTES)
    header = Header(
        job=job,
        stream=signer.stream,
        key=signer.public,
        first=rows[0].seq,
        last=rows[-1].seq,
        prev=prev,
        head=rows[-1].hash,
    )
    header = replace(header, signature=signer.sign(header.signed_bytes()))
    return pack(
        header.line(), [row.raw for row in rows], (header.stream, header.first, header.last)
    )


def pack(header_line: bytes, lines: Sequence[bytes], span: tuple[str, int, int]) -> SealedSegment:
    """Pack a header line and raw lines under the name that their bytes give them."""
    data = zlib.compress(b"\n".join((header_line, *lines, b"")), _LEVEL)
    return SealedSegment(SegmentName(*span, hashlib.sha256(data).hexdigest()), data)


def split_rows(rows: Iterable[Row]) -> Iterator[list[Row]]:
    """Divide consecutive rows into portions that each make one segment."""
    portion: list[Row] = []
    size = 0
    for row in rows:
        if portion and (len(portion) >= WRITTEN_ENTRIES or size + len(row.raw) > WRITTEN_BYTES):
            yield portion
            portion, size = [], 0
        portion.append(row)
        size += len(row.raw)
    if portion:
        yield portion
