"""Segments to rows: every check of FORMAT.md 3.4 that needs the segment alone."""

from __future__ import annotations

import hashlib
import zlib
from dataclasses import dataclass

from models.book.row import GENESIS, Row
from models.entries.tablet_code import code_of
from models.state.gc_pause import gc_paused
from sync.segments.errors import (
    SegmentBytesError,
    SegmentChainError,
    SegmentForgedError,
    SegmentHeaderError,
    SegmentOfAnotherJobError,
    SegmentPackingError,
    SegmentTooLargeError,
)
from sync.segments.file_name import SegmentName
from sync.segments.header import Header, read_header
from sync.segments.limits import ENTRIES, HEADER_BYTES, LINE_BYTES, PACKED_BYTES, UNPACKED_BYTES
from sync.segments.lines import rows_of_lines
from sync.trust.keys import is_signed, stream_of


@dataclass(frozen=True, slots=True)
class Segment:
    """A segment whose name, bytes, signature and chain were proved right."""

    name: SegmentName
    header: Header
    lines: tuple[bytes, ...]  # the raw bytes of its entries

    def rows(self) -> list[Row]:
        """Read every entry of the segment.

        Raises
        ------
        SegmentEntryError
            If a line is not an entry that may stand in this segment.
        """
        with gc_paused():
            return rows_of_lines(self.lines, self.header, self.name.text)


def open_segment(name: SegmentName, data: bytes, job: str | None = None) -> Segment:
    """Open a segment as it came from anywhere, and refuse it unless it is what it says.

    Nothing is known yet of whether its stream may write to the job, nor of the rows.

    Parameters
    ----------
    name : SegmentName
        The name that it came under.
    data : bytes
        Its bytes.
    job : str, optional
        The key of the job that it is to belong to; any job if left out.

    Raises
    ------
    SegmentError
        One of its kinds, each with a sentence: see FORMAT.md 3.4.
    """
    require_bytes(name, data)
    first_line, rest = _unpack(name, data)
    header = read_header(first_line, name.text)
    if (header.stream, header.first, header.last) != (name.stream, name.first, name.last):
        raise SegmentHeaderError(name=name.text, why="says something else than its name")
    _require_signature(name, header)
    if job is not None and header.job != job:
        raise SegmentOfAnotherJobError(name=name.text, met=header.job, job=job)
    return Segment(name, header, _chained(name, header, rest))


def require_bytes(name: SegmentName, data: bytes) -> None:
    """Refuse bytes that are not those the name was made of.

    Raises
    ------
    SegmentTooLargeError, SegmentBytesError
        Before anything is unpacked.
    """
    if len(data) > PACKED_BYTES:
        raise SegmentTooLargeError(name=name.text, limit=PACKED_BYTES, unit="bytes")
    if hashlib.sha256(data).hexdigest() != name.digest:
        raise SegmentBytesError(name=name.text, met=f"{len(data)} bytes with another hash")


def _unpack(name: SegmentName, data: bytes) -> tuple[bytes, bytes]:
    """Return the header line and all that follows it, never more than the limit."""
    inflater = zlib.decompressobj()
    try:
        start = inflater.decompress(data, HEADER_BYTES)
        line, found, rest = start.partition(b"\n")
        if not found:
            raise SegmentHeaderError(
                name=name.text, why=f"does not end within {HEADER_BYTES} bytes"
            )
        read_header(line, name.text)  # one of a later form may be packed in another way
        rest += inflater.decompress(inflater.unconsumed_tail, UNPACKED_BYTES - len(start))
    except zlib.error as fault:
        raise SegmentPackingError(name=name.text, why=str(fault)) from fault
    if not inflater.eof:
        if len(start) + len(rest) > UNPACKED_BYTES - HEADER_BYTES:
            raise SegmentTooLargeError(name=name.text, limit=UNPACKED_BYTES, unit="bytes unpacked")
        raise SegmentPackingError(name=name.text, why="it ends too early")
    if inflater.unused_data:
        raise SegmentPackingError(name=name.text, why="something follows its end")
    return line, rest


def _require_signature(name: SegmentName, header: Header) -> None:
    fits = stream_of(header.key) == header.stream
    if not fits or not is_signed(header.key, header.signature, header.signed_bytes()):
        raise SegmentForgedError(name=name.text, tablet=code_of(header.stream) or header.stream)
    if (header.first == 1) != (header.prev == GENESIS):
        raise SegmentHeaderError(name=name.text, why="is chained to what can't be before it")


def _chained(name: SegmentName, header: Header, rest: bytes) -> tuple[bytes, ...]:
    if name.count > ENTRIES or rest.count(b"\n") > ENTRIES:
        raise SegmentTooLargeError(name=name.text, limit=ENTRIES, unit="entries")
    if not rest.endswith(b"\n"):
        raise SegmentPackingError(name=name.text, why="its last line does not end")
    lines = tuple(rest[:-1].split(b"\n"))
    if len(lines) != name.count:
        raise SegmentHeaderError(
            name=name.text, why=f"counts other entries than the {len(lines)} here"
        )
    running = header.prev
    for line in lines:
        if len(line) > LINE_BYTES:
            raise SegmentTooLargeError(name=name.text, limit=LINE_BYTES, unit="bytes in one entry")
        running = hashlib.sha256(running + line).digest()
    if running != header.head:
        raise SegmentChainError(name=name.text)
    return lines
