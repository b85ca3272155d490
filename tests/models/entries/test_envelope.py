"""The envelope: exact bytes, reading them back, and what can't be read."""

from __future__ import annotations

import json
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.bodies.day import Note
from models.entries.body import Body
from models.entries.envelope import (
    AnyEntry,
    EntryRefusedError,
    EntryUnreadableError,
    body_fields,
    build_body,
    canonical_bytes,
    read_entry,
)
from tests.models.checks.any_job import jobs

NOTE: dict[str, Any] = {
    "at_ms": 1778500000000,
    "author": "Дмитро",
    "body": {"needs_owner": False, "text": "gate \u201clocked\u201d"},
    "day": "2026-05-11",
    "id": "0196b000-0000-7000-8000-000000000001",
    "job": "demo",
    "kind": "note",
    "lc": 7,
    "offset_min": -300,
    "reason": "",
    "seq": 3,
    "stream": "tablet-a",
    "strikes": [],
    "v": 1,
    "zone": "America/Chicago",
}
RAW = (
    '{"at_ms":1778500000000,"author":"Дмитро","body":{"needs_owner":false,"text":"gate “locked”"},'
    '"day":"2026-05-11","id":"0196b000-0000-7000-8000-000000000001","job":"demo","kind":"note",'
    '"lc":7,"offset_min":-300,"reason":"","seq":3,"stream":"tablet-a","strikes":[],"v":1,'
    '"zone":"America/Chicago"}'
).encode()
"""The bytes of NOTE, written by hand from the rule: sorted keys, no spaces, UTF-8."""

plain = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(st.characters(exclude_categories=["Cs"])),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(
            st.text(st.characters(exclude_categories=["Cs"]), max_size=4), inner, max_size=3
        )
    ),
    max_leaves=10,
)


def test_canonical_bytes_are_exact() -> None:
    """The bytes that are hashed are written in one way alone."""
    assert canonical_bytes(NOTE) == RAW
    assert canonical_bytes(dict(reversed(NOTE.items()))) == RAW


@given(value=plain)
def test_canonical_bytes_come_back_and_stay(value: object) -> None:
    """Reading the bytes and writing them again changes nothing."""
    raw = canonical_bytes(value)

    assert json.loads(raw) == value
    assert canonical_bytes(json.loads(raw)) == raw


@pytest.mark.parametrize("value", [float("nan"), float("inf")])
def test_canonical_bytes_refuse_what_json_has_no_form_for(value: float) -> None:
    """No figure that other readers would refuse gets into the record."""
    with pytest.raises(ValueError, match="not JSON compliant"):
        canonical_bytes(value)


def test_entry_is_read_field_by_field() -> None:
    """Every column of an entry is what its bytes say, and the bytes are kept."""
    entry = read_entry(RAW)

    assert entry.body == Note(text="gate “locked”", needs_owner=False)
    plain_fields = {name: getattr(entry, name) for name in NOTE if name not in {"body", "strikes"}}
    assert plain_fields == {k: v for k, v in NOTE.items() if k not in {"body", "strikes"}}
    assert (entry.strikes, entry.raw) == ((), RAW)


@given(entries=jobs(6))
def test_body_written_and_read_is_the_same(entries: list[AnyEntry]) -> None:
    """The fields of a body, stored and read again, make an equal body and equal bytes."""
    for entry in entries:
        assert entry.body is not None
        again = build_body(entry.kind, json.loads(canonical_bytes(body_fields(entry.body))))
        assert again == entry.body
        assert canonical_bytes(body_fields(again)) == canonical_bytes(json.loads(entry.raw)["body"])


def test_field_that_came_later_is_stored_only_where_it_says_something() -> None:
    """A setup without an instrument has the bytes that it had before there were any."""
    setup = {"setup_id": "L1", "on_point": "BM1"}
    without = body_fields(build_body("setup", setup))
    named = body_fields(build_body("setup", {**setup, "instrument_id": "laser 1"}))

    assert "instrument_id" not in without
    assert named == {**without, "instrument_id": "laser 1"}
    assert build_body("setup", without) == build_body("setup", setup)


@pytest.mark.parametrize(("kind", "version"), [("hologram", 1), ("note", 2), ("note", 99)])
def test_entry_of_a_newer_version_is_kept_without_a_body(kind: str, version: int) -> None:
    """What a newer version wrote is not understood and not lost."""
    raw = canonical_bytes({**NOTE, "kind": kind, "v": version, "body": {"beam": 1}})

    entry = read_entry(raw)

    assert (entry.body, entry.kind, entry.v, entry.raw) == (None, kind, version, raw)


@pytest.mark.parametrize(
    ("raw", "says"),
    [
        (b"", "without a readable id"),
        (b"\xff\xfe", "without a readable id"),
        (b"[1, 2]", "without a readable id"),
        (b'{"id": "x"}', "entry x: it has no field 'stream'"),
        (canonical_bytes({**NOTE, "body": {"text": ""}}), "text String should have at least 1"),
        (canonical_bytes({**NOTE, "strikes": 7}), "not iterable"),
    ],
)
def test_bytes_that_are_no_entry_are_told_by_their_id(raw: bytes, says: str) -> None:
    """A row that can't be read is named, with the reason, and is left as it is."""
    with pytest.raises(EntryUnreadableError, match=says) as caught:
        read_entry(raw)

    assert "The entry is kept as it is" in str(caught.value)


def test_refused_body_names_field_reason_and_what_would_do() -> None:
    """A body that doesn't fit is told by its field, in words."""
    with pytest.raises(EntryRefusedError) as caught:
        build_body("probe", {"pass_id": "A", "line_id": "S01", "along_nm": 0, "depth_nm": -1})

    facts = caught.value.context
    assert (facts["kind"], facts["field"]) == ("probe", "depth_nm")
    assert str(caught.value).startswith("Nothing was written: depth_nm of this probe was refused")


@pytest.mark.parametrize(
    ("kind", "fields", "named"),
    [
        ("note", {"text": "x", "colour": "red"}, "colour"),
        (
            "sieve_test",
            {
                "material_id": "sand",
                "weights": [
                    {"opening_um": 500, "retained_mg": 1},
                    {"opening_um": 0, "retained_mg": 1, "dust": True},
                ],
            },
            "weights.1.dust",
        ),
    ],
)
def test_unknown_name_is_read_and_not_written(
    kind: str, fields: dict[str, Any], named: str
) -> None:
    """A misspelt field is not lost in silence; what a newer version wrote is read without it."""
    with pytest.raises(EntryRefusedError, match=f"{named} of this .* is no field of it"):
        build_body(kind, fields)

    assert read_entry(canonical_bytes({**NOTE, "kind": kind, "body": fields})).body is not None


@pytest.mark.parametrize("kind", ["probe", "note", "sand_placed"])
def test_body_is_a_body(kind: str) -> None:
    """Known kinds are built by their own models."""
    fields: dict[str, dict[str, Any]] = {
        "probe": {"pass_id": "A", "line_id": "S01", "along_nm": 0, "depth_nm": 1},
        "note": {"text": "x"},
        "sand_placed": {"surface_id": "G", "material_id": "s", "mass_ug": 1},
    }
    body = build_body(kind, fields[kind])

    assert isinstance(body, Body)
    assert body.kind == kind
