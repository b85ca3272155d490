"""Collections are held back, and come back as they were."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from models.state.gc_pause import collected_later


@pytest.fixture(autouse=True)
def collector_on() -> Iterator[None]:
    """The collector is on before and after each test."""
    gc.enable()
    yield
    gc.enable()


def test_collections_wait() -> None:
    """Inside, no collection runs; afterwards they do."""
    with collected_later():
        assert not gc.isenabled()

    assert gc.isenabled()


def test_collections_come_back_after_a_fault() -> None:
    """A fault on the way does not leave the collector off."""
    with pytest.raises(KeyError), collected_later():
        raise KeyError

    assert gc.isenabled()


def test_who_had_them_off_keeps_them_off() -> None:
    """Whoever holds them back already goes on to do so."""
    with collected_later(), collected_later():
        pass

    gc.disable()
    with collected_later():
        pass
    assert not gc.isenabled()
