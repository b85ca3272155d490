"""Where a store is, typed in fields: the text they make reads back as the same place."""

from __future__ import annotations

import pytest

from crewapp.pages.exchange.store_fields import address_of, missing_fields, store_text, typed_of
from sync.stores.address import SCHEMES, parse_store_address
from sync.stores.errors import StoreAddressError

PLACES = {
    "/media/stick": ("folder", {"path": "/media/stick"}),
    "sftp://crew@office.example:2222/srv/turf": (
        "sftp",
        {"host": "office.example:2222", "user": "crew", "path": "/srv/turf"},
    ),
    "davs://files.example/dav/turf": ("dav", {"host": "files.example", "path": "dav/turf"}),
    "s3://turf/jobs?endpoint=https://s3.example": (
        "s3",
        {"bucket": "turf", "endpoint": "s3.example", "path": "/jobs/"},
    ),
}


@pytest.mark.parametrize("text", PLACES)
def test_fields_make_the_text_of_the_place(text: str) -> None:
    """However a person writes them: with slashes or without, with https:// or without."""
    kind, typed = PLACES[text]

    assert str(address_of(kind, typed)) == text


@pytest.mark.parametrize("text", PLACES)
def test_place_that_is_set_can_be_typed_over(text: str) -> None:
    """Its fields stand there again and make the same text."""
    kind, typed = typed_of(text)

    assert str(address_of(kind, typed)) == text
    assert missing_fields(kind, typed) == []
    assert store_text(text)


def test_every_kind_of_store_can_be_typed() -> None:
    """Every scheme has a place above, but for dav, whose servers are typed as davs."""
    over_tls = {one for one in SCHEMES if f"{one}s" not in SCHEMES}

    assert {parse_store_address(text).scheme for text in PLACES} == over_tls


def test_what_is_missing_is_named() -> None:
    """In the words on the tiles; what may be left out is not asked for."""
    assert missing_fields("sftp", {"host": "office.example"}) == ["Login name"]
    assert missing_fields("folder", {"path": "  "}) == ["Folder"]


@pytest.mark.parametrize(
    ("kind", "typed"),
    [
        ("folder", {"path": "stick"}),
        ("sftp", {"host": "office.example:x", "user": "crew"}),
        ("sftp", {"host": "", "user": "crew"}),
        ("dav", {"host": "files.example", "path": "../etc"}),
        ("s3", {"bucket": "T", "endpoint": "https://s3.example"}),
    ],
)
def test_no_place_is_a_sentence(kind: str, typed: dict[str, str]) -> None:
    """What can't be read is refused, and says what would be."""
    with pytest.raises(StoreAddressError, match="These would be read"):
        address_of(kind, typed)


def test_nothing_set_is_nothing_typed() -> None:
    """A tablet that never exchanged begins with a choice."""
    assert typed_of("") == ("", {})
    assert store_text("") == ""
