"""Collections are held back, and come back as they were."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest

from models.state.gc_pause import gc_paused


@pytest.fixture(autouse=True)
def collector_on() -> Iterator[None]:
    """The collector is on before and after each test."""
    gc.enable()
    yield
    gc.enable()


def test_collections_wait() -> None:
    """Inside, no collection runs; afterwards they do."""
    with gc_paused():
        assert not gc.isenabled()

    assert gc.isenabled()


def test_collections_come_back_after_a_fault() -> None:
    """A fault on the way does not leave the collector off."""
    with pytest.raises(KeyError), gc_paused():
        raise KeyError

    assert gc.isenabled()


def test_who_had_them_off_keeps_them_off() -> None:
    """Whoever holds them back already goes on to do so."""
    with gc_paused(), gc_paused():
        pass

    gc.disable()
    with gc_paused():
        pass
    assert not gc.isenabled()
