"""Whatever the bytes of a kept entry are, reading them gives an entry that says what is wrong."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.book.row import Row, entry_of
from models.entries.bounds import Unfit
from models.entries.envelope import canonical_bytes, read_stored_entry
from models.units.times import is_day, is_time

NOTE: dict[str, Any] = {
    "id": "e1",
    "stream": "ab" * 16,
    "seq": 3,
    "lc": 7,
    "kind": "note",
    "v": 1,
    "at_ms": 1_778_500_800_000,
    "offset_min": -300,
    "zone": "America/Chicago",
    "author": "foreman",
    "job": "small",
    "day": "2026-05-11",
    "strikes": [],
    "reason": "",
    "body": {"text": "wet corner", "needs_owner": False},
}
CHANGED: list[tuple[dict[str, Any], Unfit]] = [
    ({}, ""),
    ({"body": {"text": 7}}, "body"),
    ({"body": {}}, "body"),
    ({"v": 0}, "body"),
    ({"v": -(2**63)}, "body"),
    ({"v": 2**63 - 1}, "newer"),
    ({"kind": "hologram"}, "newer"),
    ({"needs": ["note.colour"]}, "needs"),
    ({"needs": []}, ""),
    ({"at_ms": 253_402_300_799_999, "offset_min": 60}, "time"),
    ({"at_ms": -1}, "time"),
    ({"offset_min": 1_081}, "time"),
    ({"day": "9999-12-31"}, "time"),
    ({"day": "tomorrow"}, "time"),
    ({"at_ms": 2**70}, "bounds"),
    ({"author": "x" * 81}, "bounds"),
    ({"strikes": ["x" * 65]}, "bounds"),
    ({"id": ""}, "bounds"),
    ({"at_ms": "noon"}, "not_json"),
    ({"seq": True}, "not_json"),
    ({"strikes": "e0"}, "not_json"),
    ({"body": []}, "not_json"),
]


@pytest.mark.parametrize(("changed", "unfit"), CHANGED)
def test_what_is_wrong_is_told_by_a_code(changed: dict[str, Any], unfit: Unfit) -> None:
    """The body is there only where nothing is wrong; the bytes stay; the time can be shown."""
    raw = canonical_bytes(NOTE | changed)
    entry = read_stored_entry(raw)

    assert (entry.unfit, entry.raw) == (unfit, raw)
    assert (entry.body is None) == bool(unfit)
    assert is_time(entry.at_ms, entry.offset_min)
    assert is_day(entry.day)


@pytest.mark.parametrize("key", NOTE)
def test_key_that_is_missing_is_no_entry(key: str) -> None:
    """Without one key of the envelope it can't be told what was written, where and when."""
    entry = read_stored_entry(canonical_bytes({k: v for k, v in NOTE.items() if k != key}))

    assert entry.unfit == "not_json"
    assert entry.id


@pytest.mark.parametrize(
    "raw", [b"", b"\xff", b"[1]", b"null", b"[" * 100_000, b'{"id":"\\ud800"}']
)
def test_bytes_of_no_entry_are_told_by_their_row(raw: bytes) -> None:
    """Where it stands is then what the book's columns say, as far as that can be."""
    row = Row(**{k: v for k, v in NOTE.items() if k not in ("body", "strikes")}, strikes=(),
              raw=raw, hash=bytes(32))  # fmt: skip
    entry = entry_of(row)

    assert (entry.unfit, entry.raw) == ("not_json", raw)
    assert (entry.id, entry.stream, entry.seq, entry.day) == ("e1", "ab" * 16, 3, "2026-05-11")


@given(raw=st.binary(max_size=64))
def test_any_bytes_are_read(raw: bytes) -> None:
    """Nothing is raised, and the entry can stand among others."""
    entry = read_stored_entry(raw)

    assert entry.unfit == "not_json"
    assert entry.id.startswith("unreadable-")


VALUES: st.SearchStrategy[object] = st.one_of(
    st.sampled_from([None, True, False, [], {}, [[]], {"x": 1}]),
    st.integers(),
    st.text(max_size=3),
    st.lists(st.integers() | st.text(max_size=2), max_size=2),
)


@given(key=st.sampled_from(sorted(NOTE)), value=VALUES)
def test_any_value_in_any_place_is_read(key: str, value: object) -> None:
    """What comes out can be put in order and shown, whatever stands in one place."""
    entry = read_stored_entry(canonical_bytes(NOTE | {key: value}))

    assert type(entry.id) is type(entry.stream) is type(entry.day) is type(entry.kind) is str
    assert type(entry.seq) is type(entry.lc) is int
    assert all(type(id) is str for id in entry.strikes)
    assert is_time(entry.at_ms, entry.offset_min)
    assert entry.written_at()


def test_reading_a_good_entry_gives_what_its_bytes_say() -> None:
    """Every column is the one of the bytes."""
    entry = read_stored_entry(canonical_bytes(NOTE))
    told = {key: getattr(entry, key) for key in NOTE if key not in ("body", "strikes")}

    assert told == {key: NOTE[key] for key in told}
    assert json.loads(entry.raw)["body"]["text"] == getattr(entry.body, "text", "")
