"""A segment: written, read back, and refused when anything in it is not as it was written."""

from __future__ import annotations

import hashlib
import json
import tracemalloc
import zlib
from collections.abc import Callable
from dataclasses import replace
from typing import Any

import pytest

from models.book.row import GENESIS, Draft, Row, make_row
from models.entries.envelope import canonical_bytes
from sync.segments import errors
from sync.segments.file_name import SegmentName
from sync.segments.header import Header, read_header
from sync.segments.limits import PACKED_BYTES, UNPACKED_BYTES, WRITTEN_ENTRIES
from sync.segments.reader import Segment, open_segment
from sync.segments.version import VERSION
from sync.segments.writer import SealedSegment, pack, seal_rows, split_rows
from sync.trust.keys import Signer
from tests.sync.exchange.crew import draft

JOB = "green-7-00112233445566aa"
SIGNER = Signer(hashlib.sha256(b"wren").digest())


def chain_of(*drafts: Draft, signer: Signer = SIGNER) -> list[Row]:
    """Seal drafts one after the other in the stream of a signer."""
    rows: list[Row] = []
    for number, one in enumerate(drafts, start=1):
        previous = rows[-1].hash if rows else GENESIS
        rows.append(make_row(one, signer.stream, number, number, previous))
    return rows


def three() -> list[Row]:
    """Three notes in a row."""
    return chain_of(draft(), draft(), draft())


def sealed(rows: list[Row] | None = None) -> SealedSegment:
    """A segment of three notes, or of other rows."""
    return seal_rows(rows or three(), GENESIS, JOB, SIGNER)


def opened(one: SealedSegment) -> list[Row]:
    """Open a segment and read its rows."""
    return open_segment(one.name, one.data, JOB).rows()


def honest(rows: list[Row] | None = None) -> Segment:
    """A sound segment, opened."""
    one = sealed(rows)
    return open_segment(one.name, one.data)


def repacked(lines: list[bytes], **changes: Any) -> SealedSegment:
    """Make a segment of any lines, rightly signed, with a header that is changed as told."""
    running = GENESIS
    for line in lines:
        running = hashlib.sha256(running + line).digest()
    usual = {"job": JOB, "stream": SIGNER.stream, "key": SIGNER.public, "prev": GENESIS}
    header = Header(**{**usual, "first": 1, "last": len(lines), "head": running, **changes})
    header = replace(header, signature=SIGNER.sign(header.signed_bytes()))
    return pack(header.line(), lines, (header.stream, header.first, header.last))


def test_rows_come_back_as_they_were_written() -> None:
    """Every byte and every hash, under a name that is the hash of the file."""
    rows = three()
    one = sealed(rows)

    assert opened(one) == rows
    assert one.name.digest == hashlib.sha256(one.data).hexdigest()
    assert SegmentName.read(str(one.name)) == one.name


def test_anyone_can_read_it_with_zlib_and_json() -> None:
    """A header line and the raw lines, nothing else."""
    rows = three()
    header, *lines, end = zlib.decompress(sealed(rows).data).split(b"\n")

    assert json.loads(header)["version"] == VERSION
    assert lines == [row.raw for row in rows]
    assert end == b""


def test_entry_of_a_kind_not_known_is_kept() -> None:
    """It may come from a newer version: its bytes pass."""
    rows = chain_of(draft("dowsed", rods=2), replace(draft(), v=9))

    assert opened(sealed(rows)) == rows


def test_every_flipped_bit_is_found() -> None:
    """The name tells, wherever the bit was."""
    one = sealed()
    for place in range(len(one.data)):
        data = bytearray(one.data)
        data[place] ^= 1 << (place % 8)
        with pytest.raises(errors.SegmentBytesError):
            open_segment(one.name, bytes(data))


@pytest.mark.parametrize("size", [0, 1, 100, -1])
def test_cut_file_is_found(size: int) -> None:
    """Half a file under the final name is refused by its hash, and may be whole later."""
    one = sealed()

    with pytest.raises(errors.SegmentBytesError, match="read again at the next exchange"):
        open_segment(one.name, one.data[:size])


def test_altered_row_breaks_the_chain() -> None:
    """Whoever alters an entry can't give it the hash that was signed."""
    rows = three()
    header = honest(rows).header
    lines = [rows[0].raw, rows[1].raw.replace(b"so far", b"no way"), rows[2].raw]

    with pytest.raises(errors.SegmentChainError):
        opened(pack(header.line(), lines, (header.stream, 1, 3)))


@pytest.mark.parametrize(
    "changes", [{"last": 4}, {"prev": b"\1" * 32}, {"job": "other"}, {"head": b"\1" * 32}]
)
def test_rewritten_header_is_found(changes: dict[str, Any]) -> None:
    """The signature covers all of it."""
    sound = honest()
    header = replace(sound.header, **changes)

    with pytest.raises(errors.SegmentForgedError):
        opened(pack(header.line(), sound.lines, (header.stream, header.first, header.last)))


def test_foreign_key_is_found() -> None:
    """Another's signature, or another's key beside it, does not speak for a stream."""
    other = Signer(hashlib.sha256(b"other").digest())
    sound = honest()
    signed = replace(sound.header, signature=other.sign(sound.header.signed_bytes()))
    keyed = replace(sound.header, key=other.public)
    keyed = replace(keyed, signature=other.sign(keyed.signed_bytes()))

    for header in (signed, keyed):
        with pytest.raises(errors.SegmentForgedError):
            opened(pack(header.line(), sound.lines, (header.stream, 1, 3)))


def test_replay_under_another_name_is_found() -> None:
    """The name must say what the header says."""
    one = sealed()
    name = replace(one.name, first=2, last=4)

    with pytest.raises(errors.SegmentHeaderError, match="something else than its name"):
        open_segment(name, one.data)


def test_segment_of_another_job_is_found() -> None:
    """One that was taken from another folder of the same store."""
    one = sealed()
    with pytest.raises(errors.SegmentOfAnotherJobError):
        open_segment(one.name, one.data, "blue-9-0011223344556677")


def test_later_form_is_told_and_nothing_is_guessed() -> None:
    """Only its version is read, whatever else it says."""
    line = canonical_bytes({"format": "crewapp-segment", "version": 2, "new": "rules"})
    one = pack(line, [b"anything"], (SIGNER.stream, 1, 1))

    with pytest.raises(errors.SegmentTooNewError, match="Install the newer version"):
        open_segment(one.name, one.data)


@pytest.mark.parametrize("changes", [{"first": 2, "last": 4}, {"prev": b"\1" * 32}])
def test_first_entry_and_only_it_follows_nothing(changes: dict[str, Any]) -> None:
    """Zeros before a later entry would let it in anywhere."""
    with pytest.raises(errors.SegmentHeaderError, match="can't be before it"):
        opened(repacked([row.raw for row in three()], **changes))


def _bomb(size: int) -> bytes:
    packer = zlib.compressobj(9)
    parts = [packer.compress(honest().header.line() + b"\n")]
    parts += [packer.compress(bytes(1_000_000)) for _ in range(size // 1_000_000)]
    return b"".join([*parts, packer.flush()])


def test_bomb_is_refused_at_the_limit() -> None:
    """Half a gigabyte in half a megabyte: refused, with memory bounded."""
    data = _bomb(500_000_000)
    name = SegmentName(SIGNER.stream, 1, 3, hashlib.sha256(data).hexdigest())
    tracemalloc.start()
    with pytest.raises(errors.SegmentTooLargeError, match="unpacked"):
        open_segment(name, data)
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()

    assert len(data) < PACKED_BYTES
    assert most < 3 * UNPACKED_BYTES


def test_file_that_is_too_large_is_not_even_hashed() -> None:
    """The limit comes before anything else."""
    with pytest.raises(errors.SegmentTooLargeError):
        open_segment(sealed().name, bytes(PACKED_BYTES + 1))


BROKEN: dict[str, Callable[[bytes], bytes]] = {
    "not packed": lambda data: zlib.decompress(data),
    "cut": lambda data: data[:-5],
    "followed by something": lambda data: data + b"x",
    "packed otherwise": lambda data: zlib.compress(data),
    "nothing": lambda data: zlib.compress(b""),
    "no line": lambda data: zlib.compress(b"x" * 5000),
    "no end": lambda data: zlib.compress(zlib.decompress(data)[:-1]),
    "one line more": lambda data: zlib.compress(zlib.decompress(data) + b"{}\n"),
}


@pytest.mark.parametrize("how", BROKEN)
def test_broken_packing_is_told(how: str) -> None:
    """Rightly named bytes that are no segment."""
    data = BROKEN[how](sealed().data)
    name = replace(sealed().name, digest=hashlib.sha256(data).hexdigest())

    with pytest.raises((errors.SegmentPackingError, errors.SegmentHeaderError)):
        open_segment(name, data)


def test_rows_are_divided_into_portions() -> None:
    """No portion is larger than one segment should be, and none is lost."""
    rows = [three()[0]] * (WRITTEN_ENTRIES + 1)

    assert [len(part) for part in split_rows(rows)] == [WRITTEN_ENTRIES, 1]


def test_entry_that_is_too_long_is_told() -> None:
    """An entry too long for a segment is refused, and stays in the book."""
    rows = chain_of(draft("note", text="x" * 1_100_000))

    with pytest.raises(errors.EntryTooLongError, match="stays in the book"):
        sealed(rows)


@pytest.mark.parametrize(
    "line", [b"", b"[]", b"7", b'{"format":"crewapp-segment"}', b"{" * 3000, b"\xff", b'"\\ud800"']
)
def test_header_of_any_bytes_is_refused(line: bytes) -> None:
    """With a sentence, whatever it is."""
    with pytest.raises(errors.SegmentHeaderError):
        read_header(line, "x")
