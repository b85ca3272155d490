"""A row, an entry and a draft have the same envelope, key by key."""

from __future__ import annotations

from dataclasses import fields

from models.book.row import FIELDS, KEYS, WITH_NEEDS, Draft, Row
from models.entries.bounds import ORDER
from models.entries.envelope import Entry


def test_row_and_entry_begin_with_the_envelope_in_one_order() -> None:
    """What a row and an entry say of the envelope stands at the same places in both."""
    assert Entry._fields[: len(FIELDS)] == FIELDS
    assert (*FIELDS, "body") == ORDER


def test_both_hold_the_envelope_with_the_same_types() -> None:
    """A field of the envelope has one type, whether it is read off a row or an entry."""
    types = Row.__annotations__
    assert {name: Entry.__annotations__[name] for name in FIELDS} == {
        name: types[name] for name in FIELDS
    }


def test_a_draft_lacks_only_its_place_in_the_stream() -> None:
    """The book gives a draft its stream and its two numbers; all else is the author's."""
    given = {field.name for field in fields(Draft)}
    assert given == WITH_NEEDS - {"stream", "seq", "lc"}
    assert {*FIELDS, "body"} == KEYS
