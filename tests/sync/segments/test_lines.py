"""Lines that are rightly signed, by a tablet of the crew, and still can't be let into a book."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from models.entries.envelope import canonical_bytes
from sync.segments.errors import SegmentEntryError
from tests.sync.segments.test_segment import SIGNER, opened, repacked, three

Fields = dict[str, Any]


def with_fields(change: Callable[[Fields], object]) -> bytes:
    """Return the second of three lines with some fields changed."""
    fields = json.loads(three()[1].raw)
    change(fields)
    return canonical_bytes(fields)


CHANGES: dict[str, Callable[[Fields], object]] = {
    "a key too many": lambda f: f.update(extra=1),
    "a key short": lambda f: f.pop("zone"),
    "another stream": lambda f: f.update(stream="0" * 32),
    "another number": lambda f: f.update(seq=7),
    "a number that is a truth": lambda f: f.update(seq=True),
    "a counter that stands": lambda f: f.update(lc=1),
    "a counter out of reach": lambda f: f.update(lc=2**40 + 1),
    "a counter that is text": lambda f: f.update(lc="2"),
    "a time too wide": lambda f: f.update(at_ms=2**63),
    "a time past all calendars": lambda f: f.update(at_ms=2**60),
    "a time before all": lambda f: f.update(at_ms=-1),
    "a time past 2199": lambda f: f.update(at_ms=7_258_118_400_000, offset_min=0),
    "a time of 9999": lambda f: f.update(at_ms=253_402_300_799_999, offset_min=60),
    "a time that is past 2199 on the wall": lambda f: f.update(
        at_ms=7_258_118_399_999, offset_min=1
    ),
    "a time that is before 1970 on the wall": lambda f: f.update(at_ms=0, offset_min=-1),
    "an offset of a week": lambda f: f.update(offset_min=10_080),
    "an offset of more than 18 hours": lambda f: f.update(offset_min=1_081),
    "a version that is text": lambda f: f.update(v="1"),
    "a kind that is none": lambda f: f.update(kind=None),
    "an id that is empty": lambda f: f.update(id=""),
    "an id that is long": lambda f: f.update(id="x" * 65),
    "a day that is none": lambda f: f.update(day="2026-13-40"),
    "a day past 2199": lambda f: f.update(day="2200-01-01"),
    "a day before 1970": lambda f: f.update(day="1969-12-31"),
    "a day of 9999": lambda f: f.update(day="9999-12-31"),
    "a long author": lambda f: f.update(author="x" * 81),
    "a long zone": lambda f: f.update(zone="x" * 65),
    "a long reason": lambda f: f.update(reason="x" * 20_001),
    "a long text in a body": lambda f: f.update(body={"text": "x" * 20_001}),
    "a long list in a body": lambda f: f.update(kind="new", body={"x": [0] * 50_001}),
    "a wide number in a body": lambda f: f.update(kind="new", body={"x": [{"y": 2**63}]}),
    "needs that are empty": lambda f: f.update(needs=[]),
    "needs that are text": lambda f: f.update(needs="x"),
    "needs out of order": lambda f: f.update(needs=["y", "x"]),
    "too many needs": lambda f: f.update(needs=[f"{n:02d}" for n in range(17)]),
    "a day written otherwise": lambda f: f.update(day="20260528"),
    "strikes that are text": lambda f: f.update(strikes="x"),
    "strikes that are numbers": lambda f: f.update(strikes=[1]),
    "too many strikes": lambda f: f.update(strikes=["x"] * 1001),
    "a body that is a list": lambda f: f.update(body=[]),
    "a body with a fraction": lambda f: f.update(body={"text": "x", "x": 0.5}),
    "a fraction where a whole is": lambda f: f.update(kind="new", body={"x": 1.5}),
    "nesting": lambda f: f.update(kind="new", body=_nested(20)),
}


def _nested(depth: int) -> Fields:
    body: Fields = {}
    for _ in range(depth):
        body = {"x": body}
    return body


RAW: dict[str, bytes] = {
    "empty": b"",
    "not JSON": b"{",
    "a list": b"[]",
    "another order": b'{"zone":"UTC"}',
    "spaces": three()[1].raw.replace(b":", b": ", 1),
    "an escape where none is needed": three()[1].raw.replace(b"so far", b"\\u0073o far"),
    "half a character": three()[1].raw.replace(b"so far", b"\\ud800"),
    "not UTF-8": three()[1].raw.replace(b"so far", b"\xff\xfe"),
    "no number": three()[1].raw.replace(b"-300", b"NaN"),
    "a number without end": three()[1].raw.replace(b"-300", b"1e400"),
    "very deep": b"[" * 100_000,
    "one key twice": three()[1].raw.replace(b'{"at_ms"', b'{"at_ms":1,"at_ms"'),
}


def refused(line: bytes) -> str:
    """Put a line between two others and return the sentence by which it is refused."""
    first, _, last = three()
    with pytest.raises(SegmentEntryError) as fault:
        opened(repacked([first.raw, line, last.raw]))
    return str(fault.value)


@pytest.mark.parametrize("what", CHANGES)
def test_field_that_can_not_stand(what: str) -> None:
    """A field is refused that would spoil the book, or keep it from being read."""
    assert "line 3" in refused(with_fields(CHANGES[what]))


@pytest.mark.parametrize("what", RAW)
def test_bytes_that_are_no_entry(what: str) -> None:
    """An entry has one form, byte for byte."""
    assert "Nothing of it was taken in" in refused(RAW[what])


FITTING: dict[str, Callable[[Fields], object]] = {
    "the first instant": lambda f: f.update(at_ms=0, offset_min=0, day="1970-01-01"),
    "the last instant": lambda f: f.update(at_ms=7_258_118_399_999, offset_min=0, day="2199-12-31"),
    "the last instant west of it": lambda f: f.update(at_ms=7_258_118_399_999, offset_min=-1_080),
    "the longest texts": lambda f: f.update(
        author="x" * 80, zone="x" * 64, reason="x" * 20_000, body={"text": "x" * 20_000}
    ),
    "the longest list": lambda f: f.update(kind="new", body={"x": [0] * 50_000}),
    "the widest numbers": lambda f: f.update(kind="new", body={"x": [2**63 - 1, -(2**63)]}),
    "words that it needs": lambda f: f.update(needs=["pass.legs", "pass.turns"]),
    "a body that does not fit its kind": lambda f: f.update(body={"text": 7}),
    "a body of none of its fields": lambda f: f.update(body={}),
}


@pytest.mark.parametrize("what", FITTING)
def test_what_lies_on_the_bounds_is_taken(what: str) -> None:
    """The bounds themselves are within, and whether a body fits its kind is not looked at."""
    line = with_fields(FITTING[what])
    third = json.loads(three()[2].raw)

    assert opened(repacked([three()[0].raw, line, canonical_bytes(third)]))[1].raw == line


def test_brackets_in_a_text_are_not_nesting() -> None:
    """Somebody may well write thirty brackets."""
    line = with_fields(lambda f: f.update(body={"text": "[{" * 30, "needs_owner": False}))
    third = json.loads(three()[2].raw)

    rows = opened(repacked([three()[0].raw, line, canonical_bytes({**third, "lc": 3})]))
    assert rows[1].raw == line
    assert {row.stream for row in rows} == {SIGNER.stream}


texts = st.text(max_size=8)
values = st.recursive(
    st.none() | st.booleans() | st.integers(-(2**63), 2**63 - 1) | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=8,
)


@given(body=st.dictionaries(texts, values, max_size=4))
def test_any_body_in_its_one_form_is_read(body: Fields) -> None:
    """Whatever letters and numbers a kind of tomorrow may hold."""
    fields = {**json.loads(three()[0].raw), "kind": "new", "body": body}
    line = canonical_bytes(fields)

    assert opened(repacked([line]))[0].raw == line


@given(body=st.dictionaries(texts, values, min_size=2, max_size=4))
def test_keys_in_another_order_are_refused(body: Fields) -> None:
    """Deep inside as well."""
    fields = {**json.loads(three()[0].raw), "kind": "new", "body": {"deep": [body]}}
    keys = sorted(body, reverse=True)
    turned = {**fields, "body": {"deep": [{key: body[key] for key in keys}]}}
    line = json.dumps(dict(sorted(turned.items())), separators=(",", ":"), ensure_ascii=False)

    with pytest.raises(SegmentEntryError, match="one form"):
        opened(repacked([line.encode()]))
