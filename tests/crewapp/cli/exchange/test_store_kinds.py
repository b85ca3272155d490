"""Wherever a person reads which stores there are, each kind of store is named."""

from __future__ import annotations

import pytest

from crewapp.cli.main import main
from sync.stores.address import SCHEMES
from sync.stores.errors import StoreAddressError
from tests.house.tree import ROOT

# A folder needs no scheme; one without TLS (dav beside davs) is for this device alone.
KINDS = [one for one in SCHEMES if one != "file" and f"{one}s" not in SCHEMES]


def unnamed(text: str) -> list[str]:
    """Return the kinds of store that a text does not name."""
    return [one for one in KINDS if f"{one}://" not in text]


@pytest.mark.parametrize("words", [("sync",), ("office", "take")], ids=" ".join)
def test_help_names_each_kind(words: tuple[str, ...], capsys: pytest.CaptureFixture[str]) -> None:
    """The help of ``--store``, of the tablet's command and of the office's."""
    with pytest.raises(SystemExit, match="^0$"):
        main([*words, "--help"])

    told = capsys.readouterr().out.split("--store WHERE")[-1].split("--", 1)[0]
    assert unnamed(told) == []


def test_sentence_names_each_kind() -> None:
    """What is said of a text that names no store shows one of each kind that would be read."""
    assert unnamed(StoreAddressError.sentence) == []


@pytest.mark.parametrize("page", ["README.md", "sync/THREATS.md"])
def test_page_names_each_kind(page: str) -> None:
    """README says where a job may lie, THREATS.md which servers that was tried with."""
    assert unnamed((ROOT / page).read_text(encoding="utf-8")) == []


def test_kind_that_is_not_named_is_seen() -> None:
    """Planted: a text that knows folders and SFTP alone."""
    assert unnamed("a folder, or sftp://user@host/path") == [one for one in KINDS if one != "sftp"]
