"""A reader of segments made from FORMAT.md alone: it shares no line with the code it checks."""

from __future__ import annotations

import hashlib
import json
import re
import zlib
from typing import Any

from cryptography.hazmat.primitives.asymmetric.ed25519 import Ed25519PublicKey

NAME = re.compile(r"([0-9a-f]{32})-([1-9]\d{0,11})-([1-9]\d{0,11})-([0-9a-f]{64})\.seg")
HEADER = {"format", "version", "job", "stream", "key", "first", "last", "n", "prev", "head", "sig"}
ENTRY = {"at_ms", "author", "body", "day", "id", "job", "kind", "lc", "offset_min", "reason"}
ENTRY |= {"seq", "stream", "strikes", "v", "zone"}


def canonical(value: Any) -> bytes:
    """Keys sorted, no spaces, UTF-8."""
    text = json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return text.encode()


def read_plainly(name: str, data: bytes, job: str) -> list[dict[str, Any]]:
    """Return the entries of a segment after the checks 1 to 7 of part 3.4; assert each of them."""
    found = NAME.fullmatch(name)
    assert found is not None
    assert len(data) <= 4 * 1024 * 1024
    assert hashlib.sha256(data).hexdigest() == found[4]
    unpacker = zlib.decompressobj()
    lines = unpacker.decompress(data, 64 * 1024 * 1024).split(b"\n")
    assert (unpacker.eof, unpacker.unused_data, lines.pop()) == (True, b"", b"")
    header = read_header(lines[0], job)
    assert (header["stream"], header["first"], header["last"]) == (
        found[1],
        int(found[2]),
        int(found[3]),
    )
    assert len(lines) - 1 == header["n"] == header["last"] - header["first"] + 1 <= 100_000
    return read_entries(lines[1:], header)


def read_header(line: bytes, job: str) -> dict[str, Any]:
    """Return what the first line says, its signature proven."""
    header: dict[str, Any] = json.loads(line)
    assert len(line) <= 4096
    assert canonical(header) == line
    assert set(header) == HEADER
    assert (header["format"], header["version"], header["job"]) == ("crewapp-segment", 1, job)
    key = bytes.fromhex(header["key"])
    assert hashlib.sha256(b"crewapp stream\n" + key).hexdigest()[:32] == header["stream"]
    unsigned = canonical({name: header[name] for name in header if name != "sig"})
    signature = bytes.fromhex(header["sig"])
    Ed25519PublicKey.from_public_bytes(key).verify(signature, b"crewapp-segment\n" + unsigned)
    return header


def read_entries(raws: list[bytes], header: dict[str, Any]) -> list[dict[str, Any]]:
    """Return the entries, chained from what was before to what the header ends in."""
    running, lc, entries = bytes.fromhex(header["prev"]), 0, []
    for seq, raw in enumerate(raws, start=header["first"]):
        running = hashlib.sha256(running + raw).digest()
        entry = json.loads(raw)
        assert len(raw) <= 1024 * 1024
        assert canonical(entry) == raw
        assert set(entry) == ENTRY
        assert (entry["stream"], entry["seq"]) == (header["stream"], seq)
        assert lc < entry["lc"] <= 2**40
        lc = entry["lc"]
        entries.append(entry)
    assert running.hex() == header["head"]
    return entries
